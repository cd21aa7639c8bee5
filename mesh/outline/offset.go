package outline

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Offset returns the loop at the distance d in mm outside the loop, or inside
// it where d is negative: the bore of a tube from its outside and the wall.
// Lines stay lines, arcs keep their centres, an outside corner grows an arc of
// radius |d|, and an edge that shrinks to nothing lets its neighbours meet.
//
// The result is compared with the true distance before it is returned. A loop
// whose narrows close, so that offset edges cross, is refused with an
// error, as is an offset that leaves nothing.
func (l Loop) Offset(d float64) (Loop, error) {
	if err := l.Check(); err != nil {
		return nil, fmt.Errorf("offset by %g mm: %w", d, err)
	}
	if math.IsNaN(d) || math.IsInf(d, 0) {
		return nil, fmt.Errorf("an offset of %g mm is not finite", d)
	}
	if d == 0 {
		return append(Loop(nil), l...), nil
	}
	if l.Area() < 0 {
		out, err := l.Reverse().Offset(d)
		return out.Reverse(), err
	}
	var moved []parallel
	for i, e := range l.edges {
		before := l.edge((i + len(l) - 1) % len(l))
		if turn := r2.Cross(before.heading(1), e.heading(0)); turn*d > smooth {
			moved = append(moved, corner(e.p, before.heading(1), e.heading(0), d))
		}
		moved = append(moved, e.parallel(d))
	}
	out, ok := link(moved)
	if !ok || !l.keeps(out, d) {
		return nil, fmt.Errorf("an offset of %g mm leaves no single loop of the one at %s; use a smaller one", d, spot(l[0].point()))
	}
	return out, nil
}

// smooth is the sine of the turn below which two edges run on smoothly.
const smooth = 1e-9

// parallel is an edge moved sideways; its ends are where its neighbours cut it.
type parallel struct {
	carrier
	p, q   r2.Vec  // ends before cutting
	length float64 // of the edge it came from
	turns  int     // +1 counter-clockwise arc, -1 clockwise, 0 line
	gone   bool    // an arc moved past its centre
}

func (e edge) parallel(d float64) parallel {
	out := parallel{
		carrier: e.carrier(),
		p:       r2.Add(e.p, r2.Scale(d, right(e.heading(0)))),
		q:       r2.Add(e.q, r2.Scale(d, right(e.heading(1)))),
		length:  e.length(),
	}
	if e.sweep == 0 {
		out.at = out.p
		return out
	}
	out.turns = int(math.Copysign(1, e.sweep))
	out.radius = (e.radius + d) * float64(out.turns)
	out.gone = out.radius <= touch
	return out
}

// corner is the arc around a corner on the side of the offset.
func corner(at, from, to r2.Vec, d float64) parallel {
	return parallel{
		carrier: carrier{at: at, radius: math.Abs(d)},
		p:       r2.Add(at, r2.Scale(d, right(from))),
		q:       r2.Add(at, r2.Scale(d, right(to))),
		turns:   int(math.Copysign(1, d)),
	}
}

// link cuts neighbours at one another and drops, one by one, the edge that
// ran out first, until none runs backwards.
func link(moved []parallel) (Loop, bool) {
	for i := 0; i < len(moved); {
		if moved[i].gone {
			moved = append(moved[:i], moved[i+1:]...)
		} else {
			i++
		}
	}
	for len(moved) >= 2 {
		joints := make([]r2.Vec, len(moved)) // where edge i starts
		ok := true
		for i := range moved {
			before := moved[(i+len(moved)-1)%len(moved)]
			joints[i], ok = joint(before, moved[i])
			if !ok {
				return nil, false
			}
		}
		worst, shrunk := -1, math.Inf(1)
		for i, m := range moved {
			if m.turns != 0 {
				continue
			}
			along := r2.Dot(r2.Sub(joints[(i+1)%len(moved)], joints[i]), m.along)
			// The share of the offset at which the edge has shrunk to nothing.
			if at := m.length / (m.length - along); along < touch && at < shrunk {
				worst, shrunk = i, at
			}
		}
		if worst >= 0 {
			moved = append(moved[:worst], moved[worst+1:]...)
			continue
		}
		out := make(Loop, len(moved))
		for i, m := range moved {
			p, q := joints[i], joints[(i+1)%len(moved)]
			out[i] = Vertex{X: p.X, Y: p.Y}
			if m.turns != 0 {
				sweep := float64(m.turns) * math.Atan2(r2.Cross(r2.Sub(p, m.at), r2.Sub(q, m.at)), r2.Dot(r2.Sub(p, m.at), r2.Sub(q, m.at)))
				if sweep <= 0 {
					sweep += 2 * math.Pi
				}
				out[i].Bulge = float64(m.turns) * math.Tan(sweep/4)
			}
		}
		return out, true
	}
	return nil, false
}

// joint returns the point where a ends and b starts: where they meet smoothly,
// or else their crossing nearest to both old ends.
func joint(a, b parallel) (r2.Vec, bool) {
	if r2.Norm(r2.Sub(a.q, b.p)) < touch {
		return a.q, true
	}
	best, far, ok := r2.Vec{}, math.Inf(1), false
	for _, x := range crossings(a.carrier, b.carrier) {
		if d := r2.Norm(r2.Sub(x, a.q)) + r2.Norm(r2.Sub(x, b.p)); d < far {
			best, far, ok = x, d, true
		}
	}
	return best, ok
}

// keeps reports whether out is sound, runs the same way and keeps the distance
// d from l at its corners and along its edges, to a millionth of d or of 1 mm.
func (l Loop) keeps(out Loop, d float64) bool {
	if out.Check() != nil || out.Area() <= 0 {
		return false
	}
	for _, e := range out.edges {
		for _, s := range []float64{0, 0.25, 0.5, 0.75} {
			if math.Abs(l.Distance(e.at(s))-d) > 1e-6*max(1, math.Abs(d)) {
				return false
			}
		}
	}
	return true
}
