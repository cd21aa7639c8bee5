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

// europe has H 20 and F 50 uT, as the checks of this file take it.
var europe = magnetic.Elements{H: 20e-6, F: 50e-6}

// exact is a build without any tolerance.
var exact = magnetic.HeadingOptions{Sideways: -1, Roll: -1, Gap: -1}

// measured is a lead known only by its field per ampere at 100 mm.
func measured(perAmpere r3.Vec, load float64) magnetic.Lead {
	return magnetic.Lead{Name: "battery", Measured: magnetic.Measurement{PerAmpere: perAmpere, Height: .1}, Load: load}
}

// battery is the lead of the closed 80 x 5 mm checks.
func battery(lay magnetic.Lay, load float64) magnetic.Lead {
	return magnetic.Lead{Name: "battery", Pair: pair80(lay), Load: load}
}

func heading(t interface{ Fatal(...any) }, leads []magnetic.Lead, sensor r3.Vec, o magnetic.HeadingOptions) magnetic.HeadingError {
	h, err := magnetic.Heading(leads, sensor, europe, o)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// 2 uT across 20 uT turns a compass by atan .1 = 5.71059314 degrees, at the
// worst yaw by asin .1 = 5.73917048 degrees.
func TestHeadingClosedForm(t *testing.T) {
	h := heading(t, []magnetic.Lead{measured(r3.Vec{Y: .2e-6}, 10)}, r3.Vec{Z: .1}, exact)
	near(t, "worst over yaw", h.Worst.Error/deg, 5.73917048, 1e-8)
	// Nose north, field to the left: north seems to lie further left, the nose
	// further clockwise.
	near(t, "nose north", h.Worst.Compass[0]/deg, 5.71059314, 1e-8)
	near(t, "nose east", h.Worst.Compass[1], 0, 1e-15)
	near(t, "nose south", h.Worst.Compass[2]/deg, -5.71059314, 1e-8)
	near(t, "nose west", h.Worst.Compass[3], 0, 1e-15)
	near(t, "share of the total field", h.Worst.Share, .04, 1e-15)
}

// The worst over yaw, against an oracle that turns the aircraft in small steps.
func TestHeadingWorstOverYaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := r3.Vec{X: rapid.Float64Range(-19, 19).Draw(t, "x"), Y: rapid.Float64Range(-19, 19).Draw(t, "y"), Z: rapid.Float64Range(-50, 50).Draw(t, "z")}
		if math.Hypot(b.X, b.Y) > 19 {
			t.Skip("at 20 the compass turns over")
		}
		h := heading(t, []magnetic.Lead{measured(r3.Scale(1e-6, b), 1)}, r3.Vec{Z: .1}, exact)
		var worst float64
		for yaw := 0.; yaw < 2*math.Pi; yaw += .0005 {
			north := complex(20*math.Cos(yaw), 20*math.Sin(yaw)) // x ahead, y left
			seen := north + complex(b.X, b.Y)
			turned := math.Remainder(math.Atan2(imag(seen), real(seen))-math.Atan2(imag(north), real(north)), 2*math.Pi)
			worst = max(worst, math.Abs(turned))
		}
		if math.Abs(worst-h.Worst.Error) > 1e-4 { // the step of yaw
			t.Fatalf("worst over yaw %g, want %g", h.Worst.Error, worst)
		}
	})
}

func TestHeadingTurnsOver(t *testing.T) {
	for _, c := range []struct {
		name  string
		field r3.Vec
		want  float64
	}{
		{"just below the earth's", r3.Vec{X: 19.999999e-6}, 1.5704},
		{"equal to the earth's", r3.Vec{X: 20e-6}, math.Pi},
		{"against the earth's", r3.Vec{X: -20e-6}, math.Pi},
		{"far above", r3.Vec{X: 1e-4, Z: -3e-4}, math.Pi},
		{"upright, however large", r3.Vec{Z: 9e-4}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := heading(t, []magnetic.Lead{measured(c.field, 1)}, r3.Vec{Z: .1}, exact)
			near(t, "error", h.Worst.Error, c.want, 4e-4)
			for i, e := range h.Worst.Compass {
				if math.IsNaN(e) || math.Abs(e) > h.Worst.Error+1e-12 {
					t.Errorf("compass point %d: %g exceeds the worst %g", i, e, h.Worst.Error)
				}
			}
		})
	}
}

// Level, the vertical part turns nothing. Leaning by 10 degrees, |B| cos(ε-θ)
// of it lies level: against an oracle that leans the field about every axis.
func TestHeadingLean(t *testing.T) {
	for _, lean := range []float64{0, 10, 25, 60} {
		b := r3.Vec{X: 2e-6, Y: -1e-6, Z: 3e-6}
		o := exact
		o.Lean = lean * deg
		h := heading(t, []magnetic.Lead{measured(b, 1)}, r3.Vec{Z: .1}, o)
		var want float64
		for azimuth := 0.; azimuth < 2*math.Pi; azimuth += .002 {
			s, co := math.Sincos(azimuth)
			for i := range 21 {
				part := lean * float64(i) / 20
				turned := r3.NewRotation(part*deg, r3.Vec{X: co, Y: s}).Rotate(b)
				want = max(want, math.Hypot(turned.X, turned.Y))
			}
		}
		near(t, fmt.Sprintf("lean %g: horizontal, uT", lean), h.Worst.Horizontal*1e6, want*1e6, .005) // the steps of lean
	}
}

// Two leads that stray on their own: the search finds what trying every
// combination of 9 x 9 placements finds, over 9 places of the sensor.
func TestHeadingPlacementAgainstEveryCombination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := battery(magnetic.SideBySide, 40), battery(magnetic.Stacked, 10)
		b.Name = "controller"
		b.Pair.Centre = []r3.Vec{{X: rapid.Float64Range(-.05, .05).Draw(t, "x"), Y: -.04, Z: -.01}, {Y: .05, Z: rapid.Float64Range(-.02, .01).Draw(t, "z")}}
		a.Pair.Roll = rapid.Float64Range(-1, 1).Draw(t, "roll")
		b.Load = rapid.Float64Range(1, 60).Draw(t, "amperes")
		sensor := r3.Vec{Z: rapid.Float64Range(.05, .15).Draw(t, "height")}
		h := heading(t, []magnetic.Lead{a, b}, sensor, magnetic.HeadingOptions{})

		var want float64
		shift := []float64{-1, 0, 1}
		strayed := func(l magnetic.Lead, at r3.Vec) (out []r3.Vec) {
			for _, roll := range shift {
				for _, gap := range shift {
					m := l
					m.Pair.Roll += 15 * deg * roll
					m.Pair.Gap = 1 + .3*gap
					f, err := m.PerAmpere(at)
					if err != nil {
						t.Fatal(err)
					}
					out = append(out, r3.Scale(m.Load, f))
				}
			}
			return out
		}
		for _, x := range shift {
			for _, y := range shift {
				at := r3.Add(sensor, r3.Vec{X: .01 * x, Y: .01 * y})
				second := strayed(b, at)
				for _, u := range strayed(a, at) {
					for _, v := range second {
						s := r3.Add(u, v)
						want = max(want, math.Hypot(s.X, s.Y))
					}
				}
			}
		}
		if math.Abs(h.Worst.Horizontal/want-1) > 1e-9 {
			t.Fatalf("worst %g T, every combination %g T", h.Worst.Horizontal, want)
		}
		if h.Placements != 18*10 {
			t.Fatalf("%d placements, want 2 x 9 at the drawing and at 9 places", h.Placements)
		}
	})
}

// Finer levels find no more than a few percent beyond the ends and the drawing.
func TestHeadingLevelsSuffice(t *testing.T) {
	for _, lay := range []magnetic.Lay{magnetic.SideBySide, magnetic.Stacked} {
		for _, height := range []float64{.05, .1, .15} {
			coarse := heading(t, []magnetic.Lead{battery(lay, 20)}, r3.Vec{Z: height}, magnetic.HeadingOptions{})
			fine := heading(t, []magnetic.Lead{battery(lay, 20)}, r3.Vec{Z: height}, magnetic.HeadingOptions{Levels: 4})
			if r := fine.Worst.Horizontal / coarse.Worst.Horizontal; r < 1-1e-12 || r > 1.03 {
				t.Errorf("%v at %g m: nine levels find %.4f of what three find", lay, height, r)
			}
		}
	}
}

// A flat pair exactly below the sensor reads zero as drawn, and never with the
// tolerances in.
func TestHeadingFlatPairNeverReadsZero(t *testing.T) {
	h := heading(t, []magnetic.Lead{battery(magnetic.SideBySide, 20)}, r3.Vec{Z: .1}, magnetic.HeadingOptions{})
	near(t, "as drawn", h.Nominal.Error, 0, 1e-12)
	if h.Worst.Error < .5*deg {
		t.Errorf("worst over placement %g degrees; want well above zero", h.Worst.Error/deg)
	}
	if h.Worst.Sensor == (r3.Vec{Z: .1}) || h.Leads[0].Roll == 0 || h.Leads[0].Gap != 1.3 {
		t.Errorf("worst placement: sensor %v, roll %g, gap %g; want all of them strayed", h.Worst.Sensor, h.Leads[0].Roll, h.Leads[0].Gap)
	}
}

// Only the change from armed idle counts, and the leads' parts add up.
func TestHeadingChangeAndContributions(t *testing.T) {
	a, b := battery(magnetic.Stacked, 20), measured(r3.Vec{X: .05e-6, Z: .1e-6}, 8)
	b.Name = "controller"
	a.Idle, b.Idle = 2, 1
	h := heading(t, []magnetic.Lead{a, b}, r3.Vec{Z: .1}, magnetic.HeadingOptions{})
	sum, share := r3.Vec{}, 0.
	for _, l := range h.Leads {
		sum, share = r3.Add(sum, l.Worst), share+l.Share
	}
	near(t, "parts less whole, T", r3.Norm(r3.Sub(sum, h.Worst.Change)), 0, 1e-18)
	near(t, "shares", share, 1, 1e-12)
	near(t, "controller's part, uT", h.Leads[1].Nominal.X*1e6, .05*(8-1), 1e-12)

	a.Load, b.Load = a.Idle, b.Idle
	if h := heading(t, []magnetic.Lead{a, b}, r3.Vec{Z: .1}, magnetic.HeadingOptions{}); h.Worst.Error != 0 {
		t.Errorf("no change of current turns the compass by %g", h.Worst.Error)
	}
}

// Measured fields: as they are at their height, by the stated decay elsewhere.
func TestMeasuredDecay(t *testing.T) {
	for _, c := range []struct {
		name             string
		exponent, height float64
		want             float64
	}{
		{"at its height", 2.5, .1, 1},
		{"stated, twice as high", 2.5, .2, math.Pow(2, -2.5)},
		{"default above: a long pair", 0, .2, 1. / 4},
		{"default below: a small loop", 0, .05, 8},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := measured(r3.Vec{X: 1e-7}, 1)
			l.Measured.Exponent, l.Measured.Source = c.exponent, -.02
			b, err := l.PerAmpere(r3.Vec{Z: c.height - .02})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "factor", b.X/1e-7, c.want, 1e-12)
		})
	}
}

// The loop factor is on the pair alone, 1.5 unless the end loops are drawn.
func TestLoopFactor(t *testing.T) {
	p := r3.Vec{X: .02, Y: .01, Z: .1}
	loop := []r3.Vec{{X: -.04, Y: -.01}, {X: -.04, Y: .01}, {X: -.04, Y: .01, Z: .02}, {X: -.04, Y: -.01}}
	pair := field(t, must(pair80(magnetic.Stacked).Circuit()), p, 1)
	pack := field(t, must(magnetic.Loop(loop, 0)), p, 1)
	for _, c := range []struct {
		name string
		lead magnetic.Lead
		want r3.Vec
	}{
		{"pair", magnetic.Lead{Pair: pair80(magnetic.Stacked)}, r3.Scale(1.5, pair)},
		{"pair, factor 2", magnetic.Lead{Pair: pair80(magnetic.Stacked), LoopFactor: 2}, r3.Scale(2, pair)},
		{"pair and pack", magnetic.Lead{Pair: pair80(magnetic.Stacked), Loops: [][]r3.Vec{loop}}, r3.Add(pair, pack)},
		{"pair and pack, factor 2", magnetic.Lead{Pair: pair80(magnetic.Stacked), Loops: [][]r3.Vec{loop}, LoopFactor: 2}, r3.Add(r3.Scale(2, pair), pack)},
		{"pack", magnetic.Lead{Loops: [][]r3.Vec{loop}}, pack},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.lead.PerAmpere(p)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "difference, T/A", r3.Norm(r3.Sub(got, c.want)), 0, 1e-20)
		})
	}
}

// A receiver at dip 65 and 15 degrees of tilt reads up to 35 degrees wrong
// (reported in public trackers).
func TestTiltError(t *testing.T) {
	for _, c := range []struct{ dip, tilt, want float64 }{
		{65, 15, 35.07},
		{-65, 15, 35.07},
		{65, -2, 4.295}, // asin(2.14451 x .03492), by hand
		{0, 30, 0},
		{90, 0, 0},
		{90, 1, 90},
		{89, 2, 90},
		{10, 95, 90},
	} {
		near(t, fmt.Sprintf("dip %g tilt %g", c.dip, c.tilt), magnetic.TiltError(c.dip*deg, c.tilt*deg)/deg, c.want, .01)
	}
}

func TestHeadingRefusals(t *testing.T) {
	good := battery(magnetic.SideBySide, 20)
	change := func(f func(*magnetic.Lead)) []magnetic.Lead {
		l := good
		f(&l)
		return []magnetic.Lead{l}
	}
	up := r3.Vec{Z: .1}
	for _, c := range []struct {
		name    string
		leads   []magnetic.Lead
		sensor  r3.Vec
		earth   magnetic.Elements
		options magnetic.HeadingOptions
		want    []string
	}{
		{"no leads", nil, up, europe, exact, []string{"no leads"}},
		{"no earth", []magnetic.Lead{good}, up, magnetic.Elements{}, exact, []string{"H must be above 0"}},
		{"wrong sign", change(func(l *magnetic.Lead) { l.Load = -20 }), up, europe, exact, []string{`lead "battery"`, "load current of -20 A has the wrong sign"}},
		{"absurd", change(func(l *magnetic.Lead) { l.Load = 1e6 }), up, europe, exact, []string{"1e+06 A", "0 to 2000 A"}},
		{"no current", change(func(l *magnetic.Lead) { l.Idle = math.NaN() }), up, europe, exact, []string{"idle current of NaN"}},
		{"loop factor", change(func(l *magnetic.Lead) { l.LoopFactor = 5 }), up, europe, exact, []string{"loop factor 5", "1 to 3"}},
		{"nothing known", change(func(l *magnetic.Lead) { l.Pair = magnetic.Pair{} }), up, europe, exact, []string{"no route, no loops and no measured field"}},
		{"twice known", change(func(l *magnetic.Lead) { l.Measured = magnetic.Measurement{PerAmpere: r3.Vec{X: 1e-7}, Height: .1} }), up, europe, exact, []string{"counts twice"}},
		{"measured nowhere", []magnetic.Lead{{Name: "x", Measured: magnetic.Measurement{PerAmpere: r3.Vec{X: 1e-7}}}}, up, europe, exact, []string{"measured 0 mm above"}},
		{"measured decay", []magnetic.Lead{{Name: "x", Measured: magnetic.Measurement{Height: .1, Exponent: 9}}}, up, europe, exact, []string{"decay exponent 9"}},
		{"sensor below what was measured", []magnetic.Lead{measured(r3.Vec{X: 1e-7}, 1)}, r3.Vec{Z: -.01}, europe, exact, []string{"raise the sensor"}},
		{"sensor on a wire", []magnetic.Lead{good}, r3.Vec{Y: .0025}, europe, exact, []string{`lead "battery"`, "sensor at (0, 2.5, 0) mm", "inside a conductor"}},
		{"open loop", change(func(l *magnetic.Lead) { l.Loops = [][]r3.Vec{{{}, {X: .1}, {Y: .1}, {Z: .1}}} }), up, europe, exact, []string{"loop 1", "where does the current return?"}},
		{"tolerances", []magnetic.Lead{good}, up, europe, magnetic.HeadingOptions{Sideways: 1, Gap: 2, Roll: 9, Levels: 99, Lean: 2}, []string{"sideways", "roll", "gap", "99 placement levels", "lean"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := magnetic.Heading(c.leads, c.sensor, c.earth, c.options)
			wantError(t, err, c.want...)
		})
	}
	_, err := magnetic.Heading([]magnetic.Lead{good}, r3.Vec{Y: .0025}, europe, exact)
	if !errors.Is(err, magnetic.ErrInside) {
		t.Errorf("sensor on a wire: %v is not ErrInside", err)
	}
}

func ExampleHeading() {
	earth, err := magnetic.Earth(magnetic.Place{Latitude: 48 * math.Pi / 180, Longitude: 11 * math.Pi / 180, Height: 500}, 2026.5, magnetic.EarthOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	lead := magnetic.Lead{
		Name: "battery",
		Pair: magnetic.Pair{Centre: []r3.Vec{{X: -.04}, {X: .04}}, Spacing: .005},
		Idle: .4, Load: 7.2,
	}
	h, err := magnetic.Heading([]magnetic.Lead{lead}, r3.Vec{Z: .09}, earth.Elements, magnetic.HeadingOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f degrees as drawn, %.1f at worst\n", h.Nominal.Error*180/math.Pi, h.Worst.Error*180/math.Pi)
	fmt.Printf("%d placements, %d conductors evaluated\n", h.Placements, h.Evaluations)
	// Output:
	// 0.0 degrees as drawn, 1.0 at worst
	// 90 placements, 360 conductors evaluated
}

func BenchmarkHeading(b *testing.B) {
	twisted := battery(magnetic.Twisted, 20)
	twisted.Pair.Pitch = .02
	five := make([]magnetic.Lead, 5)
	for i := range five {
		five[i] = battery(magnetic.Stacked, 20)
		five[i].Pair.Centre = []r3.Vec{{X: .01, Y: .01 * float64(i-2)}, {X: .05, Y: .02 * float64(i-2)}}
	}
	for _, c := range []struct {
		name  string
		leads []magnetic.Lead
	}{
		{"one flat", []magnetic.Lead{battery(magnetic.SideBySide, 20)}},
		{"one twisted", []magnetic.Lead{twisted}},
		{"battery and four controllers", five},
	} {
		b.Run(c.name, func(b *testing.B) {
			var h magnetic.HeadingError
			for b.Loop() {
				h = heading(b, c.leads, r3.Vec{Z: .1}, magnetic.HeadingOptions{})
			}
			b.ReportMetric(float64(h.Evaluations), "conductors/op")
		})
	}
}
