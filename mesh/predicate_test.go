package mesh

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Points within a few roundings of a common plane, line or point, against
// determinants in rational arithmetic.
func TestSignsAgainstRationals(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	nudge := func(x float64) float64 {
		for range random.IntN(3) {
			x = math.Nextafter(x, float64(random.IntN(3)-1)*1e9)
		}
		return x
	}
	zero, wrongIfRounded := 0, 0
	for range 20000 {
		point := func() r3.Vec {
			return r3.Vec{X: random.NormFloat64() * 10, Y: random.NormFloat64(), Z: math.Ldexp(random.NormFloat64(), random.IntN(30)-15)}
		}
		a, b, c := point(), point(), point()
		s := float64(random.IntN(5)) / 4
		d := r3.Add(r3.Scale(s, a), r3.Add(r3.Scale(1-s, b), r3.Scale(float64(random.IntN(2)), r3.Sub(c, a))))
		d = r3.Vec{X: nudge(d.X), Y: nudge(d.Y), Z: nudge(d.Z)}
		want := rational(a, b, c, d)
		if got := side(a, b, c, d); got != want {
			t.Fatalf("side(%v, %v, %v, %v) %d, want %d", a, b, c, d, got, want)
		}
		if want == 0 {
			zero++
		}
		if rounded := r3.Dot(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)), r3.Sub(d, a)); (rounded > 0) != (want > 0) || (rounded < 0) != (want < 0) {
			wrongIfRounded++
		}
		e := r3.Vec{X: nudge(a.X + s*(b.X-a.X)), Y: nudge(a.Y + s*(b.Y-a.Y)), Z: nudge(a.Z + s*(b.Z-a.Z))}
		up := r3.Vec{X: 0, Y: 0, Z: 1}
		p, q, r := r3.Vec{X: a.X, Y: a.Y}, r3.Vec{X: b.X, Y: b.Y}, r3.Vec{X: e.X, Y: e.Y}
		if got, want := turn(drop(p, 2), drop(q, 2), drop(r, 2)), rational(p, q, r, r3.Add(p, up)); got != want {
			t.Fatalf("turn(%v, %v, %v) %d, want %d", p, q, r, got, want)
		}
	}
	if zero < 100 || wrongIfRounded < 100 {
		t.Errorf("%d zeros, %d signs that rounding loses; the points are too easy", zero, wrongIfRounded)
	}
}

func rational(a, b, c, d r3.Vec) int {
	minus := func(p, q float64) *big.Rat {
		return new(big.Rat).Sub(new(big.Rat).SetFloat64(p), new(big.Rat).SetFloat64(q))
	}
	times := func(p, q, r *big.Rat) *big.Rat { return new(big.Rat).Mul(p, new(big.Rat).Mul(q, r)) }
	var m [3][3]*big.Rat
	for i, v := range []r3.Vec{b, c, d} {
		m[i] = [3]*big.Rat{minus(v.X, a.X), minus(v.Y, a.Y), minus(v.Z, a.Z)}
	}
	sum := new(big.Rat)
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		sum.Add(sum, times(m[0][i], m[1][j], m[2][k]))
		sum.Sub(sum, times(m[0][i], m[1][k], m[2][j]))
	}
	return sum.Sign()
}
