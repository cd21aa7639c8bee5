package solid

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Node is a solid. It never changes after it is made. A constructor keeps a
// bad parameter in the node, where Err and Polygonise report it. The zero
// Node is empty space.
type Node struct{ t *tree }

// tree is one operation over others, or a placed leaf.
type tree struct {
	op   operation
	kids []*tree
	leaf leaf
	pose mesh.Pose // from the leaf's axes to the part's
	name string    // of the leaf
	err  error
}

type operation uint8

const (
	primitive operation = iota
	union
	intersection
	inverse
)

// leaf is a primitive solid in its own axes.
type leaf interface {
	value(p r3.Vec) (v float64, face int)
	faces() []face
	box() r3.Box         // where the surface is
	requests() []request // grid spacings that show every face
}

// request asks for a grid spacing of at most size mm along each axis inside
// a box; infinity asks for nothing.
type request struct {
	box  r3.Box
	size r3.Vec
}

func newLeaf(l leaf) Node {
	return Node{&tree{leaf: l, pose: mesh.Move(r3.Vec{})}}
}

func invalid(format string, args ...any) Node {
	return Node{&tree{err: fmt.Errorf(format, args...)}}
}

// Named gives every face of n that has no name yet the name of a feature, as
// "mast wall": errors and Face use it.
func Named(name string, n Node) Node {
	return n.map1(func(t *tree) {
		if t.name == "" {
			t.name = name
			if t.err != nil {
				t.err = fmt.Errorf("%s: %w", name, t.err)
			}
		}
	})
}

// Place moves n rigidly, from the axes it was made in to those of the pose.
// A pose that stretches or mirrors is refused.
func Place(n Node, p mesh.Pose) Node {
	if !rigid(p) {
		return invalid("a pose that is not a rigid motion; use a rotation and a shift of finite numbers")
	}
	return n.map1(func(t *tree) {
		if t.leaf != nil {
			t.pose = t.pose.Then(p)
		}
	})
}

// Move shifts n by a way in mm.
func Move(n Node, by r3.Vec) Node { return Place(n, mesh.Move(by)) }

// Rotate turns n by an angle in radians about an axis through the origin,
// positive by the right-hand rule.
func Rotate(n Node, angle float64, axis r3.Vec) Node {
	if !finite(angle, axis.X, axis.Y, axis.Z) || r3.Norm(axis) == 0 {
		return invalid("rotation by %g rad about (%g, %g, %g); use a finite angle and an axis of some length", angle, axis.X, axis.Y, axis.Z)
	}
	return Place(n, mesh.Turn(axis, angle))
}

// Union is the space inside any of the nodes.
func Union(nodes ...Node) Node { return combine(union, nodes) }

// Intersection is the space inside all of the nodes.
func Intersection(nodes ...Node) Node { return combine(intersection, nodes) }

// Difference is the space inside from and outside all cutters. Empty cutters
// take nothing away.
func Difference(from Node, cutters ...Node) Node {
	if from.t == nil {
		return Node{}
	}
	nodes := []Node{from}
	for _, c := range cutters {
		if c.t != nil {
			nodes = append(nodes, Node{&tree{op: inverse, kids: []*tree{c.t}}})
		}
	}
	return combine(intersection, nodes)
}

func combine(op operation, nodes []Node) Node {
	t := &tree{op: op}
	for _, n := range nodes {
		switch {
		case n.t == nil && op == intersection:
			return Node{}
		case n.t == nil:
		case n.t.op == op && n.t.err == nil:
			t.kids = append(t.kids, n.t.kids...)
		default:
			t.kids = append(t.kids, n.t)
		}
	}
	switch len(t.kids) {
	case 0:
		return Node{}
	case 1:
		return Node{t.kids[0]}
	}
	return Node{t}
}

// Err returns every bad parameter in the node, each with its value and a
// remedy, or nil.
func (n Node) Err() error {
	if n.t == nil {
		return nil
	}
	var all []error
	n.t.walk(func(t *tree) {
		if t.err != nil {
			all = append(all, t.err)
		}
	})
	return errors.Join(all...)
}

// Value returns the value in mm at a point in mm: negative inside. It is
// +Inf for empty space and for a node with an error.
func (n Node) Value(p r3.Vec) float64 {
	v, _ := n.sample(p)
	return v
}

// Gradient returns the unit outward direction of the face that sets the
// value at p, and zero where there is none.
func (n Node) Gradient(p r3.Vec) r3.Vec {
	_, at := n.sample(p)
	if at.t == nil {
		return r3.Vec{}
	}
	local := toLocal(at.t.pose, p)
	_, g := at.t.leaf.faces()[at.face].at(local)
	g = direction(at.t.pose, g)
	if at.inside {
		g = r3.Scale(-1, g)
	}
	if r3.Norm(g) == 0 {
		return g
	}
	return r3.Unit(g)
}

// Face returns the label of the face that sets the value at p, as
// "mast wall/side +x".
func (n Node) Face(p r3.Vec) string {
	_, at := n.sample(p)
	if at.t == nil {
		return ""
	}
	return at.t.label(at.t.leaf.faces()[at.face])
}

// Bounds returns a box in mm around the solid. A half-space alone reaches to
// infinity.
func (n Node) Bounds() r3.Box {
	if n.t == nil || n.Err() != nil {
		return r3.Box{}
	}
	return n.t.bounds()
}

type site struct {
	t      *tree
	face   int
	inside bool // the face is seen from its material side
}

func (n Node) sample(p r3.Vec) (float64, site) {
	if n.t == nil || n.Err() != nil {
		return math.Inf(1), site{}
	}
	return n.t.sample(p)
}

func (t *tree) sample(p r3.Vec) (float64, site) {
	if t.op == primitive {
		v, f := t.leaf.value(toLocal(t.pose, p))
		return v, site{t, f, false}
	}
	best, at := t.kids[0].sample(p)
	for _, k := range t.kids[1:] {
		v, s := k.sample(p)
		if t.op == union && v < best || t.op == intersection && v > best {
			best, at = v, s
		}
	}
	if t.op == inverse {
		best, at.inside = -best, !at.inside
	}
	return best, at
}

func (t *tree) label(f face) string {
	if t.name == "" {
		return f.part
	}
	return t.name + "/" + f.part
}

func (t *tree) bounds() r3.Box {
	everything := r3.Box{
		Min: r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)},
		Max: r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)},
	}
	switch t.op {
	case primitive:
		return placedBox(t.leaf.box(), t.pose)
	case inverse:
		return everything
	}
	b := t.kids[0].bounds()
	for _, k := range t.kids[1:] {
		c := k.bounds()
		if t.op == union {
			b.Min = r3.Vec{X: min(b.Min.X, c.Min.X), Y: min(b.Min.Y, c.Min.Y), Z: min(b.Min.Z, c.Min.Z)}
			b.Max = r3.Vec{X: max(b.Max.X, c.Max.X), Y: max(b.Max.Y, c.Max.Y), Z: max(b.Max.Z, c.Max.Z)}
		} else {
			b.Min = r3.Vec{X: max(b.Min.X, c.Min.X), Y: max(b.Min.Y, c.Min.Y), Z: max(b.Min.Z, c.Min.Z)}
			b.Max = r3.Vec{X: min(b.Max.X, c.Max.X), Y: min(b.Max.Y, c.Max.Y), Z: min(b.Max.Z, c.Max.Z)}
		}
	}
	return b
}

func (t *tree) walk(visit func(*tree)) {
	visit(t)
	for _, k := range t.kids {
		k.walk(visit)
	}
}

// map1 returns a copy of the node whose trees were each changed by edit.
func (n Node) map1(edit func(*tree)) Node {
	if n.t == nil {
		return n
	}
	return Node{n.t.map1(edit)}
}

func (t *tree) map1(edit func(*tree)) *tree {
	c := *t
	c.kids = make([]*tree, len(t.kids))
	for i, k := range t.kids {
		c.kids[i] = k.map1(edit)
	}
	edit(&c)
	return &c
}
