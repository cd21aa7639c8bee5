package mesh

import (
	"cmp"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"
)

// batch is how many triangles of the search order one goroutine takes at a
// time; it is fixed, so the result does not depend on the number of cores.
const batch = 1024

// cross enters the folded and the crossing pairs of sound triangles, at most
// most of them.
func (d *Defects) cross(m *Mesh, sound []bool, most int) {
	h := newHierarchy(m, sound)
	batches := make([][]meeting, (len(h.order)+batch-1)/batch)
	var next atomic.Int64
	var done sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(batches)) {
		done.Go(func() {
			for b := int(next.Add(1)) - 1; b < len(batches); b = int(next.Add(1)) - 1 {
				batches[b] = h.meetings(m, b*batch, min((b+1)*batch, len(h.order)), most+1)
			}
		})
	}
	done.Wait()
	found := slices.Concat(batches...)
	if len(found) > most {
		found, d.CrossingsCut = found[:most], true
	}
	slices.SortFunc(found, func(p, q meeting) int {
		return cmp.Or(cmp.Compare(p.pair[0], q.pair[0]), cmp.Compare(p.pair[1], q.pair[1]))
	})
	for _, f := range found {
		if f.fold {
			d.Folded = append(d.Folded, f.pair)
		} else {
			d.Crossing = append(d.Crossing, f.pair)
		}
	}
}

// meeting is a pair of triangles that have more in common than the corners
// they name together.
type meeting struct {
	pair [2]int
	fold bool
}

// meetings tests the triangles at the given places of the search order
// against all behind them.
func (h *hierarchy) meetings(m *Mesh, from, to, most int) []meeting {
	var out []meeting
	for at := from; at < to; at++ {
		i := h.order[at]
		h.visit(at, func(j int32) bool {
			s, t := m.Triangles[i], m.Triangles[j]
			if hit, fold := meet(m.Vertices, s, t); hit {
				out = append(out, meeting{[2]int{int(min(i, j)), int(max(i, j))}, fold})
			}
			return len(out) < most
		})
		if len(out) >= most {
			break
		}
	}
	return out
}

// meet reports whether two triangles meet outside their common corners and
// edge, and whether they do so by folding along an edge.
func meet(v []r3.Vec, s, t [3]int32) (hit, fold bool) {
	common := 0
	for k, a := range s {
		for l, b := range t {
			if a != b {
				continue
			}
			// bring common corners to the front
			s[common], s[k] = s[k], s[common]
			t[common], t[l] = t[l], t[common]
			common++
			break
		}
	}
	a := [3]r3.Vec{v[s[0]], v[s[1]], v[s[2]]}
	b := [3]r3.Vec{v[t[0]], v[t[1]], v[t[2]]}
	switch common {
	case 3: // a duplicate, or one triangle turned over: counted by its corners
		return false, false
	case 2:
		fold = side(a[0], a[1], a[2], b[2]) == 0 && sameSide(a, b[2])
		return fold, fold
	}
	// Sides of b's corners of the plane of a, and the other way round. The
	// common corner is first and lies in both planes.
	var onA, onB [3]int
	for k := common; k < 3; k++ {
		onA[k] = side(a[0], a[1], a[2], b[k])
	}
	if apart(onA, common) {
		return false, false
	}
	for k := common; k < 3; k++ {
		onB[k] = side(b[0], b[1], b[2], a[k])
	}
	if apart(onB, common) {
		return false, false
	}
	if common == 1 && onA == [3]int{} && (besides(a, b) || besides(b, a)) {
		return false, false
	}
	if common == 1 {
		// Both triangles are convex and hold the corner: what else they share
		// reaches to the far edge of one of them.
		return pierces(b[1], b[2], onA[1], onA[2], a) || pierces(a[1], a[2], onB[1], onB[2], b), false
	}
	if onA == [3]int{} {
		return !flatApart(a, b), false
	}
	for k := range 3 {
		l := (k + 1) % 3
		if pierces(b[k], b[l], onA[k], onA[l], a) || pierces(a[k], a[l], onB[k], onB[l], b) {
			return true, false
		}
	}
	return false, false
}

// besides reports whether a line through the first corner of a, along one of
// its edges there, has all else of b strictly on the side without a. Both lie
// in one plane and have that corner in common.
func besides(a, b [3]r3.Vec) bool {
	axis := facing(a)
	o, p, q := drop(a[0], axis), drop(a[1], axis), drop(a[2], axis)
	r, s := drop(b[1], axis), drop(b[2], axis)
	inward := turn(o, p, q)
	return turn(o, p, r) == -inward && turn(o, p, s) == -inward || turn(o, q, r) == inward && turn(o, q, s) == inward
}

// sameSide reports whether p, in the plane of t, lies on t's side of its first
// edge.
func sameSide(t [3]r3.Vec, p r3.Vec) bool {
	axis := facing(t)
	a, b := drop(t[0], axis), drop(t[1], axis)
	return turn(a, b, drop(t[2], axis)) == turn(a, b, drop(p, axis))
}

// apart reports whether all corners but the common ones lie strictly on one
// side.
func apart(on [3]int, common int) bool {
	for k := common; k < 3; k++ {
		if on[k] == 0 || on[k] != on[common] {
			return false
		}
	}
	return true
}

// pierces reports whether the segment p q, ends included, meets the triangle,
// rim included, given the sides of the triangle's plane on which p and q lie.
func pierces(p, q r3.Vec, onP, onQ int, t [3]r3.Vec) bool {
	switch {
	case onP == 0 && onQ == 0:
		axis := facing(t)
		return flatMeet(drop(p, axis), drop(q, axis), [3]flat{drop(t[0], axis), drop(t[1], axis), drop(t[2], axis)})
	case onP*onQ > 0:
		return false
	}
	left, right := false, false
	for k := range 3 {
		s := side(p, q, t[k], t[(k+1)%3])
		left, right = left || s > 0, right || s < 0
	}
	return !(left && right)
}

// facing returns a coordinate axis along which the triangle shows area.
func facing(t [3]r3.Vec) int {
	n := r3.Cross(r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0]))
	axis := 2
	if n.X*n.X >= n.Y*n.Y && n.X*n.X >= n.Z*n.Z {
		axis = 0
	} else if n.Y*n.Y >= n.Z*n.Z {
		axis = 1
	}
	for k := range 3 {
		a := (axis + k) % 3
		if turn(drop(t[0], a), drop(t[1], a), drop(t[2], a)) != 0 {
			return a
		}
	}
	return axis
}

// flatApart reports whether an edge of one of two triangles in a common plane
// has all of the other strictly outside.
func flatApart(a, b [3]r3.Vec) bool {
	axis := facing(a)
	for range 2 {
		t := [3]flat{drop(a[0], axis), drop(a[1], axis), drop(a[2], axis)}
		outside := -turn(t[0], t[1], t[2])
		for k := range 3 {
			p, q := t[k], t[(k+1)%3]
			if turn(p, q, drop(b[0], axis)) == outside && turn(p, q, drop(b[1], axis)) == outside && turn(p, q, drop(b[2], axis)) == outside {
				return true
			}
		}
		a, b = b, a
	}
	return false
}

// flatMeet reports whether a segment meets a triangle in the plane.
func flatMeet(p, q flat, t [3]flat) bool {
	left, right := false, false
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		if segmentsMeet(p, q, a, b) {
			return true
		}
		s := turn(a, b, p)
		left, right = left || s > 0, right || s < 0
	}
	return !(left && right) // p, and all of the segment, inside
}

// segmentsMeet reports whether two plane segments have a point in common.
func segmentsMeet(p, q, a, b flat) bool {
	onP, onQ := turn(a, b, p), turn(a, b, q)
	onA, onB := turn(p, q, a), turn(p, q, b)
	if onP*onQ > 0 || onA*onB > 0 {
		return false
	}
	if onP == 0 && onQ == 0 { // on one line
		return max(min(p.u, q.u), min(a.u, b.u)) <= min(max(p.u, q.u), max(a.u, b.u)) &&
			max(min(p.v, q.v), min(a.v, b.v)) <= min(max(p.v, q.v), max(a.v, b.v))
	}
	return true
}
