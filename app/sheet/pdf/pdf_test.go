package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"mastwright/app/sheet/paper"
	"mastwright/app/sheet/pdf"
)

func encoded(t *testing.T, s paper.Sheet, o pdf.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Encode(&b, s, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pageCount(data []byte) int {
	return len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(data, -1))
}

// Blocks that are higher than a page go on to the next; none of them is lost, hangs or panics.
func TestBlocksHigherThanAPage(t *testing.T) {
	long := strings.Repeat("words and more words ", 900)
	wall := strings.Repeat("W", 9000) // one word
	for _, c := range []struct {
		name  string
		block paper.Block
	}{
		{"prose", paper.Prose{Text: long}},
		{"one word", paper.Prose{Text: wall}},
		{"list", paper.List{Items: []string{long, wall}}},
		{"notice", paper.Notice{Title: long, Tone: paper.Bad, Lines: []string{long}}},
		{"table row", paper.Table{Columns: []paper.Column{{Title: "a", Share: 1}, {Title: wall[:300], Share: 1}}, Rows: []paper.Row{{Cells: paper.Words(long, wall), Tone: paper.Bad}}}},
		{"checks", paper.Checks{{Do: long, Expect: wall, IfNot: long, Blanks: make([]paper.Blank, 90)}}},
		{"heading", paper.Heading{Text: wall}},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := encoded(t, paper.Sheet{Kind: "K", Title: wall, Revision: wall, Alarm: wall, Foot: wall, Sections: []paper.Section{{Title: wall, Blocks: []paper.Block{c.block}}}}, pdf.Options{})
			if n := pageCount(data); n < 2 || n > 60 {
				t.Errorf("%d pages", n)
			}
		})
	}
}

// Data never panics: no columns, no shares, more cells than columns, nothing at all, letters of every kind.
func TestOddData(t *testing.T) {
	odd := "漢字 \x00 \u202e עברית 😀 \xff \U0010FFFF"
	nan := math.NaN()
	s := paper.Sheet{Kind: odd, Title: odd, Date: "yesterday", Sections: []paper.Section{{}, {Title: odd, Fresh: true, Blocks: []paper.Block{
		paper.Table{}, paper.Table{Columns: []paper.Column{{}}, Rows: []paper.Row{{Cells: paper.Words(odd, odd)}, {}}}, paper.Beside{}, paper.Figure{}, paper.Checks{}, paper.List{Items: []string{""}},
		paper.Figure{Drawing: paper.Drawing{Width: 9, Height: 9, Marks: []paper.Mark{paper.Stroke{}, paper.Stroke{Points: []paper.Point{{X: 1}}}, paper.Label{Text: odd, Size: 3, Turn: 40}}}},
	}}}}
	encoded(t, s, pdf.Options{})
	broken := paper.Sheet{Sections: []paper.Section{{Blocks: []paper.Block{paper.Figure{Drawing: paper.Drawing{Width: nan, Height: 5, Marks: []paper.Mark{paper.Image{PNG: []byte("no picture")}}}}}}}}
	if err := pdf.Encode(&bytes.Buffer{}, broken, pdf.Options{}); err == nil {
		t.Error("a picture that is none raises no error")
	}
}

// The day of the file is the day the caller gives and no other.
func TestDay(t *testing.T) {
	if data := encoded(t, paper.Sheet{Title: "x", Date: "2026-07-14"}, pdf.Options{}); !bytes.Contains(data, []byte("/CreationDate (D:20260714000000")) {
		t.Error("the file does not carry the day")
	}
	if data := encoded(t, paper.Sheet{Title: "x"}, pdf.Options{}); !bytes.Contains(data, []byte("/CreationDate (D:20000101000000")) {
		t.Error("the file carries a day that nobody gave")
	}
}

type full struct{}

var errFull = errors.New("no room left")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrorIsReported(t *testing.T) {
	if err := pdf.Encode(full{}, paper.Sheet{Title: "x"}, pdf.Options{}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

func ExampleEncode() {
	var b bytes.Buffer
	err := pdf.Encode(&b, paper.Sheet{Kind: "Note", Title: "Ø 3 mm", Sections: []paper.Section{{Blocks: []paper.Block{paper.Prose{Text: "Drill it."}}}}}, pdf.Options{Size: pdf.Letter})
	fmt.Println(err, b.String()[:5])
	// Output: <nil> %PDF-
}
