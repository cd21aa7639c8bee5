package certainty

import (
	"fmt"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/motor"
	"mastwright/design/units"
	"mastwright/materials"
)

// Property is a figure that is not known for sure.
type Property struct {
	Name   string // "modulus, PETG"
	Law    Law
	Unit   string // "" for a ratio
	Source string // where the spread is from

	draw func(l *lot, u float64)
}

// lot is one drawing: what a design is made of, and what is assumed about it.
type lot struct {
	library materials.List
	answers []answer
	yield   float64 // of the plates under the mast, share of their compliance
}

type answer struct{ path, text string }

// properties returns what is uncertain about a design: the figures of the materials it is made of, the judgements that state a
// range, what was measured with a spread, and how far the plates under the mast are held by their screws.
func properties(doc *design.Document) []Property {
	list := ofMaterials(doc)
	list = append(list, ofAssumptions(doc)...)
	return append(list, ofMeasurements(doc)...)
}

// made returns the IDs of the materials that the design is made of, as it stands.
func made(doc *design.Document) []string {
	known := doc.Library().IDs()
	var ids []string
	for _, path := range doc.Paths() {
		id := doc.Get(path)
		names := strings.HasPrefix(path, "materials.") || strings.HasSuffix(path, ".material")
		if names && doc.Asked(path) && slices.Contains(known, id) && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return ids
}

func ofMaterials(doc *design.Document) []Property {
	library := doc.Library()
	var list []Property
	for _, id := range made(doc) {
		i := slices.Index(library.IDs(), id)
		m := library[i]
		stiffness, strength, stretch := m.ModulusAcross, m.StrengthAcross, m.ElongationAcross
		if m.Form != materials.Print || doc.Print.Orientation == "lying" {
			stiffness, strength, stretch = m.ModulusInLayer, m.StrengthInLayer, m.ElongationInLayer
		}
		list = append(list,
			ranged("modulus", m, stiffness, func(m *materials.Material, u float64) {
				settle(&m.ModulusInLayer, u)
				settle(&m.ModulusAcross, u)
				settle(&m.ShearModulus, u)
			}),
			ranged("strength", m, strength, func(m *materials.Material, u float64) {
				settle(&m.StrengthInLayer, u)
				settle(&m.StrengthAcross, u)
				settle(&m.ClampStrength, u)
			}),
			ranged("elongation", m, stretch, func(m *materials.Material, u float64) {
				settle(&m.ElongationInLayer, u)
				settle(&m.ElongationAcross, u)
			}),
			ranged("density", m, m.Density, func(m *materials.Material, u float64) { settle(&m.Density, u) }),
			ranged("softening", m, m.Softening, func(m *materials.Material, u float64) { settle(&m.Softening, u) }),
			ranged("damping", m, m.LossFactor, func(m *materials.Material, u float64) { settle(&m.LossFactor, u) }),
		)
	}
	return slices.DeleteFunc(list, func(p Property) bool { return !p.Law.spreads() })
}

// ranged is a property of a material, shown by one of its figures.
func ranged[Q units.Quantity](what string, m materials.Material, r materials.Range[Q], settle func(*materials.Material, float64)) Property {
	id := m.ID
	return Property{
		Name: what + ", " + m.Title, Law: law(r), Unit: r.Typical.Kind().Unit(), Source: r.Source,
		draw: func(l *lot, u float64) {
			if i := slices.Index(l.library.IDs(), id); i >= 0 {
				settle(&l.library[i], u)
			}
		},
	}
}

func law[Q units.Quantity](r materials.Range[Q]) Law {
	return Law{Low: float64(r.Low), Typical: float64(r.Typical), High: float64(r.High)}
}

// settle leaves of a range the one figure that a share of it lies below.
func settle[Q units.Quantity](r *materials.Range[Q], u float64) {
	if !r.Known() {
		return
	}
	is := Q(law(*r).Quantile(u))
	r.Low, r.Typical, r.High = is, is, is
}

// judgement is an assumption whose spread is stated with its field.
type judgement struct {
	path string
	law  func(typical float64) Law
	says string
}

var judgements = []judgement{
	{"assume.contact_hard", func(t float64) Law { return within(3, t) }, "a judgement within a factor of 3"},
	{"assume.contact_turf", func(t float64) Law { return within(3, t) }, "a judgement within a factor of 3"},
	{"assume.thrust_ripple", between(0.01, 0.1), "0.01 to 0.10, a judgement"},
	{"assume.clamp_bed", between(0.5, 2), "0.5 to 2, a judgement"},
}

// between is the law of a judgement with ends of its own, stretched to a typical figure beyond them.
func between(low, high float64) func(float64) Law {
	return func(typical float64) Law {
		return Law{Low: min(low, typical), Typical: typical, High: max(high, typical), Logarithmic: true}
	}
}

func ofAssumptions(doc *design.Document) []Property {
	var list []Property
	ground := map[string]string{"hard": "assume.contact_hard", "turf": "assume.contact_turf"}
	for _, j := range judgements {
		other := strings.HasPrefix(j.path, "assume.contact_") && ground[doc.Loads.Ground] != j.path
		if _, measured := doc.AnswerMeasured(j.path); measured || other || !doc.Asked(j.path) {
			continue
		}
		list = append(list, answered(doc, j.path, "", j.says, j.law))
	}
	if !doc.Has("assume.thrust_coefficient") && doc.Has("motors.blades") {
		ct := motor.ThrustCoefficient(doc.Motors.Blades)
		list = append(list, stated("assume.thrust_coefficient", "", "by number of blades", Law{Low: ct.Low, Typical: ct.Mid, High: ct.High}))
	}
	for i, lead := range doc.Leads {
		path := fmt.Sprintf("leads[%d].loop_factor", i)
		_, measured := doc.LeadField(lead.Name)
		if _, answer := doc.AnswerMeasured(path); measured || answer || !doc.Asked(path) {
			continue
		}
		f, _ := design.FieldOf(path)
		list = append(list, answered(doc, path, lead.Name, "common practice, the field's range", func(t float64) Law { return Law{Low: f.Low, Typical: t, High: f.High} }))
	}
	list = append(list, Property{
		Name: "give of the seat", Law: Law{Low: 0, Typical: 0.5, High: 1},
		Source: "screws from clamping to pinning; share of the plates' compliance, a judgement",
		draw:   func(l *lot, u float64) { l.yield = max(leastYield, Law{High: 1, Typical: 0.5}.Quantile(u)) },
	})
	return slices.DeleteFunc(list, func(p Property) bool { return !p.Law.spreads() })
}

// leastYield stands for plates that do not give at all.
const leastYield = 1e-6

// answered is the property of a field that holds its typical figure.
func answered(doc *design.Document, path, of, source string, law func(typical float64) Law) Property {
	f, _ := design.FieldOf(path)
	typical, err := f.Kind.Parse(doc.Get(path))
	if err != nil {
		return Property{}
	}
	return stated(path, of, source, law(typical))
}

// stated is the property of a field with a law of its own.
func stated(path, of, source string, law Law) Property {
	f, _ := design.FieldOf(path)
	name := strings.ToLower(f.Title)
	if of != "" {
		name += ", " + of
	}
	law.Low, law.High = max(law.Low, f.Low), min(law.High, f.High)
	return Property{Name: name, Law: law, Unit: f.Kind.Unit(), Source: source, draw: func(l *lot, u float64) {
		l.answers = append(l.answers, answer{path, f.Kind.Format(law.Quantile(u))})
	}}
}

// ofMeasurements returns what was measured with a spread, materials aside, whose spread the library has.
func ofMeasurements(doc *design.Document) []Property {
	var list []Property
	kept := -1 // index in the document of a lot, whose materials were measured already
	for _, m := range doc.Measured {
		if !ofMaterial(m) {
			kept++
		}
		spread := m.Spread.Fraction()
		if spread <= 0 {
			continue
		}
		about := func(typical float64) Law {
			return Law{Low: typical * (1 - spread), Typical: typical, High: typical * (1 + spread)}
		}
		switch m.What {
		case design.MeasuredStiffness, design.MeasuredLead:
			p := stated(fmt.Sprintf("measured[%d].factor", kept), "", m.Source(), about(m.Factor.Fraction()))
			p.Name = strings.TrimSuffix(m.What+", "+m.Of, ", ")
			list = append(list, p)
		case design.MeasuredAnswer:
			if f, ok := design.FieldOf(m.Of); ok && f.Form == design.Quantity {
				list = append(list, answered(doc, m.Of, "", m.Source(), about))
			}
		}
	}
	return slices.DeleteFunc(list, func(p Property) bool { return !p.Law.spreads() })
}

// ofMaterial reports whether a measured value is a material's, which the library has.
func ofMaterial(m design.Measured) bool {
	return m.What == design.MeasuredModulus || m.What == design.MeasuredDensity
}
