package parts

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// Figures of the number in the foot's underside, mm. Judgement: two layers deep, strokes of a line's width.
const (
	numberDeep = 0.4
	numberEdge = 1.0 // around it
)

// numberSizes are the letters' heights that are tried.
var numberSizes = []float64{4.2, 3.8, 3.5, 3.2}

// numberText is the revision, where it can be written in block letters, and the design's short number.
func numberText(doc *design.Document) string {
	var b strings.Builder
	for _, r := range strings.ToUpper(doc.Revision) {
		if b.Len() < 6 && (r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '.') {
			b.WriteRune(r)
		}
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	return b.String() + doc.Number()
}

// setNumber finds room on the foot's underside for its number, the largest letters first and nearest to the middle.
func (c *mount) setNumber() {
	if c.doc.Foot.Mark != "number" {
		return
	}
	f := &c.foot
	f.numbered = true
	text := numberText(c.doc)
	free := c.underside()
	box := free.Outer.Box()
	for _, high := range numberSizes {
		letters, err := outline.Text(text, high)
		if err != nil {
			return // only letters that there are have been let through
		}
		low, top := r2.Vec{X: math.Inf(1)}, r2.Vec{X: math.Inf(-1)}
		for _, o := range letters {
			b := o.Outer.Box()
			low.X, top.X = min(low.X, b.Min.X), max(top.X, b.Max.X)
		}
		long := top.X - low.X
		for _, turn := range []float64{0, math.Pi / 2} {
			size := r2.Vec{X: long, Y: high}
			if turn != 0 {
				size = r2.Vec{X: high, Y: long}
			}
			at, ok := roomFor(free, size, box)
			if !ok {
				continue
			}
			for _, o := range letters { // read from below
				f.number = append(f.number, o.Mirror().Rotate(turn).Translate(at.X, at.Y))
			}
			return
		}
	}
}

// roomFor finds the place nearest to the middle where a rectangle lies in a region with an edge around it.
func roomFor(free outline.Outline, size r2.Vec, within r2.Box) (r2.Vec, bool) {
	const step, farthest = 1.0, 60
	nx := min(farthest, int((within.Max.X-within.Min.X-size.X)/2/step))
	ny := min(farthest, int((within.Max.Y-within.Min.Y-size.Y)/2/step))
	var places []r2.Vec
	for i := -nx; i <= nx; i++ {
		for k := -ny; k <= ny; k++ {
			places = append(places, r2.Vec{X: float64(i) * step, Y: float64(k) * step})
		}
	}
	slices.SortStableFunc(places, func(a, b r2.Vec) int { return cmp.Compare(r2.Norm2(a), r2.Norm2(b)) })
	for _, at := range places {
		if lies(free, at, size) {
			return at, true
		}
	}
	return r2.Vec{}, false
}

// lies is whether a rectangle about a place lies in a region with an edge around it.
func lies(free outline.Outline, at, size r2.Vec) bool {
	const step = 1.0
	if free.Distance(at) > -numberEdge-min(size.X, size.Y)/2 {
		return false
	}
	nx, ny := math.Ceil(size.X/step), math.Ceil(size.Y/step)
	for i := 0.0; i <= nx; i++ {
		for k := 0.0; k <= ny; k++ {
			p := r2.Vec{X: at.X + size.X*(i/nx-0.5), Y: at.Y + size.Y*(k/ny-0.5)}
			if free.Distance(p) > -numberEdge {
				return false
			}
		}
	}
	return true
}

// underside is the foot's region on the frame's face in its own axes, without pockets, holes and bore.
func (c *mount) underside() outline.Outline {
	f := c.foot
	o := f.cutThrough(plate(loopOf(f.outside)), true)
	for _, s := range f.spots {
		o.Holes = append(o.Holes, circleAt(s, f.thread.hole).Reverse())
	}
	if c.under.through.X > 0 {
		o.Holes = append(o.Holes, loopOf(c.under.through).Rotate(-f.turn).Reverse())
	}
	return o
}

// numberCutters engrave the number.
func (c *mount) numberCutters() []solid.Node {
	f := c.foot
	if len(f.number) == 0 {
		return nil
	}
	n := solid.Move(solid.Extrude(numberDeep+1, f.number...), r3.Vec{Z: -1})
	return []solid.Node{solid.Place(solid.Named("number", n), f.pose)}
}
