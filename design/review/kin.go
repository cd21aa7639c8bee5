package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
)

// kin is the typical model, whose members are condensed once for all the variants that differ from it in springs and in a factor on the
// moduli.
type kin struct {
	system  *frame.System
	nodes   nodes
	members []frame.Elastic
	family  *frame.Family

	// Of a held model, once they are asked for:
	cases   *frame.Cases // the unit cases
	buckled [2]*frame.Buckled
}

// The loads under which the mast may buckle.
const (
	pressedTop   = iota // 1 N down on its top
	pressedAxial        // the axial load on every mass
)

// kinOf returns the kin of the models that are held or fly.
func (s *subject) kinOf(f freedom) (*kin, error) {
	if k := s.kin[f]; k != nil {
		return k, nil
	}
	m, n := s.build(variant{middle, typical}, f)
	k := &kin{nodes: n}
	for _, b := range m.Members {
		k.members = append(k.members, b.Material)
	}
	var err error
	if k.system, err = s.assemble(m); err != nil {
		return nil, err
	}
	var beside *frame.Family // of the same mast
	if other := s.kin[held+flying-f]; other != nil {
		beside = other.family
	}
	if k.family, err = k.system.FamilyBeside(beside); err != nil {
		return nil, err
	}
	s.kin[f] = k
	return k, nil
}

// relative says what a variant is to its kin; false where its moduli do not all follow one factor a member.
func (s *subject) relative(v variant, k *kin, springs []frame.Spring) (as frame.Relative, related bool) {
	as = frame.Relative{Springs: springs, Members: make([]float64, len(s.spine.spans))}
	as.Unnamed = s.lot == nil && v.modulus != typical // nobody asks for their names
	for i, p := range s.spine.spans {
		e, g := p.moduli(v.modulus)
		as.Members[i] = e / k.members[i].E
		if math.Abs(g/k.members[i].G/as.Members[i]-1) > 1e-9 {
			return as, false
		}
	}
	return as, true
}

// casesOf returns the unit cases laid out for the kin of a held model.
func (s *subject) casesOf(k *kin) (*frame.Cases, error) {
	if k.cases == nil {
		s.work.Cases += unitCases
		cases, err := k.family.Cases(s.unitCases(k.nodes))
		if err != nil {
			return nil, err
		}
		k.cases = cases
	}
	return k.cases, nil
}

// buckling returns by how much a load may grow before the mast buckles.
func (s *subject) buckling(load int) (float64, error) {
	e, err := s.model(variant{middle, typical}, held)
	if err != nil {
		return 0, err
	}
	c := s.axialCase()
	if load == pressedTop {
		c = frame.Case{Loads: []frame.Load{{Node: e.nodes.top, Force: r3.Vec{Z: -1}}}}
	}
	if e.kin == nil {
		s.work.Buckling++
		return e.system.Buckling(c)
	}
	if e.kin.buckled[load] == nil {
		s.work.Buckling++
		if e.kin.buckled[load], err = e.kin.family.Buckled(c); err != nil {
			return 0, err
		}
	}
	return e.own.Buckling(e.kin.buckled[load]), nil
}
