package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// cutout is room that the foot leaves around something on the frame's face, in the foot's own axes.
type cutout struct {
	name  string
	path  string
	shape outline.Loop
	depth float64 // of a pocket in the underside; 0 all the way up
}

// Figures of the keep-outs in mm. Judgement.
const (
	keepRoom  = 0.3 // over what stands in a pocket
	keepRoof  = 1.2 // plastic over a pocket; a thinner foot is cut through
	keepStrip = 2.0 // a narrower strip between a keep-out and the edge is left out
)

// setKeepOuts makes the foot leave what the place keeps for others.
func (c *mount) setKeepOuts(f *foot) {
	place, _ := c.doc.PlaceChosen()
	for i, k := range place.KeepOuts {
		cut := cutout{name: k.Name, path: fmt.Sprintf("%s.keep_outs[%d]", placePath(c.doc), i)}
		x, y := k.Size.X.Millimetres(), k.Size.Y.Millimetres()
		at := r2.Vec{X: k.At.X.Millimetres(), Y: k.At.Y.Millimetres()}
		if k.Shape == "round" {
			y = x
		}
		if !(x >= 0.5 && y >= 0.5 && x <= longest && y <= longest && finite(at.X, at.Y)) {
			c.refuse(cut.path+".size.x", "a keep-out of %g by %g mm cannot be left; use 0.5 to %d mm", x, y, longest)
			continue
		}
		if high := k.Height.Millimetres(); high > 0 && high+keepRoom+keepRoof <= f.thickness {
			cut.depth = high + keepRoom
		}
		if math.Abs(at.X)-x/2 >= f.outside.X/2 || math.Abs(at.Y)-y/2 >= f.outside.Y/2 {
			continue // beyond the foot
		}
		cut.shape = keepLoop(at, x, y, k.Shape == "round", f.outside)
		f.cuts = append(f.cuts, cut)
	}
}

// keepLoop is the room of a keep-out, taken on over the foot's edge where only a strip would be left of it.
func keepLoop(at r2.Vec, x, y float64, round bool, foot section) outline.Loop {
	low, high := r2.Vec{X: at.X - x/2, Y: at.Y - y/2}, r2.Vec{X: at.X + x/2, Y: at.Y + y/2}
	beyond := func(side int) bool { // quarter turns from the front
		near := [4]float64{foot.X/2 - high.X, foot.Y/2 - high.Y, foot.X/2 + low.X, foot.Y/2 + low.Y}[side]
		return near < keepStrip
	}
	if round {
		for side := range 4 {
			if !beyond(side) {
				continue
			}
			far := max(foot.X, foot.Y) + x // a round end towards the middle, open beyond the edge
			r := x / 2
			u := outline.Loop{{X: far, Y: -r}, {X: far, Y: r}, {X: 0, Y: r, Bulge: 1}, {X: 0, Y: -r}}
			return u.Rotate(quarterTurns(side)).Translate(at.X, at.Y)
		}
		return circleAt(at, x)
	}
	const over = 1.0
	for side, edge := range [4]*float64{&high.X, &high.Y, &low.X, &low.Y} {
		if beyond(side) {
			half := [4]float64{foot.X / 2, foot.Y / 2, -foot.X / 2, -foot.Y / 2}[side]
			*edge = half + math.Copysign(over, half)
		}
	}
	return box(low, high)
}

// cutThrough is the foot's region, in its own axes, without the keep-outs that go all the way up; with pockets, without those too.
func (f foot) cutThrough(o outline.Outline, pockets bool) outline.Outline {
	for _, k := range f.cuts {
		if k.depth > 0 && !pockets {
			continue
		}
		if cut, ok := less(o, k.shape); ok {
			o = cut
		}
	}
	return o
}

// checkKeepOuts refuses keep-outs that the mast or a screw stands on, or that leave no foot.
func (c *mount) checkKeepOuts() {
	f := c.foot
	o := plate(loopOf(f.outside))
	hub := grown(c.under.section, c.rootFillet)
	for i, k := range f.cuts {
		for n, s := range f.spots {
			if k.shape.Distance(s) < max(f.room, f.thread.hole)/2+0.8 {
				c.refuse(k.path+".at.x", "%q reaches the screw at hole %d, which needs %s around it; check the keep-out, or use other holes", k.name, n+1, mm(max(f.room, f.thread.hole)/2+0.8))
				return
			}
		}
		gap := math.Inf(1)
		for _, v := range k.shape.Flatten(0.05) {
			gap = min(gap, -inside(turned(r2.Vec{X: v.X, Y: v.Y}, f.turn), hub))
		}
		for _, v := range loopOf(hub).Rotate(-f.turn).Flatten(0.05) {
			gap = min(gap, k.shape.Distance(r2.Vec{X: v.X, Y: v.Y}))
		}
		if gap < 0.5 {
			c.refuse(k.path+".at.x", "%q lies under the mast's root or its fillet by %s; use a narrower root or fillet, or another place", k.name, mm(0.5-gap))
			return
		}
		cut, ok := less(o, k.shape)
		if !ok {
			what := "would cut the foot in two"
			for _, other := range f.cuts[:i] {
				if meet(other.shape, k.shape) {
					what = fmt.Sprintf("overlaps %q", other.name)
				}
			}
			c.refuse(k.path+".size.x", "%q %s; give it another size, or make one keep-out of both", k.name, what)
			return
		}
		o = cut
	}
}

// meet is whether two loops have points in common.
func meet(a, b outline.Loop) bool {
	for _, v := range a.Flatten(0.2) {
		if b.Distance(r2.Vec{X: v.X, Y: v.Y}) <= 0 {
			return true
		}
	}
	for _, v := range b.Flatten(0.2) {
		if a.Distance(r2.Vec{X: v.X, Y: v.Y}) <= 0 {
			return true
		}
	}
	return false
}

// keepCutters take the keep-outs out of the foot.
func (c *mount) keepCutters() []solid.Node {
	f := c.foot
	var all []solid.Node
	for _, k := range f.cuts {
		high := k.depth
		if high == 0 {
			high = c.highest() + 1
		}
		n := solid.Move(solid.Extrude(high+1, plate(k.shape)), r3.Vec{Z: -1})
		all = append(all, solid.Place(solid.Named("keep-out", n), f.pose))
	}
	return all
}

// highest is the foot's greatest thickness along its own axis.
func (c *mount) highest() float64 {
	top := c.foot.thickness
	if c.foot.wedge {
		for _, s := range []float64{-1, 1} {
			for _, t := range []float64{-1, 1} {
				top = max(top, c.thick(r2.Vec{X: s * c.foot.outside.X / 2, Y: t * c.foot.outside.Y / 2})+1)
			}
		}
	}
	return top
}
