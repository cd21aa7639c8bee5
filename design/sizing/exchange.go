package sizing

import (
	"cmp"
	"math"
	"slices"
)

// effect is what a point weighs and where each of its checks stands on the verdict scale.
type effect struct {
	cost   float64
	places []float64 // nil where it cannot be built
}

// attempts are how many exchanges in a row may turn out worse than estimated before the estimate is given up.
const attempts = 6

// exchange is a step of one axis that saves with the smallest step of another that pays for it, as far as one step of each tells.
type exchange struct {
	saving, paying int // axes
	step, count    int // of the first, of the second, in values
	saved          float64
}

// estimated tries the exchanges that promise most by what one step of each axis does to every check: the promise is linear, the trial
// is not. It goes on from each that holds.
func (w *walk) estimated() (moved bool, err error) {
	here, err := w.effect(w.at)
	if err != nil {
		return false, err
	}
	type step struct {
		axis, by int
		cost     float64
		places   []float64
	}
	var steps []step
	for i, a := range w.axes {
		for _, by := range [2]int{-w.strides[i], w.strides[i]} {
			to := slices.Clone(w.at)
			if to[i] += by; a.choices || to[i] < 0 || to[i] >= a.size {
				continue
			}
			e, err := w.effect(to)
			if err != nil {
				return false, err
			}
			if e.places == nil {
				continue
			}
			for k := range e.places {
				e.places[k] -= here.places[k]
			}
			steps = append(steps, step{i, by, e.cost - here.cost, e.places})
		}
	}
	for failed := 0; failed < attempts; {
		var list []exchange
		for _, a := range steps {
			if a.cost >= 0 {
				continue
			}
			for _, b := range steps {
				if a.axis == b.axis {
					continue
				}
				each := 1 / math.Abs(float64(b.by))
				least, most := 1.0, math.Inf(1)
				for k, place := range here.places {
					room, one := math.Floor(place)+1-place-a.places[k], b.places[k]*each
					switch {
					case one < 0:
						least = max(least, math.Ceil(room/one))
					case one > 0:
						most = min(most, room/one)
					case room < 0:
						most = 0
					}
				}
				x := exchange{a.axis, b.axis, a.by, int(min(least, 1e6)), -a.cost - least*b.cost*each}
				if b.by < 0 {
					x.count = -x.count
				}
				if least <= most && x.saved > w.gain*w.best.cost {
					list = append(list, x)
				}
			}
		}
		slices.SortStableFunc(list, func(a, b exchange) int { return -cmp.Compare(a.saved, b.saved) })
		gone := false
		for _, x := range list[:min(len(list), attempts-failed)] {
			s, inside, err := w.try([]int{x.saving, x.paying}, []int{x.step, x.count})
			if err != nil {
				return false, err
			}
			if !inside || !s.better(w.best) {
				failed++
				continue
			}
			w.at[x.saving] += x.step
			w.at[x.paying] += x.count
			w.best, moved, gone = s, true, true
			break
		}
		if !gone {
			return moved, nil
		}
		if here, err = w.effect(w.at); err != nil {
			return false, err
		}
	}
	return moved, nil
}
