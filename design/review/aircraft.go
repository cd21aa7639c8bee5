package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
)

// The radii of gyration of a multirotor as shares of its motor diagonal, about the level axes and the vertical: judgement, from a
// body of four fifths of the mass and motors of one fifth.
const (
	levelGyration    = 0.18
	verticalGyration = 0.25
)

// aircraft is the vehicle in the axes of the place, SI.
type aircraft struct {
	mass    float64
	cg      r3.Vec
	inertia [3][3]float64 // about the centre of gravity
	motors  []r3.Vec      // shafts at the height of the propellers
	arms    []r3.Vec      // arm ends, what a toppling aircraft turns about
}

// at moves a position from aircraft axes into those of the place, m.
func (s *subject) at(p design.Point) r3.Vec {
	o := s.place.At
	return r3.Vec{X: (p.X - o.X).Metres(), Y: (p.Y - o.Y).Metres(), Z: (p.Z - o.Z).Metres()}
}

func (s *subject) newAircraft() aircraft {
	frame := s.doc.Airframe
	a := aircraft{mass: frame.Mass.Kilograms(), cg: s.at(frame.CentreOfGravity)}
	spots := s.doc.MotorSpots()
	for _, spot := range spots {
		a.motors = append(a.motors, s.at(design.Point{X: spot.X, Y: spot.Y, Z: s.doc.Motors.PropellerHeight}))
		a.arms = append(a.arms, s.at(design.Point{X: spot.X, Y: spot.Y, Z: frame.ArmHeight}))
	}
	diagonal := frame.MotorDiagonal.Metres()
	if diagonal == 0 {
		for _, spot := range spots {
			diagonal = math.Max(diagonal, 2*math.Hypot(spot.X.Metres(), spot.Y.Metres()))
		}
	}
	for i, given := range [3]struct {
		path  string
		value float64
	}{
		{"airframe.inertia.x", frame.Inertia.X.KilogramSquareMetres()},
		{"airframe.inertia.y", frame.Inertia.Y.KilogramSquareMetres()},
		{"airframe.inertia.z", frame.Inertia.Z.KilogramSquareMetres()},
	} {
		share := levelGyration
		if i == 2 {
			share = verticalGyration
		}
		a.inertia[i][i] = a.mass * share * share * diagonal * diagonal
		if s.doc.Has(given.path) {
			a.inertia[i][i] = given.value
		}
	}
	return a
}
