package review_test

import (
	"fmt"
	"math"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
)

// column is the seven-inch column of the ordering tests: 100 mm, 18 to 12 mm, wall 2.4, on the middle of the frame, without a cable way.
func column(t testing.TB, material, orientation string) *design.Document {
	return set(t, example(t, "river-survey"),
		"airframe.places[0].at.x", "0 mm", "airframe.places[0].at.z", "26 mm",
		"mast.height", "100 mm", "mast.root.x", "18 mm", "mast.tip.x", "12 mm", "mast.wall", "2.4 mm",
		"mast.split", "one piece", "mast.cable_way.side", "none", "print.orientation", orientation,
		"materials.mast", material, "materials.foot", material, "materials.tray", material,
		"airframe.centre_of_gravity.z", "36 mm", "foot.screws", "titanium", // a pack on top; screws that outlast the plastic
		"leads[0].given", "route", "receiver.arrow", "forward")
}

// The order in which printed columns survive an inverted landing. Common practice, no source.
func TestTipOverOrdersMaterials(t *testing.T) {
	ratio := func(material, orientation string) (low, typical float64) {
		doc := column(t, material, orientation)
		r := judge(t, withRoute(t, doc))
		v, _ := r.Verdict("tipover")
		if v.State == review.NoData {
			t.Fatalf("%s %s: %s", material, orientation, v.Because)
		}
		return v.Figures[0].Low, v.Figures[0].Value
	}
	lying := map[string]float64{}
	upright := map[string]float64{}
	for _, m := range []string{"pla", "abs", "asa", "pc", "petg", "copolyester"} {
		_, lying[m] = ratio(m, "lying")
		_, upright[m] = ratio(m, "upright")
	}
	t.Logf("lying %v", lying)
	t.Logf("upright %v", upright)
	for _, m := range []string{"abs", "asa", "pc", "petg"} {
		if !(lying["pla"] < lying[m]) {
			t.Errorf("lying: pla %.2f is not below %s %.2f", lying["pla"], m, lying[m])
		}
		if !(lying[m] < lying["copolyester"]) {
			t.Errorf("lying: %s %.2f is not below copolyester %.2f", m, lying[m], lying["copolyester"])
		}
	}
	for m, x := range upright {
		if m != "pla" && !(upright["pla"] < x) {
			t.Errorf("upright: pla %.2f is not below %s %.2f", upright["pla"], m, x)
		}
	}
	if math.Abs(upright["copolyester"]/upright["petg"]-1) > 0.15 {
		t.Errorf("upright: copolyester %.2f and petg %.2f are more than 15 %% apart", upright["copolyester"], upright["petg"])
	}
	if x := upright["petg"]; x < 0.9 || x > 1.5 {
		t.Errorf("upright petg column breaks at %.2f times the topple speed, want 0.9 to 1.5", x)
	}
	if low, _ := ratio("pla", "upright"); low >= 0.7 {
		t.Errorf("upright pla at low strength breaks at %.2f, want below 0.7", low)
	}
}

// withRoute gives the lead explicit points, so that the mast may stand in the middle of the frame.
func withRoute(t testing.TB, doc *design.Document) *design.Document {
	doc = doc.Clone()
	for i, p := range [][3]int{{40, 20, 20}, {0, 22, 20}, {-40, 20, 20}} {
		if err := doc.Insert("leads[0].points", i); err != nil {
			t.Fatal(err)
		}
		for k, axis := range []string{"x", "y", "z"} {
			if err := doc.Set(fmt.Sprintf("leads[0].points[%d].%s", i, axis), fmt.Sprintf("%d mm", p[k])); err != nil {
				t.Fatal(err)
			}
		}
	}
	return doc
}

// A stiffer plastic, a thicker wall, a wider root and a shorter mast all raise the lowest mode; the lowest mode falls with the height
// faster than its first power and slower than its third, since the receiver's mass does not grow. Beam theory: f ∝ L^-1.5 for a mast
// whose weight is at its tip.
func TestLowestModeFollowsBeamTheory(t *testing.T) {
	base := withRoute(t, column(t, "petg", "upright"))
	first := func(changes ...string) float64 {
		r := judge(t, set(t, base, changes...))
		return r.Flying[0].Hz
	}
	f := first()
	for _, c := range [][]string{
		{"mast.wall", "3 mm"}, {"mast.root.x", "20 mm"}, {"mast.height", "90 mm"}, {"print.orientation", "lying"}, {"foot.thickness", "7 mm"}, {"receiver.mass", "10 g"},
	} {
		if g := first(c...); g <= f {
			t.Errorf("%v: %.1f Hz, not above %.1f", c, g, f)
		}
	}
	tall := first("mast.height", "140 mm")
	if power := math.Log(f/tall) / math.Log(1.4); power < 1.3 || power > 2.1 {
		t.Errorf("lowest mode falls with the %.2f th power of the height; 1.5 with the weight at the tip, 2 with the mast's own weight only", power)
	}
}

// Unbalance of a higher grade shakes in proportion, and a measured level at the controller scales it.
func TestShakeIsProportionalToTheGrade(t *testing.T) {
	base := set(t, example(t, "river-survey"), "assume.thrust_ripple", "0.001")
	peak := func(changes ...string) float64 {
		v, _ := judge(t, set(t, base, changes...)).Verdict("shake")
		return v.Figures[0].Value
	}
	good, worn := peak("motors.balance", "balanced"), peak("motors.balance", "worn") // the ripple does not grow with the grade: 1e-3
	if math.Abs(worn/good-40/6.3) > 1e-3 {
		t.Errorf("G 40 shakes %.6f times as much as G 6.3, want %.6f", worn/good, 40/6.3)
	}
	if twice := peak("airframe.vibration", "8 m/s2") / peak("airframe.vibration", "4 m/s2"); math.Abs(twice-2) > 1e-3 {
		t.Errorf("twice the measured vibration shakes %.9f times as much", twice)
	}
}
