package solid

import (
	"math"
	"slices"

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
	bars   []bar
	leaves []*code
}

// bar is a placed prism, cylinder or cone.
type bar struct {
	*taper
	*frame
	cuts bool // takes material away
}

// place is a surface in the part.
type place struct {
	surface
	pose   mesh.Pose
	name   string
	owners []*code // leaves with the surface
	level  *plane  // a flat one in the axes of the part
}

// cutAt is a seam's surface in the part.
type cutAt struct {
	surface
	pose mesh.Pose
	same bool // one surface on both sides, cut in two for its charts
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

// compile makes the program of a solid with its round holes wider in radius
// by so much.
func compile(t *tree, wider float64) *program {
	p := &program{seams: map[[2]int32][]cutAt{}}
	known := map[string]int32{}
	p.root = p.add(t, wider, false, known)
	return p
}

// add compiles a tree; cuts tells whether it takes material away.
func (p *program) add(t *tree, wider float64, cuts bool, known map[string]int32) *code {
	if bar, ok := t.leaf.(*taper); ok && cuts && wider > 0 && bar.round() {
		hole, placed := *bar, *t
		hole.r += wider
		placed.leaf = &hole
		t = &placed
	}
	c := &code{op: t.op, leaf: t.leaf}
	if t.op != primitive {
		for _, k := range t.kids {
			c.kids = append(c.kids, p.add(k, wider, cuts != (t.op == inverse), known))
		}
		return c
	}
	c.frame = &frame{t.pose, placedBox(t.leaf.box(), t.pose)}
	p.leaves = append(p.leaves, c)
	c.moved = t.pose == mesh.Move(t.pose.At)
	faces := t.leaf.faces()
	for _, f := range faces {
		key := f.key(t.pose)
		n, ok := known[key]
		if !ok {
			n = int32(len(p.sites))
			known[key] = n
			p.sites = append(p.sites, newPlace(f.surface, t.pose, t.label(f)))
		}
		if s := &p.sites[n]; !slices.Contains(s.owners, c) {
			s.owners = append(s.owners, c)
		}
		c.labels = append(c.labels, 2*n)
		if f.flat() {
			l := p.sites[n].level
			p.levels = append(p.levels, level{l.n, l.d, n, c.frame.box})
		}
	}
	for i, f := range faces {
		for _, s := range f.seams {
			pair := [2]int32{c.labels[i] / 2, c.labels[s.other] / 2}
			if pair[0] >= pair[1] {
				continue
			}
			p.seams[pair] = append(p.seams[pair], cutAt{s.cut, t.pose, same(f.surface, faces[s.other].surface)})
		}
	}
	if l, ok := t.leaf.(*taper); ok {
		p.bars = append(p.bars, bar{l, c.frame, cuts})
		if _, upright := steepest(t.pose.Z); !c.moved && upright > parallelCosine {
			for _, r := range l.slopes(aligned(t.pose)) {
				p.boxed = append(p.boxed, c.frame.request(r))
			}
		}
	}
	for _, r := range t.leaf.requests() {
		p.boxed = append(p.boxed, c.frame.request(r))
	}
	return c
}

// request returns a leaf's request in the axes of the part.
func (f *frame) request(r request) request {
	if f.pose != mesh.Move(f.pose.At) { // turned: the finest spacing along every axis it may show
		r.size = turnedSize(r.size, f.pose)
	}
	return request{placedBox(r.box, f.pose), r.size}
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

// same reports whether two surfaces are one, as the quarters of a cylinder.
func same(a, b surface) bool {
	for _, p := range []r3.Vec{{X: 1.3, Y: 2.1, Z: 0.7}, {X: -2.9, Y: 0.4, Z: -1.1}} {
		v, g := a.at(p)
		w, h := b.at(p)
		if math.Abs(v-w) > exact || r3.Norm(r3.Sub(g, h)) > exact {
			return false
		}
	}
	return true
}

// on reports whether a point of the surface lies on a leaf that has it.
func (s *place) on(p r3.Vec, within float64) bool {
	for _, c := range s.owners {
		if v, _ := c.leaf.value(c.local(p)); math.Abs(v) <= within {
			return true
		}
	}
	return false
}

func newPlace(s surface, pose mesh.Pose, name string) place {
	p := place{surface: s, pose: pose, name: name}
	if s.flat() {
		d, n := p.at(r3.Vec{})
		p.level = &plane{n, -d}
	}
	return p
}

func (s *place) at(p r3.Vec) (float64, r3.Vec) {
	if s.level != nil {
		return s.level.at(p)
	}
	v, g := s.surface.at(toLocal(s.pose, p))
	return v, direction(s.pose, g)
}

func (s *place) chart(p r3.Vec) (u, v float64) { return s.surface.chart(toLocal(s.pose, p)) }

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
