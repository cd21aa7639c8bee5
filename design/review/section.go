package review

import (
	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/materials"
	"mastwright/mesh/outline"
)

// sectionsAlong integrates a piece of a member at the ends of a span's elements, whose places in the piece run from 0 to 1; where the cable way
// opens it, by way of the closed section below. Torsion and shear of outlines without a closed form are those of the member's rows.
func (s *subject) sectionsAlong(piece parts.Span, places []float64, material materials.Material, closed frame.Section, rows []row) ([]frame.Section, error) {
	sections := make([]frame.Section, len(places))
	for i, x := range places {
		o := piece.Outline(x)
		if len(o.Holes) == 0 && closed.A > 0 {
			sections[i] = opened(closed, o, s.doc.Mast.CableWay, s.doc.Mast.Wall.Metres(), material.Poisson.Typical.Fraction())
			continue
		}
		var err error
		if sections[i], err = s.sectionOf(o, material, frame.SectionOptions{Torsion: frame.TorsionClosedForm}); err != nil {
			return nil, err
		}
		if sections[i].J == 0 {
			if sections[i], err = s.filled(sections[i], o, material, rows); err != nil {
				return nil, err
			}
		}
	}
	return sections, nil
}

// sectionOf integrates an outline in mm into a section in m of the material's Poisson's ratio.
func (s *subject) sectionOf(o outline.Outline, material materials.Material, options frame.SectionOptions) (frame.Section, error) {
	options.Poisson = material.Poisson.Typical.Fraction()
	return s.shop.sections.take(keyOf(o, options), func() (frame.Section, error) {
		s.work.Sections++
		if options.Torsion != frame.TorsionClosedForm {
			s.work.Torsions++
		}
		return frame.Integrate(loops(o), options)
	})
}
