package frame

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// Load is a force in N and a moment in N·m on a node, body axes.
type Load struct {
	Node          int
	Force, Moment r3.Vec
}

// LineLoad is an even force along the whole of a member, N/m, body axes.
type LineLoad struct {
	Member   int
	PerMetre r3.Vec
}

// Case is a set of loads that act together.
type Case struct {
	Loads []Load
	Lines []LineLoad
	// Field is an acceleration in m/s² that pulls on every mass, as gravity does: (0, 0, -9.80665)
	// standing, and minus the vehicle's own acceleration in flight.
	Field r3.Vec
}

// Displacement is a movement in m and a rotation in rad, body axes.
type Displacement struct{ Move, Turn r3.Vec }

// SectionForces act at a cut across a member: what the part towards B does to the part towards A, in
// the member's own axes. The normal stress at (x, y) from the centroid is N/A + Mx y/Ix - My x/Iy.
type SectionForces struct {
	Vx, Vy, N float64 // N
	Mx, My, T float64 // N·m, about the centroid
}

// Reaction is what a support, or a spring's ground, does to the model.
type Reaction struct {
	Node          int
	Force, Moment r3.Vec
}

// Result answers one case.
type Result struct {
	Nodes     []Displacement    // a node of the model each
	Members   [][]SectionForces // a member each, at the cuts from A to B: elements + 1
	Reactions []Reaction        // supports in order, then springs to ground
}

// Statics assembles a model and answers its cases.
func Statics(m Model, cases []Case) ([]Result, error) {
	s, err := Assemble(m)
	if err != nil {
		return nil, err
	}
	return s.Statics(cases)
}

// Statics answers load cases with the one factor.
func (s *System) Statics(cases []Case) ([]Result, error) {
	if err := s.mustStand(); err != nil {
		return nil, err
	}
	results := make([]Result, len(cases))
	for i, c := range cases {
		u, err := s.displace(c)
		if err != nil {
			return nil, fmt.Errorf("case %d: %w", i, err)
		}
		results[i] = s.result(c, u, s.itself())
	}
	return results, nil
}

// Deflections answers load cases by the displacements of the model's nodes alone, which costs a tenth of Statics.
func (s *System) Deflections(cases []Case) ([][]Displacement, error) {
	if err := s.mustStand(); err != nil {
		return nil, err
	}
	all := make([][]Displacement, len(cases))
	for i, c := range cases {
		u, err := s.displace(c)
		if err != nil {
			return nil, fmt.Errorf("case %d: %w", i, err)
		}
		all[i] = make([]Displacement, len(s.model.Nodes))
		for p := range all[i] {
			all[i][p] = s.at(u, p)
		}
	}
	return all, nil
}

func (s *System) mustStand() error {
	if len(s.rigid) > 0 {
		return fmt.Errorf("model is free to move in %d ways; support it", len(s.rigid))
	}
	return nil
}

// displace solves for the displacements under a case.
func (s *System) displace(c Case) ([]float64, error) {
	f, err := s.load(c)
	if err != nil {
		return nil, err
	}
	s.factor.solve(f)
	return f, nil
}

// load gathers a case over the equations.
func (s *System) load(c Case) ([]float64, error) {
	f := make([]float64, len(s.k.first))
	for i, l := range c.Loads {
		if !finite(l.Force.X, l.Force.Y, l.Force.Z, l.Moment.X, l.Moment.Y, l.Moment.Z) {
			return nil, fmt.Errorf("load %d at %s is not finite", i, s.model.nodeName(l.Node))
		}
		s.addLoad(f, l.Node, l.Force, l.Moment)
	}
	for i, l := range c.Lines {
		if !finite(l.PerMetre.X, l.PerMetre.Y, l.PerMetre.Z) {
			return nil, fmt.Errorf("line load %d on %s is not finite", i, s.model.memberName(l.Member))
		}
		for e := s.spans[l.Member][0]; e < s.spans[l.Member][1]; e++ {
			v := s.lineLoad(l, e)
			s.scatter(f, e, &v)
		}
	}
	if !finite(c.Field.X, c.Field.Y, c.Field.Z) {
		return nil, fmt.Errorf("field %v is not finite", c.Field)
	}
	if c.Field != (r3.Vec{}) {
		s.addInertia(f, [6]float64{c.Field.X, c.Field.Y, c.Field.Z})
	}
	return f, nil
}

// addLoad adds a load on a place to a vector of equations.
func (s *System) addLoad(f []float64, place int, force, moment r3.Vec) {
	moment = r3.Add(moment, r3.Cross(s.arm[place], force))
	v := [6]float64{force.X, force.Y, force.Z, moment.X, moment.Y, moment.Z}
	for d, eq := range s.eq[s.root[place]] {
		if eq >= 0 {
			f[eq] += v[d]
		}
	}
}

func (s *System) scatter(f []float64, e int, v *[12]float64) {
	for i, eq := range s.equations(s.elements[e].a, s.elements[e].b) {
		if eq >= 0 {
			f[eq] += v[i]
		}
	}
}

// lineLoad is the consistent load of an even force on one element, on the freedoms that carry it. The
// element is taken as uniform: the end forces and moments of a beam clamped at both ends.
func (s *System) lineLoad(l LineLoad, e int) (v [12]float64) {
	n := float64(s.spans[l.Member][1] - s.spans[l.Member][0])
	L := s.lengths[l.Member] / n
	half := r3.Scale(L/2, l.PerMetre)
	moment := r3.Scale(L*L/12, r3.Cross(s.axes[l.Member][2], l.PerMetre))
	el := &s.elements[e]
	for i, end := range [2]struct{ arm, moment r3.Vec }{{el.armA, moment}, {el.armB, r3.Scale(-1, moment)}} {
		m := r3.Add(end.moment, r3.Cross(end.arm, half))
		copy(v[6*i:], []float64{half.X, half.Y, half.Z, m.X, m.Y, m.Z})
	}
	return v
}

// addInertia adds M times a rigid motion (about the origin), the parts that support freedoms carry
// left out.
func (s *System) addInertia(f []float64, motion [6]float64) {
	for e := range s.elements {
		v := s.elementInertia(e, motion)
		s.scatter(f, e, &v)
	}
	for i := range s.model.Bodies {
		b := &s.model.Bodies[i]
		v := s.bodyInertia(b, motion)
		for d, eq := range s.eq[s.root[b.Node]] {
			if eq >= 0 {
				f[eq] += v[d]
			}
		}
	}
}

func (s *System) elementInertia(e int, motion [6]float64) (v [12]float64) {
	el := &s.elements[e]
	if motion[3] == 0 && motion[4] == 0 && motion[5] == 0 { // every place moves alike
		for r := range 12 {
			for c := range 3 {
				v[r] += (el.m[r][c] + el.m[r][6+c]) * motion[c]
			}
		}
		return v
	}
	a, b := s.rigidMotion(s.root[el.a], motion), s.rigidMotion(s.root[el.b], motion)
	for r := range 12 {
		for c := range 6 {
			v[r] += el.m[r][c]*a[c] + el.m[r][6+c]*b[c]
		}
	}
	return v
}

func (s *System) bodyInertia(b *Body, motion [6]float64) (v [6]float64) {
	m := s.bodyMatrix(b)
	a := s.rigidMotion(s.root[b.Node], motion)
	for r := range 6 {
		for c := range 6 {
			v[r] += m[r][c] * a[c]
		}
	}
	return v
}

// rigidMotion is the displacement at a place under a rigid motion about the origin.
func (s *System) rigidMotion(place int, motion [6]float64) [6]float64 {
	at, turn := s.places[place], r3.Vec{X: motion[3], Y: motion[4], Z: motion[5]}
	if turn == (r3.Vec{}) {
		return motion
	}
	u := r3.Cross(turn, at)
	return [6]float64{motion[0] + u.X, motion[1] + u.Y, motion[2] + u.Z, motion[3], motion[4], motion[5]}
}

// carried returns the displacements of the freedoms at a place's root.
func (s *System) carried(u []float64, place int) (v [6]float64) {
	for d, eq := range s.eq[s.root[place]] {
		if eq >= 0 {
			v[d] = u[eq]
		}
	}
	return v
}

// at returns the displacement of a place.
func (s *System) at(u []float64, place int) Displacement { return s.beside(u, place, s.arm[place]) }

// beside returns the displacement of a point that is arm away from what carries a place.
func (s *System) beside(u []float64, place int, arm r3.Vec) Displacement {
	v := s.carried(u, place)
	d := Displacement{Move: r3.Vec{X: v[0], Y: v[1], Z: v[2]}, Turn: r3.Vec{X: v[3], Y: v[4], Z: v[5]}}
	if arm != (r3.Vec{}) {
		d.Move = r3.Add(d.Move, r3.Cross(d.Turn, arm))
	}
	return d
}

func (d Displacement) vector() [6]float64 {
	return [6]float64{d.Move.X, d.Move.Y, d.Move.Z, d.Turn.X, d.Turn.Y, d.Turn.Z}
}

// ends returns the twelve displacements of an element's carrying freedoms.
func (s *System) ends(u []float64, a, b int) (v [12]float64) {
	va, vb := s.carried(u, a), s.carried(u, b)
	copy(v[:6], va[:])
	copy(v[6:], vb[:])
	return v
}

// times returns the first rows of the product with u.
func (k *matrix12) times(u *[12]float64, rows int) (f [12]float64) {
	for r := range rows {
		row := &k[r]
		var even, odd float64
		for c := 0; c < 12; c += 2 {
			even += row[c] * u[c]
			odd += row[c+1] * u[c+1]
		}
		f[r] = even + odd
	}
	return f
}

// itself is the relative that a system is.
func (s *System) itself() Relative { return Relative{Springs: s.model.Springs} }

// factor returns the factor on a member's moduli.
func (r *Relative) factor(member int) float64 {
	if r.Members == nil {
		return 1
	}
	return r.Members[member]
}

// result answers a case for a relative of the system that moves by u.
func (s *System) result(c Case, u []float64, as Relative) Result {
	m := &s.model
	room := make([]SectionForces, len(s.elements)+len(m.Members))
	r := Result{Nodes: make([]Displacement, len(m.Nodes)), Members: make([][]SectionForces, len(m.Members))}
	for i := range m.Nodes {
		r.Nodes[i] = s.at(u, i)
	}
	// what the rest of the model must do to each carrying node
	need := make(map[int]*[6]float64)
	for _, sup := range m.Supports {
		need[sup.Node] = new([6]float64)
	}
	take := func(place int, f []float64, sign float64) {
		if n := need[s.root[place]]; n != nil {
			for d := range 6 {
				n[d] += sign * f[d]
			}
		}
	}
	motion := [6]float64{c.Field.X, c.Field.Y, c.Field.Z}
	for i := range m.Members {
		span := s.spans[i]
		cuts := room[: 0 : span[1]-span[0]+1]
		room = room[span[1]-span[0]+1:]
		for e := span[0]; e < span[1]; e++ {
			el := &s.elements[e]
			rows := 6
			if e == span[1]-1 || need[s.root[el.b]] != nil {
				rows = 12 // elsewhere the next element tells what bears on this one's far end
			}
			ends := s.ends(u, el.a, el.b)
			f := el.k.times(&ends, rows)
			if stiffer := as.factor(i); stiffer != 1 {
				scale(f[:], stiffer)
			}
			for _, l := range c.Lines {
				if l.Member == i {
					v := s.lineLoad(l, e)
					for d := range f {
						f[d] -= v[d]
					}
				}
			}
			if c.Field != (r3.Vec{}) {
				v := s.elementInertia(e, motion)
				for d := range f {
					f[d] -= v[d]
				}
			}
			take(el.a, f[:6], 1)
			take(el.b, f[6:], 1)
			cuts = append(cuts, cut(f[:6], el.armA, s.axes[i], -1))
			if e == span[1]-1 {
				cuts = append(cuts, cut(f[6:], el.armB, s.axes[i], 1))
			}
		}
		r.Members[i] = cuts
	}
	for i := range m.Bodies {
		b := &m.Bodies[i]
		if c.Field != (r3.Vec{}) {
			v := s.bodyInertia(b, motion)
			take(b.Node, v[:], -1)
		}
	}
	for _, l := range c.Loads {
		moment := r3.Add(l.Moment, r3.Cross(s.arm[l.Node], l.Force))
		take(l.Node, []float64{l.Force.X, l.Force.Y, l.Force.Z, moment.X, moment.Y, moment.Z}, -1)
	}
	var grounds []Reaction
	for i := range as.Springs {
		sp := &as.Springs[i]
		k := s.springMatrix(sp)
		if sp.B != Ground {
			ends := s.ends(u, sp.A, sp.B)
			f := k.times(&ends, 12)
			take(sp.A, f[:6], 1)
			take(sp.B, f[6:], 1)
			continue
		}
		own := s.carried(u, sp.A)
		var ends [12]float64
		copy(ends[:6], own[:])
		f := k.times(&ends, 12)
		take(sp.A, f[:6], 1)
		v := s.at(u, sp.A).vector()
		var on [6]float64
		for a := range 6 {
			for b := range 6 {
				on[a] -= sp.K[a][b] * v[b]
			}
		}
		grounds = append(grounds, Reaction{Node: sp.A, Force: r3.Vec{X: on[0], Y: on[1], Z: on[2]}, Moment: r3.Vec{X: on[3], Y: on[4], Z: on[5]}})
	}
	for _, sup := range m.Supports {
		n := need[sup.Node]
		var f [6]float64
		for d, fixed := range sup.Fixed {
			if fixed {
				f[d] = n[d]
				n[d] = 0 // a second support of the same freedom carries nothing
			}
		}
		r.Reactions = append(r.Reactions, Reaction{Node: sup.Node, Force: r3.Vec{X: f[0], Y: f[1], Z: f[2]}, Moment: r3.Vec{X: f[3], Y: f[4], Z: f[5]}})
	}
	r.Reactions = append(r.Reactions, grounds...)
	return r
}

// cut turns the end forces of an element, given on its carrying node, into section forces.
func cut(f []float64, arm r3.Vec, axes [3]r3.Vec, sign float64) SectionForces {
	force := r3.Scale(sign, r3.Vec{X: f[0], Y: f[1], Z: f[2]})
	moment := r3.Sub(r3.Scale(sign, r3.Vec{X: f[3], Y: f[4], Z: f[5]}), r3.Cross(arm, force))
	return SectionForces{
		Vx: r3.Dot(force, axes[0]), Vy: r3.Dot(force, axes[1]), N: r3.Dot(force, axes[2]),
		Mx: r3.Dot(moment, axes[0]), My: r3.Dot(moment, axes[1]), T: r3.Dot(moment, axes[2]),
	}
}

// Compliance returns the displacement (rows: m and rad) at node a under unit forces and moments
// (columns) at node b. Compliance(a, b) is the transpose of Compliance(b, a).
func (s *System) Compliance(a, b int) (c [6][6]float64, err error) {
	if err := s.mustStand(); err != nil {
		return c, err
	}
	f := make([]float64, len(s.k.first))
	for j := range 6 {
		clear(f)
		var unit [6]float64
		unit[j] = 1
		s.addLoad(f, b, r3.Vec{X: unit[0], Y: unit[1], Z: unit[2]}, r3.Vec{X: unit[3], Y: unit[4], Z: unit[5]})
		s.factor.solve(f)
		for i, v := range s.at(f, a).vector() {
			c[i][j] = v
		}
	}
	return c, nil
}
