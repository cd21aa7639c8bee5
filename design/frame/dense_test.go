package frame

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// The Lanczos modes against all eigenvalues of the same matrices by gonum's dense solver, after
// reduction with the Cholesky factor of K + M×shift; on it rigid motions are 1/shift.
func TestModesAgainstDense(t *testing.T) {
	s, err := Box(0.016, 0.012, 0.002, 0.0016, 0.38)
	if err != nil {
		t.Fatal(err)
	}
	printed := Elastic{E: 1.7e9, G: 0.6e9, Density: 1250}
	tripod := Model{
		Nodes: []Node{{At: r3.Vec{X: 0.03}}, {At: r3.Vec{X: -0.015, Y: 0.026}}, {At: r3.Vec{X: -0.015, Y: -0.026}}, {At: r3.Vec{Z: 0.08}}},
		Members: []Member{
			{A: 0, B: 3, Stations: Uniform(s), Material: printed, Elements: 6},
			{A: 1, B: 3, Stations: Uniform(s), Material: printed, Elements: 6},
			{A: 2, B: 3, Stations: Uniform(s), Material: printed, Elements: 6},
		},
		Bodies:   []Body{{Node: 3, Mass: 0.02, Inertia: [3][3]float64{{2e-6}, {0, 2e-6}, {0, 0, 3e-6}}}},
		Supports: []Support{Clamp(0), Clamp(1), Clamp(2)},
	}
	// four equal legs under a plate: a cluster of eight alike local modes
	legs := Model{Bodies: []Body{{Node: 8, Mass: 0.5, Inertia: [3][3]float64{{1e-3}, {0, 1e-3}, {0, 0, 1e-3}}}}}
	for i := range 4 {
		x, y := 0.015*float64(i%2*2-1), 0.015*float64(i/2*2-1)
		legs.Nodes = append(legs.Nodes, Node{At: r3.Vec{X: x, Y: y}}, Node{At: r3.Vec{X: x, Y: y, Z: 0.1}})
		rod, err := Round(0.006, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		legs.Members = append(legs.Members, Member{A: 2 * i, B: 2*i + 1, Stations: Uniform(rod), Material: printed, Elements: 5})
		legs.Links = append(legs.Links, Link{Master: 8, Slave: 2*i + 1})
		legs.Supports = append(legs.Supports, Clamp(2*i))
	}
	legs.Nodes = append(legs.Nodes, Node{At: r3.Vec{Z: 0.1}})
	flying := tripod
	flying.Supports = nil
	sliding := tripod
	sliding.Supports = []Support{{Node: 0, Fixed: [6]bool{1: true, 2: true}}, {Node: 1, Fixed: [6]bool{2: true}}}
	for _, c := range []struct {
		name  string
		model Model
		rigid int
		count int
	}{
		{"tripod", tripod, 0, 6}, {"tripod, one", tripod, 0, 1}, {"legs", legs, 0, 14}, {"legs, cut in a cluster", legs, 0, 9},
		{"flying", flying, 6, 8}, {"sliding", sliding, 3, 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			sys, err := Assemble(c.model)
			if err != nil {
				t.Fatal(err)
			}
			if got := sys.RigidMotions(); got != c.rigid {
				t.Fatalf("%d rigid motions, want %d", got, c.rigid)
			}
			modes, err := sys.Modes(Options{Count: c.count})
			if err != nil {
				t.Fatal(err)
			}
			want := dense(t, sys)[c.rigid:]
			if len(modes) != c.count {
				t.Fatalf("%d modes, want %d", len(modes), c.count)
			}
			M := full(sys.m)
			for i, m := range modes {
				// 1e-6: the shift costs the dense solver digits
				if f := math.Sqrt(want[i]) / (2 * math.Pi); math.Abs(m.Frequency-f) > 1e-6*f {
					t.Errorf("mode %d: %.10g Hz, dense %.10g Hz", i, m.Frequency, f)
				}
				for j := range i + 1 {
					a, b := mat.NewVecDense(len(m.vector), m.vector), mat.NewVecDense(len(m.vector), modes[j].vector)
					want := 0.0
					if i == j {
						want = 1
					}
					// 1e-7: vectors settle to 1e-8
					if got := mat.Inner(a, M, b); math.Abs(got-want) > 1e-7 {
						t.Errorf("φ%d M φ%d = %g, want %g", i, j, got, want)
					}
				}
			}
		})
	}
}

func full(e *envelope) *mat.SymDense {
	n := len(e.first)
	m := mat.NewSymDense(n, nil)
	for i := range n {
		for j := e.first[i]; j <= i; j++ {
			m.SetSym(i, j, e.v[e.start[i]+j])
		}
	}
	return m
}

// dense returns all ω², lowest first.
func dense(t *testing.T, s *System) []float64 {
	t.Helper()
	const shift = 1e5
	K, M := full(s.k), full(s.m)
	n, _ := K.Dims()
	shifted := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			shifted.SetSym(i, j, K.At(i, j)+shift*M.At(i, j))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(shifted) {
		t.Fatal("K + M is not positive definite")
	}
	var L mat.TriDense
	chol.LTo(&L)
	var half, whole mat.Dense
	if err := half.Solve(&L, M); err != nil {
		t.Fatal(err)
	}
	if err := whole.Solve(&L, half.T()); err != nil {
		t.Fatal(err)
	}
	reduced := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			reduced.SetSym(i, j, (whole.At(i, j)+whole.At(j, i))/2)
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(reduced, false) {
		t.Fatal("dense solver")
	}
	var out []float64
	for i, v := range eig.Values(nil) {
		_ = i
		out = append(out, 1/v-shift)
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}
