package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// chain is the line between two patches from one corner to the next: an edge
// or a seam of the part. A closed one begins and ends at the same vertex.
type chain struct {
	left, right int32   // patches
	path        []int32 // vertices of the quads
	labels      [2]int32
	points      []r3.Vec // after sampling, ends included
	first       int32    // number of its first inner point in the mesh
	gone        bool     // no longer than a point
}

// border is all chains, and for every gap between two links of a vertex the
// chain that leaves there: its number, or its complement where it is left
// from its end; borderless where there is none.
type border struct {
	*placed
	chains []chain
	gap    []int32
	corner []int32 // mesh vertex of a corner, -1 for others
	count  int32   // of corners
}

const borderless = math.MinInt32

func (s *placed) border() *border {
	b := &border{placed: s, gap: make([]int32, len(s.links)), corner: make([]int32, len(s.cell))}
	for i := range b.gap {
		b.gap[i] = borderless
	}
	for v := range b.corner {
		b.corner[v] = -1
		if n := b.gaps(int32(v)); n != 0 && n != 2 {
			b.mark(int32(v))
		}
	}
	trace := func(v int32) {
		for j := range b.round(v) {
			if b.open(v, j) && b.gap[b.start[v]+int32(j)] == borderless {
				b.trace(v, j)
			}
		}
	}
	for v := range b.corner {
		if b.corner[v] >= 0 {
			trace(int32(v))
		}
	}
	for v := range b.corner { // closed lines without a corner
		if !b.edge[v] || b.corner[v] >= 0 || b.gaps(int32(v)) == 0 {
			continue
		}
		fresh := true
		for j := range b.round(int32(v)) {
			fresh = fresh && (!b.open(int32(v), j) || b.gap[b.start[v]+int32(j)] == borderless)
		}
		if fresh {
			b.mark(int32(v))
			trace(int32(v))
		}
	}
	return b
}

func (b *border) mark(v int32) {
	b.corner[v] = b.count
	b.count++
}

// open reports whether different patches lie on the two sides of a gap.
func (b *border) open(v int32, j int) bool {
	links := b.round(v)
	return b.quad[links[j]>>2].patch != b.quad[links[(j+1)%len(links)]>>2].patch
}

func (b *border) gaps(v int32) int {
	if !b.edge[v] {
		return 0
	}
	n := 0
	for j := range b.round(v) {
		if b.open(v, j) {
			n++
		}
	}
	return n
}

func (b *border) trace(v int32, j int) {
	n := int32(len(b.chains))
	links := b.round(v)
	l, r := &b.quad[links[(j+1)%len(links)]>>2], &b.quad[links[j]>>2]
	c := chain{left: l.patch, right: r.patch, labels: [2]int32{l.label, r.label}, path: []int32{v}}
	for {
		links = b.round(v)
		b.gap[b.start[v]+int32(j)] = n
		on, from := links[j], links[(j+1)%len(links)]
		w := b.across(on)
		c.path = append(c.path, w)
		// At w the quad on the left comes just before the one on the right.
		back := b.round(w)
		k := 0
		for back[k]>>2 != from>>2 || back[(k+1)%len(back)]>>2 != on>>2 {
			k++
		}
		b.gap[b.start[w]+int32(k)] = ^n
		if b.corner[w] >= 0 {
			break
		}
		for j = 0; j == k || !b.open(w, j); j++ {
		}
		v = w
	}
	b.chains = append(b.chains, c)
}

// sample replaces the path of a chain by the fewest points on the exact
// curve whose chords stray from it by at most tolerance, and at least least
// chords.
func (b *border) sample(c *chain, tolerance float64, least int) {
	rough := make([]r3.Vec, 0, len(c.path))
	last := len(c.path) - 1
	for i, v := range c.path {
		if i == 0 || i == last || b.ok[v] {
			rough = append(rough, b.at[v])
		}
	}
	rough = forward(rough, 1e-7)
	var t touch
	middle := func(p, q r3.Vec) (r3.Vec, bool) {
		m := r3.Scale(0.5, r3.Add(p, q))
		b.p.meet(c.labels[:], m, &t)
		x, ok := t.solve(m, 0.6*length(r3.Sub(p, q)))
		return x, ok
	}
	fine := rough[:1:1]
	bend := []float64{0} // running count of chords wanted
	var refine func(p, q r3.Vec, depth int)
	refine = func(p, q r3.Vec, depth int) {
		m, ok := middle(p, q)
		s := 0.0
		if ok {
			s = length(r3.Sub(m, r3.Scale(0.5, r3.Add(p, q))))
		}
		if s > 2*tolerance && depth > 0 {
			refine(p, m, depth-1)
			refine(m, q, depth-1)
			return
		}
		fine = append(fine, q)
		bend = append(bend, bend[len(bend)-1]+math.Sqrt(s/tolerance))
	}
	for i := 1; i < len(rough); i++ {
		refine(rough[i-1], rough[i], 12)
	}
	total := bend[len(bend)-1]
	n := max(least, int(math.Ceil(total-0.02)))
	c.points = append(c.points[:0], rough[0])
	k := 1
	for i := 1; i < n; i++ {
		want := total * float64(i) / float64(n)
		for k < len(bend)-1 && bend[k] < want {
			k++
		}
		f := float64(i) / float64(n)
		x := r3.Add(r3.Scale(1-f, rough[0]), r3.Scale(f, rough[len(rough)-1]))
		if total > 1e-9 && bend[k] > bend[k-1] {
			f = (want - bend[k-1]) / (bend[k] - bend[k-1])
			x = r3.Add(r3.Scale(1-f, fine[k-1]), r3.Scale(f, fine[k]))
		}
		b.p.meet(c.labels[:], x, &t)
		if y, ok := t.solve(x, 20*tolerance+1e-3); ok {
			x = y
		}
		c.points = append(c.points, x)
	}
	c.points = append(c.points, rough[len(rough)-1])
	// An end that only nearly lies on the curve may have drawn points together.
	if even := forward(c.points, 0.2*tolerance); len(even) > least {
		c.points = even
	}
}

// forward drops points at which a line turns back on itself or does not get on.
func forward(line []r3.Vec, least float64) []r3.Vec {
	out := line[:1:1]
	for i := 1; i < len(line); i++ {
		q := line[i]
		for len(out) > 1 {
			a, b := r3.Sub(out[len(out)-1], out[len(out)-2]), r3.Sub(q, out[len(out)-1])
			if r3.Dot(a, b) > 0 {
				break
			}
			out = out[:len(out)-1]
		}
		if i == len(line)-1 || length(r3.Sub(q, out[len(out)-1])) > least {
			out = append(out, q)
		}
	}
	return out
}

// contract makes one of corners that chains of no length join: a face that
// pokes through a grid line beside its own corner shows that corner twice.
func (b *border) contract() {
	const same = 1e-6 // mm; corners are exact to far less
	one := make([]int32, b.count)
	for i := range one {
		one[i] = int32(i)
	}
	find := func(i int32) int32 {
		for one[i] != i {
			i = one[i]
		}
		return i
	}
	for i := range b.chains {
		c := &b.chains[i]
		c.gone = true
		for _, x := range c.points[1:] {
			c.gone = c.gone && length(r3.Sub(x, c.points[0])) < same
		}
		if c.gone {
			p, q := find(b.corner[c.path[0]]), find(b.corner[c.path[len(c.path)-1]])
			one[max(p, q)] = min(p, q)
		}
	}
	for v, n := range b.corner {
		if n >= 0 {
			b.corner[v] = find(n)
		}
	}
}
