package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// block is a box with its sides along the axes.
type block struct {
	middle r3.Vec
	half   r3.Vec  // of its sides
	radius float64 // from the middle to the corners, a hair more
}

func newBlock(lo, hi r3.Vec) block {
	half := r3.Scale(0.5, r3.Sub(hi, lo))
	half = r3.Vec{X: half.X*(1+1e-9) + 1e-12, Y: half.Y*(1+1e-9) + 1e-12, Z: half.Z*(1+1e-9) + 1e-12}
	return block{r3.Scale(0.5, r3.Add(lo, hi)), half, length(half)}
}

// misses reports whether a block lies outside a box.
func (b *block) misses(o *r3.Box) bool {
	return b.middle.X+b.half.X < o.Min.X || b.middle.X-b.half.X > o.Max.X ||
		b.middle.Y+b.half.Y < o.Min.Y || b.middle.Y-b.half.Y > o.Max.Y ||
		b.middle.Z+b.half.Z < o.Min.Z || b.middle.Z-b.half.Z > o.Max.Z
}

// localBlock returns the block in the axes of a leaf, or one around it.
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
	prune(b block, v float64) leaf
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
			switch kept := e.prune(l, v); kept {
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
