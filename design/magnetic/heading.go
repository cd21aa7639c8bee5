package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// HeadingOptions say how far the build may stray from the drawing and how far
// the aircraft leans. In the first three, 0 means the default and a negative
// value means none.
type HeadingOptions struct {
	Sideways float64 // sensor along x and along y, m; 0 means ±10 mm
	Roll     float64 // every pair about its centre line, rad; 0 means ±15°
	Gap      float64 // every pair's spacing, as a share below 1; 0 means ±30 %
	Levels   int     // placements tried each side of the drawing, 1 to 8; 0 means 1

	// Lean is the largest angle in radians, under 90°, that the aircraft leans
	// in flight; 0 means level. See HeadingError.
	Lean float64
}

// HeadingError is how far the compass swings between armed idle and load.
//
// A compass reads heading from the horizontal field, so on a level aircraft the
// vertical part of a lead's field turns nothing, however large it is. The field
// is fixed to the aircraft, though: lean it, and the level that the receiver
// keeps cuts the field at another angle. With a lean θ the horizontal part
// becomes at worst |B| cos(ε−θ), ε being the field's angle to the horizontal,
// and the whole of |B| once θ reaches ε. The default judges the aircraft level.
//
// Worst is the worst over placement: every pair strays on its own, the sensor
// with respect to all of them. Sensor offsets, rolls and gaps are tried at
// 2·Levels+1 even levels each, ends and drawing included. For each offset of
// the sensor the worst combination of the leads' placements is found without
// trying the combinations: along a fixed horizontal direction each lead is at
// its worst by itself, and from 36 such directions each is turned into the sum's
// until nothing changes. What is found can be built, and is at least .99 of the
// worst at these levels; for real leads it was the worst itself. Explicit loops
// and measured fields are not rolled or widened.
type HeadingError struct {
	Nominal Disturbance // everything as drawn
	Worst   Disturbance // worst over placement
	Leads   []Contribution

	Placements  int // lead placements tried, over all sensor offsets
	Evaluations int // straight conductors evaluated
}

// Disturbance is a change of field at the sensor and what it does to a compass.
type Disturbance struct {
	Change     r3.Vec  // T, body axes
	Horizontal float64 // T, its largest horizontal part within the lean
	// Error is the worst over yaw, in radians: asin(Horizontal/H), and π where
	// Horizontal reaches the earth's own H.
	Error float64
	// Compass is the error in radians, clockwise positive, with the level
	// aircraft's nose to magnetic north, east, south and west.
	Compass [4]float64
	Share   float64 // |Change| over the earth's total field
	Sensor  r3.Vec  // where the sensor stood, m
}

// Contribution is one lead's part in the disturbance.
type Contribution struct {
	Name           string
	Nominal, Worst r3.Vec  // change of field, T; Worst in the placement that is worst for all leads together
	Error          float64 // of this lead alone in that placement, worst over yaw, rad
	Share          float64 // of Worst's horizontal sum, along it; negative where the lead helps
	Roll, Gap      float64 // the placement: further roll in radians, factor on the spacing
}

// Heading returns the heading error at the sensor, a point in the leads' axes,
// in an earth field of which H and F are used, in tesla. Every faulty lead is
// named in the error.
func Heading(leads []Lead, sensor r3.Vec, earth Elements, o HeadingOptions) (HeadingError, error) {
	o, err := o.filled()
	err = errors.Join(err, checkEarth(earth))
	if len(leads) == 0 {
		err = errors.Join(err, errors.New("no leads; give at least the battery lead"))
	}
	if err != nil {
		return HeadingError{}, err
	}
	s, err := newSearch(leads, o)
	if err != nil {
		return HeadingError{}, err
	}

	drawn, err := s.at(sensor)
	if err != nil {
		return HeadingError{}, err
	}
	nominal := drawn.drawing()
	worst, where := nominal, sensor
	for _, x := range spread(o.Sideways, o.Levels) {
		for _, y := range spread(o.Sideways, o.Levels) {
			at := r3.Add(sensor, r3.Vec{X: x, Y: y})
			fields, err := s.at(at)
			if err != nil {
				return HeadingError{}, err
			}
			if c := fields.worst(o.Lean); c.size > worst.size {
				worst, where = c, at
			}
		}
	}
	out := HeadingError{
		Nominal:     disturbance(nominal.sum, sensor, earth, o.Lean),
		Worst:       disturbance(worst.sum, where, earth, o.Lean),
		Placements:  s.placements,
		Evaluations: s.evaluations,
	}
	for i, l := range leads {
		b, laid := worst.parts[i], s.sources[i][worst.chosen[i]]
		c := Contribution{
			Name: l.Name, Nominal: nominal.parts[i], Worst: b,
			Error: asinShare(horizontal(b, o.Lean), earth.H),
			Roll:  laid.roll, Gap: laid.gap,
		}
		if worst.size > 0 {
			c.Share = r3.Dot(b, worst.along) / worst.size
		}
		out.Leads = append(out.Leads, c)
	}
	return out, nil
}

// TiltError returns the worst heading error in radians of a receiver that is
// tilted and does not know it, asin(min(1, tan dip · tan tilt)), for angles in
// radians of either sign. It is π/2 for a tilt of 90° or more.
func TiltError(dip, tilt float64) float64 {
	tilt, dip = math.Abs(tilt), math.Abs(dip)
	switch {
	case tilt == 0 || dip == 0:
		return 0
	case tilt >= math.Pi/2 || dip >= math.Pi/2:
		return math.Pi / 2
	}
	return math.Asin(min(1, math.Tan(dip)*math.Tan(tilt)))
}

func (o HeadingOptions) filled() (HeadingOptions, error) {
	var problems []error
	fill := func(v *float64, name, unit string, scale, usual, most float64) {
		switch {
		case *v == 0:
			*v = usual
		case *v < 0:
			*v = 0
		case !(*v <= most):
			problems = append(problems, fmt.Errorf("placement tolerance %s of %.4g %s; use at most %.4g", name, scale**v, unit, scale*most))
		}
	}
	fill(&o.Sideways, "sideways", "mm", 1000, 0.010, 0.1)
	fill(&o.Roll, "roll", "degrees", 180/math.Pi, 15*math.Pi/180, math.Pi)
	fill(&o.Gap, "gap", "percent", 100, 0.3, 0.9)
	switch {
	case o.Levels == 0:
		o.Levels = 1
	case o.Levels < 0 || o.Levels > 8:
		problems = append(problems, fmt.Errorf("%d placement levels; use 1 to 8", o.Levels))
	}
	if !(o.Lean >= 0 && o.Lean < math.Pi/2) {
		problems = append(problems, fmt.Errorf("lean of %.4g degrees; use 0 to under 90", degrees(o.Lean)))
	}
	return o, errors.Join(problems...)
}

func checkEarth(e Elements) error {
	if !finite(e.H, e.F) || e.H <= 0 || e.F < e.H || e.F > 1e-3 {
		return fmt.Errorf("earth's field of H %.6g and F %.6g uT; H must be above 0 and F at least H, in tesla", 1e6*e.H, 1e6*e.F)
	}
	return nil
}

func disturbance(b, sensor r3.Vec, earth Elements, lean float64) Disturbance {
	d := Disturbance{
		Change:     b,
		Horizontal: horizontal(b, lean),
		Share:      r3.Norm(b) / earth.F,
		Sensor:     sensor,
	}
	d.Error = asinShare(d.Horizontal, earth.H)
	for i := range d.Compass {
		d.Compass[i] = compassError(b, earth.H, i)
	}
	return d
}

// asinShare is asin(b/h), and π where b reaches h.
func asinShare(b, h float64) float64 {
	if b >= h {
		return math.Pi
	}
	return math.Asin(b / h)
}

// compassError returns the error in radians, clockwise positive, of a level
// compass with the nose turned by quarters of a turn from magnetic north. Where
// the field cancels the earth's altogether it is π.
func compassError(b r3.Vec, h float64, quarters int) float64 {
	// Magnetic north in body axes: ahead, to the left, behind, to the right.
	north := [4]r3.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}[quarters]
	left := r3.Cross(r3.Vec{Z: 1}, north)
	along, across := h+r3.Dot(b, north), r3.Dot(b, left)
	if along == 0 && across == 0 {
		return math.Pi
	}
	return math.Atan2(across, along)
}

// horizontal returns the largest part of b that can come to lie level when the
// aircraft leans by up to the angle given.
func horizontal(b r3.Vec, lean float64) float64 {
	return r3.Dot(b, levelled(b, lean))
}

// levelled returns the unit vector within the lean of the body's level plane
// that lies closest to b.
func levelled(b r3.Vec, lean float64) r3.Vec {
	azimuth := math.Atan2(b.Y, b.X)
	elevation := max(-lean, min(lean, math.Atan2(b.Z, math.Hypot(b.X, b.Y))))
	return towards(azimuth, elevation)
}

func towards(azimuth, elevation float64) r3.Vec {
	sinA, cosA := math.Sincos(azimuth)
	sinE, cosE := math.Sincos(elevation)
	return r3.Vec{X: cosE * cosA, Y: cosE * sinA, Z: sinE}
}
