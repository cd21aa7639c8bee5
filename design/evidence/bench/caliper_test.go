package bench_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/design/evidence/bench"
)

func TestCaliper(t *testing.T) {
	const mm = 1e-3
	// Outsides are the designed ones times a scale, holes the designed ones less a shrinkage: both known.
	made := func(scale, narrower float64) []bench.Dimension {
		return []bench.Dimension{
			{Name: "foot length", Designed: 60 * mm, Measured: scale * 60 * mm, Along: "x"},
			{Name: "foot width", Designed: 45 * mm, Measured: scale * 45 * mm, Along: "y"},
			{Name: "tray", Designed: 50 * mm, Measured: scale * 50 * mm, Along: "x"},
			{Name: "screw hole", Designed: 3.4 * mm, Measured: scale * (3.4*mm - narrower), Hole: true},
			{Name: "other hole", Designed: 3.4 * mm, Measured: scale * (3.4*mm - narrower), Hole: true},
			{Name: "cable hole", Designed: 8 * mm, Measured: scale * (8*mm - narrower), Hole: true},
		}
	}
	for _, c := range []struct {
		name            string
		scale, narrower float64
		says            string
	}{
		{"as designed", 1, 0, "true to size"},
		{"shrunk", .994, .1 * mm, "small by 0.60 %"},
		{"holes too wide", 1, -.12 * mm, "too wide by 0.12"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := bench.Caliper(made(c.scale, c.narrower), bench.CaliperOptions{HoleAdd: .15 * mm})
			if err != nil {
				t.Fatal(err)
			}
			// With the scale left as it is, holes are narrower by (1/s − 1) of their size too; the three's mean is 4.93 mm.
			want := c.narrower + (1/c.scale-1)*(3.4+3.4+8)/3*mm
			if !near(got.Scale.Value, c.scale, 1e-12) || math.Abs(got.HoleChange.Value-want) > 1e-12 || math.Abs(got.HoleAdd.Value-want-.15*mm) > 1e-12 {
				t.Errorf("scale %.6g, change %.6g, add %.6g; want %.6g, %.6g", got.Scale.Value, got.HoleChange.Value, got.HoleAdd.Value, c.scale, want)
			}
			if said := strings.Join(got.Words, "\n"); !strings.Contains(said, c.says) {
				t.Errorf("got\n%s\nwant %q", said, c.says)
			}
			if len(got.Directions) != 2 || got.Directions[0].Along != "x" {
				t.Errorf("directions %+v, want x and y", got.Directions)
			}
		})
	}
}

func TestCaliperTellsDirections(t *testing.T) {
	got, err := bench.Caliper([]bench.Dimension{
		{Name: "length", Designed: .1, Measured: .0999, Along: "x"}, {Name: "width", Designed: .1, Measured: .1001, Along: "y"},
	}, bench.CaliperOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if x, y := got.Directions[0].Scale, got.Directions[1].Scale; !near(x.Value, .999, 1e-9) || !near(y.Value, 1.001, 1e-9) || !near(x.Plus(), .0005, 1e-9) {
		t.Errorf("x %+v, y %+v; want .999 and 1.001, each ± .05 mm in 100 mm", x, y)
	}
	if got.Holes != 0 || got.HoleAdd != (bench.Estimate{}) {
		t.Errorf("holes %d, add %+v; want none", got.Holes, got.HoleAdd)
	}
}

func TestCaliperRefuses(t *testing.T) {
	for _, c := range []struct {
		name       string
		dimensions []bench.Dimension
		says       string
	}{
		{"one", []bench.Dimension{{Name: "length", Designed: .06, Measured: .06}}, "1 dimension"},
		{"a mistyped one", []bench.Dimension{{Name: "length", Designed: .06, Measured: .066}, {Name: "width", Designed: .06, Measured: .06}}, "length: 66 mm"},
		{"scattered outsides", []bench.Dimension{{Name: "length", Designed: .06, Measured: .0605}, {Name: "width", Designed: .06, Measured: .0595}}, "do not go together"},
		{"scattered holes", []bench.Dimension{{Name: "a", Designed: .004, Measured: .0045, Hole: true}, {Name: "b", Designed: .004, Measured: .0035, Hole: true}}, "measure a again"},
		{"not a number", []bench.Dimension{{Name: "length", Designed: .06, Measured: math.NaN()}, {Name: "width", Designed: .06, Measured: .06}}, "no number"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := bench.Caliper(c.dimensions, bench.CaliperOptions{})
			var r bench.Refusal
			if !errors.As(err, &r) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, want %q", err, c.says)
			}
		})
	}
}

func ExampleCaliper() {
	c, err := bench.Caliper([]bench.Dimension{
		{Name: "foot length", Designed: .060, Measured: .05985},
		{Name: "foot width", Designed: .045, Measured: .0449},
		{Name: "screw hole", Designed: .0034, Measured: .0033, Hole: true},
		{Name: "cable hole", Designed: .0080, Measured: .0079, Hole: true},
	}, bench.CaliperOptions{HoleAdd: .15e-3})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range c.Words {
		fmt.Println(w)
	}
	// Output:
	// the print is small by 0.24 % (± 0.17 %)
	// holes come out too narrow by 0.10 ± 0.05 mm: add 0.25 mm instead of 0.15 mm
}
