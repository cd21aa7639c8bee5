package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Lay says how the go and the return conductor of a pair lie to each other.
type Lay int

// Side by side lies flat: on a level run the conductors are level with each
// other. Stacked puts the go conductor above the return. Twisted turns the pair
// about its centre line between two flat ends.
const (
	SideBySide Lay = iota
	Stacked
	Twisted
)

// String names the lay in plain words.
func (l Lay) String() string {
	if l < SideBySide || l > Twisted {
		return fmt.Sprintf("lay %d", int(l))
	}
	return [...]string{"side by side", "stacked", "twisted"}[l]
}

const (
	defaultUntwisted = 0.020 // m, common practice
	stepsPerTurn     = 16
	sharpestTurn     = 2 * math.Pi / 3
	maximumTurns     = 500
)

// Pair is a go and a return conductor at a spacing along a centre line, closed
// by a straight piece at each end. Positive current runs out on the go
// conductor from the first point to the last and back on the return. On a level
// run side by side, the go conductor lies to the left of the direction of
// travel; at a bend the pair is carried round without turning about its line.
type Pair struct {
	Centre  []r3.Vec // centre line, m; at least two points
	Spacing float64  // between the conductors' axes, m
	Lay     Lay

	Pitch     float64 // Twisted: length of one full turn, m
	Untwisted float64 // Twisted: flat at each end, m; 0 means 20 mm

	Radius float64 // of each conductor, m; 0 means 1 mm
	Roll   float64 // of the whole pair about its centre line, rad

	// Gap multiplies Spacing, to be varied as a placement tolerance; 0 means 1.
	// It narrows the pair no further than until the conductors touch.
	Gap float64
}

// Circuit returns the closed circuit of the pair, or every reason why there is
// none.
func (p Pair) Circuit() (Circuit, error) {
	if p.Radius == 0 {
		p.Radius = defaultRadius
	}
	if p.Gap == 0 {
		p.Gap = 1
	}
	if p.Lay == Twisted && p.Untwisted == 0 {
		p.Untwisted = defaultUntwisted
	}
	if err := p.check(); err != nil {
		return Circuit{}, err
	}
	half := max(p.Spacing*p.Gap/2, p.Radius)
	stations := p.stations()
	points := make([]r3.Vec, 0, 2*len(stations)+1)
	for _, s := range stations {
		points = append(points, s.offset(half))
	}
	for i := len(stations) - 1; i >= 0; i-- {
		points = append(points, stations[i].offset(-half))
	}
	return Loop(append(points, points[0]), p.Radius)
}

// Length returns the length of the centre line in metres.
func (p Pair) Length() float64 {
	var sum float64
	for i := 1; i < len(p.Centre); i++ {
		sum += r3.Norm(r3.Sub(p.Centre[i], p.Centre[i-1]))
	}
	return sum
}

func (p Pair) check() error {
	var problems []error
	add := func(format string, args ...any) { problems = append(problems, fmt.Errorf(format, args...)) }
	if err := checkRadius(p.Radius); err != nil {
		return err
	}
	if !(p.Spacing >= 2*p.Radius && p.Spacing <= 1) {
		add("spacing %.4g mm between go and return; use at least the conductors' own %.4g mm and at most 1000 mm",
			1000*p.Spacing, 2000*p.Radius)
	}
	if !(p.Gap > 0 && p.Gap <= 10) {
		add("gap factor %.4g; use more than 0 and at most 10", p.Gap)
	}
	if !finite(p.Roll) {
		add("roll of the pair is not a number; give an angle")
	}
	if p.Lay < SideBySide || p.Lay > Twisted {
		add("%v is not known; use side by side, stacked or twisted", p.Lay)
	}
	if err := p.checkCentre(); err != nil {
		return errors.Join(append(problems, err)...)
	}
	if p.Lay == Twisted {
		length := p.Length()
		switch {
		case !(p.Untwisted > 0):
			add("untwisted ends of %.4g mm; use more than 0", 1000*p.Untwisted)
		case length <= 2*p.Untwisted:
			add("route of %.4g mm leaves nothing to twist between untwisted ends of %.4g mm; shorten the ends or lay the pair side by side", 1000*length, 1000*p.Untwisted)
		case !(p.Pitch > 0):
			add("twist pitch %.4g mm; use the length of one full turn, common are 15 to 50 mm", 1000*p.Pitch)
		case length/p.Pitch > maximumTurns:
			add("twist pitch %.4g mm makes %.0f turns on a route of %.4g mm; use a pitch of at least %.4g mm", 1000*p.Pitch, length/p.Pitch, 1000*length, 1000*length/maximumTurns)
		}
	}
	return errors.Join(problems...)
}

func (p Pair) checkCentre() error {
	if len(p.Centre) < 2 {
		return fmt.Errorf("route of %d points; give the lead's centre line at least a start and an end", len(p.Centre))
	}
	if err := checkPoints(p.Centre); err != nil {
		return err
	}
	for i := 1; i < len(p.Centre)-1; i++ {
		before, after := direction(p.Centre, i-1), direction(p.Centre, i)
		if turn := math.Acos(max(-1, min(1, r3.Dot(before, after)))); turn > sharpestTurn {
			return fmt.Errorf("route turns back on itself by %.0f degrees at point %d, %s; put a point between so that no bend exceeds %.0f degrees",
				degrees(turn), i+1, place(p.Centre[i]), degrees(sharpestTurn))
		}
	}
	return nil
}

// station is a place on the centre line with the unit vector across it towards
// the go conductor, before a bend, and the directions before and after.
type station struct{ at, across, before, after r3.Vec }

// offset returns the point at a distance from the centre line. At a bend it
// lies in the bend's bisecting plane, where the two offset lines meet.
func (s station) offset(distance float64) r3.Vec {
	along := -distance * r3.Dot(s.across, s.after) / (1 + r3.Dot(s.before, s.after))
	return r3.Add(s.at, r3.Add(r3.Scale(distance, s.across), r3.Scale(along, s.before)))
}

// stations walks the centre line: its own points, and for a twisted pair the
// points between that follow the turn.
func (p Pair) stations() []station {
	var out []station
	length, walked := p.Length(), 0.0
	left := leftOf(p.Centre)
	for i := 1; i < len(p.Centre); i++ {
		u := direction(p.Centre, i-1)
		if i > 1 {
			left = carry(left, direction(p.Centre, i-2), u)
		}
		up := r3.Cross(u, left)
		run := r3.Norm(r3.Sub(p.Centre[i], p.Centre[i-1]))
		across := func(s float64) r3.Vec {
			sin, cos := math.Sincos(p.turn(walked+s, length))
			return r3.Add(r3.Scale(cos, left), r3.Scale(sin, up))
		}
		if i == 1 {
			out = append(out, station{p.Centre[0], across(0), u, u})
		}
		for _, s := range p.steps(walked, run, length) {
			out = append(out, station{r3.Add(p.Centre[i-1], r3.Scale(s, u)), across(s), u, u})
		}
		next := u
		if i < len(p.Centre)-1 {
			next = direction(p.Centre, i)
		}
		out = append(out, station{p.Centre[i], across(run), u, next})
		walked += run
	}
	return out
}

// turn returns the angle of the go conductor about the centre line, from left
// towards up, after a distance along it.
func (p Pair) turn(along, length float64) float64 {
	switch p.Lay {
	case Stacked:
		return p.Roll + math.Pi/2
	case Twisted:
		twisted := max(0, min(along, length-p.Untwisted)-p.Untwisted)
		return p.Roll + 2*math.Pi*twisted/p.Pitch
	}
	return p.Roll
}

// steps returns the distances along one straight run, ends left out, at which a
// twisted pair needs a point: both ends of the twist and sixteen a turn.
func (p Pair) steps(walked, run, length float64) []float64 {
	if p.Lay != Twisted {
		return nil
	}
	var out []float64
	count := int(math.Ceil((length - 2*p.Untwisted) / p.Pitch * stepsPerTurn))
	step := (length - 2*p.Untwisted) / float64(count)
	for k := 0; k <= count; k++ {
		if s := p.Untwisted + float64(k)*step - walked; s > closure && s < run-closure {
			out = append(out, s)
		}
	}
	return out
}

// direction returns the unit vector from point i to the next.
func direction(points []r3.Vec, i int) r3.Vec {
	return r3.Unit(r3.Sub(points[i+1], points[i]))
}

// leftOf returns the level unit vector to the left of the first run that is not
// upright, brought back to the first run; body y if all are upright.
func leftOf(points []r3.Vec) r3.Vec {
	const upright = 1e-3 // sine of the angle to the vertical
	for i := 0; i+1 < len(points); i++ {
		u := direction(points, i)
		left := r3.Cross(r3.Vec{Z: 1}, u)
		if r3.Norm(left) < upright {
			continue
		}
		left = r3.Unit(left)
		for ; i > 0; i-- {
			before := direction(points, i-1)
			left = carry(left, u, before)
			u = before
		}
		return left
	}
	u := direction(points, 0)
	y := r3.Vec{Y: 1}
	return r3.Unit(r3.Sub(y, r3.Scale(r3.Dot(y, u), u)))
}

// carry turns v, which is across u, by the smallest rotation that takes u to w.
func carry(v, u, w r3.Vec) r3.Vec {
	sum := r3.Add(u, w)
	turned := r3.Sub(v, r3.Scale(r3.Dot(v, w)/(1+r3.Dot(u, w)), sum))
	return r3.Unit(r3.Sub(turned, r3.Scale(r3.Dot(turned, w), w)))
}
