package plot

import (
	"fmt"
	"math"
	"strings"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design/evidence/bench"
)

// needle is a heading that was shown with the nose in a direction, and the heading that the found mounting would show there; in degrees
// clockwise from north.
type needle struct {
	nose, shown, expected float64
	level                 bool
}

// Rose is a compass rose: for each direction of the nose the shown heading as a needle, and as a ring what the found mounting would show.
func Rose(title string, p bench.Plot) Chart {
	c := Chart{title: title + ": shown headings, and rings where the found mounting puts them", missing: "no heading was read"}
	var said []string
	for i := 0; i+1 < len(p.Points); i += 2 {
		shown, expected := p.Points[i], p.Points[i+1]
		c.needles = append(c.needles, needle{shown.X, shown.Y, expected.Y, shown.Used})
		said = append(said, fmt.Sprintf("nose %.0f° shows %.0f°, %.0f° expected", shown.X, turned(shown.Y), turned(expected.Y)))
	}
	if len(said) > 0 {
		c.missing = ""
	}
	c.summary = strings.Join(said, "; ") + "."
	return c
}

// turned is an angle from 0 up to 360.
func turned(degrees float64) float64 {
	if a := math.Mod(degrees, 360); a < 0 {
		return a + 360
	} else {
		return a
	}
}

// drawRose draws the rose in the middle of the sheet.
func (s *sheet) drawRose() {
	middle := pen.Spot{X: s.width / 2, Y: (s.height + 34) / 2}
	radius := min(s.width/2-84, (s.height-34)/2-34)
	if radius < 20 {
		return
	}
	to := func(degrees, r float64) pen.Spot {
		a := degrees * math.Pi / 180
		return pen.Spot{X: middle.X + r*math.Sin(a), Y: middle.Y - r*math.Cos(a)}
	}
	s.pen.Area(pen.Disc(middle, radius), s.k.of(look.PassLane))
	ring := make([]pen.Spot, 0, 121)
	for i := range 121 {
		ring = append(ring, to(3*float64(i), radius))
	}
	s.pen.Line(ring, pen.Stroke{Width: 1, Colour: s.k.of(look.Edge)})
	for i := range 36 {
		long := 4.0
		if i%9 == 0 {
			long = 9
		}
		s.pen.Line([]pen.Spot{to(10*float64(i), radius-long), to(10*float64(i), radius)}, pen.Stroke{Width: 1, Colour: s.k.of(look.Second)})
	}
	for i, name := range []string{"N", "E", "S", "W"} {
		s.pen.Words(to(90*float64(i), radius-20).Plus(0, 4), name, s.letters(look.Caption, look.Second, pen.Middle))
	}
	for i, n := range s.needles {
		role, wide := look.Act, 2.2
		if !n.level {
			role, wide = look.Second, 1.4
		}
		tip := to(n.shown, radius-2)
		s.pen.Line([]pen.Spot{middle, tip}, pen.Stroke{Width: wide, Colour: s.k.of(role)})
		at := to(n.expected, radius)
		s.pen.Area(pen.Disc(at, 6), s.k.of(look.Ink))
		s.pen.Area(pen.Disc(at, 4.6), s.k.of(look.PassLane))
		s.pen.Area(pen.Disc(tip, 3), s.k.of(role))
		if s.near(i) {
			continue
		}
		s.nameNeedle(n, to(n.shown, radius+12))
	}
	s.pen.Area(pen.Disc(middle, 3), s.k.of(look.Ink))
}

// near reports whether an earlier needle shows nearly the same heading: then its name stands there already.
func (s *sheet) near(i int) bool {
	for _, other := range s.needles[:i] {
		if apart := math.Abs(math.Remainder(other.shown-s.needles[i].shown, 360)); apart < 12 {
			return true
		}
	}
	return false
}

func (s *sheet) nameNeedle(n needle, at pen.Spot) {
	name := fmt.Sprintf("nose %.0f°", n.nose)
	if i := int(math.Round(n.nose / 90)); math.Abs(n.nose-90*float64(i)) < 0.5 {
		name = "nose " + [...]string{"north", "east", "south", "west"}[((i%4)+4)%4]
	}
	if !n.level {
		name += ", down"
	}
	align, dy := pen.Middle, 4.0
	switch a := turned(n.shown); {
	case a > 20 && a < 160:
		align = pen.Left
	case a > 200 && a < 340:
		align = pen.Right
	case a <= 20 || a >= 340:
		dy = 0
	default:
		dy = 10
	}
	s.pen.Words(at.Plus(0, dy), name, s.letters(look.Caption, look.Ink, align))
}
