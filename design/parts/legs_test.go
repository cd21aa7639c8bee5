package parts_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/parts"
)

// stilts is the invented mount on legs.
func stilts(t tester, answers ...string) *design.Document {
	return mount(t, append([]string{"mast.build", "legs"}, answers...)...)
}

var legged = []struct {
	name    string
	answers []string
}{
	{"on the stack holes", nil},
	{"rectangle, long", []string{"mast.legs.pattern", "rectangle", "mast.legs.spread.x", "80 mm", "mast.legs.spread.y", "64 mm"}},
	{"ring of three, round tray, cut", []string{"mast.legs.pattern", "ring", "mast.legs.count", "3", "mast.legs.made", "cut", "materials.legs", "glass-epoxy-sheet",
		"mast.legs.section.x", "6 mm", "mast.legs.section.y", "2 mm", "receiver.shape", "round", "receiver.size.x", "36 mm", "mast.legs.kerf", "0.1 mm"}},
	{"ring of four, nuts", []string{"mast.legs.pattern", "ring", "foot.head", "nut pocket", "mast.legs.pad", "6 mm"}},
	{"turned pattern, sunk heads", []string{"airframe.places[0].turn", "45 deg", "foot.head", "counterbore", "mast.legs.pad", "6 mm", "tray.size.x", "37 mm", "tray.size.y", "37 mm"}},
	{"wide spread, steep", []string{"mast.legs.pattern", "rectangle", "mast.legs.spread.x", "100 mm", "mast.legs.spread.y", "100 mm"}},
	{"outwards to a wide tray", []string{"mast.legs.pattern", "rectangle", "mast.legs.spread.x", "60 mm", "tray.size.x", "100 mm", "tray.size.y", "100 mm",
		"mast.legs.top.x", "76 mm", "mast.legs.top.y", "76 mm", "foot.relief", "0 mm"}},
	{"wedge pads, heads in wells", []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "6 deg", "airframe.places[0].slope_left", "-4 deg",
		"mast.legs.pattern", "rectangle", "mast.legs.spread.x", "70 mm", "mast.legs.spread.y", "60 mm", "mast.height", "120 mm"}},
	{"wedge pads on stack holes, turned", []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "9 deg", "airframe.places[0].turn", "20 deg", "mast.height", "120 mm",
		"tray.size.x", "40 mm", "tray.size.y", "40 mm"}},
	{"over the screws", []string{"mast.legs.stand", "over the screws", "foot.head", "insert", "mast.legs.pad", "8 mm"}},
	{"over the screws, upright", []string{"mast.legs.stand", "over the screws", "foot.head", "insert", "mast.legs.pad", "8 mm",
		"mast.legs.top.x", "30.5 mm", "mast.legs.top.y", "30.5 mm", "tray.size.x", "52 mm", "tray.size.y", "52 mm"}},
}

func TestLegMeshes(t *testing.T) {
	for _, v := range legged {
		t.Run(v.name, func(t *testing.T) {
			d := stilts(t, v.answers...)
			// 2 %: sockets are taken up to their axis's ends though pad and floor cut them aslant, and twice where two run into each other.
			meshesAgree(t, built(t, d), 0.02)
			piecesSound(t, d)
		})
	}
}

// Legs on a rectangle, by hand: the tray's floor is 28 + 0.5 + 3.2 mm, and the legs lean from beside their screws to it.
func TestLegsGeometry(t *testing.T) {
	a := built(t, stilts(t, "mast.legs.top.x", "14 mm", "mast.legs.top.y", "14 mm"))
	var bars []parts.Member
	for _, m := range a.Members {
		if m.Bears {
			bars = append(bars, m)
		}
	}
	if len(bars) != 4 || len(a.Pads) != 4 || len(a.Roots) != 4 || len(a.Tips) != 4 {
		t.Fatalf("%d legs, %d pads, %d roots, %d tips; want 4 each", len(bars), len(a.Pads), len(a.Roots), len(a.Tips))
	}
	// An M3's head is 5.5 mm wide and 3 mm high (ISO 4762) and gets 1 mm; the socket's foot is 6 + 2 (2.4 + 1.5) mm wide, and leans over it.
	lean := 0.0
	for range 50 {
		out := 6.5/2 + 0.2 + (6+2*3.9)/2/math.Cos(lean) + 3*math.Tan(lean)
		lean = math.Atan((30.5/math.Sqrt2 + out - 14/math.Sqrt2) / (100 - 2.4 - 4))
	}
	long := (100-2.4-4)/math.Cos(lean) - 6*math.Tan(lean) // its square ends stay out of pad and floor
	for _, m := range bars {
		if got := m.Length(); !near(got, long, 1e-6) {
			t.Errorf("%s is %.4f mm; want %.4f", m.Name, got, long)
		}
		axis := r3.Unit(r3.Sub(m.To, m.From))
		if got := math.Acos(axis.Z); !near(got, lean, 1e-5) {
			t.Errorf("%s leans %.5f rad; want %.5f", m.Name, got, lean)
		}
	}
	for _, p := range a.Parts {
		if p.Name != "tray" && (p.Count != 4 || p.Copies != 4) {
			t.Errorf("%d of %s, %d to make; want 4", p.Count, p.Name, p.Copies)
		}
	}
	// Where the copies stand their bodies lie symmetrically about the axis.
	for _, p := range a.Parts {
		var sum r3.Vec
		for _, b := range p.All() {
			sum = r3.Add(sum, b.Centre)
		}
		if p.Name != "tray" && math.Hypot(sum.X, sum.Y) > 1e-9 {
			t.Errorf("%s: the copies' middles do not lie about the axis: %v", p.Name, sum)
		}
	}
}

// On a face that slopes forward alone the two pads in front are mirror images and so are those behind: four wedges, two lengths of legs.
// Their tops are level, the thinnest is as thick as is asked, their undersides and their screws are square to the face.
func TestWedgePads(t *testing.T) {
	const slope = 6 * math.Pi / 180
	a := built(t, stilts(t, "foot.wedge", "level", "airframe.places[0].slope_forward", "6 deg", "mast.height", "120 mm"))
	kinds := map[string]int{}
	for _, p := range a.Parts {
		kinds[p.Kind()]++
	}
	if kinds["pad"] != 4 || kinds["leg"] != 2 {
		t.Errorf("parts %v; want four pads and two legs", kinds)
	}
	u := a.Screws[0]
	if math.Abs(u.Axis.X+math.Sin(slope)) > 1e-9 || math.Abs(u.Axis.Z+math.Cos(slope)) > 1e-9 {
		t.Errorf("screws along %v", u.Axis)
	}
	for i, p := range a.Pads {
		if p.Rise != a.Pads[0].Rise {
			t.Errorf("tops at %g and %g", p.Rise, a.Pads[0].Rise)
		}
		for _, v := range p.Outline.Outer.Flatten(0.05) {
			// the corner's own place on the face, seen from above, within what the slope shortens it by
			if thick := (p.Rise + v.X*math.Tan(slope)) / math.Cos(slope); thick < p.Thickness-0.05 {
				t.Errorf("pad %d is %.2f mm thick at (%.1f, %.1f)", i+1, thick, v.X, v.Y)
			}
		}
	}
}
