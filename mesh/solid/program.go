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
	kids   []*code
	leaf   leaf
	pose   mesh.Pose
	moved  bool // only shifted, not turned
	labels []int32
}

func compile(t *tree) *program {
	p := &program{seams: map[[2]int32][]cutAt{}}
	known := map[string]int32{}
	p.root = p.add(t, known)
	return p
}

func (p *program) add(t *tree, known map[string]int32) *code {
	c := &code{op: t.op, leaf: t.leaf, pose: t.pose}
	if t.op != primitive {
		for _, k := range t.kids {
			c.kids = append(c.kids, p.add(k, known))
		}
		return c
	}
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
			p.levels = append(p.levels, level{g, -d, n, placedBox(t.leaf.box(), t.pose)})
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
		p.rounds = append(p.rounds, placedBox(bar.box(), t.pose))
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
		if c.moved {
			p = r3.Vec{X: p.X - c.pose.At.X, Y: p.Y - c.pose.At.Y, Z: p.Z - c.pose.At.Z}
		} else {
			p = toLocal(c.pose, p)
		}
		v, f := c.leaf.value(p)
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

// near returns the program within a radius of a point, cut down to what can
// matter there, and its value at the point. It is nil where the surface does
// not come within the radius. Source: M. Keeter, "Massively parallel
// rendering of complex closed-form implicit surfaces", ACM Transactions on
// Graphics 39 (2020) 141; the bound here is the Lipschitz constant 1.
func (c *code) near(p r3.Vec, radius float64) (*code, float64) {
	switch c.op {
	case primitive:
		v, _ := c.eval(p)
		if math.Abs(v) > radius {
			return nil, v
		}
		if e, ok := c.leaf.(interface{ near(r3.Vec, float64) leaf }); ok {
			kept := *c
			kept.leaf = e.near(toLocal(c.pose, p), radius)
			return &kept, v
		}
		return c, v
	case inverse:
		k, v := c.kids[0].near(p, radius)
		if k == nil {
			return nil, -v
		}
		if k == c.kids[0] {
			return c, -v
		}
		return &code{op: inverse, kids: []*code{k}}, -v
	}
	sign := 1.0 // a kid with sign·v below -radius decides alone
	if c.op == intersection {
		sign = -1
	}
	best := math.Inf(1)
	var kept []*code
	for _, k := range c.kids {
		n, v := k.near(p, radius)
		best = min(best, sign*v)
		if n != nil {
			kept = append(kept, n)
		}
	}
	if best < -radius || len(kept) == 0 {
		return nil, sign * best
	}
	if len(kept) == 1 {
		return kept[0], sign * best
	}
	return &code{op: c.op, kids: kept}, sign * best
}
