package frame_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/design/frame"
	"pgregory.net/rapid"
)

// box returns the loops of a hollow rounded rectangle about the origin; r 0 leaves sharp corners.
func box(w, h, r, t float64) []frame.Loop {
	return []frame.Loop{rounded(w, h, r, false), rounded(w-2*t, h-2*t, math.Max(r-t, 0), true)}
}

// rounded returns a rectangle with corner radius r.
func rounded(w, h, r float64, clockwise bool) frame.Loop {
	x, y := w/2, h/2
	b := math.Tan(math.Pi / 8)
	l := frame.Loop{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
	if r > 0 {
		l = frame.Loop{
			{X: -x + r, Y: -y}, {X: x - r, Y: -y, Bulge: b}, {X: x, Y: -y + r}, {X: x, Y: y - r, Bulge: b},
			{X: x - r, Y: y}, {X: -x + r, Y: y, Bulge: b}, {X: -x, Y: y - r}, {X: -x, Y: -y + r, Bulge: b},
		}
	}
	if clockwise {
		l = reversed(l)
	}
	return l
}

func reversed(l frame.Loop) frame.Loop {
	out := make(frame.Loop, len(l))
	for i := range l {
		from := l[(len(l)-i)%len(l)]
		out[i] = frame.Vertex{X: from.X, Y: from.Y, Bulge: -l[(2*len(l)-i-1)%len(l)].Bulge}
	}
	return out
}

func circle(r float64, clockwise bool) frame.Loop {
	l := frame.Loop{{X: r, Bulge: 1}, {X: -r, Bulge: 1}}
	if clockwise {
		l = reversed(l)
	}
	return l
}

func integrate(t *testing.T, loops []frame.Loop, o frame.SectionOptions) frame.Section {
	t.Helper()
	s, err := frame.Integrate(loops, o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Closed forms for circle and rectangle; Cowper, J. Appl. Mech. 33 (1966) 335-340; Timoshenko &
// Goodier, Theory of Elasticity, art. 109. Lengths in mm.
func TestSections(t *testing.T) {
	must := func(s frame.Section, err error) frame.Section {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	tube := integrate(t, []frame.Loop{circle(5, false), circle(4, true)}, frame.SectionOptions{})
	hollow := integrate(t, box(20, 30, 0, 2), frame.SectionOptions{})
	made := must(frame.Tube(10, 8, 0.3))
	for _, c := range []struct {
		name            string
		got, want, tolr float64
	}{
		{"tube A", tube.A, 28.2743338823, 1e-11},
		{"tube I", tube.Ix, 289.811922294, 1e-11},
		{"tube J", tube.J, 579.623844587, 1e-11},
		{"tube by diameters A", made.A, 28.2743338823, 1e-11},
		{"tube by diameters I", made.Iy, 289.811922294, 1e-11},
		{"tube by diameters J", made.J, 579.623844587, 1e-11},
		{"box A", hollow.A, 184, 1e-12},
		{"box Ix", hollow.Ix, 21565.3333333, 1e-11},
		{"box Iy", hollow.Iy, 11125.3333333, 1e-11},
		{"box Bredt J", frame.Bredt(18*28, []frame.Wall{{Length: 92, Thickness: 2}}), 22088.3478261, 1e-11},
		{"square torsion", must(frame.Rectangle(1, 1, 0.3)).J, 0.140577014955, 1e-11},
		{"1:2 torsion", must(frame.Rectangle(2, 1, 0.3)).J / 2, 0.228681677120, 1e-11},
		{"1:5 torsion", must(frame.Rectangle(1, 5, 0.3)).J / 5, 0.291316754188, 1e-11},
		{"circle shear", must(frame.Round(2, 0.3)).ShearX / math.Pi, 0.88636364, 1e-8},
		{"rectangle shear", must(frame.Rectangle(1, 3, 0.3)).ShearX / 3, 0.84967320, 1e-8},
		{"tube shear", made.ShearY / made.A, 0.54107656, 1e-8},
		{"open channel", frame.OpenTorsion([]frame.Wall{{20, 1}, {10, 1}, {10, 1}}), 13.3333333333, 1e-10},
	} {
		closeTo(t, c.name, c.got, c.want, c.tolr)
	}
}

// The stress function against exact torsion constants and Cowper's closed forms.
func TestStressFunction(t *testing.T) {
	solve := frame.SectionOptions{Torsion: frame.TorsionStressFunction}
	for _, c := range []struct {
		name, source  string
		loops         []frame.Loop
		J, kx, relTol float64 // 1e-3: a quarter of the mean wall, quadratic elements
	}{
		{"circle", "πr⁴/2; Cowper", []frame.Loop{circle(1, false)}, math.Pi / 2, 0.88636364, 1e-4},
		{"square", "Timoshenko & Goodier, art. 109; Cowper", []frame.Loop{rounded(1, 1, 0, false)}, 0.140577014955, 0.84967320, 1e-3},
		{"1:5", "Timoshenko & Goodier, art. 109; Cowper", []frame.Loop{rounded(5, 1, 0, false)}, 5 * 0.291316754188, 0.84967320, 1e-3},
		{"tube", "π(D⁴-d⁴)/32; Cowper", []frame.Loop{circle(5, false), circle(4, true)}, 579.623844587, 0.54107656, 1e-4},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := integrate(t, c.loops, solve)
			closeTo(t, "J, "+c.source, s.J, c.J, c.relTol)
			closeTo(t, "shear along x", s.ShearX/s.A, c.kx, c.relTol)
			closeTo(t, "shear along y", s.ShearY/s.A, c.kx, c.relTol)
			if r := math.Sqrt(s.A); math.Hypot(s.ShearCentreX, s.ShearCentreY) > 1e-4*r {
				t.Errorf("shear centre (%g, %g), want the middle", s.ShearCentreX, s.ShearCentreY)
			}
		})
	}
}

// The fast box against the stress function, which shares no code with it: within 0.3 % in torsion down
// to sides of four walls, 5 % in shear area (a small part of any deflection here).
func TestBoxAgainstStressFunction(t *testing.T) {
	for _, c := range []struct{ w, h, r, t float64 }{
		{18, 18, 0, 2.4}, {18, 18, 1, 2.4}, {18, 18, 2.4, 2.4}, {18, 18, 4, 2.4}, {12, 12, 2, 2.4},
		{20, 30, 0, 2}, {20, 30, 4, 2}, {20, 20, 0, 4}, {20, 20, 0, 1}, {16, 16, 8, 2},
	} {
		want := integrate(t, box(c.w, c.h, c.r, c.t), frame.SectionOptions{Torsion: frame.TorsionStressFunction})
		fast := integrate(t, box(c.w, c.h, c.r, c.t), frame.SectionOptions{})
		got, err := frame.Box(c.w, c.h, c.r, c.t, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprint(c)
		closeTo(t, name+" J", got.J, want.J, 3e-3)
		closeTo(t, name+" shear along x", got.ShearX, want.ShearX, 0.05)
		closeTo(t, name+" shear along y", got.ShearY, want.ShearY, 0.05)
		closeTo(t, name+" A", got.A, want.A, 1e-12)
		closeTo(t, name+" Ix", got.Ix, want.Ix, 1e-12)
		closeTo(t, name+" Iy", got.Iy, want.Iy, 1e-12)
		closeTo(t, name+" J from loops", fast.J, got.J, 1e-6)
	}
}

// A slot through the wall takes nearly all of the torsion: the shear centre leaves the tube by twice the
// mid-line radius, and J falls to 2πr t³/3. Source: Timoshenko & Gere, Mechanics of Materials, thin slit
// tube, e = 2r from the centre; 3 % for the finite slit and wall.
func TestSlitTube(t *testing.T) {
	const r, wall, half = 10.0, 0.5, 0.01 // half angle of the slit
	R, q := r+wall/2, r-wall/2
	b := math.Tan((2*math.Pi - 2*half) / 16)
	var l frame.Loop
	for i := range 4 {
		sin, cos := math.Sincos(half + float64(i)*(2*math.Pi-2*half)/4)
		l = append(l, frame.Vertex{X: R * cos, Y: R * sin, Bulge: b})
	}
	l = append(l, frame.Vertex{X: R * math.Cos(half), Y: -R * math.Sin(half)})
	for i := range 4 {
		sin, cos := math.Sincos(-half - float64(i)*(2*math.Pi-2*half)/4)
		l = append(l, frame.Vertex{X: q * cos, Y: q * sin, Bulge: -b})
	}
	l = append(l, frame.Vertex{X: q * math.Cos(half), Y: q * math.Sin(half)})
	s := integrate(t, []frame.Loop{l}, frame.SectionOptions{})
	closeTo(t, "J", s.J, 2*math.Pi*r*wall*wall*wall/3, 0.03)
	closeTo(t, "shear centre", s.ShearCentreX+s.X, -2*r, 0.03)
}

// Source: Roark's Formulas for Stress and Strain, table 9.2 (channel), mid-line: e = 3b²/(h+6b).
func TestChannel(t *testing.T) {
	s, err := frame.ThinOpen([]frame.Segment{{10, -10, 0, -10, 1}, {0, -10, 0, 10, 1}, {0, 10, 10, 10, 1}})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "A", s.A, 40, 1e-12)
	closeTo(t, "Ix", s.Ix, 2666.667, 1e-6)
	closeTo(t, "Iy", s.Iy, 416.667, 1e-6)
	closeTo(t, "J", s.J, 13.3333, 1e-5)
	closeTo(t, "shear centre outside the web", -(s.X + s.ShearCentreX), 3.75, 1e-12)
	// the same from the solid outline, wall 1 about the mid-line; 5 % for the wall's thickness
	solid := integrate(t, []frame.Loop{{
		{X: -0.5, Y: -10.5}, {X: 10, Y: -10.5}, {X: 10, Y: -9.5}, {X: 0.5, Y: -9.5},
		{X: 0.5, Y: 9.5}, {X: 10, Y: 9.5}, {X: 10, Y: 10.5}, {X: -0.5, Y: 10.5},
	}}, frame.SectionOptions{})
	closeTo(t, "solid shear centre", -(solid.X + solid.ShearCentreX), 3.75, 0.05)
	closeTo(t, "solid J", solid.J, 13.3333, 0.05)
}

// A section turned, moved and cut into finer arcs keeps what does not depend on axes.
func TestSectionInvariance(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(label string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, label) }
		w, h := f("w", 5, 30), f("h", 5, 30)
		wall := f("wall", 0.05, 0.2) * math.Min(w, h)
		r := f("r", 0.01, 0.49) * math.Min(w, h)
		loops := box(w, h, r, wall)
		angle, dx, dy := f("angle", -3, 3), f("dx", -50, 50), f("dy", -50, 50)
		sin, cos := math.Sincos(angle)
		var turned []frame.Loop
		for _, l := range loops {
			var out frame.Loop
			for _, v := range l {
				out = append(out, frame.Vertex{X: cos*v.X - sin*v.Y + dx, Y: sin*v.X + cos*v.Y + dy, Bulge: v.Bulge})
			}
			turned = append(turned, out)
		}
		o := frame.SectionOptions{Torsion: frame.TorsionClosedWall}
		a, err := frame.Integrate(loops, o)
		if err != nil {
			rt.Fatal(err)
		}
		b, err := frame.Integrate(turned, o)
		if err != nil {
			rt.Fatal(err)
		}
		i1, i2, _ := b.Principal()
		lo, hi := math.Min(a.Ix, a.Iy), math.Max(a.Ix, a.Iy)
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"area", b.A, a.A}, {"x", b.X, dx}, {"y", b.Y, dy}, {"polar", b.Ix + b.Iy, a.Ix + a.Iy},
			{"least", math.Min(i1, i2), lo}, {"greatest", math.Max(i1, i2), hi},
		} {
			if math.Abs(c.got-c.want) > 1e-9*(math.Abs(c.want)+1) {
				rt.Errorf("%s: %.12g, turned %.12g", c.name, c.want, c.got)
			}
		}
	})
}

func TestSectionErrors(t *testing.T) {
	for _, c := range []struct {
		name string
		err  func() error
		want string
	}{
		{"wall", func() error { _, err := frame.Box(6, 6, 1, 4, 0.3); return err }, "use less than 3 m"},
		{"radius", func() error { _, err := frame.Box(6, 6, 4, 1, 0.3); return err }, "corner radius 4"},
		{"not finite", func() error { _, err := frame.Tube(math.NaN(), 1, 0.3); return err }, "above zero"},
		{"poisson", func() error { _, err := frame.Round(1, 0.7); return err }, "Poisson's ratio 0.7"},
		{"no loops", func() error { _, err := frame.Integrate(nil, frame.SectionOptions{}); return err }, "no loops"},
		{"clockwise", func() error {
			_, err := frame.Integrate([]frame.Loop{circle(1, true)}, frame.SectionOptions{})
			return err
		}, "counter-clockwise"},
		{"vertex", func() error {
			_, err := frame.Integrate([]frame.Loop{{{}, {X: 1}, {X: math.Inf(1)}}}, frame.SectionOptions{})
			return err
		}, "loop 0 vertex 2"},
		{"twice", func() error {
			_, err := frame.Integrate([]frame.Loop{{{}, {X: 1}, {X: 1}}, {{}}}, frame.SectionOptions{})
			return err
		}, "loop 1 has 0 edges"},
		{"two pieces", func() error {
			far := circle(1, false)
			for i := range far {
				far[i].X += 5
			}
			_, err := frame.Integrate([]frame.Loop{circle(1, false), far}, frame.SectionOptions{})
			return err
		}, "2 separate outlines"},
		{"crossing", func() error {
			_, err := frame.Integrate([]frame.Loop{rounded(2, 2, 0, false), rounded(3, 1, 0, true)}, frame.SectionOptions{Torsion: frame.TorsionStressFunction})
			return err
		}, "cross"},
		{"cell", func() error {
			_, err := frame.ThinOpen([]frame.Segment{{0, 0, 1, 0, 1}, {1, 0, 0, 1, 1}, {0, 1, 0, 0, 1}})
			return err
		}, "closes a cell"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := c.err(); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q in it", err, c.want)
			}
		})
	}
}
