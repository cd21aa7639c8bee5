package verdicts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/design/review"
)

// watched is a staff that writes down what it says.
func watched(t *testing.T, r verdicts.Reading) (*verdicts.Staff, fyne.Window, *[]string) {
	t.Helper()
	dressed(t, look.Light)
	s := verdicts.NewStaff()
	s.Set(r)
	said := &[]string{}
	s.OnBegin = func() { *said = append(*said, "begin") }
	s.OnDrag = func(mm float64) { *said = append(*said, fmt.Sprint(mm)) }
	s.OnEnd = func() { *said = append(*said, "end") }
	return s, shown(t, s, 106, 498), said
}

func TestStaffKeys(t *testing.T) {
	s, w, said := watched(t, verdicts.Reading{Height: 92})
	test.FocusNext(w.Canvas())
	for _, c := range []struct {
		key  fyne.KeyName
		want string
	}{
		{fyne.KeyUp, "93"}, {fyne.KeyDown, "92"}, {fyne.KeyPageUp, "102"}, {fyne.KeyPageDown, "92"}, {fyne.KeyHome, "180"}, {fyne.KeyEnd, "30"},
	} {
		*said = nil
		press(s, c.key)
		if want := []string{"begin", c.want, "end"}; !slices.Equal(*said, want) {
			t.Errorf("%s: got %v, want %v", c.key, *said, want)
		}
	}
	*said = nil
	press(s, fyne.KeyDown, fyne.KeyPageDown)
	if len(*said) > 0 || s.Height() != 30 {
		t.Errorf("it left the staff: %v", *said)
	}
}

func TestStaffIsDragged(t *testing.T) {
	s, w, said := watched(t, verdicts.Reading{From: 0, To: 448, Height: 100})
	// 498 high with 36 above and 14 below the scale: 1 px is 1 mm, and 100 mm stands at 384
	test.Drag(w.Canvas(), fyne.NewPos(20, 367), 0, -20) // the pointer is 3 px above the mark's middle after 17 px of its way
	if len(*said) != 3 || (*said)[0] != "begin" || (*said)[2] != "end" {
		t.Fatalf("got %v", *said)
	}
	if got := s.Height(); got != 120 {
		t.Errorf("dragged by 20 px of 1 mm from 100 mm: got %v mm", got)
	}
	if !slices.Contains(texts(w), "120.0") {
		t.Errorf("the number is not written: %q", texts(w))
	}
	*said = nil
	test.TapCanvas(w.Canvas(), fyne.NewPos(60, 284))
	if want := []string{"begin", "200", "end"}; !slices.Equal(*said, want) {
		t.Errorf("a click at 200 mm: got %v", *said)
	}
	*said = nil
	test.TapCanvas(w.Canvas(), fyne.NewPos(20, 289))
	if len(*said) > 0 || s.Height() != 200 {
		t.Errorf("a click on the mark moved it: %v", *said)
	}
}

func TestHeldMarkStaysUnderTheHand(t *testing.T) {
	s, _, _ := watched(t, verdicts.Reading{Height: 92})
	s.OnDrag = func(float64) { s.Set(verdicts.Reading{Height: 92}) } // the review is late
	s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, 100)}, Dragged: fyne.NewDelta(0, -5)})
	held := s.Height()
	if held == 92 {
		t.Error("the mark jumped back under the hand")
	}
	s.DragEnd()
	s.Set(verdicts.Reading{Height: 120})
	if s.Height() != 120 {
		t.Error("the mark does not follow after it was let go")
	}
}

func TestEscapeGivesADragUp(t *testing.T) {
	s, _, said := watched(t, verdicts.Reading{Height: 92})
	s.OnAbandon = func() { *said = append(*said, "abandon") }
	move := func(y float32) {
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, y)}, Dragged: fyne.NewDelta(0, -1)})
	}
	move(100)
	press(s, fyne.KeyEscape)
	if s.Height() != 92 {
		t.Errorf("the mark stays at %v mm", s.Height())
	}
	move(200)
	s.DragEnd()
	if n := len(*said); n != 3 || (*said)[2] != "abandon" || s.Height() != 92 {
		t.Errorf("got %v", *said)
	}
	press(s, fyne.KeyUp)
	if s.Height() != 93 {
		t.Error("the staff does not come back to life")
	}
}

func TestStaffNumbersAndBands(t *testing.T) {
	s, w, _ := watched(t, verdicts.Reading{Height: 92})
	written := texts(w)
	for _, want := range []string{"height mm", "30", "180", "92.0"} {
		if !slices.Contains(written, want) {
			t.Errorf("%q is not written: %q", want, written)
		}
	}
	s.Set(verdicts.Reading{Height: 12.5})
	if !slices.Contains(texts(w), "12.5") {
		t.Error("a height below the staff is not shown")
	}
	s.Set(verdicts.Reading{Height: 92, Bands: []verdicts.Band{
		{From: 30, To: 95, State: review.Fail, Label: "heading"}, {From: 95, To: 118, State: review.Marginal, Label: "shake"}, {From: 118, To: 180, State: review.Fail, Label: "tip-over"}}})
	written = texts(w)
	for _, want := range []string{"heading", "tip-over", "shake"} { // shake keeps the best heights from passing
		if !slices.Contains(written, want) {
			t.Errorf("%q binds and is not named: %q", want, written)
		}
	}
}

// The heights where the window ends are written on its side of the line, the checks that bind there on the other.
func TestStaffNamesTheWindow(t *testing.T) {
	bands := []verdicts.Band{{From: 30, To: 60, State: review.Fail, Label: "heading"}, {From: 60, To: 91.5, State: review.Marginal, Label: "shake"},
		{From: 91.5, To: 146, State: review.Pass}, {From: 146, To: 180, State: review.Marginal, Label: "modes"}}
	s, w, _ := watched(t, verdicts.Reading{Height: 92, Bands: bands})
	top := map[string]float32{}
	for _, o := range objects(w) {
		if x, is := o.(*canvas.Text); is {
			top[x.Text] = fyne.CurrentApp().Driver().AbsolutePositionForObject(x).Y
		}
	}
	for _, order := range [][2]string{{"modes", "146"}, {"146", "91.5"}, {"91.5", "shake"}, {"shake", "heading"}} {
		above, known := top[order[0]]
		below, also := top[order[1]]
		if !known || !also || above >= below {
			t.Errorf("%q does not stand over %q: %v", order[0], order[1], top)
		}
	}
	if slices.Contains(texts(w), "60") && top["60"] < top["91.5"] {
		t.Error("a change that ends no window is numbered")
	}
	s.Set(verdicts.Reading{Height: 92, Bands: bands, Stale: true})
	img := w.Canvas().Capture()
	for y := 40; y < 480; y++ {
		if like(img.At(43, y), look.PassBar) || like(img.At(43, y), look.FailBar) {
			t.Fatal("bands of an earlier design look current")
		}
	}
	for _, label := range []string{"clearance", "strength", "cannot be"} { // the longest
		s.Set(verdicts.Reading{Height: 92, Bands: []verdicts.Band{{From: 30, To: 60, State: review.Marginal, Label: strings.Replace(label, "not be", "not be built", 1)}, {From: 60, To: 180}}})
		if !slices.Contains(texts(w), label) {
			t.Errorf("%q is cut short: %q", label, texts(w))
		}
	}
	s.Set(verdicts.Reading{Height: 92, Bands: []verdicts.Band{{From: 30, To: 180, State: review.Marginal, Label: "tip-over"}}})
	if !slices.Contains(texts(w), "tip-over") {
		t.Error("a check that binds at every height is not named")
	}
}

// A window of one single height is drawn all the same.
func TestSingleHeightIsSeen(t *testing.T) {
	_, w, _ := watched(t, verdicts.Reading{Height: 92, Bands: []verdicts.Band{
		{From: 30, To: 49, State: review.Fail, Label: "shake"}, {From: 49, To: 49, State: review.Pass}, {From: 49, To: 180, State: review.Marginal, Label: "strength"}}})
	img := w.Canvas().Capture()
	for y := 40; y < 480; y++ {
		if like(img.At(50, y), look.PassBar) {
			return
		}
	}
	t.Error("the only height that passes is not drawn")
}

// The scale must not move under the hand when the mark comes back from beyond it.
func TestScaleStandsStillUnderTheHand(t *testing.T) {
	s, _, _ := watched(t, verdicts.Reading{Height: 195})
	s.OnDrag = func(mm float64) { s.Set(verdicts.Reading{Height: mm}) }
	drag := func(y float32) float64 {
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(60, y)}, Dragged: fyne.NewDelta(0, 1)})
		return s.Height()
	}
	drag(200)
	first, second, third := drag(240), drag(300), drag(240)
	if first == second || first != third {
		t.Errorf("the same place is %v mm and then %v mm", first, third)
	}
}

// A change of state and the line that names it stand at the same height at every scale.
func TestBandsMeetTheirLines(t *testing.T) {
	for _, scale := range []float32{1, 1.25, 1.5, 2} {
		s, w, _ := watched(t, verdicts.Reading{Height: 60, Bands: []verdicts.Band{
			{From: 30, To: 110, State: review.Fail, Label: "heading"}, {From: 110, To: 180, State: review.Marginal, Label: "shake"}}})
		w.Canvas().(interface{ SetScale(float32) }).SetScale(scale)
		s.Refresh()
		img := w.Canvas().Capture()
		x := func(at float32) int { return int(at * scale) }
		line, change := -1, -1
		for y := x(60); y < x(440); y++ {
			if like(img.At(x(62), y), look.Second) && line < 0 {
				line = y
			}
			if like(img.At(x(42.5), y), look.FailBar) && change < 0 {
				change = y
			}
		}
		if line < 0 || change < 0 || change < line-2 || change > line+2 {
			t.Errorf("scale %v: the line is at %d, the change at %d", scale, line, change)
		}
	}
}
