package frame_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design/frame"
	"pgregory.net/rapid"
)

// k/D, the moment stiffness of a rigid hub over the plate's rigidity.
func TestPlateHub(t *testing.T) {
	screws := func(pitch float64) []frame.Pin {
		a := pitch / 2
		return []frame.Pin{{X: a, Y: a}, {X: -a, Y: a}, {X: -a, Y: -a}, {X: a, Y: -a}}
	}
	disc := frame.Plate{Outline: []frame.Loop{circle(0.05, false)}, Hub: circle(0.02, false), Thickness: 0.002, E: 2e9, Poisson: 0.3}
	supported, clamped := disc, disc
	supported.Edge, clamped.Edge = frame.EdgeSupported, frame.EdgeClamped
	square := frame.Plate{
		Outline: []frame.Loop{rounded(0.036, 0.036, 0, false)}, Hub: rounded(0.012, 0.012, 0, false),
		Pins: screws(0.03), Thickness: 0.004, E: 2e9, Poisson: 0.35,
	}
	for _, c := range []struct {
		name, source string
		plate        frame.Plate
		want         float64
	}{
		// 3 %: the outline is a polygon and the mesh coarse
		{"edge supported", "Roark's Formulas for Stress and Strain, table 11.2, central moment on a rigid hub, b/a .4, nu .3", supported, 36.3032095},
		{"edge clamped", "the same, edge fixed", clamped, 65.3978009},
		{"four screws", "own plate element of another program, no published value; side/pitch 1.2, hub/pitch .4, nu .35", square, 18.614},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.plate.Compliance()
			if err != nil {
				t.Fatal(err)
			}
			D := c.plate.Rigidity()
			closeTo(t, c.source, 1/got.C[1][1]/D, c.want, 0.03)
			closeTo(t, c.source, 1/got.C[2][2]/D, c.want, 0.03)
		})
	}
}

// A cantilever strip bends as a beam where Poisson's ratio is zero: δ = FL³/3EI, φ = ML/EI.
func TestPlateStrip(t *testing.T) {
	const L, w, thick, E = 0.1, 0.02, 0.002, 1e9
	p := frame.Plate{
		Outline:   []frame.Loop{{{X: -0.02, Y: -w / 2}, {X: L + 0.01, Y: -w / 2}, {X: L + 0.01, Y: w / 2}, {X: -0.02, Y: w / 2}}},
		Ties:      [][2]float64{{L, -0.3 * w}, {L, -0.1 * w}, {L, 0.1 * w}, {L, 0.3 * w}},
		Thickness: thick, E: E,
	}
	for _, y := range []float64{-0.45, -0.3, -0.1, 0.1, 0.3, 0.45} {
		p.Pins = append(p.Pins, frame.Pin{X: 0, Y: y * w, Clamped: true})
	}
	got, err := p.Compliance()
	if err != nil {
		t.Fatal(err)
	}
	I := w * thick * thick * thick / 12
	// 2 %: the clamp and the load are rows of points, not lines
	closeTo(t, "tip", got.C[0][0], L*L*L/(3*E*I), 0.02)
	closeTo(t, "slope", got.C[2][2], L/(E*I), 0.02)
	closeTo(t, "slope per force", -got.C[2][0], L*L/(2*E*I), 0.02)
}

// Any sensible foot meshes; its compliance is symmetric and gives under every load.
func TestPlateProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(label string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, label) }
		w, h := f("w", 0.03, 0.06), f("h", 0.03, 0.06)
		hub := f("hub", 0.2, 0.5) * math.Min(w, h)
		margin := f("margin", 0.08, 0.18)
		a, b := w*(0.5-margin), h*(0.5-margin)
		hole := func(x, y float64) frame.Loop {
			l := circle(0.0016, true)
			for i := range l {
				l[i].X += x
				l[i].Y += y
			}
			return l
		}
		p := frame.Plate{
			Outline: []frame.Loop{rounded(w, h, f("corner", 0, 0.4)*math.Min(w, h)*margin, false), hole(a, b), hole(0, 0), hole(0, -h*(0.5-margin))},
			Hub:     rounded(hub, hub, f("hub corner", 0, 0.5)*hub, false), Thickness: 0.004, E: 2e9, Poisson: 0.35,
			Pins: []frame.Pin{{X: a, Y: b}, {X: -a, Y: b}, {X: -a, Y: -b}, {X: a, Y: -b}},
		}
		got, err := p.Compliance()
		if err != nil {
			rt.Fatal(err)
		}
		for i := range 3 {
			if !(got.C[i][i] > 0) {
				rt.Errorf("compliance %d is %g", i, got.C[i][i])
			}
			for j := range i {
				if d := math.Abs(got.C[i][j] - got.C[j][i]); d > 1e-9*math.Sqrt(got.C[i][i]*got.C[j][j]) {
					rt.Errorf("compliance %d %d: %g and %g", i, j, got.C[i][j], got.C[j][i])
				}
			}
		}
		if _, err := got.Spring(1e8, 1e8, 1e4); err != nil {
			rt.Error(err)
		}
	})
}

func TestPlateErrors(t *testing.T) {
	good := frame.Plate{
		Outline: []frame.Loop{rounded(0.04, 0.04, 0, false)}, Hub: rounded(0.012, 0.012, 0, false), Thickness: 0.004, E: 2e9, Poisson: 0.35,
		Pins: []frame.Pin{{X: 0.015, Y: 0.015}, {X: -0.015, Y: 0.015}, {X: -0.015, Y: -0.015}},
	}
	for _, c := range []struct {
		name   string
		change func(*frame.Plate)
		want   string
	}{
		{"thickness", func(p *frame.Plate) { p.Thickness = 0 }, "thickness 0 m"},
		{"pin under the hub", func(p *frame.Plate) { p.Pins[1] = frame.Pin{} }, "pin 1 at (0, 0) m"},
		{"pin outside", func(p *frame.Plate) { p.Pins[0].X = 0.03 }, "pin 0 at (0.03, 0.015) m"},
		{"two pins", func(p *frame.Plate) { p.Pins = p.Pins[:2] }, "three pins"},
		{"hub over the edge", func(p *frame.Plate) { p.Hub = rounded(0.05, 0.012, 0, false); p.Pins = p.Pins[:0] }, "cross"},
		{"no hub", func(p *frame.Plate) { p.Hub = nil }, "no hub"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := good
			p.Pins = append([]frame.Pin(nil), good.Pins...)
			c.change(&p)
			if _, err := p.Compliance(); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q in it", err, c.want)
			}
		})
	}
}

// A screw stands in the middle of its own hole; the hole is filled by it, however the circle is drawn.
func TestPlateFillsHolesAroundPins(t *testing.T) {
	plate := func(holes ...frame.Loop) frame.Plate {
		p := frame.Plate{
			Outline:   append([]frame.Loop{{{X: -.03, Y: -.03}, {X: .03, Y: -.03}, {X: .03, Y: .03}, {X: -.03, Y: .03}}}, holes...),
			Thickness: .003, E: 2e9, Poisson: .38,
			Hub: frame.Loop{{X: -.01, Y: -.01}, {X: .01, Y: -.01}, {X: .01, Y: .01}, {X: -.01, Y: .01}},
		}
		for _, s := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			p.Pins = append(p.Pins, frame.Pin{X: .02 * s[0], Y: .02 * s[1]})
		}
		return p
	}
	want, err := plate().Compliance()
	if err != nil {
		t.Fatal(err)
	}
	halves := func(x, y, r float64) frame.Loop {
		return frame.Loop{{X: x - r, Y: y, Bulge: -1}, {X: x + r, Y: y, Bulge: -1}}
	}
	got, err := plate(halves(-.02, -.02, .0016), halves(.02, -.02, .0016), halves(.02, .02, .0016), halves(-.02, .02, .0016)).Compliance()
	if err != nil {
		t.Fatal(err)
	}
	if got != want {
		t.Errorf("got %v, want %v as without holes", got, want)
	}
}
