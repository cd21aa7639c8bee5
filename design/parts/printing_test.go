package parts_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/parts"
)

func TestPrinting(t *testing.T) {
	tall := built(t, mount(t, "mast.height", "260 mm")).Parts[0]
	if g := tall.Printing; g.Fits || math.Abs(g.Bed.Z-263) > 1e-9 {
		t.Errorf("a part 263 mm tall fits a bed of 250 mm: %+v", g)
	}
	if !strings.Contains(strings.Join(tall.Notes, " "), "263 mm of height") {
		t.Errorf("notes %q do not say the height it needs", tall.Notes)
	}
	if g := tall.Printing; math.Abs(g.Slenderness-263.0/40) > 1e-9 || !strings.Contains(strings.Join(tall.Notes, " "), "brim") {
		t.Errorf("slenderness %g; want 263/40 and a brim: %q", g.Slenderness, tall.Notes)
	}
	// The tray is 28 + 2 (0.25 + 1.6) mm, its tongue 5.8 mm longer to the rear; the tip 12 mm.
	if want := 31.7/2 + 5.8 - 6; math.Abs(tall.Printing.Overhang-want) > 1e-9 || !tall.Printing.Supports {
		t.Errorf("overhang %g; want %g with supports", tall.Printing.Overhang, want)
	}
	lying := built(t, mount(t, "print.orientation", "lying")).Parts[0]
	if lying.Orientation != "lying" || math.Abs(lying.Box.X-103) > 1e-9 || !lying.Printing.Supports {
		t.Errorf("lying: %+v", lying)
	}
	apart := built(t, mount(t, "print.orientation", "lying", "mast.split", "three pieces", "mast.cable_way.bottom", "22 mm")).Parts
	if p := apart[1]; p.Orientation != "lying" || p.Printing.Supports || p.Printing.Contact < 1000 {
		t.Errorf("mast apart: %+v", p)
	}
	if p := apart[0]; p.Orientation != "upright" || p.Printing.Supports {
		t.Errorf("foot apart: %+v", p)
	}
}

// A face whose front edge is lower wants a foot that is thicker in front; the mast stays upright and the holes stay square to the face.
func TestWedge(t *testing.T) {
	d := mount(t, "foot.wedge", "level", "airframe.places[0].slope_forward", "8 deg", "mast.cable_way.bottom", "16 mm")
	a := built(t, d)
	n := a.Parts[0].Solid()
	in := func(x, y, z float64) bool { return n.Value(r3.Vec{X: x, Y: y, Z: z}) < 0 }
	drop := 18 * math.Tan(8*math.Pi/180) // 2.53 mm at 18 mm
	if !in(18, 0, -drop+0.3) || in(18, 0, -drop-0.3) {
		t.Error("the front underside does not follow the face down")
	}
	if !in(-18, 0, drop+0.3) || in(-18, 0, drop-0.3) {
		t.Error("the rear underside does not follow the face up")
	}
	if a.Foot.Rise < a.Foot.Thickness+19*math.Tan(8*math.Pi/180) {
		t.Errorf("top at %g mm leaves the rear thinner than %g mm", a.Foot.Rise, a.Foot.Thickness)
	}
	for _, s := range a.Screws {
		if s.For == "foot" {
			want := r3.Vec{X: -math.Sin(8 * math.Pi / 180), Z: -math.Cos(8 * math.Pi / 180)}
			if r3.Norm(r3.Sub(s.Axis, want)) > 1e-9 {
				t.Errorf("screws along %v; want %v", s.Axis, want)
			}
			for _, p := range s.At { // along the hole there is no plastic, from the face to the seat
				for _, k := range []float64{1, 3} {
					if q := r3.Add(p, r3.Scale(k, s.Axis)); in(q.X, q.Y, q.Z) {
						t.Errorf("plastic in the hole at %v", q)
					}
				}
			}
		}
	}
}

func TestTurnMovesTheFootOnly(t *testing.T) {
	straight, turned := built(t, mount(t)), built(t, mount(t, "airframe.places[0].turn", "45 deg"))
	// A pattern of 30.5 mm on its corner has a hole straight ahead at 30.5/√2.
	found := false
	for _, s := range turned.Foot.Screws {
		found = found || math.Hypot(s.X-30.5/math.Sqrt2, s.Y) < 1e-9
	}
	if !found {
		t.Errorf("no hole straight ahead: %v", turned.Foot.Screws)
	}
	if a, b := straight.Tray.Floor.Area(), turned.Tray.Floor.Area(); a != b || straight.Tray.Body != turned.Tray.Body {
		t.Error("the tray turned with the holes")
	}
}

func TestScrews(t *testing.T) {
	a := built(t, mount(t, "receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm",
		"print.hole_add", "0.2 mm", "foot.thickness", "5 mm", "foot.head", "counterbore"))
	// ISO 273 medium: M3 3.4, M2 2.4. ISO 4762: M3 head 5.5 x 3, so 2 mm stay under it. 2 mm + 2 mm of plate + nut 2.4 + pitch 0.5.
	foot, receiver := a.Screws[0], a.Screws[1]
	if foot.Count != 4 || math.Abs(foot.Hole-3.6) > 1e-9 || foot.Grip != 2 || foot.Length != 8 || !foot.Nut {
		t.Errorf("foot: %+v", foot)
	}
	if receiver.Count != 4 || math.Abs(receiver.Hole-2.6) > 1e-9 || receiver.Grip != 2.4 {
		t.Errorf("receiver: %+v", receiver)
	}
	if a.Foot.Seat != 2 || a.Foot.Head != 5.5 {
		t.Errorf("plate: seat %g, head %g", a.Foot.Seat, a.Foot.Head)
	}
}

func TestFitPieces(t *testing.T) {
	all, problems := parts.FitPieces(mount(t, "print.hole_add", "0.3 mm"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	names := ""
	for _, p := range all {
		names += p.Name + " "
		if err := p.Solid().Err(); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
	}
	if names != "fit_foot fit_tray fit_m3 " {
		t.Fatalf("pieces %s", names)
	}
	// The comb's holes are ISO 273's 3.4 mm and -0.2 to +0.4 around it, whatever is added now.
	comb := all[2].Solid()
	for i, want := range []float64{3.2, 3.3, 3.4, 3.5, 3.6, 3.7, 3.8} {
		x := 9 * (float64(i) - 3)
		y := (3.4+3+6)/2 - 2 - 1.7
		if d := 2 * comb.Value(r3.Vec{X: x, Y: y, Z: 1}); math.Abs(d-want) > 1e-9 {
			t.Errorf("hole %d is %g mm; want %g", i, d, want)
		}
	}
	_, problems = parts.FitPieces(mount(t, "mast.wall", "9 mm"))
	if len(problems) == 0 {
		t.Error("fit pieces of a mount that cannot be made")
	}
}

func BenchmarkBuild(b *testing.B) {
	d := mount(b)
	for b.Loop() {
		parts.Build(d)
	}
}
