package materials_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/design/units"
	"mastwright/materials"
)

// Every tube and sheet of the library lists sizes, in rising order, and no print does.
func TestLibraryStock(t *testing.T) {
	for _, m := range materials.Library() {
		t.Run(m.ID, func(t *testing.T) {
			tubes, sheets := m.Tubes(), m.Sheets()
			switch m.Form {
			case materials.Tube:
				if len(tubes) < 3 {
					t.Fatalf("tubes %v", tubes)
				}
				for i, s := range tubes {
					if s.Wall() < 0.4 || s.Wall() > 2 || i > 0 && s.Outside < tubes[i-1].Outside {
						t.Errorf("tube %d is %v with a wall of %v", i, s, s.Wall())
					}
				}
			case materials.Sheet:
				if len(sheets) < 3 || sheets[0] < 0.3 || sheets[len(sheets)-1] > 10 {
					t.Fatalf("sheets %v", sheets)
				}
			default:
				if m.Stock != "" {
					t.Errorf("a print with stock %q", m.Stock)
				}
			}
		})
	}
}

func TestNearestStock(t *testing.T) {
	carbon, acetal := find(t, "carbon-tube"), find(t, "acetal-sheet")
	for _, c := range []struct {
		outside, bore float64
		want          string
		exact         bool
	}{
		{10, 8, "10/8 mm", true},
		{4, 2.5, "4/2.5 mm", true},
		{10, 7.6, "10/8 mm", false},
		{30, 28, "16/14 mm", false},
	} {
		got, exact := carbon.NearestTube(units.Millimetres(c.outside), units.Millimetres(c.bore))
		if got.String() != c.want || exact != c.exact {
			t.Errorf("%g/%g: got %v, %v, want %s, %v", c.outside, c.bore, got, exact, c.want, c.exact)
		}
	}
	if got, exact := acetal.NearestSheet(units.Millimetres(2.9)); got != 3 || exact {
		t.Errorf("2.9 mm: got %v, %v, want 3 mm and not exact", got, exact)
	}
	if near, exact := find(t, "petg").NearestTube(10, 8); exact || near.Outside != 0 {
		t.Errorf("a print has tube %v", near)
	}
}

func TestStockRefused(t *testing.T) {
	change := func(form, stock string) string {
		text := strings.Replace(sound, "form: print", "form: "+form, 1)
		return text + "  stock: " + stock + "\n"
	}
	for _, c := range []struct{ name, file, want string }{
		{"print", change("print", "10/8 mm"), "shed-petg.stock: a print has no stock sizes"},
		{"sheet for a tube", change("tube", "10 mm"), `"10" is no size of a tube; write outside/bore in mm, like 10/8`},
		{"no wall", change("tube", "8/8"), `"8/8" has no wall`},
		{"no number", change("sheet", "thick"), "not a number"},
		{"no size", change("sheet", "1, 0"), "0 mm is no stock size"},
		{"slip", change("sheet", "1500"), "1500 mm is no stock size; use more than 0 and at most 200 mm"},
		{"tail", change("sheet", `"1,"`), "length is empty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := materials.Decode(strings.NewReader(c.file)); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

// A tube's section is that of two circles: π/4 (D² - d²) is 28.274 mm² for 10/8.
func TestTubeArea(t *testing.T) {
	s := materials.TubeSize{Outside: 10, Bore: 8}
	if got := math.Pi * (s.Outside - s.Wall()).Millimetres() * s.Wall().Millimetres(); math.Abs(got-28.2743338823) > 1e-9 {
		t.Errorf("mean circumference by wall %v mm², want 28.2743338823", got)
	}
}

func ExampleMaterial_Tubes() {
	carbon, _ := materials.Library().Find("carbon-tube")
	for _, t := range carbon.Tubes()[:3] {
		fmt.Println(t, "wall", t.Wall())
	}
	near, exact := carbon.NearestTube(10, 7)
	fmt.Println(near, exact)
	// Output:
	// 4/2.5 mm wall 0.75 mm
	// 5/3 mm wall 1 mm
	// 6/4 mm wall 1 mm
	// 10/8 mm false
}
