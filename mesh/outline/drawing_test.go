package outline_test

import (
	"strings"
	"testing"

	. "mastwright/mesh/outline"
)

// washer is a plate 40 by 20 mm with a bore of 6 mm and a slot 10 by 3 mm.
func washer() Outline {
	return Plate(Rectangle(40, 20), Circle(3).Translate(-10, 0), Slot(10, 3).Translate(8, 0))
}

func TestDrawingRefuses(t *testing.T) {
	beside := func(gap float64) Drawing {
		return Drawing{Cut: []Outline{washer(), washer().Translate(40+gap, 0)}}
	}
	for _, c := range []struct {
		name string
		d    Drawing
		want string // "" for none
	}{
		{"apart", beside(1), ""},
		{"a piece in another's bore", Drawing{Cut: []Outline{washer(), Plate(Circle(1)).Translate(-10, 0)}}, ""},
		{"nothing", Drawing{}, "nothing is to be cut"},
		{"pieces that touch", beside(0), "pieces 0 and 1 meet"},
		{"pieces one on the other", Drawing{Cut: []Outline{washer(), Plate(Circle(1))}}, "pieces 0 and 1 meet"},
		{"the same twice", Drawing{Cut: []Outline{washer(), washer()}}, "pieces 0 and 1 meet"},
		{"a hole outside", Drawing{Cut: []Outline{Plate(Rectangle(4, 4), Circle(1).Translate(9, 0))}}, "piece 0: hole 1 at"},
		{"a note of two lines", Drawing{Cut: []Outline{washer()}, Notes: []Note{{Height: 3, Text: "a\nb"}}}, `note 0 holds '\n'`},
		{"a note without height", Drawing{Cut: []Outline{washer()}, Notes: []Note{{Text: "a"}}}, "has no size"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := c.d.Check()
			if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
				t.Errorf("got %v, want %q in it", err, c.want)
			}
		})
	}
}
