package solid

import (
	"context"
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"
)

// placed is the surface with its edge vertices where their faces meet.
type placed struct {
	*quads
	p       *program
	at      []r3.Vec
	ok      []bool // exact and on the solid
	edge    []bool // more than one label
	workers int

	near float64 // mm within which faces count as meeting
}

const (
	// nearShare is the share of the tolerance within which faces count as meeting.
	nearShare = 0.4
	// farOutside is how far outside its cell, as a share of the cell, a vertex
	// may lie before a place nearer by is looked for.
	farOutside = 0.75
	// farReach is how far from its cell, in cells, three faces may meet: where
	// two borders run side by side the grid shows their end early or late.
	farReach = 3
)

// place puts every vertex between faces where they meet, and reports whether
// it lies there on the surface of the solid. A vertex that does not is left
// at the middle of its crossings, inside its cell.
func (q *quads) place(ctx context.Context, p *program, workers int, near float64, evaluations *atomic.Int64) *placed {
	n := len(q.cell)
	s := &placed{quads: q, p: p, at: make([]r3.Vec, n), ok: make([]bool, n), edge: make([]bool, n), workers: workers, near: near}
	const share = 1024
	parallel(workers, (n+share-1)/share, func(i int) {
		if ctx.Err() != nil {
			return
		}
		var t touch
		var labels []int32
		count := int64(0)
		for v := int32(i * share); v < int32(min(n, (i+1)*share)); v++ {
			count += s.settle(v, &t, &labels)
		}
		evaluations.Add(count)
	})
	return s
}

func (s *placed) settle(v int32, t *touch, labels *[]int32) (evaluations int64) {
	*labels = s.labels(v, *labels)
	links := s.round(v)
	var m r3.Vec
	for _, l := range links {
		m = r3.Add(m, s.quad[l>>2].at)
	}
	m = r3.Scale(1/float64(len(links)), m)
	s.at[v], s.ok[v], s.edge[v] = m, true, len(*labels) > 1
	if !s.edge[v] {
		return 0
	}
	size := s.size(v)
	s.p.meet(*labels, m, t)
	reach := 1.5
	if len(*labels) > 2 {
		reach = farReach
	}
	x, ok := t.solve(m, reach*length(size))
	if ok {
		value := s.value(x, s.cellAt(v))
		evaluations++
		ok = math.Abs(value) < 1e-6
	}
	if ok && len(*labels) > 2 { // faces also meet beyond their ends
		for _, l := range *labels {
			ok = ok && s.p.sites[l/2].on(x, 1e-6)
		}
	}
	if out := s.outside(v, x); len(*labels) > 2 && (!ok || out > farOutside) {
		if !ok {
			out = math.Inf(1)
		}
		if y, near := s.settleNear(v, *labels, m, out, t, &evaluations); near {
			x, ok = y, true
		}
	}
	if s.ok[v] = ok; ok {
		s.at[v] = x
	}
	return evaluations
}

// value evaluates the solid at a point in or near a cell.
func (s *placed) value(x r3.Vec, near [3]int) float64 {
	c := s.p.root
	if b := s.shelf.at(s.g.cellOf(x, near)); b != nil {
		c = b.code
	}
	v, _ := c.eval(x)
	return v
}

func (s *placed) cellAt(v int32) [3]int {
	c := s.cell[v]
	return [3]int{int(c[0]), int(c[1]), int(c[2])}
}

// settleNear finds a place for a vertex whose faces do not meet in its cell:
// where all but one of them do, or two, and the rest pass so close by that
// the mesh may take them for meeting. It has to lie less far outside the cell
// than what is known.
func (s *placed) settleNear(v int32, labels []int32, from r3.Vec, known float64, t *touch, evaluations *int64) (r3.Vec, bool) {
	var room [8]int32
	if len(labels) > len(room) {
		return from, false
	}
	reach := 1.2 * length(s.size(v))
	var halves []cutAt
	s.p.meet(labels, from, t)
	for _, c := range t.cuts {
		if c.same {
			halves = append(halves, c)
		}
	}
	best, at := known, from
	try := func(kept []int32) {
		s.p.meet(kept, from, t)
		x, ok := t.solve(from, reach)
		if !ok {
			return
		}
		miss := 0.0
		for _, l := range labels {
			f, _ := s.p.sites[l/2].at(x)
			miss = max(miss, math.Abs(f))
		}
		astray := 0.0 // of the line that cuts one surface in two: worth a cell
		for _, c := range halves {
			if f, _ := c.at(x); math.Abs(f) > s.near {
				astray = 1
			}
		}
		if astray > 0 && !math.IsInf(known, 1) {
			return
		}
		// A tenth of the cell outside weighs as much as the largest miss.
		if miss > s.near || s.outside(v, x)+astray+0.1*miss/s.near >= best {
			return
		}
		value := s.value(x, s.cellAt(v))
		*evaluations++
		miss = max(miss, math.Abs(value))
		if score := s.outside(v, x) + astray + 0.1*miss/s.near; miss <= s.near && score < best {
			best, at = score, x
		}
	}
	for i := range labels {
		try(append(append(room[:0], labels[:i]...), labels[i+1:]...))
	}
	if len(labels) > 3 {
		for i, a := range labels {
			for _, b := range labels[:i] {
				try(append(room[:0], a, b))
			}
		}
	}
	return at, best < known
}

// outside returns how far a point lies outside a vertex's cell, as a share of
// the cell; a twentieth does not count.
func (s *placed) outside(v int32, x r3.Vec) float64 {
	c, p := s.cell[v], components(x)
	far := 0.0
	for a := range 3 {
		lo, hi := s.g.at[a][c[a]], s.g.at[a][c[a]+1]
		far = max(far, (lo-p[a])/(hi-lo), (p[a]-hi)/(hi-lo))
	}
	return max(0, far-0.05)
}

// size returns the sides of a vertex's cell.
func (s *placed) size(v int32) r3.Vec {
	c := s.cell[v]
	var d [3]float64
	for a := range d {
		d[a] = s.g.at[a][c[a]+1] - s.g.at[a][c[a]]
	}
	return vector(d)
}

// project moves a point onto one face.
func (s *placed) project(x r3.Vec, label int32) r3.Vec {
	f := &s.p.sites[label/2]
	for range 20 {
		v, g := f.at(x)
		if math.Abs(v) < exact {
			break
		}
		n := r3.Dot(g, g)
		if n == 0 {
			break
		}
		x = r3.Sub(x, r3.Scale(v/n, g))
	}
	return x
}

// volumeShare is how far on average the middles of a cell's crossings may lie
// off the surface, in diagonals of the cell. Judgement: on an edge it is some
// 0.2, on a face 0.
const volumeShare = 0.15

// volume returns what the quads enclose in mm³ with every vertex in the middle
// of its cell's crossings, and how far that may be off.
func (s *placed) volume() (v, slack float64) {
	at := make([]r3.Vec, len(s.start)-1)
	for i := range at {
		links := s.round(int32(i))
		for _, l := range links {
			at[i] = r3.Add(at[i], s.quad[l>>2].at)
		}
		at[i] = r3.Scale(1/float64(len(links)), at[i])
	}
	for i := range s.quad {
		c := &s.quad[i].corner
		p := at[c[0]]
		for k := 1; k < 3; k++ {
			n := r3.Cross(r3.Sub(at[c[k]], p), r3.Sub(at[c[k+1]], p))
			v += r3.Dot(p, n) / 6
			slack += length(n) / 2 * volumeShare * length(s.size(c[0]))
		}
	}
	return v, slack
}
