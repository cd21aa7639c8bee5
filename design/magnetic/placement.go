package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// search holds every lead in every placement and counts what it evaluates.
type search struct {
	leads       []Lead
	sources     [][]source // per lead; the first is the drawing
	placements  int
	evaluations int
}

func newSearch(leads []Lead, o HeadingOptions) (*search, error) {
	s := &search{leads: leads}
	var problems []error
	for _, l := range leads {
		sources, err := l.placements(o)
		if err != nil {
			problems = append(problems, fmt.Errorf("lead %q: %w", l.Name, err))
		}
		s.sources = append(s.sources, sources)
	}
	return s, errors.Join(problems...)
}

// placements lays the lead as drawn and then at every roll and gap.
func (l Lead) placements(o HeadingOptions) ([]source, error) {
	drawn, err := l.laid(0, 1)
	if err != nil {
		return nil, err
	}
	out := []source{drawn}
	if len(l.Pair.Centre) == 0 {
		return out, nil
	}
	for _, roll := range spread(o.Roll, o.Levels) {
		for _, gap := range spread(o.Gap, o.Levels) {
			if roll == 0 && gap == 0 {
				continue
			}
			s, err := l.laid(roll, 1+gap)
			if err != nil {
				return nil, err
			}
			out = append(out, s)
		}
	}
	return out, nil
}

// spread returns even levels from -reach to reach with 0 among them, and 0
// alone for no reach.
func spread(reach float64, levels int) []float64 {
	if reach == 0 {
		return []float64{0}
	}
	out := make([]float64, 0, 2*levels+1)
	for i := -levels; i <= levels; i++ {
		out = append(out, reach*float64(i)/float64(levels))
	}
	return out
}

// fields are the changes of field at one point: per lead, per placement.
type fields [][]r3.Vec

func (s *search) at(p r3.Vec) (fields, error) {
	out := make(fields, len(s.sources))
	for i, sources := range s.sources {
		for _, src := range sources {
			b, err := src.perAmpere(p)
			if err != nil {
				return nil, fmt.Errorf("lead %q: %w", s.leads[i].Name, err)
			}
			out[i] = append(out[i], r3.Scale(s.leads[i].Change(), b))
			s.evaluations += src.segments()
		}
		s.placements += len(sources)
	}
	return out, nil
}

// combination is one placement of every lead and the field of them all.
type combination struct {
	chosen []int
	parts  []r3.Vec
	sum    r3.Vec
	along  r3.Vec  // unit vector near the level along which size is measured
	size   float64 // largest horizontal part
}

func (f fields) drawing() combination {
	c := combination{chosen: make([]int, len(f)), parts: make([]r3.Vec, len(f))}
	c.take(f)
	return c
}

// take sums the chosen placements.
func (c *combination) take(f fields) {
	c.sum = r3.Vec{}
	for i, k := range c.chosen {
		c.parts[i] = f[i][k]
		c.sum = r3.Add(c.sum, f[i][k])
	}
}

// directions is how many azimuths the search for the worst direction starts
// from, 10° apart; with a lean, elevations are no further apart than that.
const directions = 36

// worst returns the combination with the largest horizontal part within the
// lean. The combination that is worst of all reaches, along the nearest start,
// its size times the cosine of the angle between, so what is returned is at
// least cos 5° = .996 of the largest, and with a lean .992.
func (f fields) worst(lean float64) combination {
	best := f.drawing()
	best.measure(lean)
	steps := int(math.Ceil(lean / (2 * math.Pi / directions)))
	for _, elevation := range spread(lean, steps) {
		for i := range directions {
			c := f.climb(towards(2*math.Pi*float64(i)/directions, elevation), lean)
			if c.size > best.size {
				best = c
			}
		}
	}
	return best
}

// climb picks for every lead the placement that reaches furthest along e, turns
// e towards their sum, and repeats until the choice stands. The size grows at
// every turn, so it ends.
func (f fields) climb(e r3.Vec, lean float64) combination {
	c := f.drawing()
	for {
		changed := false
		for i, placements := range f {
			for k, b := range placements {
				if r3.Dot(b, e) > r3.Dot(placements[c.chosen[i]], e) {
					c.chosen[i], changed = k, true
				}
			}
		}
		size := c.size
		c.take(f)
		c.measure(lean)
		if !changed || c.size <= size {
			return c
		}
		e = c.along
	}
}

func (c *combination) measure(lean float64) {
	c.along = levelled(c.sum, lean)
	c.size = r3.Dot(c.sum, c.along)
}
