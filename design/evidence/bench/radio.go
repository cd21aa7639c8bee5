package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Reception is one reading of a receiver that stands still under open sky.
type Reception struct {
	Device     string  // what was switched; "" with everything off
	On         bool    // Device was on; everything else was off
	Satellites float64 // used, or in view; the same kind in all rows
	Signal     float64 // dB-Hz, mean strength of the strongest, or of all; the same kind in all rows
}

// Radio is what devices cost a receiver.
type Radio struct {
	Devices  []Device `json:"devices"` // the costliest first
	Spread   float64  `json:"spread"`  // dB, standard deviation of single readings
	Presumed bool     `json:"spread_presumed"`
	Words    []string `json:"words"`
}

// Device is what one device costs.
type Device struct {
	Name       string   `json:"name"`
	Signal     Estimate `json:"signal_db"`  // dB lost when it is on
	Satellites float64  `json:"satellites"` // lost when it is on
	Matters    bool     `json:"matters"`    // more than 1 dB, beyond doubt
	Words      string   `json:"words"`
}

// presumed is the standard deviation of a reading, in dB, where nothing was read twice. Common practice, no source.
const presumed = 1.0

// ReadRadio makes readings of words and numbers as a table has them: "all off" or "off" with everything off, "camera on",
// "camera off", or "camera" for on.
func ReadRadio(states []string, satellites, signal []float64) ([]Reception, error) {
	if len(satellites) != len(states) || len(signal) != len(states) {
		panic("bench: states and readings of different lengths")
	}
	var rows []Reception
	for i, s := range states {
		words := strings.Fields(strings.ToLower(s))
		if len(words) == 0 {
			return nil, refuse("write \"all off\", \"camera on\" or \"camera off\"", "row %d does not say what was switched on", i+1)
		}
		r := Reception{On: true, Satellites: satellites[i], Signal: signal[i]}
		switch last := words[len(words)-1]; last {
		case "on", "off":
			r.On = last == "on"
			words = words[:len(words)-1]
		}
		r.Device = strings.Join(words, " ")
		if slices.Contains([]string{"", "all", "everything", "none", "nothing"}, r.Device) {
			if r.On && r.Device != "none" && r.Device != "nothing" {
				return nil, refuse("switch one device at a time", "row %d has everything on", i+1)
			}
			r.Device, r.On = "", false
		}
		rows = append(rows, r)
	}
	return rows, nil
}

// Cost compares each device on with the same device off, or with everything off where that was not read. No distance follows
// from it: how the loss falls with distance depends on what the device sends and through which leads.
func Cost(rows []Reception) (Radio, error) {
	type pile struct{ signal, satellites []float64 }
	piles := map[Reception]*pile{}
	var names []string
	for i, r := range rows {
		if err := numbers(fmt.Sprintf("row %d", i+1), r.Signal, r.Satellites); err != nil {
			return Radio{}, err
		}
		if r.Signal < 5 || r.Signal > 65 || r.Satellites < 0 || r.Satellites > 200 {
			return Radio{}, refuse("write the mean signal strength in dB-Hz, usually 25 to 50, and the count of satellites",
				"row %d: %.4g dB-Hz with %.4g satellites is no reading of a receiver", i+1, r.Signal, r.Satellites)
		}
		key := Reception{Device: r.Device, On: r.On && r.Device != ""}
		if piles[key] == nil {
			piles[key] = &pile{}
		}
		piles[key].signal = append(piles[key].signal, r.Signal)
		piles[key].satellites = append(piles[key].satellites, r.Satellites)
		if r.Device != "" && !slices.Contains(names, r.Device) {
			names = append(names, r.Device)
		}
	}
	var result Radio
	rest, freedom := 0.0, 0
	for _, r := range rows { // in the order of the rows, for the same sum every time
		if p := piles[Reception{Device: r.Device, On: r.On && r.Device != ""}]; len(p.signal) > 1 {
			d := r.Signal - mean(p.signal)
			rest += d * d
		}
	}
	for _, p := range piles {
		freedom += len(p.signal) - 1
	}
	width := Student(1000)
	if result.Spread, result.Presumed = presumed, true; freedom > 0 {
		result.Spread, result.Presumed, width = max(math.Sqrt(rest/float64(freedom)), .1), false, Student(freedom)
	}
	for _, name := range names {
		on, off := piles[Reception{Device: name, On: true}], piles[Reception{Device: name}]
		if off == nil {
			off = piles[Reception{}]
		}
		if on == nil || off == nil {
			return Radio{}, refuse("read it off and on", "%s was not read both off and on", name)
		}
		plus := width * result.Spread * math.Sqrt(1/float64(len(on.signal))+1/float64(len(off.signal)))
		d := Device{Name: name, Signal: Around(mean(off.signal)-mean(on.signal), plus), Satellites: mean(off.satellites) - mean(on.satellites)}
		d.Matters = d.Signal.Low > 0 && d.Signal.Value > 1
		d.Words = d.words()
		result.Devices = append(result.Devices, d)
	}
	if len(names) == 0 {
		return Radio{}, refuse("read the receiver with each device off and on", "no device was switched")
	}
	slices.SortStableFunc(result.Devices, func(a, b Device) int {
		return cmp.Or(cmp.Compare(b.Signal.Value, a.Signal.Value), cmp.Compare(b.Satellites, a.Satellites))
	})
	result.words()
	return result, nil
}

// words says how much a device costs. 3 dB is half of the power over the noise; the steps are common practice, no source.
func (d Device) words() string {
	s := fmt.Sprintf("%s costs %.1f ± %.1f dB", d.Name, d.Signal.Value, d.Signal.Plus())
	if n := math.Round(d.Satellites); n >= 1 {
		s += fmt.Sprintf(" and %.0f satellites", n)
	}
	switch {
	case !d.Matters && d.Satellites < 2:
		much := "nothing that these readings show"
		if d.Signal.Low > 0 {
			much = "little"
		}
		return fmt.Sprintf("%s costs %s (%.1f ± %.1f dB)", d.Name, much, d.Signal.Value, d.Signal.Plus())
	case d.Signal.Value >= 6:
		return s + ": the receiver is nearly deaf beside it"
	case d.Signal.Value >= 3:
		return s + ": half of the signal's lead over the noise and more"
	}
	return s
}

func (r *Radio) words() {
	for _, d := range r.Devices {
		r.Words = append(r.Words, d.Words)
	}
	if d := r.Devices[0]; d.Matters || d.Satellites >= 2 {
		r.Words = append(r.Words, fmt.Sprintf("move %s first, or put copper foil joined to its ground between it and the receiver; then read again", d.Name))
	} else {
		r.Words = append(r.Words, "nothing needs to move")
	}
	if r.Presumed {
		r.Words = append(r.Words, "nothing was read twice: a spread of 1 dB is presumed; read each state twice, the second time in the other order")
	}
	r.Words = append(r.Words, "how far to move it does not follow from this test")
}
