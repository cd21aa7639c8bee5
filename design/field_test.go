package design_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"mastwright/design"
)

// leavesOf lists the leaves and lists of a type by reflection alone.
func leavesOf(t reflect.Type, at string) []string {
	var paths []string
	for i := range t.NumField() {
		f := t.Field(i)
		path := strings.TrimPrefix(at+"."+f.Tag.Get("yaml"), ".")
		switch {
		case !f.IsExported():
		case f.Type.Kind() == reflect.Struct:
			paths = append(paths, leavesOf(f.Type, path)...)
		case f.Type.Kind() == reflect.Slice:
			paths = append(append(paths, path), leavesOf(f.Type.Elem(), path+"[]")...)
		default:
			paths = append(paths, path)
		}
	}
	return paths
}

func TestEveryLeafHasOneRowAndEveryRowALeaf(t *testing.T) {
	leaves := leavesOf(reflect.TypeFor[design.Document](), "")
	var rows []string
	for _, f := range design.Fields() {
		rows = append(rows, f.Path)
	}
	for i := range max(len(rows), len(leaves)) {
		if i >= len(rows) || i >= len(leaves) || rows[i] != leaves[i] {
			t.Fatalf("row %d: got %v, want %v", i, rows[min(i, len(rows)):min(i+2, len(rows))], leaves[min(i, len(leaves)):min(i+2, len(leaves))])
		}
	}
}

func TestRowsAreComplete(t *testing.T) {
	stages := []string{"measure", "shape", "check", "make", "prove"}
	for _, f := range design.Fields() {
		t.Run(f.Path, func(t *testing.T) {
			if f.Title == "" || !strings.HasSuffix(f.Help, ".") || strings.Count(f.Help, "\n") > 0 {
				t.Errorf("title %q, help %q", f.Title, f.Help)
			}
			if f.Form == 0 || !slices.Contains(stages, f.Stage) {
				t.Errorf("form %v, stage %q", f.Form, f.Stage)
			}
			if f.Default != "" && f.Otherwise != "" {
				t.Errorf("both a default %q and a stand-in %q", f.Default, f.Otherwise)
			}
			if numeric := f.Form != design.Choice && f.Form != design.Flag; numeric && f.Low >= f.High && f.Path != "mastwright" {
				t.Errorf("range %v to %v", f.Low, f.High)
			}
			for _, c := range f.Checks {
				if !slices.Contains(design.Checks(), c) {
					t.Errorf("check %q does not exist", c)
				}
			}
			for _, w := range f.When {
				on, ok := design.FieldOf(w.Path)
				for _, a := range w.Answers {
					if !ok || on.Check(a) != nil {
						t.Errorf("condition %q cannot be %q", w.Path, a)
					}
				}
			}
			if f.Required() && f.Form == design.Quantity && f.Measure == "" && !strings.Contains(f.Path, "[].") {
				t.Error("a needed quantity without a way to measure it")
			}
		})
	}
}

// What a person may type into one field, and what is said.
func TestCheck(t *testing.T) {
	const spacing = "airframe.places[0].holes.along"
	for _, c := range []struct{ path, text, want string }{
		{spacing, "30.5", ""},
		{spacing, "1.2 in", ""},
		{spacing, "305", "305 mm is outside 10 to 120 mm. Did you mean 30.5 mm?"},
		{spacing, "3.05 mm", "3.05 mm is outside 10 to 120 mm. Did you mean 30.5 mm?"},
		{spacing, "1.2", "1.2 mm is outside 10 to 120 mm. Did you mean 12 mm?"},
		{spacing, "0.8", "0.8 mm is outside 10 to 120 mm. Did you mean 20.32 mm?"},
		{spacing, "30.5 cm", "30.5 cm (305 mm) is outside 10 to 120 mm. Did you mean 30.5 mm?"},
		{spacing, "0", "0 mm is outside 10 to 120 mm. Write a value between."},
		{spacing, "-30.5", "-30.5 mm is outside 10 to 120 mm. Did you mean 30.5 mm?"},
		{"mast.height", "1,000", `"1,000" can be read two ways; write 1000 or 1.0`},
		{"mast.height", "1000", "1000 mm is outside 10 to 400 mm. Did you mean 100 mm?"},
		{"mast.height", "NaN", `"NaN" is not a finite number; write one like "100 mm"`},
		{"mast.height", "010", `"010" begins with a spare zero; write 10`},
		{"airframe.mass", "1.15 kg", ""},
		{"airframe.mass", "1.15", "1.15 g is outside 50 to 25000 g. Did you mean 1150 g?"},
		{"site.longitude", "240", "240 deg is outside -180 to 180 deg. Did you mean -120 deg?"},
		{"site.altitude", "402", ""},
		{"loads.sideways", "3", ""},
		{"loads.sideways", "29.4 m/s2", ""},
		{"cable.clock", "100", ""},
		{"motors.cells", "6.5", `"6.5" is not a whole number; write one like "7"`},
		{"motors.cells", "60", "60 is outside 1 to 14; write a whole number between"},
		{"foot.screws", "nylen", `"nylen" is not a choice; did you mean "nylon"?`},
		{"site.extrapolated", "yes", `"yes" is neither true nor false; write one of the two`},
		{"accepted[0].reason", "no", `"no" is short; write at least 3 letters`},
	} {
		t.Run(c.path+" "+c.text, func(t *testing.T) {
			f, ok := design.FieldOf(c.path)
			if !ok {
				t.Fatal("no such field")
			}
			got := ""
			if err := f.Check(c.text); err != nil {
				got = err.Error()
			}
			if got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}
