package verdicts

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"fyne.io/fyne/v2/canvas"
	"golang.org/x/image/vector"
)

// ink fills shapes into a picture that is kept between two drawings. Lengths are in the toolkit's pixels; a picture pixel is 1/scale of
// one.
type ink struct {
	picture *image.RGBA
	shape   vector.Rasterizer
	scale   float32
}

type point struct{ x, y float32 }

// newInk returns a raster whose picture is drawn by a function that is told the raster's width and height.
func newInk(draw func(k *ink, width, height float32)) *canvas.Raster {
	k := &ink{}
	var raster *canvas.Raster
	raster = canvas.NewRaster(func(w, h int) image.Image {
		size := raster.Size()
		k.clear(w, h)
		k.scale = 1
		if size.Width > 0 && size.Height > 0 {
			k.scale = float32(max(w, h)) / max(size.Width, size.Height) // of the longer side: both were rounded to whole pixels
		}
		draw(k, size.Width, size.Height)
		return k.picture
	})
	return raster
}

func (k *ink) clear(w, h int) {
	if k.picture == nil || k.picture.Rect.Dx() != w || k.picture.Rect.Dy() != h {
		k.picture = image.NewRGBA(image.Rect(0, 0, w, h))
		return
	}
	clear(k.picture.Pix)
}

// whole rounds a length to whole picture pixels.
func (k *ink) whole(v float32) float32 {
	return float32(math.Round(float64(v*k.scale))) / k.scale
}

// fill fills a polygon. What lies outside of the picture is pressed onto its edge.
func (k *ink) fill(c color.Color, outline ...point) {
	corners := make([]point, len(outline))
	low, high := point{math.MaxFloat32, math.MaxFloat32}, point{}
	for i, p := range outline {
		q := point{min(max(p.x*k.scale, 0), float32(k.picture.Rect.Max.X)), min(max(p.y*k.scale, 0), float32(k.picture.Rect.Max.Y))}
		low, high = point{min(low.x, q.x), min(low.y, q.y)}, point{max(high.x, q.x), max(high.y, q.y)}
		corners[i] = q
	}
	frame := image.Rect(int(low.x), int(low.y), int(math.Ceil(float64(high.x))), int(math.Ceil(float64(high.y))))
	if frame.Empty() {
		return
	}
	k.shape.Reset(frame.Dx(), frame.Dy())
	for i, p := range corners {
		x, y := p.x-float32(frame.Min.X), p.y-float32(frame.Min.Y)
		if i == 0 {
			k.shape.MoveTo(x, y)
			continue
		}
		k.shape.LineTo(x, y)
	}
	k.shape.ClosePath()
	k.shape.Draw(k.picture, frame, image.NewUniform(c), image.Point{})
}

// box fills an upright rectangle.
func (k *ink) box(c color.Color, x, y, width, height float32) {
	left, top, right, bottom := x*k.scale, y*k.scale, (x+width)*k.scale, (y+height)*k.scale
	if even(left) && even(top) && even(right) && even(bottom) {
		frame := image.Rect(pixel(left), pixel(top), pixel(right), pixel(bottom))
		draw.Draw(k.picture, frame, image.NewUniform(c), image.Point{}, draw.Over)
		return
	}
	k.fill(c, point{x, y}, point{x + width, y}, point{x + width, y + height}, point{x, y + height})
}

// even reports whether a length falls on the edge of a picture pixel.
func even(v float32) bool { return math.Abs(float64(v)-math.Round(float64(v))) < 1e-3 }

func pixel(v float32) int { return int(math.Round(float64(v))) }

// outline draws the edge of an upright rectangle, inside of it.
func (k *ink) outline(c color.Color, x, y, width, height, thick float32) {
	k.box(c, x, y, width, thick)
	k.box(c, x, y+height-thick, width, thick)
	k.box(c, x, y+thick, thick, height-2*thick)
	k.box(c, x+width-thick, y+thick, thick, height-2*thick)
}
