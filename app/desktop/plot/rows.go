package plot

import (
	"math"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
)

// rowPitch is the least height of a row.
const rowPitch = 13.4

// leastField is the room that names leave for the bars, with what stands around them.
const leastField = 88

// drawRows draws a chart of one value a row.
func (s *sheet) drawRows() {
	names, figures := 0.0, 0.0
	for _, r := range s.rows {
		names, figures = max(names, s.pen.Width(r.name, look.Strong)), max(figures, s.pen.Width(r.figure, look.Strong))
	}
	right := max(figures+20, s.pen.Width(s.x.name, look.Caption)+24)
	names = min(names, 0.42*s.width, max(s.width-right-leastField, 40))
	rows := s.shownRows(int((s.height - s.top() - 28) / rowPitch))
	s.field = pen.Rect{X: math.Ceil(names + 22), Y: s.top(), W: math.Floor(s.width - names - 22 - right), H: math.Floor(s.height - s.top() - 28)}
	if s.field.W < 40 || s.field.H < 20 {
		return
	}
	f := s.field
	s.sx = scale{s.x, f.X, f.X + f.W}
	s.drawLanes()
	s.drawSpans()
	s.drawX()
	s.drawLimits()
	s.drawNow()
	height := f.H / float64(len(rows))
	for i, r := range rows {
		y := math.Round(f.Y + height*(float64(i)+0.5))
		font, role := look.Caption, look.Second
		if r.present {
			font, role = look.Strong, look.Act
		}
		s.pen.Words(pen.Spot{X: f.X - 8, Y: y + 4}, s.fit(r.name, font, f.X-16), s.letters(font, role, pen.Right))
		s.pen.Words(pen.Spot{X: f.X + f.W + 10, Y: y + 4}, r.figure, s.letters(font, role, pen.Left))
		s.drawRow(r, y)
	}
}

// drawRow draws a bar with its whisker, or the whisker alone with a dot.
func (s *sheet) drawRow(r row, y float64) {
	f := s.field
	clip := func(v float64) float64 { return min(max(s.sx.at(v), f.X), f.X+f.W) }
	if r.high <= 0 && r.mid <= 0 {
		return
	}
	ink := s.k.of(look.Ink)
	low, mid, high := clip(r.low), clip(r.mid), clip(r.high)
	if r.bar {
		s.pen.Area(pen.Box(pen.Rect{X: f.X, Y: y - 3.5, W: mid - f.X, H: 7}, 0), s.k.of(look.BarRole(r.state)))
	}
	if high-low > 1 {
		whisker := [][]pen.Spot{{{X: low, Y: y}, {X: high, Y: y}}, {{X: low, Y: y - 4}, {X: low, Y: y + 4}}, {{X: high, Y: y - 4}, {X: high, Y: y + 4}}}
		for _, line := range whisker {
			s.pen.Line(line, pen.Stroke{Width: 3.6, Colour: s.k.of(look.Panel)})
		}
		for _, line := range whisker {
			s.pen.Line(line, pen.Stroke{Width: 1.4, Colour: ink})
		}
	}
	if !r.bar {
		c := ink
		if r.present {
			c = s.k.of(look.Act)
		}
		s.pen.Area(pen.Disc(pen.Spot{X: mid, Y: y}, 4.6), s.k.of(look.Panel))
		s.pen.Area(pen.Disc(pen.Spot{X: mid, Y: y}, 3.4), c)
	}
}

// shownRows returns the first rows that there is room for, the present one among them.
func (s *sheet) shownRows(most int) []row {
	most = max(most, 1)
	if len(s.rows) <= most {
		return s.rows
	}
	rows := append([]row(nil), s.rows[:most]...)
	for _, r := range s.rows[most:] {
		if r.present {
			rows[most-1] = r
		}
	}
	return rows
}
