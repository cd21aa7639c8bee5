package review_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"sync"
	"testing"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

// A workshop is asked for all examples, changed this way and that, twice over: every answer is the one that Judge gives, to the last bit.
func TestWorkshopAnswersAsJudge(t *testing.T) {
	var shop review.Workshop
	for range 2 {
		for _, e := range assets.Examples() {
			for _, changes := range [][]string{nil, {"mast.height", "100 mm"}, {"materials.mast", "asa"}, {"site.altitude", "900 m"}} {
				doc := set(t, example(t, e.Name), changes...)
				want, wrong := review.Judge(doc)
				got, problems, err := shop.Judge(t.Context(), doc)
				if err != nil {
					t.Fatal(err)
				}
				if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(problems, wrong) {
					t.Errorf("%s %v: the workshop's answer differs", e.Name, changes)
				}
			}
		}
	}
}

func TestWorkshopDoesNothingTwice(t *testing.T) {
	var shop review.Workshop
	doc := example(t, "hedgerow-scout")
	work := func(doc *design.Document, ids ...string) review.Work {
		t.Helper()
		before := shop.Work()
		if _, problems, err := shop.Judge(t.Context(), doc, ids...); err != nil || len(problems) > 0 {
			t.Fatal(problems, err)
		}
		after := shop.Work()
		return review.Work{
			Factors: after.Factors - before.Factors, Condensed: after.Condensed - before.Condensed, Modal: after.Modal - before.Modal,
			Statics: after.Statics - before.Statics, Cases: after.Cases - before.Cases, Buckling: after.Buckling - before.Buckling,
			Sections: after.Sections - before.Sections, Plates: after.Plates - before.Plates, Fields: after.Fields - before.Fields,
		}
	}
	first := work(doc)
	if first.Plates != 2 || first.Fields != 3 || first.Sections == 0 || first.Factors != 2 {
		t.Errorf("the first review: %+v; want the foot's and the frame's plate, three states of flight, sections, and one model held and one flying", first)
	}
	if again := work(doc); again.Plates != 0 || again.Sections != 0 || again.Fields != 0 {
		t.Errorf("the same design again: %+v", again)
	}
	if higher := work(set(t, doc, "mast.height", "75 mm")); higher.Plates > 1 || higher.Fields != 3 {
		t.Errorf("a higher mast: %+v; want the frame's plate kept and its field anew", higher)
	}
	if plastic := work(set(t, doc, "materials.mast", "asa")); plastic.Fields != 0 {
		t.Errorf("another plastic: %+v; want its field kept", plastic)
	}
	for _, c := range []struct {
		id                   string
		factors, least, most int
	}{
		{"heading", 0, 0, 0}, {"sky", 0, 0, 0}, {"balance", 0, 0, 0}, {"sway", 1, 0, 0}, {"tipover", 1, 0, 0},
		{"modes", 1, 4, 6}, // soft and stiff at the typical modulus, and at its two ends; the middle where once-per-rev meets one; the hot
	} {
		if w := work(set(t, doc, "mast.height", "75 mm"), c.id); w.Factors != c.factors || w.Modal < c.least || w.Modal > c.most {
			t.Errorf("%s alone: %+v; want %d models and %d to %d sets of modes", c.id, w, c.factors, c.least, c.most)
		}
	}
}

// What no bending moves is answered without the plates under the mast.
func TestRigidChecksSolveNothing(t *testing.T) {
	for _, id := range []string{"heading", "heat", "hardware", "sky", "bus", "printing", "balance"} {
		var shop review.Workshop
		if _, problems, err := shop.Judge(t.Context(), example(t, "river-survey"), id); err != nil || len(problems) > 0 {
			t.Fatal(problems, err)
		}
		if w := shop.Work(); w.Plates != 0 || w.Factors != 0 || w.Cases != 0 {
			t.Errorf("%s alone: %+v", id, w)
		}
	}
}

func TestChosenChecksAnswerAsAll(t *testing.T) {
	var shop review.Workshop
	doc := example(t, "river-survey")
	all := judge(t, doc)
	for i, c := range review.Checks() {
		r, problems, err := shop.Judge(t.Context(), doc, c.ID)
		if err != nil || len(problems) > 0 {
			t.Fatal(problems, err)
		}
		if len(r.Verdicts) != 1 || !reflect.DeepEqual(r.Verdicts[0], all.Verdicts[i]) || r.Mass != all.Mass {
			t.Errorf("%s alone differs from %s among all", c.ID, c.ID)
		}
	}
	r, _, err := shop.Judge(t.Context(), doc, "sway", "clearance")
	if err != nil || len(r.Verdicts) != 2 || r.Verdicts[0].ID != "clearance" {
		t.Errorf("two checks come in the order of Checks: %v, %v", r.Verdicts, err)
	}
	if _, _, err := shop.Judge(t.Context(), doc, "sways"); err == nil {
		t.Error("no error for an id that is no check's")
	}
}

func TestStopsWhenAsked(t *testing.T) {
	stopped, stop := context.WithCancel(t.Context())
	stop()
	doc := example(t, "river-survey")
	var shop review.Workshop
	if _, _, err := shop.Judge(stopped, doc); !errors.Is(err, context.Canceled) {
		t.Errorf("Judge: %v", err)
	}
	if _, _, err := review.Compare(stopped, doc); !errors.Is(err, context.Canceled) {
		t.Errorf("Compare: %v", err)
	}
	if _, _, err := review.ComparePlaces(stopped, doc); !errors.Is(err, context.Canceled) {
		t.Errorf("ComparePlaces: %v", err)
	}
}

func TestWorkshopServesMany(t *testing.T) {
	var shop review.Workshop
	doc := example(t, "greenhouse-patrol")
	want := judge(t, doc)
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			if got, _, err := shop.Judge(t.Context(), doc); err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("one of many differs: %v", err)
			}
		})
	}
	all.Wait()
}

func bench(tb testing.TB, shop *review.Workshop, doc *design.Document) *review.Bench {
	tb.Helper()
	b, problems := shop.Bench(doc)
	if len(problems) > 0 {
		tb.Fatal(problems)
	}
	return b
}

func try(tb testing.TB, b *review.Bench, lot review.Lot, id string) review.Figure {
	tb.Helper()
	verdicts, err := b.Try(lot, id)
	if err != nil {
		tb.Fatal(err)
	}
	return verdicts[0].Figures[0]
}

// On a block, and with the tray's receiver screwed down, all that yields is printed: frequencies go with the root of the modulus, the lean with its
// inverse (any structure whose stiffness is E times a constant). Strength over stress goes with the strength.
func TestLotsFollowTheirProperties(t *testing.T) {
	var shop review.Workshop
	doc := set(t, example(t, "hedgerow-scout"), "airframe.places[0].plate.backing", "block")
	b := bench(t, &shop, doc)
	near := func(what string, got, want, tolerance float64) {
		t.Helper()
		if math.Abs(got/want-1) > tolerance {
			t.Errorf("%s: %.6g, want %.6g", what, got, want)
		}
	}
	const rigid = 2e-3 // what stands for rigid is not
	typical := review.Lot{}
	for _, factor := range []float64{0.7, 0.9, 1.3} {
		lot := review.Lot{Modulus: factor}
		near("frequency", try(t, b, lot, "modes").Value, math.Sqrt(factor)*try(t, b, typical, "modes").Value, rigid)
		near("lean", try(t, b, lot, "sway").Value, try(t, b, typical, "sway").Value/factor, rigid)
		near("strength", try(t, b, review.Lot{Strength: factor}, "strength").Value, factor*try(t, b, typical, "strength").Value, 1e-9)
	}
	sway, _ := judge(t, doc).Verdict("sway")
	near("the typical lot's lean", try(t, b, typical, "sway").Value, sway.Figure.Value, 1e-12)
	soft, firm := try(t, b, review.Lot{Yield: 1}, "sway").Value, try(t, b, review.Lot{Yield: 0.1}, "sway").Value
	if !(soft > sway.Figure.Value && sway.Figure.Value > firm) {
		t.Errorf("screws as pins lean %g, the middle %g, clamped %g", soft, sway.Figure.Value, firm)
	}
}

// The ends of the sway's spread are lots: the low modulus on pins, and nearly the high one clamped.
func TestLotIsAnEndOfTheSpread(t *testing.T) {
	var shop review.Workshop
	doc := example(t, "hedgerow-scout")
	sway, _ := judge(t, doc).Verdict("sway")
	m, err := doc.Library().Find(doc.Materials.Mast)
	if err != nil {
		t.Fatal(err)
	}
	low := float64(m.ModulusAcross.Low / m.ModulusAcross.Typical)
	if in := float64(m.ModulusInLayer.Low / m.ModulusInLayer.Typical); math.Abs(in-low) > 0.02 {
		t.Skipf("the plastic's moduli spread by %g and %g", in, low)
	}
	got := try(t, bench(t, &shop, doc), review.Lot{Modulus: low, Yield: 1}, "sway").Value
	if math.Abs(got/sway.Figure.High-1) > 0.01 {
		t.Errorf("the softest lot leans %g, the spread's end is %g", got, sway.Figure.High)
	}
}

func TestLotCostsTwoSolves(t *testing.T) {
	var shop review.Workshop
	b := bench(t, &shop, example(t, "river-survey"))
	before := shop.Work()
	const lots = 5
	for i := range lots {
		if _, err := b.Try(review.Lot{Modulus: 1 + float64(i)/10}, structural...); err != nil {
			t.Fatal(err)
		}
	}
	after := shop.Work()
	after.Condensed -= before.Condensed
	after.Modal -= before.Modal
	after.Statics -= before.Statics
	if after.Condensed != 2*lots || after.Modal != lots || after.Statics != lots || after.Factors != before.Factors || after.Sections != before.Sections || after.Cases != before.Cases || after.Buckling != before.Buckling {
		t.Errorf("%d lots: %+v, from %+v; want a model held and one flying for each, and nothing else", lots, after, before)
	}
}

// Tried once or on a bench, a lot is the same but for what condensing leaves of modes; tried once it costs one model held and one flying, and no review before it.
func TestTriedOnceAnswersAsOnABench(t *testing.T) {
	for _, name := range []string{"river-survey", "lake-soundings", "marsh-census"} {
		var shop, other review.Workshop
		lot := review.Lot{Modulus: 0.9, Yield: 0.3}
		want, err := bench(t, &shop, example(t, name)).Try(lot)
		if err != nil {
			t.Fatal(err)
		}
		got, problems, err := other.Try(example(t, name), lot)
		if err != nil || len(problems) > 0 {
			t.Fatal(problems, err)
		}
		for i := range want {
			if math.Abs(got[i].Figure.Value-want[i].Figure.Value) > 1e-5*math.Abs(want[i].Figure.Value) || got[i].State != want[i].State {
				t.Errorf("%s, %s: %v, on a bench %v", name, want[i].ID, got[i].Figure, want[i].Figure)
			}
		}
		if w := other.Work(); w.Factors > 2 || w.Modal != 1 || w.Statics > 1 {
			t.Errorf("%s: %+v; want two models, one set of modes and one of load cases", name, w)
		}
	}
}

func TestLotsMayBeTriedAtOnce(t *testing.T) {
	var shop review.Workshop
	b := bench(t, &shop, example(t, "orchard-mapper"))
	want, err := b.Try(review.Lot{Modulus: 1.1})
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			if got, err := b.Try(review.Lot{Modulus: 1.1}); err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("one of many differs: %v", err)
			}
		})
	}
	all.Wait()
}

var structural = []string{"sway", "modes", "shake", "strength", "tipover"}

func ExampleWorkshop() {
	doc, problems := design.Decode(assets.Examples()[0].Data, design.Options{})
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	var shop review.Workshop
	r, _, err := shop.Judge(context.Background(), doc, "heading")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Verdicts[0].ID, r.Verdicts[0].State, "with", shop.Work().Modal, "sets of modes")
	// Output: heading pass with 0 sets of modes
}
