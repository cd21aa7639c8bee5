package frame_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
	"pgregory.net/rapid"
)

// odd draws a branched model without symmetry: a bent mast with an arm, a rigid offset, a body, a
// spring between nodes and a section whose principal axes lie askew.
func odd(rt *rapid.T) frame.Model {
	f := func(label string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, label) }
	vec := func(label string, size float64) r3.Vec {
		return r3.Vec{X: f(label+" x", -size, size), Y: f(label+" y", -size, size), Z: f(label+" z", -size, size)}
	}
	section := func(label string) frame.Section {
		s, err := frame.Rectangle(f(label+" w", 0.004, 0.02), f(label+" h", 0.004, 0.02), 0.35)
		if err != nil {
			rt.Fatal(err)
		}
		s.Ixy = f(label+" askew", -0.3, 0.3) * math.Min(s.Ix, s.Iy)
		s.ShearCentreX, s.ShearCentreY = f(label+" sx", -0.003, 0.003), f(label+" sy", -0.003, 0.003)
		return s
	}
	printed := frame.Elastic{E: f("E", 1e9, 3e9), G: 0.8e9, Density: 1250}
	a, b := section("a"), section("b")
	b.Ixy, b.ShearCentreX, b.ShearCentreY = a.Ixy/a.Ix*0.5*math.Min(b.Ix, b.Iy), 0, 0
	return frame.Model{
		Nodes: []frame.Node{
			{At: vec("n0", 0.01)},
			{At: r3.Add(r3.Vec{Z: 0.06}, vec("n1", 0.01))},
			{At: r3.Add(r3.Vec{Z: 0.12}, vec("n2", 0.02))},
			{At: r3.Add(r3.Vec{X: 0.05, Z: 0.07}, vec("n3", 0.01))},
			{At: r3.Add(r3.Vec{Y: 0.03, Z: 0.12}, vec("n4", 0.01))},
		},
		Members: []frame.Member{
			{A: 0, B: 1, Stations: []frame.Station{{At: 0, Section: a}, {At: 1, Section: b}}, Material: printed, Elements: 3},
			{A: 1, B: 2, Stations: frame.Uniform(a), Material: printed, Elements: 2, OffsetA: vec("offset", 0.004), SectionX: r3.Add(r3.Vec{X: 1}, vec("x", 0.5))},
			{A: 1, B: 3, Stations: frame.Uniform(b), Material: printed, Elements: 2},
		},
		Links:   []frame.Link{{Master: 2, Slave: 4}},
		Springs: []frame.Spring{{A: 3, B: 4, K: frame.Uncoupled(f("kx", 1e2, 1e5), 1e3, 0, 1, 2, 3)}},
		Bodies: []frame.Body{
			{Node: 4, Mass: f("mass", 0.005, 0.05), CG: vec("cg", 0.01), Inertia: [3][3]float64{{2e-6, 1e-7, 0}, {1e-7, 3e-6, 0}, {0, 0, 3e-6}}},
		},
		Supports: []frame.Support{frame.Clamp(0)},
	}
}

func modesOf(rt *rapid.T, m frame.Model, count int) []frame.Mode {
	modes, err := frame.Modes(m, frame.Options{Count: count})
	if err != nil {
		rt.Fatal(err)
	}
	return modes
}

// A free tip on a root spring k has exactly the roots of a clamped beam with a tip mass 1/k: the
// two frequency equations are one.
func TestDuality(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := rapid.Float64Range(0.2, 20).Draw(rt, "k")
		sprung, tipped := unit(80), unit(80)
		sprung.Supports[0].Fixed = [6]bool{0: true, 1: true, 2: true, 5: true}
		sprung.Springs = []frame.Spring{{A: 0, B: frame.Ground, K: frame.Uncoupled(0, 0, 0, k, k, 0)}}
		tipped.Bodies = []frame.Body{{Node: 1, Mass: 1 / k}}
		a, b := modesOf(rt, sprung, 1), modesOf(rt, tipped, 1)
		// 1e-9: 80 elements leave (βL/80)⁴/1440 of discretisation
		if got, want := a[0].Frequency, b[0].Frequency; math.Abs(got-want) > 1e-9*want {
			rt.Errorf("sprung %.12g Hz, tipped %.12g Hz", got, want)
		}
	})
}

// Reactions balance the loads in force and in moment about the origin.
func TestReactionsBalance(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m := odd(rt)
		m.Springs = append(m.Springs, frame.Spring{A: 3, B: frame.Ground, K: frame.Uncoupled(1e3, 2e3, 3e3, 1, 2, 3)})
		field := r3.Vec{X: 3, Y: -5, Z: -9.8}
		P := r3.Vec{X: 1, Y: 2, Z: -3}
		c := frame.Case{Loads: []frame.Load{{Node: 4, Force: P, Moment: r3.Vec{X: 0.1}}}, Lines: []frame.LineLoad{{Member: 1, PerMetre: r3.Vec{X: 20, Z: 5}}}, Field: field}
		s, err := frame.Assemble(m)
		if err != nil {
			rt.Fatal(err)
		}
		r, err := s.Statics([]frame.Case{c})
		if err != nil {
			rt.Fatal(err)
		}
		force := r3.Add(P, r3.Scale(s.Mass(), field))
		moment := r3.Add(r3.Vec{X: 0.1}, r3.Cross(m.Nodes[4].At, P))
		from, to := r3.Add(m.Nodes[1].At, m.Members[1].OffsetA), m.Nodes[2].At
		line := r3.Scale(r3.Norm(r3.Sub(to, from)), r3.Vec{X: 20, Z: 5})
		force = r3.Add(force, line)
		moment = r3.Add(moment, r3.Cross(r3.Scale(0.5, r3.Add(from, to)), line))
		for _, x := range r[0].Reactions {
			force = r3.Add(force, x.Force)
		}
		if n := r3.Norm(force); n > 1e-8 {
			rt.Errorf("forces do not balance: %v N left", force)
		}
		// The moment balance without the field, whose lever needs the centre of gravity.
		c.Field = r3.Vec{}
		if r, err = s.Statics([]frame.Case{c}); err != nil {
			rt.Fatal(err)
		}
		for _, x := range r[0].Reactions {
			moment = r3.Add(moment, r3.Add(x.Moment, r3.Cross(m.Nodes[x.Node].At, x.Force)))
		}
		if n := r3.Norm(moment); n > 1e-9 {
			rt.Errorf("moments do not balance: %v N·m left", moment)
		}
	})
}

// Maxwell & Betti: what a does to b, b does to a.
func TestReciprocity(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, err := frame.Assemble(odd(rt))
		if err != nil {
			rt.Fatal(err)
		}
		ab, err := s.Compliance(3, 4)
		if err != nil {
			rt.Fatal(err)
		}
		ba, err := s.Compliance(4, 3)
		if err != nil {
			rt.Fatal(err)
		}
		var size float64
		for i := range 6 {
			for j := range 6 {
				size = math.Max(size, math.Abs(ab[i][j]))
			}
		}
		for i := range 6 {
			for j := range 6 {
				if math.Abs(ab[i][j]-ba[j][i]) > 1e-9*size {
					rt.Errorf("compliance %d %d: %g and %g", i, j, ab[i][j], ba[j][i])
				}
			}
		}
	})
}

// rotated turns a whole model in space.
func rotated(m frame.Model, q r3.Rotation) frame.Model {
	R := q.Mat()
	out := m
	out.Nodes, out.Members = nil, nil
	for _, n := range m.Nodes {
		n.At = q.Rotate(n.At)
		out.Nodes = append(out.Nodes, n)
	}
	for _, b := range m.Members {
		if b.SectionX == (r3.Vec{}) { // the default hangs on the body's axes
			b.SectionX = r3.Vec{X: 1}
			d := r3.Unit(r3.Sub(m.Nodes[b.B].At, m.Nodes[b.A].At))
			if math.Abs(d.X) > 0.9 {
				b.SectionX = r3.Vec{Z: 1}
			}
		}
		b.SectionX, b.OffsetA, b.OffsetB = q.Rotate(b.SectionX), q.Rotate(b.OffsetA), q.Rotate(b.OffsetB)
		out.Members = append(out.Members, b)
	}
	turn := func(k [3][3]float64) [3][3]float64 {
		var a, b mat.Dense
		a.Mul(R, mat.NewDense(3, 3, []float64{k[0][0], k[0][1], k[0][2], k[1][0], k[1][1], k[1][2], k[2][0], k[2][1], k[2][2]}))
		b.Mul(&a, R.T())
		for r := range 3 {
			for c := range 3 {
				k[r][c] = b.At(r, c)
			}
		}
		return k
	}
	out.Bodies, out.Springs = nil, nil
	for _, b := range m.Bodies {
		b.CG, b.Inertia = q.Rotate(b.CG), turn(b.Inertia)
		out.Bodies = append(out.Bodies, b)
	}
	for _, s := range m.Springs {
		for r := 0; r < 6; r += 3 {
			for c := 0; c < 6; c += 3 {
				var k [3][3]float64
				for i := range 3 {
					copy(k[i][:], s.K[r+i][c:c+3])
				}
				k = turn(k)
				for i := range 3 {
					copy(s.K[r+i][c:c+3], k[i][:])
				}
			}
		}
		out.Springs = append(out.Springs, s)
	}
	return out
}

// Turning the whole model turns its answers and leaves its frequencies, held or flying.
func TestRotationInvariance(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m := odd(rt)
		axis := r3.Vec{X: rapid.Float64Range(-1, 1).Draw(rt, "ax"), Y: rapid.Float64Range(-1, 1).Draw(rt, "ay"), Z: 1}
		q := r3.NewRotation(rapid.Float64Range(-3, 3).Draw(rt, "angle"), axis)
		if rapid.Bool().Draw(rt, "flying") {
			m.Supports = nil
		}
		a, b := modesOf(rt, m, 5), modesOf(rt, rotated(m, q), 5)
		for i := range a {
			if math.Abs(a[i].Frequency-b[i].Frequency) > 1e-7*a[i].Frequency {
				rt.Errorf("mode %d: %.10g Hz, turned %.10g Hz", i, a[i].Frequency, b[i].Frequency)
			}
		}
		if m.Supports == nil {
			return
		}
		F := r3.Vec{X: 1, Y: -2, Z: 0.5}
		x, err := frame.Statics(m, []frame.Case{{Loads: []frame.Load{{Node: 4, Force: F}}}})
		if err != nil {
			rt.Fatal(err)
		}
		y, err := frame.Statics(rotated(m, q), []frame.Case{{Loads: []frame.Load{{Node: 4, Force: q.Rotate(F)}}}})
		if err != nil {
			rt.Fatal(err)
		}
		want := q.Rotate(x[0].Nodes[3].Move)
		if got := y[0].Nodes[3].Move; r3.Norm(r3.Sub(got, want)) > 1e-8*r3.Norm(want) {
			rt.Errorf("displacement %v, turned %v", want, got)
		}
	})
}

// With every mode of a model the strain shares sum to one, and the effective masses to what the
// ground would carry along: the whole mass less the part that is lumped on the supports. Orthogonality
// of the shapes themselves is tested beside the dense solver.
func TestAllModes(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m := odd(rt)
		s, err := frame.Assemble(m)
		if err != nil {
			rt.Fatal(err)
		}
		modes, err := s.Modes(frame.Options{Count: s.Freedoms()})
		if err != nil {
			rt.Fatal(err)
		}
		if len(modes) != s.Freedoms() {
			rt.Fatalf("%d modes of %d freedoms", len(modes), s.Freedoms())
		}
		var effective [3]float64
		for i, mode := range modes {
			var strain float64
			for _, e := range append(append([]float64(nil), mode.Members...), mode.Springs...) {
				strain += e
			}
			if math.Abs(strain-1) > 1e-6 {
				rt.Errorf("mode %d: strain shares sum to %g", i, strain)
			}
			for d := range effective {
				effective[d] += mode.Effective[d]
			}
		}
		for d, e := range effective {
			if !(e < s.Mass() && e > 0.5*s.Mass()) {
				rt.Errorf("direction %d: effective masses sum to %g of %g kg", d, e, s.Mass())
			}
		}
	})
}

// Halving the elements of an Euler cantilever divides the frequency error by sixteen.
func TestConvergenceRate(t *testing.T) {
	const exact = 4.694091132974175 // second root of cos·cosh = -1
	err := func(elements int) float64 {
		return math.Abs(betaL(t, unit(elements), 4)[2] - exact)
	}
	rate := math.Log2(err(4) / err(8))
	if rate < 3.8 || rate > 4.2 {
		t.Errorf("convergence rate %.3f, want 4", rate)
	}
}
