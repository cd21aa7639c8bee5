package design_test

import (
	"slices"
	"strings"
	"testing"

	"mastwright/design"
)

// in is the sound design in a style with answers on top.
func in(t *testing.T, build string, answers ...string) *design.Document {
	t.Helper()
	d, problems := design.Decode([]byte(sound), design.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	answers = append([]string{"mast.build", build}, answers...)
	for i := 0; i < len(answers); i += 2 {
		if err := d.Set(answers[i], answers[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	return d
}

// A style's own questions are asked in that style alone.
func TestStylesAskTheirOwn(t *testing.T) {
	own := map[string][]string{
		"column": {"mast.wall", "mast.root.x", "mast.split", "mast.section", "materials.mast"}, "tube": {"mast.tube.outside", "mast.tube.clamp.grip", "materials.tube"},
		"twin-plate": {"mast.plates.gap", "mast.plates.spacer", "mast.plates.lightening.web", "materials.sheet", "materials.spacer"},
		"legs":       {"mast.legs.pattern", "mast.legs.section.x", "materials.legs"},
	}
	for build := range own {
		d := in(t, build)
		for other, paths := range own {
			for _, path := range paths {
				if d.Asked(path) != (build == other) {
					t.Errorf("%s: %s asked %v", build, path, d.Asked(path))
				}
			}
		}
		if got := d.Problems(); len(got) > 0 {
			t.Errorf("%s: %v", build, got)
		}
	}
	if d := in(t, "legs", "mast.legs.pattern", "ring"); !d.Asked("mast.legs.ring") || !d.Asked("mast.legs.count") || d.Asked("mast.legs.spread.x") {
		t.Error("a ring asks for its diameter and count, and for no spread")
	}
	if d := in(t, "column"); d.Asked("mast.fuse.width") || !d.Asked("mast.fuse.fitted") {
		t.Error("a fuse that is not fitted asks for its width")
	}
}

// What a style is made of must come in the form that it is made from.
func TestFormsOfMaterials(t *testing.T) {
	for _, c := range []struct {
		build, path, id, says string
		more                  []string
	}{
		{"tube", "materials.tube", "acetal-sheet", "no tube", nil},
		{"twin-plate", "materials.sheet", "carbon-tube", "no sheet", nil},
		{"twin-plate", "materials.spacer", "acetal-sheet", "cannot be printed", nil},
		{"legs", "materials.legs", "carbon-sheet", "cannot be printed", nil},
		{"legs", "materials.legs", "petg", "no sheet", []string{"mast.legs.made", "cut"}},
		{"twin-plate", "materials.sheet", "acetel-sheet", "is no material", nil},
	} {
		t.Run(c.path+" "+c.id, func(t *testing.T) {
			d := in(t, c.build, append([]string{c.path, c.id}, c.more...)...)
			if !slices.ContainsFunc(d.Problems(), func(p design.Problem) bool { return p.Path == c.path && strings.Contains(p.Text, c.says) }) {
				t.Errorf("got %v; want %s: ... %s", d.Problems(), c.path, c.says)
			}
		})
	}
}

func TestNotesOfStyles(t *testing.T) {
	for _, c := range []struct {
		build, path string
		answers     []string
	}{
		{"twin-plate", "mast.plates.thickness", []string{"mast.plates.thickness", "3.2 mm"}},
		{"twin-plate", "mast.plates.spacer", []string{"mast.plates.spacer", "single screw"}},
		{"twin-plate", "mast.plates.tip", []string{"mast.plates.tip", "30 mm"}},
		{"legs", "mast.legs.section.y", []string{"mast.legs.made", "cut", "materials.legs", "carbon-sheet", "mast.legs.section.y", "2.2 mm"}},
	} {
		if d := in(t, c.build, c.answers...); !slices.ContainsFunc(d.Notes(), func(p design.Problem) bool { return p.Path == c.path }) {
			t.Errorf("%s, %v: no note on %s but %v", c.build, c.answers, c.path, d.Notes())
		}
	}
	for _, build := range []string{"tube", "twin-plate", "legs"} {
		if notes := in(t, build).Notes(); len(notes) > 0 {
			t.Errorf("%s: %v", build, notes)
		}
	}
}

// Foot and tray are at least as large as what stands on the one and carries the other.
func TestSizesOfStyles(t *testing.T) {
	d := in(t, "twin-plate", "mast.plates.root", "90 mm", "mast.plates.tip", "80 mm")
	d.Clear("foot.size.x")
	d.Clear("tray.size.x")
	foot, _ := d.FootSize()
	tray, _ := d.TraySize()
	if foot.X < d.Root().X+2*d.Mast.RootFillet || tray.X < d.Tip().X+2*d.Mast.TipFillet || d.Root().X != 90 || d.Tip().X != 80 || d.Root().Y != d.Mast.Plates.Gap {
		t.Errorf("foot %v, tray %v around %v and %v", foot, tray, d.Root(), d.Tip())
	}
	if r := in(t, "tube").Root(); r.X != 18 || r.Y != 18 { // 10 mm and two walls of 4
		t.Errorf("a tube's clamp is %v; want 18 mm", r)
	}
	if r := in(t, "legs").Root(); r != (design.Rectangle{}) {
		t.Errorf("legs stand on %v; want nothing", r)
	}
}

func TestTheBearingMaterialGoesWithTheStyle(t *testing.T) {
	d := design.New()
	for style, path := range map[string]string{"column": "materials.mast", "tube": "materials.tube", "twin-plate": "materials.sheet", "legs": "materials.legs"} {
		if err := d.Set("mast.build", style); err != nil {
			t.Fatal(err)
		}
		if got, want := d.Bearing(), d.Get(path); got != want {
			t.Errorf("%s: got %q, want %q", style, got, want)
		}
	}
}
