package motor

import "math"

// Balance quality grades e·Ω in m/s, for Drive.Grade. The grades are those of
// ISO 21940-11; which of them a rotor has is a judgement: .05 mm of play in a
// propeller's bore alone is G 9 to G 22.
const (
	Balanced   = 6.3e-3 // G 6.3: propeller and bell balanced on a stand
	Unselected = 16e-3  // G 16: as bought
	Worn       = 40e-3  // G 40: nicked blades, worn bearings
)

// Eccentricity returns the permissible distance in metres of a rotor's centre of
// mass from its axis, e = G/Ω, for a balance grade in m/s at a speed in Hz.
// Source: ISO 21940-11, permissible specific unbalance.
func Eccentricity(grade, speed float64) float64 { return grade / (2 * math.Pi * speed) }

// UnbalanceForce returns the rotating force U Ω² in N of an unbalance in kg·m at a
// speed in Hz.
func UnbalanceForce(unbalance, speed float64) float64 {
	omega := 2 * math.Pi * speed
	return unbalance * omega * omega
}

// UnbalanceForce returns the in-plane rotating force in N of one rotor at a speed in Hz.
func (r Rotors) UnbalanceForce(speed float64) float64 { return UnbalanceForce(r.Unbalance, speed) }
