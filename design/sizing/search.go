package sizing

import (
	"cmp"
	"math"
	"slices"
)

// score is how good a point of the lattice is. Points are compared by excess, then count, then cost.
type score struct {
	excess float64 // over the limits, 0 where all are kept, infinite where the point is none
	count  int     // of what is to be few
	cost   float64
}

// better reports whether a score goes before another one.
func (s score) better(other score) bool {
	return cmp.Or(cmp.Compare(s.excess, other.excess), cmp.Compare(s.count, other.count), cmp.Compare(s.cost, other.cost)) < 0
}

// objective scores a point: for each axis the number of its value, from 0. Where the point is no better than the best so far the score
// need not be its own, only no better either and of the same cost.
type objective func(point []int, best score) (score, error)

// pattern is how a lattice is searched.
type pattern struct {
	axes     []axis
	halvings int     // of the first steps, down to one value at the least
	pairs    bool    // move pairs of axes against each other too
	gain     float64 // share of the cost that an exchange must save to be worth it

	effect func(point []int) (effect, error) // for estimating which exchanges are worth trying; nil: they are tried one after the other
}

// axis is one dimension of a lattice.
type axis struct {
	size    int  // values
	first   int  // step to begin with, in values
	choices bool // the values have no order: each is tried
}

// search walks from a point to one that no step of one axis, and with pairs no exchange between two, makes better.
func (p pattern) search(start []int, f objective) ([]int, score, error) {
	w := walk{pattern: p, objective: f, at: slices.Clone(start), strides: make([]int, len(start))}
	var err error
	if w.best, err = f(w.at, score{excess: math.Inf(1)}); err != nil {
		return nil, score{}, err
	}
	fresh := true // choices are looked at when the search begins and when it ends
	for halved := 0; halved <= p.halvings; {
		finest := true
		for i, a := range p.axes {
			w.strides[i] = max(1, a.first>>halved)
			finest = finest && w.strides[i] == 1
		}
		moved, err := w.singles(fresh || finest || halved == p.halvings)
		fresh = false
		switch {
		case err != nil || moved || !p.pairs || w.best.excess > 0 && p.effect != nil:
		case p.effect == nil:
			moved, err = w.exchanges()
		case halved%2 == 1 || finest:
			moved, err = w.estimated()
		}
		switch {
		case err != nil:
			return nil, score{}, err
		case moved:
		case finest:
			return w.at, w.best, nil
		default:
			halved++
		}
	}
	return w.at, w.best, nil
}

// walk is a search under way.
type walk struct {
	pattern
	objective
	at      []int
	best    score
	strides []int
	// of a step of each axis down and up from the present point, where it is possible and no better: what it costs
	costs [][2]float64
	known [][2]bool
}

// singles tries a step down and up of each axis and goes on in a direction, in doubled steps, as long as it is better; and where it may
// choose, every value of the axes without order.
func (w *walk) singles(choosing bool) (moved bool, err error) {
	w.costs, w.known = make([][2]float64, len(w.at)), make([][2]bool, len(w.at))
	for i, a := range w.axes {
		if a.choices && !choosing {
			continue
		}
		if a.choices {
			chosen, err := w.choose(i)
			if err != nil {
				return false, err
			}
			moved = moved || chosen
			continue
		}
		for side, step := range [2]int{-w.strides[i], w.strides[i]} {
			gone := false
			for {
				s, inside, err := w.try([]int{i}, []int{step})
				if err != nil {
					return false, err
				}
				if !inside || !s.better(w.best) {
					w.costs[i][side], w.known[i][side] = s.cost-w.best.cost, inside && !gone && !math.IsInf(s.excess, 1)
					break
				}
				w.at[i] += step
				w.best = s
				gone, moved = true, true
				step *= 2
			}
			if gone {
				break
			}
		}
	}
	return moved, nil
}

// choose tries every value of an axis without order.
func (w *walk) choose(i int) (moved bool, err error) {
	for value := range w.axes[i].size {
		if value == w.at[i] {
			continue
		}
		s, _, err := w.try([]int{i}, []int{value - w.at[i]})
		if err != nil {
			return false, err
		}
		if s.better(w.best) {
			w.at[i], w.best, moved = value, s, true
		}
	}
	return moved, nil
}

// try scores the point some steps away.
func (w *walk) try(axes, steps []int) (score, bool, error) {
	to := slices.Clone(w.at)
	for i, axis := range axes {
		to[axis] += steps[i]
		if to[axis] < 0 || to[axis] >= w.axes[axis].size {
			return score{}, false, nil
		}
	}
	s, err := w.objective(to, w.best)
	return s, true, err
}

// exchanges tries a step of one axis that saves cost together with the smallest step of another that pays for it: from one value up to
// as many as the saving bears. An exchange that is better is repeated while it is. The costs are those of the single steps, all of
// which were found to be no better.
func (w *walk) exchanges() (moved bool, err error) {
	for a := range w.at {
		for side, da := range [2]int{-w.strides[a], w.strides[a]} {
			saved := -w.costs[a][side]
			if !w.known[a][side] || saved <= 0 {
				continue
			}
			for b := range w.at {
				paid, err := w.pay(a, da, b, saved)
				if err != nil {
					return false, err
				}
				moved = moved || paid
			}
		}
	}
	return moved, nil
}

// pay looks for the step of an axis that pays for the saving step of another.
func (w *walk) pay(a, da, b int, saved float64) (moved bool, err error) {
	for side, sign := range [2]int{-1, 1} {
		if a == b || !w.known[b][side] {
			continue
		}
		price := w.costs[b][side] / float64(w.strides[b])
		for n := 1; price*float64(n) < saved-w.gain*w.best.cost; {
			s, inside, err := w.try([]int{a, b}, []int{da, sign * n})
			if err != nil {
				return false, err
			}
			if !inside {
				break
			}
			if !s.better(w.best) {
				n *= 2
				continue
			}
			w.at[a] += da
			w.at[b] += sign * n
			w.best, moved = s, true
		}
	}
	return moved, nil
}
