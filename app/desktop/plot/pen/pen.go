// Package pen draws lines, areas and words with the desktop's type: into the pixels of a picture, or into SVG for paper.
//
// Lengths are in the toolkit's pixels, at scale 1, x to the right and y down.
package pen

import (
	"image/color"
	"math"

	"mastwright/app/desktop/look"
)

// Spot is a place in a drawing.
type Spot struct{ X, Y float64 }

// Plus returns the spot moved.
func (s Spot) Plus(x, y float64) Spot { return Spot{s.X + x, s.Y + y} }

// Rect is a rectangle of a drawing.
type Rect struct{ X, Y, W, H float64 }

// Grown returns the rectangle larger by a margin on every side.
func (r Rect) Grown(by float64) Rect { return Rect{r.X - by, r.Y - by, r.W + 2*by, r.H + 2*by} }

// Meets reports whether two rectangles share a point inside.
func (r Rect) Meets(o Rect) bool {
	return r.X < o.X+o.W && o.X < r.X+r.W && r.Y < o.Y+o.H && o.Y < r.Y+r.H
}

// Stroke is how a line is drawn.
type Stroke struct {
	Width  float64
	Colour color.NRGBA
	Dash   float64 // length of a dash and of a gap; 0 means unbroken
}

// Align says which point of a text stands at its spot.
type Align int

// The alignments.
const (
	Left Align = iota
	Middle
	Right
)

// Letters is how a text is drawn.
type Letters struct {
	Font   look.Font
	Colour color.NRGBA
	Align  Align
}

// Pen is something to draw with.
type Pen interface {
	Line(path []Spot, s Stroke)            // an open chain with round joints
	Area(path []Spot, c color.NRGBA)       // a filled polygon
	Words(at Spot, text string, l Letters) // one line on its baseline
	Width(text string, f look.Font) float64
}

// Box returns the corners of a rectangle with rounded corners.
func Box(r Rect, radius float64) []Spot {
	if radius <= 0 {
		return []Spot{{r.X, r.Y}, {r.X + r.W, r.Y}, {r.X + r.W, r.Y + r.H}, {r.X, r.Y + r.H}}
	}
	path := make([]Spot, 0, 4*quarter)
	for corner := range 4 {
		x, y := r.X+radius, r.Y+radius
		if corner == 0 || corner == 3 {
			x = r.X + r.W - radius
		}
		if corner < 2 {
			y = r.Y + r.H - radius
		}
		for i := range quarter {
			sin, cos := math.Sincos((float64(corner) + float64(i)/(quarter-1)) * math.Pi / 2)
			path = append(path, Spot{x + radius*cos, y + radius*sin})
		}
	}
	return path
}

const quarter = 6 // points of a rounded corner

// Disc returns the rim of a disc.
func Disc(at Spot, radius float64) []Spot {
	return Box(Rect{at.X - radius, at.Y - radius, 2 * radius, 2 * radius}, radius)
}

// Beside draws a text on a soft plate, its middle left, centre or right at a spot, and returns the plate's place.
func Beside(p Pen, at Spot, text string, l Letters, plate color.NRGBA) Rect {
	r := PlateOf(p, at, text, l)
	p.Area(Box(r, 3), plate)
	Inside(p, r, text, l)
	return r
}

// PlateOf returns the plate of a text whose middle left, centre or right is at a spot.
func PlateOf(p Pen, at Spot, text string, l Letters) Rect {
	size := float64(l.Font.Size())
	w, h := math.Ceil(p.Width(text, l.Font))+10, math.Round(size*1.25)+3
	x := at.X
	switch l.Align {
	case Middle:
		x -= w / 2
	case Right:
		x -= w
	}
	return Rect{math.Round(x), math.Round(at.Y - h/2), w, h}
}

// Inside writes a text into its plate.
func Inside(p Pen, plate Rect, text string, l Letters) {
	l.Align = Left
	size := float64(l.Font.Size())
	p.Words(Spot{plate.X + 5, math.Round(plate.Y + plate.H/2 + 0.36*size)}, text, l)
}
