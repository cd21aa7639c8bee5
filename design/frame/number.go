package frame

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// place lays out all places and elements and resolves the links.
func (s *System) place() error {
	m := &s.model
	s.places = make([]r3.Vec, 0, len(m.Nodes)+12*len(m.Members))
	for _, n := range m.Nodes {
		s.places = append(s.places, n.At)
	}
	s.spans = make([][2]int, len(m.Members))
	s.stations = make([][]rootedStation, len(m.Members))
	s.axes = make([][3]r3.Vec, len(m.Members))
	s.lengths = make([]float64, len(m.Members))
	for i := range m.Members {
		b := &m.Members[i]
		axes, length, err := b.axes(m)
		if err != nil {
			return fmt.Errorf("%s: %w", m.memberName(i), err)
		}
		s.axes[i], s.lengths[i] = axes, length
		s.stations[i] = make([]rootedStation, len(b.Stations))
		for k, st := range b.Stations {
			s.stations[i][k] = rooted(st, b.Material.Density)
		}
		n := b.Elements
		if n == 0 {
			n = 8
		}
		from, to := b.ends(m)
		s.spans[i] = [2]int{len(s.elements), len(s.elements) + n}
		a := b.A
		for e := range n {
			next := b.B
			if e < n-1 {
				next = len(s.places)
				f := float64(e+1) / float64(n)
				s.places = append(s.places, r3.Add(r3.Scale(1-f, from), r3.Scale(f, to)))
			}
			s.elements = append(s.elements, element{a: a, b: next})
			a = next
		}
		first, last := &s.elements[s.spans[i][0]], &s.elements[s.spans[i][1]-1]
		first.armA, last.armB = b.OffsetA, b.OffsetB
	}

	s.root = make([]int, len(s.places))
	s.arm = make([]r3.Vec, len(s.places))
	for p := range s.root {
		s.root[p] = p
	}
	for i, l := range m.Links {
		if l.Master == l.Slave {
			return fmt.Errorf("link %d joins %s to itself", i, m.nodeName(l.Slave))
		}
		if s.root[l.Slave] != l.Slave {
			return fmt.Errorf("link %d: %s already follows %s", i, m.nodeName(l.Slave), m.nodeName(s.root[l.Slave]))
		}
		s.root[l.Slave] = l.Master
	}
	direct := append([]int(nil), s.root...)
	for p := range m.Nodes {
		r := p
		for n := 0; direct[r] != r; n++ {
			if n > len(m.Links) {
				return fmt.Errorf("links at %s run in a ring; leave one out", m.nodeName(p))
			}
			r = direct[r]
		}
		s.root[p], s.arm[p] = r, r3.Sub(s.places[p], s.places[r])
	}
	for i := range s.elements {
		e := &s.elements[i]
		e.armA = r3.Add(e.armA, s.arm[e.a])
		e.armB = r3.Add(e.armB, s.arm[e.b])
	}
	return nil
}

// number gives every free freedom an equation, in an order that keeps the matrices narrow
// (reverse Cuthill & McKee), and lays out the envelopes.
func (s *System) number() error {
	m := &s.model
	s.eq = make([][6]int, len(s.places))
	fixed := make([][6]bool, len(m.Nodes))
	for i, sup := range m.Supports {
		if r := s.root[sup.Node]; r != sup.Node {
			return fmt.Errorf("support %d: %s follows %s; support that one", i, m.nodeName(sup.Node), m.nodeName(r))
		}
		for d, f := range sup.Fixed {
			fixed[sup.Node][d] = fixed[sup.Node][d] || f
		}
	}
	joined := make([][]int, len(s.places))
	join := func(a, b int) {
		a, b = s.root[a], s.root[b]
		if a != b {
			joined[a] = append(joined[a], b)
			joined[b] = append(joined[b], a)
		}
	}
	for _, e := range s.elements {
		join(e.a, e.b)
	}
	for _, sp := range m.Springs {
		if sp.B != Ground {
			join(sp.A, sp.B)
		}
	}
	n := 0
	order := cuthillMcKee(joined)
	for _, p := range order {
		for d := range 6 {
			s.eq[p][d] = -1
			if s.root[p] == p && !(p < len(fixed) && fixed[p][d]) {
				s.eq[p][d] = n
				n++
			}
		}
	}
	if n == 0 {
		return fmt.Errorf("every node is held still; there is nothing to compute")
	}
	first := make([]int, n)
	for p, near := range joined {
		least := n
		for _, q := range append(near, p) {
			for _, e := range s.eq[q] {
				if e >= 0 {
					least = min(least, e)
				}
			}
		}
		for _, e := range s.eq[p] {
			if e >= 0 {
				first[e] = min(least, e)
			}
		}
	}
	s.k = newEnvelope(first)
	s.m = s.k.like()
	return nil
}

// cuthillMcKee orders a graph so that neighbours lie close together.
func cuthillMcKee(joined [][]int) []int {
	order := make([]int, 0, len(joined))
	seen := make([]bool, len(joined))
	walk := func(start int, seen []bool, order []int) []int {
		from := len(order)
		seen[start] = true
		order = append(order, start)
		for ; from < len(order); from++ {
			begin := len(order)
			for _, q := range joined[order[from]] {
				if seen[q] {
					continue
				}
				seen[q] = true
				at := len(order)
				order = append(order, q)
				for ; at > begin && len(joined[order[at-1]]) > len(joined[q]); at-- {
					order[at], order[at-1] = order[at-1], order[at]
				}
			}
		}
		return order
	}
	for p := range joined {
		if seen[p] {
			continue
		}
		// The far end of a first walk is a good start.
		trial := append([]bool(nil), seen...)
		reached := walk(p, trial, nil)
		order = walk(reached[len(reached)-1], seen, order)
	}
	for i, j := 0, len(order)-1; i < j; i, j = i+1, j-1 {
		order[i], order[j] = order[j], order[i]
	}
	return order
}
