package magnetic_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"mastwright/design/magnetic"
)

func smooth(f func(float64) float64) func(float64) (float64, error) {
	return func(x float64) (float64, error) { return f(x), nil }
}

// Roots known in closed form.
func TestCrossings(t *testing.T) {
	for _, c := range []struct {
		name     string
		f        func(float64) float64
		from, to float64
		level    float64
		want     []float64
		falling  []bool
		within   bool // at the start
	}{
		{"falling power law", func(x float64) float64 { return 1 / (x * x * x) }, .1, 10, 8, []float64{.5}, []bool{true}, false},
		{"sine, five roots", math.Sin, -1, 13, 0, []float64{0, math.Pi, 2 * math.Pi, 3 * math.Pi, 4 * math.Pi}, []bool{false, true, false, true, false}, true},
		{"a jump", func(x float64) float64 {
			if x < 1.23456 {
				return math.Pi
			}
			return .1
		}, 0, 5, .5, []float64{1.23456}, []bool{true}, false},
		// The two roots lie closer than one interval of 10/64.
		{"a dip between two samples", func(x float64) float64 { return (x-5.077)*(x-5.077) - 1e-4 }, 0, 10, 0, []float64{5.067, 5.087}, []bool{true, false}, false},
		{"a bump between two samples", func(x float64) float64 { return 1e-4 - (x-5.077)*(x-5.077) }, 0, 10, 0, []float64{5.067, 5.087}, []bool{false, true}, true},
		{"a dip that stays above", func(x float64) float64 { return (x-5.077)*(x-5.077) + 1e-4 }, 0, 10, 0, nil, nil, false},
		{"always within", func(x float64) float64 { return -x }, 1, 2, 0, nil, nil, true},
		{"constant at the level", func(float64) float64 { return 3 }, 1, 2, 3, nil, nil, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := magnetic.Crossings(smooth(c.f), c.from, c.to, c.level, magnetic.CrossingOptions{Tolerance: 1e-9})
			if err != nil {
				t.Fatal(err)
			}
			if len(got.Crossings) != len(c.want) || got.Within != c.within {
				t.Fatalf("%+v, want %v, within %v", got, c.want, c.within)
			}
			for i, x := range got.Crossings {
				near(t, fmt.Sprint("crossing ", i), x.At, c.want[i], 1.1e-9)
				if x.Falling != c.falling[i] {
					t.Errorf("crossing %d falling %v", i, x.Falling)
				}
				if c.f(x.At) > c.level {
					t.Errorf("crossing %d at %.12g lies on the failing side", i, x.At)
				}
			}
			// 65 samples; log2(range/64/tolerance) and two more a root; two turns
			// of 45 golden sections.
			if most := 65 + len(c.want)*30 + 2*45; got.Evaluations > most {
				t.Errorf("%d evaluations, want at most %d", got.Evaluations, most)
			}
			if wantEnd := c.within != (len(c.want)%2 == 1); got.WithinEnd != wantEnd {
				t.Errorf("within at the end %v, want %v", got.WithinEnd, wantEnd)
			}
		})
	}
}

// Random cubics: every root further from its neighbours than an interval is
// found, in order, whatever the sign.
func TestCrossingsOfCubics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(.5, 2.5).Draw(t, "a")
		b := a + rapid.Float64Range(.3, 3).Draw(t, "ab")
		c := b + rapid.Float64Range(.3, 3).Draw(t, "bc")
		k := rapid.SampledFrom([]float64{-7, -.01, .01, 7}).Draw(t, "k")
		f := func(x float64) float64 { return k * (x - a) * (x - b) * (x - c) }
		got, err := magnetic.Crossings(smooth(f), 0, 10, 0, magnetic.CrossingOptions{})
		if err != nil || len(got.Crossings) != 3 {
			t.Fatalf("%+v, %v", got, err)
		}
		for i, want := range []float64{a, b, c} {
			if math.Abs(got.Crossings[i].At-want) > 1e-5 {
				t.Fatalf("crossing %d at %g, want %g", i, got.Crossings[i].At, want)
			}
		}
		// 65 samples, the two turns followed at most, and log2(10/64/1e-5)+2 = 16 a root.
		if got.Evaluations > 65+2*30+3*16 {
			t.Fatalf("%d evaluations", got.Evaluations)
		}
	})
}

func TestCrossingsRefusals(t *testing.T) {
	line := smooth(func(x float64) float64 { return x })
	for _, c := range []struct {
		name            string
		f               func(float64) (float64, error)
		from, to, level float64
		options         magnetic.CrossingOptions
		want            string
	}{
		{"backwards", line, 2, 1, 0, magnetic.CrossingOptions{}, "a start below the end"},
		{"no level", line, 0, 1, math.NaN(), magnetic.CrossingOptions{}, "finite values"},
		{"no samples", line, 0, 1, 0, magnetic.CrossingOptions{Samples: 1}, "2 to 10000"},
		{"tolerance", line, 0, 1, 0, magnetic.CrossingOptions{Tolerance: -1}, "tolerance -1"},
		{"no number", smooth(func(x float64) float64 { return math.Log(x - .5) }), 0, 1, 0, magnetic.CrossingOptions{}, "at 0: the figure is not a number"},
		{"error of the function", func(x float64) (float64, error) {
			if x > .5 {
				return 0, errors.New("sensor in the pack")
			}
			return 1, nil
		}, 0, 1, 0, magnetic.CrossingOptions{}, "at 0.515625: sensor in the pack"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := magnetic.Crossings(c.f, c.from, c.to, c.level, c.options)
			wantError(t, err, c.want)
		})
	}
}

// neededHeight solves for the least height at which the worst heading error at
// this load stays within the limit, in metres and degrees.
func neededHeight(t interface{ Fatal(...any) }, lead magnetic.Lead, limit float64) (height float64, evaluations int) {
	conductors := 0
	c, err := magnetic.Crossings(func(h float64) (float64, error) {
		e, err := magnetic.Heading([]magnetic.Lead{lead}, r3.Vec{Z: h}, europe, magnetic.HeadingOptions{})
		conductors += e.Evaluations
		return e.Worst.Error / deg, err
	}, .02, .4, limit, magnetic.CrossingOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Crossings) != 1 || !c.Crossings[0].Falling {
		t.Fatal("want one height, above which the limit holds: ", c)
	}
	return c.Crossings[0].At, conductors
}

// Reported in public trackers: 13 % of the total field at 100 mm from leads
// carrying 100 to 140 A. The case taken here: 80 x 5 mm, 120 A, F 50 uT, no
// loop factor, sensor as drawn. Flat and stacked stand on either side of the
// report.
func TestReportedShareOfTheField(t *testing.T) {
	share := func(lay magnetic.Lay) float64 {
		l := battery(lay, 120)
		l.LoopFactor = 1
		return heading(t, []magnetic.Lead{l}, r3.Vec{Z: .1}, exact).Nominal.Share
	}
	flat, stacked := share(magnetic.SideBySide), share(magnetic.Stacked)
	if !(stacked > .13/2 && stacked < .13 && flat > .13 && flat < 2*.13) {
		t.Errorf("stacked %.3f, flat %.3f of the total field; reported .13", stacked, flat)
	}
}

// The trade's rule is 100 mm of height (common practice, no source). Taken as
// an everyday case: a flat battery lead of 80 x 5 mm, 120 A in bursts, loop
// factor 1.5, H 20 uT, the usual tolerances, 15 degrees allowed at full. The
// rule is then right within a tenth. Let the gap open to a loose 20 mm and the
// field at 100 mm is about four times as strong; the height needed grows by half.
func TestHundredMillimetreRule(t *testing.T) {
	tidy, loose := battery(magnetic.SideBySide, 120), battery(magnetic.SideBySide, 120)
	loose.Pair.Spacing = .020
	tidyHeight, _ := neededHeight(t, tidy, 15)
	looseHeight, _ := neededHeight(t, loose, 15)
	near(t, "height for the tidy lead, m", tidyHeight, .1, .01)
	near(t, "loose over tidy height", looseHeight/tidyHeight, 1.5, .05)
	at := func(l magnetic.Lead) float64 {
		return heading(t, []magnetic.Lead{l}, r3.Vec{Z: .1}, magnetic.HeadingOptions{}).Worst.Horizontal
	}
	near(t, "loose over tidy field at 100 mm", at(loose)/at(tidy), 4, .2) // the gap is no longer small against the height
}

func ExampleCrossings() {
	lead := magnetic.Lead{
		Name: "battery",
		Pair: magnetic.Pair{Centre: []r3.Vec{{X: -.04}, {X: .04}}, Spacing: .005},
		Idle: .4, Load: 120,
	}
	earth := magnetic.Elements{H: 20e-6, F: 50e-6}
	found, err := magnetic.Crossings(func(height float64) (float64, error) {
		h, err := magnetic.Heading([]magnetic.Lead{lead}, r3.Vec{Z: height}, earth, magnetic.HeadingOptions{})
		return h.Worst.Error * 180 / math.Pi, err
	}, .02, .4, 15, magnetic.CrossingOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range found.Crossings {
		fmt.Printf("15 degrees at %.0f mm, falling: %v, after %d evaluations\n", 1000*c.At, c.Falling, found.Evaluations)
	}
	// Output:
	// 15 degrees at 97 mm, falling: true, after 70 evaluations
}

func BenchmarkNeededHeight(b *testing.B) {
	twisted := battery(magnetic.Twisted, 120)
	twisted.Pair.Pitch = .02
	for _, c := range []struct {
		name string
		lead magnetic.Lead
	}{{"flat", battery(magnetic.SideBySide, 120)}, {"twisted", twisted}} {
		b.Run(c.name, func(b *testing.B) {
			var conductors int
			for b.Loop() {
				_, conductors = neededHeight(b, c.lead, 15)
			}
			b.ReportMetric(float64(conductors), "conductors/op")
		})
	}
}
