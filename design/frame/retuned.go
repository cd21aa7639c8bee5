package frame

import "math"

// Retuned returns the mode as it would be were the structure stiffer or softer throughout, so that it rings at a frequency in Hz
// above 0: shape, modal mass and shares stay. It serves to follow a mode through the spread of a modulus without solving again.
func (m Mode) Retuned(frequency float64) Mode {
	omega := 2 * math.Pi * frequency
	m.Frequency, m.omega2 = frequency, omega*omega
	return m
}
