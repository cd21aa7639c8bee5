package parts_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/units"
	"mastwright/mesh/solid"
)

// tubed is a mount with a stock tube.
func tubed(t tester, answers ...string) *design.Document {
	t.Helper()
	return mount(t, append([]string{"mast.build", "tube"}, answers...)...)
}

var tubes = []struct {
	name    string
	answers []string
}{
	{"plain", nil},
	{"no cross screw, no fillets", []string{"mast.tube.clamp.key", "none", "mast.root_fillet", "0 mm", "mast.tip_fillet", "0 mm"}},
	{"long grip, two screws", []string{"mast.tube.clamp.grip", "30 mm", "mast.height", "130 mm"}},
	{"thin tube", []string{"mast.tube.outside", "6 mm", "mast.tube.bore", "4 mm", "mast.tube.clamp.screw", "M2", "mast.tube.clamp.wall", "3 mm", "mast.tube.clamp.grip", "14 mm", "mast.tube.clamp.slit", "1 mm", "mast.height", "70 mm"}},
	{"thick tube", []string{"mast.tube.outside", "16 mm", "mast.tube.bore", "14 mm", "foot.size.x", "64 mm", "foot.size.y", "64 mm", "mast.tip_fillet", "2 mm", "mast.root_fillet", "2 mm"}},
	{"rod", []string{"mast.tube.bore", "0 mm", "mast.tube.outside", "8 mm"}},
	{"flare", []string{"tray.flare", "6 mm"}},
	{"wedge", []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "5 deg"}},
	{"counterbored, screws at the receiver", []string{"foot.head", "counterbore", "receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm", "mast.tip_fillet", "1 mm", "mast.tube.clamp.wall", "2.4 mm"}},
	{"round receiver", []string{"receiver.shape", "round", "receiver.size.x", "36 mm"}},
	{"turned pattern", []string{"airframe.places[0].turn", "45 deg"}},
	{"small opening", []string{"tray.opening.x", "4 mm", "tray.opening.y", "4 mm"}},
	{"large opening", []string{"tray.opening.x", "12 mm", "tray.opening.y", "8 mm"}},
}

// As for the column: the mesh weighs what the outlines say, in one piece, and lies on the bed as claimed.
func TestTubeMeshes(t *testing.T) {
	for _, v := range tubes {
		t.Run(v.name, func(t *testing.T) {
			for _, p := range built(t, tubed(t, v.answers...)).Parts {
				m, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.05})
				if err != nil {
					t.Fatalf("%s: %v", p.Name, err)
				}
				if r.Pieces != 1 || r.Coarse || r.Tolerance > 0.05 {
					t.Errorf("%s: %d surfaces, strays %g mm, coarse %v", p.Name, r.Pieces, r.Tolerance, r.Coarse)
				}
				b := m.Body()
				t.Logf("%s: mesh %.1f mm3, outlines %.1f (%+.2f %%), %d triangles, genus %d, rounds %d", p.Name, b.Volume, p.Body.Volume, 100*(p.Body.Volume/b.Volume-1), r.Triangles, r.Genus, r.Rounds)
				// 0.7 %: fillets cut by ears and slit.
				if !near(p.Body.Volume, b.Volume, 0.007) {
					t.Errorf("%s: outlines enclose %.1f mm³, the mesh %.1f", p.Name, p.Body.Volume, b.Volume)
				}
				box := m.Box()
				if d := r3.Norm(r3.Sub(p.Body.Centre, b.Centroid)); d > 0.005*(box.Max.Z-box.Min.Z) {
					t.Errorf("%s: centre of gravity %v by outlines, %v by mesh", p.Name, p.Body.Centre, b.Centroid)
				}
				for _, i := range [][2]float64{{p.Body.Inertia.XX, b.Inertia.XX}, {p.Body.Inertia.YY, b.Inertia.YY}, {p.Body.Inertia.ZZ, b.Inertia.ZZ}} {
					if !near(i[0], i[1], 0.02) {
						t.Errorf("%s: inertia %v by outlines, %v by mesh", p.Name, p.Body.Inertia, b.Inertia)
						break
					}
				}
				onBed(t, p, m)
			}
		})
	}
}

// Tube and clamps by hand: 10/8, 100 mm high, foot 5 mm with a seat of 0.8 mm, tray's floor 2.4 mm.
func TestTubeByHand(t *testing.T) {
	a := built(t, tubed(t))
	var p parts.Part
	for _, q := range a.Parts {
		if q.Name == "tube" {
			p = q
		}
	}
	if p.Making != parts.Stock || p.Size != "10/8 mm tube" || math.Abs(p.Length-(100-2.4-5+0.8)) > 1e-9 {
		t.Errorf("tube %v %q, %g mm", p.Making, p.Size, p.Length)
	}
	// The frame's tables: A 28.2743338823 mm².
	want := 28.2743338823*p.Length - 2*math.Pi/4*3.4*3.4*1
	if !near(p.Body.Volume, want, 1e-9) {
		t.Errorf("tube %.4f mm³; want %.4f", p.Body.Volume, want)
	}
	if len(a.Joints) != 2 || a.Joints[0].Kind != parts.Clamp || a.Joints[0].Grip != 20 || !a.Joints[0].Keyed {
		t.Errorf("joints %+v", a.Joints)
	}
	for _, j := range a.Joints {
		for _, m := range a.Members {
			at := map[string]float64{j.A: j.AtA, j.B: j.AtB}[m.Name]
			if at == 0 {
				continue
			}
			z := m.From.Z + at*(m.To.Z-m.From.Z)
			if math.Abs(z-j.Centre.Z) > 1e-9 {
				t.Errorf("%s acts at %g mm of %s; want %g", j.Name, z, m.Name, j.Centre.Z)
			}
		}
	}
	// Clamp screws M3: two ears of 4 mm and a slit of 1.5 mm, nut 2.4 mm and a pitch: 12.4 mm, so 16 mm of stock.
	for _, s := range a.Screws {
		if strings.HasSuffix(s.For, "clamp") && (math.Abs(s.Grip-9.5) > 1e-9 || s.Length != 16 || s.Count != 1) {
			t.Errorf("%s: %+v", s.For, s)
		}
	}
	if f := a.Fittings; len(f) != 2 || f[0].Count != 2 || f[1].For != "frame's plate" || f[1].Length != 40 {
		t.Errorf("a tube and a frame's plate that conduct have edge guards: %+v", f)
	}
	if glass := built(t, tubed(t, "materials.tube", "glass-tube", "airframe.places[0].plate.material", "glass-epoxy-sheet")); len(glass.Fittings) != 0 {
		t.Errorf("glass does not conduct: %+v", glass.Fittings)
	}
	if solid := built(t, tubed(t, "materials.tube", "glass-tube", "airframe.places[0].plate.backing", "block")); len(solid.Fittings) != 0 {
		t.Errorf("a block has no edge that the cable crosses: %+v", solid.Fittings)
	}
	// A slot with round ends of 5 by 12 mm is 5 π + 2 x 7 long around, the opening 4 x 6; a plain plastic wants none.
	column := built(t, mount(t, "materials.mast", "pa6-cf")).Fittings
	if len(column) != 3 || column[0].Length != 30 || column[1].Length != 24 {
		t.Errorf("fittings of a column that conducts: %+v", column)
	}
	if plain := built(t, mount(t)).Fittings; len(plain) != 1 || plain[0].For != "frame's plate" {
		t.Errorf("fittings of a plain column: %+v", plain)
	}
}

func TestTubeProblems(t *testing.T) {
	for _, c := range []struct {
		name    string
		answers []string
		path    string
		says    string
	}{
		{"no wall", []string{"mast.tube.bore", "9.8 mm"}, "mast.tube.bore", "leaves no wall in a 10 mm tube; use at most 9.5 mm"},
		{"low", []string{"mast.height", "45 mm"}, "mast.height", "use at least 49.4 mm"},
		{"short grip", []string{"mast.tube.clamp.grip", "7 mm"}, "mast.tube.clamp.grip", "use at least 7.5 mm"},
		{"wide slit", []string{"mast.tube.clamp.slit", "4 mm"}, "mast.tube.clamp.slit", "use at most 3.33 mm"},
		{"no room for ears", []string{"airframe.places[0].holes.along", "20 mm", "mast.tube.clamp.wall", "2.4 mm", "mast.root_fillet", "1 mm"}, "mast.tube.clamp.screw", "no room between the frame's screws"},
		{"no such tube", []string{"materials.tube", "bamboo"}, "materials.tube", `no material "bamboo"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, problems := parts.Build(tubed(t, c.answers...))
			for _, p := range problems {
				if p.Path == c.path && strings.Contains(p.Text, c.says) {
					return
				}
			}
			t.Errorf("got %v; want %s: ... %s", problems, c.path, c.says)
		})
	}
}

// The ring to try the tube in is the clamp's own section, 8 mm high.
func TestTubeFits(t *testing.T) {
	all, problems := parts.FitPieces(tubed(t))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	last := all[len(all)-1]
	if last.Name != "fit_clamp" {
		t.Fatalf("last piece %q", last.Name)
	}
	m, r, err := solid.Polygonise(context.Background(), last.Solid(), solid.Options{Tolerance: 0.05})
	if err != nil || r.Pieces != 1 || r.Coarse {
		t.Fatalf("%d pieces, coarse %v, %v", r.Pieces, r.Coarse, err)
	}
	if r.Genus != 2 { // the screw's hole through both ears; the ring is open
		t.Errorf("genus %d; want 2", r.Genus)
	}
	for _, p := range all {
		if b := p.Solid().Err(); b != nil {
			t.Errorf("%s: %v", p.Name, b)
		}
	}
	if box := m.Box(); math.Abs(box.Max.Z-8) > 1e-6 {
		t.Errorf("%g mm high; want 8", box.Max.Z)
	}
}

// Numbers that no file holds, as a search might try them, give problems and no panic, and what can be built has sound solids.
func TestAbsurdTubes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := absurdTube(t, rapid.OneOf(rapid.Float64Range(0, 40), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -3, 0, 1e9})))
		a, problems := parts.Build(d)
		for _, p := range problems {
			if p.Path == "" || p.Text == "" {
				t.Fatalf("a problem without place or text: %+v", p)
			}
		}
		for _, p := range a.Parts {
			if err := p.Solid().Err(); err != nil {
				t.Fatalf("%s: no problem, but %v", p.Name, err)
			}
			if b := p.Body; !(b.Volume > 0 && b.Plastic > 0 && b.Plastic <= b.Volume*(1+1e-9) && !math.IsInf(b.Volume, 0)) {
				t.Fatalf("%s: %+v", p.Name, b)
			}
		}
		for _, m := range a.Members {
			for i, s := range m.Spans() {
				if err := s.Outline(0.5).Check(); err != nil {
					t.Fatalf("%s span %d: %v", m.Name, i, err)
				}
			}
		}
		for _, r := range a.Rooms() {
			if math.IsNaN(r.Clear) {
				t.Fatalf("room %+v", r)
			}
		}
	})
}

func absurdTube(t *rapid.T, values *rapid.Generator[float64]) *design.Document {
	d := tubed(t)
	m := &d.Mast
	f := []*units.Length{
		&m.Height, &m.RootFillet, &m.TipFillet, &m.Tube.Outside, &m.Tube.Bore, &m.Tube.Clamp.Grip, &m.Tube.Clamp.Wall, &m.Tube.Clamp.Slit,
		&m.Fuse.Width, &m.Fuse.Wall, &d.Foot.Thickness, &d.Foot.Size.X, &d.Tray.Thickness, &d.Tray.Opening.X, &d.Tray.Opening.Y,
		&d.Tray.OpeningCorner, &d.Tray.Flare, &d.Print.HoleAdd, &d.Receiver.Size.X, &d.Receiver.Plug, &d.Receiver.Lug,
	}
	m.Fuse.Fitted = rapid.Bool().Draw(t, "fuse")
	m.Tube.Clamp.Key = rapid.SampledFrom([]string{"cross screw", "none"}).Draw(t, "key")
	m.Tube.Clamp.Screw = rapid.SampledFrom([]string{"M2", "M2.5", "M3", "M4"}).Draw(t, "screw")
	d.Receiver.Shape = rapid.SampledFrom([]string{"rectangular", "round"}).Draw(t, "shape")
	d.Foot.Wedge = rapid.SampledFrom([]string{"none", "level"}).Draw(t, "wedge")
	d.Foot.Mark = rapid.SampledFrom([]string{"none", "number"}).Draw(t, "mark")
	d.Tray.Letters = rapid.SampledFrom([]string{"none", "sides"}).Draw(t, "letters")
	d.Airframe.Places[0].SlopeForward = units.Degrees(rapid.Float64Range(-20, 20).Draw(t, "slope"))
	for range rapid.IntRange(0, 4).Draw(t, "changes") {
		at := rapid.IntRange(0, len(f)-1).Draw(t, "leaf")
		*f[at] = units.Length(values.Draw(t, "value"))
	}
	return d
}

func ExampleBuild_tube() {
	a, problems := parts.Build(mount(&testing.T{}, "mast.build", "tube"))
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	for _, p := range a.Parts {
		if p.Making == parts.Stock {
			fmt.Printf("%s: %s of %s, %.1f mm long\n", p.Name, p.Size, p.Material, p.Length)
			continue
		}
		fmt.Printf("%s: %s %s, %.0f x %.0f x %.0f mm\n", p.Name, p.Making, p.Material, p.Box.X, p.Box.Y, p.Box.Z)
	}
	for _, j := range a.Joints {
		fmt.Printf("%s: a %s with a grip of %g mm on the %s\n", j.Name, j.Kind, j.Grip, j.B)
	}
	// Output:
	// foot: printed petg, 40 x 40 x 25 mm
	// tube: 10/8 mm tube of carbon-tube, 93.4 mm long
	// tray: printed petg, 38 x 32 x 25 mm
	// foot clamp: a clamp with a grip of 20 mm on the tube
	// tray clamp: a clamp with a grip of 20 mm on the tube
}
