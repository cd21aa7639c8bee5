package strength

import (
	"errors"
	"fmt"
	"math"
)

// Topple is a fall from balance over two neighbouring arm ends onto the mast top.
type Topple struct {
	Arms        [2]int     // indices into Vehicle.ArmEnds
	Speed       float64    // v_req, of the mast top as it strikes, m/s; 0 when it does not strike
	Mass        float64    // effective at the mast top, I_p/R_t², kg
	Direction   [3]float64 // of the ground's force on the mast top, unit, body axes
	StrikeAngle float64    // between that force and the mast axis, 0 to π/2 rad
	Gravity     float64    // φ_c, elevation of the centre of gravity seen from the pivot line, upright aircraft, rad
	Top         float64    // φ_t, elevation of the mast top seen from the pivot line, upright aircraft, rad
	End         float64    // φ_end, elevation of the centre of gravity as the mast top strikes, rad
}

// Energy returns the energy in J of the blow, M g R_c (1 - sin φ_end).
func (t Topple) Energy() float64 { return t.Mass * t.Speed * t.Speed / 2 }

// Topples returns the fall over every pair of arm ends that are neighbours on the
// outline seen from above, counter-clockwise. The aircraft stands on the two ends,
// balanced with its centre of gravity straight above the line through them, and
// turns about that line until the mast top is as low as the line:
//
//	v = R_t √(2 M g R_c (1 - sin φ_end)/I_p), φ_end = φ_c + π - φ_t,
//
// with R_c and R_t the distances of centre of gravity and mast top from the line,
// φ_c and φ_t their elevations above the horizontal, measured at the line from the
// side the aircraft is on, and I_p the inertia about the line. Nothing slips,
// and nothing but the mast top touches the ground. When φ_end < π/2 the mast top is
// down before balance, when φ_t <= 0 it never comes down first: the speed is 0.
//
// Source: energy of a rigid body about a fixed axis, any mechanics textbook.
func Topples(v Vehicle) ([]Topple, error) {
	if err := v.Check(); err != nil {
		return nil, err
	}
	rim := v.rim()
	if len(rim) < 3 {
		return nil, errors.New("vehicle: arm ends span no area seen from above; give at least three that do not lie on a line")
	}
	falls := make([]Topple, len(rim))
	for i := range rim {
		t, err := v.topple(rim[i], rim[(i+1)%len(rim)])
		if err != nil {
			return nil, err
		}
		falls[i] = t
	}
	return falls, nil
}

// Worst returns the index of the fall with the greatest energy, -1 of none.
func Worst(falls []Topple) int {
	worst := -1
	for i, t := range falls {
		if worst < 0 || t.Energy() > falls[worst].Energy() {
			worst = i
		}
	}
	return worst
}

func (v Vehicle) topple(a, b int) (Topple, error) {
	pivot := v.ArmEnds[a]
	line := unit(along(v.ArmEnds[b], -1, pivot))
	z := [3]float64{0, 0, 1}
	up := unit(along(z, -dot(z, line), line))
	in := cross(up, line)
	seen := func(p [3]float64) (radius, elevation float64) {
		d := along(p, -1, pivot)
		x, y := dot(d, in), dot(d, up)
		return math.Hypot(x, y), math.Atan2(y, x)
	}
	Rc, phiC := seen(v.CentreOfGravity)
	Rt, phiT := seen(v.Top)
	if Rt == 0 || Rc == 0 {
		return Topple{}, fmt.Errorf("vehicle: centre of gravity or mast top lies on the line through arm ends %d and %d; check positions", a+1, b+1)
	}
	Ip := dot(line, apply(v.Inertia, line)) + v.Mass*Rc*Rc
	s, c := math.Sincos(phiT)
	t := Topple{
		Arms: [2]int{a, b}, Mass: Ip / (Rt * Rt), Gravity: phiC, Top: phiT, End: phiC + math.Pi - phiT,
		Direction: along(along([3]float64{}, s, in), -c, up),
	}
	t.StrikeAngle = math.Acos(math.Min(1, math.Abs(dot(t.Direction, v.axis()))))
	if phiT > 0 && t.End > math.Pi/2 {
		t.Speed = Rt * math.Sqrt(2*v.Mass*gravity*Rc*(1-math.Sin(t.End))/Ip)
	}
	return t, nil
}
