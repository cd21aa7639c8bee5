package review

import (
	"fmt"
	"slices"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/materials"
)

// libraryOf returns the document's materials. Where the whole mount's stiffness was measured on the aircraft, every modulus goes with it: the
// test cannot tell the plastic from the foot and the frame, and only their sum is asked for. The spread is the test's.
func libraryOf(doc *design.Document) materials.List {
	list := doc.Library()
	m, ok := doc.Stiffness()
	if !ok || m.Factor <= 0 {
		return list
	}
	for i := range list {
		for _, r := range []*materials.Range[units.Stress]{&list[i].ModulusInLayer, &list[i].ModulusAcross, &list[i].ShearModulus} {
			if !r.Known() {
				continue
			}
			one := r.Times(m.Factor).Typical
			r.Low, r.Typical, r.High = one*units.Stress(1-m.Spread.Fraction()), one, one*units.Stress(1+m.Spread.Fraction())
			r.Source = m.Source()
		}
	}
	return list
}

// stiffened are the checks that a measured modulus or stiffness goes into, densities and leads below.
var stiffened = []string{"level", "sway", "modes", "shake", "strength", "tipover"}

// measured says what was measured of what a check computes with.
func (s *subject) measured(id string) []string {
	var notes []string
	say := func(what string, m design.Measured) {
		notes = append(notes, fmt.Sprintf("%s: %s", what, m.Source()))
	}
	for _, m := range s.doc.Measured {
		switch m.What {
		case design.MeasuredModulus:
			if slices.Contains(stiffened, id) && s.uses(m.Of) {
				say(fmt.Sprintf("modulus of %s, layers %s the mast, %.0f MPa ± %.0f %%", m.Of, m.Layers, m.Modulus.Megapascals(), 100*m.Spread.Fraction()), m)
			}
		case design.MeasuredStiffness:
			if slices.Contains(stiffened, id) {
				say(fmt.Sprintf("stiffness of the whole mount, %.2f of the computed one", m.Factor.Fraction()), m)
			}
		case design.MeasuredDensity:
			if id == "balance" && s.uses(m.Of) {
				say(fmt.Sprintf("density of %s, %.2f of the library's", m.Of, m.Factor.Fraction()), m)
			}
		case design.MeasuredLead:
			if id == "heading" {
				of := m.Of
				if of == "" {
					of = "every lead"
				}
				say(fmt.Sprintf("field of %s, %.2f of the computed one", of, m.Factor.Fraction()), m)
			}
		case design.MeasuredAnswer:
			f, ok := design.FieldOf(m.Of)
			if check, found := Find(id); ok && found && (slices.Contains(f.Checks, id) || slices.Contains(check.Moves, m.Of)) {
				say(fmt.Sprintf("%s %s", f.Title, s.doc.Get(m.Of)), m)
			}
		}
	}
	return notes
}

// uses reports whether a part of the mount is of a material.
func (s *subject) uses(id string) bool {
	return slices.ContainsFunc(s.materialsUsed(), func(u used) bool { return u.material.ID == id })
}
