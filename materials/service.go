package materials

import (
	"math"

	"mastwright/design/units"
)

// Softened is the share of stiffness a polymer keeps from 20 K below its
// softening temperature on. Judgement.
const (
	softened      units.Ratio                 = 0.7
	softeningFrom units.TemperatureDifference = 20
)

// Service is the share of the dry, cold modulus that is left in humid air at a
// service temperature: the conditioning factor, times 0.7 above 20 K below the
// typical softening temperature (judgement).
func (m Material) Service(at units.Temperature) units.Ratio {
	share := m.Conditioning.Typical
	if m.Softening.Known() && m.Softening.Typical.Minus(at) < softeningFrom {
		share *= softened
	}
	return share
}

// ModulusInService is the modulus of elasticity in a direction that is left at
// a service temperature.
func (m Material) ModulusInService(d Direction, at units.Temperature) Range[units.Stress] {
	return m.Modulus(d).Times(m.Service(at))
}

// ShearModulusInService is the shear modulus that is left at a service temperature.
func (m Material) ShearModulusInService(at units.Temperature) Range[units.Stress] {
	return m.ShearModulus.Times(m.Service(at))
}

// CoreStiffness is the modulus of an infill core as a share of the solid's, for
// its share of volume filled: density to the power 1.5. Common practice.
func CoreStiffness(filled units.Ratio) units.Ratio {
	return units.Fraction(math.Pow(filled.Fraction(), 1.5))
}
