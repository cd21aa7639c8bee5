// Package strength judges what breaks: stress in members, screws of a foot, and
// the energy a mast takes when the aircraft tips over on it or falls on it.
//
// Everything is SI: m, kg, N, Pa, rad. Body axes are x forward, y left, z up,
// right-handed; positions have their origin at the centre of the hole pattern on
// the foot's mounting face, and moments follow the right-hand rule. A blow's
// direction is that of the force on the mast top. A member has axes of its own:
// x along it, y and z along its section's principal axes.
//
// The package knows no structure: resultants per newton and compliances come in as
// plain numbers.
package strength

import (
	"errors"
	"math"
)

const gravity = 9.80665 // m/s², standard, ISO 80000-3

// Spread is a figure with the ends of its range. A zero Low or High means Typical.
type Spread struct{ Low, Typical, High float64 }

func (s Spread) filled() Spread {
	if s.Low == 0 {
		s.Low = s.Typical
	}
	if s.High == 0 {
		s.High = s.Typical
	}
	return s
}

func (s Spread) times(k float64) Spread { return Spread{s.Low * k, s.Typical * k, s.High * k} }

// each applies f to the three figures; once where they are one.
func (s Spread) each(f func(float64) float64) Spread {
	if s.Low == s.Typical && s.Typical == s.High {
		x := f(s.Typical)
		return Spread{x, x, x}
	}
	return Spread{f(s.Low), f(s.Typical), f(s.High)}
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// along returns a + t b.
func along(a [3]float64, t float64, b [3]float64) [3]float64 {
	return [3]float64{a[0] + t*b[0], a[1] + t*b[1], a[2] + t*b[2]}
}

func norm(a [3]float64) float64 { return math.Sqrt(dot(a, a)) }

func unit(a [3]float64) [3]float64 { return along([3]float64{}, 1/norm(a), a) }

func apply(m [3][3]float64, v [3]float64) [3]float64 {
	return [3]float64{dot(m[0], v), dot(m[1], v), dot(m[2], v)}
}

// solve returns m⁻¹ v of a symmetric positive definite m, by Cholesky's factors.
func solve(m [3][3]float64, v [3]float64) ([3]float64, error) {
	var l [3][3]float64
	for i := range 3 {
		for j := range i + 1 {
			s := m[i][j]
			for k := range j {
				s -= l[i][k] * l[j][k]
			}
			if i != j {
				l[i][j] = s / l[j][j]
				continue
			}
			if !(s > 0) {
				return v, errors.New("inertia is not positive definite; give moments of inertia above zero about the centre of gravity")
			}
			l[i][i] = math.Sqrt(s)
		}
	}
	for i := range 3 {
		for k := range i {
			v[i] -= l[i][k] * v[k]
		}
		v[i] /= l[i][i]
	}
	for i := 2; i >= 0; i-- {
		for k := i + 1; k < 3; k++ {
			v[i] -= l[k][i] * v[k]
		}
		v[i] /= l[i][i]
	}
	return v, nil
}
