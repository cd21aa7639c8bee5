package sizing_test

import (
	"context"
	"errors"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// judged is a fresh review without anything remembered.
func judged(t testing.TB, doc *design.Document) review.Result {
	t.Helper()
	r, wrong := review.Judge(doc)
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	return r
}

// Every repair is applied and reviewed again outside of the search: the check is as promised, no other is worse, and the mass is what it
// said. One step of the lattice nearer to the present value it must not hold, or there was a smaller change.
func TestRepairsHold(t *testing.T) {
	for _, c := range []struct {
		name   string
		checks []string
		wants  string // path of a change that must be among them
	}{
		{"quarry-survey", []string{"heading"}, "leads[0].spacing"},
		{"orchard-mapper", []string{"heat"}, "materials.mast"},
		{"orchard-mapper", []string{"strength"}, "mast.height"},
		{"orchard-mapper", []string{"tipover"}, "mast.root.x"}, // needs a pair
		{"coastline-watch", []string{"modes"}, "mast.height"},
	} {
		t.Run(c.name+" "+strings.Join(c.checks, " "), func(t *testing.T) {
			if os.Getenv("MASTWRIGHT_LONG") == "" && slices.Contains(c.checks, "strength") {
				t.Skip("set MASTWRIGHT_LONG=1 for repairs of the structure")
			}
			doc := example(t, c.name)
			before := judged(t, doc)
			advice, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{Checks: c.checks})
			if err != nil || len(advice) != len(c.checks) {
				t.Fatal(len(advice), err)
			}
			found := false
			for _, a := range advice {
				if len(a.Repairs) == 0 || len(a.Repairs) > 3 {
					t.Errorf("%s: %d repairs; %s", a.Check, len(a.Repairs), a.Words)
				}
				for _, r := range a.Repairs {
					found = found || r.Changes[0].Path == c.wants
					repaired, err := r.Apply(doc)
					if err != nil {
						t.Fatal(err)
					}
					after := judged(t, repaired)
					for i, v := range after.Verdicts {
						was := before.Verdicts[i]
						if v.ID == r.Check && (v.State != r.To || v.State >= was.State) || v.State > was.State {
							t.Errorf("%q: %s is %v, was %v", r.Words, v.ID, v.State, was.State)
						}
						if slices.Contains(r.Better, v.ID) != (v.State < was.State && v.ID != r.Check) {
							t.Errorf("%q: %s from %v to %v, better %v", r.Words, v.ID, was.State, v.State, r.Better)
						}
					}
					if math.Abs(after.Mass-before.Mass-r.Mass) > 1e-9 {
						t.Errorf("%q: %g g, was %g g; said %g g", r.Words, after.Mass, before.Mass, r.Mass)
					}
					if r.Words == "" || strings.Contains(r.Words, "NaN") {
						t.Errorf("words %q", r.Words)
					}
				}
			}
			if !found {
				t.Errorf("none moves %s: %+v", c.wants, advice)
			}
		})
	}
}

// A bound pair is as near as it needs to be: half a millimetre wider it fails or is marginal again.
func TestRepairIsTheNearestValue(t *testing.T) {
	doc := changed(t, example(t, "quarry-survey"), "leads[0].height", "0 mm")
	advice, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{Checks: []string{"heading"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range advice[0].Repairs {
		if r.Changes[0].Path != "leads[0].spacing" {
			continue
		}
		spacing, err := design.New().Airframe.ArmHeight.Kind().Parse(r.Changes[0].Value)
		if err != nil {
			t.Fatal(err)
		}
		wider := changed(t, doc, "leads[0].spacing", doc.Airframe.ArmHeight.Kind().Format(spacing+0.5))
		if v, _ := judged(t, wider).Verdict("heading"); v.State <= r.To {
			t.Errorf("at %g mm it is %v, but so it is half a millimetre wider", spacing, r.To)
		}
		if !strings.HasPrefix(r.Words, "Bind the leads "+r.Changes[0].Value+" apart: ") || !strings.HasSuffix(r.Words, "No mass, no other verdict changes.") {
			t.Errorf("words %q", r.Words)
		}
		return
	}
	t.Errorf("no repair binds the leads: %+v", advice[0])
}

// Results must not depend on how the work was shared out.
func TestRepairsAreTheSameOnAnyNumberOfWorkers(t *testing.T) {
	doc := example(t, "quarry-survey")
	var all [][]sizing.Advice
	for _, workers := range []int{1, 3} {
		advice, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{Options: sizing.Options{Workers: workers}, Checks: []string{"heading"}})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, advice)
	}
	if !reflect.DeepEqual(all[0], all[1]) {
		t.Errorf("one worker\n%+v\nthree\n%+v", all[0], all[1])
	}
}

// What is told on the way ends with the answer's best, only gets better, and everything that was to be tried was.
func TestRepairsAreToldAsTheyCome(t *testing.T) {
	doc := example(t, "quarry-survey")
	var last []sizing.Repair
	var done, total, told int
	advice, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{Checks: []string{"heading"}, Partly: func(check string, found []sizing.Repair, d, n int) {
		if check != "heading" || d != done+1 || n < total || d > n || len(found) < len(last) {
			t.Errorf("%s: %d of %d with %d found, after %d of %d with %d", check, d, n, len(found), done, total, len(last))
		}
		last, done, total = found, d, n
		told++
	}})
	if err != nil {
		t.Fatal(err)
	}
	if done != total || told == 0 || len(last) == 0 || !reflect.DeepEqual(last[0], advice[0].Repairs[0]) {
		t.Errorf("told %d times, at last %d of %d with %+v; the answer begins with %+v", told, done, total, last, advice[0].Repairs[0])
	}
}

func TestRepairsOfNothing(t *testing.T) {
	doc := example(t, "river-survey")
	if advice, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{}); err != nil || len(advice) != 0 {
		t.Errorf("a design that passes: %+v, %v", advice, err)
	}
	advice, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{Checks: []string{"bus"}})
	if err != nil || len(advice) != 1 || advice[0].Words != "Bus passes: there is nothing to repair." {
		t.Errorf("asked of a check that passes: %+v, %v", advice, err)
	}
	if _, err := sizing.Repairs(context.Background(), doc, sizing.RepairOptions{Checks: []string{"colour"}}); err == nil || !strings.Contains(err.Error(), `"colour" is no check`) {
		t.Errorf("asked of no check: %v", err)
	}
	var wrong sizing.Unbuildable
	if _, err := sizing.Repairs(context.Background(), changed(t, doc, "mast.wall", "12 mm"), sizing.RepairOptions{}); !errors.As(err, &wrong) || len(wrong) == 0 {
		t.Errorf("asked of what cannot be built: %v", err)
	}
}
