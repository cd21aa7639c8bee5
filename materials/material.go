// Package materials knows what a mount can be made of: print plastics, sheet
// and tube, each with low, typical and high figures, their direction and their
// source.
//
// In layer means in the plane of printing, or along the fibres or the sheet;
// across means from layer to layer, or through the thickness.
package materials

import "mastwright/design/units"

// Material is one material as it is bought. Moduli are those of the dry
// material at room temperature; see [Material.Service] for those in use.
type Material struct {
	ID    string // lower case, digits and dashes: "pa6-cf"
	Title string
	Form  Form

	Density           Range[units.Density]
	ModulusInLayer    Range[units.Stress] // of elasticity
	ModulusAcross     Range[units.Stress]
	ShearModulus      Range[units.Stress]
	Poisson           Range[units.Ratio]
	StrengthInLayer   Range[units.Stress]
	StrengthAcross    Range[units.Stress]
	ElongationInLayer Range[units.Ratio] // at break
	ElongationAcross  Range[units.Ratio]
	Softening         Range[units.Temperature] // deflection temperature at 0.45 MPa, ISO 75; unknown: does not soften in service
	LossFactor        Range[units.Ratio]       // of vibration, η
	Conditioning      Range[units.Ratio]       // share of the dry modulus left in humid air
	ClampStrength     Range[units.Stress]      // in bending beside a clamp; unknown: as in layer

	FibreFilled bool
	Conducts    bool   // electricity: keep bare boards and antennas off it
	Stock       string // sizes that shops keep, mm: "8/6, 10/8" outside and bore of tubes, "1.5, 2" thickness of sheets; "" for none listed
	Dust        string // caution for cutting and sanding; "" for none
	Notes       string // for the builder; "" for none
}

// Form is how a material is sold.
type Form string

// The forms.
const (
	Print Form = "print"
	Sheet Form = "sheet"
	Tube  Form = "tube"
)

// Direction is the direction of loading relative to the layers.
type Direction int

// The directions.
const (
	InLayer Direction = iota
	Across
)

// Modulus is the modulus of elasticity in a direction.
func (m Material) Modulus(d Direction) Range[units.Stress] {
	if d == Across {
		return m.ModulusAcross
	}
	return m.ModulusInLayer
}

// Strength is the strength in a direction.
func (m Material) Strength(d Direction) Range[units.Stress] {
	if d == Across {
		return m.StrengthAcross
	}
	return m.StrengthInLayer
}

// Elongation is the strain at break in a direction.
func (m Material) Elongation(d Direction) Range[units.Ratio] {
	if d == Across {
		return m.ElongationAcross
	}
	return m.ElongationInLayer
}

// StrengthInClamp is the bending strength beside a clamp.
func (m Material) StrengthInClamp() Range[units.Stress] {
	if m.ClampStrength.Known() {
		return m.ClampStrength
	}
	return m.StrengthInLayer
}

// Range is a figure with its spread and where it comes from.
type Range[Q units.Quantity] struct {
	Low, Typical, High Q
	Source             string
}

// Known is whether there is a figure at all.
func (r Range[Q]) Known() bool { return r.Source != "" }

// Times is the range with each of its figures times factor.
func (r Range[Q]) Times(factor units.Ratio) Range[Q] {
	by := Q(factor.Fraction())
	r.Low, r.Typical, r.High = r.Low*by, r.Typical*by, r.High*by
	return r
}
