package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// The signs below are exact for all coordinates within Reach that are zero or
// larger than 1e-60: a rounded value is trusted only beyond its error bound,
// otherwise the determinant is summed without rounding.
// Source: J. R. Shewchuk, "Adaptive precision floating-point arithmetic and
// fast robust geometric predicates", Discrete & Computational Geometry 18
// (1997) 305-363: bounds A of ORIENT2D and ORIENT3D, theorems 10 and 18.

const (
	half    = 1.0 / (1 << 53) // half a unit in the last place of 1
	bound2D = (3 + 16*half) * half
	bound3D = (7 + 56*half) * half
)

// side returns the sign of (b-a)×(c-a)·(d-a): +1 where d lies on the side from
// which a, b, c run counter-clockwise, 0 where the four share a plane.
func side(a, b, c, d r3.Vec) int {
	ux, uy, uz := b.X-a.X, b.Y-a.Y, b.Z-a.Z
	vx, vy, vz := c.X-a.X, c.Y-a.Y, c.Z-a.Z
	wx, wy, wz := d.X-a.X, d.Y-a.Y, d.Z-a.Z
	p, q := uy*vz, uz*vy
	r, s := uz*vx, ux*vz
	t, u := ux*vy, uy*vx
	det := wx*(p-q) + wy*(r-s) + wz*(t-u)
	size := math.Abs(wx)*(math.Abs(p)+math.Abs(q)) +
		math.Abs(wy)*(math.Abs(r)+math.Abs(s)) +
		math.Abs(wz)*(math.Abs(t)+math.Abs(u))
	switch e := bound3D * size; {
	case size == 0:
		return 0
	case det > e:
		return 1
	case det < -e:
		return -1
	}
	var m [3][3]pair
	for i, v := range [3]r3.Vec{b, c, d} {
		m[i] = [3]pair{difference(v.X, a.X), difference(v.Y, a.Y), difference(v.Z, a.Z)}
	}
	var sum exactly
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		sum.add(1, m[0][i], m[1][j], m[2][k])
		sum.add(-1, m[0][i], m[1][k], m[2][j])
	}
	return sum.sign()
}

// turn returns +1 where the plane points a, b, c turn left, 0 on a line.
func turn(a, b, c flat) int {
	p, q := (b.u-a.u)*(c.v-a.v), (b.v-a.v)*(c.u-a.u)
	size := math.Abs(p) + math.Abs(q)
	switch det, e := p-q, bound2D*size; {
	case size == 0:
		return 0
	case det > e:
		return 1
	case det < -e:
		return -1
	}
	one := pair{1}
	var sum exactly
	sum.add(1, difference(b.u, a.u), difference(c.v, a.v), one)
	sum.add(-1, difference(b.v, a.v), difference(c.u, a.u), one)
	return sum.sign()
}

// Collinear reports whether three points lie on one line, without rounding.
func Collinear(a, b, c r3.Vec) bool {
	for axis := range 3 {
		if turn(drop(a, axis), drop(b, axis), drop(c, axis)) != 0 {
			return false
		}
	}
	return true
}

// flat is a point seen along one of the coordinate axes.
type flat struct{ u, v float64 }

func drop(p r3.Vec, axis int) flat {
	switch axis {
	case 0:
		return flat{p.Y, p.Z}
	case 1:
		return flat{p.Z, p.X}
	}
	return flat{p.X, p.Y}
}

// pair is a number as the sum of two floats that do not overlap.
type pair [2]float64

func difference(a, b float64) pair {
	d, lost := twoSum(a, -b)
	return pair{d, lost}
}

// exactly is a sum without rounding: so many floats that do not overlap,
// smallest first. It has room for the six products of a determinant.
type exactly struct {
	count int
	part  [6 * 2 * 2 * 2 * 4]float64
}

// add puts in a product of three numbers.
func (e *exactly) add(sign float64, x, y, z pair) {
	for _, a := range x {
		for _, b := range y {
			ab := a * b
			both := pair{ab, math.FMA(a, b, -ab)}
			for _, p := range both {
				for _, c := range z {
					if pc := p * c; pc != 0 {
						e.grow(sign * math.FMA(p, c, -pc))
						e.grow(sign * pc)
					}
				}
			}
		}
	}
}

func (e *exactly) grow(x float64) {
	n := 0
	for _, y := range e.part[:e.count] {
		var lost float64
		if x, lost = twoSum(x, y); lost != 0 {
			e.part[n] = lost
			n++
		}
	}
	if x != 0 {
		e.part[n] = x
		n++
	}
	e.count = n
}

func (e *exactly) sign() int {
	switch {
	case e.count == 0:
		return 0
	case e.part[e.count-1] > 0:
		return 1
	}
	return -1
}

// twoSum returns the rounded sum of a and b and what the rounding lost.
func twoSum(a, b float64) (sum, lost float64) {
	sum = a + b
	bb := sum - a
	return sum, (a - (sum - bb)) + (b - bb)
}
