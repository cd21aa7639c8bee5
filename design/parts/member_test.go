package parts_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Every station of every variation is a sound outline, spans join stations of the same structure, and solids agree with outlines:
// a point inside a section is inside the part.
func TestStations(t *testing.T) {
	for _, v := range variations {
		t.Run(v.name, func(t *testing.T) {
			a := built(t, mount(t, v.answers...))
			for _, m := range a.Members {
				spans := m.Spans()
				if spans[0].From.At != 0 || spans[len(spans)-1].To.At != 1 {
					t.Errorf("%s runs from %g to %g", m.Name, spans[0].From.At, spans[len(spans)-1].To.At)
				}
				for i, s := range spans {
					for _, o := range []float64{0, 0.5, 1} {
						if err := s.Outline(o).Check(); err != nil {
							t.Errorf("%s span %d at %g: %v", m.Name, i, o, err)
						}
					}
					if i > 0 && spans[i-1].To.At != s.From.At {
						t.Errorf("%s: gap before span %d", m.Name, i)
					}
				}
			}
			if err := a.Foot.Outline.Check(); err != nil {
				t.Errorf("foot: %v", err)
			}
			if err := a.Tray.Floor.Check(); err != nil {
				t.Errorf("floor: %v", err)
			}
			if a.Tray.RimHeight > 0 {
				if err := a.Tray.Rim.Check(); err != nil {
					t.Errorf("rim: %v", err)
				}
			}
		})
	}
}

// What is checked is what is exported: across the mast, the solid is inside exactly where the member's outline is.
func TestSectionsAreTheSolids(t *testing.T) {
	for _, v := range variations {
		a := built(t, mount(t, v.answers...))
		mast := a.Members[0]
		var part int
		for i, p := range a.Parts {
			if p.Name == mast.Part {
				part = i
			}
		}
		n := a.Parts[part].Solid()
		if err := n.Err(); err != nil {
			t.Fatalf("%s: %v", v.name, err)
		}
		for _, at := range []float64{0.11, 0.18, 0.3, 0.5, 0.7, 0.81} {
			z := mast.From.Z + at*mast.Length()
			o := mast.Outline(at)
			for x := -10.0; x <= 10; x += 0.61 {
				for y := -10.0; y <= 10; y += 0.57 {
					far := o.Distance(vec2(x, y))
					in := n.Value(r3.Vec{X: x, Y: y, Z: z}) < 0
					// 0.35 mm: the stations' chords of fillets and of the cable way's round ends; the joints' screw holes are left out.
					if math.Abs(far) > 0.35 && in != (far < 0) && !nearScrew(a.Screws, z) {
						t.Fatalf("%s at z %.2f, (%.2f, %.2f): solid inside %v, outline %.2f mm", v.name, z, x, y, in, far)
					}
				}
			}
		}
	}
}

func TestCableWayOpensTheSection(t *testing.T) {
	m := built(t, referenceP(t)).Members[0]
	at := func(z float64) float64 { return m.Outline((z - m.From.Z) / m.Length()).Area() }
	// Across the middle of the opening 6 mm of a 2.4 mm wall are missing.
	s := 18 - 0.05*16
	want := s*s - (4-math.Pi)*4 - (s-4.8)*(s-4.8) - 6*2.4
	if got := at(20); !near(got, want, 1e-9) {
		t.Errorf("area %g mm² in the opening; want %g", got, want)
	}
	if got := len(m.Outline((20 - m.From.Z) / m.Length()).Holes); got != 0 {
		t.Errorf("%d holes in the open section; want none", got)
	}
	if got := len(m.Outline(0.9).Holes); got != 1 {
		t.Errorf("%d holes in the closed section; want 1", got)
	}
}

func TestJoints(t *testing.T) {
	a := built(t, mount(t, "mast.split", "three pieces", "mast.cable_way.bottom", "22 mm"))
	if len(a.Parts) != 3 || len(a.Joints) != 2 {
		t.Fatalf("%d parts, %d joints; want 3 and 2", len(a.Parts), len(a.Joints))
	}
	byName := map[string]int{}
	for i, m := range a.Members {
		byName[m.Name] = i
	}
	for _, j := range a.Joints {
		for _, end := range []struct {
			member string
			at     float64
		}{{j.A, j.AtA}, {j.B, j.AtB}} {
			m := a.Members[byName[end.member]]
			z := m.From.Z + end.at*m.Length()
			if math.Abs(z-j.Centre.Z) > 1e-9 {
				t.Errorf("%s meets %s at %g; want %g", j.Name, end.member, z, j.Centre.Z)
			}
			found := false
			for _, s := range m.Stations {
				found = found || math.Abs(s.At-end.at) < 1e-9
			}
			if !found {
				t.Errorf("%s: no station of %s at %g", j.Name, end.member, end.at)
			}
		}
		if j.Grip < 10 || j.Wall < 2.4 || j.Screw.Pilot == 0 || j.Screw.Length == 0 {
			t.Errorf("%s: %+v", j.Name, j)
		}
	}
	if a.Parts[1].Notes == nil {
		t.Error("the mast has no note how it goes in")
	}
}
