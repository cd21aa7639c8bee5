package frame

import (
	"fmt"
	"math"
)

// Euler returns the critical force in N of a column of bending stiffness EI (N·m²), length L (m) and
// effective length factor K (2 for a cantilever),
//
//	P = π² EI / (K L)².
func Euler(EI, L, K float64) float64 { return math.Pi * math.Pi * EI / (K * L * K * L) }

// Buckling returns the factor by which the loads of a case may grow before the model buckles
// elastically, members weakened or stiffened by their axial forces under the case alone; +Inf where
// no growth does. Geometric stiffness after Przemieniecki, Theory of Matrix Structural Analysis
// (1968), chapter 15; twisting and lateral buckling are left out.
func (s *System) Buckling(c Case) (float64, error) {
	factor, _, _, err := s.buckle(c)
	return factor, err
}

// buckle returns the factor of Buckling with the shape that buckles, nil where none does, and minus the geometric stiffness under the case.
func (s *System) buckle(c Case) (factor float64, shape []float64, geometric *envelope, err error) {
	if err := s.mustStand(); err != nil {
		return 0, nil, nil, err
	}
	u, err := s.displace(c)
	if err != nil {
		return 0, nil, nil, err
	}
	result := s.result(c, u, s.itself())
	g := s.k.like()
	for i := range s.spans {
		for e := s.spans[i][0]; e < s.spans[i][1]; e++ {
			cuts := result.Members[i]
			at := e - s.spans[i][0]
			k := s.geometric(i, e, (cuts[at].N+cuts[at+1].N)/2)
			eq := s.equations(s.elements[e].a, s.elements[e].b)
			for r, er := range eq {
				for c, ec := range eq {
					if er >= 0 && ec >= 0 && ec <= er {
						g.add(er, ec, -k[r][c])
					}
				}
			}
		}
	}
	kr := &krylov{
		settle: 1e-6, // the factor is good to the square of it
		n:      len(s.k.first),
		inner:  s.k.times,
		apply: func(u, v, w []float64) {
			g.times(u, v)
			s.factor.solve(u)
		},
	}
	for _, d := range [3]int{0, 1, 5} { // a mast buckles nearly as it bends under its weight lying down, or as it twists
		push := make([]float64, kr.n)
		s.addInertia(push, unitMotion(d))
		s.factor.solve(push)
		kr.with(push)
	}
	pairs, err := kr.largest(1)
	if err != nil {
		return 0, nil, nil, fmt.Errorf("buckling: %w", err)
	}
	least := 0.0 // what rounding leaves of none
	for j, h := range kr.h {
		least = math.Max(least, 1e-12*math.Abs(h[j]))
	}
	if len(pairs) == 0 || !(pairs[0].value > least) {
		return math.Inf(1), nil, g, nil
	}
	return 1 / pairs[0].value, pairs[0].vector, g, nil
}

// geometric is the stiffness that an axial force N gives element e of a member.
func (s *System) geometric(member, e int, N float64) (k matrix12) {
	L := s.lengths[member] / float64(s.spans[member][1]-s.spans[member][0])
	f := N / L
	b := [4][4]float64{
		{6. / 5, L / 10, -6. / 5, L / 10},
		{L / 10, 2 * L * L / 15, -L / 10, -L * L / 30},
		{-6. / 5, -L / 10, 6. / 5, -L / 10},
		{L / 10, -L * L / 30, -L / 10, 2 * L * L / 15},
	}
	for r := range b {
		for c := range b {
			b[r][c] *= f
		}
	}
	plane(&k, [4]int{0, 4, 6, 10}, 1, b)
	plane(&k, [4]int{1, 3, 7, 9}, -1, b)
	k.turn(s.axes[member])
	k.offset(s.elements[e].armA, s.elements[e].armB)
	return k
}
