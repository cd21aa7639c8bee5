package desktop

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
)

// A copy in grey must still tell the states: by the shape of the marks, whatever their colours, and by the words.
func TestGreyCopyTellsTheStates(t *testing.T) {
	h := opened(t)
	if err := h.session.Example("coastline-watch"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	h.Stage(Prove) // the other stations stand on the plain panel
	shapes := map[look.Sign][]bool{}
	keep := func() {
		grey := h.window.Canvas().Capture()
		for _, s := range h.road.stations[:Prove] {
			shapes[s.mark.Sign] = shape(grey, fyne.CurrentApp().Driver().AbsolutePositionForObject(s.mark))
		}
	}
	keep()
	h.blank()
	h.settle()
	h.Stage(Prove)
	keep()
	if err := h.session.Set("mast.height", "3000"); err == nil {
		t.Fatal("a mast of three metres was taken")
	}
	h.settle()
	keep()
	if len(shapes) != 5 {
		t.Fatalf("%d signs were seen on the road, want all five", len(shapes))
	}
	for a, one := range shapes {
		for b, other := range shapes {
			n := 0
			for i := range one {
				if one[i] != other[i] {
					n++
				}
			}
			if share := float64(n) / float64(len(one)); a < b && share < 0.08 {
				t.Errorf("in grey the signs %d and %d differ in %.0f %% of their dots only", a, b, 100*share)
			}
		}
	}
	for _, row := range h.list.Rows() {
		if row.Word != row.State.String() {
			t.Errorf("%s: the word is %q, the state %v", row.Name, row.Word, row.State)
		}
	}
}

// shape is where a mark is darker or lighter than the ground at its corner, in grey.
func shape(img image.Image, at fyne.Position) []bool {
	grey := func(x, y int) int {
		return int(color.GrayModel.Convert(img.At(int(at.X)+x, int(at.Y)+y)).(color.Gray).Y)
	}
	ground := grey(-2, -2)
	var dots []bool
	for y := range 16 {
		for x := range 16 {
			d := grey(x, y) - ground
			dots = append(dots, d > 40 || d < -40)
		}
	}
	return dots
}
