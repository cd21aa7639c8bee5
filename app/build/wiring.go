package build

import (
	"fmt"
	"io"
	"math"
	"strings"

	"mastwright/design"
)

// wiring is the table of the cable between receiver and flight controller. No order of pins is assumed: pins and colours are
// blank at both ends, to be filled in from the builder's own boards.
type wiring struct {
	Length     float64  `json:"length_mm"`
	LengthFrom string   `json:"length_from"` // "entered", or "height": the mast's height and the slack, the least it can be
	Gauge      int      `json:"gauge_awg"`
	Area       float64  `json:"area_mm2"`
	Drop       float64  `json:"drop_mv"`
	SupplyLow  float64  `json:"supply_low_v"` // at the controller's end, so that the receiver has what it accepts
	SupplyHigh float64  `json:"supply_high_v"`
	Wires      []wire   `json:"wires"`
	Advice     []string `json:"advice"`
}

type wire struct {
	Receiver         string `json:"receiver"`
	Controller       string `json:"controller"`
	PinReceiver      string `json:"pin_receiver"`
	PinController    string `json:"pin_controller"`
	ColourReceiver   string `json:"colour_receiver"`
	ColourController string `json:"colour_controller"`
}

const (
	copper        = 1.724e-8 // Ω·m at 20 °C, annealed, IEC 60028
	supplyCurrent = 0.15     // A, of a receiver with its compass; from memory
	mostDrop      = 0.05     // V, there and back; own choice
)

// wires returns the wiring table of a design: six conductors, the serial pair crossed, the bus pair straight.
func wires(doc *design.Document) wiring {
	length, from := doc.Cable.Length.Metres(), "entered"
	if !doc.Has("cable.length") {
		length, from = doc.Mast.Height.Metres()+doc.Cable.Slack.Metres(), "height"
	}
	gauge := 28
	for gauge > 20 && drop(length, gauge) > mostDrop {
		gauge -= 2
	}
	lost := drop(length, gauge)
	return wiring{
		Length: Rounded(length*1e3, 6), LengthFrom: from, Gauge: gauge, Area: Rounded(area(gauge)*1e6, 6), Drop: Rounded(lost*1e3, 6),
		SupplyLow: Rounded(doc.Receiver.Supply.Low.Volts()+lost, 6), SupplyHigh: Rounded(doc.Receiver.Supply.High.Volts(), 6),
		Wires: []wire{
			{Receiver: "power", Controller: "power"},
			{Receiver: "ground", Controller: "ground"},
			{Receiver: "serial transmit", Controller: "serial receive"},
			{Receiver: "serial receive", Controller: "serial transmit"},
			{Receiver: "bus clock", Controller: "bus clock"},
			{Receiver: "bus data", Controller: "bus data"},
		},
		Advice: []string{
			"twist clock with ground and data with power, a turn every 20 mm; never clock with data (after UM10204, wiring of bus lines, from memory)",
			"read the order of the pins from your own two boards before you crimp; a crossed power wire destroys the receiver",
		},
	}
}

// Cable is the cable between receiver and flight controller in words, and what each of its wires joins, the receiver's end first.
func Cable(doc *design.Document) (what string, wired [][2]string) {
	t := wires(doc)
	for _, w := range t.Wires {
		wired = append(wired, [2]string{w.Receiver, w.Controller})
	}
	return t.cable(), wired
}

// cable is its wires in words.
func (t wiring) cable() string {
	length := Figure(t.Length, "mm")
	if t.LengthFrom == "height" {
		length = "at least " + length + " (cable.length is not answered)"
	}
	return fmt.Sprintf("six wires of %s, %s mm2 (%d AWG) or thicker", length, Digits(t.Area, 2), t.Gauge)
}

// drop is the voltage lost there and back in V over a cable of so many metres.
func drop(length float64, gauge int) float64 {
	return 2 * copper * length * supplyCurrent / area(gauge)
}

// area is the copper area in m² of a solid wire of an American gauge, ASTM B258.
func area(gauge int) float64 {
	diameter := 0.127e-3 * math.Pow(92, float64(36-gauge)/39)
	return math.Pi / 4 * diameter * diameter
}

func printWires(w io.Writer, t wiring) {
	fmt.Fprint(w, "\n", Wrap("Wiring:", 8, fmt.Sprintf("%s; %s lost at %s, so the controller must give %s to %s.",
		t.cable(), Figure(t.Drop, "mV"), Figure(supplyCurrent, "A"), Figure(t.SupplyLow, "V"), Figure(t.SupplyHigh, "V"))))
	const row = "  %-17s%-6s%-11s%-17s%-6s%s\n"
	fmt.Fprintf(w, row, "at the receiver", "pin", "colour", "at controller", "pin", "colour")
	for _, wire := range t.Wires {
		fmt.Fprintf(w, row, wire.Receiver, strings.Repeat("_", 4), strings.Repeat("_", 9), wire.Controller, strings.Repeat("_", 4), strings.Repeat("_", 9))
	}
	for _, line := range t.Advice {
		fmt.Fprint(w, Wrap("  -", 4, Sentence(capital(line))))
	}
}
