package sheet_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"mastwright/app/sheet/paper"
	"mastwright/app/sheet/pdf"
)

// written is a PDF on disk for the poppler tools, a reader from outside this project. Where they are not installed the test is skipped.
func written(t *testing.T, s paper.Sheet, o pdf.Options) string {
	t.Helper()
	for _, tool := range []string{"pdftotext", "pdfinfo", "pdffonts", "pdftoppm"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is not installed (Debian package poppler-utils): the PDF is not read back", tool)
		}
	}
	var b bytes.Buffer
	if err := pdf.Encode(&b, s, o); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}

func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s %s: %v", name, strings.Join(args, " "), err)
	}
	return string(out)
}

// page is the words of a page with their boxes in points, as pdftotext -bbox reports them.
type page struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []struct {
		XMin float64 `xml:"xMin,attr"`
		YMin float64 `xml:"yMin,attr"`
		XMax float64 `xml:"xMax,attr"`
		YMax float64 `xml:"yMax,attr"`
		Text string  `xml:",chardata"`
	} `xml:"word"`
}

func pages(t *testing.T, name string) []page {
	t.Helper()
	var doc struct {
		Pages []page `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal([]byte(tool(t, "pdftotext", "-bbox", name, "-")), &doc); err != nil {
		t.Fatal(err)
	}
	return doc.Pages
}

func (p page) text() string {
	var words []string
	for _, w := range p.Words {
		words = append(words, w.Text)
	}
	return strings.Join(words, " ")
}

// Every page of every sheet has the size that was asked for and its number, and no word leaves the page or its margins.
func TestPages(t *testing.T) {
	well, _ := passing(t)
	ill, _ := failing(t)
	long, _ := overlong(t)
	little, _ := unanswered(t)
	const margin = 15.5 / 25.4 * 72 // the margins are 16 mm; a letter's box may stand out a little
	for _, c := range []struct {
		name          string
		sheet         paper.Sheet
		size          pdf.Size
		width, height float64 // points: ISO 216, ANSI/ASME Y14.1
		first         []string
		every         string
	}{
		{"passing, A4", well, pdf.A4, 595.28, 841.89, []string{"River survey", "Revision A", "2026-07-14", "v1.2.3", "All 14 checks pass", "Take the propellers off"}, "page"},
		{"passing, Letter", well, pdf.Letter, 612, 792, []string{"River survey", "Take the propellers off"}, "page"},
		{"failing", ill, pdf.A4, 595.28, 841.89, []string{"3 checks fail.", "Strength:", "Tip-over:", "Heat:", "Take the propellers off"}, "3 CHECKS FAIL"},
		{"long names, many leads and holes", long, pdf.A4, 595.28, 841.89, []string{"Wasserläufer", "checks fail.", "Take the propellers off"}, "CHECKS FAIL"},
		{"tube", styleOf(t, "tube"), pdf.A4, 595.28, 841.89, []string{"10/8 mm tube", "Take the propellers off"}, "page"},
		{"plates", styleOf(t, "twin-plate"), pdf.Letter, 612, 792, []string{"two plates cut from sheet", "Take the propellers off"}, "page"},
		{"legs", styleOf(t, "legs"), pdf.Letter, 612, 792, []string{"4 legs, printed lying", "Take the propellers off"}, "page"},
		{"little answered", little, pdf.Letter, 612, 792, []string{"10 checks have no data", "Take the propellers off"}, "page"},
	} {
		t.Run(c.name, func(t *testing.T) {
			all := pages(t, written(t, c.sheet, pdf.Options{Size: c.size}))
			if len(all) < 10 {
				t.Fatalf("%d pages", len(all))
			}
			for i, p := range all {
				if dx, dy := p.Width-c.width, p.Height-c.height; dx*dx+dy*dy > 0.01 { // pdftotext rounds to a thousandth of a point
					t.Errorf("page %d is %g by %g points, want %g by %g", i+1, p.Width, p.Height, c.width, c.height)
				}
				words := p.text()
				if want := fmt.Sprintf("page %d of %d", i+1, len(all)); !strings.Contains(words, want) {
					t.Errorf("page %d does not say %q", i+1, want)
				}
				if i > 0 && !strings.Contains(words, c.every) {
					t.Errorf("page %d does not say %q", i+1, c.every)
				}
				for _, w := range p.Words {
					if w.XMin < margin || w.XMax > p.Width-margin || w.YMin < 15 || w.YMax > p.Height-15 {
						t.Errorf("page %d: %q leaves its margins, %.1f to %.1f across and %.1f to %.1f down", i+1, w.Text, w.XMin, w.XMax, w.YMin, w.YMax)
					}
				}
			}
			for _, want := range c.first {
				if !strings.Contains(all[0].text(), want) {
					t.Errorf("the first page does not say %q", want)
				}
			}
		})
	}
}

// The fonts are embedded, and the letters that a technical paper needs come out of it as what they are.
func TestFontsAndLetters(t *testing.T) {
	s, _ := passing(t)
	s.Sections = append(slices.Clone(s.Sections), paper.Section{Blocks: []paper.Block{paper.Prose{Text: "µ ° Ø × ± ≤ ≥ √ Δ ² – Ω π"}, paper.Prose{Mono: true, Text: "µ° × ≤ √"}}})
	name := written(t, s, pdf.Options{})
	words := strings.Join(strings.Fields(tool(t, "pdftotext", name, "-")), "") // it does not see every space between single signs
	for _, want := range []string{"µ°Ø×±≤≥√Δ²–Ωπ", "µ°×≤√"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q does not come out of the file", want)
		}
	}
	lines := strings.Split(strings.TrimSpace(tool(t, "pdffonts", name)), "\n")[2:]
	if len(lines) != 3 {
		t.Errorf("%d fonts, want 3", len(lines))
	}
	for _, line := range lines {
		f := strings.Fields(line) // name, type (CID TrueType), encoding, emb, sub, uni, object
		if emb := f[len(f)-5]; emb != "yes" {
			t.Errorf("a font is not embedded: %s", line)
		}
	}
	if info := tool(t, "pdfinfo", name); !strings.Contains(info, "Build sheet: River survey") || !strings.Contains(info, "2026") {
		t.Errorf("title and day are missing in\n%s", info)
	}
}
