package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/strength"
	"mastwright/materials"
)

// kindOf says what a section of a span is to the builder: the fuse, of a part that lies ready as a spare, or structure.
func (s *subject) kindOf(p *span, at *place) strength.Kind {
	if f := s.assembly.Fuse; f != nil && f.Member == p.name {
		m := s.member(p.name)
		middle := metres(r3.Add(m.From, r3.Scale(f.At, r3.Sub(m.To, m.From)))).Z
		if math.Abs(s.height(p, at.cut)-middle) < s.doc.Mast.Fuse.Width.Metres()/2+1e-9 {
			return strength.Fuse
		}
	}
	return s.kindOfPart(s.member(p.name).Part)
}

// kindOfPart says whether more of a part are made than the mount needs; what is not a part of its own is the mast's.
func (s *subject) kindOfPart(name string) strength.Kind {
	p := s.part(name)
	if p.Name == "" {
		p = s.part("mast")
	}
	if p.Copies > max(1, p.Count) {
		return strength.Spare
	}
	return strength.Structure
}

// meant says whether what breaks is made to be replaced, and what it is called.
func meant(l strength.Level) (string, bool) {
	switch l.Kind {
	case strength.Fuse:
		return "the fuse", true
	case strength.Spare:
		return "a part of which a spare is made, the " + l.Broken, true
	}
	return "", false
}

// fuseFigures are what a fuse is judged by: that it breaks before anything else in the worst tip-over, the frame's plate too, and that
// it bears flight and a hand.
func (s *subject) fuseFigures(fall strength.Fall) ([]Figure, []string) {
	if s.assembly.Fuse == nil {
		return nil, nil
	}
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return nil, nil // the fall itself could not have been judged
	}
	links := append(s.links(l, asSpread)(fall.Direction), s.framePlateLink(l, fall.Direction)...)
	fuse, next := strength.Spread{Low: math.Inf(1), Typical: math.Inf(1), High: math.Inf(1)}, strength.Spread{Low: math.Inf(1), Typical: math.Inf(1), High: math.Inf(1)}
	name := ""
	for _, k := range links {
		c := k.Capacity
		if k.Kind == strength.Fuse {
			if c.Typical < fuse.Typical {
				fuse = c
			}
			continue
		}
		if c.Typical < next.Typical {
			next, name = c, k.Name
		}
	}
	if math.IsInf(fuse.Typical, 1) || math.IsInf(next.Typical, 1) {
		return nil, []string{"the worst tip-over does not load the fuse"}
	}
	first := spread("next link over the fuse, tip-over", next.Typical/fuse.Typical, next.Low/fuse.High, next.High/fuse.Low, "×", &Limit{AtLeast, 1, math.Inf(-1)})
	figures := []Figure{first}
	notes := []string{fmt.Sprintf("in the worst tip-over the fuse takes %.0f N and the next link, the %s, %.0f N", fuse.Typical, name, next.Typical)}
	if first.Value < 1 {
		notes[0] += ": a thinner fuse would break first"
	}
	limits := s.doc.Limits.Strength
	if bears, under := s.fuseBears(l); !math.IsInf(bears.Low, 1) {
		figures = append(figures, spread("fuse over flight and hand loads", bears.Low, bears.Low, bears.High, "×",
			&Limit{AtLeast, limits.Pass.Fraction(), limits.Marginal.Fraction()}))
		notes = append(notes, fmt.Sprintf("the fuse bears %.2g times %s at the low end of its strength", bears.Low, under))
	}
	return figures, notes
}

// fuseBears is the fuse's strength over its stress under the worst load of flight and of a hand.
func (s *subject) fuseBears(l *loaded) (least strength.Spread, under string) {
	least = strength.Spread{Low: math.Inf(1), Typical: math.Inf(1), High: math.Inf(1)}
	for i := range s.spine.spans {
		p := &s.spine.spans[i]
		if p.name != s.assembly.Fuse.Member {
			continue
		}
		bears := s.strengthAlong(p)
		for k := range s.places(i) {
			at := &s.placed[i][k]
			if s.kindOf(p, at) != strength.Fuse {
				continue
			}
			for _, c := range s.cases() {
				stress := at.section.Stress(l.forces(i, at.cut, weigh(c)), at.kt)
				if stress > 0 && bears.Low/stress < least.Low {
					least, under = scaled(bears, 1/stress), c.Name
				}
			}
		}
	}
	return least, under
}

// framePlateLink is the frame's own plate under a blow, as a strip that bends between the foot's screws and the standoffs: the same rule
// as for the foot's plate, own judgement. There is none on a block or under pads.
func (s *subject) framePlateLink(l *loaded, direction [3]float64) []strength.Link {
	plate := s.place.Plate
	if plate.Backing == "block" || len(s.assembly.Pads) > 0 {
		return nil
	}
	size, t := s.place.PlateSize(), plate.Thickness.Metres()
	load := s.footLoad(l, blow(direction))
	stress := 0.0
	for axis, moment := range [2]float64{math.Abs(load.Moment[1]), math.Abs(load.Moment[0])} {
		inner, outer, width := 0.0, 0.0, size.Y.Metres()
		if axis == 1 {
			width = size.X.Metres()
		}
		for _, at := range s.assembly.Foot.Screws {
			inner = math.Max(inner, math.Abs([2]float64{at.X, at.Y}[axis])/1e3)
		}
		for _, at := range s.place.PlateSupports() {
			outer = math.Max(outer, math.Abs([2]float64{at.X.Metres(), at.Y.Metres()}[axis]))
		}
		if outer > inner {
			stress += moment / (2 * outer) * (outer - inner) / (width * t * t / 6)
		}
	}
	if stress == 0 {
		return nil
	}
	return []strength.Link{{Name: "frame's plate", Capacity: scaled(spreadOf(s.plateMaterial, materials.InLayer), 1/stress)}}
}
