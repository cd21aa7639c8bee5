package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/outline"
)

// less is a region without what a cut takes of it: a hole where the cut lies within, a notch where it crosses the outer edge once.
// It is false where the cut would leave two pieces or none, or meets a hole.
func less(o outline.Outline, cut outline.Loop) (outline.Outline, bool) {
	enter, leave := crossings(o.Outer, cut)
	in, out := crossings(cut, o.Outer)
	switch {
	case len(enter) == 0 && len(in) == 0:
		if o.Outer.Distance(corner(cut, 0)) > 0 {
			return o, !cut.Contains(corner(o.Outer, 0))
		}
		holes := append(append([]outline.Loop(nil), o.Holes...), cut.Reverse())
		o = outline.Outline{Outer: o.Outer, Holes: holes}
	case len(enter) == 1 && len(leave) == 1 && len(in) == 1 && len(out) == 1:
		// Where the region's edge enters the cut, the cut's edge leaves the region.
		edge := stretch(o.Outer, leave[0], enter[0])
		back := backwards(stretch(cut, in[0], out[0]), point(cut, out[0]))
		o = outline.Outline{Outer: append(edge, back...), Holes: o.Holes}
	default:
		return o, false
	}
	return o, o.Check() == nil
}

// crossings are where a loop goes into another and comes out of it: an edge's index and the share of the way along it.
func crossings(l, other outline.Loop) (enter, leave []float64) {
	const step = 0.25 // mm
	before := other.Distance(corner(l, 0))
	for i := range l {
		n := max(2, int(math.Ceil(edgeLength(l, i)/step)))
		for k := range n {
			from, to := float64(k)/float64(n), float64(k+1)/float64(n)
			after := other.Distance(point(l, float64(i)+min(to, 1-1e-15)))
			if before > 0 == (after > 0) {
				before = after
				continue
			}
			lo, hi := from, to
			for range 60 {
				mid := (lo + hi) / 2
				if (other.Distance(point(l, float64(i)+min(mid, 1-1e-15))) > 0) == (before > 0) {
					lo = mid
				} else {
					hi = mid
				}
			}
			at := float64(i) + min((lo+hi)/2, 1-1e-12)
			if before > 0 {
				enter = append(enter, at)
			} else {
				leave = append(leave, at)
			}
			before = after
		}
	}
	return enter, leave
}

func corner(l outline.Loop, i int) r2.Vec {
	v := l[i%len(l)]
	return r2.Vec{X: v.X, Y: v.Y}
}

func edgeLength(l outline.Loop, i int) float64 {
	chord := r2.Norm(r2.Sub(corner(l, i+1), corner(l, i)))
	if l[i].Bulge == 0 {
		return chord
	}
	half := 2 * math.Atan(math.Abs(l[i].Bulge))
	return chord * half / math.Sin(half)
}

// point is the place on a loop at an edge's index and the share of the way along it.
func point(l outline.Loop, at float64) r2.Vec {
	i := int(at)
	s := at - float64(i)
	p, q := corner(l, i), corner(l, i+1)
	chord := r2.Sub(q, p)
	sweep := 4 * math.Atan(l[i].Bulge)
	if sweep == 0 {
		return r2.Add(p, r2.Scale(s, chord))
	}
	long := math.Sin(s*sweep/2) / math.Sin(sweep/2)
	return r2.Add(p, r2.Scale(long, turned(chord, (s-1)*sweep/2)))
}

// stretch is a loop's piece from one place to another, without its last point.
func stretch(l outline.Loop, from, to float64) outline.Loop {
	var piece outline.Loop
	add := func(i int, a, b float64) {
		v := point(l, float64(i)+a)
		piece = append(piece, outline.Vertex{X: v.X, Y: v.Y, Bulge: math.Tan((b - a) * math.Atan(l[i].Bulge))})
	}
	first, last := int(from), int(to)
	if first == last && to > from {
		add(first, from-float64(first), to-float64(last))
		return piece
	}
	add(first, from-float64(first), 1)
	for i := (first + 1) % len(l); i != last; i = (i + 1) % len(l) {
		add(i, 0, 1)
	}
	add(last, 0, to-float64(last))
	return piece
}

// backwards is a stretch with its end, the other way round and without its new last point.
func backwards(piece outline.Loop, end r2.Vec) outline.Loop {
	n := len(piece)
	out := make(outline.Loop, n)
	for k := range n {
		at := end
		if k > 0 {
			at = corner(piece, n-k)
		}
		out[k] = outline.Vertex{X: at.X, Y: at.Y, Bulge: -piece[n-1-k].Bulge}
	}
	return out
}
