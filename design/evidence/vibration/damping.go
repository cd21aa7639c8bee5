package vibration

import "math"

// Decrement returns the logarithmic decrement of free decay, the logarithm of the ratio of one amplitude to the next on the
// same side,
//
//	δ = 2π ζ / √(1 − ζ²),
//
// for a damping ζ, part of critical, below 1. Source: Thomson & Dahleh, Theory of Vibration with Applications, 5th edition,
// chapter 2.
func Decrement(zeta float64) float64 { return 2 * math.Pi * zeta / math.Sqrt(1-zeta*zeta) }

// DampingOfDecrement is the inverse of Decrement.
func DampingOfDecrement(delta float64) float64 { return delta / math.Hypot(delta, 2*math.Pi) }

// HalfPowerWidth returns the distance between the two frequencies at which the response of a single mass to a steady force
// has half the power of its peak, in parts of the undamped frequency. From the amplitude 1/√((1−r²)²+(2ζr)²), whose peak is
// 1/(2ζ√(1−ζ²)):
//
//	r² = 1 − 2ζ² ± 2ζ √(1−ζ²)
//
// It has no lower end for ζ above sin(π/8) = 0.3827; the width from 0 is then returned.
func HalfPowerWidth(zeta float64) float64 {
	middle, half := 1-2*zeta*zeta, 2*zeta*math.Sqrt(1-zeta*zeta)
	return math.Sqrt(middle+half) - math.Sqrt(max(middle-half, 0))
}

// DampingOfHalfPower returns the damping for which low and high, in any one unit, are the frequencies at half power. It is the
// exact inverse of the formula at HalfPowerWidth: with ζ = sin θ the squares have the sum 2 cos 2θ and the difference
// 2 sin 2θ.
func DampingOfHalfPower(low, high float64) float64 {
	return math.Sin(math.Atan2(high*high-low*low, high*high+low*low) / 2)
}
