package review_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design/review"
)

// A head that the solids leave no room is a finding, one that has room is not mentioned.
func TestHeadsNeedRoom(t *testing.T) {
	screwed := []string{"receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm", "tray.flare", "0 mm"}
	doc := withRoute(t, column(t, "petg", "upright"))
	verdict := func(more ...string) review.Verdict {
		v, _ := judge(t, set(t, doc, append(screwed, more...)...)).Verdict("hardware")
		return v
	}
	if v := verdict("mast.tip_fillet", "2 mm"); v.State != review.Pass || strings.Contains(v.Because, "screw 1") {
		t.Errorf("with room: %v, %s", v.State, v.Because)
	}
	v := verdict("mast.tip_fillet", "9 mm")
	if v.State != review.Fail || !strings.Contains(v.Because, "into the plastic") {
		t.Errorf("in the fillet: %v, %s", v.State, v.Because)
	}
	if f := figure(t, v, "least room"); f.Value >= 0 {
		t.Errorf("room %g mm", f.Value)
	}
}

// A rim that conducts and reaches beside the antenna is a finding in sky; the same rim of plain plastic is none, nor is a low one.
func TestConductingRimShadesTheAntenna(t *testing.T) {
	doc := withRoute(t, column(t, "petg", "upright"))
	verdict := func(material, rim string) review.Verdict {
		v, _ := judge(t, set(t, doc, "receiver.fixing", "rim", "tray.rim_height", rim, "materials.mast", material, "materials.tray", material, "materials.foot", material)).Verdict("sky")
		return v
	}
	high := verdict("pa6-cf", "9 mm")
	if !strings.Contains(strings.Join(high.Notes, " "), "conducts") || high.State == review.Pass {
		t.Errorf("%v: %s %v", high.State, high.Because, high.Notes)
	}
	for _, v := range []review.Verdict{verdict("petg", "9 mm"), verdict("pa6-cf", "2 mm")} {
		if strings.Contains(strings.Join(v.Notes, " "), "conducts") {
			t.Errorf("%v: %v", v.State, v.Notes)
		}
	}
}

// A tube's clamps against the hand and the tip-over, by hand: M3 of nylon breaks at 200 N (a fastener catalogue), is drawn to 0.4 of it,
// and holds 2 x 0.2 x 80 N along the tube; its cross screw adds 0.6 x 200 N. The figure shown is what that is over the load it bears.
func TestClampsHold(t *testing.T) {
	doc := set(t, withRoute(t, column(t, "petg", "upright")), "mast.build", "tube", "foot.size.x", "52 mm", "foot.size.y", "52 mm", "foot.screws", "nylon", "tray.screws", "nylon")
	ratio := func(changes ...string) float64 {
		v, _ := judge(t, set(t, doc, changes...)).Verdict("strength")
		return figure(t, v, "clamps against slipping").Value
	}
	keyed, free := ratio(), ratio("mast.tube.clamp.key", "none")
	if !(keyed > free && free > 0) {
		t.Errorf("with a key %.3f, without %.3f", keyed, free)
	}
	// Twice the friction holds twice as well where nothing else does.
	if twice := ratio("mast.tube.clamp.key", "none", "assume.clamp_friction", "0.4"); math.Abs(twice/free-2) > 1e-6 {
		t.Errorf("twice the friction: %.6f times as much; want 2", twice/free)
	}
	// The hand pulls along the tube with 20 N, and 32 N hold it.
	if math.Abs(free-1.6) > 0.001 { // the model's equilibrium
		t.Errorf("a pull of 20 N on 32 N of grip: %.4f; want 1.6", free)
	}
}

// The share of compliance is shown by clamps, foot, frame plate and tube.
func TestTubeShares(t *testing.T) {
	doc := set(t, withRoute(t, column(t, "petg", "upright")), "mast.build", "tube", "foot.size.x", "52 mm", "foot.size.y", "52 mm")
	r := judge(t, doc)
	sum, names := 0.0, ""
	for _, s := range r.Shares {
		sum += s.Share
		names += s.Name + ","
	}
	for _, want := range []string{"tube", "foot clamp", "tray clamp", "foot plate", "frame plate"} {
		if !strings.Contains(names, want) {
			t.Errorf("no share of the %s in %s", want, names)
		}
	}
	if math.Abs(sum-1) > 1e-6 {
		t.Errorf("shares add up to %.9f", sum)
	}
}
