package bench

import (
	"fmt"
	"math"
)

// Dimension is one measured dimension of a print.
type Dimension struct {
	Name     string
	Designed float64 // m, without what the print settings add to holes
	Measured float64 // m
	Hole     bool    // a hole's diameter; else an outside dimension
	Along    string  // direction of the printer, "x", "y", "z"; "" when not known
}

// CaliperOptions say how the caliper and the print are. The zero value is a caliper of a twentieth of a millimetre.
type CaliperOptions struct {
	Division float64 // m, of the caliper; 0 means 0.05 mm
	HoleAdd  float64 // m, what was added to every hole's diameter when this was printed
}

// Calipered is what the dimensions say.
type Calipered struct {
	Scale      Estimate            `json:"scale"`      // measured over designed of the outside dimensions; value 0 when not known
	Directions []Direction         `json:"directions"` // where more than one was told, in the order of their names
	HoleAdd    Estimate            `json:"hole_add_m"` // what to add to holes from now on, m
	HoleChange Estimate            `json:"hole_change_m"`
	Holes      int                 `json:"holes"` // used for HoleAdd; 0 means HoleAdd is not known
	Dimensions []MeasuredDimension `json:"dimensions"`
	Words      []string            `json:"words"`
}

// Direction is the scale along one direction of the printer.
type Direction struct {
	Along string   `json:"along"`
	Scale Estimate `json:"scale"`
}

// MeasuredDimension is one dimension against what the found scale makes of it.
type MeasuredDimension struct {
	Name string  `json:"name"`
	Off  float64 `json:"off_m"`  // measured without designed
	Rest float64 `json:"rest_m"` // of Off, what scale or hole correction do not explain
}

// scattered is the rest, in m, beyond which outside dimensions do not belong to one scale, and beyond which holes do not
// belong to one correction. Common practice, no source.
const scattered = .3e-3

// Caliper finds the scale of a print and what to add to its holes. Outside dimensions give the scale by least squares through
// zero, holes the mean of what they are narrower. Fewer than two dimensions, dimensions that are far from the designed ones
// and dimensions that contradict each other by more than 0.3 mm are refused, with the worst one named.
func Caliper(dimensions []Dimension, o CaliperOptions) (Calipered, error) {
	if o.Division == 0 {
		o.Division = .05e-3
	}
	var outside, holes []Dimension
	for _, d := range dimensions {
		if err := numbers(d.Name, d.Designed, d.Measured); err != nil {
			return Calipered{}, err
		}
		if d.Designed <= 0 || d.Measured <= 0 {
			return Calipered{}, refuse("measure it again", "%s: %.4g mm against %.4g mm designed", d.Name, 1000*d.Measured, 1000*d.Designed)
		}
		if off := math.Abs(d.Measured - d.Designed); off > max(.05*d.Designed, 1e-3) {
			return Calipered{}, refuse("check that it is the same dimension, in millimetres",
				"%s: %.4g mm against %.4g mm designed is more than a printer is off", d.Name, 1000*d.Measured, 1000*d.Designed)
		}
		if d.Hole {
			holes = append(holes, d)
		} else {
			outside = append(outside, d)
		}
	}
	if len(dimensions) < 2 {
		return Calipered{}, refuse("measure two or more outside dimensions, or two or more holes", "%d dimension says nothing about its spread", len(dimensions))
	}
	c := Calipered{Scale: Estimate{}, Holes: len(holes)}
	scale := 1.0
	if len(outside) > 0 {
		var err error
		if c.Scale, err = scaleOf(outside, o.Division); err != nil {
			return Calipered{}, err
		}
		scale = c.Scale.Value
		c.directions(outside, o.Division)
	}
	if len(holes) > 0 {
		var narrower []float64
		for _, d := range holes {
			narrower = append(narrower, (d.Designed-d.Measured)/scale)
		}
		if err := together(holes, narrower, "the holes do not go together", mean(narrower)); err != nil {
			return Calipered{}, err
		}
		var err error
		if c.HoleChange, err = Mean(narrower, o.Division); err != nil {
			return Calipered{}, err
		}
		c.HoleAdd = Estimate{o.HoleAdd + c.HoleChange.Value, o.HoleAdd + c.HoleChange.Low, o.HoleAdd + c.HoleChange.High}
	}
	for _, d := range dimensions {
		m := MeasuredDimension{Name: d.Name, Off: d.Measured - d.Designed}
		if m.Rest = d.Measured - scale*d.Designed; d.Hole {
			m.Rest = m.Off + c.HoleChange.Value*scale
		}
		c.Dimensions = append(c.Dimensions, m)
	}
	c.words(len(outside), o.HoleAdd)
	return c, nil
}

// scaleOf is the scale of outside dimensions; one alone has the caliper's division for its confidence.
func scaleOf(dimensions []Dimension, division float64) (Estimate, error) {
	var md, dd, rest float64
	for _, d := range dimensions {
		md += d.Measured * d.Designed
		dd += d.Designed * d.Designed
	}
	scale := md / dd
	var off []float64
	for _, d := range dimensions {
		r := d.Measured - scale*d.Designed
		off = append(off, r)
		rest += r * r
	}
	if err := together(dimensions, off, "the outside dimensions do not go together", 0); err != nil {
		return Estimate{}, err
	}
	plus := division / math.Sqrt(dd)
	if n := len(dimensions) - 1; n > 0 {
		plus = max(plus, Student(n)*math.Sqrt(rest/float64(n)/dd))
	}
	return Around(scale, plus), nil
}

// together refuses dimensions of which one is off the common value by more than what is called scattered.
func together(dimensions []Dimension, off []float64, text string, common float64) error {
	worst := 0
	for i := range off {
		if math.Abs(off[i]-common) > math.Abs(off[worst]-common) {
			worst = i
		}
	}
	if by := math.Abs(off[worst] - common); by > scattered {
		return refuse("measure "+dimensions[worst].Name+" again", "%s: %s is off the others by %.2f mm", text, dimensions[worst].Name, 1000*by)
	}
	return nil
}

func (c *Calipered) directions(outside []Dimension, division float64) {
	for _, along := range []string{"x", "y", "z"} {
		var these []Dimension
		for _, d := range outside {
			if d.Along == along {
				these = append(these, d)
			}
		}
		if len(these) > 0 && len(these) < len(outside) {
			if s, err := scaleOf(these, division); err == nil {
				c.Directions = append(c.Directions, Direction{along, s})
			}
		}
	}
}

func (c *Calipered) words(outside int, add float64) {
	say := func(format string, a ...any) { c.Words = append(c.Words, fmt.Sprintf(format, a...)) }
	off := func(s Estimate) string {
		switch {
		case s.Low <= 1 && 1 <= s.High:
			return "true to size"
		case s.Value < 1:
			return fmt.Sprintf("small by %.2f %%", 100*(1-s.Value))
		}
		return fmt.Sprintf("large by %.2f %%", 100*(s.Value-1))
	}
	if outside > 0 {
		say("the print is %s (± %.2f %%)", off(c.Scale), 100*c.Scale.Plus())
	} else {
		say("no outside dimension was measured: the scale is not known")
	}
	for _, d := range c.Directions {
		say("along %s it is %s (± %.2f %%)", d.Along, off(d.Scale), 100*d.Scale.Plus())
	}
	switch {
	case c.Holes == 0:
		say("no hole was measured: what to add to holes is not known")
	case c.HoleChange.Low <= 0 && 0 <= c.HoleChange.High:
		say("holes come out right within %.2f mm: keep adding %.2f mm", 1000*c.HoleChange.Plus(), 1000*add)
	default:
		narrow := "narrow"
		if c.HoleChange.Value < 0 {
			narrow = "wide"
		}
		say("holes come out too %s by %.2f ± %.2f mm: add %.2f mm instead of %.2f mm",
			narrow, 1000*math.Abs(c.HoleChange.Value), 1000*c.HoleChange.Plus(), 1000*c.HoleAdd.Value, 1000*add)
	}
}
