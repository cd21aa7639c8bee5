package review

import (
	"math"
	"testing"

	"mastwright/design/frame"
)

// What a member's rows imply is what the stress function says of every section between the solved ones: torsion within 0.2 %, shear areas within
// 1 %, the shear centre within 0.1 % of the section's size. The lying round mast has a flat, and its collars too; a fuse is a waist in it.
func TestRowsFollowTheStressFunction(t *testing.T) {
	for _, c := range []struct {
		name    string
		example string
		changes []string
	}{
		{"flat", "greenhouse-patrol", nil},
		{"flat, thick and steep", "greenhouse-patrol", []string{"mast.wall", "3.4 mm", "mast.tip.x", "12 mm", "mast.tip_fillet", "2 mm"}},
		{"flat and fuse", "greenhouse-patrol", []string{"mast.fuse.fitted", "true"}},
		{"blocks", "vineyard-rows", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := subjectOf(t, c.example, c.changes...)
			compared := 0
			for _, m := range s.assembly.Members {
				material, err := s.library.Find(m.Material)
				if err != nil {
					t.Fatal(err)
				}
				rows, err := s.rowsOf(m, material)
				if err != nil {
					t.Fatal(err)
				}
				hollow := false
				for _, piece := range m.Spans() {
					for _, x := range []float64{0.3} {
						o := piece.Outline(x)
						if hollow = hollow || len(o.Holes) > 0; hollow && len(o.Holes) == 0 {
							continue
						}
						plain, err := s.sectionOf(o, material, frame.SectionOptions{Torsion: frame.TorsionClosedForm})
						if err != nil {
							t.Fatal(err)
						}
						if plain.J > 0 {
							continue
						}
						got, err := s.filled(plain, o, material, rows)
						if err != nil {
							t.Fatal(err)
						}
						want, err := frame.Integrate(loops(o), frame.SectionOptions{Poisson: material.Poisson.Typical.Fraction(), Torsion: frame.TorsionStressFunction})
						if err != nil {
							t.Fatal(err)
						}
						compared++
						size := math.Sqrt(want.A)
						for _, f := range []struct {
							name            string
							off, at, within float64
						}{
							{"J", got.J/want.J - 1, want.J, 2e-3},
							{"shear area along x", got.ShearX/want.ShearX - 1, want.ShearX, 1e-2},
							{"shear area along y", got.ShearY/want.ShearY - 1, want.ShearY, 1e-2},
							{"shear centre x", (got.ShearCentreX - want.ShearCentreX) / size, want.ShearCentreX, 1e-3},
							{"shear centre y", (got.ShearCentreY - want.ShearCentreY) / size, want.ShearCentreY, 1e-3},
						} {
							if math.Abs(f.off) > f.within {
								t.Errorf("%s at %.3f: %s is off by %.2g of %.4g", m.Name, piece.From.At, f.name, f.off, f.at)
							}
						}
					}
				}
			}
			if compared < 10 {
				t.Errorf("%d sections compared", compared)
			}
		})
	}
}

// A lying round mast, its two collars: three solved sections each at most.
func TestTorsionIsSolvedAtFewSections(t *testing.T) {
	s := subjectOf(t, "greenhouse-patrol")
	if n := s.work.Torsions; n == 0 || n > 9 {
		t.Errorf("%d torsion solves, want 9 at most", n)
	}
	if n := subjectOf(t, "river-survey").work.Torsions; n != 0 {
		t.Errorf("%d torsion solves of a mast whose sections have a closed form", n)
	}
}

// A mast that is reshaped costs two models and no plate, unless its root moves; its sections are integrated once each.
func TestReshapedCostsNoPlate(t *testing.T) {
	for _, c := range []struct {
		example  string
		changes  []string
		sections int
		torsions int
	}{
		{"hedgerow-scout", []string{"mast.height", "61 mm"}, 21, 0},
		{"river-survey", []string{"mast.height", "101 mm", "mast.tip.x", "13 mm"}, 50, 0},
		{"greenhouse-patrol", []string{"mast.height", "95 mm"}, 60, 9},
	} {
		s := subjectOf(t, c.example)
		shop := s.shop
		doc := s.doc.Clone()
		for i := 0; i < len(c.changes); i += 2 {
			if err := doc.Set(c.changes[i], c.changes[i+1]); err != nil {
				t.Fatal(err)
			}
		}
		if _, problems, err := shop.Judge(t.Context(), doc, "sway", "modes", "shake", "strength", "tipover"); err != nil || len(problems) > 0 {
			t.Fatal(problems, err)
		}
		w := shop.Work()
		if w.Plates > 1 || w.Factors != 2 || w.Condensed > 10 || w.Modal > 6 || w.Buckling > 2 || w.Sections > c.sections || w.Torsions > c.torsions {
			t.Errorf("%s: %+v", c.example, w)
		}
	}
}
