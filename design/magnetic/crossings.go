package magnetic

import (
	"fmt"
	"math"
)

// CrossingOptions set how finely Crossings looks.
type CrossingOptions struct {
	Samples   int     // even intervals scanned, up to 10000; 0 means 64
	Tolerance float64 // on a crossing's place, in the unit of x; 0 means 10⁻⁶ of the range
}

// Crossing is a place where a function passes a level.
type Crossing struct {
	At      float64 // on the side where the function is at or below the level
	Falling bool    // the function comes down to the level as x grows
}

// Crossed is what Crossings found: every crossing in order, and whether the
// function is at or below the level at either end of the range. No crossings
// and Within means the level holds everywhere looked at; no crossings and not
// Within, nowhere.
type Crossed struct {
	Crossings   []Crossing
	Within      bool    // at the range's start
	WithinEnd   bool    // at its end
	Least       float64 // smallest value seen,
	LeastAt     float64 // and where
	Evaluations int
}

// Crossings finds where f, over x from one value up to another, crosses a
// level, monotone or not. It scans even intervals, follows every turning point
// of the samples that bends towards the level by golden sections, and closes in
// on each change of side by the ITP method, which never takes more than a few
// steps beyond bisection and copes with a jump. A pair of crossings closer than
// one interval is found where the samples around it show the bend; a thinner
// spike between two samples is not.
//
// An error of f, or a value that is not a number, ends the search and is
// returned with its place.
//
// Source of the method: Oliveira and Takahashi, An enhancement of the bisection
// method average performance preserving minmax optimality, ACM Transactions on
// Mathematical Software 47 (2020), from memory.
func Crossings(f func(x float64) (float64, error), from, to, level float64, o CrossingOptions) (Crossed, error) {
	if o.Samples == 0 {
		o.Samples = 64
	}
	if !finite(from, to, level) || from >= to {
		return Crossed{}, fmt.Errorf("search from %.6g to %.6g for %.6g; give finite values and a start below the end", from, to, level)
	}
	if o.Samples < 2 || o.Samples > 10000 {
		return Crossed{}, fmt.Errorf("search in %d intervals; use 2 to 10000", o.Samples)
	}
	if o.Tolerance == 0 {
		o.Tolerance = 1e-6 * (to - from)
	}
	if !(o.Tolerance > 0 && o.Tolerance < to-from) {
		return Crossed{}, fmt.Errorf("search tolerance %.6g; use more than 0 and less than the range", o.Tolerance)
	}
	h := hunt{f: f, level: level, tolerance: o.Tolerance}
	if err := h.scan(from, to, o.Samples); err != nil {
		return Crossed{}, err
	}
	h.found.Least, h.found.LeastAt = math.Inf(1), from
	for _, s := range h.samples {
		if v := s.y + level; v < h.found.Least {
			h.found.Least, h.found.LeastAt = v, s.x
		}
	}
	h.found.Within = h.samples[0].y <= 0
	h.found.WithinEnd = h.samples[len(h.samples)-1].y <= 0
	for i := 1; i < len(h.samples); i++ {
		a, b := h.samples[i-1], h.samples[i]
		if (a.y <= 0) == (b.y <= 0) {
			continue
		}
		at, err := h.between(a, b)
		if err != nil {
			return Crossed{}, err
		}
		h.found.Crossings = append(h.found.Crossings, Crossing{At: at, Falling: a.y > 0})
	}
	return h.found, nil
}

// sample is a value of x and of f less the level.
type sample struct{ x, y float64 }

type hunt struct {
	f         func(float64) (float64, error)
	level     float64
	tolerance float64
	samples   []sample
	found     Crossed
}

func (h *hunt) try(x float64) (sample, error) {
	h.found.Evaluations++
	y, err := h.f(x)
	if err != nil {
		return sample{}, fmt.Errorf("at %.6g: %w", x, err)
	}
	if !finite(y) {
		return sample{}, fmt.Errorf("at %.6g: the figure is not a number; narrow the range", x)
	}
	return sample{x, y - h.level}, nil
}

// scan samples the range, and between samples the turning points that may
// reach the level.
func (h *hunt) scan(from, to float64, intervals int) error {
	even := make([]sample, intervals+1)
	for i := range even {
		part := float64(i) / float64(intervals)
		s, err := h.try(from*(1-part) + to*part)
		if err != nil {
			return err
		}
		even[i] = s
	}
	for i, s := range even {
		h.samples = append(h.samples, s)
		if i == 0 || i == intervals {
			continue
		}
		a, b, c := even[i-1], s, even[i+1]
		side := 1.0
		if b.y <= 0 {
			side = -1
		}
		one := (a.y <= 0) == (b.y <= 0) && (b.y <= 0) == (c.y <= 0)
		if !one || side*b.y > side*a.y || side*b.y > side*c.y || a.y == b.y && b.y == c.y {
			continue
		}
		turn, err := h.turn(a, c, side)
		if err != nil {
			return err
		}
		if (turn.y <= 0) == (b.y <= 0) {
			continue
		}
		last := len(h.samples) - 1
		switch {
		case turn.x > b.x:
			h.samples = append(h.samples, turn)
		case turn.x > h.samples[last-1].x: // not the bend already found from a
			h.samples = append(h.samples[:last], turn, b)
		}
	}
	return nil
}

// turn closes in by golden sections on the least of side·f between a and c, and
// stops as soon as it has crossed the level.
func (h *hunt) turn(a, c sample, side float64) (sample, error) {
	const golden = 0.6180339887498949
	lo, hi := a.x, c.x
	left, err := h.try(hi - golden*(hi-lo))
	if err != nil {
		return left, err
	}
	right, err := h.try(lo + golden*(hi-lo))
	for err == nil {
		best := left
		if side*right.y < side*left.y {
			best = right
		}
		if (best.y <= 0) != (side < 0) || hi-lo <= h.tolerance {
			return best, nil
		}
		if best == left {
			hi, right = right.x, left
			left, err = h.try(hi - golden*(hi-lo))
		} else {
			lo, left = left.x, right
			right, err = h.try(lo + golden*(hi-lo))
		}
	}
	return sample{}, err
}

// between closes in on the one change of side it is given and returns a place
// at or below the level.
func (h *hunt) between(a, b sample) (float64, error) {
	within, outside := a, b
	if b.y <= 0 {
		within, outside = b, a
	}
	width := math.Abs(outside.x - within.x)
	truncation := 0.2 / width
	budget := max(0, math.Ceil(math.Log2(width/h.tolerance))) + 1
	for step := 0.0; ; step++ {
		gap := outside.x - within.x
		if math.Abs(gap) <= h.tolerance {
			return within.x, nil
		}
		middle := within.x + gap/2
		if middle == within.x || middle == outside.x {
			return within.x, nil
		}
		// Interpolate, truncate towards the middle, project into what is left of
		// the budget.
		guess := within.x + gap*within.y/(within.y-outside.y)
		pull := math.Min(truncation*gap*gap, math.Abs(middle-guess))
		guess += math.Copysign(pull, middle-guess)
		reach := max(0, h.tolerance/2*math.Exp2(budget-step)-math.Abs(gap)/2)
		if math.Abs(guess-middle) > reach {
			guess = middle + math.Copysign(reach, guess-middle)
		}
		if guess == within.x || guess == outside.x {
			guess = middle
		}
		s, err := h.try(guess)
		if err != nil {
			return 0, err
		}
		if s.y <= 0 {
			within = s
		} else {
			outside = s
		}
	}
}
