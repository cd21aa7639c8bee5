// Package draft draws on paper: lines, outlines, dimensions, numbers in circles and whatever else a technical drawing is made of.
//
// Lengths are in millimetres of paper, x to the right and y down. Line widths follow ISO 128-2: 0.35 mm for what is seen, 0.18 mm
// for dimensions and hatching.
package draft

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"

	"mastwright/app/sheet/paper"
	"mastwright/mesh/outline"
)

// Widths of lines in mm.
const (
	Thick = 0.35
	Thin  = 0.18
)

// The sizes of letters in mm.
const (
	Small  = 2.5
	Normal = 2.9
	Large  = 3.4
)

// Pen draws on one drawing.
type Pen struct {
	paper.Drawing
}

// New returns a pen on an empty drawing.
func New(width, height float64) *Pen { return &Pen{paper.Drawing{Width: width, Height: height}} }

// Add lays down marks.
func (p *Pen) Add(marks ...paper.Mark) { p.Marks = append(p.Marks, marks...) }

// Line draws a chain of straight lines.
func (p *Pen) Line(width float64, ink paper.Colour, points ...paper.Point) {
	p.Add(paper.Stroke{Points: points, Width: width, Line: ink})
}

// Dashed draws a broken line.
func (p *Pen) Dashed(width, dash float64, ink paper.Colour, points ...paper.Point) {
	p.Add(paper.Stroke{Points: points, Width: width, Line: ink, Dash: dash})
}

// Box draws the edge of a box.
func (p *Pen) Box(width float64, ink paper.Colour, x, y, w, h float64) {
	p.Add(paper.Stroke{Points: corners(x, y, w, h), Closed: true, Width: width, Line: ink})
}

// Area fills a box.
func (p *Pen) Area(ink paper.Colour, x, y, w, h float64) {
	p.Add(paper.Stroke{Points: corners(x, y, w, h), Closed: true, Filled: true, Fill: ink})
}

func corners(x, y, w, h float64) []paper.Point {
	return []paper.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// Circle draws the edge of a circle.
func (p *Pen) Circle(width float64, ink paper.Colour, middle paper.Point, radius float64) {
	p.Add(paper.Stroke{Points: paper.Round(middle, radius), Closed: true, Width: width, Line: ink})
}

// Text writes a line.
func (p *Pen) Text(at paper.Point, anchor paper.Anchor, size float64, ink paper.Colour, text string) {
	p.Add(paper.Label{At: at, Text: text, Size: size, Anchor: anchor, Ink: ink})
}

// Strong writes a line in the heavier cut.
func (p *Pen) Strong(at paper.Point, anchor paper.Anchor, size float64, ink paper.Colour, text string) {
	p.Add(paper.Label{At: at, Text: text, Size: size, Weight: paper.Medium, Anchor: anchor, Ink: ink})
}

// View places the points of a plane on a drawing: x to the right and y up, in mm, drawn at a scale.
type View struct {
	Origin paper.Point // where the plane's origin lies
	Scale  float64
	Turn   float64 // rad, counter-clockwise, of the plane on the drawing
}

// At is where a point of the plane lies.
func (v View) At(x, y float64) paper.Point {
	sin, cos := math.Sincos(v.Turn)
	return paper.Point{X: v.Origin.X + v.Scale*(cos*x-sin*y), Y: v.Origin.Y - v.Scale*(sin*x+cos*y)}
}

// Outline draws the edges of a plane region.
func (p *Pen) Outline(v View, width float64, ink paper.Colour, o outline.Outline) {
	for _, l := range append([]outline.Loop{o.Outer}, o.Holes...) {
		p.Loop(v, width, ink, l)
	}
}

// Loop draws a closed chain.
func (p *Pen) Loop(v View, width float64, ink paper.Colour, l outline.Loop) {
	if len(l) == 0 {
		return
	}
	s := paper.Stroke{Closed: true, Width: width, Line: ink}
	for _, c := range l.Flatten(0.01 / v.Scale) {
		s.Points = append(s.Points, v.At(c.X, c.Y))
	}
	p.Add(s)
}

// Cross marks a middle with two lines of a reach.
func (p *Pen) Cross(width float64, ink paper.Colour, middle paper.Point, reach float64) {
	p.Line(width, ink, paper.Point{X: middle.X - reach, Y: middle.Y}, paper.Point{X: middle.X + reach, Y: middle.Y})
	p.Line(width, ink, paper.Point{X: middle.X, Y: middle.Y - reach}, paper.Point{X: middle.X, Y: middle.Y + reach})
}

// Arrow draws a line with a filled head at its end.
func (p *Pen) Arrow(width float64, ink paper.Colour, from, to paper.Point) {
	p.Line(width, ink, from, to)
	p.head(ink, from, to)
}

// head draws an arrowhead at to, pointing away from from.
func (p *Pen) head(ink paper.Colour, from, to paper.Point) {
	const long, half = 2.2, 0.55
	dx, dy, ok := direction(from, to)
	if !ok {
		return
	}
	back := paper.Point{X: to.X - long*dx, Y: to.Y - long*dy}
	p.Add(paper.Stroke{Closed: true, Filled: true, Fill: ink, Points: []paper.Point{
		to, {X: back.X - half*dy, Y: back.Y + half*dx}, {X: back.X + half*dy, Y: back.Y - half*dx},
	}})
}

func direction(a, b paper.Point) (dx, dy float64, ok bool) {
	d := math.Hypot(b.X-a.X, b.Y-a.Y)
	if d == 0 {
		return 0, 0, false
	}
	return (b.X - a.X) / d, (b.Y - a.Y) / d, true
}

// Balloon writes a number in a circle and leads to what it names.
func (p *Pen) Balloon(middle, to paper.Point, number int) {
	const radius = 2.9
	if dx, dy, ok := direction(middle, to); ok && math.Hypot(to.X-middle.X, to.Y-middle.Y) > radius {
		edge := paper.Point{X: middle.X + radius*dx, Y: middle.Y + radius*dy}
		p.Line(0.45, paper.White, edge, to)
		p.Line(Thin, paper.Ink, edge, to)
		p.Add(paper.Stroke{Points: paper.Round(to, 0.45), Closed: true, Filled: true, Fill: paper.Ink})
	}
	p.Add(paper.Stroke{Points: paper.Round(middle, radius), Closed: true, Filled: true, Fill: paper.White, Width: 0.25, Line: paper.Ink})
	p.Strong(paper.Point{X: middle.X, Y: middle.Y + 1.05}, paper.Middle, Normal, paper.Ink, fmt.Sprint(number))
}

// Picture lays an image down, its size in mm.
func (p *Pen) Picture(img image.Image, x, y, w, h float64) {
	var data bytes.Buffer
	if err := png.Encode(&data, img); err != nil {
		return // a buffer takes everything; an image without size shows nothing
	}
	p.Add(paper.Image{At: paper.Point{X: x, Y: y}, Width: w, Height: h, PNG: data.Bytes()})
}

// CheckBar draws the bar of 50 mm that proves that a page was printed at its true size.
func (p *Pen) CheckBar(x, y float64) {
	const long, high = 50.0, 2.0
	for i := range 5 {
		if i%2 == 0 {
			p.Area(paper.Ink, x+float64(i)*long/5, y, long/5, high)
		}
	}
	p.Box(Thin, paper.Ink, x+Thin/2, y+Thin/2, long-Thin, high-Thin)
	p.Text(paper.Point{X: x, Y: y + high + 3.2}, paper.Start, Small, paper.Ink, "Measure this bar: it must be 50 mm long.")
	p.Text(paper.Point{X: x, Y: y + high + 6.4}, paper.Start, Small, paper.Second, "If it is not, print again at 100 %, without fitting to the page.")
}
