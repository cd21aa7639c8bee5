package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/solid"
)

// boreShy is how near the opening's rim may come to a round bore under it without crossing it: nearer, slivers remain, and a tube
// finds no stop. Judgement, mm.
const boreShy = 0.3

// shyOf narrows an opening, or rounds its corners, where its rim would run along that of a round bore.
func (t *tray) shyOf(bore float64) {
	if !t.hasOpening() {
		return
	}
	for _, o := range []*float64{&t.opening.X, &t.opening.Y} {
		if math.Abs(*o-bore) < 2*boreShy {
			*o = bore - 2*boreShy
		}
	}
	a, b := t.opening.X/2, t.opening.Y/2
	t.roundOff()
	far := func(r float64) float64 { return math.Hypot(a-r, b-r) + r } // the corner's farthest point
	if math.Abs(far(t.corner)-bore/2) >= boreShy {
		return
	}
	low, high := t.corner, min(a, b) // rounder corners reach less far
	for range 40 {
		mid := (low + high) / 2
		if far(mid) > bore/2-boreShy {
			low = mid
		} else {
			high = mid
		}
	}
	t.corner = high
	t.roundOff()
}

// roundOff makes ends round where the corners leave but a trace of a flat between them.
func (t *tray) roundOff() {
	const trace = 0.25
	if half := min(t.opening.X, t.opening.Y) / 2; t.corner > 0 && t.corner > half-trace {
		t.corner = half
	}
}

// aligned is how near two flat faces of the tray may be without being in one plane, mm: nearer, and no grid tells them apart.
const aligned = 0.02

// align brings the opening's sides into the plane of the slots' where they are almost in it.
func (t *tray) align() {
	for _, l := range t.slots {
		b := l.Box()
		for _, x := range []float64{b.Min.X, b.Max.X} {
			t.opening.X = 2 * near(t.opening.X/2, math.Abs(x))
		}
		for _, y := range []float64{b.Min.Y, b.Max.Y} {
			t.opening.Y = 2 * near(t.opening.Y/2, math.Abs(y))
		}
	}
	if math.Abs(t.opening.X-t.opening.Y) < 1e-9 { // the same but for rounding
		t.opening.X = t.opening.Y
	}
	t.roundOff()
}

// near is a coordinate, or a plane where it almost lies in that.
func near(x, plane float64) float64 {
	if math.Abs(x-plane) < aligned {
		return plane
	}
	return x
}

// openingCutter takes the opening out of the floor, from a level up.
func (c *mount) openingCutter(from float64) solid.Node {
	t := c.tray
	high := c.seat + 1 - from
	n := solid.Box(t.opening.X, t.opening.Y, high)
	switch x, y := t.opening.X, t.opening.Y; {
	case t.corner == 0:
	case x == y && t.corner == x/2:
		n = solid.Cylinder(x/2, high)
	case t.corner == y/2:
		n = solid.Slot(x, y, high)
	case t.corner == x/2:
		n = solid.Rotate(solid.Slot(y, x, high), math.Pi/2, r3.Vec{Z: 1})
	default:
		n = solid.RoundedPrism(x, y, high, t.corner)
	}
	return solid.Named("opening", solid.Move(n, r3.Vec{Z: from}))
}

func (t tray) hasOpening() bool { return t.opening.X > 0 && t.opening.Y > 0 }
