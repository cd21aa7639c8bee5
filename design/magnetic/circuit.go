package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// closure is how far apart, in metres, the ends of a closed polyline may lie.
const closure = 1e-6

// defaultRadius is that of a conductor of about 3 mm² (12 gauge), in metres;
// common practice, no source.
const defaultRadius = 0.001

// maximumCurrent bounds a lead's current in amperes; no lead of a small
// aircraft carries it (own choice).
const maximumCurrent = 2000

// Circuit is a closed circuit of one or more loops of straight conductors.
// Build it with Loop, Pair.Circuit or Join; the zero value carries nothing.
type Circuit struct {
	loops [][]r3.Vec // each ends where it starts
	wires []Segment
}

// Loop returns the circuit along a closed polyline, whose last point repeats
// the first; positive current runs in the order given. A radius of 0 means
// 1 mm. An open polyline is refused: current needs a way back.
func Loop(points []r3.Vec, radius float64) (Circuit, error) {
	if radius == 0 {
		radius = defaultRadius
	}
	if err := errors.Join(checkRadius(radius), checkPoints(points)); err != nil {
		return Circuit{}, err
	}
	if len(points) < 2 {
		return Circuit{}, fmt.Errorf("loop of %d points; a closed loop needs at least three, and the first repeated at the end", len(points))
	}
	first, last := points[0], points[len(points)-1]
	if gap := r3.Norm(r3.Sub(last, first)); gap > closure {
		return Circuit{}, fmt.Errorf("loop ends at %s, %.4g mm from its start at %s: where does the current return? repeat the first point at the end, or give the route as a go and return pair",
			place(last), 1000*gap, place(first))
	}
	if len(points) < 4 {
		return Circuit{}, fmt.Errorf("loop of %d points encloses nothing; a closed loop needs at least three, and the first repeated at the end", len(points))
	}
	closed := append([]r3.Vec(nil), points...)
	closed[len(closed)-1] = first
	c := Circuit{loops: [][]r3.Vec{closed}}
	for i, p := range closed[1:] {
		c.wires = append(c.wires, Segment{A: closed[i], B: p, Radius: radius})
	}
	return c, nil
}

// Join returns one circuit of all loops of the circuits given, which then carry
// the same current.
func Join(circuits ...Circuit) Circuit {
	var all Circuit
	for _, c := range circuits {
		all.loops = append(all.loops, c.loops...)
		all.wires = append(all.wires, c.wires...)
	}
	return all
}

// Field returns the field in tesla at a point for a current in amperes. A point
// inside a conductor is refused with ErrInside.
func (c Circuit) Field(at r3.Vec, current float64) (r3.Vec, error) {
	if !finite(at.X, at.Y, at.Z) {
		return r3.Vec{}, fmt.Errorf("sensor at %s is not a place; give finite coordinates", place(at))
	}
	if !(math.Abs(current) <= maximumCurrent) {
		return r3.Vec{}, fmt.Errorf("current of %.6g A; use at most %d A either way", current, maximumCurrent)
	}
	var sum r3.Vec
	for _, w := range c.wires {
		b, distance := w.perAmpere(at)
		if distance <= w.Radius {
			return r3.Vec{}, insideError(at, distance, w.Radius)
		}
		sum = r3.Add(sum, b)
	}
	return r3.Scale(current, sum), nil
}

// Loops returns the closed polylines of the circuit, to be drawn.
func (c Circuit) Loops() [][]r3.Vec {
	loops := make([][]r3.Vec, len(c.loops))
	for i, l := range c.loops {
		loops[i] = append([]r3.Vec(nil), l...)
	}
	return loops
}

// Segments returns how many straight conductors the circuit has, which is what
// one evaluation of its field costs.
func (c Circuit) Segments() int { return len(c.wires) }

func checkRadius(radius float64) error {
	if !(radius > 0 && radius <= 0.05) {
		return fmt.Errorf("conductor radius %.4g mm; use more than 0 and at most 50 mm", 1000*radius)
	}
	return nil
}

func checkPoints(points []r3.Vec) error {
	for i, p := range points {
		if !finite(p.X, p.Y, p.Z) || r3.Norm(p) > 100 {
			return fmt.Errorf("point %d at %s is not on the aircraft; give finite coordinates within 100 m", i+1, place(p))
		}
		if i > 0 && r3.Norm(r3.Sub(p, points[i-1])) < closure {
			return fmt.Errorf("points %d and %d are the same, %s; leave one out", i, i+1, place(p))
		}
	}
	return nil
}
