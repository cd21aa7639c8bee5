package plot

import (
	"math"
	"slices"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
)

// pitch is how far names at the ends of lines are pushed apart.
const pitch = 14

// drawCurves draws a chart of lines over x.
func (s *sheet) drawCurves() {
	names := 0.0
	s.curves = slices.Clone(s.curves)
	for i := range s.curves {
		s.curves[i].name = s.fit(s.curves[i].name, look.Caption, 0.3*s.width)
		names = max(names, s.pen.Width(s.curves[i].name, look.Caption))
	}
	right := max(names+34, s.pen.Width(s.x.name, look.Caption)+24)
	left := 16.0
	ticks := s.y.ticks(min(int((s.height-72)/24), 12))
	for _, v := range ticks {
		left = max(left, s.pen.Width(figure(v)+s.y.unit, look.Caption)+20)
	}
	s.field = pen.Rect{X: math.Ceil(left), Y: s.top(), W: math.Floor(s.width - left - right), H: math.Floor(s.height - s.top() - 28)}
	if s.field.W < 40 || s.field.H < 20 {
		return
	}
	f := s.field
	s.sx, s.sy = scale{s.x, f.X, f.X + f.W}, scale{s.y, f.Y + f.H, f.Y}
	s.drawLanes()
	s.drawSpans()
	for _, v := range ticks {
		s.pen.Words(pen.Spot{X: f.X - 8, Y: math.Round(s.sy.at(v)) + 4}, figure(v)+s.y.unit, s.letters(look.Caption, look.Second, pen.Right))
	}
	s.drawX()
	for _, c := range s.curves {
		if len(c.edge) > 0 {
			s.drawSpread(c)
		}
	}
	s.drawLimits()
	s.drawUprights()
	many := len(s.dots) > 60 // then the line lies over them
	if many {
		s.drawDots()
	}
	for _, c := range s.curves {
		stroke := pen.Stroke{Width: 1.2, Colour: s.k.of(look.Second)}
		if c.main {
			stroke = pen.Stroke{Width: 2.2, Colour: s.k.of(look.Ink)}
		}
		for _, piece := range s.within(c.points) {
			s.pen.Line(piece, stroke)
		}
	}
	if !many {
		s.drawDots()
	}
	s.drawNow()
	s.nameCurves()
}

// within turns points into pixels and cuts off what lies above or below the field.
func (s *sheet) within(points []pen.Spot) [][]pen.Spot {
	var pieces [][]pen.Spot
	var piece []pen.Spot
	end := func() {
		if len(piece) > 1 {
			pieces = append(pieces, piece)
		}
		piece = nil
	}
	for i, b := range points {
		if i == 0 {
			if s.holds(b.Y) {
				piece = append(piece, s.pixel(b))
			}
			continue
		}
		a := points[i-1]
		from, to := s.cross(a, b)
		switch {
		case from > to:
			end()
			continue
		case from > 0:
			end()
			piece = append(piece, s.pixel(mid(a, b, from)))
		}
		piece = append(piece, s.pixel(mid(a, b, to)))
		if to < 1 {
			end()
		}
	}
	end()
	return pieces
}

func (s *sheet) holds(y float64) bool { return y >= s.y.low && y <= s.y.high }

func (s *sheet) pixel(p pen.Spot) pen.Spot { return pen.Spot{X: s.sx.at(p.X), Y: s.sy.at(p.Y)} }

// cross returns the share of the way from a to b that lies in the field; the first above the second where none does.
func (s *sheet) cross(a, b pen.Spot) (from, to float64) {
	from, to = 0, 1
	d := b.Y - a.Y
	for _, edge := range [2]struct{ limit, sign float64 }{{s.y.low, 1}, {s.y.high, -1}} {
		before, after := edge.sign*(a.Y-edge.limit), edge.sign*(b.Y-edge.limit)
		switch {
		case before < 0 && after < 0:
			return 1, 0
		case before < 0:
			from = max(from, (edge.limit-a.Y)/d)
		case after < 0:
			to = min(to, (edge.limit-a.Y)/d)
		}
	}
	return from, to
}

func mid(a, b pen.Spot, t float64) pen.Spot {
	return pen.Spot{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
}

// drawSpread fills what lies between the two edges of a curve's spread.
func (s *sheet) drawSpread(c curve) {
	var path []pen.Spot
	for _, p := range c.edge {
		path = append(path, s.pixel(p))
	}
	f := s.field
	for i := range path {
		path[i].Y = min(max(path[i].Y, f.Y), f.Y+f.H)
	}
	s.pen.Area(path, s.k.faded(look.Second, 0.26))
}

// drawSpans shades the named stretches of x and writes their names above the field, pushed apart.
func (s *sheet) drawSpans() {
	f := s.field
	var at []float64
	var names []string
	for _, b := range s.spans {
		from, to := max(s.sx.at(b.from), f.X), min(s.sx.at(b.to), f.X+f.W)
		if to <= from {
			continue
		}
		strength := 0.12
		if b.strong {
			strength = 0.26
		}
		s.pen.Area(pen.Box(pen.Rect{X: from, Y: firstLine + 4, W: to - from, H: f.Y + f.H - firstLine - 4}, 0), s.k.faded(look.Edge, strength))
		names, at = append(names, b.name), append(at, (from+to)/2)
	}
	widest := 0.0
	for _, name := range names {
		widest = max(widest, s.pen.Width(name, look.Caption))
	}
	push(at, widest+10, f.X+widest/2-30, s.width-widest/2-8)
	for i, name := range names {
		s.pen.Words(pen.Spot{X: at[i], Y: firstLine}, name, s.letters(look.Caption, look.Second, pen.Middle))
	}
}

// nameCurves writes the names at the right ends, pushed apart, each with a leader to its line.
func (s *sheet) nameCurves() {
	type end struct {
		name string
		y    float64 // of the line's end
		at   float64 // of the name
		main bool
	}
	f := s.field
	var ends []end
	for _, c := range s.curves {
		if c.name == "" || len(c.points) == 0 {
			continue
		}
		last := c.points[len(c.points)-1]
		y := min(max(s.sy.at(last.Y), f.Y), f.Y+f.H)
		ends = append(ends, end{c.name, y, y, c.main})
	}
	slices.SortStableFunc(ends, func(a, b end) int {
		switch {
		case a.y < b.y:
			return -1
		case a.y > b.y:
			return 1
		}
		return 0
	})
	at := make([]float64, len(ends))
	for i := range ends {
		at[i] = ends[i].y
	}
	push(at, pitch, f.Y+4, f.Y+f.H-4)
	for i, e := range ends {
		role := look.Second
		if e.main {
			role = look.Ink
		}
		x, y := f.X+f.W, math.Round(at[i])
		s.pen.Line([]pen.Spot{{X: x + 2, Y: e.y}, {X: x + 10, Y: y}, {X: x + 16, Y: y}}, pen.Stroke{Width: 1, Colour: s.k.of(role)})
		s.pen.Words(pen.Spot{X: x + 20, Y: y + 4}, e.name, s.letters(look.Caption, role, pen.Left))
	}
}

// push moves sorted places apart by a pitch at least, as little as it can, between two bounds.
func push(at []float64, pitch, low, high float64) {
	for range 4 * len(at) {
		for i := 1; i < len(at); i++ {
			if gap := pitch - (at[i] - at[i-1]); gap > 0 {
				at[i-1] -= gap / 2
				at[i] += gap / 2
			}
		}
	}
	if n := len(at); n > 0 {
		at[0] = max(at[0], low)
		for i := 1; i < n; i++ {
			at[i] = max(at[i], at[i-1]+pitch)
		}
		at[n-1] = min(at[n-1], high)
		for i := n - 2; i >= 0; i-- {
			at[i] = min(at[i], at[i+1]-pitch)
		}
	}
}
