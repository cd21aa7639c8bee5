package frame

import "math"

// Wall is one straight or curved piece of a thin wall: its length along the mid-line and thickness, m.
type Wall struct{ Length, Thickness float64 }

// Bredt returns the torsion constant in m⁴ of a thin closed wall that encloses the area Am (m²)
// inside its mid-line,
//
//	J = 4 Am² / Σ(s/t).
//
// Source: Bredt's second formula; Timoshenko & Goodier, Theory of Elasticity, art. 116.
func Bredt(Am float64, walls []Wall) float64 {
	var sum float64
	for _, w := range walls {
		sum += w.Length / w.Thickness
	}
	return 4 * Am * Am / sum
}

// OpenTorsion returns the torsion constant in m⁴ of a thin open wall, J = Σ b t³/3.
func OpenTorsion(walls []Wall) float64 {
	var sum float64
	for _, w := range walls {
		sum += w.Length * w.Thickness * w.Thickness * w.Thickness / 3
	}
	return sum
}

// rectangleTorsion is the exact series, J = β a b³ with
//
//	β = 1/3 (1 - 192/π⁵ b/a Σ tanh(nπa/2b)/n⁵), n odd, a >= b.
//
// Source: Timoshenko & Goodier, Theory of Elasticity, art. 109. The sum of 1/n⁵ is taken in closed
// form, so that the rest falls off exponentially.
func rectangleTorsion(w, h float64) float64 {
	a, b := math.Max(w, h), math.Min(w, h)
	const sumOdd = 1.0045237627951386 // Σ 1/n⁵ over odd n: 31/32 ζ(5)
	sum := sumOdd
	for n := 1.0; ; n += 2 {
		// 1 - tanh x = 2/(e^2x + 1)
		term := 2 / (math.Exp(n*math.Pi*a/b) + 1) / (n * n * n * n * n)
		sum -= term
		if term < 1e-17 {
			break
		}
	}
	return a * b * b * b / 3 * (1 - 192/math.Pow(math.Pi, 5)*b/a*sum)
}

// gauss5 holds abscissae and weights of the five-point rule on 0..1.
var gauss5 = [5][2]float64{
	{0.046910077030668, 0.118463442528095},
	{0.230765344947158, 0.239314335249683},
	{0.5, 0.284444444444444},
	{0.769234655052842, 0.239314335249683},
	{0.953089922969332, 0.118463442528095},
}

// levelLines integrates two figures over a wall of thickness t whose curve at depth n has the
// length p(n) and encloses the area A(n):
//
//	J = 4 ∫ A²/p dn   and   1/C = ∫ dn/p.
//
// With a stress function that is constant along those curves J is the best a trial function can do,
// so it is never above the truth; it is exact for round tubes and for long straight walls, where it
// is Bredt's formula with Σ b t³/3 beside it. C is the conductance of the wall from edge to edge,
// never below the truth. Source: the method of prescribed level lines, Pólya & Szegő, Isoperimetric
// Inequalities in Mathematical Physics (1951), from memory; derived again here.
func levelLines(t float64, curve func(n float64) (A, p float64), from, to float64) (J, resistance float64) {
	for _, g := range gauss5 {
		A, p := curve(from + g[0]*(to-from))
		J += 4 * g[1] * (to - from) * A * A / p
		resistance += g[1] * (to - from) / p
	}
	return J, resistance
}

// closedWall is the torsion constant of a wall of even thickness t inside an outer outline (area Ao,
// length po) and round an inner one (length pi): lengths of parallel curves fall off linearly with depth. Sharp
// corners make it low, by 2 % of J on a thin square and 8 % on a thick one.
func closedWall(t, Ao, po, pi float64) float64 {
	curve := func(n float64) (A, p float64) {
		slope := (pi - po) / t
		return Ao - po*n - slope*n*n/2, po + slope*n
	}
	J, _ := levelLines(t, curve, 0, t)
	return J
}

// boxTorsion is the torsion constant of Box: level lines, with what they miss at the corners put
// right. Four corners lower the wall's conductance C by 4δ, and J is inverse to it. For thin walls and
// sharp corners δ is 0.441, from the conductance 0.559 of a square corner (closed form by
// conformal mapping: the "corner squares" of sheet resistance). The other figures are our own
// computation with the stress function on squares of 4 to 20 walls; they are good to 0.3 % of J.
func boxTorsion(w, h, r, t float64) float64 {
	curve := func(n float64) (A, p float64) {
		x, y, rho := w-2*n, h-2*n, math.Max(r-n, 0)
		return x*y - (4-math.Pi)*rho*rho, 2*(x+y) - (8-2*math.Pi)*rho
	}
	split := math.Min(r, t)
	J1, R1 := levelLines(t, curve, 0, split)
	J2, R2 := levelLines(t, curve, split, t)
	C := 1 / (R1 + R2)
	thin, thick := cornerLoss(r / t)
	return (J1 + J2) / (1 - 4/C*math.Max(thin-thick/C, 0))
}

// cornerLoss returns δ = thin - thick/C of a corner with an outer radius of rho walls.
func cornerLoss(rho float64) (thin, thick float64) {
	table := [...][3]float64{
		{0, 0.441, 2.14}, {0.25, 0.427, 2.17}, {0.5, 0.383, 2.10}, {0.75, 0.309, 1.88}, {1, 0.195, 1.21},
		{1.25, 0.1425, 1.07}, {1.5, 0.112, 0.97}, {2, 0.0775, 0.88}, {3, 0.049, 0.86}, {5, 0.02774, 0.8215},
	}
	for i := 1; i < len(table); i++ {
		if a, b := table[i-1], table[i]; rho <= b[0] {
			f := (rho - a[0]) / (b[0] - a[0])
			return a[1] + f*(b[1]-a[1]), a[2] + f*(b[2]-a[2])
		}
	}
	return 0.1387 / rho, 0.8722 * (1 - 0.29/rho)
}
