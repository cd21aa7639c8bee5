package frame

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Options guide Modes.
type Options struct {
	Count int // flexible modes wanted, lowest first; 0 means 6
}

// Mode is one natural vibration, of unit modal mass (kg).
type Mode struct {
	Frequency float64        // Hz
	Label     string         // "bending fore-aft", "second bending sideways", "torsion", "axial", ...
	Share     Share          // what the label was read from
	Nodes     []Displacement // at the nodes of the model; the largest movement is positive
	// Effective is the effective modal mass in kg for the base shaken along x, y, z, and in kg·m² for
	// it turned about them through the origin. Near zero where the model flies free.
	Effective [6]float64
	Members   []float64 // share of the strain energy in each member; with Springs they sum to 1
	Springs   []float64

	omega2     float64
	vector     []float64
	excitation [6]float64 // vector ᵀ M × rigid motion
}

// Share is the part of a mode's kinetic energy in each kind of motion of a mast that stands along z.
// Places at one height are taken together: what is common to them is movement, what turns them
// about z is twist.
type Share struct{ ForeAft, Sideways, Vertical, Twist float64 }

// Damping returns the modal damping ratio, base plus half the loss factors weighted by strain energy.
// A member or spring beyond the end of its list has no loss.
func (m Mode) Damping(base float64, members, springs []float64) float64 {
	for i, eta := range members {
		base += eta / 2 * m.Members[i]
	}
	for i, eta := range springs {
		base += eta / 2 * m.Springs[i]
	}
	return base
}

// Modes assembles a model and returns its lowest flexible modes.
func Modes(m Model, o Options) ([]Mode, error) {
	s, err := Assemble(m)
	if err != nil {
		return nil, err
	}
	return s.Modes(o)
}

// Modes returns the lowest flexible modes of K φ = ω² M φ, lowest first; fewer than asked for where
// the model has no more. The rigid motions of a free model are left out. A Sturm count of the
// shifted stiffness proves that none below the last was missed.
func (s *System) Modes(o Options) ([]Mode, error) {
	count := o.Count
	if count == 0 {
		count = 6
	}
	if count < 0 {
		return nil, fmt.Errorf("%d modes asked for; use 1 or more, or 0 for 6", count)
	}
	k := &krylov{
		n:     len(s.k.first),
		inner: s.m.times,
		apply: func(u, v, w []float64) {
			copy(u, w)
			s.deflect(u)
		},
	}
	pairs, err := s.lowest(k, count)
	if err != nil {
		return nil, err
	}
	var excite [6][]float64
	for d := range excite {
		excite[d] = make([]float64, k.n)
		s.addInertia(excite[d], unitMotion(d))
	}
	return s.modes(pairs, count, &excite, s.itself()), nil
}

// modes turns eigenpairs (1/ω²) of a relative of the system into modes; excite is M times the unit motions.
func (s *System) modes(pairs []eigenpair, count int, excite *[6][]float64, v Relative) []Mode {
	modes := make([]Mode, len(pairs))
	for i, p := range pairs {
		modes[i] = Mode{omega2: 1 / p.value, vector: p.vector}
	}
	s.splitDegenerate(modes)
	if !v.Unnamed {
		s.label(modes, excite[0], excite[1])
	}
	modes = modes[:min(count, len(modes))]
	for i := range modes {
		m := &modes[i]
		s.sign(m.vector)
		m.omega2, m.Members, m.Springs = s.strain(m.vector, v)
		m.Frequency = math.Sqrt(m.omega2) / (2 * math.Pi)
		m.Nodes = make([]Displacement, len(s.model.Nodes))
		for p := range m.Nodes {
			m.Nodes[p] = s.at(m.vector, p)
		}
		for d := range excite {
			m.excitation[d] = dot(m.vector, excite[d])
			m.Effective[d] = m.excitation[d] * m.excitation[d]
		}
	}
	return modes
}

// lowest returns at least count pairs (value 1/ω²), a cluster at the end complete, checked by a
// Sturm count.
func (s *System) lowest(k *krylov, count int) ([]eigenpair, error) {
	const close = 1e-5 // relative; a shift needs room beside the last eigenvalue
	want := count + 1
	for range 12 {
		pairs, err := k.largest(want)
		if err != nil {
			return nil, err
		}
		for len(pairs) > 0 && !(pairs[len(pairs)-1].value > 1e-14*pairs[0].value) {
			pairs = pairs[:len(pairs)-1] // freedoms without mass
		}
		if len(pairs) == 0 {
			return nil, fmt.Errorf("model has no mass that its stiffness moves")
		}
		end := len(pairs)
		if end >= want { // the last pair may belong to a cluster that was cut
			for end--; end > 0 && pairs[end-1].value < pairs[end].value*(1+close); end-- {
			}
			if end < count {
				want += 2
				continue
			}
		} else {
			return pairs, nil // that is all there is
		}
		shift := (1/pairs[end-1].value + 1/pairs[end].value) / 2
		below := s.countBelow(shift)
		if below == end+len(s.rigid) {
			return pairs[:end], nil
		}
	}
	return nil, errNotConverged
}

// countBelow returns how many eigenvalues ω² lie below a shift, rigid motions included (Sylvester's
// law of inertia; Parlett, The Symmetric Eigenvalue Problem, section 3.3).
func (s *System) countBelow(shift float64) int {
	e := s.k.like()
	for i, k := range s.k.v {
		e.v[i] = k - shift*s.m.v[i]
	}
	_, _, negative := e.reduce(nil, true)
	return negative
}

// deflect replaces a load by the displacements it causes; of a free model, of the load less what
// moves the model as a whole, and as seen from its mean motion.
func (s *System) deflect(u []float64) {
	for _, r := range s.rigid {
		axpy(u, -dot(r.shape, u), r.mass)
	}
	s.factor.solve(u)
	for _, r := range s.rigid {
		axpy(u, -dot(r.mass, u), r.shape)
	}
}

// sign turns a shape so that its largest component is positive, rotations times the model's size,
// the first place in case of a draw.
func (s *System) sign(v []float64) {
	var largest float64
	visit := func(do func(a float64) bool) {
		for p := range s.eq {
			for d, eq := range s.eq[p] {
				if eq < 0 {
					continue
				}
				a := v[eq]
				if d >= 3 {
					a *= s.size
				}
				if !do(a) {
					return
				}
			}
		}
	}
	visit(func(a float64) bool { largest = math.Max(largest, math.Abs(a)); return true })
	visit(func(a float64) bool {
		if math.Abs(a) < largest*(1-1e-6) {
			return true
		}
		if a < 0 {
			scale(v, -1)
		}
		return false
	})
}

// strain returns twice the strain energy of a shape in a relative of the system, and the shares of it in members and springs. In
// a shape of unit modal mass it is ω².
func (s *System) strain(v []float64, as Relative) (energy float64, members, springs []float64) {
	members, springs = make([]float64, len(s.spans)), make([]float64, len(s.model.Springs))
	for i, span := range s.spans {
		for e := span[0]; e < span[1]; e++ {
			el := &s.elements[e]
			members[i] += el.strain.energy(s.beside(v, el.a, el.armA), s.beside(v, el.b, el.armB))
		}
		members[i] *= as.factor(i)
		energy += members[i]
	}
	for i := range springs {
		sp := &as.Springs[i]
		apart := s.at(v, sp.A).vector()
		if sp.B != Ground {
			far := s.beside(v, sp.B, r3.Sub(s.places[sp.A], s.places[s.root[sp.B]])).vector()
			for d := range apart {
				apart[d] -= far[d]
			}
		}
		for r := range apart {
			for c := range apart {
				springs[i] += apart[r] * sp.K[r][c] * apart[c]
			}
		}
		energy += springs[i]
	}
	scale(members, 1/energy)
	scale(springs, 1/energy)
	return energy, members, springs
}

// Along returns the shape at the ends of a member's elements, from A to B.
func (s *System) Along(m Mode, member int) []Displacement {
	span := s.spans[member]
	out := make([]Displacement, 0, span[1]-span[0]+1)
	for e := span[0]; e < span[1]; e++ {
		el := &s.elements[e]
		out = append(out, s.beside(m.vector, el.a, el.armA))
		if e == span[1]-1 {
			out = append(out, s.beside(m.vector, el.b, el.armB))
		}
	}
	return out
}
