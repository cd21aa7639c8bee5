package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ErrInside is wrapped by every error about a point inside a conductor, where
// the field of a thin wire has no meaning.
var ErrInside = errors.New("inside a conductor")

// Segment is one straight piece of conductor; positive current runs from A to
// B. It is a part of a circuit, not a circuit: alone it breaks the continuity
// of current, so its field has a curl where no conductor is.
type Segment struct {
	A, B   r3.Vec  // m
	Radius float64 // of the conductor, m
}

// Field returns the field in tesla at a point in metres for a current in
// amperes along the axis,
//
//	B = µ0 I/(4π d²) (t/√(t²+d²) + (L−t)/√((L−t)²+d²)) (u × d),
//
// with d the perpendicular from the axis to the point and t the position of its
// foot along the unit vector u. A point within Radius of the segment, or on its
// axis, is refused with ErrInside.
//
// Source: J. D. Jackson, Classical Electrodynamics, 3rd edition, section 5.2
// (from memory), in the perpendicular-distance form.
func (s Segment) Field(at r3.Vec, current float64) (r3.Vec, error) {
	b, distance := s.perAmpere(at)
	if distance <= s.Radius {
		return r3.Vec{}, insideError(at, distance, s.Radius)
	}
	return r3.Scale(current, b), nil
}

func insideError(at r3.Vec, distance, radius float64) error {
	return fmt.Errorf("sensor at %s: %w, %.3g mm from the axis of one %.3g mm in radius; move the sensor or the lead apart",
		place(at), ErrInside, 1000*distance, 1000*radius)
}

// perAmpere returns the field for 1 A and the point's distance from the
// segment. On the segment itself the field is returned as zero.
func (s Segment) perAmpere(at r3.Vec) (b r3.Vec, distance float64) {
	axis := r3.Sub(s.B, s.A)
	length := r3.Norm(axis)
	if length == 0 {
		return r3.Vec{}, r3.Norm(r3.Sub(at, s.A))
	}
	u := r3.Scale(1/length, axis)
	fromA := r3.Sub(at, s.A)
	t := r3.Dot(fromA, u)
	rest := length - t
	d := r3.Sub(fromA, r3.Scale(t, u))
	d2 := r3.Norm2(d)
	rA, rB := math.Sqrt(t*t+d2), math.Sqrt(rest*rest+d2)

	distance = math.Sqrt(d2)
	if t < 0 {
		distance = rA
	} else if rest < 0 {
		distance = rB
	}
	if distance == 0 {
		return r3.Vec{}, 0
	}
	var angles float64 // the bracket over d²
	if t >= 0 && rest >= 0 {
		angles = (t/rA + rest/rB) / d2
	} else {
		// Beyond an end the two terms nearly cancel; their difference over d²
		// is written out with the cancellation done by hand.
		near, far, rNear, rFar := -t, rest, rA, rB
		if rest < 0 {
			near, far, rNear, rFar = -rest, t, rB, rA
		}
		angles = (far - near) * (far + near) / (rA * rB * (far*rNear + near*rFar))
	}
	return r3.Scale(mu0/(4*math.Pi)*angles, r3.Cross(u, d)), distance
}
