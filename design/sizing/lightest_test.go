package sizing_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// reread is a design after it was written to a file and read again.
func reread(t *testing.T, doc *design.Document) *design.Document {
	t.Helper()
	var b bytes.Buffer
	if err := design.Encode(&b, doc); err != nil {
		t.Fatal(err)
	}
	again, wrong := design.Decode(b.Bytes(), design.Options{Name: "sized.yaml"})
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	return again
}

// stands checks a sized design from its saved file, with a review that remembers nothing: no check fails, its lowest mode is at least 1.5
// times the attitude bandwidth, it weighs what was said, and what is said to bind does.
func stands(t *testing.T, doc *design.Document, z sizing.Sized) {
	t.Helper()
	saved := reread(t, z.Document)
	r, before := judged(t, saved), judged(t, doc)
	if !z.Passes || r.Count(review.Fail) > 0 {
		t.Errorf("passes %v, but %d checks of the saved file fail; %v", z.Passes, r.Count(review.Fail), z.Words)
	}
	if modes, _ := r.Verdict("modes"); modes.State != review.NoData {
		i := slices.IndexFunc(modes.Figures, func(f review.Figure) bool { return f.Name == "lowest mode over control bandwidth" })
		if i < 0 || modes.Figures[i].Value < 1.5 {
			t.Errorf("the lowest mode is not at 1.5 times the bandwidth: %+v", modes.Figures)
		}
	}
	if r.Mass != z.After.Mass {
		t.Errorf("the saved design weighs %g g, said %g g", r.Mass, z.After.Mass)
	}
	marginal, was := r.Count(review.Marginal), before.Count(review.Marginal)
	if before.Count(review.Fail) == 0 && (marginal > was || marginal == was && r.Mass > before.Mass) {
		t.Errorf("%d marginal and %g g from %d and %g g", marginal, r.Mass, was, before.Mass)
	}
	if len(z.Changes) > 0 && len(z.Binds) == 0 {
		t.Error("nothing is said to bind")
	}
	for _, b := range z.Binds {
		if b.Problem != "" {
			continue
		}
		beyond := judged(t, changed(t, saved, b.Path, b.Value))
		if v, _ := beyond.Verdict(b.Check); v.State != b.State || beyond.Mass >= r.Mass {
			t.Errorf("%s %s: %s is %v at %g g, said %v and less than %g g", b.Path, b.Value, b.Check, v.State, beyond.Mass, b.State, r.Mass)
		}
	}
}

func TestLightestOfThreeFields(t *testing.T) {
	doc := example(t, "river-survey")
	var all []sizing.Sized
	for _, workers := range []int{1, 2} {
		z, err := sizing.Lightest(context.Background(), doc, sizing.LightestOptions{
			Options: sizing.Options{Workers: workers}, Free: []string{"mast.wall", "mast.root.x", "foot.thickness"}})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, z)
	}
	stands(t, doc, all[0])
	if all[0].After.Mass > 0.9*all[0].Before.Mass {
		t.Errorf("%g g from %g g", all[0].After.Mass, all[0].Before.Mass)
	}
	for _, c := range all[0].Changes {
		if !slices.Contains([]string{"mast.wall", "mast.root.x", "foot.thickness"}, c.Path) {
			t.Errorf("%s was not free", c.Path)
		}
	}
	if !reflect.DeepEqual(all[0].Changes, all[1].Changes) || all[0].Reviews != all[1].Reviews {
		t.Errorf("two workers find %v after %d, one %v after %d", all[1].Changes, all[1].Reviews, all[0].Changes, all[0].Reviews)
	}
}

// No height keeps a compass 110 mm from a loose pair with a mount that may not weigh what 105 mm of it do; either alone is kept.
func TestContradictionIsNamed(t *testing.T) {
	doc := example(t, "quarry-survey")
	tall := judged(t, changed(t, doc, "mast.height", "105 mm"))
	balance, _ := tall.Verdict("balance")
	most := fmt.Sprint(balance.Figure.Value / 100)
	doc = changed(t, doc, "limits.balance.pass", most, "limits.balance.marginal", most)
	z, err := sizing.Lightest(context.Background(), doc, sizing.LightestOptions{Free: []string{"mast.height"}})
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"heading", "balance"}; z.Passes || !slices.Equal(z.Conflict, want) {
		t.Errorf("passes %v, conflict %v, want %v; %v", z.Passes, z.Conflict, want, z.Words)
	}
	if len(z.Words) == 0 || !strings.Contains(z.Words[0], "Heading fails above 45°") {
		t.Errorf("words %v", z.Words)
	}
	loosened(t, z)
}

// loosened checks that what is said to loosen a conflict does, in the best design that was found.
func loosened(t *testing.T, z sizing.Sized) {
	t.Helper()
	if len(z.Loosen) == 0 {
		t.Errorf("nothing loosens it; %v", z.Words)
	}
	for _, r := range z.Loosen {
		doc, err := r.Apply(z.Document)
		if err != nil {
			t.Fatal(err)
		}
		if v, _ := judged(t, doc).Verdict(r.Check); v.State == review.Fail || v.State != r.To {
			t.Errorf("%q: %s is %v", r.Words, r.Check, v.State)
		}
	}
}

// A style that was asked for and cannot be built is no reason to hand the present one back.
func TestNoStyleCanBeBuilt(t *testing.T) {
	doc := changed(t, example(t, "river-survey"), "mast.split", "one piece", "mast.cable_way.length", "8 mm", "mast.cable_way.bottom", "12 mm", "mast.height", "40 mm")
	for _, c := range []struct {
		styles     []string
		impossible int
		built      string // "" where none can be
	}{
		{[]string{"tube", "twin-plate"}, 2, ""}, // both need more height between what clamps them
		{[]string{"tube", "legs"}, 1, "legs"},
	} {
		z, err := sizing.Lightest(context.Background(), doc, sizing.LightestOptions{Free: []string{"foot.thickness"}, Styles: c.styles})
		if err != nil {
			t.Fatal(err)
		}
		if len(z.Impossible) != c.impossible || len(z.Words) == 0 || z.Passes != (c.built != "") || z.Passes && z.Document.Mast.Build != c.built {
			t.Errorf("asked for %v: passes %v as %s, impossible %q; %v", c.styles, z.Passes, z.Document.Mast.Build, z.Impossible, z.Words)
		}
		if z.Passes {
			reread(t, z.Document)
		}
	}
}

// PLA softens at 54 °C (its data in the library) and a closed car at 60 °C is no matter of dimensions.
func TestContradictionOfOne(t *testing.T) {
	doc := example(t, "orchard-mapper")
	z, err := sizing.Lightest(context.Background(), doc, sizing.LightestOptions{Free: []string{"mast.height"}})
	if err != nil {
		t.Fatal(err)
	}
	loosened(t, z)
	if z.Passes || !slices.Equal(z.Conflict, []string{"heat"}) || !strings.HasPrefix(z.Words[0], "Heat fails below 0 K in each of") {
		t.Errorf("passes %v, conflict %v; %v", z.Passes, z.Conflict, z.Words)
	}
}

func TestRequestsThatCannotBeMet(t *testing.T) {
	doc := example(t, "river-survey")
	for _, c := range []struct {
		name string
		o    sizing.LightestOptions
		want string
	}{
		{"nothing free", sizing.LightestOptions{Keep: sizing.Movable(doc)}, "nothing is free"},
		{"what is kept is all that was free", sizing.LightestOptions{Free: []string{"mast.wall"}, Keep: []string{"mast.wall"}}, "nothing is free"},
		{"no such field", sizing.LightestOptions{Free: []string{"mast.colour"}}, "mast.colour: there is no such field"},
		{"a fact", sizing.LightestOptions{Free: []string{"receiver.mass"}}, "receiver.mass is measured"},
		{"no such plastic", sizing.LightestOptions{Materials: []string{"cheese"}}, `"cheese" is no choice`},
		{"no such style", sizing.LightestOptions{Styles: []string{"tower"}}, `"tower" is no choice`},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := sizing.Lightest(context.Background(), doc, c.o); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
}

// Examples are sized with all that is usually free: one of each of three styles, and on request all of them, which takes minutes.
func TestEveryExampleSized(t *testing.T) {
	for _, e := range assets.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			if short := []string{"river-survey", "lake-soundings", "marsh-census"}; os.Getenv("MASTWRIGHT_LONG") == "" && !slices.Contains(short, e.Name) {
				t.Skip("set MASTWRIGHT_LONG=1 for the sizing of every example")
			}
			doc := example(t, e.Name)
			z, err := sizing.Lightest(context.Background(), doc, sizing.LightestOptions{})
			if err != nil {
				t.Fatal(err)
			}
			t.Log(z.Reviews, z.Words, z.Changes)
			stands(t, doc, z)
		})
	}
}
