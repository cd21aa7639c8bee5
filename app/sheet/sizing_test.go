package sheet_test

import (
	"context"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/paper"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// whole is everything that a sheet says.
func whole(s paper.Sheet) string {
	words := ""
	for _, section := range s.Sections {
		words += section.Title + "\n" + said(section.Blocks)
	}
	return words
}

// The window's line is on the first page, the repairs stand under their verdict with the field to set, and where nobody looked for
// them neither is said.
func TestWindowAndRepairs(t *testing.T) {
	j := job(t, example(t, "orchard-mapper"))
	s, err := sheet.Build(context.Background(), j)
	if err != nil {
		t.Fatal(err)
	}
	if text := whole(s); strings.Contains(text, "Height window") || strings.Contains(text, "smallest") {
		t.Error("a sheet without a window or repairs speaks of them")
	}
	j.Window = sizing.Window{From: 30, To: 180, Height: 92, Open: true, MainState: review.Pass, Main: sizing.Interval{From: 82.5, To: 131}, Below: "heading", Above: "shake",
		Pass:   []sizing.Interval{{From: 82.5, To: 131}},
		Checks: []sizing.CheckBands{{Check: "heading", Title: "Heading", Bands: []sizing.Band{{Interval: sizing.Interval{From: 30, To: 40}, Unbuildable: "too low"}, {Interval: sizing.Interval{From: 40, To: 82.5}, State: review.Fail}, {Interval: sizing.Interval{From: 82.5, To: 180}}}}},
		Staff:  []sizing.StaffBand{{Interval: sizing.Interval{From: 30, To: 82.5}, State: review.Fail, Check: "heading"}, {Interval: sizing.Interval{From: 82.5, To: 180}}}, Missing: []string{"sky"}}
	j.Advice = []sizing.Advice{
		{Check: "heat", State: review.Fail, Repairs: []sizing.Repair{
			{Changes: []sizing.Change{{Path: "materials.mast", Value: "abs"}}, To: review.Pass, Words: "Print it of ABS: better."},
			{Changes: []sizing.Change{{Path: "materials.mast", Value: "asa"}}, To: review.Marginal, Words: "Print it of ASA: better."}}},
		{Check: "tipover", State: review.Fail, Words: "Nothing repairs Tip-over."},
	}
	if s, err = sheet.Build(context.Background(), j); err != nil {
		t.Fatal(err)
	}
	if first := said(s.Sections[0].Blocks); !strings.Contains(first, j.Window.Words()[0]) {
		t.Errorf("the first page does not say %q", j.Window.Words()[0])
	}
	for check, want := range map[string][]string{
		"heat":    {"Print it of ABS: better. (materials.mast: abs)", "Print it of ASA: better. It is then still marginal. (materials.mast: asa)"},
		"tipover": {"Nothing repairs Tip-over."},
	} {
		v, _ := j.Result.Verdict(check)
		text := said(blocksUnder(s, v.Title+": "+v.State.String()))
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("under %s the sheet does not say %q", check, w)
			}
		}
	}
	if !strings.Contains(whole(s), "Without data and left out: Sky") {
		t.Error("what was left out of the window is not said")
	}
}
