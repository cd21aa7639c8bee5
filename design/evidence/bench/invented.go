package bench

import (
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strconv"

	"mastwright/design/evidence/record"
)

// invented begins the first comment of every file made here.
const invented = record.InventedMark + ": made up for trying out, not measured"

// InventedHang describes loads to make up: taken up in five steps and down again. It is the same for the same description.
type InventedHang struct {
	Stiffness float64 // N/m, or N/rad for a pointer without rotation; 0 means 12000
	Most      float64 // kg, greatest mass; 0 means 1
	TakeUp    float64 // m (or rad) that the base moves before it bears, between nothing and the first step
	Drift     float64 // m (or rad) of growth from first to last
	Noise     float64 // standard deviation of each reading, m along the scale; 0 means 0.004 mm; below 0 none
	Gauge     Gauge
	Distance  float64 // m, of a pointer; 0 means 3
	Rotation  float64 // rad/m, of a pointer
	Seed      uint64
}

// Loads returns the pairs.
func (h InventedHang) Loads() []Load {
	or(&h.Stiffness, 12000)
	or(&h.Most, 1)
	or(&h.Noise, .004e-3)
	or(&h.Distance, 3)
	random := rand.New(rand.NewPCG(h.Seed, 1))
	var loads []Load
	steps := []float64{0, .2, .4, .6, .8, 1, .8, .6, .4, .2, 0}
	for i, part := range steps {
		move := part*h.Most*9.80665/h.Stiffness + h.Drift*float64(i)/float64(len(steps)-1)
		if part > 0 {
			move += h.TakeUp
		}
		if h.Gauge == Pointer {
			if h.Rotation > 0 {
				move *= h.Rotation
			}
			move *= h.Distance
		}
		loads = append(loads, Load{Mass: part * h.Most, Reading: move + max(h.Noise, 0)*random.NormFloat64()})
	}
	return loads
}

// Write writes the pairs as a table with masses in kg and readings in mm.
func (h InventedHang) Write(w io.Writer) error {
	var mass, reading []float64
	for _, l := range h.Loads() {
		mass, reading = append(mass, l.Mass), append(reading, 1000*l.Reading)
	}
	return record.WriteTable(w, invented, []string{"mass (kg)", "deflection (mm)"}, [][]float64{mass, reading})
}

// InventedWeigh describes masses to make up. It is the same for the same description.
type InventedWeigh struct {
	Names    []string  // nil means foot, mast and tray
	Designed []float64 // kg, one a name; nil means 22, 31 and 18 g
	Density  float64   // effective, over the design's; 0 means .94
	Division float64   // kg, to which the masses are rounded; 0 means 0.1 g
}

// Parts returns the parts on the scale.
func (v InventedWeigh) Parts() []Part {
	if v.Names == nil {
		v.Names, v.Designed = []string{"foot", "mast", "tray"}, []float64{.022, .031, .018}
	}
	or(&v.Density, .94)
	or(&v.Division, 1e-4)
	var parts []Part
	for i, n := range v.Names {
		steps := v.Density * v.Designed[i] / v.Division
		parts = append(parts, Part{Name: n, Mass: float64(int(steps+.5)) * v.Division, Designed: v.Designed[i]})
	}
	return parts
}

// Write writes part, measured and designed mass in grams.
func (v InventedWeigh) Write(w io.Writer) error {
	rows := [][]string{{"part", "mass (g)", "designed (g)"}}
	for _, p := range v.Parts() {
		rows = append(rows, []string{p.Name, number(1000 * p.Mass), number(1000 * p.Designed)})
	}
	return writeWords(w, rows)
}

// InventedRadio describes receptions to make up: everything off, then each device off and on, twice over. It is the same for
// the same description.
type InventedRadio struct {
	Names  []string  // nil means video transmitter, camera and storage card
	Costs  []float64 // dB, one a name; nil means 2.2, 6.5 and .3
	Signal float64   // dB-Hz with everything off; 0 means 42
	Noise  float64   // dB, standard deviation; 0 means .4
	Seed   uint64
}

// Rows returns the readings.
func (v InventedRadio) Rows() []Reception {
	if v.Names == nil {
		v.Names, v.Costs = []string{"video transmitter", "camera", "storage card"}, []float64{2.2, 6.5, .3}
	}
	or(&v.Signal, 42)
	or(&v.Noise, .4)
	random := rand.New(rand.NewPCG(v.Seed, 2))
	read := func(device string, on bool, cost float64) Reception {
		signal := v.Signal - cost + v.Noise*random.NormFloat64()
		return Reception{Device: device, On: on, Signal: float64(int(10*signal+.5)) / 10, Satellites: float64(int(18 - 1.1*cost + .5))}
	}
	var rows []Reception
	for range 2 {
		rows = append(rows, read("", false, 0))
		for i, n := range v.Names {
			rows = append(rows, read(n, false, 0), read(n, true, v.Costs[i]))
		}
	}
	return rows
}

// Write writes the readings with what was switched in words.
func (v InventedRadio) Write(w io.Writer) error {
	rows := [][]string{{"state", "satellites", "signal (dB-Hz)"}}
	for _, r := range v.Rows() {
		state := "all off"
		if r.Device != "" {
			state = r.Device + map[bool]string{true: " on", false: " off"}[r.On]
		}
		rows = append(rows, []string{state, number(r.Satellites), number(r.Signal)})
	}
	return writeWords(w, rows)
}

func writeWords(w io.Writer, rows [][]string) error {
	if _, err := fmt.Fprintf(w, "# %s\n", invented); err != nil {
		return err
	}
	return csv.NewWriter(w).WriteAll(rows)
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

func or(v *float64, usual float64) {
	if *v == 0 {
		*v = usual
	}
}
