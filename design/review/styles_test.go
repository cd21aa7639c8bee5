package review_test

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

// Every style is there on every example: built, or with a reason that names a field; the design's own as the design has it.
func TestCompareStyles(t *testing.T) {
	for _, name := range []string{"river-survey", "hedgerow-scout", "coastline-watch", "greenhouse-patrol"} {
		t.Run(name, func(t *testing.T) {
			doc := example(t, name)
			list, err := review.CompareStyles(t.Context(), doc)
			if err != nil {
				t.Fatal(err)
			}
			var names []string
			for i, o := range list {
				names = append(names, o.Name)
				if o.Own != (o.Name == doc.Mast.Build) {
					t.Errorf("%s: own %v", o.Name, o.Own)
				}
				if o.Pieces == 0 {
					if !strings.Contains(o.Because, "cannot be built so: mast.") {
						t.Errorf("%s: %s", o.Name, o.Because)
					}
					continue
				}
				if o.First < 20 || o.First > 1000 || o.Mass < 3 || o.Mass > 200 || !(o.Tilt > 0) || len(o.Make) == 0 || len(o.Buy) == 0 {
					t.Errorf("%s: %+v", o.Name, o)
				}
				if i > 0 && list[i-1].Pieces > 0 && list[i-1].Fails > o.Fails {
					t.Errorf("%s before %s with more failures", list[i-1].Name, o.Name)
				}
				for _, list := range [][]string{o.Make, o.Cut, o.Buy} {
					for i, item := range list {
						if slices.Contains(list[:i], item) {
							t.Errorf("%s: %q twice", o.Name, item)
						}
					}
				}
				if cut := len(o.Cut) > 0; cut != (o.Name == "twin-plate") {
					t.Errorf("%s: cut %v", o.Name, o.Cut)
				}
			}
			slices.Sort(names)
			if want := []string{"column", "legs", "tube", "twin-plate"}; !slices.Equal(names, want) {
				t.Errorf("styles %v; want %v", names, want)
			}
			if got := example(t, name); got.Get("mast.build") != doc.Get("mast.build") || doc.Get("mast.build") != "column" {
				t.Error("the design changed")
			}
		})
	}
}

// A style's own section, once it is in the design, is what is compared.
func TestCompareStylesKeepsTheDesigns(t *testing.T) {
	doc := set(t, example(t, "river-survey"), "mast.build", "twin-plate", "mast.plates.spacers", "2", "mast.plates.spacer", "tabs")
	list, err := review.CompareStyles(t.Context(), doc)
	if err != nil {
		t.Fatal(err)
	}
	want := judge(t, doc)
	for _, o := range list {
		if o.Name == "twin-plate" && (o.Mass != want.Mass || o.First != want.Flying[0].Hz || !slices.Contains(o.Make, "2 spacers")) {
			t.Errorf("got %.3f g, %.2f Hz, %v; want %.3f g, %.2f Hz and two spacers", o.Mass, o.First, o.Make, want.Mass, want.Flying[0].Hz)
		}
	}
}

// What is bought for several places is one line, and what there are several of has its plural.
func TestCompareStylesAddsUp(t *testing.T) {
	list, err := review.CompareStyles(t.Context(), example(t, "river-survey"))
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range list {
		seen := map[string]bool{}
		for _, all := range [][]string{o.Make, o.Cut, o.Buy} {
			for _, line := range all {
				count, thing, _ := strings.Cut(line, " ")
				name, _, _ := strings.Cut(thing, " of ")
				if n, err := strconv.Atoi(count); err == nil && n > 1 && !strings.HasSuffix(name, "s") {
					t.Errorf("%s: %q has no plural", o.Name, line)
				} else if err != nil {
					thing = line
				}
				if seen[thing] {
					t.Errorf("%s: %q is listed twice", o.Name, thing)
				}
				seen[thing] = true
			}
		}
		if o.Own && !slices.Contains(o.Buy, "2 M3 × 5 mm screws of nylon") {
			t.Errorf("the screws of foot and tray joint are not one line: %q", o.Buy)
		}
	}
}

// A spacer on one screw is said to be a pivot, where it matters.
func TestPivotsAreNamed(t *testing.T) {
	for _, c := range []struct {
		spacer string
		want   bool
	}{{"single screw", true}, {"two screws", false}, {"tabs", false}} {
		r := judge(t, set(t, example(t, "river-survey"), "mast.build", "twin-plate", "mast.plates.spacer", c.spacer))
		for _, id := range []string{"modes", "sway"} {
			v, _ := r.Verdict(id)
			if got := strings.Contains(strings.Join(v.Notes, " "), "pivots"); got != c.want {
				t.Errorf("%s, %s: pivots named %v; want %v", id, c.spacer, got, c.want)
			}
		}
	}
}

// The words are those of the style.
func TestWordsOfStyles(t *testing.T) {
	for _, c := range []struct{ build, shares, strength string }{
		{"tube", "tube", "clamps against slipping"}, {"twin-plate", "plates", "screws of the plates"}, {"legs", "legs", "pads in bending"},
	} {
		r := judge(t, set(t, example(t, "river-survey"), "mast.build", c.build))
		total := 0.0
		for _, s := range r.Shares {
			total += s.Share
			if s.Name == "mast" {
				t.Errorf("%s: a share of the mast", c.build)
			}
		}
		if r.Shares[0].Name != c.shares || total < 0.999 || total > 1.001 {
			t.Errorf("%s: shares %v", c.build, r.Shares)
		}
		v, _ := r.Verdict("strength")
		if !slices.ContainsFunc(v.Figures, func(f review.Figure) bool { return f.Name == c.strength }) {
			t.Errorf("%s: strength lacks %q: %v", c.build, c.strength, v.Figures)
		}
		sway, _ := r.Verdict("sway")
		if !strings.Contains(sway.Formula, "of the "+c.shares) {
			t.Errorf("%s: %s", c.build, sway.Formula)
		}
	}
}

// Every style has fields that move its figures, and asks for all of them.
func TestMovesOfStyles(t *testing.T) {
	for _, build := range []string{"column", "tube", "twin-plate", "legs"} {
		doc := set(t, example(t, "river-survey"), "mast.build", build)
		for _, c := range review.Checks() {
			moves := c.MovesOf(doc)
			if build == "column" && !slices.Equal(moves, c.Moves) && c.ID != "hardware" {
				t.Errorf("%s of a column: %v; want %v", c.ID, moves, c.Moves)
			}
			if len(moves) == 0 {
				t.Errorf("%s of %s: nothing moves it", c.ID, build)
			}
			for _, path := range moves {
				if _, leaf := design.FieldOf(path); leaf && !strings.Contains(path, "[]") && !doc.Asked(path) {
					t.Errorf("%s of %s: %s is not asked", c.ID, build, path)
				}
			}
		}
		sway, _ := review.Find("sway")
		if own := map[string]string{"column": "mast.wall", "tube": "mast.tube.outside", "twin-plate": "mast.plates.spacers", "legs": "mast.legs.section.x"}[build]; !slices.Contains(sway.MovesOf(doc), own) {
			t.Errorf("%s: sway is moved by %v; want %s among them", build, sway.MovesOf(doc), own)
		}
	}
}

// Comparing plastics changes every printed part, and leaves sheet and tube alone.
func TestComparePlasticsOfStyles(t *testing.T) {
	doc := set(t, example(t, "river-survey"), "mast.build", "legs")
	list, problems, err := review.Compare(t.Context(), doc)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	first := map[string]float64{}
	for _, c := range list {
		first[c.Name] = c.First
	}
	if first["tpu-95a"] > first["petg"]/3 { // its modulus is a thirtieth
		t.Errorf("legs of TPU ring at %.0f Hz, of PETG at %.0f", first["tpu-95a"], first["petg"])
	}
}

func ExampleCompareStyles() {
	doc, problems := design.Decode(assets.Examples()[0].Data, design.Options{Name: "first"})
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	list, err := review.CompareStyles(context.Background(), doc)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range list {
		if len(o.Cut) > 0 {
			fmt.Printf("%s: print %s; cut %s\n", o.Name, strings.Join(o.Make, ", "), strings.Join(o.Cut, ", "))
		}
	}
	// Output:
	// twin-plate: print foot, tray, spacer; cut 2 plates of 4 mm acetal-sheet
}
