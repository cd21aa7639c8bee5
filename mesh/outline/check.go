package outline

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Reach is the largest coordinate in mm, of either sign, in an outline.
const Reach = 1e6

// Check returns every fault of the region as one joined error: a loop that is
// not sound (see Loop.Check), runs the wrong way, crosses or touches another,
// or lies on the wrong side of it.
func (o Outline) Check() error {
	var faults []error
	note := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	loops := append([]Loop{o.Outer}, o.Holes...)
	sound := make([]bool, len(loops))
	for i, l := range loops {
		if err := l.Check(); err != nil {
			note("%s: %w", name(i), err)
			continue
		}
		sound[i] = true
		switch area := l.Area(); {
		case i == 0 && area < 0:
			note("outer loop at %s runs clockwise; reverse it", spot(l[0].point()))
		case i > 0 && area > 0:
			note("%s at %s runs counter-clockwise; reverse it", name(i), spot(l[0].point()))
		}
	}
	for i, l := range loops {
		for j := i + 1; j < len(loops); j++ {
			if !sound[i] || !sound[j] {
				continue
			}
			h := loops[j]
			if at, hit := l.crosses(h); hit {
				note("%s and %s meet at %s; move them apart", name(i), name(j), spot(at))
				continue
			}
			switch inside := l.Contains(h[0].point()); {
			case i == 0 && !inside:
				note("%s at %s lies outside the outer loop; move it inside or leave it out", name(j), spot(h[0].point()))
			case i > 0 && (inside || h.Contains(l[0].point())):
				note("%s and %s lie one in the other at %s; leave out the inner one", name(i), name(j), spot(h[0].point()))
			}
		}
	}
	return errors.Join(faults...)
}

func name(i int) string {
	if i == 0 {
		return "outer loop"
	}
	return fmt.Sprintf("hole %d", i)
}

// Check returns an error naming the first place where the loop is not a simple
// closed curve: coordinates or bulges that are no numbers, an edge without
// length, or edges that cross, touch or run back on themselves. Edges closer
// than 1e-9 mm count as touching. Either direction is sound.
func (l Loop) Check() error {
	for i, v := range l {
		if !(math.Abs(v.X) <= Reach && math.Abs(v.Y) <= Reach) {
			return fmt.Errorf("vertex %d at %s: not a number, or beyond %g mm; use smaller, finite dimensions", i, spot(v.point()), Reach)
		}
		if !(math.Abs(v.Bulge) <= 1e3) {
			return fmt.Errorf("vertex %d at %s: a bulge of %g is out of range; use -1000 to 1000", i, spot(v.point()), v.Bulge)
		}
	}
	if len(l) < 2 {
		return fmt.Errorf("a loop of %d vertices encloses nothing; give it two arcs or three lines", len(l))
	}
	boxes := make([]r2.Box, len(l))
	for i, e := range l.edges {
		if r2.Norm(r2.Sub(e.q, e.p)) < touch {
			return fmt.Errorf("edge %d at %s has no length; leave out one of its ends", i, spot(e.p))
		}
		boxes[i] = e.box()
	}
	for i, e := range l.edges {
		for j := i + 1; j < len(l); j++ {
			if !overlap(boxes[i], boxes[j]) {
				continue
			}
			if at, hit := e.hits(l.edge(j), j == i+1, i == (j+1)%len(l)); hit {
				return fmt.Errorf("edges %d and %d meet at %s; a loop must not cross or touch itself", i, j, spot(at))
			}
		}
	}
	if area := l.Area(); math.Abs(area) < touch*l.Length() {
		return fmt.Errorf("the loop at %s encloses no area; pull its edges apart", spot(l[0].point()))
	}
	return nil
}

// crosses returns a place where two loops meet.
func (l Loop) crosses(o Loop) (r2.Vec, bool) {
	for _, e := range l.edges {
		b := e.box()
		for _, f := range o.edges {
			if !overlap(b, f.box()) {
				continue
			}
			if at, hit := e.hits(f, false, false); hit {
				return at, true
			}
		}
	}
	return r2.Vec{}, false
}

// hits returns a place where two edges meet other than the corners they share:
// the end of e where f starts, and the start of e where f ends.
func (e edge) hits(f edge, endShared, startShared bool) (r2.Vec, bool) {
	var shared []r2.Vec
	if endShared {
		shared = append(shared, e.q)
	}
	if startShared {
		shared = append(shared, e.p)
	}
	isShared := func(x r2.Vec) bool {
		for _, s := range shared {
			// What meets beyond one edge's end may lie touch off the corner.
			if r2.Norm(r2.Sub(x, s)) < 10*touch {
				return true
			}
		}
		return false
	}
	try := e.meets(f)
	for _, x := range []r2.Vec{e.p, e.q, e.at(0.5)} {
		if f.distance(x) < touch {
			try = append(try, x)
		}
	}
	for _, x := range []r2.Vec{f.p, f.q, f.at(0.5)} {
		if e.distance(x) < touch {
			try = append(try, x)
		}
	}
	for _, x := range try {
		if !isShared(x) {
			return x, true
		}
	}
	return r2.Vec{}, false
}

func (e edge) box() r2.Box {
	r := touch
	if e.sweep != 0 { // the arc strays from its chord by less than its length
		r += math.Abs(e.length())
	}
	return r2.Box{
		Min: r2.Vec{X: min(e.p.X, e.q.X) - r, Y: min(e.p.Y, e.q.Y) - r},
		Max: r2.Vec{X: max(e.p.X, e.q.X) + r, Y: max(e.p.Y, e.q.Y) + r},
	}
}

func overlap(a, b r2.Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

func (v Vertex) point() r2.Vec { return r2.Vec{X: v.X, Y: v.Y} }

// spot writes a position in mm for an error text.
func spot(v r2.Vec) string { return fmt.Sprintf("(%.6g, %.6g) mm", v.X, v.Y) }
