package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Shares of the tolerance within which two faces of a part that look the same
// way are made one: two flat ones side by side, or the walls of two round bars
// about one axis, which need the rest for their chords. The step between them
// is no wider than the mesh may stray; what the move costs is in the tolerance
// that Report tells.
const (
	flatShare  = 0.9
	roundShare = 1 - innerShare
)

// flush is the work of making faces one.
type flush struct {
	flat, round float64 // mm
	leaves      []flushLeaf
	moved       int
	farthest    float64
}

// flushLeaf is a leaf of the solid at hand.
type flushLeaf struct {
	*tree
	box  r3.Box
	cuts bool // takes material away
	held bool // a fillet was made for it: it stays as it is
}

// flushed returns the solid with faces that lie close to an earlier one by the
// tolerance in mm moved onto it, the number of moves and the longest.
func (t *tree) flushed(tolerance float64) (*tree, int, float64) {
	c := t.map1(func(*tree) {})
	w := flush{flat: flatShare * tolerance, round: roundShare * tolerance}
	w.gather(c, false)
	for i := range w.leaves {
		f, ok := w.leaves[i].leaf.(*fillet)
		if !ok {
			continue
		}
		for j := range w.leaves {
			if b, ok := w.leaves[j].leaf.(*taper); ok && *b == *f.stem && w.leaves[j].pose == w.leaves[i].pose {
				w.leaves[j].held = true
			}
		}
	}
	w.rounds()
	w.flats()
	if w.moved == 0 {
		return t, 0, 0
	}
	return c, w.moved, w.farthest
}

func (w *flush) gather(t *tree, cuts bool) {
	if t.op == primitive {
		w.leaves = append(w.leaves, flushLeaf{t, placedBox(t.leaf.box(), t.pose), cuts, false})
		return
	}
	for _, k := range t.kids {
		w.gather(k, cuts != (t.op == inverse))
	}
}

// side is a flat face of a leaf, as the part's axes have it.
type side struct {
	n      r3.Vec
	d      float64
	leaf   int
	face   int
	before int // the first side in the same place, this one if none
}

// flats moves flat faces. Those in one place go together; none goes where one
// of them cannot.
func (w *flush) flats() {
	var all []side
	for i := range w.leaves {
		l := &w.leaves[i]
		b, bar := l.leaf.(*taper)
		for k, f := range l.leaf.faces() {
			p, ok := f.surface.(plane)
			if !ok || bar && k < taperCorner && !b.broad(k) {
				continue
			}
			n := direction(l.pose, p.n)
			all = append(all, side{n, p.d + r3.Dot(n, l.pose.At), i, k, len(all)})
		}
	}
	// The distance of b from a along a's normal, if they are parallel.
	apart := func(a, b *side) (float64, bool) {
		if r3.Norm(r3.Cross(a.n, b.n)) > flushTurn {
			return 0, false
		}
		return math.Copysign(1, r3.Dot(a.n, b.n))*b.d - a.d, true
	}
	for j := range all {
		for i := range j {
			if d, ok := apart(&all[i], &all[j]); ok && math.Abs(d) < flushSame {
				all[j].before = all[i].before
				break
			}
		}
	}
	place := func(first int) []*side {
		var in []*side
		for i := range all {
			if all[i].before == first {
				in = append(in, &all[i])
			}
		}
		return in
	}
	for j := range all {
		for i := range j {
			a, b := &all[i], &all[j]
			d, ok := apart(a, b)
			if !ok || a.before == b.before || math.Abs(d) > w.flat || !w.level(a, b) {
				continue
			}
			from, to := place(b.before), place(a.before)
			if !w.free(from) {
				from, to, d = to, from, -d
			}
			if !w.free(from) {
				continue
			}
			first := to[0].before
			for _, s := range from {
				out := -d
				if r3.Dot(s.n, a.n) < 0 {
					out = d
				}
				w.leaves[s.leaf].shift(s.face, out)
				s.d += out
				s.before = first
			}
			w.moved++
			w.farthest = max(w.farthest, math.Abs(d))
		}
	}
}

// level reports whether two flat faces of different leaves look the same way
// where the leaves meet.
func (w *flush) level(a, b *side) bool {
	p, q := &w.leaves[a.leaf], &w.leaves[b.leaf]
	if a.leaf == b.leaf || (r3.Dot(a.n, b.n) > 0) != (p.cuts == q.cuts) {
		return false
	}
	_, ok := common(p.box, q.box, w.flat)
	return ok
}

// free reports whether all of the faces can be moved.
func (w *flush) free(all []*side) bool {
	for _, s := range all {
		l := &w.leaves[s.leaf]
		if l.held {
			return false
		}
		switch b := l.leaf.(type) {
		case *taper:
			if s.face < taperCorner && !b.roomy(s.face, w.flat) {
				return false
			}
		case *extrusion:
			if s.face < b.total {
				return false
			}
		case halfSpace:
		default:
			return false
		}
	}
	return true
}

// broad reports whether a side of a bar is wider than a line.
func (t *taper) broad(face int) bool {
	if face < 2 {
		return max(t.y, t.dy) > 0
	}
	return max(t.x, t.dx) > 0
}

// roomy reports whether a side of a bar can move by so much either way.
func (t *taper) roomy(face int, by float64) bool {
	own, across := t.x, t.y
	slope := t.dx
	if face >= 2 {
		own, across, slope = t.y, t.x, t.dy
	}
	if own == 0 && slope == 0 { // round ends
		return t.dr == 0 && across > by && t.r > by
	}
	return min(own, own+slope*t.h) > by
}

// shift moves a face of a leaf out by so many mm along its normal.
func (l *flushLeaf) shift(face int, out float64) {
	switch b := l.leaf.(type) {
	case halfSpace:
		b.p.d += out
		l.leaf = b
	case *extrusion:
		e := *b
		if e.h += out; face == e.total {
			l.pose.At = r3.Sub(l.pose.At, r3.Scale(out, l.pose.Z))
		}
		l.leaf = &e
	case *taper:
		t := *b
		switch face {
		case taperBottom: // the sections stay where they are
			t.h += out
			t.x, t.y, t.r = t.x-out*t.dx, t.y-out*t.dy, t.r-out*t.dr
			l.pose.At = r3.Sub(l.pose.At, r3.Scale(out, l.pose.Z))
		case taperTop:
			t.h += out
		default:
			own, across, slope, way := &t.x, &t.y, t.dx, l.pose.X
			if face >= 2 {
				own, across, slope, way = &t.y, &t.x, t.dy, l.pose.Y
			}
			if face&1 == 1 {
				way = r3.Scale(-1, way)
			}
			half := out * math.Hypot(1, slope+t.dr) / 2
			if *own == 0 && slope == 0 {
				t.r += half
				*across -= half
			} else {
				*own += half
			}
			l.pose.At = r3.Add(l.pose.At, r3.Scale(half, way))
		}
		l.leaf = &t
	}
}

// flushTurn is the sine of the angle between faces up to which they are
// parallel; flushSame the distance in mm of faces in the same place.
const (
	flushTurn = 1e-9
	flushSame = 1e-9
)

// rounds gives round bars about one axis the same radius, and their quarters
// the same directions.
func (w *flush) rounds() {
	var all []int
	for i := range w.leaves {
		if b, ok := w.leaves[i].leaf.(*taper); ok && b.round() {
			all = append(all, i)
		}
	}
	for j, k := range all {
		for _, i := range all[:j] {
			a, b := &w.leaves[i], &w.leaves[k]
			if a.cuts != b.cuts {
				continue
			}
			if _, ok := common(a.box, b.box, w.round); !ok {
				continue
			}
			if b.held {
				a, b = b, a
			}
			if !b.held {
				if near, by := b.join(a, w.round); near {
					if by > 0 {
						w.moved++
						w.farthest = max(w.farthest, by)
					}
					break
				}
			}
		}
	}
}

// join makes a round bar's wall one with another's if it lies within so many
// mm of it, and reports whether it does and by how much it moved: by a trace
// where only the quarters turned.
func (l *flushLeaf) join(to *flushLeaf, within float64) (near bool, by float64) {
	t, o := *l.leaf.(*taper), to.leaf.(*taper)
	sign := math.Copysign(1, r3.Dot(l.pose.Z, to.pose.Z))
	if r3.Norm(r3.Cross(l.pose.Z, to.pose.Z)) > flushTurn || math.Abs(t.dr-sign*o.dr) > flushTurn {
		return false, 0
	}
	foot := toLocal(to.pose, l.pose.At)
	r := o.r + o.dr*foot.Z
	by = math.Hypot(foot.X, foot.Y) + math.Abs(r-t.r)
	if by > within || r <= 0 || r+sign*o.dr*t.h < 0 {
		return false, 0
	}
	pose := mesh.Pose{X: to.pose.X, Y: r3.Scale(sign, to.pose.Y), Z: r3.Scale(sign, to.pose.Z), At: to.pose.Apply(r3.Vec{Z: foot.Z})}
	if turned := r3.Norm(r3.Sub(pose.X, l.pose.X)) > flushTurn; !turned && by < flushSame {
		return true, 0
	}
	t.r, t.dr = r, sign*o.dr
	t.scale = o.scale
	l.leaf, l.pose = &t, pose
	return true, max(by, flushSame)
}
