package strength

import "math"

// Fatigue is the share of a print's strength across its layers that a stress
// repeated by vibration may use. Source: common practice.
const Fatigue = .15

// AcrossLayers returns the strength in Pa across the layers of a print, for want
// of data, from the strength in the layer: .5 of it unfilled, .35 fibre-filled.
// Source: common practice.
func AcrossLayers(inLayer float64, filled bool) float64 {
	if filled {
		return .35 * inLayer
	}
	return .5 * inLayer
}

// LayerStrength returns the strength in Pa of a print loaded at an angle in rad to
// the layers' normal: 0 pulls the layers apart, π/2 pulls along them,
//
//	σ(θ) = X Y / (X cos²θ + Y sin²θ), X in the layer, Y across it.
//
// Source: Hankinson, Investigation of crushing strength of spruce at varying angles
// of grain, 1921, a rule for wood; for prints it is a judgement between two known ends.
func LayerStrength(inLayer, across, angle float64) float64 {
	s, c := math.Sincos(angle)
	return quotient(inLayer*across, inLayer*c*c+across*s*s)
}
