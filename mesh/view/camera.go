package view

import (
	"image"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Camera looks at the scene without perspective: parallel lines stay
// parallel and one scale holds everywhere. Its upright is always z.
type Camera struct {
	Target    r3.Vec      // mm, the point in the middle of the picture
	Azimuth   float64     // rad, where the viewer stands: 0 in front (x), positive to the left (y)
	Elevation float64     // rad, how far the viewer stands above, -π/2 to π/2
	Scale     float64     // pixels per mm, above 0
	Size      image.Point // pixels of the picture
}

// Pixel is a point of the scene as it lies in the picture.
type Pixel struct {
	X, Y  float64 // pixels from the top left corner
	Depth float64 // mm behind the camera's target, negative in front of it
}

// Standard is a direction to look from.
type Standard int

const (
	Corner Standard = iota // from the front right, a little above
	Front                  // from ahead; left is to the right
	Side                   // from the right; forward is to the right
	Top                    // from above; forward is up
)

// Scales in pixels per mm between which Zoom keeps a camera.
const (
	leastScale = 0.02
	mostScale  = 400
)

// From returns the camera turned to a standard view; target and scale stay.
func (c Camera) From(s Standard) Camera {
	switch s {
	case Front:
		c.Azimuth, c.Elevation = 0, 0
	case Side:
		c.Azimuth, c.Elevation = -math.Pi/2, 0
	case Top:
		c.Azimuth, c.Elevation = math.Pi, math.Pi/2
	default:
		c.Azimuth, c.Elevation = -54*math.Pi/180, 24*math.Pi/180
	}
	return c
}

// Fit returns the camera with the box in the middle of the picture, as large
// as a margin in pixels on every side allows. The direction stays. A box or a
// picture without size is taken as 1 mm or 1 pixel.
func (c Camera) Fit(b r3.Box, margin float64) Camera {
	mid := r3.Scale(0.5, r3.Add(b.Min, b.Max))
	if !finite(mid) || !finite(r3.Sub(b.Max, b.Min)) {
		return c
	}
	right, up, _ := c.axes()
	size := r3.Sub(b.Max, b.Min)
	reach := func(axis r3.Vec) float64 {
		return math.Abs(axis.X*size.X) + math.Abs(axis.Y*size.Y) + math.Abs(axis.Z*size.Z)
	}
	return c.fill(mid, reach(right), reach(up), margin)
}

// fill returns the camera with the target in the middle and a width and
// height in mm filling the picture up to a margin in pixels.
func (c Camera) fill(target r3.Vec, width, height, margin float64) Camera {
	room := func(pixels int) float64 { return max(float64(pixels)-2*margin, 1) }
	scale := min(room(c.Size.X)/max(width, 1), room(c.Size.Y)/max(height, 1))
	if !(scale > 0) {
		return c
	}
	c.Target, c.Scale = target, min(max(scale, leastScale), mostScale)
	return c
}

// Orbit returns the camera with the viewer walked round the target by two
// angles: positive azimuth to the left of the aircraft, positive elevation
// upwards, where it stops straight above or below.
func (c Camera) Orbit(azimuth, elevation float64) Camera {
	a, e := c.Azimuth+azimuth, c.Elevation+elevation
	if finite(r3.Vec{X: a, Y: e}) {
		c.Azimuth = math.Remainder(a, 2*math.Pi)
		c.Elevation = min(max(e, -math.Pi/2), math.Pi/2)
	}
	return c
}

// Drag returns the camera orbited as if the scene were taken hold of and
// pulled by pixels: half a turn across the shorter side of the picture.
func (c Camera) Drag(dx, dy float64) Camera {
	turn := math.Pi / float64(max(min(c.Size.X, c.Size.Y), 1))
	return c.Orbit(-dx*turn, dy*turn)
}

// Pan returns the camera with the scene shifted by pixels.
func (c Camera) Pan(dx, dy float64) Camera {
	right, up, _ := c.axes()
	t := r3.Add(c.Target, r3.Add(r3.Scale(-dx/c.Scale, right), r3.Scale(dy/c.Scale, up)))
	if finite(t) {
		c.Target = t
	}
	return c
}

// Zoom returns the camera with its scale multiplied; what lies at the pixel
// (x, y) stays there.
func (c Camera) Zoom(factor, x, y float64) Camera {
	scale := min(max(c.Scale*factor, leastScale), mostScale)
	if !c.sound() || math.IsNaN(scale) {
		return c
	}
	dx, dy := x-float64(c.Size.X)/2, y-float64(c.Size.Y)/2
	grown := scale / c.Scale
	c.Scale = scale
	return c.Pan(dx*(1-grown), dy*(1-grown))
}

// Project returns where a point of the scene lies in the picture. It is not a
// number where the camera or the point is not.
func (c Camera) Project(p r3.Vec) Pixel {
	right, up, toViewer := c.axes()
	d := r3.Sub(p, c.Target)
	return Pixel{
		X:     float64(c.Size.X)/2 + c.Scale*r3.Dot(right, d),
		Y:     float64(c.Size.Y)/2 - c.Scale*r3.Dot(up, d),
		Depth: -r3.Dot(toViewer, d),
	}
}

// Unproject returns the point of the scene at a pixel and depth.
func (c Camera) Unproject(p Pixel) r3.Vec {
	right, up, toViewer := c.axes()
	x := (p.X - float64(c.Size.X)/2) / c.Scale
	y := (float64(c.Size.Y)/2 - p.Y) / c.Scale
	v := r3.Add(c.Target, r3.Add(r3.Scale(x, right), r3.Scale(y, up)))
	return r3.Sub(v, r3.Scale(p.Depth, toViewer))
}

// axes returns the unit vectors to the right and up in the picture and from
// the scene towards the viewer.
func (c Camera) axes() (right, up, toViewer r3.Vec) {
	sa, ca := sincos(c.Azimuth)
	se, ce := sincos(c.Elevation)
	return r3.Vec{X: -sa, Y: ca}, r3.Vec{X: -se * ca, Y: -se * sa, Z: ce}, r3.Vec{X: ce * ca, Y: ce * sa, Z: se}
}

// sincos is exact at whole quarter turns, so that a standard view sees upright
// faces exactly from the edge.
func sincos(angle float64) (sin, cos float64) {
	sin, cos = math.Sincos(angle)
	if math.Abs(sin) < 1e-15 {
		sin = 0
	}
	if math.Abs(cos) < 1e-15 {
		cos = 0
	}
	return sin, cos
}

// sound reports whether anything can be drawn with the camera.
func (c Camera) sound() bool {
	return finite(c.Target) && finite(r3.Vec{X: c.Azimuth, Y: c.Elevation, Z: c.Scale}) && c.Scale > 0
}

func finite(v r3.Vec) bool {
	return !math.IsNaN(v.X-v.X) && !math.IsNaN(v.Y-v.Y) && !math.IsNaN(v.Z-v.Z)
}
