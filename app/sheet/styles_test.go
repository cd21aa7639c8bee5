package sheet_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/paper"
	"mastwright/design"
	"mastwright/design/parts"
)

var styled = map[string]*made{"tube": {}, "twin-plate": {}, "legs": {}}

// styleOf is the sheet of a design in a style.
func styleOf(t testing.TB, style string) paper.Sheet {
	s, _ := styled[style].of(t, func() *design.Document {
		doc := example(t, "river-survey")
		change(t, doc, "mast.build", style)
		if style == "twin-plate" {
			change(t, doc, "materials.sheet", "carbon-sheet", "mast.plates.kerf", "0.2 mm")
		}
		return doc
	})
	return s
}

// A style's parts, dust, edge guards, steps and looks after a crash are told, and nothing of another style.
func TestStyles(t *testing.T) {
	for _, c := range []struct {
		style         string
		says, saysNot []string
	}{
		{"tube", []string{"10/8 mm tube", "Cut parts", "dust", "Edge guard", "Close the foot's clamp", "cross screw", "Clamp ears and slit", "Lead the cable through the tube"},
			[]string{"Push the mast", "DOES NOT FIT", "Root fillet: all round the mast", "2 tube: upright"}},
		{"twin-plate", []string{"3 mm sheet", "Cut parts", "dust", "Edge guard", "Set a plate on each side", "in line with the plate", "Both plates: along the edges", "between the plates", "From the left edge"},
			[]string{"Push the mast", "DOES NOT FIT", "bend the mast"}},
		{"legs", []string{"Stand the 4 pads", "glue it", "Every leg: look along it", "leg (4 of it)", "Tighten the pads' screws"},
			[]string{"Push the mast", "Cut parts", "Root fillet: all round the mast", "root fillet: all"}},
	} {
		t.Run(c.style, func(t *testing.T) {
			text := whole(styleOf(t, c.style))
			for _, want := range c.says {
				if !strings.Contains(text, want) {
					t.Errorf("the sheet does not say %q", want)
				}
			}
			for _, not := range c.saysNot {
				if strings.Contains(text, not) {
					t.Errorf("the sheet says %q", not)
				}
			}
		})
	}
}

// Every part that is printed, and none that is cut, is under print settings.
func TestOnlyPrintsArePrinted(t *testing.T) {
	doc := example(t, "river-survey")
	change(t, doc, "mast.build", "twin-plate")
	a, problems := parts.Build(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := styleOf(t, "twin-plate")
	table, ok := tableUnder(s, "Print settings")
	if !ok {
		t.Fatal("there are no print settings")
	}
	var got, want []string
	for _, c := range table.Columns[1:] {
		got = append(got, c.Title)
	}
	for i, p := range a.Parts {
		if p.Making == parts.Printed {
			want = append(want, fmt.Sprintf("%d %s", i+1, p.Name))
		}
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("print settings of %q, want %q", got, want)
	}
}

func tableUnder(s paper.Sheet, heading string) (paper.Table, bool) {
	for _, b := range blocksUnder(s, heading) {
		if t, ok := b.(paper.Table); ok {
			return t, true
		}
	}
	return paper.Table{}, false
}

// The plate is drawn at its true size and as it comes out: the kerf of 0.2 mm is not in it. A plate of the defaults is 24 mm wide.
func TestPlateIsTrue(t *testing.T) {
	s := styleOf(t, "twin-plate")
	found := false
	for _, section := range s.Sections {
		if section.Title != "Cutting" {
			continue
		}
		for _, b := range section.Blocks {
			f, ok := b.(paper.Figure)
			if !ok || !f.Drawing.Exact {
				continue
			}
			found = true
			wide, bar := 0.0, 0.0
			for _, m := range f.Drawing.Marks {
				stroke, ok := m.(paper.Stroke)
				if !ok {
					continue
				}
				low, high := math.Inf(1), math.Inf(-1)
				for _, p := range stroke.Points {
					low, high = min(low, p.X), max(high, p.X)
				}
				switch {
				case !stroke.Closed || stroke.Filled:
				case len(stroke.Points) == 4: // the bar's frame; its line lies inside the 50 mm
					bar = max(bar, high-low+stroke.Width)
				default:
					wide = max(wide, high-low)
				}
			}
			if math.Abs(wide-24) > 0.02 { // arcs are drawn as chords within 0.01 mm on each side
				t.Errorf("the plate is drawn %g mm wide, want 24", wide)
			}
			if math.Abs(bar-50) > 1e-9 {
				t.Errorf("the bar beside the plate is %g mm long, want 50", bar)
			}
		}
	}
	if !found {
		t.Error("no plate is drawn at its true size")
	}
}

// A plate larger than the paper is said to be so, and its holes are still listed.
func TestPlateTooLarge(t *testing.T) {
	doc := example(t, "river-survey")
	change(t, doc, "mast.build", "twin-plate", "mast.height", "260 mm", "mast.plates.spacers", "4")
	s, err := sheet.Build(context.Background(), job(t, doc))
	if err != nil {
		t.Fatal(err)
	}
	text := whole(s)
	if !strings.Contains(text, "It does not fit on this paper at its true size") {
		t.Error("nobody says that the plate is too large for the paper")
	}
}
