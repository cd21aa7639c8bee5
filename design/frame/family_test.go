package frame_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

func condense(tb testing.TB, f *frame.Family, as frame.Relative) *frame.Condensed {
	tb.Helper()
	c, err := f.Condense(as)
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func modesAs(tb testing.TB, f *frame.Family, as frame.Relative, count int) []frame.Mode {
	tb.Helper()
	modes, err := condense(tb, f, as).Modes(frame.Options{Count: count})
	if err != nil {
		tb.Fatal(err)
	}
	return modes
}

// The clamped bar's βL are 1.875104, 4.694091 and 7.854757 (Blevins, Formulas for Natural Frequency and Mode Shape, table 8-1); with E
// a times as large ω grows by √a. The tolerances are the condensation's: the bar held at both ends, whose lowest βL is 4.730, is what it is
// good below; nothing on its tip is the hardest case.
func TestFamilyOfCantilevers(t *testing.T) {
	s, err := frame.Assemble(unit(40))
	if err != nil {
		t.Fatal(err)
	}
	family, err := s.Family()
	if err != nil {
		t.Fatal(err)
	}
	for _, factor := range []float64{0.25, 1, 9} {
		modes := modesAs(t, family, frame.Relative{Members: []float64{factor}}, 6)
		for i, want := range []struct{ beta, tolerance float64 }{{1.87510407, 1e-7}, {4.69409113, 1e-5}, {7.85475744, 5e-3}} {
			for _, m := range modes[2*i : 2*i+2] { // both ways
				closeTo(t, m.Label, math.Sqrt(2*math.Pi*m.Frequency), want.beta*math.Pow(factor, 0.25), want.tolerance)
			}
		}
	}
}

// Held beside the flying family, a mast rings as it does when it is assembled and solved whole; a family of other members takes nothing over.
func TestFamilyBesideAnother(t *testing.T) {
	assembled := func(m frame.Model) *frame.System {
		s, err := frame.Assemble(m)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, other := range []frame.Model{flying(t, 20), flying(t, 12), unit(40)} {
		first, err := assembled(other).Family()
		if err != nil {
			t.Fatal(err)
		}
		second, err := assembled(mast(t, 20)).FamilyBeside(first)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := frame.Modes(mast(t, 20), frame.Options{Count: 4})
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range modesAs(t, second, frame.Relative{}, 4) {
			closeTo(t, m.Label, m.Frequency, whole[i].Frequency, 1e-5)
		}
	}
}

// A root on a spring against turning, k = 1 EI/L: the first root of the frequency equation of the elastically hinged bar,
// β (cos β cosh β + 1) = k (cosh β sin β - sinh β cos β) turned round as in Blevins, table 8-1, solved here by halving.
func TestFamilyOfHingedBars(t *testing.T) {
	m := unit(40)
	m.Supports[0].Fixed = [6]bool{0: true, 1: true, 2: true, 5: true}
	spring := func(k float64) []frame.Spring {
		return []frame.Spring{{A: 0, B: frame.Ground, K: frame.Uncoupled(0, 0, 0, k, k, 0)}}
	}
	m.Springs = spring(7)
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	family, err := s.Family()
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []float64{0.1, 1, 100} {
		equation := func(b float64) float64 {
			sin, cos := math.Sincos(b)
			return k*(1+cos*math.Cosh(b)) + b*(cos*math.Sinh(b)-sin*math.Cosh(b))
		}
		low, high := 1e-3, 1.8751
		for range 60 {
			if mid := (low + high) / 2; equation(mid) > 0 {
				low = mid
			} else {
				high = mid
			}
		}
		modes := modesAs(t, family, frame.Relative{Springs: spring(k)}, 2)
		closeTo(t, "hinged bar", math.Sqrt(2*math.Pi*modes[0].Frequency), low, 1e-6)
	}
}

// A mast under wind, gravity and a pull: the tip of the family's relative moves as a cantilever's closed forms say, with E halved twice as far,
// F L³/(3 EI) + q L⁴/(8 EI); and the root's moment is F L + q L²/2 whatever E is.
func TestFamilyStandsAsClosedFormsSay(t *testing.T) {
	s, err := frame.Assemble(unit(10))
	if err != nil {
		t.Fatal(err)
	}
	family, err := s.Family()
	if err != nil {
		t.Fatal(err)
	}
	cases, err := family.Cases([]frame.Case{{
		Loads: []frame.Load{{Node: 1, Force: r3.Vec{X: 2}}}, Lines: []frame.LineLoad{{Member: 0, PerMetre: r3.Vec{X: 3}}}, Field: r3.Vec{X: 5},
	}})
	if err != nil {
		t.Fatal(err)
	}
	for _, factor := range []float64{1, 0.5} {
		model := condense(t, family, frame.Relative{Members: []float64{factor}})
		results := model.Statics(cases)
		closeTo(t, "tip", results[0].Nodes[1].Move.X, (2./3+8./8)/factor, 1e-9)
		closeTo(t, "root's moment", math.Abs(results[0].Members[0][0].My), 2+8./2, 1e-9)
		closeTo(t, "reaction", -results[0].Reactions[0].Force.X, 10, 1e-9)
		moved := model.Deflections(cases.First(1))
		closeTo(t, "tip alone", moved[0][1].Move.X, results[0].Nodes[1].Move.X, 1e-12)
	}
}

// Euler's column on a root spring of k EI/L buckles at β² EI/L² with β tan β = k (Timoshenko & Gere, Theory of Elastic Stability, art. 2.4).
func TestFamilyBuckles(t *testing.T) {
	m := unit(20)
	m.Supports[0].Fixed = [6]bool{0: true, 1: true, 2: true, 5: true}
	spring := func(k float64) []frame.Spring {
		return []frame.Spring{{A: 0, B: frame.Ground, K: frame.Uncoupled(0, 0, 0, k, 2*k, 0)}}
	}
	m.Springs = spring(4)
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	family, err := s.Family()
	if err != nil {
		t.Fatal(err)
	}
	b, err := family.Buckled(frame.Case{Loads: []frame.Load{{Node: 1, Force: r3.Vec{Z: -1}}}})
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []float64{2, 4, 8} {
		low, high := 0.0, math.Pi/2
		for range 60 {
			if mid := (low + high) / 2; mid*math.Tan(mid) < k {
				low = mid
			} else {
				high = mid
			}
		}
		got := condense(t, family, frame.Relative{Springs: spring(k)}).Buckling(b)
		closeTo(t, "buckling", got, low*low, 1e-5) // halving and doubling k moves it by a quarter
		if k == 4 {
			closeTo(t, "the model itself", got, low*low, 1e-6)
		}
	}
}

// Flying and held masts against the uncondensed model: the same numbers by another road.
func TestFamilyIsTheModel(t *testing.T) {
	for _, c := range []struct {
		name  string
		model frame.Model
	}{{"held", mast(t, 20)}, {"flying", flying(t, 20)}} {
		s, err := frame.Assemble(c.model)
		if err != nil {
			t.Fatal(err)
		}
		family, err := s.Family()
		if err != nil {
			t.Fatal(err)
		}
		other := c.model
		other.Members = append([]frame.Member(nil), c.model.Members...)
		other.Members[0].Material.E *= 1.3
		other.Members[0].Material.G *= 1.3
		other.Springs = append([]frame.Spring(nil), c.model.Springs...)
		other.Springs[0].K = frame.Uncoupled(1e9, 1e9, 1e9, 1e6, 1e6, 1e6)
		want, err := frame.Modes(other, frame.Options{Count: 5})
		if err != nil {
			t.Fatal(err)
		}
		got := modesAs(t, family, frame.Relative{Members: []float64{1.3}, Springs: other.Springs}, 5)
		for i := range want {
			closeTo(t, c.name+" "+want[i].Label, got[i].Frequency, want[i].Frequency, 2e-5)
			if got[i].Label != want[i].Label {
				t.Errorf("%s: mode %d is %q, want %q", c.name, i, got[i].Label, want[i].Label)
			}
			if moves := r3.Norm(want[i].Nodes[2].Move); moves > 1e-6 { // twisting, it does not
				closeTo(t, c.name+" movement", r3.Norm(got[i].Nodes[2].Move), moves, 1e-3)
			}
		}
	}
}

func TestFamilyRefusesStrangers(t *testing.T) {
	s, err := frame.Assemble(mast(t, 8))
	if err != nil {
		t.Fatal(err)
	}
	family, err := s.Family()
	if err != nil {
		t.Fatal(err)
	}
	for name, as := range map[string]frame.Relative{
		"no springs":    {Springs: []frame.Spring{}},
		"other nodes":   {Springs: []frame.Spring{{A: 2, B: 0}}},
		"few factors":   {Members: []float64{}},
		"factor of nil": {Members: []float64{0}},
		"loose spring":  {Springs: []frame.Spring{{A: 1, B: 0}}},
	} {
		if _, err := family.Condense(as); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkFamilyModes20(b *testing.B) {
	s, err := frame.Assemble(flying(b, 20))
	if err != nil {
		b.Fatal(err)
	}
	family, err := s.Family()
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		modesAs(b, family, frame.Relative{Members: []float64{1.1}}, 6)
	}
}
