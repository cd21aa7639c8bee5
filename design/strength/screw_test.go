package strength_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/strength"
)

// square is a foot of side a with screws at the corners of a square of pitch p, in m.
func square(a, p float64) strength.Foot {
	corners := func(s float64) [][2]float64 {
		return [][2]float64{{s / 2, s / 2}, {-s / 2, s / 2}, {-s / 2, -s / 2}, {s / 2, -s / 2}}
	}
	return strength.Foot{Outline: corners(a), Screws: corners(p)}
}

// Shigley's bracket: tension M r/Σr² about the edge, worked by hand for pitch 30, side 40 mm:
// r 5 and 35 mm, Σr² 2 (25 + 1225) mm².
func TestFootMoment(t *testing.T) {
	f := square(.040, .030)
	loads := f.Loads(strength.FootLoad{Moment: [3]float64{0, 2.5, 0}}) // top towards +x: the +x edge presses
	for i, want := range []float64{2.5 * .005 / 2500e-6, 2.5 * .035 / 2500e-6, 2.5 * .035 / 2500e-6, 2.5 * .005 / 2500e-6} {
		near(t, "tension", loads[i].Tension, want, 1e-9)
	}
	for _, c := range []struct {
		name           string
		load           strength.FootLoad
		tension, shear float64 // of the first screw, at (15, 15) mm
	}{
		{"lift", strength.FootLoad{Force: [3]float64{0, 0, 40}}, 10, 0},
		{"press", strength.FootLoad{Force: [3]float64{0, 0, -40}}, 0, 0},
		{"shear", strength.FootLoad{Force: [3]float64{24, -32, 0}}, 0, 10},
		{"torque, T/(4 r)", strength.FootLoad{Moment: [3]float64{0, 0, 4 * math.Sqrt2 * .015}}, 0, 1},
		{"lift beats a small moment: F/4 - M/(2 p)", strength.FootLoad{Force: [3]float64{0, 0, 40}, Moment: [3]float64{0, .06, 0}}, 9, 0},
		{"pressed shut", strength.FootLoad{Force: [3]float64{0, 0, -1000}, Moment: [3]float64{0, 1, 0}}, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := f.Loads(c.load)[0]
			if math.Abs(got.Tension-c.tension) > 1e-9 || math.Abs(got.Shear-c.shear) > 1e-9 {
				t.Errorf("got %+v, want tension %g shear %g", got, c.tension, c.shear)
			}
		})
	}
	if got := (strength.Foot{}).Loads(strength.FootLoad{Force: [3]float64{1, 1, 1}}); len(got) != 0 {
		t.Errorf("foot without screws: got %v", got)
	}
}

// Balance: what the screws pull and the edge presses carries the load, for any load and any turn of the foot.
func TestFootBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := square(rapid.Float64Range(.03, .06).Draw(t, "side"), .028)
		x := rapid.Float64Range(-1, 1)
		l := strength.FootLoad{
			Force:  [3]float64{20 * x.Draw(t, "fx"), 20 * x.Draw(t, "fy"), 60 * x.Draw(t, "fz")},
			Moment: [3]float64{2 * x.Draw(t, "mx"), 2 * x.Draw(t, "my"), x.Draw(t, "mz")},
		}
		loads := f.Loads(l)
		sum, about := 0.0, 0.0 // pull, and its moment about the pressed edge
		M := math.Hypot(l.Moment[0], l.Moment[1])
		if M < 1e-3 {
			return
		}
		way := [2]float64{l.Moment[1] / M, -l.Moment[0] / M}
		edge := math.Inf(-1)
		for _, p := range f.Outline {
			edge = math.Max(edge, p[0]*way[0]+p[1]*way[1])
		}
		for i, s := range f.Screws {
			if loads[i].Tension < 0 || math.IsNaN(loads[i].Tension+loads[i].Shear) {
				t.Errorf("screw %d: %+v", i, loads[i])
			}
			sum += loads[i].Tension
			about += loads[i].Tension * (edge - s[0]*way[0] - s[1]*way[1])
		}
		want := math.Max(0, M+l.Force[2]*edge)
		if math.Abs(about-want) > 1e-9*(1+want) {
			t.Errorf("moment about the edge: got %g, want %g", about, want)
		}
		if want > 0 && sum < l.Force[2]-1e-9 {
			t.Errorf("pull %g below the lift %g: the edge would have to pull", sum, l.Force[2])
		}
		// A foot and its load moved aside together carry the same.
		point, dx, dy := [3]float64{.01, -.02, .1}, .03*x.Draw(t, "dx"), .03*x.Draw(t, "dy")
		moved := strength.Foot{}
		for i := range f.Screws {
			moved.Outline = append(moved.Outline, [2]float64{f.Outline[i][0] + dx, f.Outline[i][1] + dy})
			moved.Screws = append(moved.Screws, [2]float64{f.Screws[i][0] + dx, f.Screws[i][1] + dy})
		}
		there := f.Loads(strength.LoadAt(point, l.Force))
		for i, got := range moved.Loads(strength.LoadAt([3]float64{point[0] + dx, point[1] + dy, point[2]}, l.Force)) {
			if math.Abs(got.Tension-there[i].Tension) > 1e-6 || math.Abs(got.Shear-there[i].Shear) > 1e-6 {
				t.Errorf("screw %d moved aside: got %+v, want %+v", i, got, there[i])
			}
		}
		turned := strength.Foot{}
		turn := func(p [2]float64) [2]float64 { return [2]float64{-p[1], p[0]} }
		for i := range f.Screws {
			turned.Outline = append(turned.Outline, turn(f.Outline[i]))
			turned.Screws = append(turned.Screws, turn(f.Screws[i]))
		}
		tl := strength.FootLoad{
			Force:  [3]float64{-l.Force[1], l.Force[0], l.Force[2]},
			Moment: [3]float64{-l.Moment[1], l.Moment[0], l.Moment[2]},
		}
		for i, got := range turned.Loads(tl) {
			if math.Abs(got.Tension-loads[i].Tension) > 1e-6 || math.Abs(got.Shear-loads[i].Shear) > 1e-6 {
				t.Errorf("screw %d turned a quarter: got %+v, want %+v", i, got, loads[i])
			}
		}
	})
}

func TestFootCapacity(t *testing.T) {
	f, s := square(.040, .030), strength.Screw{Tension: 200, Shear: 120}
	point, way := [3]float64{0, 0, .1}, [3]float64{1, 0, 0}
	F := f.Capacity(point, way, s)
	// At .1 m: T/F = .1 × .035/2500e-6 = 1.4, V/F = .25.
	near(t, "capacity", F, 1/math.Hypot(1.4/200, .25/120), 1e-9)
	near(t, "utilisation there", f.Utilisation(strength.LoadAt(point, [3]float64{F, 0, 0}), s), 1, 1e-9)
}

func TestScrews(t *testing.T) {
	// ISO 898-1, nominal stress areas of coarse threads, mm², three digits.
	for _, c := range []struct{ d, pitch, want float64 }{{2, .4, 2.07}, {2.5, .45, 3.39}, {3, .5, 5.03}, {4, .7, 8.78}, {5, .8, 14.2}} {
		near(t, "stress area", strength.StressArea(c.d*1e-3, c.pitch*1e-3)*1e6, c.want, 3e-3)
	}
	// A fastener catalogue's PA66 screws.
	for _, c := range []struct{ d, want float64 }{{.003, 200}, {.004, 400}, {.005, 700}} {
		near(t, "nylon", strength.NylonTension(c.d), c.want, 1e-12)
	}
	if small := strength.NylonTension(.002); small < 60 || small > 100 {
		t.Errorf("nylon M2: got %g N, want about 83, 40 MPa on 2.07 mm²", small)
	}
	for _, c := range []struct {
		name      string
		got, want float64 // by hand
	}{
		{"bearing", strength.Bearing(.003, .004, 30e6), 360},
		{"thread strip", strength.ThreadStrip(.002675, .006, 30e6), math.Pi * .002675 * .006 * 30e6 / math.Sqrt(3)},
		{"head pressed in", strength.HeadPull(.0055, .0034, .1, 30e6), math.Pi / 4 * (.0055*.0055 - .0034*.0034) * 30e6},
		{"head punched through", strength.HeadPull(.0055, .0034, .0005, 30e6), math.Pi * .0055 * .0005 * 30e6 / math.Sqrt(3)},
		{"clamp slip", strength.ClampSlip(500, .005, 0, 2), 2 * .2 * 500 * .005 * 2},
		{"screw shear", strength.ScrewShear(200), 120},
		{"interaction", strength.Screw{Tension: 200, Shear: 100}.Utilisation(strength.ScrewLoad{Tension: 120, Shear: 80}), 1},
	} {
		near(t, c.name, c.got, c.want, 1e-12)
	}
}

func TestCases(t *testing.T) {
	cases := strength.Loads{}.Cases()
	if got, want := len(cases), 24+3*24+3; got != want {
		t.Fatalf("cases: got %d, want %d", got, want)
	}
	length := func(v [3]float64) float64 { return math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2]) }
	names := map[string]bool{}
	for _, c := range cases {
		if names[c.Name] {
			t.Errorf("%q comes twice", c.Name)
		}
		names[c.Name] = true
		switch {
		case length(c.Hand) > 0:
			near(t, c.Name, length(c.Hand), 20, 1e-12)
		case c.Body[2] < 0:
			near(t, c.Name, length(c.Body), 5*9.80665, 1e-12)
		default:
			near(t, c.Name, length(c.Body), 3*9.80665, 1e-12)
			near(t, c.Name+", pressure", length(c.Pressure), 459.375, 1e-12) // 1.2 × 1.225 × 25²/2
			near(t, c.Name+", same way", c.Body[0]*c.Pressure[0]+c.Body[1]*c.Pressure[1], 3*9.80665*459.375, 1e-12)
		}
	}
	own := strength.Loads{Sideways: 1, Axial: 2, Hand: 3, TopSpeed: 1, Drag: 2, Density: 1, Azimuths: 1}.Cases()
	if got := own[0]; got.Body != [3]float64{1, 0, 0} || got.Pressure != [3]float64{1, 0, 0} {
		t.Errorf("own figures: got %+v", got)
	}
}
