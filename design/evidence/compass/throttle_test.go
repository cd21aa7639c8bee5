package compass_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
)

var site = compass.ThrottleOptions{Total: 48.3e-6, Horizontal: 20e-6, Idle: 1.2, Hover: 14, Full: 60, Height: .1}

// The log is made with known slopes; the oracle is what it was made with and the closed forms beside each check.
func TestThrottleRecovers(t *testing.T) {
	held, runs := 0, 0
	for seed := range uint64(40) {
		v := compass.InventedThrottle{Seed: seed, Seconds: 10}
		r, err := compass.Throttle(v.Log(), site)
		if err != nil {
			t.Fatal(err)
		}
		for a, want := range []float64{.21e-6, -.12e-6, .05e-6} {
			runs++
			if s := r.Slopes[a].Slope; s.Low <= want && want <= s.High {
				held++
			}
			if got := r.Slopes[a].Slope.Value; math.Abs(got-want) > .006e-6 { // 4 standard errors of 0.4 uT over 500 rows and some 17 A
				t.Errorf("seed %d axis %d: %.4g, want %.4g", seed, a, got, want)
			}
		}
		if across := math.Hypot(.21e-6, .12e-6); !near(r.Across.Value, across, .02) || r.Moved {
			t.Errorf("seed %d: across %.4g, want %.4g; moved %v", seed, r.Across.Value, across, r.Moved)
		}
	}
	// 95 % of 120 is 114; three standard deviations of the count are 7.
	if held < 107 {
		t.Errorf("%d of %d bounds hold the slope", held, runs)
	}
}

func TestThrottleSwingsAndHeight(t *testing.T) {
	r, err := compass.Throttle(compass.InventedThrottle{Noise: 1e-12, Seed: 1}.Log(), site)
	if err != nil {
		t.Fatal(err)
	}
	// asin(B/H): .2419 uT/A by 12.8 A in 20 uT is 8.91°; by 58.8 A, 45.3°. Currents carry 1 % of noise.
	across := math.Hypot(.21, .12)
	for i, more := range []float64{12.8, 58.8} {
		want := math.Asin(across * more / 20)
		if got := r.Swings[i].Angle.Value; !near(got, want, .01) {
			t.Errorf("swing %d: %.3f°, want %.3f°", i, got/degree, want/degree)
		}
	}
	if r.Swings[0].Says != "marginal" || r.Swings[1].Says != "fail" {
		t.Errorf("says %s and %s, want marginal and fail", r.Swings[0].Says, r.Swings[1].Says)
	}
	// Full at 15° asks for the greater ratio, .7111/.2588; with a square law the height grows by its root.
	ratio := across * 58.8 / 20 / math.Sin(15*degree)
	if want := .1 * (math.Sqrt(ratio) - 1); !near(r.Ratio, ratio, .01) || !r.Reached || !near(r.Raise, want, .01) {
		t.Errorf("ratio %.4f raise %.4f; want %.4f, %.4f", r.Ratio, r.Raise, ratio, want)
	}
	o := site
	o.Decay = func(h float64) float64 { return math.Exp(-h / .05) }
	if r, err = compass.Throttle(compass.InventedThrottle{Noise: 1e-12, Seed: 1}.Log(), o); err != nil {
		t.Fatal(err)
	}
	if want := .05 * math.Log(ratio); !near(r.Raise, want, .01) {
		t.Errorf("raise by a decay of 50 mm: %.4f, want %.4f", r.Raise, want)
	}
	o.Decay = func(float64) float64 { return 1 }
	if r, err = compass.Throttle(compass.InventedThrottle{Seed: 1}.Log(), o); err != nil || r.Reached || !strings.Contains(strings.Join(r.Words, "\n"), "does not do it") {
		t.Errorf("a field that does not fall: %v, %v", err, r.Words)
	}
}

func TestSwing(t *testing.T) {
	// 2 uT across 20 uT: asin .1 = 5.73917048°; at and over H the needle points anywhere.
	for _, c := range []struct{ across, want float64 }{{2, 5.73917048}, {0, 0}, {20, 180}, {31, 180}} {
		if got := compass.Swing(c.across, 20) / degree; math.Abs(got-c.want) > 1e-8 {
			t.Errorf("%g uT: %.8f°, want %.8f°", c.across, got, c.want)
		}
	}
}

func TestThrottleGuessesTheUnit(t *testing.T) {
	base := compass.InventedThrottle{Seed: 7}.Log()
	for _, c := range []struct {
		unit   string
		factor float64
		name   string
	}{{"T", 1, "T"}, {"uT", 1e6, "uT"}, {"mG", 1e7, "mG"}, {"G", 1e4, "G"}, {"nT", 1e9, "nT"}, {"counts", 2.5e6, "counts"}} {
		t.Run(c.unit, func(t *testing.T) {
			log := base
			for a := range log.Axes {
				log.Axes[a] = nil
				for _, v := range base.Axes[a] {
					log.Axes[a] = append(log.Axes[a], v*c.factor)
				}
			}
			r, err := compass.Throttle(log, site)
			if err != nil {
				t.Fatal(err)
			}
			if r.Unit.Name != c.name || r.Unit.Said == "" {
				t.Errorf("unit %+v, want %s", r.Unit, c.name)
			}
			if want := math.Hypot(.21e-6, .12e-6); !near(r.Across.Value, want, .03) {
				t.Errorf("across %.4g, want %.4g", r.Across.Value, want)
			}
		})
	}
}

func TestThrottleAloneGivesTheCurrent(t *testing.T) {
	v := compass.InventedThrottle{Idle: 1e-9, Full: 60, Seed: 2}
	log := v.Log()
	log.Current = nil
	o := site
	// The maker's current goes with throttle to the power 1.5: hover at .4 takes 60·.4^1.5.
	o.ThrottleHover, o.ThrottleFull, o.Hover = .4, 1, 60*math.Pow(.4, 1.5)
	r, err := compass.Throttle(log, o)
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Hypot(.21e-6, .12e-6); !near(r.Across.Value, want, .02) {
		t.Errorf("across %.4g, want %.4g", r.Across.Value, want)
	}
}

func TestThrottleAgainstPrediction(t *testing.T) {
	o := site
	size := math.Sqrt(.21*.21+.12*.12+.05*.05) * 1e-6
	o.Predicted = bench.Around(size/1.6, .3*size/1.6)
	r, err := compass.Throttle(compass.InventedThrottle{}.Log(), o)
	if err != nil {
		t.Fatal(err)
	}
	if a := r.Agreement; a.Agrees || !near(a.Factor.Value, 1.6, .02) || len(a.Causes) < 3 {
		t.Errorf("got %+v, want a factor of 1.6 that differs", a)
	}
}

func TestAMovedAircraftIsTold(t *testing.T) {
	log := compass.InventedThrottle{}.Log()
	quiet, err := compass.Throttle(log, site)
	if err != nil {
		t.Fatal(err)
	}
	for i := range log.Axes[0] { // it swings by 10 degrees to and fro, slowly
		turn := 10 * degree * math.Sin(float64(i)/80)
		log.Axes[0][i] += 20e-6 * (math.Cos(turn) - 1)
		log.Axes[1][i] -= 20e-6 * math.Sin(turn)
	}
	r, err := compass.Throttle(log, site)
	if err != nil {
		t.Fatal(err)
	}
	if !r.Moved || quiet.Moved {
		t.Errorf("moved %v, quiet %v; want true, false", r.Moved, quiet.Moved)
	}
	if y := r.Slopes[1].Slope; y.Low > -.12e-6 || y.High < -.12e-6 || y.Plus() < 5*quiet.Slopes[1].Slope.Plus() {
		t.Errorf("the confidence did not widen enough: %+v, quiet %+v", y, quiet.Slopes[1].Slope)
	}
}

func TestThrottleRefuses(t *testing.T) {
	made := func(change func(*compass.Log)) compass.Log {
		l := compass.InventedThrottle{Seconds: 4}.Log()
		change(&l)
		return l
	}
	for _, c := range []struct {
		name string
		log  compass.Log
		o    compass.ThrottleOptions
		says string
	}{
		{"no current span", made(func(l *compass.Log) {
			for i := range l.Current {
				l.Current[i] = 12
			}
		}), site, "spans 0 A"},
		{"a saturated axis", made(func(l *compass.Log) {
			for i := range l.Axes[0] {
				l.Axes[0][i] = min(l.Axes[0][i], 26e-6)
			}
		}), site, "axis x is driven past its range"},
		{"a dead axis", made(func(l *compass.Log) { clear(l.Axes[2]) }), site, "axis z is zero"},
		{"not a number", made(func(l *compass.Log) { l.Axes[1][4] = math.NaN() }), site, "axis y of row 5"},
		{"no current", made(func(l *compass.Log) { l.Current, l.Throttle = nil, nil }), site, "neither current nor throttle"},
		{"throttle alone", made(func(l *compass.Log) { l.Current = nil }), site, "throttle alone"},
		{"unequal lengths", made(func(l *compass.Log) { l.Axes[1] = l.Axes[1][:20] }), site, "have 200, 20 and 200 rows"},
		{"too short", made(func(l *compass.Log) {
			for a := range l.Axes {
				l.Axes[a] = l.Axes[a][:5]
			}
		}), site, "5 rows"},
		{"no site", made(func(*compass.Log) {}), compass.ThrottleOptions{Hover: 12}, "horizontal field"},
		{"a unit that is none", made(func(*compass.Log) {}), compass.ThrottleOptions{Hover: 12, Horizontal: 20e-6, Unit: "gamma"}, "no unit"},
		{"counts without a site", made(func(l *compass.Log) {
			for a := range l.Axes {
				for i := range l.Axes[a] {
					l.Axes[a][i] *= 1e6 * 3.3
				}
			}
		}), compass.ThrottleOptions{Hover: 12, Horizontal: 20e-6}, "tell the unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := compass.Throttle(c.log, c.o)
			var r bench.Refusal
			if !errors.As(err, &r) || r.Remedy == "" || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, want a refusal with %q", err, c.says)
			}
		})
	}
}

func near(got, want, part float64) bool { return math.Abs(got-want) <= part*math.Abs(want) }

func ExampleThrottle() {
	r, err := compass.Throttle(compass.InventedThrottle{}.Log(), compass.ThrottleOptions{
		Total: 48.3e-6, Horizontal: 20e-6, Idle: 1.2, Hover: 14, Full: 60, Height: .1, Predicted: bench.Estimate{Value: .2e-6, Low: .13e-6, High: .3e-6},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range r.Words {
		fmt.Println(w)
	}
	// Output:
	// the axes are taken as T: their field of 4.873e-05 then fits the earth's field at the site, 48.3 uT
	// per ampere, in uT: x 0.2108 ± 0.0012, y -0.1201 ± 0.0011, z 0.0502 ± 0.0012; together 0.2478 ± 0.0012, across the vertical 0.2426 ± 0.0012
	// at hover (14 A) the heading swings by up to 8.9° (8.9° to 9.0°), limit 5°: marginal
	// at full (60 A) the heading swings by up to 45.5° (45.2° to 45.8°), limit 15°: fail
	// the measured lead field agrees with the design: 124 % of the predicted, within the spread of both
	// raise the compass by 67 mm, by the decay of the field with height
}
