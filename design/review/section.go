package review

import (
	"math"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/materials"
	"mastwright/mesh/outline"
)

// sectionsAlong integrates a piece of a member at the ends of a span's elements, whose places in the piece run from 0 to 1; where the cable way
// opens it, by way of the closed section below. Torsion and shear of outlines without a closed form are solved at the ends and the middle of the
// piece and go from one to the next as a parabola, relative to the polar second moment and the area: along a taper they are nearly constant.
func (s *subject) sectionsAlong(piece parts.Span, places []float64, material materials.Material, closed frame.Section) ([]frame.Section, error) {
	sections := make([]frame.Section, len(places))
	var solved []frame.Section
	for i, x := range places {
		o := piece.Outline(x)
		if len(o.Holes) == 0 && closed.A > 0 {
			sections[i] = opened(closed, o, s.doc.Mast.CableWay, s.doc.Mast.Wall.Metres(), material.Poisson.Typical.Fraction())
			continue
		}
		var err error
		if sections[i], err = s.sectionOf(o, material, frame.TorsionClosedForm); err != nil {
			return nil, err
		}
		if sections[i].J > 0 {
			continue
		}
		for len(solved) < len(anchors) {
			one, err := s.sectionOf(piece.Outline(anchors[len(solved)]), material, frame.TorsionAuto)
			if err != nil {
				return nil, err
			}
			solved = append(solved, one)
		}
		sections[i] = filled(sections[i], x, solved)
	}
	return sections, nil
}

// anchors are the places of a piece where torsion and shear are solved.
var anchors = [3]float64{0, 0.5, 1}

// filled returns a section with the torsion and shear that those solved at the anchors imply at x.
func filled(s frame.Section, x float64, solved []frame.Section) frame.Section {
	between := func(relative func(frame.Section) float64) float64 { // Lagrange's parabola
		sum := 0.0
		for k := range anchors {
			weight := 1.0
			for j := range anchors {
				if j != k {
					weight *= (x - anchors[j]) / (anchors[k] - anchors[j])
				}
			}
			sum += weight * relative(solved[k])
		}
		return sum
	}
	size := math.Sqrt(s.A)
	s.J = (s.Ix + s.Iy) * between(func(f frame.Section) float64 { return f.J / (f.Ix + f.Iy) })
	s.ShearX = s.A * between(func(f frame.Section) float64 { return f.ShearX / f.A })
	s.ShearY = s.A * between(func(f frame.Section) float64 { return f.ShearY / f.A })
	s.ShearCentreX = size * between(func(f frame.Section) float64 { return f.ShearCentreX / math.Sqrt(f.A) })
	s.ShearCentreY = size * between(func(f frame.Section) float64 { return f.ShearCentreY / math.Sqrt(f.A) })
	return s
}

// sectionOf integrates an outline in mm into a section in m.
func (s *subject) sectionOf(o outline.Outline, material materials.Material, torsion frame.Torsion) (frame.Section, error) {
	poisson := material.Poisson.Typical.Fraction()
	return s.shop.sections.take(keyOf(o, poisson, float64(torsion)), func() (frame.Section, error) {
		s.work.Sections++
		return frame.Integrate(loops(o), frame.SectionOptions{Poisson: poisson, Torsion: torsion})
	})
}
