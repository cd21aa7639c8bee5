package review_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design/review"
)

// By hand. M3 of 7075: 5.03 mm² (ISO 898-1) at 510 MPa break at 2565 N, tightened to 0.4: 1026 N. A head of 5.5 mm (ISO 4762) over a hole of
// 3.4 (ISO 273) and 0.2 of print presses on 13.58 mm² of copolyester that bears 40 MPa: 543 N, and 0.2 F d (Shigley) is 0.326 N·m. A washer
// of 7 mm (ISO 7089) presses on 28.31 mm²: 36.2 MPa, borne, so the whole 1026 N and 0.616 N·m.
// M4 in the clamps: 8.78 mm² at 510 MPa, 1791 N; head and nut of 7 mm.
func TestGrips(t *testing.T) {
	doc := example(t, "lake-soundings")
	add := doc.Print.HoleAdd.Millimetres()
	ring := func(outside, hole float64) float64 { return math.Pi / 4 * (outside*outside - (hole+add)*(hole+add)) }
	for _, c := range []struct {
		name                   string
		answers                []string
		use                    string
		pull, pressure, torque float64
	}{
		{"head on plastic", nil, "foot", 40 * ring(5.5, 3.4), 1026.1 / ring(5.5, 3.4), 0.2 * 40 * ring(5.5, 3.4) * 3e-3},
		{"washer on plastic", []string{"foot.washers", "under heads"}, "foot", 1026.1, 1026.1 / ring(7, 3.4), 0.2 * 1026.1 * 3e-3},
		{"ears", nil, "foot clamp", 40 * ring(7, 4.5), 1791.1 / ring(7, 4.5), 0.2 * 40 * ring(7, 4.5) * 4e-3},
		{"ears with washers", []string{"mast.tube.clamp.washers", "under heads and nuts"}, "foot clamp", 1791.1, 1791.1 / ring(9, 4.5), 0.2 * 1791.1 * 4e-3},
		{"insert", []string{"foot.head", "insert", "foot.thickness", "7.2 mm"}, "foot", 1026.1, 0, 0.2 * 1026.1 * 3e-3},
		{"nylon", []string{"foot.screws", "nylon"}, "foot", 80, 80 / ring(5.5, 3.4), 0.2 * 80 * 3e-3},
		{"a pin is not tightened", nil, "foot key", 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := judge(t, set(t, example(t, "lake-soundings"), c.answers...))
			for _, g := range r.Screws {
				if g.Use.For != c.use {
					continue
				}
				for _, v := range [][2]float64{{g.Pull, c.pull}, {g.Pressure, c.pressure}, {g.Torque, c.torque}} {
					if math.Abs(v[0]-v[1]) > 1e-3*math.Abs(v[1]) { // stress areas are printed to three digits
						t.Errorf("got %.4g, want %.4g: %+v", v[0], v[1], g)
					}
				}
				return
			}
			t.Errorf("no %s screws", c.use)
		})
	}
}

// What a head presses too hard is said with the field that mends it, and is not said once there are washers; a clamp grips with no more
// than its ears bear.
func TestWashersAreAskedFor(t *testing.T) {
	said := func(r review.Result) string {
		v, _ := r.Verdict("hardware")
		return strings.Join(v.Notes, " ")
	}
	slip := func(r review.Result) float64 {
		v, _ := r.Verdict("strength")
		for _, f := range v.Figures {
			if f.Name == "clamps against slipping" {
				return f.Value
			}
		}
		return 0
	}
	bare := judge(t, example(t, "lake-soundings"))
	for _, c := range []struct {
		path, answer string
		mass         float64 // g of washers, π/4 (d2² - d1²) h at 2.81 g/cm³ (ISO 7089): four M3, or four M4 of two clamps
	}{{"foot.washers", "under heads", 4 * 0.0428}, {"mast.tube.clamp.washers", "under heads and nuts", 4 * 0.110}} {
		washed := judge(t, set(t, example(t, "lake-soundings"), c.path, c.answer))
		if !strings.Contains(said(bare), c.path) || strings.Contains(said(washed), c.path) {
			t.Errorf("%s: bare %q, washed %q", c.path, said(bare), said(washed))
		}
		if washed.Mass < bare.Mass+c.mass-0.02 { // a foot with washers has wider seats
			t.Errorf("%s: %.2f g, bare %.2f g", c.path, washed.Mass, bare.Mass)
		}
		if a, b := slip(bare), slip(washed); !(a > 0) || (b > a) != (c.path != "foot.washers") {
			t.Errorf("%s: clamps slip at %.2f ×, bare at %.2f", c.path, b, a)
		}
	}
}

// Inserts are of brass: near the compass they are no steel; screws of steel in them are.
func TestInsertsAreNotSteel(t *testing.T) {
	for _, c := range []struct {
		screws string
		want   review.State
	}{{"aluminium", review.Pass}, {"steel", review.Pass}} { // the foot is 110 mm away
		r := judge(t, set(t, example(t, "lake-soundings"), "foot.head", "insert", "foot.thickness", "7.2 mm", "foot.screws", c.screws))
		v, _ := r.Verdict("hardware")
		if v.State != c.want {
			t.Errorf("%s screws in inserts: %v, %s", c.screws, v.State, v.Because)
		}
		if steel := strings.Contains(v.Because, "nearest steel fastener"); steel != (c.screws == "steel") {
			t.Errorf("%s: %s", c.screws, v.Because)
		}
	}
}

// The least held thread is reckoned with its numbers.
func TestHoldsAreInTheVerdict(t *testing.T) {
	v, _ := judge(t, example(t, "lake-soundings")).Verdict("hardware")
	if !strings.Contains(v.Formula, "2.40 mm of thread in the nut = 0.80 d, it needs 2.40 mm") {
		t.Error(v.Formula)
	}
}
