package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	raster "mastwright/mesh/view"
)

// aim is the standard view that the camera has, or none of them.
type aim int

const (
	corner aim = iota
	front
	side
	top
	aims
	byHand = aims
)

var standards = [aims]raster.Standard{raster.Corner, raster.Front, raster.Side, raster.Top}

// Turn turns to a standard view with the mount in the middle.
func (p *Picture) Turn(s raster.Standard) {
	for i, standard := range standards {
		if standard == s {
			p.turn(aim(i))
		}
	}
}

// Fit shows the whole mount; where that is what is shown already, the whole aircraft.
func (p *Picture) Fit() {
	was := p.camera
	if p.camera = p.fitted(p.camera); p.camera == was {
		p.wide = !p.wide
		p.camera = p.fitted(p.camera)
	}
	p.changed()
}

func (p *Picture) turn(a aim) {
	p.aim, p.wide = a, false
	p.aimAt()
	p.changed()
}

// aimAt turns the camera to the standard view that is chosen and fits the mount.
func (p *Picture) aimAt() {
	if p.aim != byHand {
		p.camera = p.fitted(p.camera.From(standards[p.aim]))
	}
	for i, c := range p.turns {
		c.SetPicked(aim(i) == p.aim)
	}
}

// fitted returns the camera with the mount in the middle, or to the right where the swing hangs beside it; and with what the focused field
// measures, where that lies outside.
func (p *Picture) fitted(c raster.Camera) raster.Camera {
	m := p.shown.model
	if m == nil {
		return c
	}
	if p.wide {
		scene := m.scene()
		return scene.Fit(c, p.margin())
	}
	aside := 0
	if p.shown.overlays[Heading] && m.offers(Heading) && math.Cos(c.Elevation) >= leastUpright {
		aside = int(min(150*p.painter.scale, 0.36*float64(c.Size.X)))
	}
	around := func(box r3.Box) raster.Camera {
		c.Size.X -= aside
		c = c.Fit(box, p.margin())
		c.Size.X += aside
		return c.Pan(float64(aside)/2, 0)
	}
	box := m.mount
	c = around(box)
	if at, ok := m.worstWire(); ok && aside > 0 && !p.sees(c, at) && float64(c.Size.X) > 340*p.painter.scale {
		if with := around(grown(box, at)); with.Scale > leastShare*c.Scale {
			c, box = with, grown(box, at)
		}
	}
	if d, ok := m.distance(p.shown.focus); ok {
		if corners := d.around(c); !p.sees(c, corners...) {
			c = around(grown(box, corners...))
		}
	}
	return c
}

// leastShare is how much smaller the mount may become for a lead to be seen.
const leastShare = 0.55

// sees reports whether all points lie in the picture, clear of the chips.
func (p *Picture) sees(c raster.Camera, points ...r3.Vec) bool {
	edge := 30 * p.painter.scale
	for _, at := range points {
		if q := c.Project(at); !(q.X > edge && q.Y > edge && q.X < float64(c.Size.X)-edge && q.Y < float64(c.Size.Y)-edge) {
			return false
		}
	}
	return true
}

// grown returns a box that holds points too.
func grown(b r3.Box, points ...r3.Vec) r3.Box {
	for _, p := range points {
		b.Min = r3.Vec{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y), Z: min(b.Min.Z, p.Z)}
		b.Max = r3.Vec{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y), Z: max(b.Max.Z, p.Z)}
	}
	return b
}

// margin is the room left around a fitted mount, in the screen's pixels: a row of chips, and a part of the picture for what stands around.
func (p *Picture) margin() float64 {
	least := float64(min(p.camera.Size.X, p.camera.Size.Y))
	return max(min(40*p.painter.scale, 0.2*least), 0.13*least)
}
