package layout_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/layout"
)

// apart checks by every pair that copies keep the gap and stay on the bed, and counts them.
func apart(t *testing.T, list []layout.Footprint, bed []layout.Place, size r2.Vec, gap float64) map[int]int {
	t.Helper()
	box := func(p layout.Place) r2.Box {
		to := r2.Vec{X: list[p.Footprint].X, Y: list[p.Footprint].Y}
		if p.Turned {
			to.X, to.Y = to.Y, to.X
		}
		return r2.Box{Min: p.At, Max: r2.Add(p.At, to)}
	}
	count := map[int]int{}
	for i, p := range bed {
		count[p.Footprint]++
		a := box(p)
		if a.Min.X < -1e-6 || a.Min.Y < -1e-6 || a.Max.X > size.X+1e-6 || a.Max.Y > size.Y+1e-6 {
			t.Errorf("%v lies beside a bed of %v", a, size)
		}
		for _, q := range bed[:i] {
			b := box(q)
			between := max(max(a.Min.X-b.Max.X, b.Min.X-a.Max.X), max(a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y))
			if between < gap-1e-6 {
				t.Errorf("%v and %v are %g mm apart, want %g", a, b, between, gap)
			}
		}
	}
	return count
}

func TestBeds(t *testing.T) {
	for _, c := range []struct {
		name string
		list []layout.Footprint
		size r2.Vec
		o    layout.Options
		want int // beds
	}{
		{"nothing", nil, r2.Vec{X: 100, Y: 100}, layout.Options{}, 0},
		{"one that fills the bed", []layout.Footprint{{"a", 100, 80, 1}}, r2.Vec{X: 100, Y: 80}, layout.Options{}, 1},
		{"one that must be turned", []layout.Footprint{{"a", 80, 100, 1}}, r2.Vec{X: 100, Y: 80}, layout.Options{}, 1},
		{"none left out", []layout.Footprint{{"a", 10, 10, 0}, {"b", 10, 10, 2}}, r2.Vec{X: 100, Y: 80}, layout.Options{}, 1},
		// 4 by 3 of 22 by 25 with gaps of 4 take 100 by 83
		{"a full bed", []layout.Footprint{{"a", 22, 25, 12}}, r2.Vec{X: 100, Y: 83}, layout.Options{Gap: 4, Fixed: true}, 1},
		{"one more than a full bed", []layout.Footprint{{"a", 22, 25, 13}}, r2.Vec{X: 100, Y: 83}, layout.Options{Gap: 4, Fixed: true}, 2},
		{"two large ones", []layout.Footprint{{"a", 90, 60, 1}, {"b", 60, 90, 1}, {"c", 3, 3, 4}}, r2.Vec{X: 100, Y: 100}, layout.Options{Gap: 1}, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			beds, err := layout.Beds(c.list, c.size, c.o)
			if err != nil {
				t.Fatal(err)
			}
			if len(beds) != c.want {
				t.Errorf("%d beds, want %d: %v", len(beds), c.want, beds)
			}
			gap := c.o.Gap
			if gap == 0 {
				gap = 5
			}
			total := map[int]int{}
			for _, bed := range beds {
				for k, n := range apart(t, c.list, bed, c.size, gap) {
					total[k] += n
				}
			}
			for i, f := range c.list {
				if total[i] != f.Copies {
					t.Errorf("%d copies of %s, want %d", total[i], f.Name, f.Copies)
				}
			}
		})
	}
}

// A single part lies in the middle, as who opens the file expects.
func TestMiddle(t *testing.T) {
	beds, err := layout.Beds([]layout.Footprint{{"a", 20, 10, 1}}, r2.Vec{X: 100, Y: 60}, layout.Options{})
	want := [][]layout.Place{{{At: r2.Vec{X: 40, Y: 25}}}}
	if err != nil || !reflect.DeepEqual(beds, want) {
		t.Errorf("got %v (%v), want %v", beds, err, want)
	}
}

func TestRandomLists(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	size := r2.Vec{X: 220, Y: 200}
	for range 300 {
		var list []layout.Footprint
		area, copies := 0.0, 0
		for k := range 1 + random.IntN(6) {
			f := layout.Footprint{Name: fmt.Sprint(k), X: 1 + 119*random.Float64(), Y: 1 + 119*random.Float64(), Copies: random.IntN(4)}
			list = append(list, f)
			area += (f.X + 3) * (f.Y + 3) * float64(f.Copies)
			copies += f.Copies
		}
		beds, err := layout.Beds(list, size, layout.Options{Gap: 3})
		if err != nil {
			t.Fatal(err)
		}
		seen := 0
		for _, bed := range beds {
			apart(t, list, bed, size, 3)
			seen += len(bed)
		}
		if seen != copies {
			t.Fatalf("%d copies, want %d", seen, copies)
		}
		// no part is wider than 0.6 of the bed, so that no bed but the last is less than a fifth full
		if most := math.Ceil(area / (0.2 * size.X * size.Y)); float64(len(beds)) > most {
			t.Errorf("%d beds for %v", len(beds), list)
		}
		again, _ := layout.Beds(list, size, layout.Options{Gap: 3})
		if !reflect.DeepEqual(again, beds) {
			t.Fatal("the second layout differs")
		}
		sheet, far, err := layout.Sheet(list, 100, layout.Options{Gap: 3, Fixed: true})
		if err != nil {
			t.Fatal(err)
		}
		apart(t, list, sheet, far, 3)
	}
}

func TestRefusals(t *testing.T) {
	size := r2.Vec{X: 100, Y: 80}
	for _, c := range []struct {
		f    layout.Footprint
		o    layout.Options
		want string
	}{
		{layout.Footprint{"mast", 120, 30, 1}, layout.Options{}, "mast is 120 by 30 mm and the bed 100 by 80 mm; use a bed of at least 120 by 30 mm"},
		{layout.Footprint{"mast", 70, 90, 1}, layout.Options{Fixed: true}, "use a bed of at least 70 by 90 mm"},
		{layout.Footprint{"mast", math.NaN(), 30, 1}, layout.Options{}, "mast is NaN by 30 mm"},
		{layout.Footprint{"mast", 0, 30, 1}, layout.Options{}, "mast is 0 by 30 mm"},
		{layout.Footprint{"mast", 1, 1, 1 << 40}, layout.Options{}, "more than 1000 parts"},
		{layout.Footprint{"mast", 1, 1, 1}, layout.Options{Gap: -1}, "a gap of -1 mm"},
	} {
		if _, err := layout.Beds([]layout.Footprint{c.f}, size, c.o); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want %q in it", err, c.want)
		}
	}
}

func ExampleBeds() {
	beds, err := layout.Beds([]layout.Footprint{{Name: "foot", X: 50, Y: 40, Copies: 1}, {Name: "tray", X: 30, Y: 30, Copies: 2}}, r2.Vec{X: 120, Y: 120}, layout.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, place := range beds[0] {
		fmt.Println(place.Footprint, place.At, place.Turned)
	}
	// Output:
	// 0 {27.5 22.5} false
	// 1 {27.5 67.5} false
	// 1 {62.5 67.5} false
}
