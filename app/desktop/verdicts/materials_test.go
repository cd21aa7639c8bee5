package verdicts_test

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/design"
	"mastwright/design/review"
)

func TestMaterials(t *testing.T) {
	dressed(t, look.Light)
	list := []review.Candidate{
		{Name: "petg", Title: "PETG", Mass: 21.04, First: 137.2, Tilt: 0.038, Break: 2.81, Room: 12.5, Softens: true, Marginals: 2, Because: "Modes, Shake are marginal"},
		{Name: "pla", Title: "PLA", Mass: 20.94, First: 160.4, Tilt: 0.03, Room: -5.5, Softens: true, Fails: 1, Because: "Heat fails",
			Verdicts: []review.Verdict{{ID: "heat", State: review.Fail}}},
		{Name: "spool-3", Title: "Spool 3", Mass: 20, Because: "Nothing fails and nothing is marginal"},
	}
	m := verdicts.NewMaterials()
	var picked []string
	m.OnPick = func(name string) { picked = append(picked, name) }
	m.Set(list, "petg")
	w := shown(t, m, 336, 300)
	written := texts(w)
	for _, want := range []string{"PETG", "21.0", "137", "0.04", "2.8", "12.5", "PLA", "-5.5", "SPOOL-3", "–", "mass", "g", "mode", "Hz", "tilt", "°", "break", "m/s", "heat", "K",
		"PETG: Modes, Shake are marginal."} {
		if !slices.Contains(written, want) {
			t.Errorf("%q is not written: %q", want, written)
		}
	}
	if m.Hand() != "petg" {
		t.Errorf("the hand is on %q", m.Hand())
	}
	test.FocusNext(w.Canvas())
	press(m, fyne.KeyReturn) // already of this material
	press(m, fyne.KeyDown, fyne.KeyReturn)
	if want := []string{"pla"}; !slices.Equal(picked, want) {
		t.Errorf("picked %v, want %v", picked, want)
	}
	if !slices.Contains(texts(w), "PLA: Heat fails. Enter or a click applies it.") {
		t.Errorf("the material under the hand is not explained: %q", texts(w))
	}

	m.Set([]review.Candidate{list[2], list[0], list[1]}, "pla")
	if got, want := m.Names(), []string{"petg", "pla", "spool-3"}; !slices.Equal(got, want) {
		t.Errorf("rows jumped to %v", got)
	}
	m.Set(list[1:], "pla")
	if got, want := m.Names(), []string{"pla", "spool-3"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestMissing(t *testing.T) {
	dressed(t, look.Light)
	doc := example(t, "greenhouse-patrol")
	doc.Clear("cable.length")
	m := verdicts.NewMissing()
	var picked []string
	revealed := 0
	m.OnPick = func(path string) { picked = append(picked, path) }
	m.OnReveal = func(fyne.CanvasObject) { revealed++ }
	m.Set(doc.Missing())
	w := shown(t, look.NewColumn(m), 336, 400)
	if got, want := m.Rows(), []string{"Cable length: Bus, Balance"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	written := texts(w)
	for _, want := range []string{"Still to be answered", "1", "Cable length", "2 checks", "for Bus, Balance"} {
		if !slices.Contains(written, want) {
			t.Errorf("%q is not written: %q", want, written)
		}
	}
	test.FocusNext(w.Canvas())
	press(m, fyne.KeyDown, fyne.KeyReturn)
	if !slices.Equal(picked, []string{"cable.length"}) || m.Picked() != "cable.length" || revealed != 1 {
		t.Errorf("picked %v, under the hand %q, revealed %d times", picked, m.Picked(), revealed)
	}
	m.Set(nil)
	if !slices.Contains(texts(w), "Everything is answered.") {
		t.Errorf("got %q", texts(w))
	}
}

func TestKeyboardScrollsTheAnswersIntoView(t *testing.T) {
	dressed(t, look.Light)
	m := verdicts.NewMissing()
	column := look.NewColumn(m)
	m.OnReflow, m.OnReveal = column.Reflow, column.Reveal
	m.Set(design.New().Missing())
	shown(t, column, 336, 300)
	top := fyne.CurrentApp().Driver().AbsolutePositionForObject(m).Y
	for range m.Rows() {
		press(m, fyne.KeyDown)
	}
	if now := fyne.CurrentApp().Driver().AbsolutePositionForObject(m).Y; now > top-200 {
		t.Errorf("the list stands at %v, before at %v: the last answer cannot be seen", now, top)
	}
}
