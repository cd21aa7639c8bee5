package mesh

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// fanout is the number of boxes that one box of the next level holds.
const fanout = 8

// hierarchy is a tree of boxes over triangles in Morton order: level 0 has a
// box a triangle, every further level a box for each fanout of the one below.
type hierarchy struct {
	order  []int32 // triangles along the Morton curve
	levels [][]bounds
}

// bounds is a box: lowest, then highest corner.
type bounds struct{ low, high [3]float64 }

func newHierarchy(m *Mesh, sound []bool) *hierarchy {
	box := m.Box()
	size := r3.Sub(box.Max, box.Min)
	scale := (1<<21 - 1) / max(size.X, size.Y, size.Z, 1e-30)
	type entry struct {
		code     uint64
		triangle int32
	}
	entries := make([]entry, 0, len(m.Triangles))
	for i, t := range m.Triangles {
		if !sound[i] {
			continue
		}
		b := m.bounds(t)
		code := uint64(0)
		for axis, low := range [3]float64{box.Min.X, box.Min.Y, box.Min.Z} {
			code |= spread(uint64(((b.low[axis]+b.high[axis])/2-low)*scale)) << axis
		}
		entries = append(entries, entry{code, int32(i)})
	}
	slices.SortFunc(entries, func(p, q entry) int {
		return cmp.Or(cmp.Compare(p.code, q.code), cmp.Compare(p.triangle, q.triangle))
	})
	h := &hierarchy{order: make([]int32, len(entries))}
	level := make([]bounds, len(entries))
	for at, e := range entries {
		h.order[at] = e.triangle
		level[at] = m.bounds(m.Triangles[e.triangle])
	}
	h.levels = append(h.levels, level)
	for len(level) > fanout {
		above := make([]bounds, (len(level)+fanout-1)/fanout)
		for k := range above {
			group := level[k*fanout : min((k+1)*fanout, len(level))]
			above[k] = group[0]
			for _, b := range group[1:] {
				above[k].include(b)
			}
		}
		h.levels = append(h.levels, above)
		level = above
	}
	return h
}

// spread puts two zero bits behind each of the lowest 21.
func spread(x uint64) uint64 {
	x = (x | x<<32) & 0x1f00000000ffff
	x = (x | x<<16) & 0x1f0000ff0000ff
	x = (x | x<<8) & 0x100f00f00f00f00f
	x = (x | x<<4) & 0x10c30c30c30c30c3
	return (x | x<<2) & 0x1249249249249249
}

// visit calls each for every triangle behind place at of the order whose box
// touches the box of the triangle there, until each returns false.
func (h *hierarchy) visit(at int, each func(triangle int32) bool) {
	top := len(h.levels) - 1
	span := 1
	for range top {
		span *= fanout
	}
	own := h.levels[0][at]
	h.descend(&own, at, top, span, 0, len(h.levels[top]), each)
}

func (h *hierarchy) descend(own *bounds, at, level, span, from, to int, each func(int32) bool) bool {
	boxes := h.levels[level]
	for k := max(from, (at+1)/span); k < min(to, len(boxes)); k++ {
		if !boxes[k].touches(own) {
			continue
		}
		if level == 0 {
			if !each(h.order[k]) {
				return false
			}
		} else if !h.descend(own, at, level-1, span/fanout, k*fanout, (k+1)*fanout, each) {
			return false
		}
	}
	return true
}

func (m *Mesh) bounds(t [3]int32) bounds {
	a, b, c := m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
	return bounds{
		low:  [3]float64{min(a.X, b.X, c.X), min(a.Y, b.Y, c.Y), min(a.Z, b.Z, c.Z)},
		high: [3]float64{max(a.X, b.X, c.X), max(a.Y, b.Y, c.Y), max(a.Z, b.Z, c.Z)},
	}
}

func (b *bounds) include(c bounds) {
	for i := range 3 {
		b.low[i] = min(b.low[i], c.low[i])
		b.high[i] = max(b.high[i], c.high[i])
	}
}

func (b *bounds) touches(c *bounds) bool {
	return b.low[0] <= c.high[0] && c.low[0] <= b.high[0] &&
		b.low[1] <= c.high[1] && c.low[1] <= b.high[1] &&
		b.low[2] <= c.high[2] && c.low[2] <= b.high[2]
}
