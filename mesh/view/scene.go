package view

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Scene is what a picture shows. The caller owns it and may change it between
// pictures, not during one.
type Scene struct {
	Things  []Thing
	Lines   []Line
	Ground  Ground
	Palette Palette
}

// Style is how a thing is drawn.
type Style int

const (
	Solid   Style = iota // shaded, with its feature edges
	Ghost                // a tint with feature edges; does not hide solid things
	Outline              // feature edges only
)

// Thing is a body in the scene.
type Thing struct {
	Surface *Surface    // its shape; nil draws nothing
	Pose    mesh.Pose   // its place; the zero value leaves it where it is
	Colour  color.NRGBA // its opacity matters to a Ghost only: of the tint
	Style   Style
	Ink     color.NRGBA // of its edges; opacity 0 means the palette's ink

	// Shift holds a displacement in mm for every vertex of the surface and
	// Amount how many times it is applied: a mode shape and where its swing
	// stands. A shift of another length than the surface has is ignored.
	Shift  []r3.Vec
	Amount float64

	// Colours holds a colour for every vertex, blended in between, instead of
	// Colour. A list of another length than the surface has is ignored.
	Colours []color.NRGBA
	// Band colours the thing by height along an axis, instead of Colour.
	Band Band

	Inert bool // hides what is behind it from Pick but is not picked itself
}

// Band is a row of colours of equal width laid across space from one point to
// another: stress along a member. Beyond its ends the end colours go on. A
// band without colours or length is none.
type Band struct {
	From, To r3.Vec // mm, in the surface's own axes, before Shift and Pose
	Colours  []color.NRGBA
}

// Line is a chain of straight lines in space, as wide in the picture wherever
// it lies. For a wire with a thickness of its own see Wire.
type Line struct {
	Points []r3.Vec
	Width  float64     // pixels at scale 1; 0 means 1
	Colour color.NRGBA // with its opacity
	Dash   float64     // pixels at scale 1 of a dash and of a gap; 0 means unbroken
	Over   bool        // drawn over everything; otherwise hidden by what is in front
}

// Ground is a level grid of lines 10 mm apart, every fifth heavier, that fades
// out at 220 mm from its middle.
type Ground struct {
	Hidden bool
	Centre r3.Vec // its height is the grid's
}

// Box returns the box in mm around all things where they are drawn.
func (s *Scene) Box() r3.Box {
	var box r3.Box
	first := true
	s.each(func(p r3.Vec) {
		if first {
			box, first = r3.Box{Min: p, Max: p}, false
			return
		}
		box.Min = r3.Vec{X: min(box.Min.X, p.X), Y: min(box.Min.Y, p.Y), Z: min(box.Min.Z, p.Z)}
		box.Max = r3.Vec{X: max(box.Max.X, p.X), Y: max(box.Max.Y, p.Y), Z: max(box.Max.Z, p.Z)}
	})
	return box
}

// Fit returns the camera with all things in the middle of the picture, as
// large as a margin in pixels on every side allows: closer than Camera.Fit
// does it with their box. The direction stays; an empty scene changes nothing.
func (s *Scene) Fit(c Camera, margin float64) Camera {
	right, up, toViewer := c.axes()
	lo := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := r3.Scale(-1, lo)
	s.each(func(p r3.Vec) {
		x, y, z := r3.Dot(p, right), r3.Dot(p, up), r3.Dot(p, toViewer)
		lo = r3.Vec{X: min(lo.X, x), Y: min(lo.Y, y), Z: min(lo.Z, z)}
		hi = r3.Vec{X: max(hi.X, x), Y: max(hi.Y, y), Z: max(hi.Z, z)}
	})
	mid := r3.Scale(0.5, r3.Add(lo, hi))
	target := r3.Add(r3.Scale(mid.X, right), r3.Add(r3.Scale(mid.Y, up), r3.Scale(mid.Z, toViewer)))
	if !finite(target) {
		return c
	}
	return c.fill(target, hi.X-lo.X, hi.Y-lo.Y, margin)
}

// each calls visit with every point of every thing where it is drawn.
func (s *Scene) each(visit func(r3.Vec)) {
	for i := range s.Things {
		t := &s.Things[i]
		if t.Surface == nil {
			continue
		}
		pose := t.pose()
		shift, amount := t.shift()
		for k, p := range t.Surface.points {
			if shift != nil {
				p = r3.Add(p, r3.Scale(amount, shift[k]))
			}
			if p = pose.Apply(p); t.Surface.used[k] && finite(p) {
				visit(p)
			}
		}
	}
}

func (t *Thing) pose() mesh.Pose {
	if t.Pose == (mesh.Pose{}) {
		return mesh.Move(r3.Vec{})
	}
	return t.Pose
}

// shift returns the displacements to apply, or nil.
func (t *Thing) shift() ([]r3.Vec, float64) {
	if len(t.Shift) != len(t.Surface.points) || t.Amount == 0 {
		return nil, 0
	}
	return t.Shift, t.Amount
}
