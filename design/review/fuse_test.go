package review_test

import (
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
)

func figure(t testing.TB, v review.Verdict, name string) review.Figure {
	t.Helper()
	for _, f := range v.Figures {
		if strings.HasPrefix(f.Name, name) {
			return f
		}
	}
	t.Fatalf("no figure %q in %+v", name, v.Figures)
	return review.Figure{}
}

func tipover(t testing.TB, doc *design.Document, changes ...string) review.Verdict {
	t.Helper()
	v, _ := judge(t, set(t, doc, changes...)).Verdict("tipover")
	return v
}

// A ring that is weaker than the mast breaks in its place, counts as pass and is named; the thinner it is, the earlier, and the less it
// bears in the hand.
func TestFuseBreaksFirst(t *testing.T) {
	doc := withRoute(t, column(t, "petg", "upright"))
	plain := tipover(t, doc)
	if len(plain.Figures) == 0 || strings.Contains(plain.Because, "fuse") {
		t.Fatalf("without a fuse: %+v", plain)
	}
	fitted := []string{"mast.fuse.fitted", "true"}
	last := 0.0
	for _, wall := range []string{"0.9 mm", "1.1 mm", "1.3 mm"} {
		v := tipover(t, doc, append(fitted, "mast.fuse.wall", wall)...)
		if !strings.Contains(v.Because, "the fuse breaks first") || v.State == review.Fail {
			t.Errorf("%s: %v, %s", wall, v.State, v.Because)
		}
		if f := figure(t, v, "break speed over topple speed"); f.Limit != nil {
			t.Errorf("%s: what is meant to break is judged: %+v", wall, f)
		}
		next, bears := figure(t, v, "next link over the fuse"), figure(t, v, "fuse over flight and hand loads")
		if !(next.Value > 1 && next.Low <= next.Value && next.Value <= next.High) {
			t.Errorf("%s: next link %+v", wall, next)
		}
		if !(bears.Value > last) {
			t.Errorf("%s: bears %.3f, no more than the thinner one's %.3f", wall, bears.Value, last)
		}
		last = bears.Value
		if broken, whole := figure(t, v, "break speed").Value, figure(t, plain, "break speed").Value; broken >= whole {
			t.Errorf("%s: breaks at %.3f, no sooner than the mast without it at %.3f", wall, broken, whole)
		}
	}
	// The hand governs a fuse: with half the force it bears twice as much.
	v := tipover(t, doc, append(fitted, "mast.fuse.wall", "1.1 mm", "loads.hand", "10 N")...)
	w := tipover(t, doc, append(fitted, "mast.fuse.wall", "1.1 mm", "loads.hand", "20 N")...)
	if a, b := figure(t, v, "fuse over flight").Value, figure(t, w, "fuse over flight").Value; a/b < 1.99 || a/b > 2.01 {
		t.Errorf("half the hand's force: %.4f times as much borne; want 2", a/b)
	}
}

// A part of which a spare is made may break: it counts as pass and is named.
func TestSpareCountsAsPass(t *testing.T) {
	doc := withRoute(t, column(t, "pla", "upright"))
	if v := tipover(t, doc); v.State == review.Pass {
		t.Fatalf("the test wants a mast that breaks: %+v", v)
	}
	spare := doc.Clone()
	if err := spare.Insert("print.copies", spare.Len("print.copies")); err != nil {
		t.Fatal(err)
	}
	at := spare.Len("print.copies") - 1
	path := "print.copies[" + string(rune('0'+at)) + "]."
	v := tipover(t, spare, path+"part", "mast", path+"count", "2")
	if v.State != review.Pass || !strings.Contains(v.Because, "spare") {
		t.Errorf("%v: %s", v.State, v.Because)
	}
}

// A tube on a fuse: the thin neck is what breaks.
func TestTubeFuse(t *testing.T) {
	doc := withRoute(t, column(t, "petg", "upright"))
	v := tipover(t, doc, "mast.build", "tube", "mast.fuse.fitted", "true", "foot.size.x", "52 mm", "foot.size.y", "52 mm")
	if !strings.Contains(v.Because, "the fuse breaks first") {
		t.Errorf("%v: %s", v.State, v.Because)
	}
}
