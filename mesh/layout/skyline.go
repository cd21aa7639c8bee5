package layout

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// skyline is the upper edge of what lies on a bed: level steps from left to
// right.
type skyline struct {
	size  r2.Vec
	steps []step
}

type step struct{ x, y float64 } // from x on, up to the next

func newSkyline(size r2.Vec) *skyline { return &skyline{size, []step{{}}} }

// put lays a rectangle, with a gap on its far sides, where its far side is
// nearest; false where it does not fit.
func (s *skyline) put(f Footprint, o Options) (Place, bool) {
	best, at, turned := math.Inf(1), r2.Vec{}, false
	try := func(x, y float64, turn bool) {
		for i, from := range s.steps {
			if from.x+x > s.size.X+slack {
				break
			}
			level := s.level(i, from.x+x)
			if far := level + y; far <= s.size.Y+slack && far < best-slack {
				best, at, turned = far, r2.Vec{X: from.x, Y: level}, turn
			}
		}
	}
	x, y := f.X+o.Gap, f.Y+o.Gap
	try(x, y, false)
	if !o.Fixed {
		try(y, x, true)
	}
	if math.IsInf(best, 1) {
		return Place{}, false
	}
	if turned {
		x, y = y, x
	}
	s.raise(at.X, at.X+x, at.Y+y)
	return Place{At: at, Turned: turned}, true
}

// level is the highest step from one on to the left of x.
func (s *skyline) level(from int, x float64) float64 {
	high := s.steps[from].y
	for _, next := range s.steps[from+1:] {
		if next.x >= x-slack {
			break
		}
		high = max(high, next.y)
	}
	return high
}

// raise sets the level between two places, the left of which begins a step.
func (s *skyline) raise(left, right, y float64) {
	first := slices.IndexFunc(s.steps, func(t step) bool { return t.x == left })
	last := first
	for last+1 < len(s.steps) && s.steps[last+1].x < right-slack {
		last++
	}
	end := s.size.X
	if last+1 < len(s.steps) {
		end = s.steps[last+1].x
	}
	put := []step{{left, y}}
	if right < end-slack {
		put = append(put, step{right, s.steps[last].y})
	}
	s.steps = slices.Replace(s.steps, first, last+1, put...)
}
