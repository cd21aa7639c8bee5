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
// (1997) 305-363: bounds A of ORIENT2D and ORIENT3D, theorems 10, 12 and 19.

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
	x, y, z := [3]expansion{}, [3]expansion{}, [3]expansion{}
	for i, v := range [3]r3.Vec{b, c, d} {
		x[i], y[i], z[i] = difference(v.X, a.X), difference(v.Y, a.Y), difference(v.Z, a.Z)
	}
	minor := func(p, q [3]expansion) expansion {
		return p[0].times(q[1]).plus(p[1].times(q[0]).negative())
	}
	return x[2].times(minor(y, z)).plus(y[2].times(minor(z, x))).plus(z[2].times(minor(x, y))).sign()
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
	return difference(b.u, a.u).times(difference(c.v, a.v)).plus(
		difference(b.v, a.v).times(difference(c.u, a.u)).negative()).sign()
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

// expansion is a sum of floats that do not overlap, smallest first.
type expansion []float64

func difference(a, b float64) expansion {
	d, e := twoSum(a, -b)
	return expansion{}.with(e).with(d)
}

func (e expansion) with(x float64) expansion {
	if x == 0 {
		return e
	}
	return append(e, x)
}

func (e expansion) plus(f expansion) expansion {
	for _, x := range f {
		out := make(expansion, 0, len(e)+1)
		for _, y := range e {
			var low float64
			x, low = twoSum(x, y)
			out = out.with(low)
		}
		e = out.with(x)
	}
	return e
}

func (e expansion) scaled(b float64) expansion {
	out := make(expansion, 0, 2*len(e))
	carry := 0.0
	for _, x := range e {
		high := x * b
		sum, low := twoSum(carry, math.FMA(x, b, -high))
		out = out.with(low)
		carry, low = twoSum(high, sum)
		out = out.with(low)
	}
	return out.with(carry)
}

func (e expansion) times(f expansion) expansion {
	var out expansion
	for _, x := range f {
		out = out.plus(e.scaled(x))
	}
	return out
}

func (e expansion) negative() expansion {
	out := make(expansion, len(e))
	for i, x := range e {
		out[i] = -x
	}
	return out
}

func (e expansion) sign() int {
	switch {
	case len(e) == 0:
		return 0
	case e[len(e)-1] > 0:
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
