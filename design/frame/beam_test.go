package frame_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

// euler is a section without shear flexibility and next to no rotary inertia, A 1 m² and I 1e-8 m⁴:
// with E 1e8, density 1 and L 1 the checks read off as dimensionless figures.
func euler() frame.Section {
	return frame.Section{A: 1, Ix: 1e-12, Iy: 1e-12, J: 1e-12, Left: 1, Right: 1, Bottom: 1, Top: 1}
}

// unit has EI, ρA and L all 1 along z; the rotary inertia is a 1e-12 part.
func unit(elements int) frame.Model {
	return frame.Model{
		Nodes:    []frame.Node{{Name: "root"}, {Name: "tip", At: r3.Vec{Z: 1}}},
		Members:  []frame.Member{{A: 0, B: 1, Stations: frame.Uniform(euler()), Material: frame.Elastic{E: 1e12, G: 1e12, Density: 1}, Elements: elements}},
		Supports: []frame.Support{frame.Clamp(0)},
	}
}

// betaL returns βL of every mode of a model like unit, where ω² = (βL)⁴.
func betaL(t *testing.T, m frame.Model, count int) []float64 {
	t.Helper()
	modes, err := frame.Modes(m, frame.Options{Count: count})
	if err != nil {
		t.Fatal(err)
	}
	var out []float64
	for _, mode := range modes {
		out = append(out, math.Sqrt(2*math.Pi*mode.Frequency))
	}
	return out
}

func closeTo(t *testing.T, what string, got, want, relTol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relTol*math.Abs(want)) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, relTol)
	}
}

func TestCantilevers(t *testing.T) {
	point := func(mass float64) func(*frame.Model) {
		return func(m *frame.Model) { m.Bodies = []frame.Body{{Node: 1, Mass: mass}} }
	}
	body := func(mass, J, c float64) func(*frame.Model) {
		return func(m *frame.Model) {
			m.Bodies = []frame.Body{{Node: 1, Mass: mass, CG: r3.Vec{Z: c}, Inertia: [3][3]float64{{J}, {0, J}, {}}}}
		}
	}
	root := func(k float64) func(*frame.Model) {
		return func(m *frame.Model) {
			m.Supports[0].Fixed = [6]bool{0: true, 1: true, 2: true, 5: true}
			m.Springs = []frame.Spring{{A: 0, B: frame.Ground, K: frame.Uncoupled(0, 0, 0, k, k, 0)}}
		}
	}
	const (
		beam    = "roots of the Euler-Bernoulli frequency equation (Blevins, Formulas for Natural Frequency and Mode Shape, table 8-1)"
		tip     = "roots of the frequency equation with tip mass, computed independently"
		tipBody = "roots of the frequency equation with a tip body, computed independently"
		spring  = "roots of the frequency equation with a rotational root spring, computed independently"
	)
	cases := []struct {
		name, source string
		elements     int
		change       func(*frame.Model)
		want         []float64 // each twice: the two planes
		relTol       []float64
	}{
		// 20 elements: the error of a mode is (βL/20)⁴/1440 or so; coarser fails.
		{"uniform", beam, 20, func(*frame.Model) {}, []float64{1.875104068711961, 4.694091132974175, 7.854757438237613}, []float64{1e-6, 1e-5, 1e-4}},
		{"tip mass 0.5", tip, 20, point(0.5), []float64{1.41996442977}, []float64{1e-5}},
		{"tip mass 1", tip, 20, point(1), []float64{1.24791740961, 4.03113943671}, []float64{1e-5, 1e-5}},
		{"tip mass 5", tip, 20, point(5), []float64{0.87002145889}, []float64{1e-5}},
		{"tip body", tipBody, 20, body(1, 0.01, 0), []float64{1.24244790772, 3.63862454226}, []float64{1e-4, 1e-4}},
		{"tip body beyond the tip", tipBody, 20, body(1, 0.01, 0.1), []float64{1.17291676513, 3.44253724446}, []float64{1e-4, 1e-4}},
		{"root spring 1", spring, 20, root(1), []float64{1.24791740961}, []float64{1e-5}},
		{"root spring 10", spring, 20, root(10), []float64{1.72274152059}, []float64{1e-5}},
		{"root spring 100", spring, 20, root(100), []float64{1.85678697696}, []float64{1e-5}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			m := unit(c.elements)
			c.change(&m)
			got := betaL(t, m, 2*len(c.want))
			for i, want := range c.want {
				for plane := range 2 {
					closeTo(t, fmt.Sprintf("mode %d plane %d (%s)", i+1, plane, c.source), got[2*i+plane], want, c.relTol[i])
				}
			}
		})
	}
}
