package verdicts_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/design"
	"mastwright/design/review"
)

var examples = []string{"coastline-watch", "greenhouse-patrol", "hedgerow-scout", "orchard-mapper", "quarry-survey", "river-survey"}

// Every example, every check, in the narrowest columns of a window of 1024x700: nothing is written beyond the column's edges, and in the list
// no figure runs into the lanes or into its word.
func TestNothingIsWrittenBeyondItsColumn(t *testing.T) {
	dressed(t, look.Light)
	for _, name := range examples {
		t.Run(name, func(t *testing.T) {
			doc := example(t, name)
			r := reviewed(t, doc)
			l := verdicts.NewList()
			l.Set(r)
			w := shown(t, l, 336, 598)
			within(t, w, 336)
			for _, row := range l.Rows() {
				width := look.Body.Width(row.Figure)
				if left := 336 - 66 - width; left < 336-132 {
					t.Errorf("%s: the figure %q runs into the lanes by %v px", row.ID, row.Figure, 336-132-left)
				}
			}
			keep(t, w, "list-"+name)
			a := verdicts.NewAccount()
			column := look.NewColumn(a)
			a.OnReflow = column.Reflow
			w = shown(t, column, 304, 598)
			for _, v := range r.Verdicts {
				a.Set(verdicts.Story{Verdict: v, Changes: verdicts.Levers(v, r.Compass), Answers: doc.Missing()})
				within(t, w, 304)
			}
			if least := column.MinSize().Width; least > 304 {
				t.Errorf("the account wants %v px", least)
			}
		})
	}
}

func TestTablesStayInTheirColumns(t *testing.T) {
	dressed(t, look.Light)
	list, problems, err := review.Compare(t.Context(), example(t, "hedgerow-scout"))
	if err != nil || len(problems) > 0 {
		t.Fatal(problems, err)
	}
	m := verdicts.NewMaterials()
	m.Set(list, "petg")
	w := shown(t, m, 336, 340)
	within(t, w, 336)
	keep(t, w, "materials")

	x := verdicts.NewMissing()
	x.Set(design.New().Missing())
	column := look.NewColumn(x)
	x.OnReflow, x.OnReveal = column.Reflow, column.Reveal
	w = shown(t, column, 336, 598)
	for range design.New().Missing() {
		press(x, fyne.KeyDown)
		within(t, w, 336)
	}
	keep(t, w, "missing")
}

// within checks that every text lies between the edges of a column.
func within(t *testing.T, w fyne.Window, width float32) {
	t.Helper()
	visit(w.Canvas().Content(), 0, func(o fyne.CanvasObject, left float32) {
		text, is := o.(*canvas.Text)
		if !is || text.Text == "" {
			return
		}
		if right := left + text.MinSize().Width; left < 0 || right > width {
			t.Errorf("%q is written from %v to %v, in a column of %v", text.Text, left, right, width)
		}
	})
}

// The pictures that a designer looks at; see keep.
func TestPictures(t *testing.T) {
	for _, choice := range []look.Choice{look.Light, look.Night} {
		dressed(t, choice)
		doc := example(t, "orchard-mapper")
		doc.Clear("cable.length")
		r := reviewed(t, doc)
		l := verdicts.NewList()
		l.Set(r)
		l.Pick("strength")
		keep(t, shown(t, l, 404, 698), "list-404-"+string(choice))
		keep(t, shown(t, l, 460, 870), "list-460-"+string(choice))
		keep(t, shown(t, l, 336, 390), "list-low-"+string(choice))
		l.SetStale(true)
		l.SetNotice("1 field is not understood; showing Height 92.0 mm")
		l.FocusGained()
		keep(t, shown(t, l, 336, 598), "list-stale-"+string(choice))
		for _, id := range []string{"heading", "strength", "heat", "printing"} {
			v, _ := r.Verdict(id)
			a := verdicts.NewAccount()
			a.Set(verdicts.Story{Verdict: v, Changes: verdicts.Levers(v, r.Compass), Answers: doc.Missing()})
			keep(t, shown(t, look.NewColumn(a), 304, 700), "account-"+id+"-"+string(choice))
		}
		s := verdicts.NewStaff()
		s.Set(verdicts.Reading{Height: 92})
		keep(t, shown(t, s, 106, 372), "staff-plain-"+string(choice))
		s.Set(verdicts.Reading{Height: 92, Bands: []verdicts.Band{
			{From: 30, To: 95, State: review.Fail, Label: "heading"}, {From: 95, To: 118, State: review.Marginal, Label: "shake"}, {From: 118, To: 140}, {From: 140, To: 180, State: review.Fail, Label: "tip-over"}}})
		keep(t, shown(t, s, 106, 498), "staff-bands-"+string(choice))
	}
}
