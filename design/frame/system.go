package frame

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// System is a model with its stiffness assembled and factored, once, for any number of load cases
// and modes. It is never changed after Assemble and may be used from several goroutines.
type System struct {
	model    Model
	places   []r3.Vec // nodes of the model, then inner nodes of the members
	root     []int    // the place that carries a place's freedoms
	arm      []r3.Vec // from there to it
	eq       [][6]int // equation of each freedom of a place; -1 is held, or belongs to its root
	elements []element
	spans    [][2]int // elements of each member
	stations [][]rootedStation
	axes     [][3]r3.Vec
	lengths  []float64

	k, m   *envelope
	factor factor
	rigid  []rigidShape
	held   []bool // freedoms held for the factor of a model that is free to move; nil otherwise
	size   float64
}

// Assemble checks a model, builds its matrices and factors the stiffness. A model that may move as a
// whole (the flying case) is accepted: Modes leaves its rigid motions out and Statics refuses it. A
// part that may move on its own is an error naming the node.
func Assemble(m Model) (*System, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	s := &System{model: m}
	if err := s.place(); err != nil {
		return nil, err
	}
	if err := s.number(); err != nil {
		return nil, err
	}
	s.build()
	if err := s.findRigid(); err != nil {
		return nil, err
	}
	f, bad, _ := decompose(s.k, s.held, false)
	if bad >= 0 {
		place, freedom := s.whose(bad)
		return nil, fmt.Errorf("%s is free to move in %s; support it or join it to the rest", place, freedom)
	}
	s.factor = f
	return s, nil
}

var freedoms = [6]string{"x", "y", "z", "rotation about x", "rotation about y", "rotation about z"}

// whose names the place and freedom of an equation.
func (s *System) whose(equation int) (place, freedom string) {
	for p, e := range s.eq {
		for d, q := range e {
			if q != equation {
				continue
			}
			if p < len(s.model.Nodes) {
				return s.model.nodeName(p), freedoms[d]
			}
			for i := range s.model.Members {
				for _, el := range s.elements[s.spans[i][0]:s.spans[i][1]] {
					if el.a == p || el.b == p {
						return "inside of " + s.model.memberName(i), freedoms[d]
					}
				}
			}
		}
	}
	return "model", "some direction"
}

// Freedoms returns the number of equations.
func (s *System) Freedoms() int { return len(s.k.first) }

// At returns where a node stands, m.
func (s *System) At(node int) r3.Vec { return s.model.Nodes[node].At }

// RigidMotions returns how many ways the model has to move without strain, 0 to 6.
func (s *System) RigidMotions() int { return len(s.rigid) }

// equations returns the equations of an element's twelve freedoms.
func (s *System) equations(a, b int) (eq [12]int) {
	for d := range 6 {
		eq[d], eq[6+d] = s.eq[s.root[a]][d], s.eq[s.root[b]][d]
	}
	return eq
}

// build assembles stiffness and mass.
func (s *System) build() {
	for i := range s.model.Members {
		b := &s.model.Members[i]
		span := s.elements[s.spans[i][0]:s.spans[i][1]]
		n := float64(len(span))
		beams := make([]beam, 1)
		if len(s.stations[i]) > 1 {
			beams = make([]beam, len(span))
		}
		for e := range span {
			el := &span[e]
			own := &beams[0]
			if e == 0 || len(beams) > 1 {
				own = &beams[e]
				angle := own.local(s.stations[i], b.Material, s.lengths[i]/n, float64(e)/n, float64(e+1)/n)
				own.strain.axes = principal(s.axes[i], angle)
				own.k.turn(own.strain.axes)
				own.m.turn(own.strain.axes)
			}
			el.k, el.m, el.strain = &own.k, &own.m, &own.strain
			if el.armA != (r3.Vec{}) || el.armB != (r3.Vec{}) {
				ko, mo := own.k, own.m
				ko.offset(el.armA, el.armB)
				mo.offset(el.armA, el.armB)
				el.k, el.m = &ko, &mo
			}
			eq := s.equations(el.a, el.b)
			for r, er := range eq {
				if er < 0 {
					continue
				}
				for c, ec := range eq {
					if ec < 0 || ec > er {
						continue
					}
					at := s.k.start[er] + ec
					s.k.v[at] += el.k[r][c]
					s.m.v[at] += el.m[r][c]
				}
			}
		}
	}
	for i := range s.model.Bodies {
		b := &s.model.Bodies[i]
		mass := s.bodyMatrix(b)
		s.addBlock(s.m, b.Node, &mass)
	}
	for i := range s.model.Springs {
		sp := &s.model.Springs[i]
		k := s.springMatrix(sp)
		if sp.B == Ground {
			var own [6][6]float64
			for r := range 6 {
				copy(own[r][:], k[r][:6])
			}
			s.addBlock(s.k, sp.A, &own)
			continue
		}
		eq := s.equations(sp.A, sp.B)
		for r, er := range eq {
			for c, ec := range eq {
				if er >= 0 && ec >= 0 && ec <= er {
					s.k.add(er, ec, k[r][c])
				}
			}
		}
	}
}

func (s *System) addBlock(e *envelope, node int, k *[6][6]float64) {
	eq := s.eq[s.root[node]]
	for r, er := range eq {
		for c, ec := range eq {
			if er >= 0 && ec >= 0 && ec <= er {
				e.add(er, ec, k[r][c])
			}
		}
	}
}

// bodyMatrix is the mass matrix of a body over the freedoms that carry its node.
func (s *System) bodyMatrix(b *Body) (k [6][6]float64) {
	arm := r3.Add(s.arm[b.Node], b.CG)
	var m matrix12
	for d := range 3 {
		m[d][d] = b.Mass
		for c := range 3 {
			m[3+d][3+c] = (b.Inertia[d][c] + b.Inertia[c][d]) / 2
		}
	}
	m.offset(arm, r3.Vec{})
	for r := range 6 {
		copy(k[r][:], m[r][:6])
	}
	return k
}

// springMatrix is the stiffness of a spring over the freedoms that carry its two nodes.
func (s *System) springMatrix(sp *Spring) (k matrix12) {
	for r := range 6 {
		for c := range 6 {
			v := (sp.K[r][c] + sp.K[c][r]) / 2
			k[r][c], k[6+r][6+c] = v, v
			k[r][6+c], k[6+r][c] = -v, -v
		}
	}
	armB := r3.Vec{}
	if sp.B != Ground {
		armB = r3.Sub(s.places[sp.A], s.places[s.root[sp.B]])
	}
	k.offset(s.arm[sp.A], armB)
	return k
}

// Mass returns the mass of the model in kg.
func (s *System) Mass() float64 {
	var sum float64
	for i := range s.elements {
		m := s.elements[i].m
		sum += m[0][0] + m[0][6] + m[6][0] + m[6][6]
	}
	for _, b := range s.model.Bodies {
		sum += b.Mass
	}
	return sum
}
