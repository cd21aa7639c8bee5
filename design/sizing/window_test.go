package sizing_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// worst is what a fresh review of the design at a height says, and the checks that say it.
func worst(t *testing.T, doc *design.Document, mm float64) (review.State, []string) {
	t.Helper()
	r, wrong := review.Judge(changed(t, doc, "mast.height", fmt.Sprintf("%g mm", mm)))
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	state, ids := review.Pass, []string(nil)
	for _, v := range r.Verdicts {
		if v.State == review.NoData || v.Accepted != "" || v.State < state {
			continue
		}
		if v.State > state {
			state, ids = v.State, nil
		}
		ids = append(ids, v.ID)
	}
	return state, ids
}

// The window's ends are asked of the review again: the end itself passes, and one step beyond it the check that binds does not.
func TestWindowEndsWhereTheReviewSaysSo(t *testing.T) {
	doc := example(t, "river-survey")
	w, err := sizing.Heights(context.Background(), doc, sizing.HeightOptions{From: 60, To: 160})
	if err != nil {
		t.Fatal(err)
	}
	if !w.Open || w.MainState != review.Pass || w.Below == "" || w.Above == "" || len(w.Exclude) > 0 {
		t.Fatalf("window %+v open %v, %v; below %q, above %q; excluding %v", w.Main, w.Open, w.MainState, w.Below, w.Above, w.Exclude)
	}
	if w.Height < w.Main.From || w.Height > w.Main.To {
		t.Errorf("the design passes at its %g mm, but its window is %+v", w.Height, w.Main)
	}
	const step = 0.5 // mm, the lattice of heights
	for _, end := range []struct {
		at, beyond float64
		binds      string
	}{{w.Main.From, w.Main.From - step, w.Below}, {w.Main.To, w.Main.To + step, w.Above}} {
		if state, ids := worst(t, doc, end.at); state != review.Pass {
			t.Errorf("at its end, %g mm, %v: %v", end.at, ids, state)
		}
		if state, ids := worst(t, doc, end.beyond); state == review.Pass || !slices.Contains(ids, end.binds) {
			t.Errorf("beyond its end, at %g mm, %v: %v; want %s among them", end.beyond, ids, state, end.binds)
		}
	}
	for _, c := range w.Checks {
		if c.Bands[0].From != w.From || c.Bands[len(c.Bands)-1].To != w.To {
			t.Errorf("%s: bands %+v do not cover %g to %g mm", c.Check, c.Bands, w.From, w.To)
		}
		for i := 1; i < len(c.Bands); i++ {
			if c.Bands[i].From != c.Bands[i-1].To {
				t.Errorf("%s: gap between %+v and %+v", c.Check, c.Bands[i-1], c.Bands[i])
			}
		}
	}
	if len(w.Pass)+len(w.Marginal) == 0 || w.Reviews > 150 {
		t.Errorf("%d reviews for %v and %v", w.Reviews, w.Pass, w.Marginal)
	}
}

// A loose pair closes the window between what the compass needs below and what the mast bears above; bound, stacked or twisted leads
// open it. The field of a pair falls with its spacing (Biot-Savart), the mast does not know about it.
func TestLeadsOpenTheWindow(t *testing.T) {
	loose := example(t, "quarry-survey")
	heights := func(doc *design.Document, o sizing.HeightOptions) sizing.Window {
		t.Helper()
		o.From, o.To = 70, 170
		w, err := sizing.Heights(context.Background(), doc, o)
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	closed := heights(loose, sizing.HeightOptions{Opening: true})
	if len(closed.Pass) > 0 || !slices.Contains(closed.Exclude, "heading") || len(closed.Exclude) != 2 {
		t.Fatalf("the loose pair passes at %v, excluding %v; want none, by heading and another", closed.Pass, closed.Exclude)
	}
	if closed.Opening == nil || !slices.ContainsFunc(closed.Opening.Changes, func(c sizing.Change) bool { return strings.HasPrefix(c.Path, "leads[0].") }) {
		t.Fatalf("opened by %+v, want a change of the leads", closed.Opening)
	}
	opened, err := closed.Opening.Apply(loose)
	if err != nil {
		t.Fatal(err)
	}
	if state, ids := worst(t, opened, opened.Mast.Height.Millimetres()); state != review.Pass {
		t.Errorf("what opens the window leaves %v: %v", ids, state)
	}
	for name, changes := range map[string][]string{
		"bound":   {"leads[0].spacing", "5 mm"},
		"twisted": {"leads[0].run", "twisted", "leads[0].pitch", "30 mm"},
	} {
		if w := heights(changed(t, loose, changes...), sizing.HeightOptions{}); len(w.Pass) == 0 {
			t.Errorf("%s leads pass at no height; excluding %v", name, w.Exclude)
		}
	}
}

func TestHeightsOutsideTheField(t *testing.T) {
	_, err := sizing.Heights(context.Background(), example(t, "river-survey"), sizing.HeightOptions{From: 500, To: 600})
	if err == nil || !strings.Contains(err.Error(), "500 to 600 mm") {
		t.Errorf("got %v", err)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	doc := example(t, "quarry-survey")
	if _, err := sizing.Heights(ctx, doc, sizing.HeightOptions{}); err != context.Canceled {
		t.Errorf("heights: %v", err)
	}
	if _, err := sizing.Repairs(ctx, doc, sizing.RepairOptions{}); err != context.Canceled {
		t.Errorf("repairs: %v", err)
	}
	if _, err := sizing.Lightest(ctx, doc, sizing.LightestOptions{}); err != context.Canceled {
		t.Errorf("lightest: %v", err)
	}
}
