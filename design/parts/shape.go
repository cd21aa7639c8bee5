package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/outline"
)

// quarter is the bulge of a quarter turn.
const quarter = math.Sqrt2 - 1

// plate is the region inside outer and outside the holes, all of them counter-clockwise.
func plate(outer outline.Loop, holes ...outline.Loop) outline.Outline {
	o := outline.Outline{Outer: outer}
	for _, h := range holes {
		o.Holes = append(o.Holes, h.Reverse())
	}
	return o
}

func circleAt(at r2.Vec, diameter float64) outline.Loop {
	return outline.Circle(diameter/2).Translate(at.X, at.Y)
}

// box is a sharp rectangle between two corners.
func box(low, high r2.Vec) outline.Loop {
	return outline.Loop{{X: low.X, Y: low.Y}, {X: high.X, Y: low.Y}, {X: high.X, Y: high.Y}, {X: low.X, Y: high.Y}}
}

func turned(p r2.Vec, angle float64) r2.Vec {
	v := outline.Loop{{X: p.X, Y: p.Y}}.Rotate(angle)[0]
	return r2.Vec{X: v.X, Y: v.Y}
}

// inside is the distance in mm from a point to the edge of a centred rectangle with rounded corners, negative outside.
func inside(p r2.Vec, s section) float64 {
	qx, qy := math.Abs(p.X)-s.X/2+s.Radius, math.Abs(p.Y)-s.Y/2+s.Radius
	return s.Radius - min(max(qx, qy), 0) - math.Hypot(max(qx, 0), max(qy, 0))
}

// bulged are the integrals over an outline together with the length of all its edges.
type bulged struct {
	outline.Section
	edge  float64
	holes int
}

func measure(o outline.Outline) bulged {
	b := bulged{Section: o.Section(), edge: o.Outer.Length(), holes: len(o.Holes)}
	for _, h := range o.Holes {
		b.edge += h.Length()
	}
	return b
}

// without is the region's area in mm² after every edge has moved in by e mm. Steiner: an edge takes its length times e; the outer
// loop gives back, and every hole takes, a circle of that radius.
func (b bulged) without(e float64) float64 {
	return max(0, b.Area-b.edge*e+math.Pi*e*e*float64(1-b.holes))
}

// between is the outline a share t of the way from a to b, which have the same structure.
func between(a, b outline.Outline, t float64) outline.Outline {
	o := outline.Outline{Outer: betweenLoops(a.Outer, b.Outer, t)}
	for i := range a.Holes {
		o.Holes = append(o.Holes, betweenLoops(a.Holes[i], b.Holes[i], t))
	}
	return o
}

func betweenLoops(a, b outline.Loop, t float64) outline.Loop {
	out := make(outline.Loop, len(a))
	for i, v := range a {
		w := b[i]
		out[i] = outline.Vertex{X: v.X + t*(w.X-v.X), Y: v.Y + t*(w.Y-v.Y), Bulge: v.Bulge + t*(w.Bulge-v.Bulge)}
	}
	return out
}
