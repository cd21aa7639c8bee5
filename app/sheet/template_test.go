package sheet_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/paper"
	"mastwright/app/sheet/pdf"
)

// fine is the resolution at which a page is measured, dots an inch: a dot is 0.042 mm.
const fine = 600

// dark is a page as black and white dots.
type dark struct {
	width, height int
	dots          []byte
}

func rendered(t *testing.T, name string, page int) dark {
	t.Helper()
	root := filepath.Join(t.TempDir(), "page")
	tool(t, "pdftoppm", "-r", fmt.Sprint(fine), "-gray", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), "-singlefile", name, root)
	data, err := os.ReadFile(root + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	var d dark
	var most int
	if _, err := fmt.Fscanf(bytes.NewReader(data), "P5\n%d %d\n%d\n", &d.width, &d.height, &most); err != nil {
		t.Fatal(err)
	}
	d.dots = data[len(data)-d.width*d.height:]
	return d
}

// run is a straight chain of dark dots, in mm.
type run struct{ at, from, long float64 }

// runs are the level or upright chains with a length between two bounds.
func (d dark) runs(upright bool, least, most float64) []run {
	const mm = 25.4 / fine
	lines, along := d.height, d.width
	if upright {
		lines, along = along, lines
	}
	var out []run
	for l := range lines {
		start := -1
		for i := range along + 1 {
			black := false
			if i < along {
				x, y := i, l
				if upright {
					x, y = l, i
				}
				black = d.dots[y*d.width+x] < 128
			}
			switch {
			case black && start < 0:
				start = i
			case !black && start >= 0:
				if long := float64(i-start) * mm; long >= least && long <= most {
					out = append(out, run{float64(l) * mm, float64(start) * mm, long})
				}
				start = -1
			}
		}
	}
	return out
}

func pageWith(t *testing.T, name, words string) int {
	t.Helper()
	for i, p := range pages(t, name) {
		if strings.Contains(p.text(), words) {
			return i + 1
		}
	}
	t.Fatalf("no page says %q", words)
	return 0
}

// The template and its bar are true to a tenth of a millimetre in the page that an independent reader draws. The frame's holes of the
// river survey stand 30.5 mm apart, as its design file says.
func TestTemplateIsTrue(t *testing.T) {
	s, _ := passing(t)
	for _, size := range []pdf.Size{pdf.A4, pdf.Letter} {
		name := written(t, s, pdf.Options{Size: size})
		d := rendered(t, name, pageWith(t, name, "Drilling template"))
		bars := d.runs(false, 45, 55)
		if len(bars) == 0 {
			t.Fatal("there is no bar of 50 mm")
		}
		for _, b := range bars {
			if math.Abs(b.long-50) > 0.1 {
				t.Errorf("the bar is %.3f mm long", b.long)
			}
		}
		// the crosses in the holes: 3.2 mm and 1.6 mm more at each side, so 6.4 mm long
		for _, upright := range []bool{false, true} {
			low, high := math.Inf(1), math.Inf(-1)
			marks := d.runs(upright, 6.3, 6.5)
			for _, r := range marks {
				low, high = min(low, r.at), max(high, r.at)
			}
			thick := 0.18 // a line is some dots thick: from its first in one hole to its last in the other
			if got := high - low - thick + 25.4/fine; len(marks) < 4 || math.Abs(got-30.5) > 0.1 {
				t.Errorf("size %v, upright %v: the holes are %.3f mm apart, want 30.5", size, upright, got)
			}
		}
	}
}

// The bar of the measuring card is true as well.
func TestCardIsTrue(t *testing.T) {
	for _, size := range []pdf.Size{pdf.A4, pdf.Letter} {
		name := written(t, sheet.Card(sheet.CardOptions{}), pdf.Options{Size: size})
		bars := rendered(t, name, 1).runs(false, 47, 53)
		if len(bars) == 0 {
			t.Fatal("there is no bar of 50 mm")
		}
		for _, b := range bars {
			if math.Abs(b.long-50) > 0.1 {
				t.Errorf("the bar is %.3f mm long", b.long)
			}
		}
	}
}

// A foot that is larger than the paper has no template that lies; the holes are there in figures.
func TestTemplateTooLarge(t *testing.T) {
	doc := example(t, "river-survey")
	change(t, doc, "foot.size.x", "200 mm", "foot.size.y", "200 mm")
	s, _ := sheetOf(t, doc)
	for _, section := range s.Sections {
		if !strings.HasPrefix(section.Title, "Drilling template") {
			continue
		}
		for _, b := range section.Blocks {
			if _, drawn := b.(paper.Figure); drawn {
				t.Error("a template is drawn that does not fit the paper")
			}
		}
		if words := said(section.Blocks); !strings.Contains(words, "does not fit on this paper") || !strings.Contains(words, "15.25") {
			t.Errorf("the section says\n%s", words)
		}
	}
}
