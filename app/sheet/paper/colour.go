package paper

import "fmt"

// Colour is red, green and blue, a byte each: 0x1B2322.
type Colour uint32

// RGB is the three parts of the colour.
func (c Colour) RGB() (r, g, b uint8) { return uint8(c >> 16), uint8(c >> 8), uint8(c) }

// String is the colour as style sheets hold it.
func (c Colour) String() string { return fmt.Sprintf("#%06x", uint32(c)) }

// The inks and grounds, on white. Every ink for words has a contrast of at least 4.5 (WCAG 2.2, 1.4.3), every bar of at least 3
// on its lane (1.4.11).
const (
	White        Colour = 0xFFFFFF
	Ink          Colour = 0x1B2322
	Second       Colour = 0x48534F
	Third        Colour = 0x66716C
	Seam         Colour = 0xC8CFC9
	Panel        Colour = 0xF5F6F3
	Act          Colour = 0x4D3F94 // dimensions, what is to be done
	PassLane     Colour = 0xE9ECE8
	MarginalLane Colour = 0xE0E4DF
	FailLane     Colour = 0xD6DBD6
)

// Tone is what something means.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Good
	Marginal
	Bad
	Unknown
	Caution
)

// Word is the ink of a tone's words.
func (t Tone) Word() Colour {
	return [...]Colour{Plain: Ink, Good: 0x17695A, Marginal: 0x7E5200, Bad: 0x99182F,
		Unknown: 0x59655F, Caution: Ink}[t]
}

// Bar is the colour of a tone's bar.
func (t Tone) Bar() Colour {
	return [...]Colour{Plain: Second, Good: 0x2F8D79, Marginal: 0xAF730B, Bad: 0xA11D33,
		Unknown: 0x77827C, Caution: Ink}[t]
}

// Ground is a light ground behind a tone's words.
func (t Tone) Ground() Colour {
	return [...]Colour{Plain: Panel, Good: 0xEEF5F2, Marginal: 0xF8F1E3, Bad: 0xFAECEE,
		Unknown: Panel, Caution: Panel}[t]
}

// Mark is the shape that says a tone without colour, in a square of a side in mm: a disc with a tick, a triangle with a stroke,
// a square with a cross, a ring with a question mark; nothing for a plain tone.
func (t Tone) Mark(at Point, side float64) []Mark {
	p := func(xy ...float64) []Point {
		var out []Point
		for i := 0; i < len(xy); i += 2 {
			out = append(out, Point{at.X + xy[i]*side, at.Y + xy[i+1]*side})
		}
		return out
	}
	line := func(points []Point) Stroke { return Stroke{Points: points, Width: 0.13 * side, Line: White} }
	area := func(points []Point) Stroke { return Stroke{Points: points, Closed: true, Filled: true, Fill: t.Bar()} }
	ring := Round(Point{at.X + side/2, at.Y + side/2}, side*0.46)
	switch t {
	case Good:
		return []Mark{area(ring), line(p(.28, .53, .44, .69, .73, .35))}
	case Marginal:
		return []Mark{area(p(.5, .04, .98, .93, .02, .93)), line(p(.5, .36, .5, .64)), line(p(.5, .73, .5, .85))}
	case Bad:
		return []Mark{area(p(.04, .04, .96, .04, .96, .96, .04, .96)), line(p(.28, .28, .72, .72)), line(p(.72, .28, .28, .72))}
	case Unknown:
		return []Mark{
			Stroke{Points: Round(Point{at.X + side/2, at.Y + side/2}, side*0.42), Closed: true, Width: 0.09 * side, Line: t.Bar()},
			Label{At: Point{at.X + side/2, at.Y + 0.75*side}, Text: "?", Size: 0.72 * side, Weight: Medium, Anchor: Middle, Ink: t.Word()},
		}
	case Caution:
		return []Mark{area(p(.5, .04, .98, .93, .02, .93)), line(p(.5, .36, .5, .64)), line(p(.5, .73, .5, .85))}
	}
	return nil
}
