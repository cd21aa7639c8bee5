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
}

// PLA softens at 54 °C (its data in the library) and a closed car at 60 °C is no matter of dimensions.
func TestContradictionOfOne(t *testing.T) {
	doc := example(t, "orchard-mapper")
	z, err := sizing.Lightest(context.Background(), doc, sizing.LightestOptions{Free: []string{"mast.height"}})
	if err != nil {
		t.Fatal(err)
	}
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

// Every example is sized with all that is usually free: minutes, so only on request.
func TestEveryExampleSized(t *testing.T) {
	if os.Getenv("MASTWRIGHT_LONG") == "" {
		t.Skip("set MASTWRIGHT_LONG=1 for the sizing of every example")
	}
	for _, e := range assets.Examples() {
		t.Run(e.Name, func(t *testing.T) {
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
