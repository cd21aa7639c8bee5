package design

import (
	"fmt"
	"slices"

	"mastwright/design/units"
	"mastwright/materials"
)

// Measured is a value that a test gave. It goes before the library's figure or
// the model's, or is the answer of a field, until it is withdrawn.
type Measured struct {
	What      string          `yaml:"what"`      // modulus, density, stiffness, lead field, answer
	Of        string          `yaml:"of"`        // the material's ID, the lead's name, the field's path; "" for the whole mount or every lead
	Layers    string          `yaml:"layers"`    // of a modulus: across the mast's axis, or along it
	Modulus   units.Stress    `yaml:"modulus"`   // as tested, not dried
	Factor    units.Ratio     `yaml:"factor"`    // measured over predicted: density, stiffness or lead field
	Frequency units.Frequency `yaml:"frequency"` // of a tap test, what was heard
	Before    string          `yaml:"before"`    // of an answer: what the field held; "" nothing
	Spread    units.Ratio     `yaml:"spread"`    // of the value to either side, 95 % confidence
	Date      string          `yaml:"date"`      // year-month-day
	Method    string          `yaml:"method"`
	Spool     string          `yaml:"spool"`
	Printer   string          `yaml:"printer"`
	Walls     int             `yaml:"walls"` // lines of wall in the tested print
}

// The kinds of measured values.
const (
	MeasuredModulus   = "modulus"
	MeasuredDensity   = "density"
	MeasuredStiffness = "stiffness"
	MeasuredLead      = "lead field"
	MeasuredAnswer    = "answer"
)

// Finding is a measured value that a test offers, with the text that its field takes where it is an answer.
type Finding struct {
	Value  Measured
	Answer string
}

// Source says where the value comes from, "measured 2026-05-02, tap test on a block, spool 3".
func (m Measured) Source() string {
	said := "measured"
	if m.Date != "" {
		said += " " + m.Date
	}
	for _, more := range []string{m.Method, m.Spool, m.Printer} {
		if more != "" {
			said += ", " + more
		}
	}
	return said
}

// same reports whether two entries speak of the same value, so that the later takes the earlier's place.
func (m Measured) same(n Measured) bool {
	return m.What == n.What && m.Of == n.Of && (m.What != MeasuredModulus || m.Layers == n.Layers)
}

// Stiffness is the measured stiffness of the whole mount on this aircraft over
// the predicted one, and whether there is one.
func (d *Document) Stiffness() (Measured, bool) { return d.measuredOf(MeasuredStiffness, "") }

// LeadField is the measured field of a lead over the predicted one: the entry
// of that lead, or the one of all of them.
func (d *Document) LeadField(name string) (Measured, bool) {
	if m, ok := d.measuredOf(MeasuredLead, name); ok {
		return m, true
	}
	return d.measuredOf(MeasuredLead, "")
}

// AnswerMeasured is the test that gave a field its answer, and whether there
// was one.
func (d *Document) AnswerMeasured(path string) (Measured, bool) {
	return d.measuredOf(MeasuredAnswer, path)
}

func (d *Document) measuredOf(what, of string) (Measured, bool) {
	i := slices.IndexFunc(d.Measured, func(m Measured) bool { return m.What == what && m.Of == of })
	if i < 0 {
		return Measured{}, false
	}
	return d.Measured[i], true
}

// Use enters a measured value, in the place of an earlier one of the same. An
// answer is the text that its field takes from now on; other values have none.
// The error is a Problem, and then nothing is changed.
func (d *Document) Use(m Measured, answer string) error {
	next := d.Clone()
	at := slices.IndexFunc(next.Measured, m.same)
	if m.What == MeasuredAnswer {
		m.Before = ""
		if next.Origin(m.Of) == Given {
			m.Before = next.Get(m.Of)
		}
		if at >= 0 {
			m.Before = next.Measured[at].Before
		}
		if err := next.Set(m.Of, answer); err != nil {
			return err
		}
	}
	if at < 0 {
		at = next.Len("measured")
		if err := next.Insert("measured", at); err != nil {
			return err
		}
	}
	for _, leaf := range []struct{ key, value string }{
		{"what", m.What}, {"of", m.Of}, {"layers", m.Layers}, {"modulus", written(m.Modulus)}, {"factor", written(m.Factor)},
		{"frequency", written(m.Frequency)}, {"before", m.Before}, {"spread", written(m.Spread)}, {"date", m.Date}, {"method", m.Method},
		{"spool", m.Spool}, {"printer", m.Printer}, {"walls", counted(m.Walls)},
	} {
		path := join(entry("measured", at), leaf.key)
		if leaf.value == "" {
			next.Clear(path)
		} else if err := next.Set(path, leaf.value); err != nil {
			return err
		}
	}
	*d = *next
	return nil
}

// Withdraw takes a measured value out again, by its place in the list; a field
// that it answered holds what it held before. The error is a Problem.
func (d *Document) Withdraw(at int) error {
	if at < 0 || at >= len(d.Measured) {
		return Problem{Path: "measured", Text: fmt.Sprintf("there is no measured value %d; there are %d", at+1, len(d.Measured))}
	}
	if m := d.Measured[at]; m.What == MeasuredAnswer {
		if m.Before == "" {
			d.Clear(m.Of)
		} else if err := d.Set(m.Of, m.Before); err != nil {
			return err
		}
	}
	return d.Remove("measured", at)
}

// written is a quantity as a file holds it; 0 is not written.
func written[Q units.Quantity](q Q) string {
	if q == 0 {
		return ""
	}
	return q.Kind().Format(float64(q))
}

func counted(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

// corrected is a material with what was measured of it. A modulus was measured
// in humid air, the library's are dry.
func (d *Document) corrected(m materials.Material) materials.Material {
	for _, v := range d.Measured {
		if v.Of != m.ID {
			continue
		}
		low, high := units.Fraction(1-v.Spread.Fraction()), units.Fraction(1+v.Spread.Fraction())
		switch {
		case v.What == MeasuredModulus && v.Modulus > 0:
			dry := v.Modulus * units.Stress(1/m.Conditioning.Typical.Fraction())
			r := materials.Range[units.Stress]{Low: dry, Typical: dry, High: dry, Source: v.Source()}
			r.Low, r.High = r.Times(low).Low, r.Times(high).High
			if v.Layers == "across" {
				m.ModulusAcross = r
			} else {
				m.ModulusInLayer = r
			}
		case v.What == MeasuredDensity && v.Factor > 0:
			is := m.Density.Times(v.Factor).Typical
			r := materials.Range[units.Density]{Low: is, Typical: is, High: is, Source: v.Source()}
			r.Low, r.High = r.Times(low).Low, r.Times(high).High
			m.Density = r
		}
	}
	return m
}

// measured checks that every measured value names what exists and says what it is.
func (j *judge) measured() {
	ids := materials.Library().With(j.d.own).IDs()
	var leads []string
	for _, l := range j.d.Leads {
		leads = append(leads, l.Name)
	}
	for i, m := range j.d.Measured {
		path := entry("measured", i)
		of := join(path, "of")
		switch m.What {
		case "":
			j.say(path, "the entry does not say what was measured; write \"what: modulus\"")
		case MeasuredModulus, MeasuredDensity:
			if !slices.Contains(ids, m.Of) {
				j.say(of, "%q is no material; %s", m.Of, oneOf(m.Of, ids))
			}
		case MeasuredLead:
			if m.Of != "" && !slices.Contains(leads, m.Of) {
				j.say(of, "%q is no lead; %s", m.Of, oneOf(m.Of, leads))
			}
		case MeasuredStiffness:
			if m.Of != "" {
				j.say(of, "%q: a stiffness is the whole mount's; leave the line out", m.Of)
			}
		case MeasuredAnswer:
			if f, ok := FieldOf(m.Of); !ok {
				j.say(of, "%s", j.d.unknown(m.Of))
			} else if m.Before != "" {
				if err := f.Check(m.Before); err != nil {
					j.say(join(path, "before"), "%v", err)
				}
			}
		}
		for key, need := range map[string]bool{
			"modulus": m.What == MeasuredModulus && m.Modulus == 0, "layers": m.What == MeasuredModulus && m.Layers == "",
			"factor": (m.What == MeasuredDensity || m.What == MeasuredStiffness || m.What == MeasuredLead) && m.Factor == 0,
		} {
			if need {
				j.say(join(path, key), "it is needed for a measured %s; write %s", m.What, example(join(path, key)))
			}
		}
		for _, earlier := range j.d.Measured[:i] {
			if m.What != "" && m.same(earlier) {
				j.say(path, "the %s of %q is measured twice; keep one entry", m.What, m.Of)
			}
		}
	}
}
