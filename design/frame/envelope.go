package frame

import "math"

// envelope is a symmetric matrix of which each row keeps its entries from the first that is not
// zero up to the diagonal.
type envelope struct {
	first []int // column of the first entry of a row
	start []int // where row i's column 0 would lie in v
	v     []float64
}

func newEnvelope(first []int) *envelope {
	e := &envelope{first: first, start: make([]int, len(first))}
	size := 0
	for i, f := range first {
		e.start[i] = size - f
		size += i - f + 1
	}
	e.v = make([]float64, size)
	return e
}

// like returns a matrix of the same shape with room for its own entries.
func (e *envelope) like() *envelope {
	return &envelope{first: e.first, start: e.start, v: make([]float64, len(e.v))}
}

// at returns an entry of the lower half, i >= j or the other way round.
func (e *envelope) at(i, j int) float64 {
	if j > i {
		i, j = j, i
	}
	if j < e.first[i] {
		return 0
	}
	return e.v[e.start[i]+j]
}

func (e *envelope) add(i, j int, x float64) {
	if j > i {
		i, j = j, i
	}
	e.v[e.start[i]+j] += x
}

// row returns the entries of row i from its first column up to, without, the diagonal.
func (e *envelope) row(i int) []float64 { return e.v[e.start[i]+e.first[i] : e.start[i]+i] }

// times sets y to the product with x.
func (e *envelope) times(y, x []float64) { e.timesWithin(y, x, 0, len(x)) }

// timesWithin is times for rows and columns from low to high (without) alone.
func (e *envelope) timesWithin(y, x []float64, low, high int) {
	for i := low; i < high; i++ {
		f := max(e.first[i], low)
		row := e.v[e.start[i]+f : e.start[i]+i]
		xi := x[i]
		sum := e.v[e.start[i]+i] * xi
		xs, ys := x[f:i], y[f:i]
		xs, ys = xs[:len(row)], ys[:len(row)]
		for k, a := range row {
			sum += a * xs[k]
			ys[k] += a * xi
		}
		y[i] = sum
	}
}

// factor is the L D Lᵀ of an envelope, 1/D kept.
type factor struct {
	l       *envelope
	inverse []float64
}

// decompose factors e. skip, where not nil, marks freedoms held at zero. A pivot that falls to
// nothing, or below zero, ends it: bad is its row, otherwise -1. With any set negative pivots are
// accepted and counted.
func decompose(e *envelope, skip []bool, any bool) (f factor, bad, negative int) {
	l := e.like()
	copy(l.v, e.v)
	return l.reduce(skip, any)
}

// reduce is decompose in the matrix's own place, which is lost.
func (l *envelope) reduce(skip []bool, any bool) (f factor, bad, negative int) {
	f = factor{l: l, inverse: make([]float64, len(l.first))}
	const least = 1e-13 // of the diagonal: rounding leaves a mechanism some 1e-16
	for i, fi := range l.first {
		row := l.row(i)
		if skip != nil && skip[i] {
			clear(row)
			continue // inverse stays 0: column i of L is never used
		}
		for j := fi; j < i; j++ {
			fj := l.first[j]
			from := max(fi, fj)
			if from >= j {
				continue
			}
			a := row[from-fi : j-fi]
			b := l.v[l.start[j]+from : l.start[j]+j]
			row[j-fi] -= dot(a, b)
		}
		at := l.start[i] + i
		own := l.v[at]
		d := own
		inv := f.inverse[fi:i]
		for k, y := range row {
			s := y * inv[k]
			d -= y * s
			row[k] = s
		}
		l.v[at] = d
		if any {
			if d < 0 {
				negative++
			}
			if d == 0 {
				d = 1e-15*math.Abs(own) + math.SmallestNonzeroFloat32
			}
		} else if !(d > least*own) || own <= 0 {
			return f, i, 0
		}
		f.inverse[i] = 1 / d
	}
	return f, -1, negative
}

// solve replaces x by the solution. Held freedoms come out as zero.
func (f factor) solve(x []float64) { f.solveWithin(x, 0, len(x)) }

// solveWithin is solve for a load on the rows from low to high (without) alone, where they hang on no other row, or no other is wanted:
// either the rows before are held or join none of these, or the rest of x is not looked at.
func (f factor) solveWithin(x []float64, low, high int) {
	l := f.l
	for i := low; i < high; i++ {
		fi := max(l.first[i], low)
		x[i] -= dot(l.v[l.start[i]+fi:l.start[i]+i], x[fi:i])
	}
	for i := low; i < high; i++ {
		x[i] *= f.inverse[i]
	}
	for i := high - 1; i >= low; i-- {
		xi := x[i]
		if xi == 0 {
			continue
		}
		fi := max(l.first[i], low)
		row := l.v[l.start[i]+fi : l.start[i]+i]
		xs := x[fi:i]
		xs = xs[:len(row)]
		for k, a := range row {
			xs[k] -= a * xi
		}
	}
}
