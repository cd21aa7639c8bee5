package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Lead is one current on the aircraft, described in one of two ways: as
// conductors (a pair, loops of its own, or both in series), or as a field
// measured beside it. Idle and Load are its currents in amperes, armed idle and
// under the load judged; only their difference turns the compass, since what is
// there at idle is calibrated out.
type Lead struct {
	Name string

	Pair     Pair        // no centre line: no pair
	Loops    [][]r3.Vec  // explicit closed loops, such as pack and distribution board, m
	Radius   float64     // of the loops' conductors, m; 0 means 1 mm
	Measured Measurement // zero: not measured

	// LoopFactor multiplies the pair's field for the small loops at its ends
	// that nobody draws, 1 to 3 (own computation: close to pack and board the
	// simple pair reads two to three times low). 0 means 1.5, or 1 where Loops
	// draws them. Loops and Measured are taken as they are.
	LoopFactor float64

	// Correction is a measured field of these conductors over the computed one,
	// the loop factor included; 0 means that nothing was measured. Leads that
	// were measured where they lie are not rolled or spread any more.
	Correction float64

	Idle, Load float64
}

// Measurement is a field measured on the aircraft, as the slope of a throttle
// log: a vector in body axes, in tesla per ampere, at a height above the leads.
// Where only a size is known, put it in X: that is the worst case for a level
// receiver.
type Measurement struct {
	PerAmpere r3.Vec
	Source    float64 // z of the leads, m
	Height    float64 // of the sensor above Source when measured, m

	// Exponent is the stated decay: the field goes with (Height/h)^Exponent at
	// another height h above Source. 2 is a long pair, 3 a small loop seen from
	// afar. 0 means 2 above the measured height and 3 below it, which errs
	// towards the larger field both ways.
	Exponent float64
}

// Change returns the current under load less that at idle, in amperes.
func (l Lead) Change() float64 { return l.Load - l.Idle }

// Circuit returns the conductors of the lead as they lie, to be drawn; a
// measured lead has none.
func (l Lead) Circuit() (Circuit, error) {
	pair, loops, err := l.conductors(0, 1)
	if err != nil {
		return Circuit{}, fmt.Errorf("lead %q: %w", l.Name, err)
	}
	return Join(pair, loops), nil
}

// PerAmpere returns the lead's field in tesla per ampere at a point, loop
// factor included.
func (l Lead) PerAmpere(at r3.Vec) (r3.Vec, error) {
	s, err := l.laid(0, 1)
	if err != nil {
		return r3.Vec{}, fmt.Errorf("lead %q: %w", l.Name, err)
	}
	b, err := s.perAmpere(at)
	if err != nil {
		return r3.Vec{}, fmt.Errorf("lead %q: %w", l.Name, err)
	}
	return b, nil
}

// check returns every fault of a lead that does not depend on its geometry.
func (l Lead) check() error {
	var problems []error
	add := func(format string, args ...any) { problems = append(problems, fmt.Errorf(format, args...)) }
	for _, c := range []struct {
		name   string
		ampere float64
	}{{"idle", l.Idle}, {"load", l.Load}} {
		switch {
		case c.ampere < 0:
			add("%s current of %.6g A has the wrong sign; give the size, the route gives the direction", c.name, c.ampere)
		case !(c.ampere <= maximumCurrent):
			add("%s current of %.6g A is not one a small aircraft carries; use 0 to %d A", c.name, c.ampere, maximumCurrent)
		}
	}
	if l.LoopFactor != 0 && !(l.LoopFactor >= 1 && l.LoopFactor <= 3) {
		add("loop factor %.4g; use 1 to 3", l.LoopFactor)
	}
	if l.Correction != 0 && !(l.Correction >= 0.01 && l.Correction <= 100) {
		add("correction %.4g; use .01 to 100", l.Correction)
	}
	drawn := len(l.Pair.Centre) > 0 || len(l.Loops) > 0
	measured := l.Measured != (Measurement{})
	switch {
	case !drawn && !measured:
		add("no route, no loops and no measured field; give one of them")
	case drawn && measured:
		add("both a route and a measured field; give one of them, or the field counts twice")
	case measured:
		if err := l.Measured.check(); err != nil {
			problems = append(problems, err)
		}
	}
	return errors.Join(problems...)
}

func (m Measurement) check() error {
	var problems []error
	add := func(format string, args ...any) { problems = append(problems, fmt.Errorf(format, args...)) }
	if !(r3.Norm(m.PerAmpere) <= 1e-3) {
		add("measured field of %.4g uT/A; use at most 1000", 1e6*r3.Norm(m.PerAmpere))
	}
	if !(m.Height > 0 && m.Height <= 10) {
		add("measured %.4g mm above the leads; use a height above 0 and at most 10000 mm", 1000*m.Height)
	}
	if !finite(m.Source) {
		add("the height of the leads is not a number; give it")
	}
	if m.Exponent != 0 && !(m.Exponent >= 1 && m.Exponent <= 4) {
		add("decay exponent %.4g; use 1 (one wire) to 4, common are 2 to 3", m.Exponent)
	}
	return errors.Join(problems...)
}

// at returns the measured field in tesla per ampere scaled to a point.
func (m Measurement) at(p r3.Vec) (r3.Vec, error) {
	height := p.Z - m.Source
	if !(height > 0) {
		return r3.Vec{}, fmt.Errorf("sensor at %s is not above the leads at %.4g mm, so the measured field cannot be scaled to it; raise the sensor", place(p), 1000*m.Source)
	}
	exponent := m.Exponent
	if exponent == 0 {
		exponent = 2
		if height < m.Height {
			exponent = 3
		}
	}
	return r3.Scale(math.Pow(m.Height/height, exponent), m.PerAmpere), nil
}

// conductors builds the pair, rolled and widened further than it is, and the
// explicit loops.
func (l Lead) conductors(roll, gap float64) (pair, loops Circuit, err error) {
	if len(l.Pair.Centre) > 0 {
		p := l.Pair
		p.Roll += roll
		if p.Gap == 0 {
			p.Gap = 1
		}
		p.Gap *= gap
		if pair, err = p.Circuit(); err != nil {
			return Circuit{}, Circuit{}, err
		}
	}
	for i, points := range l.Loops {
		c, err := Loop(points, l.Radius)
		if err != nil {
			return Circuit{}, Circuit{}, fmt.Errorf("loop %d: %w", i+1, err)
		}
		loops = Join(loops, c)
	}
	return pair, loops, nil
}

// source is a lead in one placement, ready to be evaluated at any point.
type source struct {
	pair, loops Circuit
	factor      float64 // on the pair
	correction  float64 // on all of it
	measured    Measurement
	roll, gap   float64
}

// laid checks the lead and returns it in the placement given.
func (l Lead) laid(roll, gap float64) (source, error) {
	if err := l.check(); err != nil {
		return source{}, err
	}
	s := source{factor: l.LoopFactor, correction: 1, measured: l.Measured, roll: roll, gap: gap}
	if l.Correction != 0 {
		s.correction, s.roll, s.gap = l.Correction, 0, 1
	}
	if s.factor == 0 {
		s.factor = 1.5
		if len(l.Loops) > 0 {
			s.factor = 1
		}
	}
	var err error
	s.pair, s.loops, err = l.conductors(s.roll, s.gap)
	return s, err
}

func (s source) perAmpere(at r3.Vec) (r3.Vec, error) {
	if s.measured != (Measurement{}) {
		return s.measured.at(at)
	}
	pair, err := s.pair.Field(at, s.factor)
	if err != nil {
		return r3.Vec{}, err
	}
	loops, err := s.loops.Field(at, 1)
	if err != nil {
		return r3.Vec{}, err
	}
	return r3.Scale(s.correction, r3.Add(pair, loops)), nil
}

// segments returns the cost of one evaluation; a measurement counts as one.
func (s source) segments() int {
	return max(1, s.pair.Segments()+s.loops.Segments())
}
