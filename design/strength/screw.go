package strength

import "math"

// Screw is the strength of one screwed point in N: the weakest of screw, thread and
// plastic around it, as the functions below give them.
type Screw struct {
	Tension float64
	Shear   float64
}

// Utilisation returns the share of its strength a screw bears, √((T/T_b)² + (V/V_b)²).
// Source: quadratic interaction, Shigley, Mechanical Engineering Design.
func (s Screw) Utilisation(l ScrewLoad) float64 {
	return math.Hypot(quotient(l.Tension, s.Tension), quotient(l.Shear, s.Shear))
}

// StressArea returns the tensile stress area in m² of an ISO metric thread of a
// nominal diameter and a pitch in m, π/4 (d - .938194 P)². Source: ISO 898-1.
func StressArea(diameter, pitch float64) float64 {
	d := diameter - .938194*pitch
	return math.Pi / 4 * d * d
}

// NylonTension returns the breaking load in N of a PA66 screw of a nominal diameter
// in m: 200, 400 and 700 N for M3, M4 and M5. Source: a fastener catalogue. Other sizes
// at the 40 MPa the M3 breaks at, with a coarse pitch of a fifth of the diameter (judgement).
func NylonTension(diameter float64) float64 {
	for _, c := range []struct{ diameter, load float64 }{{.003, 200}, {.004, 400}, {.005, 700}} {
		if math.Abs(diameter-c.diameter) < 1e-5 {
			return c.load
		}
	}
	return 40e6 * StressArea(diameter, .2*diameter)
}

// ScrewShear returns the shear strength in N of a screw from its tensile breaking
// load, .6 of it. Source: common practice.
func ScrewShear(tension float64) float64 { return .6 * tension }

// Bearing returns the force in N at which a screw of a diameter in m crushes the
// side of its hole in a plate of a thickness in m, d t σ, for a strength in Pa.
// Source: Shigley, Mechanical Engineering Design, bearing in bolted joints.
func Bearing(diameter, thickness, strength float64) float64 {
	return diameter * thickness * strength
}

// ThreadStrip returns the force in N that strips a thread in plastic of a pitch
// diameter and an engaged length in m, π d_p L σ/√3 for a tensile strength in Pa.
// Source: design guides of engineering-plastics makers, pull-out of screws; from memory.
func ThreadStrip(pitchDiameter, engaged, strength float64) float64 {
	return math.Pi * pitchDiameter * engaged * strength / math.Sqrt(3)
}

// HeadPull returns the force in N that pulls a head or washer of a diameter in m
// through a plate of a thickness in m, the lesser of pressing under the head,
// π/4 (d_k² - d_h²) σ, and punching through, π d_k t σ/√3. Source: from memory.
func HeadPull(head, hole, thickness, strength float64) float64 {
	return math.Min(math.Pi/4*(head*head-hole*hole), math.Pi*head*thickness/math.Sqrt(3)) * strength
}

// ClampSlip returns the torque in N·m at which a tube of a radius in m slips in a
// clamp, 2 μ F r for each screw of preload F in N. A friction of 0 means .2.
// Source: common practice.
func ClampSlip(preload, radius, friction float64, screws int) float64 {
	if friction == 0 {
		friction = .2
	}
	return 2 * friction * preload * radius * float64(screws)
}
