package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// crossing is a grid edge that the surface crosses.
type crossing struct {
	at    r3.Vec
	label int32
	cell  uint16 // within the brick, the cell whose first corner starts the edge
	axis  uint8
	out   bool // the edge runs from inside to outside
}

// cross finds where the surface crosses a grid edge, and on which face.
func (s *sampler) cross(c *code, first, i [3]int, axis, cell int, out bool) crossing {
	j := i
	j[axis]++
	read := func(i [3]int) (float64, int32, r3.Vec) {
		p := s.g.corner([3]int{first[0] + i[0], first[1] + i[1], first[2] + i[2]})
		r := &s.read[(i[2]*brickCorners+i[1])*brickCorners+i[0]]
		if r.label == unread {
			r.value, r.label = c.eval(p)
			s.evaluations++
		}
		return r.value, r.label, p
	}
	va, la, pa := read(i)
	vb, lb, pb := read(j)
	span := components(pb)[axis] - components(pa)[axis]
	a, b := 0.0, 1.0
	at := func(t float64) r3.Vec {
		q := components(pa)
		q[axis] += t * span
		return vector(q)
	}
	r := crossing{cell: uint16(cell), axis: uint8(axis), out: out}
	side := 0
	// Illinois iteration with a halving every third step for kinks; one step
	// does where one face rules.
	for i := range 60 {
		t := a + (b-a)*va/(va-vb)
		if i%3 == 2 || !(t > a && t < b) {
			t = (a + b) / 2
		}
		r.at = at(t)
		v, l := c.eval(r.at)
		s.evaluations++
		r.label = l
		if l == la && l == lb {
			break
		}
		if math.Abs(v) < 1e-10*span {
			// A cutter whose mouth lies on the surface makes the value touch
			// zero in the open: a crossing has material just before it.
			if c.op == primitive {
				break
			}
			back := t - 1e-6
			if !out {
				back = t + 1e-6
			}
			if w, _ := c.eval(at(back)); w < 0 {
				break
			}
			v = 1e-10 * span
		}
		if v < 0 == out {
			a, va = t, v
			if side == 1 {
				vb /= 2
			}
			side = 1
		} else {
			b, vb = t, v
			if side == 2 {
				va /= 2
			}
			side = 2
		}
	}
	return r
}
