package magnetic

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// Any fields at all, three leads in five placements each, leaning or not: the
// search finds the worst of all 125 combinations, or one short of it by no more
// than starts 10 degrees apart can miss: cos 5°, and with a lean cos² 5°. The
// oracle measures |B| cos(ε-θ) itself.
func TestWorstCombination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.Float64Range(-1, 1)
		f := make(fields, 3)
		for i := range f {
			for k := range 5 {
				name := fmt.Sprint(i, k)
				f[i] = append(f[i], r3.Vec{X: part.Draw(t, "x"+name), Y: part.Draw(t, "y"+name), Z: part.Draw(t, "z"+name)})
			}
		}
		lean := rapid.SampledFrom([]float64{0, .2, .6}).Draw(t, "lean")
		var want float64
		for _, a := range f[0] {
			for _, b := range f[1] {
				for _, c := range f[2] {
					s := r3.Add(a, r3.Add(b, c))
					elevation := math.Abs(math.Atan2(s.Z, math.Hypot(s.X, s.Y)))
					want = max(want, r3.Norm(s)*math.Cos(max(0, elevation-lean)))
				}
			}
		}
		short := math.Cos(math.Pi / 36)
		if lean > 0 {
			short *= short
		}
		if got := f.worst(lean).size; got > want+1e-12 || got < short*want {
			t.Fatalf("worst %.9g, of all combinations %.9g", got, want)
		}
	})
}
