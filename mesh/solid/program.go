package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// program is a solid ready for evaluation: its faces are numbered through
// the part, equal surfaces once.
type program struct {
	root   *code
	sites  []place // by surface number
	seams  map[[2]int32][]cutAt
	boxed  []request // in the part's axes
	levels []level
	rounds []r3.Box // around upright and lying round bars
}

// place is a surface in the part.
type place struct {
	surface
	pose mesh.Pose
	name string
}

// cutAt is a seam's surface in the part.
type cutAt struct {
	surface
	pose mesh.Pose
}

// code is one operation of a program. A label is twice the number of a
// surface, plus one where the material lies on its outer side.
type code struct {
	op     operation
	moved  bool // only shifted, not turned
	kids   []*code
	leaf   leaf
	labels []int32
	frame  *frame
}

// frame is where a leaf stands in the part and the box around it there.
type frame struct {
	pose mesh.Pose
	box  r3.Box
}

func compile(t *tree) *program {
	p := &program{seams: map[[2]int32][]cutAt{}}
	known := map[string]int32{}
	p.root = p.add(t, known)
	return p
}

func (p *program) add(t *tree, known map[string]int32) *code {
	c := &code{op: t.op, leaf: t.leaf}
	if t.op != primitive {
		for _, k := range t.kids {
			c.kids = append(c.kids, p.add(k, known))
		}
		return c
	}
	c.frame = &frame{t.pose, placedBox(t.leaf.box(), t.pose)}
	c.moved = t.pose == mesh.Move(t.pose.At)
	faces := t.leaf.faces()
	for i, f := range faces {
		key := f.key(t.pose)
		n, ok := known[key]
		if !ok {
			n = int32(len(p.sites))
			known[key] = n
			p.sites = append(p.sites, place{f.surface, t.pose, t.label(i)})
		}
		c.labels = append(c.labels, 2*n)
		if f.flat() {
			d, g := p.sites[n].at(r3.Vec{})
			p.levels = append(p.levels, level{g, -d, n, c.frame.box})
		}
	}
	for i, f := range faces {
		for _, s := range f.seams {
			pair := [2]int32{c.labels[i] / 2, c.labels[s.other] / 2}
			if pair[0] >= pair[1] {
				continue
			}
			p.seams[pair] = append(p.seams[pair], cutAt{s.cut, t.pose})
		}
	}
	if bar, ok := t.leaf.(*taper); ok && bar.round() && aligned(t.pose) {
		p.rounds = append(p.rounds, c.frame.box)
	}
	for _, r := range t.leaf.requests() {
		size := r.size
		if !c.moved { // turned: the finest spacing along every axis it may show
			size = turnedSize(r.size, t.pose)
		}
		p.boxed = append(p.boxed, request{placedBox(r.box, t.pose), size})
	}
	return c
}

// turnedSize returns the spacing along the part's axes that is fine enough
// for the spacing wanted along a leaf's.
func turnedSize(size r3.Vec, pose mesh.Pose) r3.Vec {
	along := func(x, y, z float64) float64 {
		s := math.Inf(1)
		for _, a := range [][2]float64{{size.X, x}, {size.Y, y}, {size.Z, z}} {
			if c := math.Abs(a[1]); c > 1e-6 {
				s = min(s, a[0]/c)
			}
		}
		return s
	}
	return r3.Vec{
		X: along(pose.X.X, pose.Y.X, pose.Z.X),
		Y: along(pose.X.Y, pose.Y.Y, pose.Z.Y),
		Z: along(pose.X.Z, pose.Y.Z, pose.Z.Z),
	}
}

func (s place) at(p r3.Vec) (float64, r3.Vec) {
	v, g := s.surface.at(toLocal(s.pose, p))
	return v, direction(s.pose, g)
}

func (s place) chart(p r3.Vec) (u, v float64) { return s.surface.chart(toLocal(s.pose, p)) }

func (c cutAt) at(p r3.Vec) (float64, r3.Vec) {
	v, g := c.surface.at(toLocal(c.pose, p))
	return v, direction(c.pose, g)
}

// eval returns the value at a point and the label of the face that sets it.
func (c *code) eval(p r3.Vec) (float64, int32) {
	switch c.op {
	case primitive:
		v, f := c.leaf.value(c.local(p))
		return v, c.labels[f]
	case inverse:
		v, l := c.kids[0].eval(p)
		return -v, l ^ 1
	case union:
		best, label := c.kids[0].eval(p)
		for _, k := range c.kids[1:] {
			if v, l := k.eval(p); v < best {
				if v < best-tie {
					label = l
				}
				best = v
			}
		}
		return best, label
	}
	best, label := c.kids[0].eval(p)
	for _, k := range c.kids[1:] {
		if v, l := k.eval(p); v > best {
			if v > best+tie {
				label = l
			}
			best = v
		}
	}
	return best, label
}

// tie is how near in mm two values may be and still count as one: where two
// bodies share a curved face, the first of them gives the label and rounding
// does not.
const tie = 1e-9

// local returns a point in the axes of a leaf.
func (c *code) local(p r3.Vec) r3.Vec {
	if c.moved {
		at := &c.frame.pose.At
		return r3.Vec{X: p.X - at.X, Y: p.Y - at.Y, Z: p.Z - at.Z}
	}
	return toLocal(c.frame.pose, p)
}

// block is a box with its sides along the axes.
type block struct {
	middle r3.Vec
	half   r3.Vec  // of its sides
	radius float64 // from the middle to the corners, a hair more
}

func newBlock(lo, hi r3.Vec) block {
	half := r3.Scale(0.5, r3.Sub(hi, lo))
	half = r3.Vec{X: half.X*(1+1e-9) + 1e-12, Y: half.Y*(1+1e-9) + 1e-12, Z: half.Z*(1+1e-9) + 1e-12}
	return block{r3.Scale(0.5, r3.Add(lo, hi)), half, r3.Norm(half)}
}

// misses reports whether a block lies outside a box.
func (b *block) misses(o *r3.Box) bool {
	return b.middle.X+b.half.X < o.Min.X || b.middle.X-b.half.X > o.Max.X ||
		b.middle.Y+b.half.Y < o.Min.Y || b.middle.Y-b.half.Y > o.Max.Y ||
		b.middle.Z+b.half.Z < o.Min.Z || b.middle.Z-b.half.Z > o.Max.Z
}

// local returns the block in the axes of a leaf, or one around it.
func (c *code) localBlock(b *block) block {
	l := block{c.local(b.middle), b.half, b.radius}
	if !c.moved {
		l.half = r3.Vec{X: b.radius, Y: b.radius, Z: b.radius}
	}
	return l
}

// pruner is a leaf of several faces that can leave out those that do not
// matter in a block. v is its value in the middle. It returns nil where no
// face comes into the block.
type pruner interface {
	prune(b *block, v float64) leaf
}

// near returns the program within a block, cut down to what can matter there,
// and its value in the middle. It is nil where the surface does not come into
// the block; the value then tells inside from outside and is larger than the
// radius. Source: M. Keeter, "Massively parallel rendering of complex
// closed-form implicit surfaces", ACM Transactions on Graphics 39 (2020) 141;
// the bound here is the Lipschitz constant 1.
func (c *code) near(a *arena, b *block) (*code, float64) {
	switch c.op {
	case primitive:
		if b.misses(&c.frame.box) {
			return nil, 2 * b.radius
		}
		l := c.localBlock(b)
		v, _ := c.leaf.value(l.middle)
		if math.Abs(v) > b.radius {
			return nil, v
		}
		if e, ok := c.leaf.(pruner); ok {
			switch kept := e.prune(&l, v); kept {
			case nil:
				return nil, math.Copysign(2*b.radius, v)
			case c.leaf:
			default:
				n := a.code(*c)
				n.leaf = kept
				return n, v
			}
		}
		return c, v
	case inverse:
		k, v := c.kids[0].near(a, b)
		if k == nil {
			return nil, -v
		}
		if k == c.kids[0] {
			return c, -v
		}
		return a.code(code{op: inverse, kids: a.list([]*code{k})}), -v
	}
	sign := 1.0 // a kid with sign·v below -radius decides alone
	if c.op == intersection {
		sign = -1
	}
	best := math.Inf(1)
	var room [32]*code
	kept, same := room[:0], true
	for _, k := range c.kids {
		n, v := k.near(a, b)
		best = min(best, sign*v)
		if n == nil && best < -b.radius {
			return nil, sign * best
		}
		same = same && n == k
		if n != nil {
			kept = append(kept, n)
		}
	}
	switch {
	case len(kept) == 0:
		return nil, sign * best
	case same:
		return c, sign * best
	case len(kept) == 1:
		return kept[0], sign * best
	}
	return a.code(code{op: c.op, kids: a.list(kept)}), sign * best
}

// arena holds the pieces of programs that live as long as the grid.
type arena struct {
	codes []code
	kids  []*code
}

func (a *arena) code(c code) *code {
	if len(a.codes) == cap(a.codes) {
		a.codes = make([]code, 0, 128)
	}
	a.codes = append(a.codes, c)
	return &a.codes[len(a.codes)-1]
}

func (a *arena) list(kids []*code) []*code {
	if cap(a.kids)-len(a.kids) < len(kids) {
		a.kids = make([]*code, 0, max(512, len(kids)))
	}
	n := len(a.kids)
	a.kids = append(a.kids, kids...)
	return a.kids[n:len(a.kids):len(a.kids)]
}
