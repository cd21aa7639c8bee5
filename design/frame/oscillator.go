package frame

import "math"

// Figures of a mass on one spring and damper, damping ratio zeta. Source: Harris' Shock and
// Vibration Handbook, chapter 2; closed forms.

// Transmissibility returns the absolute acceleration of the mass over that of its base at a ratio r
// of the driving to the natural frequency,
//
//	T = sqrt((1 + (2ζr)²) / ((1 - r²)² + (2ζr)²)).
func Transmissibility(r, zeta float64) float64 {
	d := 2 * zeta * r
	return math.Sqrt((1 + d*d) / ((1-r*r)*(1-r*r) + d*d))
}

// PeakTransmissibility returns the ratio of frequencies at which Transmissibility is greatest, and
// its value there.
func PeakTransmissibility(zeta float64) (r, T float64) {
	// r² = (sqrt(1+8ζ²) - 1)/(4ζ²), written without the difference
	r = math.Sqrt(2 / (1 + math.Sqrt(1+8*zeta*zeta)))
	return r, Transmissibility(r, zeta)
}

// HalfPowerWidth returns the distance between the two frequencies, over the natural frequency, at
// which the movement under a force of constant size is 1/√2 of its peak. Zero where the damping
// leaves no such pair.
func HalfPowerWidth(zeta float64) float64 {
	mid, half := 1-2*zeta*zeta, 2*zeta*math.Sqrt(1-zeta*zeta)
	if !(mid > half) {
		return 0
	}
	return math.Sqrt(mid+half) - math.Sqrt(mid-half)
}

// LogDecrement returns the logarithm of the ratio of two successive peaks of a free decay.
func LogDecrement(zeta float64) float64 {
	return 2 * math.Pi * zeta / math.Sqrt(1-zeta*zeta)
}

// Miles returns the root mean square acceleration of the mass, in the unit whose square per Hz is W,
// under a flat spectrum W about its natural frequency f in Hz, with Q = 1/(2ζ),
//
//	sqrt(π/2 f Q W).
//
// Source: Miles, J. Aeronaut. Sci. 21 (1954) 753-762.
func Miles(f, Q, W float64) float64 { return math.Sqrt(math.Pi / 2 * f * Q * W) }
