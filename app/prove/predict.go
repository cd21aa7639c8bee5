package prove

import (
	"fmt"
	"math"

	"mastwright/design"
	"mastwright/design/evidence/vibration"
	"mastwright/design/magnetic"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/materials"
)

// standing returns the document as it stood in a vibration or hang test: on a block the frame's plate is one, and what was
// measured on the aircraft does not count.
func standing(doc *design.Document, support vibration.Support) (*design.Document, error) {
	mast, err := mastPlastic(doc)
	if err != nil {
		return nil, err
	}
	next, err := without(doc, func(m design.Measured) bool {
		return m.What == design.MeasuredStiffness || support.Modulus() && m.What == design.MeasuredModulus && m.Of == mast.material.ID && m.Layers == mast.layers()
	})
	if err != nil || !support.Modulus() {
		return next, err
	}
	chosen, ok := next.PlaceChosen()
	for i, p := range next.Airframe.Places {
		if ok && p.Name == chosen.Name {
			if err := next.Set(fmt.Sprintf("airframe.places[%d].plate.backing", i), "block"); err != nil {
				return nil, refuse(err.Error())
			}
		}
	}
	return next, nil
}

// modes returns the modes of a review that a support shows.
func modes(r review.Result, support vibration.Support) []vibration.Mode {
	list := r.Held
	if support.Flying() {
		list = r.Flying
	}
	var out []vibration.Mode
	for _, m := range list {
		out = append(out, vibration.Mode{Name: m.Shape, Hz: m.Hz, Low: m.Low, High: m.High, Flying: support.Flying()})
	}
	return out
}

// plastic is the material of the mast and how its layers lie.
type plastic struct {
	material  materials.Material
	direction materials.Direction
}

func mastPlastic(doc *design.Document) (plastic, error) {
	assembly, wrong := parts.Build(doc)
	if len(wrong) > 0 {
		return plastic{}, unbuilt(wrong)
	}
	mast := assembly.Members[0]
	m, err := doc.Library().Find(mast.Material)
	if err != nil {
		return plastic{}, refuse(err.Error())
	}
	p := plastic{material: m}
	for _, part := range assembly.Parts {
		if part.Name == mast.Part && part.Making == parts.Printed && part.Orientation == "upright" && standsUp(part, mast) {
			p.direction = materials.Across
		}
	}
	return p, nil
}

// standsUp reports whether a member stands on the bed in the way its part is printed.
func standsUp(part parts.Part, m parts.Member) bool {
	return math.Abs(part.Turn.Apply(m.To).Z-part.Turn.Apply(m.From).Z) >= m.Length()/2
}

func unbuilt(wrong []design.Problem) error {
	var r Refusal
	for _, p := range wrong {
		r.Sentences = append(r.Sentences, p.String())
	}
	return r
}

// layers is the direction in the words of a measured modulus.
func (p plastic) layers() string {
	if p.direction == materials.Across {
		return "across"
	}
	return "along"
}

// modulus is the typical modulus in humid air, Pa: what a test at room temperature finds.
func (p plastic) modulus() float64 {
	return p.material.Modulus(p.direction).Typical.Pascals() * p.material.Conditioning.Typical.Fraction()
}

// earth is the field of the earth at the site.
func earth(doc *design.Document) (magnetic.Elements, error) {
	for _, path := range []string{"site.latitude", "site.longitude", "site.year"} {
		if !doc.Has(path) {
			return magnetic.Elements{}, refuse("The place on earth is not answered: fill in site.latitude, site.longitude and site.year.")
		}
	}
	field, err := magnetic.Earth(magnetic.Place{
		Latitude: doc.Site.Latitude.Radians(), Longitude: doc.Site.Longitude.Radians(), Height: doc.Site.Altitude.Metres(),
	}, doc.Site.Year.Fraction(), magnetic.EarthOptions{Extrapolated: doc.Site.Extrapolated})
	return field.Elements, refused(err)
}
