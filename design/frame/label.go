package frame

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
)

// splitDegenerate splits degenerate modes into fore-aft and sideways. Modes come lowest first and stay so.
func (s *System) splitDegenerate(modes []Mode) {
	for from := 0; from < len(modes); {
		to := from + 1
		for to < len(modes) && modes[to].omega2 < modes[from].omega2*(1+1e-6) {
			to++
		}
		if to-from > 1 {
			s.split(modes[from:to])
		}
		from = to
	}
}

// label fills the shares and names every mode. alongX and alongY are M × a unit movement.
func (s *System) label(modes []Mode, alongX, alongY []float64) {
	levels := s.levels(alongX, alongY)
	w := make([]float64, len(s.k.first))
	var counts [4]int
	for i := range modes {
		m := &modes[i]
		s.m.times(w, m.vector)
		m.Share = s.share(m.vector, w, levels)
		kind := kindOf(m.Share, counts)
		counts[kind]++
		m.Label = name(kind, counts[kind])
	}
}

// split turns the basis of a degenerate group so that the first holds the most fore-aft motion.
func (s *System) split(group []Mode) {
	n := len(group)
	foreAft := mat.NewSymDense(n, nil)
	w := make([]float64, len(s.k.first))
	product := mat.NewDense(n, n, nil)
	for j := range group {
		s.m.times(w, group[j].vector)
		for p := range s.eq {
			for _, d := range [2]int{0, 4} {
				if eq := s.eq[p][d]; eq >= 0 {
					for i := range group {
						product.Set(i, j, product.At(i, j)+group[i].vector[eq]*w[eq])
					}
				}
			}
		}
	}
	for i := range n {
		for j := i; j < n; j++ {
			foreAft.SetSym(i, j, (product.At(i, j)+product.At(j, i))/2)
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(foreAft, true) {
		return
	}
	var turn mat.Dense
	eig.VectorsTo(&turn)
	vectors, values := make([][]float64, n), make([]float64, n)
	for j := range n {
		vectors[j] = make([]float64, len(w))
		for i := range group {
			c := turn.At(i, n-1-j)
			axpy(vectors[j], c, group[i].vector)
			values[j] += c * c * group[i].omega2
		}
	}
	for j := range group {
		group[j].vector, group[j].omega2 = vectors[j], values[j]
	}
}

// level is the places that carry freedoms at one height, with their masses.
type level struct {
	places []int
	mass   []float64
}

func (s *System) levels(alongX, alongY []float64) []level {
	type entry struct {
		place int
		z     float64
	}
	var all []entry
	for p := range s.eq {
		if s.root[p] == p {
			all = append(all, entry{p, s.places[p].Z})
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].z < all[j].z })
	var levels []level
	for i, e := range all {
		if i == 0 || e.z > all[i-1].z+1e-6*s.size {
			levels = append(levels, level{})
		}
		l := &levels[len(levels)-1]
		var m float64
		if x, y := s.eq[e.place][0], s.eq[e.place][1]; x >= 0 && y >= 0 {
			m = math.Max(alongX[x]+alongY[y], 0) / 2
		}
		l.places, l.mass = append(l.places, e.place), append(l.mass, m)
	}
	return levels
}

// share sorts the kinetic energy v·w, w = M v, into kinds of motion.
func (s *System) share(v, w []float64, levels []level) Share {
	var out Share
	of := func(p, d int) float64 {
		if eq := s.eq[p][d]; eq >= 0 {
			return v[eq] * w[eq]
		}
		return 0
	}
	for _, l := range levels {
		var flat float64
		var x, y float64
		for _, p := range l.places {
			x += of(p, 0)
			y += of(p, 1)
			out.Vertical += of(p, 2)
			out.Sideways += of(p, 3)
			out.ForeAft += of(p, 4)
			out.Twist += of(p, 5)
		}
		flat = x + y
		if len(l.places) > 1 {
			ex, ey, turn, rest := s.common(v, l)
			if sum := ex + ey + turn + rest; sum > 0 {
				x, y = flat*ex/sum, flat*ey/sum
				out.Twist += flat * turn / sum
			}
		}
		out.ForeAft += x
		out.Sideways += y
	}
	return out
}

// common fits one movement and one turn about z to the places of a level and returns the energy in
// each and in what is left.
func (s *System) common(v []float64, l level) (ex, ey, turn, rest float64) {
	var m, cx, cy, ux, uy float64
	at := func(p, d int) float64 {
		if eq := s.eq[p][d]; eq >= 0 {
			return v[eq]
		}
		return 0
	}
	for i, p := range l.places {
		m += l.mass[i]
		cx += l.mass[i] * s.places[p].X
		cy += l.mass[i] * s.places[p].Y
		ux += l.mass[i] * at(p, 0)
		uy += l.mass[i] * at(p, 1)
	}
	if m == 0 {
		return 0, 0, 0, 0
	}
	cx, cy, ux, uy = cx/m, cy/m, ux/m, uy/m
	var inertia, spin float64
	for i, p := range l.places {
		x, y := s.places[p].X-cx, s.places[p].Y-cy
		inertia += l.mass[i] * (x*x + y*y)
		spin += l.mass[i] * (x*(at(p, 1)-uy) - y*(at(p, 0)-ux))
	}
	omega := 0.0
	if inertia > 0 {
		omega = spin / inertia
	}
	for i, p := range l.places {
		x, y := s.places[p].X-cx, s.places[p].Y-cy
		dx, dy := at(p, 0)-ux+omega*y, at(p, 1)-uy-omega*x
		rest += l.mass[i] * (dx*dx + dy*dy)
	}
	return m * ux * ux, m * uy * uy, inertia * omega * omega, rest
}

const (
	foreAft = iota
	sideways
	torsion
	axial
)

// kindOf picks the largest share. Of two bending modes that both run askew the second takes the
// direction the first left.
func kindOf(s Share, counts [4]int) int {
	shares := [4]float64{s.ForeAft, s.Sideways, s.Twist, s.Vertical}
	kind := foreAft
	for k, v := range shares {
		if v > shares[kind]+1e-9 {
			kind = k
		}
	}
	if kind <= sideways {
		if other := sideways - kind; counts[kind] > counts[other] && shares[other] > 0.25 {
			return other
		}
	}
	return kind
}

func name(kind, order int) string {
	noun := [4]string{"bending fore-aft", "bending sideways", "torsion", "axial"}[kind]
	ordinals := [...]string{"", "", "second ", "third ", "fourth ", "fifth ", "sixth "}
	if order < len(ordinals) {
		return ordinals[order] + noun
	}
	return fmt.Sprintf("%dth %s", order, noun)
}
