package frame

import (
	"fmt"
	"math"
)

// Cases are load cases laid out for a family.
type Cases struct {
	cases []familyCase
}

type familyCase struct {
	Case
	load  []float64 // over the unknowns
	local []float64 // over the equations: what the inner freedoms move while the kept ones are still, the members as they were assembled
}

// Cases lays out load cases for models of a standing family.
func (f *Family) Cases(cases []Case) (*Cases, error) {
	if err := f.s.mustStand(); err != nil {
		return nil, err
	}
	c := &Cases{cases: make([]familyCase, len(cases))}
	for i := range cases {
		load, err := f.s.load(cases[i])
		if err != nil {
			return nil, fmt.Errorf("case %d: %w", i, err)
		}
		c.cases[i] = f.laid(cases[i], load)
	}
	return c, nil
}

// laid lays out a case with its load over the equations, which it takes over.
func (f *Family) laid(c Case, load []float64) familyCase {
	one := familyCase{Case: c, load: f.condensed(load), local: load}
	for _, eq := range f.kept {
		if eq >= 0 {
			load[eq] = 0
		}
	}
	f.factor.solve(load)
	return one
}

// condensed gathers a load over the equations into one over the unknowns.
func (f *Family) condensed(load []float64) []float64 {
	own := make([]float64, f.size)
	for u, eq := range f.kept {
		if eq >= 0 {
			own[u] = load[eq]
		}
	}
	for i := range f.runs {
		r := &f.runs[i]
		for a := range r.shapes {
			for row, eq := range r.inner {
				own[r.unknowns[a]] += r.shapes[a][row] * load[eq]
			}
		}
	}
	return own
}

// Statics answers cases as System.Statics does and as exactly.
func (c *Condensed) Statics(cases *Cases) []Result {
	results := make([]Result, len(cases.cases))
	for i := range results {
		one := &cases.cases[i]
		results[i] = c.family.s.result(one.Case, c.displaced(one), c.as)
	}
	return results
}

// Deflections answers cases by the displacements of the model's nodes alone.
func (c *Condensed) Deflections(cases *Cases) [][]Displacement {
	all := make([][]Displacement, len(cases.cases))
	for i := range all {
		u := c.displaced(&cases.cases[i])
		all[i] = make([]Displacement, len(c.family.s.model.Nodes))
		for p := range all[i] {
			all[i][p] = c.family.s.at(u, p)
		}
	}
	return all
}

// displaced returns the displacements over the equations under a case.
func (c *Condensed) displaced(one *familyCase) []float64 {
	f := c.family
	q := append([]float64(nil), one.load...)
	c.small.factor.solve(q)
	// A run's own shapes bear no load of their own at rest: the local movement holds it all.
	for u, eq := range f.kept {
		if eq < 0 {
			q[u] = 0
		}
	}
	u := f.whole(q)
	for i := range f.runs {
		r := &f.runs[i]
		if len(r.inner) == 0 {
			continue
		}
		softer := 1 / c.as.factor(r.members[0])
		for _, eq := range r.inner {
			u[eq] += softer * one.local[eq]
		}
	}
	return u
}

// First returns the first n of the cases.
func (c *Cases) First(n int) *Cases { return &Cases{c.cases[:n]} }

// Buckled is how the model that a family was made from buckles under a case.
type Buckled struct {
	geometric *envelope
	push      familyCase // what the geometric stiffness makes of the shape, as a load
	never     bool
}

// Buckled computes how the model buckles under a case.
func (f *Family) Buckled(c Case) (*Buckled, error) {
	_, shape, geometric, err := f.s.buckle(c)
	if err != nil || shape == nil {
		return &Buckled{never: true}, err
	}
	push := make([]float64, len(shape))
	geometric.times(push, shape)
	return &Buckled{geometric: geometric, push: f.laid(Case{}, push)}, nil
}

// Buckling returns the factor of System.Buckling: Rayleigh's quotient of two steps of inverse iteration from the
// shape in which the assembled model buckles, with the axial forces of that model. For the model itself it is exact; for one whose buckling
// load differs by a quarter it is too high by less than 1e-5 of itself.
func (c *Condensed) Buckling(b *Buckled) float64 {
	if b.never {
		return math.Inf(1)
	}
	u := c.displaced(&b.push)
	push := make([]float64, len(u))
	b.geometric.times(push, u)
	once := c.family.laid(Case{}, append([]float64(nil), push...))
	u = c.displaced(&once)
	work := dot(u, push) // uᵀ K u
	b.geometric.times(push, u)
	bend := dot(u, push)
	if !(bend > 0) {
		return math.Inf(1)
	}
	return work / bend
}
