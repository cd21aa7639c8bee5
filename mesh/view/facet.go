package view

import (
	"encoding/binary"
	"image/color"
)

// slope is a value that changes evenly across a facet.
type slope struct{ x, y float32 }

// fill paints the rows top to bottom of a facet where it is nearest. Rows
// start at the picture's own pixels, never at the band's, so the bands do not
// show. Pixels whose middle lies on the border of two facets belong to one.
func (r *Renderer) fill(into *canvas, it *item, facet int32, top, bottom int) {
	f := &it.thing.Surface.triangles[facet]
	pts, light := r.points[it.firstPoint:], r.light[it.firstNormal:]
	a, b, c := &pts[f.point[0]], &pts[f.point[1]], &pts[f.point[2]]
	area := (b.x-a.x)*(c.y-a.y) - (c.x-a.x)*(b.y-a.y)
	if abs(area) < 1e-6 ||
		nearest(min(a.y, b.y, c.y), bottom) == nearest(max(a.y, b.y, c.y), bottom) ||
		nearest(min(a.x, b.x, c.x), into.w) == nearest(max(a.x, b.x, c.x), into.w) {
		return // no pixel's middle lies inside
	}
	across := func(va, vb, vc float32) slope {
		return slope{
			((vb-va)*(c.y-a.y) - (vc-va)*(b.y-a.y)) / area,
			((vc-va)*(b.x-a.x) - (vb-va)*(c.x-a.x)) / area,
		}
	}
	la, lb, lc := light[f.normal[0]], light[f.normal[1]], light[f.normal[2]]
	p := painter{item: it, origin: *a, depth: across(a.depth, b.depth, c.depth)}
	p.near, p.far = min(a.depth, b.depth, c.depth), max(a.depth, b.depth, c.depth)
	reach := max(abs(b.x-a.x), abs(c.x-a.x), abs(b.y-a.y), abs(c.y-a.y))
	p.thin = abs(area) < reach*reach/256
	if it.thing.Style == Outline { // gives way to a ghost in the same place
		p.origin.depth, p.near, p.far = p.origin.depth+2*r.nearby, p.near+2*r.nearby, p.far+2*r.nearby
	}
	switch {
	case it.coloured():
		p.kind = paintColours
		v := it.thing.Colours
		ca, cb, cc := v[f.point[0]], v[f.point[1]], v[f.point[2]]
		p.channel(0, la*float32(ca.R), lb*float32(cb.R), lc*float32(cc.R), across)
		p.channel(1, la*float32(ca.G), lb*float32(cb.G), lc*float32(cc.G), across)
		p.channel(2, la*float32(ca.B), lb*float32(cb.B), lc*float32(cc.B), across)
	case it.banded():
		p.kind = paintBand
		p.channel(0, la, lb, lc, across)
		p.start[1], p.step[1] = a.along, across(a.along, b.along, c.along)
	default:
		p.channel(0, la*rampStep, lb*rampStep, lc*rampStep, across)
		p.flat = la == lb && lb == lc
	}
	p.rows(into, a, b, c, top, bottom)
}

const (
	paintRamp = iota
	paintColours
	paintBand
)

// painter paints one facet.
type painter struct {
	item      *item
	origin    point
	depth     slope
	near, far float32
	kind      uint8
	flat      bool
	thin      bool       // so thin that slopes across it are rounding: values are held to those at its corners
	start     [3]float32 // brightness or channels at the origin
	step      [3]slope
	low, high [3]float32
}

func (p *painter) channel(k int, va, vb, vc float32, across func(va, vb, vc float32) slope) {
	p.start[k], p.step[k] = va, across(va, vb, vc)
	p.low[k], p.high[k] = min(va, vb, vc), max(va, vb, vc)
}

// rows walks down the facet. The edges are always followed from their upper
// end, so two facets find the same border to the bit.
func (p *painter) rows(into *canvas, a, b, c *point, top, bottom int) {
	if b.y < a.y {
		a, b = b, a
	}
	if c.y < a.y {
		a, c = c, a
	}
	if c.y < b.y {
		b, c = c, b
	}
	first, middle, last := nearest(a.y, into.h), nearest(b.y, into.h), nearest(c.y, into.h)
	long := (c.x - a.x) / (c.y - a.y)
	p.trapezium(into, max(first, top), min(middle, bottom), a, long, a, (b.x-a.x)/(b.y-a.y))
	p.trapezium(into, max(middle, top), min(last, bottom), a, long, b, (c.x-b.x)/(c.y-b.y))
}

// trapezium paints rows between two edges, each through a point and going
// aside by a slope a row.
func (p *painter) trapezium(into *canvas, first, last int, a *point, long float32, b *point, short float32) {
	for y := first; y < last; y++ {
		middle := float32(y) + 0.5
		x0 := nearest(a.x+(middle-a.y)*long, into.w)
		x1 := nearest(b.x+(middle-b.y)*short, into.w)
		if x1 < x0 {
			x0, x1 = x1, x0
		}
		if x0 < x1 {
			p.span(into, y, x0, x1)
		}
	}
}

// span paints pixels x0 to x1 of a row.
func (p *painter) span(into *canvas, y, x0, x1 int) {
	dx, dy := float32(x0)+0.5-p.origin.x, float32(y)+0.5-p.origin.y
	z, dz := p.origin.depth+dx*p.depth.x+dy*p.depth.y, p.depth.x
	if p.thin {
		z = min(max(z, p.near), p.far)
	}
	pix, depth := into.row(y, x0, x1)
	if p.flat {
		v := p.item.ramp[uint8(p.start[0])]
		for i := range depth {
			if z < depth[i] {
				depth[i] = z
				binary.LittleEndian.PutUint32(pix[4*i:], v)
			}
			z += dz
		}
		return
	}
	v, dv := p.fixed(0, dx, dy)
	switch p.kind {
	case paintRamp:
		for i := range depth {
			if z < depth[i] {
				depth[i] = z
				binary.LittleEndian.PutUint32(pix[4*i:], p.item.ramp[uint8(v>>16)])
			}
			z += dz
			v += dv
		}
	case paintColours:
		g, dg := p.fixed(1, dx, dy)
		b, db := p.fixed(2, dx, dy)
		opacity := p.item.ramp[0] & 0xFF000000
		for i := range depth {
			if z < depth[i] {
				depth[i] = z
				binary.LittleEndian.PutUint32(pix[4*i:], byteOf(v)|byteOf(g)<<8|byteOf(b)<<16|opacity)
			}
			z += dz
			v, g, b = v+dv, g+dg, b+db
		}
	case paintBand:
		along := p.start[1] + dx*p.step[1].x + dy*p.step[1].y
		opacity := uint8(p.item.ramp[0] >> 24)
		for i := range depth {
			if z < depth[i] {
				depth[i] = z
				c := p.item.thing.Band.colour(along)
				c.A = opacity
				binary.LittleEndian.PutUint32(pix[4*i:], lit(c, float64(v)/65536))
			}
			z += dz
			v += dv
			along += p.step[1].x
		}
	}
}

// fixed returns a channel at an offset from the origin and its step, in
// 65536ths.
func (p *painter) fixed(k int, dx, dy float32) (value, step int32) {
	v := p.start[k] + dx*p.step[k].x + dy*p.step[k].y
	if p.thin {
		v = min(max(v, p.low[k]), p.high[k])
	}
	return int32(v * 65536), int32(p.step[k].x * 65536)
}

// colour returns the band's colour at a place along it.
func (b *Band) colour(along float32) color.NRGBA {
	last := float32(len(b.Colours) - 1)
	return b.Colours[int(min(max(along, 0), last))]
}

func byteOf(v int32) uint32 { return uint32(min(max(v>>16, 0), 255)) }

// nearest returns the first pixel, 0 to most, whose middle lies past v.
func nearest(v float32, most int) int {
	if !(v > 0) {
		return 0
	}
	if v >= float32(most) {
		return most
	}
	return int(v + 0.5)
}
