package review

import (
	"math"

	"mastwright/design/frame"
	"mastwright/materials"
	"mastwright/mesh/outline"
)

// sectionsAlong integrates the outlines at the ends of a span's elements; where the cable way opens them, by way of the closed section below.
// Torsion and shear of outlines without a closed form are solved at the ends and the middle of the span and go from one to the next as a
// parabola, relative to the polar second moment and the area: along a taper they are nearly constant.
func (s *subject) sectionsAlong(elements int, at func(share float64) outline.Outline, material materials.Material, closed frame.Section) ([]frame.Section, error) {
	sections := make([]frame.Section, elements+1)
	share := func(i int) float64 { return float64(i) / float64(elements) }
	torsion := frame.TorsionClosedForm
	if elements <= 2 {
		torsion = frame.TorsionAuto
	}
	unsolved := 0
	for i := range sections {
		o := at(share(i))
		if len(o.Holes) == 0 && closed.A > 0 {
			sections[i] = opened(closed, o, s.doc.Mast.CableWay, s.doc.Mast.Wall.Metres(), material.Poisson.Typical.Fraction())
			continue
		}
		var err error
		if sections[i], err = s.sectionOf(o, material, torsion); err != nil {
			return nil, err
		}
		if sections[i].J == 0 {
			unsolved++
		}
	}
	if unsolved == 0 {
		return sections, nil
	}
	anchors := [3]int{0, elements / 2, elements}
	for _, i := range anchors {
		var err error
		if sections[i], err = s.sectionOf(at(share(i)), material, frame.TorsionAuto); err != nil {
			return nil, err
		}
	}
	var x [3]float64
	var solved [3]frame.Section
	for k, i := range anchors {
		x[k], solved[k] = share(i), sections[i]
	}
	for i := range sections {
		if sections[i].J == 0 {
			sections[i] = filled(sections[i], share(i), x, solved)
		}
	}
	return sections, nil
}

// filled returns a section with the torsion and shear that three solved ones along the same taper imply at x.
func filled(s frame.Section, x float64, at [3]float64, solved [3]frame.Section) frame.Section {
	between := func(relative func(frame.Section) float64) float64 { // Lagrange's parabola
		sum := 0.0
		for k := range at {
			weight := 1.0
			for j := range at {
				if j != k {
					weight *= (x - at[j]) / (at[k] - at[j])
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
