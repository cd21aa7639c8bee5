package review_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

func example(t testing.TB, name string) *design.Document {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name != name {
			continue
		}
		doc, problems := design.Decode(e.Data, design.Options{Name: name})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return doc
	}
	t.Fatalf("no example %q", name)
	return nil
}

func set(t testing.TB, doc *design.Document, changes ...string) *design.Document {
	t.Helper()
	doc = doc.Clone()
	for i := 0; i < len(changes); i += 2 {
		if err := doc.Set(changes[i], changes[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	return doc
}

func judge(t testing.TB, doc *design.Document) review.Result {
	t.Helper()
	r, problems := review.Judge(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return r
}

// Each example tells the story its opening comment promises. The aircraft are invented; what is checked here is that story.
func TestExamplesTellTheirStories(t *testing.T) {
	for _, c := range []struct {
		name            string
		fails, marginal []string
	}{
		{"river-survey", nil, nil},
		{"quarry-survey", []string{"heading"}, nil},
		{"hedgerow-scout", []string{"shake"}, []string{"modes", "balance"}},
		{"greenhouse-patrol", nil, []string{"modes", "shake"}},
		{"orchard-mapper", []string{"strength", "tipover", "heat"}, nil},
		{"coastline-watch", nil, []string{"modes", "tipover"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := judge(t, example(t, c.name))
			var fails, marginal []string
			for _, v := range r.Verdicts {
				switch v.State {
				case review.Fail:
					fails = append(fails, v.ID)
				case review.Marginal:
					marginal = append(marginal, v.ID)
				case review.NoData:
					t.Errorf("%s: no data: %s", v.ID, v.Because)
				}
			}
			if !slices.Equal(fails, c.fails) || !slices.Equal(marginal, c.marginal) {
				t.Errorf("fails %v, marginal %v; want %v and %v", fails, marginal, c.fails, c.marginal)
			}
		})
	}
}

// Binding or twisting the loose lead cures the quarry survey's heading and touches no other verdict.
func TestBindingTheLooseLeadCuresHeading(t *testing.T) {
	loose := example(t, "quarry-survey")
	before := judge(t, loose)
	for _, cure := range [][]string{
		{"leads[0].spacing", "5 mm"},
		{"leads[0].run", "twisted", "leads[0].pitch", "35 mm"},
	} {
		after := judge(t, set(t, loose, cure...))
		for i, v := range after.Verdicts {
			if v.ID == "heading" {
				if v.State == review.Fail {
					t.Errorf("%v: heading still fails: %s", cure, v.Because)
				}
			} else if v.State != before.Verdicts[i].State {
				t.Errorf("%v: %s goes from %v to %v", cure, v.ID, before.Verdicts[i].State, v.State)
			}
		}
		if after.Mass != before.Mass {
			t.Errorf("%v: mass goes from %g to %g g", cure, before.Mass, after.Mass)
		}
	}
}

// No number of a result may be infinite or no number at all.
func TestResultsAreFinite(t *testing.T) {
	for _, e := range assets.Examples() {
		doc := example(t, e.Name)
		r, problems := review.Run(doc)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		walk(reflect.ValueOf(r), e.Name, func(path string, x float64) {
			if math.IsNaN(x) || math.IsInf(x, 0) && !strings.HasSuffix(path, "Marginal") {
				t.Errorf("%s is %g", path, x)
			}
		})
	}
}

func walk(v reflect.Value, path string, visit func(string, float64)) {
	switch v.Kind() {
	case reflect.Float64:
		visit(path, v.Float())
	case reflect.Struct:
		for i := range v.NumField() {
			walk(v.Field(i), path+"."+v.Type().Field(i).Name, visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			walk(v.Elem(), path, visit)
		}
	}
}

// An unanswered field gives no data and is named, and every other check still answers.
func TestMissingAnswersAreNamed(t *testing.T) {
	doc := example(t, "river-survey")
	for _, c := range []struct {
		path   string
		checks []string
	}{
		{"cable.length", []string{"bus"}},
		{"site.latitude", []string{"heading", "level"}},
		{"motors.blades", []string{"modes", "shake"}},
		{"leads[0].currents.full", []string{"clearance", "heading"}},
		{"receiver.mass", []string{"sway", "modes", "shake", "strength", "tipover", "balance"}},
	} {
		t.Run(c.path, func(t *testing.T) {
			without := doc.Clone()
			without.Clear(c.path)
			var got []string
			for _, v := range judge(t, without).Verdicts {
				if v.State != review.NoData {
					continue
				}
				got = append(got, v.ID)
				if !slices.Contains(v.Missing, c.path) {
					t.Errorf("%s does not name %s but %v", v.ID, c.path, v.Missing)
				}
			}
			if !slices.Equal(got, c.checks) {
				t.Errorf("no data in %v, want %v", got, c.checks)
			}
		})
	}
}

func TestReviewIsTheSameEveryTime(t *testing.T) {
	doc := example(t, "greenhouse-patrol")
	if a, b := judge(t, doc), judge(t, doc); !reflect.DeepEqual(a, b) {
		t.Error("two reviews of one design differ")
	}
}

func TestAcceptedFailureKeepsItsState(t *testing.T) {
	data := string(exampleData(t, "orchard-mapper")) + "accepted:\n  - {check: heat, reason: it never waits in a car}\n  - {check: sky, reason: no reason}\n"
	doc, problems := design.Decode([]byte(data), design.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r := judge(t, doc)
	heat, _ := r.Verdict("heat")
	if heat.State != review.Fail || heat.Accepted != "it never waits in a car" {
		t.Errorf("heat is %v, accepted %q", heat.State, heat.Accepted)
	}
	sky, _ := r.Verdict("sky")
	if !slices.ContainsFunc(sky.Notes, func(n string) bool { return strings.Contains(n, "no longer needed") }) {
		t.Errorf("the acceptance of a passing check is not reported: %v", sky.Notes)
	}
}

func exampleData(t testing.TB, name string) []byte {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name == name {
			return e.Data
		}
	}
	t.Fatalf("no example %q", name)
	return nil
}

func ExampleJudge() {
	doc, problems := design.Decode(assets.Examples()[0].Data, design.Options{Name: "first"})
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	r, problems := review.Judge(doc)
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	fmt.Println(r.Design, len(r.Verdicts), "checks,", r.Count(review.Fail), "fail")
	// Output: Coastline watch 14 checks, 0 fail
}

// A lead given as one wire's own loop is summed as it lies: a square of 40 mm below the compass, 10 A more in cruise than at idle. The
// field on a square loop's axis is µ0 I a²/(2π (z²+a²/4) sqrt(z²+a²/2)) (any textbook of electromagnetism) and upright there, so a
// level compass straight above its middle does not see it.
func TestLoopLeadIsTheLoopItself(t *testing.T) {
	doc := set(t, example(t, "river-survey"), "leads[0].given", "loop", "leads[0].currents.hover", "8 A", "leads[0].currents.cruise", "10.4 A",
		"assume.placement_side", "0 mm")
	for i, p := range [][2]string{{"-62 mm", "20 mm"}, {"-102 mm", "20 mm"}, {"-102 mm", "-20 mm"}, {"-62 mm", "-20 mm"}} {
		if err := doc.Insert("leads[0].points", i); err != nil {
			t.Fatal(err)
		}
		doc = set(t, doc, fmt.Sprintf("leads[0].points[%d].x", i), p[0], fmt.Sprintf("leads[0].points[%d].y", i), p[1], fmt.Sprintf("leads[0].points[%d].z", i), "36 mm")
	}
	v, _ := judge(t, doc).Verdict("heading")
	if v.State != review.Pass || v.Figures[1].Value > 1e-6 {
		t.Errorf("straight above the loop the swing in cruise is %g°, %s", v.Figures[1].Value, v.Because)
	}
	share := v.Figures[3].Value / 100 // of the total field, hover: 7.6 A
	const mu0, a, z = 4e-7 * math.Pi, 0.040, 0.100
	field := mu0 * 7.6 * a * a / (2 * math.Pi * (z*z + a*a/4) * math.Sqrt(z*z+a*a/2))
	r, _ := review.Run(doc)
	if want := field * 1e6 / r.Compass.Total; math.Abs(share/want-1) > 1e-3 {
		t.Errorf("the field changes by %.5f of the total, want %.5f", share, want)
	}
}
