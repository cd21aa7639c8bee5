package paper

import "math"

// Round is a circle as a closed chain that strays from it by less than a hundredth of a millimetre.
func Round(middle Point, radius float64) []Point {
	const stray = 0.005
	n := 12
	if radius > stray {
		n = max(n, int(math.Ceil(math.Pi/math.Acos(1-stray/radius))))
	}
	out := make([]Point, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = Point{middle.X + radius*cos, middle.Y + radius*sin}
	}
	return out
}
