package motor_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/motor"
)

const inch = .0254

func near(t *testing.T, name string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: got %.10g, want %.10g within %g", name, got, want, rel)
	}
}

// class is one row of a table of typical aircraft: common practice, no source.
type class struct {
	name                        string
	drive                       motor.Drive
	hoverLow, hoverMid, hoverUp float64 // r/min
	fullLow, fullUp             float64 // r/min
	ampsLow, ampsUp             float64 // hover, A
	bandwidth                   float64 // Hz
	idleAmps                    float64
	kvLow, kvHigh               float64
}

var classes = []class{
	{"3 inch", motor.Drive{KV: 3400, Cells: 4, Blades: 3, Diameter: 3 * inch, Mass: .25, MassLow: .18, MassHigh: .32}, 15e3, 19e3, 24e3, 29e3, 46e3, 1.8, 5.4, 60, .2, 3000, 3850},
	{"5 inch", motor.Drive{KV: 1800, Cells: 6, Blades: 3, Diameter: 5 * inch, Mass: .70, MassLow: .55, MassHigh: .85}, 9.5e3, 11.6e3, 14e3, 25e3, 35e3, 3.6, 8.5, 45, .3, 1700, 1950},
	{"7 inch", motor.Drive{KV: 1200, Cells: 6, Blades: 2, Diameter: 7 * inch, Mass: 1.15, MassLow: .8, MassHigh: 1.6}, 6.7e3, 8.4e3, 11e3, 16e3, 24e3, 4, 14, 30, .4, 1100, 1350},
	{"10 inch", motor.Drive{KV: 820, Cells: 6, Blades: 2, Diameter: 10 * inch, Mass: 2.15, MassLow: 1.5, MassHigh: 3}, 4.5e3, 5.6e3, 7.4e3, 10e3, 17e3, 6.6, 23, 20, .6, 700, 950},
	{"13 inch", motor.Drive{KV: 440, Cells: 6, Blades: 2, Diameter: 13 * inch, Mass: 3.6, MassLow: 2.5, MassHigh: 5}, 3.6e3, 4.5e3, 5.8e3, 5.5e3, 8.9e3, 10, 36, 12, 1, 380, 500},
}

func TestClasses(t *testing.T) {
	for _, c := range classes {
		t.Run(c.name, func(t *testing.T) {
			r, err := motor.Estimate(c.drive)
			if err != nil {
				t.Fatal(err)
			}
			// The table's middles are rounded and its masses are a range: 8 %.
			near(t, "hover r/min", r.Hover.Mid*60, c.hoverMid, .08)
			for name, n := range map[string]float64{"low": r.Hover.Low, "high": r.Hover.High} {
				// Table ends rounded to two digits, with a spread of C_T over all blades: 8 %.
				if n*60 < .92*c.hoverLow || n*60 > 1.08*c.hoverUp {
					t.Errorf("hover %s %.0f r/min outside %.0f to %.0f", name, n*60, c.hoverLow, c.hoverUp)
				}
			}
			if r.Full.Mid*60 < c.fullLow || r.Full.Mid*60 > c.fullUp {
				t.Errorf("full %.0f r/min outside %.0f to %.0f", r.Full.Mid*60, c.fullLow, c.fullUp)
			}
			if amps := r.HoverCurrent().Mid; amps < c.ampsLow || amps > c.ampsUp {
				t.Errorf("hover %.2f A outside %.2f to %.2f", amps, c.ampsLow, c.ampsUp)
			}
			near(t, "bandwidth", r.Drive.Bandwidth, c.bandwidth, 1e-12)
			near(t, "idle current", motor.IdleCurrent(c.drive.Diameter), c.idleAmps, 1e-12)
		})
	}
}

func TestHoverCarriesWeight(t *testing.T) {
	r, err := motor.Estimate(motor.Drive{KV: 1200, Cells: 6, Blades: 2, Diameter: .1778, Mass: 1.2})
	if err != nil {
		t.Fatal(err)
	}
	// T = C_T ρ n² D⁴, the definition of C_T, worked outside this package at 1.225 kg/m³; the
	// standard atmosphere comes to 1.22500002 at the sea, hence 1e-7.
	near(t, "hover", r.Hover.Mid, 147.8063406, 1e-7)
	thrust := .11 * 1.225 * r.Hover.Mid * r.Hover.Mid * math.Pow(.1778, 4)
	near(t, "four rotors' thrust over weight", 4*thrust/(1.2*9.80665), 1, 1e-7)
	near(t, "thrust of one rotor", r.Thrust, thrust, 1e-7)
	near(t, "ripple", r.RippleForce, .03*thrust, 1e-7)
	near(t, "full", r.Full.Mid*60, 1200*6*3.7*.8, 1e-12)
	near(t, "idle", r.Idle.Mid, .35*r.Hover.Mid, 1e-12)
	near(t, "working low", r.Working.Low, .85*r.Hover.Low, 1e-12)
	near(t, "working high", r.Working.High, 1.15*r.Hover.High, 1e-12)
	near(t, "hover low", r.Hover.Low, r.Hover.Mid*math.Sqrt(.11/.13), 1e-12)
}

func TestMeasuredSpeeds(t *testing.T) {
	r, err := motor.Estimate(motor.Drive{Blades: 3, Diameter: .127, Mass: .7, MeasuredHover: 190, MeasuredFull: 500, MeasuredIdle: 60})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		got  motor.Spread
		want float64
	}{{"hover", r.Hover, 190}, {"full", r.Full, 500}, {"idle", r.Idle, 60}} {
		if c.got != (motor.Spread{Low: c.want, Mid: c.want, High: c.want}) {
			t.Errorf("%s: got %v, want %g without spread", c.name, c.got, c.want)
		}
	}
	if got := r.HoverCurrent(); got != (motor.Spread{}) {
		t.Errorf("hover current without cells: got %v, want none", got)
	}
}

func TestBladePass(t *testing.T) {
	for _, c := range []struct {
		name   string
		blades int
		rpm    float64
		want   float64
	}{
		{"two blades at 6000 r/min", 2, 6000, 200}, // n × blades / 60
		{"three blades at 24000 r/min", 3, 24000, 1200},
	} {
		t.Run(c.name, func(t *testing.T) {
			near(t, "blade pass", motor.BladePass(c.blades, c.rpm/60), c.want, 1e-12)
			r, err := motor.Estimate(motor.Drive{Blades: c.blades, Diameter: .127, Mass: .7, MeasuredHover: c.rpm / 60, MeasuredFull: 600})
			if err != nil {
				t.Fatal(err)
			}
			found := 0
			for _, l := range r.Lines() {
				if l.Regime == motor.Hover && l.Name == "blade-pass" {
					found++
					near(t, "line", l.Mid, c.want, 1e-12)
				}
				if l.Judged == (l.Name == "twice-per-rev") {
					t.Errorf("%s %s: judged %v", l.Regime, l.Name, l.Judged)
				}
			}
			if found != 1 {
				t.Errorf("blade-pass lines in hover: got %d, want 1", found)
			}
			if got, want := len(r.Lines()), map[int]int{2: 8, 3: 12}[c.blades]; got != want {
				t.Errorf("lines: got %d, want %d", got, want)
			}
		})
	}
}

// ISO 21940-11: e_per Ω = G; the figures worked outside this package.
func TestUnbalance(t *testing.T) {
	r, err := motor.Estimate(motor.Drive{Blades: 2, Diameter: .127, Mass: .7, MeasuredHover: 200, MeasuredFull: 600,
		RotatingMass: .030, Grade: motor.Balanced})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "eccentricity µm", r.Eccentricity*1e6, 5.01338071, 1e-8)
	near(t, "unbalance g·mm", r.Unbalance*1e6, .150401421, 1e-8)
	near(t, "force N", r.UnbalanceForce(200), .237504405, 1e-8)
	near(t, "force at twice the speed", r.UnbalanceForce(400), 4*.237504405, 1e-8)
}

// ISO 2533:1975, tables over geopotential and geometric altitude, as given to six
// digits; from memory and agreeing with the U.S. Standard Atmosphere 1976 below 32 km.
func TestDensity(t *testing.T) {
	const radius = 6356766.0
	for _, c := range []struct {
		name         string
		geopotential bool
		altitude     float64
		want         float64
	}{
		{"sea", false, 0, 1.225},
		{"geopotential 1000 m", true, 1000, 1.11164},
		{"geopotential 2000 m", true, 2000, 1.00649},
		{"geopotential 3000 m", true, 3000, .909122},
		{"geopotential 5000 m", true, 5000, .736116},
		{"geopotential 10000 m", true, 10000, .412707},
		{"geometric 1000 m", false, 1000, 1.11166},
		{"geometric 5000 m", false, 5000, .736429},
		{"geometric 10000 m", false, 10000, .413510},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := c.altitude
			if c.geopotential {
				h = radius * h / (radius - h)
			}
			got, err := motor.Density(h)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "density", got, c.want, 6e-6) // last digit of the table
		})
	}
	for _, h := range []float64{-5001, 11001, math.NaN(), math.Inf(1)} {
		if _, err := motor.Density(h); err == nil {
			t.Errorf("altitude %g: got no error", h)
		}
	}
}

func TestProblems(t *testing.T) {
	good := motor.Drive{KV: 1200, Cells: 6, Blades: 2, Diameter: .1778, Mass: 1.2}
	for _, c := range []struct {
		name   string
		change func(*motor.Drive)
		want   []string
	}{
		{"empty", func(d *motor.Drive) { *d = motor.Drive{} }, []string{"propeller diameter", "take-off mass", "kv", "blades"}},
		{"nan mass", func(d *motor.Drive) { d.Mass = math.NaN() }, []string{"mass NaN"}},
		{"infinite kv", func(d *motor.Drive) { d.KV = math.Inf(1) }, []string{"kv +Inf"}},
		{"one blade", func(d *motor.Drive) { d.Blades = 1 }, []string{"1 blades"}},
		{"negative ripple", func(d *motor.Drive) { d.Ripple = -.1 }, []string{"thrust ripple -0.1"}},
		{"mass outside its range", func(d *motor.Drive) { d.MassLow = 2 }, []string{"outside its own range"}},
		{"unordered thrust coefficient", func(d *motor.Drive) { d.ThrustCoefficient.Mid = .1 }, []string{"rising order"}},
		{"in space", func(d *motor.Drive) { d.Altitude = 4e5 }, []string{"altitude"}},
		{"too weak to hover", func(d *motor.Drive) { d.Cells = 1 }, []string{"full speed: hover needs"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := good
			c.change(&d)
			r, err := motor.Estimate(d)
			if err == nil {
				t.Fatalf("got %v, want an error", r)
			}
			for _, want := range c.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("got %q, want it to say %q", err, want)
				}
			}
		})
	}
}

func TestInterpolation(t *testing.T) {
	for _, c := range []struct{ diameter, want float64 }{
		{2, 60}, {4, 52.5}, {6, 37.5}, {8.5, 25}, {11.5, 16}, {18, 12}, // straight lines between the classes' figures
	} {
		near(t, "bandwidth", motor.Bandwidth(c.diameter*inch), c.want, 1e-12)
	}
}

func TestThinAirAndWeightQuickenRotors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := motor.Drive{KV: 1200, Cells: 6, Blades: 2, Diameter: .1778, Mass: rapid.Float64Range(.5, 1.5).Draw(t, "mass"), Altitude: rapid.Float64Range(0, 3000).Draw(t, "altitude")}
		low, err := motor.Estimate(d)
		if err != nil {
			t.Fatal(err)
		}
		k := rapid.Float64Range(1.01, 1.5).Draw(t, "factor")
		heavy := d
		heavy.Mass *= k
		h, err := motor.Estimate(heavy)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := h.Hover.Mid/low.Hover.Mid, math.Sqrt(k); math.Abs(got-want) > 1e-12 {
			t.Errorf("hover speed with %g times the mass: got %g times, want %g", k, got, want)
		}
		high := d
		high.Altitude += 500
		a, err := motor.Estimate(high)
		if err != nil {
			t.Fatal(err)
		}
		if !(a.Hover.Mid > low.Hover.Mid) {
			t.Errorf("hover at %g m: got %g Hz, want above %g", high.Altitude, a.Hover.Mid, low.Hover.Mid)
		}
		if !(low.Hover.Low < low.Hover.Mid && low.Hover.Mid < low.Hover.High) {
			t.Errorf("hover %v is not in order", low.Hover)
		}
	})
}

func TestBandsMeet(t *testing.T) {
	a := motor.Band{Low: 10, High: 20}
	for _, c := range []struct {
		b    motor.Band
		want bool
	}{{motor.Band{Low: 20, High: 30}, true}, {motor.Band{Low: 21, High: 30}, false}, {motor.Band{Low: 12, High: 13}, true}, {motor.Band{Low: 1, High: 9}, false}} {
		if got := a.Meets(c.b); got != c.want || c.b.Meets(a) != c.want {
			t.Errorf("%v meets %v: got %v, want %v", a, c.b, got, c.want)
		}
	}
}
