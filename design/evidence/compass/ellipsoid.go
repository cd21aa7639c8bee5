package compass

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"mastwright/design/evidence/bench"
)

// ellipsoid is |A (p − c)| = 1 with a symmetric A.
type ellipsoid struct {
	shape    [6]float64 // A: xx, yy, zz, xy, xz, yz
	centre   [3]float64
	errors   []float64 // standard errors, of shape and then centre
	residual float64   // standard deviation of |A (p − c)| about 1
}

var pairs = [6][2]int{{0, 0}, {1, 1}, {2, 2}, {0, 1}, {0, 2}, {1, 2}}

// fitEllipsoid starts from the quadric that comes nearest in the algebraic sense and goes on to the least sum of squares of
// |A (p − c)| − 1 by Gauss–Newton steps. Source: Nocedal & Wright, Numerical Optimization, 2nd edition, section 10.3.
func fitEllipsoid(points [][3]float64) (ellipsoid, error) {
	middle, size := frameOf(points)
	e, err := quadric(points, middle, size)
	if err != nil {
		return e, err
	}
	y := make([]float64, len(points))
	columns := make([][]float64, 9)
	for j := range columns {
		columns[j] = make([]float64, len(points))
	}
	for range 20 {
		for i, p := range points {
			d := e.from(p)
			q := e.times(d)
			length := norm(q)
			y[i] = 1 - length
			for j, ab := range pairs {
				columns[j][i] = q[ab[0]] * d[ab[1]] / length
				if ab[0] != ab[1] {
					columns[j][i] += q[ab[1]] * d[ab[0]] / length
				}
			}
			for j, g := range e.times(q) {
				columns[6+j][i] = -g / length
			}
		}
		step, err := bench.FitPlane(columns, y)
		if err != nil {
			return e, noEllipsoid()
		}
		change := 0.0
		for j := range e.shape {
			e.shape[j] += step.Terms[j]
			change = max(change, math.Abs(step.Terms[j])*size)
		}
		for j := range e.centre {
			e.centre[j] += step.Terms[6+j]
			change = max(change, math.Abs(step.Terms[6+j])/size)
		}
		if e.errors = step.Errors; change < 1e-9 {
			break
		}
	}
	sum := 0.0
	for _, p := range points {
		r := norm(e.times(e.from(p))) - 1
		sum += r * r
	}
	e.residual = math.Sqrt(sum / float64(len(points)-9))
	if lengths, _, _ := e.semiAxes(); !(e.residual < .3) || !(lengths[2] > 0) || lengths[0] > 3*lengths[2] {
		return e, noEllipsoid()
	}
	return e, nil
}

func noEllipsoid() error {
	return refuse("turn it about all three axes, also upside down, in a steady field, with the motors off",
		"the three axes lie on no ellipsoid: too little of the sphere was seen, or the field was not steady")
}

// frameOf returns the middle of the points and their root mean square distance from it.
func frameOf(points [][3]float64) (middle [3]float64, size float64) {
	for _, p := range points {
		for j := range p {
			middle[j] += p[j] / float64(len(points))
		}
	}
	for _, p := range points {
		for j := range p {
			size += (p[j] - middle[j]) * (p[j] - middle[j]) / float64(len(points))
		}
	}
	return middle, math.Sqrt(size)
}

// quadric is the start: dᵀQd + 2b·d = k with the trace of Q held at 3, which is linear in the nine others.
func quadric(points [][3]float64, middle [3]float64, size float64) (ellipsoid, error) {
	if size == 0 {
		return ellipsoid{}, noEllipsoid()
	}
	y := make([]float64, len(points))
	columns := make([][]float64, 9)
	for j := range columns {
		columns[j] = make([]float64, len(points))
	}
	for i, p := range points {
		var d [3]float64
		for j := range d {
			d[j] = (p[j] - middle[j]) / size
		}
		y[i] = d[0]*d[0] + d[1]*d[1] + d[2]*d[2]
		for j, v := range []float64{d[2]*d[2] - d[0]*d[0], d[2]*d[2] - d[1]*d[1], -2 * d[0] * d[1], -2 * d[0] * d[2], -2 * d[1] * d[2], -2 * d[0], -2 * d[1], -2 * d[2], 1} {
			columns[j][i] = v
		}
	}
	fit, err := bench.FitPlane(columns, y)
	if err != nil {
		return ellipsoid{}, noEllipsoid()
	}
	u := fit.Terms
	q := mat.NewSymDense(3, []float64{1 + u[0], u[2], u[3], u[2], 1 + u[1], u[4], u[3], u[4], 1 - u[0] - u[1]})
	var c mat.VecDense
	b := mat.NewVecDense(3, []float64{-u[5], -u[6], -u[7]})
	if err := c.SolveVec(q, b); err != nil {
		return ellipsoid{}, noEllipsoid()
	}
	scale := u[8] + mat.Inner(&c, q, &c)
	var eigen mat.EigenSym
	if !eigen.Factorize(q, true) || scale <= 0 || slices.Min(eigen.Values(nil)) <= 0 {
		return ellipsoid{}, noEllipsoid()
	}
	var v mat.Dense
	eigen.VectorsTo(&v)
	var e ellipsoid
	for k, value := range eigen.Values(nil) {
		root := math.Sqrt(value/scale) / size
		for j, ab := range pairs {
			e.shape[j] += root * v.At(ab[0], k) * v.At(ab[1], k)
		}
	}
	for j := range e.centre {
		e.centre[j] = middle[j] + size*c.AtVec(j)
	}
	return e, nil
}

func (e ellipsoid) from(p [3]float64) [3]float64 {
	return [3]float64{p[0] - e.centre[0], p[1] - e.centre[1], p[2] - e.centre[2]}
}

func (e ellipsoid) times(d [3]float64) [3]float64 {
	s := e.shape
	return [3]float64{s[0]*d[0] + s[3]*d[1] + s[4]*d[2], s[3]*d[0] + s[1]*d[1] + s[5]*d[2], s[4]*d[0] + s[5]*d[1] + s[2]*d[2]}
}

func norm(v [3]float64) float64 { return math.Hypot(math.Hypot(v[0], v[1]), v[2]) }

// semiAxes returns the lengths, longest first, with their directions and standard errors; the errors leave out how the terms
// of the shape hang together. A length of 0 means that the shape is no ellipsoid.
func (e ellipsoid) semiAxes() (lengths [3]float64, along [3][3]float64, spread [3]float64) {
	s := e.shape
	var eigen mat.EigenSym
	if !eigen.Factorize(mat.NewSymDense(3, []float64{s[0], s[3], s[4], s[3], s[1], s[5], s[4], s[5], s[2]}), true) {
		return
	}
	var v mat.Dense
	eigen.VectorsTo(&v)
	for k, value := range eigen.Values(nil) { // rising, so lengths fall
		if value <= 0 {
			return
		}
		lengths[k] = 1 / value
		sum := 0.0
		for j, ab := range pairs {
			by := v.At(ab[0], k) * v.At(ab[1], k) * e.errors[j]
			if ab[0] != ab[1] {
				by *= 2
			}
			sum += by * by
		}
		spread[k] = math.Sqrt(sum) / (value * value)
		lean := 1.0
		if big := largest([3]float64{v.At(0, k), v.At(1, k), v.At(2, k)}); big < 0 {
			lean = -1
		}
		for j := range 3 {
			along[k][j] = lean * v.At(j, k)
		}
	}
	return lengths, along, spread
}

// largest is the component that is largest in size.
func largest(v [3]float64) float64 {
	big := v[0]
	for _, c := range v {
		if math.Abs(c) > math.Abs(big)+1e-9 {
			big = c
		}
	}
	return big
}

// share is the part of equal patches of the sphere that the points have been in: a hundred, four hundred for many points.
func (e ellipsoid) share(points [][3]float64) float64 {
	patches := spread(min(max(len(points)/4, 100), 400))
	seen := make([]bool, len(patches))
	for _, p := range points {
		d := e.times(e.from(p))
		best, nearest := 0, math.Inf(-1)
		for i, c := range patches {
			if dot := c[0]*d[0] + c[1]*d[1] + c[2]*d[2]; dot > nearest {
				best, nearest = i, dot
			}
		}
		seen[best] = true
	}
	count := 0
	for _, s := range seen {
		if s {
			count++
		}
	}
	return float64(count) / float64(len(patches))
}

// spread returns directions that share the sphere evenly, on a spiral of golden angles. Source: Gonzalez, Measurement of areas
// on a sphere using Fibonacci and latitude–longitude lattices, Mathematical Geosciences 42, 2010.
func spread(count int) [][3]float64 {
	out := make([][3]float64, count)
	for i := range out {
		z := 1 - (2*float64(i)+1)/float64(count)
		s, c := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
		r := math.Sqrt(1 - z*z)
		out[i] = [3]float64{r * c, r * s, z}
	}
	return out
}
