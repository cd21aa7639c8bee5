package parts_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/mesh/outline"
)

// The joints decide: a 10/8 carbon tube of 100 mm with PETG grips of 20 mm and 21 g on top rings at 193 Hz, and at 349 Hz with ends
// a hundred times stiffer, foot and frame rigid (an independent frame model, no published value). Its tip is taken as a body of
// 28 x 28 x 10 mm with its middle 8 mm above the tube's end. 4 %: that model's very geometry is not known.
func TestClampsGovernATube(t *testing.T) {
	// Foot of 5 mm with a seat of 0.8 mm and a floor of 2.4 mm, so that the tube is 100 mm long.
	a := built(t, tubed(t, "mast.height", "106.6 mm", "mast.root_fillet", "0 mm", "mast.tip_fillet", "0 mm", "mast.tube.clamp.key", "none"))
	for _, c := range []struct{ stiffer, want float64 }{{1, 193}, {100, 349}} {
		if got := firstMode(t, a, 1850e6*c.stiffer); !near(got, c.want, 0.04) {
			t.Errorf("ends %g times as stiff: %.1f Hz; want %g", c.stiffer, got, c.want)
		}
	}
}

// firstMode is the first frequency of a tube in its clamps on rigid ground, their plastic of a modulus in Pa.
func firstMode(t *testing.T, a parts.Assembly, plastic float64) float64 {
	t.Helper()
	var m frame.Model
	add := func(at r3.Vec) int {
		m.Nodes = append(m.Nodes, frame.Node{At: r3.Scale(1e-3, at)})
		return len(m.Nodes) - 1
	}
	nodes := map[string]map[float64]int{}
	for _, b := range a.Members {
		cuts := []float64{0}
		for _, j := range a.Joints {
			if j.A == b.Name {
				cuts = append(cuts, j.AtA)
			}
			if j.B == b.Name {
				cuts = append(cuts, j.AtB)
			}
		}
		cuts = append(cuts, 1)
		material := frame.Elastic{E: plastic, G: plastic / 2.76, Density: 1} // the tip's mass holds the clamps'
		if b.Name == "tube" {
			material = frame.Elastic{E: 132e9, G: 4.5e9, Density: 1550}
		}
		nodes[b.Name] = map[float64]int{}
		for i, at := range cuts {
			nodes[b.Name][at] = add(r3.Add(b.From, r3.Scale(at, r3.Sub(b.To, b.From))))
			if i == 0 {
				continue
			}
			s := sectionIn(t, b.Outline((cuts[i-1]+at)/2))
			m.Members = append(m.Members, frame.Member{
				A: nodes[b.Name][cuts[i-1]], B: nodes[b.Name][at], Elements: 10, Material: material,
				Stations: []frame.Station{{At: 0, Section: s}, {At: 1, Section: s}},
			})
		}
	}
	for _, j := range a.Joints {
		grip := j.Grip / 1e3
		side, tilt := plastic*grip, plastic*grip*grip*grip/12
		m.Springs = append(m.Springs, frame.Spring{A: nodes[j.A][j.AtA], B: nodes[j.B][j.AtB], K: frame.Uncoupled(side, side, side, tilt, tilt, tilt)})
	}
	m.Supports = append(m.Supports, frame.Clamp(nodes[a.Roots[0].Member][a.Roots[0].At]))
	tip := nodes[a.Tips[0].Member][a.Tips[0].At]
	const mass, wide, high = .021, .028, .010
	about := mass * (wide*wide + high*high) / 12
	m.Bodies = append(m.Bodies, frame.Body{Node: tip, Mass: mass, CG: r3.Vec{Z: .008}, Inertia: [3][3]float64{{about, 0, 0}, {0, about, 0}, {0, 0, mass * wide * wide / 6}}})
	system, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	modes, err := system.Modes(frame.Options{Count: 1})
	if err != nil || len(modes) == 0 || math.IsNaN(modes[0].Frequency) {
		t.Fatal(modes, err)
	}
	return modes[0].Frequency
}

func sectionIn(t *testing.T, o outline.Outline) frame.Section {
	t.Helper()
	var loops []frame.Loop
	for _, l := range append([]outline.Loop{o.Outer}, o.Holes...) {
		var out frame.Loop
		for _, v := range l {
			out = append(out, frame.Vertex{X: v.X / 1e3, Y: v.Y / 1e3, Bulge: v.Bulge})
		}
		loops = append(loops, out)
	}
	s, err := frame.Integrate(loops, frame.SectionOptions{Poisson: .3})
	if err != nil {
		t.Fatal(err)
	}
	return s
}
