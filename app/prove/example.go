package prove

import (
	"fmt"
	"io"
	"math"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
)

// ExampleOptions say what kind of record is made up. The zero value is a table.
type ExampleOptions struct {
	Sound bool // a sound as WAV; of the tests that can hear
}

// soundRate is how many samples a made-up sound has in a second: what a telephone passes is enough to hear a mast, and keeps the file small.
const soundRate = 8000

// Audible reports whether a test can read a sound.
func Audible(test string) bool { return test == "tap" || test == "hover" }

// Example writes a record of a test that suits the design, made up and marked as that: a mount a little softer and lighter
// than designed, leads a little worse, a compass a quarter turn off. The same design gives the same bytes.
func Example(w io.Writer, doc *design.Document, test string, o ExampleOptions) error {
	if o.Sound && !Audible(test) {
		return refuse(test + " has no sound; the tests with one are tap and hover.")
	}
	switch test {
	case "weigh":
		list, err := Weighable(doc)
		if err != nil {
			return err
		}
		var v bench.InventedWeigh
		for _, p := range list {
			v.Names, v.Designed = append(v.Names, p.Name), append(v.Designed, p.Designed)
		}
		return v.Write(w)
	case "caliper":
		return exampleCaliper(w, doc)
	case "tap", "hang":
		return exampleBench(w, doc, test, o)
	case "throttle":
		field, err := earth(doc)
		if err != nil {
			return err
		}
		e, err := expect(doc)
		if err != nil {
			return err
		}
		slope := 1.3 * e.slope.Value
		return compass.InventedThrottle{Slope: [3]float64{.8 * slope, .6 * slope, .2 * slope}, Field: [3]float64{field.H, 0, field.Z}, Idle: e.idle, Full: e.full}.Write(w)
	case "pointing":
		v := compass.InventedPointing{Turn: math.Pi / 2}
		if field, err := earth(doc); err == nil {
			v.Dip = field.I
		}
		return v.Write(w)
	case "hover":
		result, err := judged(doc)
		if err != nil {
			return err
		}
		v := vibration.InventedHover{Blades: doc.Motors.Blades, Sound: o.Sound}
		if !o.Sound {
			v.Once, v.Pass, v.Noise = .5, .25, .2
		}
		if band, ok := hoverBand(result); ok {
			for _, part := range []float64{.95, .98, 1.01, 1.04} {
				v.Speeds = append(v.Speeds, part*band.Value)
			}
			v.Rate = math.Max(1000, math.Ceil(10*band.High*float64(max(2, v.Blades))/1000)*1000)
		}
		return v.Write(w)
	case "turn":
		v := compass.InventedTurn{}
		if field, err := earth(doc); err == nil {
			v.Total = field.F
		}
		return v.Write(w)
	case "radio":
		return bench.InventedRadio{}.Write(w)
	}
	return noTest(test)
}

// exampleBench is a mount on a block whose plastic has nine tenths of the library's stiffness.
func exampleBench(w io.Writer, doc *design.Document, test string, o ExampleOptions) error {
	stood, err := standing(doc, vibration.OnBlock)
	if err != nil {
		return err
	}
	p, err := mastPlastic(stood)
	if err != nil {
		return err
	}
	softer, err := p.scaled(new(review.Workshop), stood, .9)
	if err != nil {
		return err
	}
	if len(softer.Held) == 0 || softer.Tip.Compliance <= 0 {
		return refuse("The design predicts no frequency yet: answer what mastwright missing asks of the modes.")
	}
	if test == "hang" {
		stiffness := 1e3 / softer.Tip.Compliance
		return bench.InventedHang{Stiffness: stiffness, Most: math.Max(1, math.Ceil(.25e-3*stiffness/gravity))}.Write(w) // a quarter of a millimetre, for a dial
	}
	hz := softer.Held[0].Hz
	if o.Sound {
		return vibration.InventedTap{Hz: hz, Rate: soundRate, Sound: true}.Write(w)
	}
	return vibration.InventedTap{Hz: hz, Rate: math.Max(1000, math.Ceil(hz/100)*1000)}.Write(w)
}

// exampleCaliper is a print three thousandths too small, its holes a quarter of a millimetre too narrow.
func exampleCaliper(w io.Writer, doc *design.Document) error {
	list, err := Dimensions(doc)
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(w, "# %s: made up for trying out, not measured\ndimension,measured (mm)\n", record.InventedMark); err != nil {
		return err
	}
	holes, outside := 0, 0
	for _, d := range list {
		mm := d.Designed * 1e3 * .997
		if d.Hole {
			holes++
			mm = d.Designed*1e3 + doc.Print.HoleAdd.Millimetres() - .25
		} else {
			outside++
		}
		if d.Hole && holes > 2 || !d.Hole && outside > 4 {
			continue
		}
		if _, err := fmt.Fprintf(w, "%s,%.2f\n", d.Name, mm); err != nil {
			return err
		}
	}
	return nil
}
