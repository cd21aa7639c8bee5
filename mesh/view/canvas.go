package view

import (
	"encoding/binary"
	"image/color"
	"math"
)

// canvas is pixels with a depth each.
type canvas struct {
	pix    []uint8 // four bytes a pixel
	stride int
	w, h   int
	depth  []float32
}

func (c *canvas) size(w, h int) {
	c.w, c.h = w, h
	c.depth = grow(c.depth, w*h)
}

// row returns the pixels x0 to x1 of a row and their depths.
func (c *canvas) row(y, x0, x1 int) ([]uint8, []float32) {
	return c.pix[y*c.stride+4*x0 : y*c.stride+4*x1], c.depth[y*c.w+x0 : y*c.w+x1]
}

// clear fills a row with a colour, infinitely far away.
func (c *canvas) clear(y int, v color.NRGBA) {
	pix, depth := c.row(y, 0, c.w)
	binary.LittleEndian.PutUint32(pix, lit(v, 1))
	for n := 4; n < len(pix); n *= 2 {
		copy(pix[n:], pix[:n])
	}
	depth[0] = math.MaxFloat32
	for n := 1; n < len(depth); n *= 2 {
		copy(depth[n:], depth[:n])
	}
}

// lay blends what lies in front on another canvas, by at least clearance in
// mm, over rows of this one.
func (c *canvas) lay(veil *canvas, clearance float32, top, bottom int) {
	for y := top; y < bottom; y++ {
		pix, depth := c.row(y, 0, c.w)
		over, near := veil.row(y, 0, c.w)
		for x, d := range near {
			if d+clearance >= depth[x] {
				continue
			}
			o, p := over[4*x:4*x+4:4*x+4], pix[4*x:4*x+4:4*x+4]
			a := uint32(o[3])
			if a == 0 {
				continue
			}
			for k := range 3 {
				p[k] = blend(p[k], o[k], a)
			}
		}
	}
}

// blend lays over by a of 255 parts over under.
func blend(under, over uint8, a uint32) uint8 {
	return uint8((uint32(under)*(255-a) + uint32(over)*a + 127) / 255)
}
