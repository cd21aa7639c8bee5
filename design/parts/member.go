package parts

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
)

// Member is a straight bar of a part with the outlines of its sections.
type Member struct {
	Name     string // "mast", "foot collar", "tray collar"; "tube", "left plate", "foot block", "spacer 1", "leg 1", "pad 1"
	Part     string // the part it belongs to
	Material string
	Bears    bool      // from the foot to the tray; collars, blocks and spacers do not
	From, To r3.Vec    // its axis, from the foot up
	SectionX r3.Vec    // where its sections' x points, made square to the axis; zero: forward
	Stations []Station // from At 0 to At 1
	Notches  []Notch
}

// Station is a section of a member. From one station to the next every vertex moves in a straight line; two stations at the same
// place are a step, where the cable way opens or closes the wall.
type Station struct {
	At      float64         // 0 at From, 1 at To
	Outline outline.Outline // across the axis, x along SectionX
	Fill    float64         // share of the area that is plastic once printed: 1 where the walls fill the section

	section outline.Section // of the outline
}

// Span is the piece of a member between two neighbouring stations that are apart.
type Span struct{ From, To Station }

// Notch is a place of raised stress.
type Notch struct {
	Name     string  // "root fillet", "tip fillet", "cable way", "joint screw", "screw hole", "opening", "slot"
	At       float64 // along the member
	Radius   float64 // of a fillet; half the width of a hole
	Diameter float64 // of a hole, across the member; 0 for a fillet
	Axis     r3.Vec  // of a hole; zero: as the joints' screws, or as the cable way
	Long     float64 // of a slot, along the member; 0 for a round hole
	Small    r2.Vec  // outside sizes of the member there, mm
	Wide     r2.Vec  // of the shoulder that the fillet runs into; zero for a hole
}

// Length is in mm.
func (m Member) Length() float64 { return r3.Norm(r3.Sub(m.To, m.From)) }

// Spans are the member's pieces in order, without its steps.
func (m Member) Spans() []Span {
	var all []Span
	for i := 1; i < len(m.Stations); i++ {
		if s := (Span{m.Stations[i-1], m.Stations[i]}); s.To.At > s.From.At {
			all = append(all, s)
		}
	}
	return all
}

// Outline is the section a share t of the way along the span; at its ends, the stations' own.
func (s Span) Outline(t float64) outline.Outline {
	switch t {
	case 0:
		return s.From.Outline
	case 1:
		return s.To.Outline
	}
	return between(s.From.Outline, s.To.Outline, t)
}

// Outline is the section at a place from 0 to 1; at a step, the one on its lower side.
func (m Member) Outline(at float64) outline.Outline {
	spans := m.Spans()
	if len(spans) == 0 {
		return outline.Outline{}
	}
	for _, s := range spans {
		if at <= s.To.At {
			return s.Outline(max(0, (at-s.From.At)/(s.To.At-s.From.At)))
		}
	}
	return m.Stations[len(m.Stations)-1].Outline
}

// Body is the member's own, by its stations: Simpson's rule, exact for the volume and the middle of sections whose sizes go linearly.
func (m Member) Body() Body {
	var l lump
	length := m.Length()
	for _, s := range m.Spans() {
		h := (s.To.At - s.From.At) * length
		z := m.From.Z + length*s.From.At
		sheet := func(o outline.Section, up, share float64, fill float64) { l.sheet(o, z+up*h, share*h, share*h*fill) }
		sheet(s.From.section, 0, 1.0/6, s.From.Fill)
		sheet(s.Outline(0.5).Section(), 0.5, 4.0/6, (s.From.Fill+s.To.Fill)/2)
		sheet(s.To.section, 1, 1.0/6, s.To.Fill)
	}
	return l.body()
}
