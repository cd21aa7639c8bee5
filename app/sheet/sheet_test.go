package sheet_test

import (
	"bytes"
	"context"
	"reflect"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/html"
	"mastwright/app/sheet/markdown"
	"mastwright/app/sheet/paper"
	"mastwright/app/sheet/pdf"
	"mastwright/design/review"
)

// A check that fails is said first, on every page, and before all others among the verdicts.
func TestFailuresComeFirst(t *testing.T) {
	s, r := failing(t)
	first, ok := s.Sections[0].Blocks[0].(paper.Notice)
	if !ok || first.Tone != paper.Bad {
		t.Fatalf("the sheet begins with %v, want a notice of what fails", s.Sections[0].Blocks[0])
	}
	var want []string
	for _, v := range r.Verdicts {
		if v.State == review.Fail {
			want = append(want, v.Title)
		}
	}
	if len(want) == 0 || len(first.Lines) != len(want) {
		t.Fatalf("%d failures are told, want %d", len(first.Lines), len(want))
	}
	for i, title := range want {
		if !strings.HasPrefix(first.Lines[i], title+":") {
			t.Errorf("line %d is %q, want %s", i, first.Lines[i], title)
		}
	}
	if s.Alarm != "3 CHECKS FAIL: read page 1" {
		t.Errorf("every page says %q", s.Alarm)
	}
	seen := 0
	for _, section := range s.Sections {
		for _, b := range section.Blocks {
			if h, ok := b.(paper.Heading); ok && h.Tone != paper.Plain {
				if fails := strings.HasSuffix(h.Text, ": fail"); fails != (seen < len(want)) {
					t.Errorf("heading %d of the verdicts is %q", seen, h.Text)
				}
				seen++
			}
		}
	}
	if calm, _ := passing(t); calm.Alarm != "" || calm.Sections[0].Blocks[0].(paper.Notice).Tone == paper.Bad {
		t.Error("a design that passes raises an alarm")
	}
}

// What is missing is said where its figure would be, and by which answer it comes.
func TestMissingData(t *testing.T) {
	s, r := unanswered(t)
	if n := r.Count(review.NoData); n < 8 {
		t.Fatalf("only %d checks lack data", n)
	}
	words := ""
	for _, section := range s.Sections {
		words += said(section.Blocks)
	}
	for _, want := range []string{
		"checks have no data", "No data: the review has no modes", "No data: the review has no compliance", "Predicted swing: no data", "Predicted rise time of the bus: no data",
		"Predicted to go first: no data", "no data: where the compass sits in the receiver is not answered", "No data for the plots", "where its arrow points is not answered",
		"the place on earth is not answered",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	for _, v := range r.Verdicts {
		if v.State == review.NoData && len(v.Missing) > 0 && !strings.Contains(said(blocksUnder(s, v.Title+": no data")), v.Missing[0]) {
			t.Errorf("%s does not name the answer %q", v.Title, v.Missing[0])
		}
	}
}

// The rotation that the sheet prints is the one that the design implies. A compass whose arrow points to the left of the nose reads
// 90 degrees too little, so 270 where it should read 0: headings grow clockwise (common knowledge, ISO 1151-1 yaw).
func TestMountingRotation(t *testing.T) {
	for arrow, want := range map[string]string{
		"left": "it reads 270 until", "right": "it reads 90 until", "rear": "it reads 180 until",
	} {
		doc := example(t, "river-survey")
		change(t, doc, "receiver.arrow", arrow)
		s, _ := sheetOf(t, doc)
		found := false
		for _, section := range s.Sections {
			found = found || strings.Contains(said(section.Blocks), want)
		}
		if !found {
			t.Errorf("arrow %s: the sheet does not say %q", arrow, want)
		}
	}
}

// Steel near the compass is marked, and everything else in the zone says that it must not be steel.
func TestSteelInTheZone(t *testing.T) {
	doc := example(t, "coastline-watch")
	change(t, doc, "tray.screws", "steel")
	s, _ := sheetOf(t, doc)
	marked := 0
	for _, b := range blocksUnder(s, "Hardware") {
		if table, ok := b.(paper.Table); ok {
			for _, row := range table.Rows {
				steel, near := row.Cells[3].Text == "steel 8.8", strings.Contains(row.Cells[6].Text, "IN THE ZONE")
				if steel != (row.Tone == paper.Bad) && near {
					t.Errorf("%s of %s, %s: tone %v", row.Cells[2].Text, row.Cells[3].Text, row.Cells[6].Text, row.Tone)
				}
				if row.Tone == paper.Bad {
					marked++
				}
			}
		}
	}
	if marked == 0 {
		t.Error("no steel is marked")
	}
}

// The same design gives the same bytes, in every form.
func TestSameBytes(t *testing.T) {
	j := job(t, example(t, "river-survey"))
	var first [3][]byte
	for round := range 2 {
		s, err := sheet.Build(context.Background(), j)
		if err != nil {
			t.Fatal(err)
		}
		for i, encode := range []func(*bytes.Buffer) error{
			func(b *bytes.Buffer) error { return pdf.Encode(b, s, pdf.Options{}) },
			func(b *bytes.Buffer) error { return html.Encode(b, s) },
			func(b *bytes.Buffer) error { return markdown.Encode(b, s) },
		} {
			var b bytes.Buffer
			if err := encode(&b); err != nil {
				t.Fatal(err)
			}
			if round == 0 {
				first[i] = b.Bytes()
			} else if !bytes.Equal(b.Bytes(), first[i]) {
				t.Errorf("form %d differs from round to round", i)
			}
		}
	}
}

// A design that cannot be built has no sheet.
func TestNoSheetWithoutParts(t *testing.T) {
	j := job(t, example(t, "river-survey"))
	j.Doc = j.Doc.Clone()
	for j.Doc.Len("airframe.places") > 0 {
		if err := j.Doc.Remove("airframe.places", 0); err != nil {
			t.Fatal(err)
		}
	}
	if s, err := sheet.Build(context.Background(), j); err == nil || !reflect.DeepEqual(s, paper.Sheet{}) {
		t.Errorf("got a sheet %q, want an error", s.Title)
	}
}

func BenchmarkBuild(b *testing.B) {
	j := job(b, example(b, "river-survey"))
	for b.Loop() {
		if _, err := sheet.Build(context.Background(), j); err != nil {
			b.Fatal(err)
		}
	}
}
