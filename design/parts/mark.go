package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// mark is a shape cut into a top face.
type mark struct {
	shape outline.Outline
	top   float64 // height above the seat
	depth float64
}

// addMarks cuts an arrow into the floor before the opening and a wedge into the front of the rim, both pointing forward.
func (t *tray) addMarks() {
	depth := min(engraving, 0.4*t.thickness)
	from, to := t.opening.X/2+1.5, t.pocket.X/2-1.5
	if t.opening.X == 0 || t.opening.Y == 0 {
		from = -to
	}
	for _, l := range t.slots {
		b := l.Box()
		from = near(near(from, b.Min.X), b.Max.X)
	}
	if long := min(to-from, 9); long >= 4 {
		t.marks = append(t.marks, mark{plate(outline.Arrow(long, min(5, 0.7*long)).Translate((from+to)/2, 0)), 0, depth})
	}
	if t.rimWall < 1.2 || !t.rim || t.round {
		return
	}
	at := 0.0
	if t.connector == 0 {
		at = t.notch/2 + 3
		if at+2 > t.pocket.Y/2 {
			return
		}
	}
	in, out := t.pocket.X/2+0.2, t.pocket.X/2+t.rimWall-0.3
	t.marks = append(t.marks, mark{plate(outline.Loop{{X: in, Y: at - 1.5}, {X: out, Y: at}, {X: in, Y: at + 1.5}}), t.rimHeight, min(engraving, t.rimHeight/2)})
}

// letterSizes are the heights in mm of the sides' letters that are tried. Judgement.
var letterSizes = []float64{4.2, 3.5, 2.8}

// addLetters cuts F, L, B and R into the floor, to be read with the front up, each as near to its side as it finds room.
func (t *tray) addLetters() {
	free := t.plan(true)
	if t.rim {
		free.Outer = loopOf(grown(t.pocket, numberEdge-0.4)) // close to the rim is close enough
	}
	depth := min(engraving, 0.4*t.thickness)
	for side, letter := range []string{"F", "L", "B", "R"} {
		at, high, ok := t.letterPlace(free, side)
		if !ok {
			continue
		}
		text, err := outline.Text(letter, high)
		if err != nil {
			continue // these four are known
		}
		for _, o := range text {
			t.marks = append(t.marks, mark{o.Rotate(-math.Pi/2).Translate(at.X, at.Y), 0, depth})
		}
	}
}

// letterPlace finds room for a letter of a side, the largest first and the outermost; the front's stands beside the arrow.
func (t tray) letterPlace(free outline.Outline, side int) (at r2.Vec, high float64, ok bool) {
	far := t.pocket.X / 2
	if side%2 == 1 {
		far = t.pocket.Y / 2
	}
	for _, high := range letterSizes {
		size := r2.Vec{X: high, Y: high * 5 / 7}
		for out := far; out > far/2; out -= 0.5 {
			for aside := range 17 {
				at := turned(r2.Vec{X: out, Y: float64(aside/2+aside%2) * float64(1-2*(aside%2))}, quarterTurns(side))
				if lies(free, at, size) && t.unmarked(at, size) {
					return at, high, true
				}
			}
		}
	}
	return at, 0, false
}

// unmarked is whether a rectangle about a place keeps clear of what is cut into the floor.
func (t tray) unmarked(at, size r2.Vec) bool {
	for _, m := range t.marks {
		b := m.shape.Outer.Box()
		const gap = 0.8
		if m.top == 0 && at.X+size.X/2+gap > b.Min.X && at.X-size.X/2-gap < b.Max.X && at.Y+size.Y/2+gap > b.Min.Y && at.Y-size.Y/2-gap < b.Max.Y {
			return false
		}
	}
	return true
}

// markCutters engrave the marks and sink the pockets under the floor.
func (c *mount) markCutters() []solid.Node {
	var all []solid.Node
	if k := c.tray.held; k.deep > 0 {
		n, low := solid.Named("insert's bore", solid.Cylinder(k.across/2, k.deep+1)), c.tip-1
		if k.hex {
			n = solid.Named("nut pocket", solid.HexPocket(k.across, k.deep+1))
		}
		for _, s := range c.tray.spots {
			all = append(all, solid.Move(n, r3.Vec{X: s.X, Y: s.Y, Z: low}))
		}
	}
	for _, m := range c.tray.marks {
		n := solid.Extrude(m.depth+1, m.shape)
		all = append(all, solid.Named("mark", solid.Move(n, r3.Vec{Z: c.seat + m.top - m.depth})))
	}
	return all
}
