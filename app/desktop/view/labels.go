package view

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	raster "mastwright/mesh/view"
)

// unit returns the direction and the distance from one spot to another.
func unit(a, b pen.Spot) (pen.Spot, float64) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long == 0 {
		return pen.Spot{}, 0
	}
	return pen.Spot{X: (b.X - a.X) / long, Y: (b.Y - a.Y) / long}, long
}

// drawDimension draws what the field with the focus measures.
func (f *frame) drawDimension() {
	if f.focus == "" {
		return
	}
	d, ok := f.model.distance(f.focus)
	if !ok {
		return
	}
	away := d.shift(f.camera)
	line, ok := f.camera.Dimension(d.a, d.b, away, raster.DimensionOptions{Scale: f.scale})
	if !ok {
		return
	}
	spot := func(s raster.Spot) pen.Spot { return pen.Spot{X: s.X / f.scale, Y: s.Y / f.scale} }
	act := f.colours.of(look.Act)
	for i, e := range line.Extensions {
		from := spot(e[0])
		if long := r3.Norm(away); long > 0 {
			u := r3.Scale(1/long, away)
			if edge := math.Abs(u.X)*d.edge[i].X + math.Abs(u.Y)*d.edge[i].Y; edge > 0 {
				at := [2]r3.Vec{d.a, d.b}[i]
				from = f.spot(r3.Add(at, r3.Scale(min(edge+1, long), u)))
			}
		}
		f.cased(from, spot(e[1]), 1, act)
	}
	from, to := spot(line.Line[0]), spot(line.Line[1])
	if !line.Outside { // leave the arrows their points
		u, _ := unit(from, to)
		from, to = from.Plus(5*u.X, 5*u.Y), to.Plus(-5*u.X, -5*u.Y)
	}
	f.cased(from, to, 1.4, act)
	for _, a := range line.Arrows {
		f.pen.Area([]pen.Spot{spot(a[0]), spot(a[1]), spot(a[2])}, act)
	}
	letters := pen.Letters{Font: look.Strong, Colour: act, Align: pen.Left}
	at := spot(line.Text)
	if steep := math.Abs(math.Sin(line.Angle)); steep > 0.5 && !line.Outside {
		at.X += 8
	} else {
		letters.Align = pen.Middle
		if !line.Outside {
			at.Y += 14
		}
	}
	f.label(at, d.figure, letters)
}

// cased draws a line with a soft edge, so that it is seen on dark bodies too.
func (f *frame) cased(from, to pen.Spot, width float64, c color.NRGBA) {
	f.pen.Line([]pen.Spot{from, to}, inked(width+2.4, fade(f.colours.of(look.Panel), 0.7)))
	f.pen.Line([]pen.Spot{from, to}, inked(width, c))
}

// numberHoles writes the numbers of the holes on the face.
func (f *frame) numberHoles() {
	spots, _, err := f.model.place.Holes.Centres()
	if err != nil {
		return
	}
	turn := f.model.place.Turn.Radians()
	for i, s := range spots {
		at := turned(s, turn)
		out := r3.Add(at, r3.Scale(5/max(r3.Norm(at), 1), at))
		f.label(f.spot(out), strconv.Itoa(i+1), pen.Letters{Font: look.Caption, Colour: f.colours.of(look.Ink), Align: pen.Middle})
	}
}

// writeDirections writes forward and left on the ground at the frame's edge, where it is seen.
func (f *frame) writeDirections() {
	if math.Sin(f.camera.Elevation) < 0.12 {
		return // the ground is seen from its edge
	}
	f.direction(f.forward, forward, left)
	f.direction(f.left, left, forward)
}

// direction writes one word along an arrow on the ground: at the side of the mount that is nearest to the viewer and free.
func (f *frame) direction(word pen.Lettering, along, aside r3.Vec) {
	em := wordHigh / f.mmWide()
	size := f.model.place.PlateSize()
	box := f.model.mount
	clear := max(r3.Dot(box.Max, aside), -r3.Dot(box.Min, aside), math.Abs(aside.X)*size.X.Millimetres()/2, math.Abs(aside.Y)*size.Y.Millimetres()/2) + 1.2*em
	long := (word.Width + arrowGap + arrowLong) * em
	near := math.Copysign(1, math.Cos(f.camera.Azimuth)*aside.X+math.Sin(f.camera.Azimuth)*aside.Y)
	for _, side := range [2]float64{near, -near} {
		for _, slide := range [9]float64{0, -25, 25, -50, 50, -75, 75, -100, 100} {
			start := r3.Add(r3.Scale(side*clear, aside), r3.Scale(slide-long/2, along))
			start.Z = f.model.ground
			if f.open(start, r3.Add(start, r3.Scale(long, along))) {
				f.write(word, em, start, along)
				return
			}
		}
	}
}

// open reports whether the ground between two points is seen and free.
func (f *frame) open(a, b r3.Vec) bool {
	width, height := f.size()
	for i := range 9 {
		p := r3.Add(a, r3.Scale(float64(i)/8, r3.Sub(b, a)))
		s := f.spot(p)
		if s.X < 14 || s.Y < 14 || s.X > width-14 || s.Y > height-14 || f.renderer.Hidden(f.camera.Project(p)) {
			return false
		}
		for _, t := range f.taken {
			if t.Grown(8).Meets(pen.Rect{X: s.X, Y: s.Y, W: 1, H: 1}) {
				return false
			}
		}
	}
	return true
}

// The size of a word on the ground in pixels at scale 1, and of its arrow in the word's heights.
const (
	wordHigh  = 14.0
	arrowGap  = 0.5
	arrowLong = 2.4
)

// write puts a word on the ground, to be read from the side that is seen, and an arrow behind it. The word is em high, mm.
func (f *frame) write(word pen.Lettering, em float64, start, along r3.Vec) {
	ink := f.colours.of(look.Second)
	wide := word.Width * em
	reading, at := along, start
	if f.spot(r3.Add(start, along)).X < f.spot(start).X {
		reading, at = r3.Scale(-1, along), r3.Add(start, r3.Scale(wide, along))
	}
	down := r3.Cross(reading, up)
	at = r3.Add(at, r3.Scale(0.33*em, down))
	origin := f.spot(at)
	step := func(v r3.Vec) pen.Spot {
		p := f.spot(r3.Add(at, r3.Scale(em, v)))
		return pen.Spot{X: p.X - origin.X, Y: p.Y - origin.Y}
	}
	f.pen.Letter(word, pen.Slant{At: origin, Along: step(reading), Down: step(down)}, ink)
	tail := r3.Add(start, r3.Scale(wide+arrowGap*em, along))
	tip := r3.Add(tail, r3.Scale(arrowLong*em, along))
	neck := r3.Sub(tip, r3.Scale(0.8*em, along))
	across := r3.Scale(0.28*em, r3.Cross(up, along))
	f.pen.Line([]pen.Spot{f.spot(tail), f.spot(neck)}, inked(1.4, ink))
	f.pen.Area([]pen.Spot{f.spot(tip), f.spot(r3.Add(neck, across)), f.spot(r3.Sub(neck, across))}, ink)
	a, b := f.spot(start), f.spot(tip)
	f.taken = append(f.taken, pen.Rect{X: min(a.X, b.X), Y: min(a.Y, b.Y), W: math.Abs(b.X - a.X), H: math.Abs(b.Y - a.Y)}.Grown(6))
}
