package view

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Light from over the viewer's left shoulder: shares of the full colour, and
// the directions towards the lamps, x to the right, y up, z to the viewer.
const (
	ambient   = 0.42
	keyLight  = 0.50
	fillLight = 0.20
	// rampStep is the number of steps in a ramp per unit of brightness; the
	// brightest facet, below 1.11, stays within its 256.
	rampStep = 230
)

var (
	keyLamp  = r3.Unit(r3.Vec{X: -0.55, Y: 0.60, Z: 0.58})
	fillLamp = r3.Unit(r3.Vec{X: 0.30, Y: 0.20, Z: 0.93})
)

// item is a thing ready for one picture.
type item struct {
	thing                               *Thing
	firstPoint, firstNormal, firstFacet int
	projection
	key, fill r3.Vec // lamps in the surface's axes
	mirrored  bool
	ink       color.NRGBA
	ramp      [256]uint32 // pixel of each brightness
	along     [4]float64  // band number of a point of the surface
}

// point is a point in the picture; along is its place on the thing's band.
type point struct{ x, y, depth, along float32 }

// set prepares the item; false where the thing's pose is not sound.
func (it *item) set(t *Thing, c Camera, ink color.NRGBA) bool {
	pose := t.pose()
	if !finite(pose.At) || !finite(pose.X) || !finite(pose.Y) || !finite(pose.Z) {
		return false
	}
	right, up, toViewer := c.axes()
	lamp := func(l r3.Vec) r3.Vec {
		w := r3.Add(r3.Add(r3.Scale(l.X, right), r3.Scale(l.Y, up)), r3.Scale(l.Z, toViewer))
		return r3.Vec{X: r3.Dot(w, pose.X), Y: r3.Dot(w, pose.Y), Z: r3.Dot(w, pose.Z)}
	}
	it.thing = t
	it.projection = c.projection(pose)
	it.key, it.fill = lamp(keyLamp), lamp(fillLamp)
	it.mirrored = r3.Dot(r3.Cross(pose.X, pose.Y), pose.Z) < 0
	it.ink = t.Ink
	if it.ink.A == 0 {
		it.ink = ink
	}
	colour := t.Colour
	switch t.Style {
	case Solid:
		colour.A = 0xFF
	case Outline:
		colour.A = 0
	}
	for i := range it.ramp {
		it.ramp[i] = lit(colour, float64(i)/rampStep)
	}
	it.along = t.Band.row()
	return true
}

// projection is the motion of points into the picture: an affine function for
// each of x, y and depth.
type projection struct{ x, y, depth [4]float64 }

func (c Camera) projection(pose mesh.Pose) projection {
	right, up, toViewer := c.axes()
	row := func(axis r3.Vec, scale, offset float64) [4]float64 {
		return [4]float64{
			scale * r3.Dot(axis, pose.X), scale * r3.Dot(axis, pose.Y), scale * r3.Dot(axis, pose.Z),
			scale*r3.Dot(axis, r3.Sub(pose.At, c.Target)) + offset,
		}
	}
	return projection{
		x:     row(right, c.Scale, float64(c.Size.X)/2),
		y:     row(up, -c.Scale, float64(c.Size.Y)/2),
		depth: row(toViewer, -1, 0),
	}
}

func (t *projection) project(p r3.Vec) point {
	return point{x: value(&t.x, p), y: value(&t.y, p), depth: value(&t.depth, p)}
}

func value(row *[4]float64, p r3.Vec) float32 {
	return float32(row[0]*p.X + row[1]*p.Y + row[2]*p.Z + row[3])
}

// row returns the affine function whose whole part is the number of the band's
// colour at a point.
func (b *Band) row() [4]float64 {
	d := r3.Sub(b.To, b.From)
	long := r3.Dot(d, d)
	if len(b.Colours) == 0 || !(long > 0) || !finite(b.From) || !finite(b.To) || math.IsInf(long, 0) {
		return [4]float64{}
	}
	k := r3.Scale(float64(len(b.Colours))/long, d)
	return [4]float64{k.X, k.Y, k.Z, -r3.Dot(k, b.From)}
}

func (it *item) banded() bool { return it.along != [4]float64{} }

// coloured reports whether every vertex has a colour of its own.
func (it *item) coloured() bool {
	return len(it.thing.Colours) > 0 && len(it.thing.Colours) == len(it.thing.Surface.points)
}

// brightness returns how much of its colour a surface shows.
func (it *item) brightness(n r3.Vec) float32 {
	return float32(ambient + keyLight*max(r3.Dot(n, it.key), 0) + fillLight*max(r3.Dot(n, it.fill), 0))
}

// edgeOn is the height in samples below which a facet is seen from its edge:
// about what rounding to float32 leaves of none.
const edgeOn = 4e-4

// facing reports whether a facet is seen from outside. y grows downwards, so
// such a facet has a negative area.
func (it *item) facing(a, b, c *point) bool {
	turn := (b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y)
	if it.mirrored {
		turn = -turn
	}
	return turn < -edgeOn*(abs(b.x-a.x)+abs(b.y-a.y)+abs(c.x-a.x)+abs(c.y-a.y))
}

// lit returns the pixel of a colour at a brightness, red in the lowest byte.
func lit(c color.NRGBA, brightness float64) uint32 {
	part := func(v uint8) uint32 { return uint32(min(float64(v)*brightness+0.5, 255)) }
	return part(c.R) | part(c.G)<<8 | part(c.B)<<16 | uint32(c.A)<<24
}

func mix(a, b color.NRGBA, t float64) color.NRGBA {
	part := func(a, b uint8) uint8 { return uint8(float64(a) + (float64(b)-float64(a))*t + 0.5) }
	return color.NRGBA{R: part(a.R, b.R), G: part(a.G, b.G), B: part(a.B, b.B), A: 0xFF}
}
