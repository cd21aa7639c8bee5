package review

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/frame"
)

func subjectOf(t testing.TB, name string, changes ...string) *subject {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name != name {
			continue
		}
		doc, problems := design.Decode(e.Data, design.Options{Name: name})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		for i := 0; i < len(changes); i += 2 {
			if err := doc.Set(changes[i], changes[i+1]); err != nil {
				t.Fatal(err)
			}
		}
		s, problems := new(Workshop).subject(doc)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return s
	}
	t.Fatalf("no example %q", name)
	return nil
}

// The frame's mass and centre of gravity are those of the parts, of a style's own screws and of the receiver: what is checked is what is exported. The
// printed parts' own figures are compared with their meshes beside the parts.
func TestModelWeighsWhatIsPrinted(t *testing.T) {
	for _, e := range assets.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			s := subjectOf(t, e.Name)
			l, err := s.stand(variant{middle, typical})
			if err != nil {
				t.Fatal(err)
			}
			var want lump
			for _, p := range s.assembly.Parts {
				m, err := s.library.Find(p.Material)
				if err != nil {
					t.Fatal(err)
				}
				for _, b := range p.All() {
					want = join(want, newLump(b, m))
				}
			}
			for _, f := range s.fasteners() {
				if s.doc.Mast.Build != "column" && !strings.HasPrefix(f.name, "foot screw") {
					want = join(want, lump{mass: f.mass, cg: f.at})
				}
			}
			r := s.receiverBody(0)
			want = join(want, lump{mass: r.Mass, cg: r3.Add(s.receiver, r.CG), inertia: r.Inertia})
			if got := l.system.Mass(); math.Abs(got/want.mass-1) > 0.02 {
				t.Errorf("the model weighs %.2f g, the parts and the receiver %.2f g", got*1e3, want.mass*1e3)
			}
			// a sideways pull of 1 m/s² turns the base by the moment of the mass about the origin
			reaction := l.units[bodyX].Reactions[0]
			moment := r3.Add(reaction.Moment, r3.Cross(s.aircraft.cg, reaction.Force))
			height := math.Abs(moment.Y / reaction.Force.X)
			if math.Abs(height/want.cg.Z-1) > 0.02 {
				t.Errorf("the model's centre of gravity stands at %.2f mm, the parts' at %.2f mm", height*1e3, want.cg.Z*1e3)
			}
		})
	}
}

// A receiver of 14 g on a 15 mm square foam pad 3 mm thick, G 0.1 MPa, rigid base: 116.5 Hz in shear. Closed form
// f = sqrt(G A / (t m)) / 2π.
func TestFoamTapeRingsAsAShearSpring(t *testing.T) {
	s := subjectOf(t, "river-survey", "receiver.fixing", "tape", "receiver.tape.size.x", "15 mm", "receiver.tape.size.y", "15 mm",
		"receiver.tape.thickness", "3 mm", "receiver.tape.shear_low", "0.05 MPa", "receiver.tape.shear_typical", "0.1 MPa", "receiver.tape.shear_high", "0.3 MPa")
	k := s.tapeSpring(typical)
	body := s.receiverBody(1)
	body.CG, body.Inertia = r3.Vec{}, [3][3]float64{}
	m := frame.Model{
		Nodes:    []frame.Node{{Name: "base"}, {Name: "receiver"}},
		Bodies:   []frame.Body{body},
		Springs:  []frame.Spring{{Name: foamTape, A: 1, B: 0, K: k}},
		Supports: []frame.Support{frame.Clamp(0)},
	}
	modes, err := frame.Modes(m, frame.Options{Count: 3})
	if err != nil {
		t.Fatal(err)
	}
	if got := modes[0].Frequency; math.Abs(got-116.5) > 0.1 {
		t.Errorf("%.2f Hz, want 116.5", got)
	}
}

// Halving the elements moves no reported frequency by more than 0.1 %.
func TestElementsAreFineEnough(t *testing.T) {
	for _, e := range assets.Examples() {
		s := subjectOf(t, e.Name)
		coarse, _ := s.build(variant{middle, typical}, held)
		fine, _ := s.build(variant{middle, typical}, held)
		for i := range fine.Members {
			fine.Members[i].Elements *= 2
		}
		a, err := frame.Modes(coarse, frame.Options{Count: flexible})
		if err != nil {
			t.Fatal(err)
		}
		b, err := frame.Modes(fine, frame.Options{Count: flexible})
		if err != nil {
			t.Fatal(err)
		}
		for i := range a {
			if math.Abs(a[i].Frequency/b[i].Frequency-1) > 1e-3 {
				t.Errorf("%s, %s: %.3f Hz, with half the elements %.3f Hz", e.Name, a[i].Label, a[i].Frequency, b[i].Frequency)
			}
		}
	}
}
