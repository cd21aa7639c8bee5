package frame

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Family is a model whose members were condensed once, for the modes of models that differ from it in springs and in factors on the
// members' moduli. Between two nodes that carry something, the members keep their static shapes and, for each, the shape that its
// inertia bends them to on the way, Rayleigh's principle choosing among them: a Craig-Bampton reduction whose inner shapes are
// those of a first step of inverse iteration. Frequencies come out too high by less than 1e-6 of themselves below half the lowest
// frequency of a member held at its nodes. It is never changed after System.Family.
//
// Source: Craig & Bampton, AIAA J. 6 (1968) 1313-1319; static correction as basis: Craig & Hale, J. Guid. Control Dyn. 11 (1988).
type Family struct {
	s      *System
	kept   []int // equation of each unknown, those of the nodes that carry something; -1 for a run's own shape
	runs   []run
	place  [][6]int  // unknown of each freedom of a place, -1 where it is condensed or held
	size   int       // unknowns
	first  []int     // the first unknown that each is joined to
	m      *envelope // over the unknowns, of every relative
	excite [6][]float64
	factor factor // of the inner freedoms, the kept ones held
}

// run is a stretch of members between nodes that carry something.
type run struct {
	members  []int
	inner    []int       // equations
	ends     [][2]int    // place and freedom of each kept unknown
	unknowns []int       // the kept ones it hangs on, then its own
	shapes   [][]float64 // of each unknown, over inner
	values   []float64   // ω² of its own shapes
	k        []float64   // unknowns × unknowns, of its members as they are
	m        []float64   // the same of the mass, without what the kept freedoms have of their own
}

// Relative is how a model of a family differs from the one that was assembled.
type Relative struct {
	Members []float64 // factor on E and G of each member; nil: all 1. Members joined by a node that carries nothing have one factor
	Springs []Spring  // as many, and between the same nodes, as the model's; nil: the model's
	// Unnamed leaves Label and Share of the modes empty.
	Unnamed bool
}

// innerShapes is the most shapes that a run bends to by its own inertia, and stiffShape the ω² over that of the softest of them beyond which
// a shape is left out.
const (
	innerShapes = 12
	stiffShape  = 400.0
)

// Family condenses the members.
func (s *System) Family() (*Family, error) { return s.FamilyBeside(nil) }

// FamilyBeside is Family where the same members are condensed already in another, such as that of the same mast flying: what it
// holds of them is taken over. The two models must have the same members on the same nodes; what else they carry may differ.
func (s *System) FamilyBeside(other *Family) (*Family, error) {
	f := &Family{s: s}
	carries := f.carrying()
	runOf := f.split(carries)
	for f.addEnd(runOf, carries) {
		runOf = f.split(carries)
	}
	hold := make([]bool, len(s.k.first)) // while the inner places move
	for p := range s.places {
		for _, eq := range s.eq[p] {
			if eq >= 0 && carries[p] {
				f.kept = append(f.kept, eq)
				hold[eq] = true
			}
		}
	}
	slices.Sort(f.kept) // in the order that keeps the matrices narrow
	f.place = make([][6]int, len(s.places))
	for p := range s.places {
		for d, eq := range s.eq[p] {
			f.place[p][d] = -1
			if u, kept := slices.BinarySearch(f.kept, eq); kept {
				f.place[p][d] = u
			}
		}
	}
	f.size = len(f.kept)
	factor, bad, _ := decompose(s.k, hold, false)
	if bad >= 0 {
		return nil, errors.New("a member between two nodes is free to move")
	}
	f.factor = factor
	for i := range f.runs {
		f.hang(i, runOf)
		if other == nil || i >= len(other.runs) || !f.takeOver(i, &other.runs[i]) {
			f.static(i, runOf, factor)
		}
	}
	f.number()
	f.order()
	f.layOut()
	f.assembleMass()
	for d := range f.excite {
		f.excite[d] = make([]float64, len(s.k.first))
		s.addInertia(f.excite[d], unitMotion(d))
	}
	return f, nil
}

// carrying marks the places that keep their freedoms: those with a spring, a body, a support or a follower, and those where
// materials meet.
func (f *Family) carrying() []bool {
	s := f.s
	m := &s.model
	carries := make([]bool, len(s.places))
	for p := range m.Nodes {
		if s.root[p] != p {
			carries[s.root[p]] = true
		}
	}
	for _, b := range m.Bodies {
		carries[s.root[b.Node]] = true
	}
	for _, sp := range m.Springs {
		carries[s.root[sp.A]] = true
		if sp.B != Ground {
			carries[s.root[sp.B]] = true
		}
	}
	for _, sup := range m.Supports {
		carries[sup.Node] = true
	}
	of := make(map[int]Elastic)
	for i := range m.Members {
		for _, node := range [2]int{s.root[m.Members[i].A], s.root[m.Members[i].B]} {
			if other, met := of[node]; met && other != m.Members[i].Material {
				carries[node] = true
			}
			of[node] = m.Members[i].Material
		}
	}
	return carries
}

// addEnd marks the end of a run that hangs on no freedom at all, such as a bar on a clamp, as one that carries something, and reports whether
// there was such a run.
func (f *Family) addEnd(runOf []int, carries []bool) bool {
	s := f.s
	hangs := make([]bool, len(f.runs))
	for e, i := range runOf {
		for _, end := range [2]int{s.elements[e].a, s.elements[e].b} {
			if p := s.root[end]; carries[p] && s.eq[p] != nowhere {
				hangs[i] = true
			}
		}
	}
	for i, r := range f.runs {
		if hangs[i] {
			continue
		}
		for _, member := range r.members {
			for _, node := range [2]int{s.model.Members[member].B, s.model.Members[member].A} {
				if p := s.root[node]; !carries[p] {
					carries[p] = true
					return true
				}
			}
		}
	}
	return false
}

// split sorts the members' elements into runs and returns the run of each element.
func (f *Family) split(carries []bool) []int {
	s := f.s
	f.runs = nil
	runAt := make([]int, len(s.places)) // of an inner place, from 1
	runOf := make([]int, len(s.elements))
	for i := range s.model.Members {
		for e := s.spans[i][0]; e < s.spans[i][1]; e++ {
			a, b := s.root[s.elements[e].a], s.root[s.elements[e].b]
			var joined []int
			for _, p := range [2]int{a, b} {
				if !carries[p] && runAt[p] > 0 {
					joined = append(joined, runAt[p])
				}
			}
			own := len(f.runs) + 1
			if len(joined) > 0 {
				own = slices.Min(joined)
			} else {
				f.runs = append(f.runs, run{})
			}
			for _, other := range joined {
				if other == own {
					continue
				}
				for p := range runAt {
					if runAt[p] == other {
						runAt[p] = own
					}
				}
				for k := range e {
					if runOf[k] == other-1 {
						runOf[k] = own - 1
					}
				}
				f.runs[own-1].members = append(f.runs[own-1].members, f.runs[other-1].members...)
				f.runs[other-1].members = nil
			}
			for _, p := range [2]int{a, b} {
				if !carries[p] {
					runAt[p] = own
				}
			}
			runOf[e] = own - 1
			if r := &f.runs[own-1]; !slices.Contains(r.members, i) {
				r.members = append(r.members, i)
			}
		}
	}
	for p := range s.places {
		if s.root[p] == p && !carries[p] && runAt[p] > 0 {
			r := &f.runs[runAt[p]-1]
			for _, eq := range s.eq[p] {
				if eq >= 0 {
					r.inner = append(r.inner, eq)
				}
			}
		}
	}
	return runOf
}

// hang finds the kept freedoms that run i hangs on.
func (f *Family) hang(i int, runOf []int) {
	s, r := f.s, &f.runs[i]
	seen := make(map[int]bool, 24)
	for e := range s.elements {
		if runOf[e] != i {
			continue
		}
		for _, end := range [2]int{s.elements[e].a, s.elements[e].b} {
			p := s.root[end]
			for d, u := range f.place[p] {
				if u >= 0 && !seen[u] {
					seen[u] = true
					r.ends, r.unknowns = append(r.ends, [2]int{p, d}), append(r.unknowns, u)
				}
			}
		}
	}
}

// takeOver copies what another family holds of run i, and reports whether it is the same run.
func (f *Family) takeOver(i int, o *run) bool {
	r := &f.runs[i]
	if !slices.Equal(r.members, o.members) || !slices.Equal(r.ends, o.ends) || len(r.inner) != len(o.inner) {
		return false
	}
	r.k, r.m, r.shapes, r.values = o.k, o.m, o.shapes, o.values
	return true
}

// static condenses run i: the shapes under a unit movement of each kept freedom it hangs on, and those that their inertia adds.
func (f *Family) static(i int, runOf []int, factor factor) {
	s, r := f.s, &f.runs[i]
	unknown := make(map[int]int, len(r.ends)) // place of an equation among the run's
	kept := make([]int, len(r.ends))          // their equations
	for c, end := range r.ends {
		kept[c] = s.eq[end[0]][end[1]]
		unknown[kept[c]] = c
	}
	n, ni, all := len(kept), len(r.inner), len(s.k.first)
	low, high := all, 0 // the inner equations lie between
	for _, eq := range r.inner {
		low, high = min(low, eq), max(high, eq+1)
	}
	full := make([][]float64, n) // over all equations
	for c, eq := range kept {
		x := make([]float64, all)
		for _, row := range r.inner {
			x[row] = -s.k.at(row, eq)
		}
		factor.solveWithin(x, low, high)
		x[eq] = 1
		full[c] = x
	}
	k := f.boundaryStiffness(i, runOf, unknown, full)
	if ni == 0 {
		r.k, r.m = flat(k, n), make([]float64, n*n)
		return
	}
	compact := func(x []float64) []float64 {
		own := make([]float64, ni)
		for row, eq := range r.inner {
			own[row] = x[eq]
		}
		return own
	}
	shapes, pull, added := make([][]float64, n), make([][]float64, n), make([][]float64, n)
	heavy := make([][]float64, n) // the inertia of a shape, on the inner equations
	y := make([]float64, all)
	weigh := func(x []float64) []float64 {
		s.m.timesWithin(y, x, low, high)
		return compact(y)
	}
	bend := func(load []float64) []float64 {
		x := make([]float64, all)
		for row, eq := range r.inner {
			x[eq] = load[row]
		}
		factor.solveWithin(x, low, high)
		return x
	}
	for c, eq := range kept {
		pull[c] = make([]float64, ni)
		for row, inner := range r.inner {
			pull[c][row] = s.m.at(inner, eq)
		}
		shapes[c] = compact(full[c])
		full[c][eq] = 0
		heavy[c] = weigh(full[c])
		axpy(heavy[c], 1, pull[c])
		added[c] = bend(heavy[c])
	}
	if n < innerShapes { // a bar with a free end hangs on few: a second step of inverse iteration makes up for it
		for c := range n {
			heavy = append(heavy, weigh(added[c]))
			added = append(added, bend(heavy[n+c]))
		}
	}
	inner, values := stationary(compact, weigh, added, heavy)
	w := n + len(inner)
	m := make([][]float64, w)
	for a := range w {
		m[a] = make([]float64, w)
	}
	for a := range n {
		for b := range n {
			m[a][b] = dot(shapes[a], heavy[b]) + dot(pull[a], shapes[b])
		}
		for c, x := range inner {
			m[a][n+c] = dot(x, heavy[a])
			m[n+c][a] = m[a][n+c]
		}
	}
	for c := range inner {
		m[n+c][n+c] = 1 // they are of unit modal mass, and square to each other
		k = append(k, make([]float64, w))
		k[n+c][n+c] = values[c]
	}
	shapes = append(shapes, inner...)
	r.k, r.m, r.shapes, r.values = flat(k, w), flat(m, w), shapes, values
}

// number gives the inner shapes of every run their unknowns, but leaves out those far stiffer than the softest of all: a collar's beside a mast's.
func (f *Family) number() {
	softest := math.Inf(1)
	for _, r := range f.runs {
		for _, v := range r.values {
			softest = math.Min(softest, v)
		}
	}
	for i := range f.runs {
		r := &f.runs[i]
		before := len(r.unknowns) + len(r.values)
		for _, v := range r.values {
			if v > stiffShape*softest {
				break
			}
			r.unknowns = append(r.unknowns, f.size)
			f.size++
		}
		w := len(r.unknowns)
		if len(r.shapes) == 0 {
			continue
		}
		r.shapes, r.values = r.shapes[:w], r.values[:w-len(r.ends)]
		r.k, r.m = corner(r.k, before, w), corner(r.m, before, w)
	}
}

// order puts the unknowns of a run's own shapes after the last that the run hangs on, which keeps the matrices narrow.
func (f *Family) order() {
	after := make([]int, f.size)
	for u := range after {
		after[u] = u
	}
	for i := range f.runs {
		last := -1
		for _, u := range f.runs[i].unknowns {
			if u < len(f.kept) {
				last = max(last, u)
			} else {
				after[u] = last
			}
		}
	}
	was := make([]int, f.size)
	for u := range was {
		was[u] = u
	}
	slices.SortStableFunc(was, func(a, b int) int { return cmp.Compare(after[a], after[b]) })
	is, kept := make([]int, f.size), make([]int, f.size)
	for u, before := range was {
		is[before], kept[u] = u, -1
		if before < len(f.kept) {
			kept[u] = f.kept[before]
		}
	}
	f.kept = kept
	for p := range f.place {
		for d, u := range f.place[p] {
			if u >= 0 {
				f.place[p][d] = is[u]
			}
		}
	}
	for i := range f.runs {
		for a, u := range f.runs[i].unknowns {
			f.runs[i].unknowns[a] = is[u]
		}
	}
}

// layOut finds which unknowns are joined.
func (f *Family) layOut() {
	f.first = make([]int, f.size)
	for u := range f.first {
		f.first[u] = u
	}
	join := func(unknowns []int) {
		least := f.size
		for _, u := range unknowns {
			if u >= 0 {
				least = min(least, u)
			}
		}
		for _, u := range unknowns {
			if u >= 0 {
				f.first[u] = min(f.first[u], least)
			}
		}
	}
	for i := range f.runs {
		join(f.runs[i].unknowns)
	}
	for _, at := range f.place {
		join(at[:])
	}
	for _, sp := range f.s.model.Springs {
		if sp.B != Ground {
			a, b := f.place[f.s.root[sp.A]], f.place[f.s.root[sp.B]]
			join(append(a[:], b[:]...))
		}
	}
}

// corner cuts the upper left corner of a square matrix out.
func corner(all []float64, from, to int) []float64 {
	out := make([]float64, to*to)
	for i := range to {
		copy(out[i*to:(i+1)*to], all[i*from:])
	}
	return out
}

// flat lays the rows of a square matrix one after the other; short rows end in zeros.
func flat(rows [][]float64, n int) []float64 {
	all := make([]float64, n*n)
	for i, row := range rows {
		copy(all[i*n:], row)
	}
	return all
}

// nowhere are the unknowns of a place that has none.
var nowhere = [6]int{-1, -1, -1, -1, -1, -1}

// boundaryStiffness is the stiffness of run i over the kept freedoms it hangs on, the inner ones following by their shapes.
func (f *Family) boundaryStiffness(i int, runOf []int, unknown map[int]int, full [][]float64) [][]float64 {
	s := f.s
	k := make([][]float64, len(full))
	for a := range k {
		k[a] = make([]float64, len(full))
	}
	for e := range s.elements {
		if runOf[e] != i {
			continue
		}
		el := &s.elements[e]
		if f.place[s.root[el.a]] == nowhere && f.place[s.root[el.b]] == nowhere {
			continue
		}
		eq := s.equations(el.a, el.b)
		for r, er := range eq {
			a, kept := unknown[er]
			if er < 0 || !kept {
				continue
			}
			for c := range full {
				var sum float64
				for q, ec := range eq {
					if ec >= 0 {
						sum += el.k[r][q] * full[c][ec]
					}
				}
				k[a][c] += sum
			}
		}
	}
	for a := range k {
		for b := range a { // rounding apart, it is symmetric
			mean := (k[a][b] + k[b][a]) / 2
			k[a][b], k[b][a] = mean, mean
		}
	}
	return k
}

// stationary returns what a run's own inertia bends it to: of the span of the added shapes those that are stationary, of unit modal mass,
// the lowest first, with their ω², over the run's inner equations. heavy is the inner stiffness times the added shapes.
func stationary(compact, weigh func([]float64) []float64, added, heavy [][]float64) (shapes [][]float64, values []float64) {
	n := len(added)
	if n == 0 {
		return nil, nil
	}
	m, k := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	size := make([]float64, n)
	own := make([][]float64, n)
	for a := range n {
		own[a] = compact(added[a])
		weight := weigh(added[a])
		for b := range a + 1 {
			m.SetSym(a, b, dot(weight, own[b]))
			k.SetSym(a, b, dot(own[b], heavy[a]))
		}
	}
	for a := range n {
		if d := m.At(a, a); d > 0 {
			size[a] = 1 / math.Sqrt(d)
		}
	}
	for a := range n {
		for b := range a + 1 {
			m.SetSym(a, b, m.At(a, b)*size[a]*size[b])
			k.SetSym(a, b, k.At(a, b)*size[a]*size[b])
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(m, true) {
		return nil, nil
	}
	var q mat.Dense
	eig.VectorsTo(&q)
	mass := eig.Values(nil)
	first := 0
	for first < n && !(mass[first] > 1e-9*mass[n-1]) {
		first++ // hardly another shape than the rest
	}
	if first == n {
		return nil, nil
	}
	basis := mat.NewDense(n, n-first, nil)
	for c := range n - first {
		for a := range n {
			basis.Set(a, c, q.At(a, first+c)/math.Sqrt(mass[first+c]))
		}
	}
	var half, whole mat.Dense
	half.Mul(k, basis)
	whole.Mul(basis.T(), &half)
	sym := mat.NewSymDense(n-first, nil)
	for a := range n - first {
		for b := range a + 1 {
			sym.SetSym(a, b, (whole.At(a, b)+whole.At(b, a))/2)
		}
	}
	if !eig.Factorize(sym, true) {
		return nil, nil
	}
	var mix, turn mat.Dense
	eig.VectorsTo(&mix)
	all := eig.Values(nil)
	turn.Mul(basis, &mix)
	for c := range min(len(all), innerShapes) {
		x := make([]float64, len(own[0]))
		for a := range n {
			axpy(x, turn.At(a, c)*size[a], own[a])
		}
		shapes, values = append(shapes, x), append(values, all[c])
	}
	return shapes, values
}

// assembleMass sets the mass over the unknowns.
func (f *Family) assembleMass() {
	s := f.s
	f.m = newEnvelope(f.first)
	for a, ea := range f.kept {
		for b := f.first[a]; b <= a && ea >= 0; b++ {
			if eb := f.kept[b]; eb >= 0 {
				f.m.add(a, b, s.m.at(ea, eb))
			}
		}
	}
	for i := range f.runs {
		r := &f.runs[i]
		w := len(r.unknowns)
		for a, ua := range r.unknowns {
			for b, ub := range r.unknowns {
				if ub <= ua {
					f.m.add(ua, ub, (r.m[a*w+b]+r.m[b*w+a])/2)
				}
			}
		}
	}
}

// Condensed is a model of a family, its stiffness factored. It is never changed after Family.Condense.
type Condensed struct {
	family *Family
	as     Relative
	small  *System // over the family's unknowns
}

// Condense factors a model of the family.
func (f *Family) Condense(as Relative) (*Condensed, error) {
	if as.Springs == nil {
		as.Springs = f.s.model.Springs
	}
	if err := f.check(as); err != nil {
		return nil, err
	}
	small, err := f.small(as)
	if err != nil {
		return nil, err
	}
	return &Condensed{f, as, small}, nil
}

// Modes returns the lowest flexible modes of the model, as System.Modes does. They belong to the system that the family was made from.
func (c *Condensed) Modes(o Options) ([]Mode, error) {
	f, small := c.family, c.small
	count := o.Count
	if count == 0 {
		count = 6
	}
	k := &krylov{
		settle: 1e-6, // as good as the condensation
		n:      f.size,
		inner:  small.m.times,
		apply: func(u, v, w []float64) {
			copy(u, w)
			small.deflect(u)
		},
	}
	pairs, err := small.lowest(k, count)
	if err != nil {
		return nil, err
	}
	for i := range pairs {
		pairs[i].vector = f.whole(pairs[i].vector)
	}
	return f.s.modes(pairs, count, &f.excite, c.as), nil
}

func (f *Family) check(v Relative) error {
	m := &f.s.model
	if len(v.Springs) != len(m.Springs) {
		return fmt.Errorf("family: %d springs, the model has %d; give each", len(v.Springs), len(m.Springs))
	}
	for i, sp := range v.Springs {
		if sp.A != m.Springs[i].A || sp.B != m.Springs[i].B {
			return fmt.Errorf("family: %s joins other nodes than the model's; assemble it anew", m.springName(i))
		}
		if err := checkSymmetric(6, func(r, c int) float64 { return sp.K[r][c] }); err != nil {
			return fmt.Errorf("family: %s: stiffness %w", m.springName(i), err)
		}
	}
	if v.Members == nil {
		return nil
	}
	if len(v.Members) != len(m.Members) {
		return fmt.Errorf("family: %d factors, the model has %d members; give each", len(v.Members), len(m.Members))
	}
	for _, r := range f.runs {
		for _, i := range r.members {
			if x, first := v.Members[i], v.Members[r.members[0]]; !(x > 0) || math.IsInf(x, 1) || math.Abs(x-first) > 1e-12*first {
				return fmt.Errorf("family: %s has the factor %g, its neighbour %g; both must be one number above zero", m.memberName(i), x, first)
			}
		}
	}
	return nil
}

// small is the condensed system of a relative.
func (f *Family) small(v Relative) (*System, error) {
	n := f.size
	k, m := f.m.like(), f.m
	for i := range f.runs {
		r := &f.runs[i]
		factor := 1.0
		if len(r.members) > 0 {
			factor = v.factor(r.members[0])
		}
		w := len(r.unknowns)
		for a, ua := range r.unknowns {
			for b, ub := range r.unknowns {
				if ub <= ua {
					k.v[k.start[ua]+ub] += factor * r.k[a*w+b]
				}
			}
		}
	}
	s := f.s
	for i := range v.Springs {
		sp := &v.Springs[i]
		block := s.springMatrix(sp)
		var at [12]int
		for d := range 6 {
			at[d], at[6+d] = f.place[s.root[sp.A]][d], -1
			if sp.B != Ground {
				at[6+d] = f.place[s.root[sp.B]][d]
			}
		}
		for r, ur := range at {
			for c, uc := range at {
				if ur >= 0 && uc >= 0 && uc <= ur {
					k.v[k.start[ur]+uc] += block[r][c]
				}
			}
		}
	}
	small := &System{model: s.model, places: s.places, root: s.root, eq: f.place, k: k, m: m, size: s.size}
	for _, rigid := range s.rigid {
		own := rigidShape{shape: make([]float64, n), mass: make([]float64, n)}
		for u, eq := range f.kept {
			if eq >= 0 {
				own.shape[u] = rigid.shape[eq]
			}
		}
		m.times(own.mass, own.shape)
		small.rigid = append(small.rigid, own)
	}
	if len(small.rigid) > 0 {
		small.hold()
	}
	factor, bad, _ := decompose(k, small.held, false)
	if bad >= 0 {
		return nil, errors.New("family: a spring leaves a part of the model free to move; give it stiffness")
	}
	small.factor = factor
	return small, nil
}

// whole spreads a shape over the unknowns to the equations of the system.
func (f *Family) whole(q []float64) []float64 {
	x := make([]float64, len(f.s.k.first))
	for u, eq := range f.kept {
		if eq >= 0 {
			x[eq] = q[u]
		}
	}
	for i := range f.runs {
		r := &f.runs[i]
		own := make([]float64, len(r.inner))
		for a := range r.shapes {
			axpy(own, q[r.unknowns[a]], r.shapes[a])
		}
		for row, eq := range r.inner {
			x[eq] = own[row]
		}
	}
	return x
}
