package parts_test

import (
	"math"
	"testing"

	"mastwright/design"
	"mastwright/design/parts"
)

// twin is the invented mount with two acetal plates.
func twin(t tester, answers ...string) *design.Document {
	return mount(t, append([]string{"mast.build", "twin-plate"}, answers...)...)
}

var twins = []struct {
	name    string
	answers []string
}{
	{"two screws", nil},
	{"tabs", []string{"mast.plates.spacer", "tabs", "mast.plates.spacers", "2"}},
	{"single screws, lightened", []string{"mast.plates.spacer", "single screw", "mast.plates.spacers", "1", "mast.plates.lightening.count", "2"}},
	{"narrow, one row of screws", []string{"mast.plates.root", "14 mm", "mast.plates.tip", "14 mm"}},
	{"no spacers, taper, cable to the left, kerf", []string{"mast.plates.spacers", "0", "mast.plates.root", "28 mm", "mast.plates.tip", "18 mm", "foot.size.x", "46 mm",
		"mast.cable_way.side", "left", "mast.cable_way.bottom", "30 mm", "mast.plates.kerf", "0.15 mm", "mast.plates.screw", "M2"}},
	{"wedge, flare", []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "6 deg", "foot.head", "counterbore", "tray.flare", "6 mm"}},
	{"sharp corners, no fillets", []string{"mast.plates.corner", "0 mm", "mast.root_fillet", "0 mm", "mast.tip_fillet", "0 mm", "mast.plates.gap", "12 mm"}},
}

func TestPlateMeshes(t *testing.T) {
	for _, v := range twins {
		t.Run(v.name, func(t *testing.T) {
			a := built(t, twin(t, v.answers...))
			meshesAgree(t, a, 0.005)
			for _, p := range a.Parts {
				if p.Making != parts.Cut {
					continue
				}
				if err := p.Outline.Check(); err != nil {
					t.Errorf("%s: %v", p.Name, err)
				}
				if err := p.Drawing.Check(); err != nil {
					t.Errorf("%s as drawn: %v", p.Name, err)
				}
			}
			piecesSound(t, twin(t, v.answers...))
		})
	}
}

// piecesSound makes the fit pieces.
func piecesSound(t *testing.T, d *design.Document) {
	t.Helper()
	all, problems := parts.FitPieces(d)
	for _, p := range problems {
		t.Error(p)
	}
	meshesAgree(t, parts.Assembly{Parts: all}, 0.005)
}

// A plate by hand: 24 mm wide, rounded by 3 mm, with eight holes of an M3 (medium clearance 3.4 mm, ISO 273: what print
// adds is for printed holes) and the spacer's two; the kerf adds its half all round and takes its half from every hole.
func TestPlateOutline(t *testing.T) {
	const kerf = 0.2
	a := built(t, twin(t, "mast.plates.kerf", "0.2 mm"))
	p := a.Parts[2]
	if p.Name != "plate" || p.Count != 2 || p.Copies != 2 {
		t.Fatalf("got %s, %d of it and %d to make; want two plates", p.Name, p.Count, p.Copies)
	}
	high := 100.0 - 2.4 - 3 - 5 - 4 // seat, floor, tip fillet; foot, root fillet
	const hole = 3.4
	want := 24*high - (4-math.Pi)*9 - 10*math.Pi/4*hole*hole
	if got := p.Outline.Area(); !near(got, want, 1e-9) {
		t.Errorf("area %.4f mm²; want %.4f", got, want)
	}
	round := 2*(24+high-12) + 2*math.Pi*3 // Steiner: an offset adds the length and a circle
	want += kerf/2*round + math.Pi*kerf*kerf/4 + 10*(kerf/2*math.Pi*hole-math.Pi*kerf*kerf/4)
	if got := p.Drawing.Area(); !near(got, want, 1e-9) {
		t.Errorf("area as drawn %.4f mm²; want %.4f", got, want)
	}
}

// Copies are sets of what the mount has.
func TestCopies(t *testing.T) {
	d := twin(t, "mast.plates.spacers", "2")
	for i, c := range [][2]string{{"tray", "3"}, {"spacer", "2"}} {
		if err := d.Insert("print.copies", i); err != nil {
			t.Fatal(err)
		}
		at := []string{"print.copies[0]", "print.copies[1]"}[i]
		for _, s := range [][2]string{{".part", c[0]}, {".count", c[1]}} {
			if err := d.Set(at+s[0], s[1]); err != nil {
				t.Fatal(err)
			}
		}
	}
	want := map[string][2]int{"foot": {1, 1}, "tray": {1, 3}, "plate": {2, 2}, "spacer": {2, 4}}
	for _, p := range built(t, d).Parts {
		if got := [2]int{p.Count, p.Copies}; got != want[p.Name] {
			t.Errorf("%s: %v in the mount and to make; want %v", p.Name, got, want[p.Name])
		}
	}
}
