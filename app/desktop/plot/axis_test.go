package plot

import (
	"math"
	"slices"
	"testing"

	"mastwright/app/desktop/plot/pen"
	"mastwright/design/review"
)

// TestTicks: steps of 1, 2 or 5 times a power of ten, as drawn by hand.
func TestTicks(t *testing.T) {
	for _, c := range []struct {
		axis axis
		most int
		want []float64
	}{
		{axis{low: 0, high: 18}, 5, []float64{0, 5, 10, 15}},
		{axis{low: 30, high: 200}, 6, []float64{50, 100, 150, 200}},
		{axis{low: 0, high: 1}, 5, []float64{0, 0.2, 0.4, 0.6, 0.8, 1}},
		{axis{low: -3, high: 3}, 3, []float64{-2, 0, 2}},
		{axis{low: 30, high: 1200, log: true}, 8, []float64{50, 100, 200, 500, 1000}},
		{axis{low: 30, high: 1200, log: true}, 3, []float64{100, 1000}},
		{axis{low: 5, high: 5}, 4, nil},
	} {
		got := c.axis.ticks(c.most)
		if !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("%v at most %d: %v, want %v", c.axis, c.most, got, c.want)
		}
	}
}

func TestFigure(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 15: "15", 0.2: "0.2", 1500: "1,500", 12000: "12,000", -2: "-2", 0.1 + 0.2: "0.3"} {
		if got := figure(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
}

// TestPush: places end up in order, at least a pitch apart, within their bounds, and are left alone where they have room.
func TestPush(t *testing.T) {
	for _, c := range []struct {
		name string
		at   []float64
	}{
		{"room", []float64{20, 60, 110}}, {"one place", []float64{90, 90, 90}}, {"at the bottom", []float64{110, 119, 120}}, {"at the top", []float64{0, 0, 1}}, {"none", nil},
	} {
		got := slices.Clone(c.at)
		push(got, 14, 5, 120)
		for i, y := range got {
			if y < 5-1e-9 || y > 120+1e-9 || i > 0 && y-got[i-1] < 14-1e-9 {
				t.Errorf("%s: %v", c.name, got)
			}
		}
		if c.name == "room" && !slices.Equal(got, c.at) {
			t.Errorf("moved %v to %v", c.at, got)
		}
	}
}

// TestWithin: a line is cut where it leaves the field, at the height of the field's edge.
func TestWithin(t *testing.T) {
	s := sheet{Chart: Chart{x: axis{low: 0, high: 10}, y: axis{low: 0, high: 10}}}
	s.sx, s.sy = scale{s.x, 0, 100}, scale{s.y, 100, 0}
	got := s.within([]pen.Spot{{X: 0, Y: 5}, {X: 2, Y: 15}, {X: 4, Y: 5}, {X: 5, Y: -5}, {X: 6, Y: -1}})
	want := [][]pen.Spot{{{X: 0, Y: 50}, {X: 10, Y: 0}}, {{X: 30, Y: 0}, {X: 40, Y: 50}, {X: 45, Y: 100}}}
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range want {
		if !slices.EqualFunc(got[i], want[i], func(a, b pen.Spot) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) < 1e-9 }) {
			t.Errorf("piece %d: %v, want %v", i, got[i], want[i])
		}
	}
}

// TestCeiling: the good line and the present value are always seen, the limit where the value comes near it.
func TestCeiling(t *testing.T) {
	limit := review.Limit{Pass: 5, Marginal: 15}
	for _, c := range []struct {
		name        string
		most, value float64
		above, upTo float64
	}{
		{"far below", 1, 0.5, 5, 14}, {"near the limit", 14, 12, 15, 24}, {"over it", 180, 60, 60, 80}, {"low now, high elsewhere", 180, 1, 15, 30},
	} {
		if got := ceiling(c.most, limit, c.value); got <= c.above || got > c.upTo {
			t.Errorf("%s: %g, want above %g, at most %g", c.name, got, c.above, c.upTo)
		}
	}
}
