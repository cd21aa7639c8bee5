package magnetic

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Fastener is a ferrous part beside the sensor, taken as a dipole at its middle.
type Fastener struct {
	Name   string
	At     r3.Vec  // m
	Volume float64 // of steel, m³
}

// FastenerOptions describe the steel.
type FastenerOptions struct {
	// Remanence in tesla is what a magnetised fastener keeps; 0 means 0.05 T,
	// a screw that has met a magnet. 0.02 T is one fresh from the box (both
	// common practice, no source).
	Remanence float64
	// Demagnetising is the factor N of the shape, above 0 and up to 1; 0 means
	// 1/3, a sphere. A long screw along the field has less and is drawn more.
	Demagnetising float64
}

// FastenerError is what ferrous fasteners can do at worst. Each is turned the
// worst way by itself and their fields are added in size, so the sum is a bound
// and not an expectation.
type FastenerError struct {
	Remanent, Induced           float64 // horizontal field, T
	RemanentError, InducedError float64 // worst over yaw, rad; π where the field reaches H
	Worse                       float64 // the larger error, rad
	Parts                       []FastenerPart
}

// FastenerPart is one fastener's share.
type FastenerPart struct {
	Name              string
	Distance          float64 // m
	Remanent, Induced float64 // horizontal field, T
}

// Fasteners returns the worst heading error that ferrous fasteners cause at the
// sensor, in an earth field of which H and F are used. The induced moment is
// m = V F/(µ0 N), which is 3 V F/µ0 for a sphere of high permeability; the
// remanent one m = V Br/µ0. No fasteners, no error.
//
// Source of the moments: J. D. Jackson, Classical Electrodynamics, 3rd edition,
// sections 5.10 and 5.11 (from memory).
func Fasteners(parts []Fastener, sensor r3.Vec, earth Elements, o FastenerOptions) (FastenerError, error) {
	if o.Remanence == 0 {
		o.Remanence = 0.05
	}
	if o.Demagnetising == 0 {
		o.Demagnetising = 1.0 / 3
	}
	problems := []error{checkEarth(earth)}
	if !(o.Remanence > 0 && o.Remanence <= 2) {
		problems = append(problems, fmt.Errorf("remanence of %.4g T; use more than 0 and at most 2, screws have 0.02 to 0.05", o.Remanence))
	}
	if !(o.Demagnetising > 0 && o.Demagnetising <= 1) {
		problems = append(problems, fmt.Errorf("demagnetising factor %.4g; use more than 0 and at most 1, a sphere has 1/3", o.Demagnetising))
	}
	var out FastenerError
	for _, p := range parts {
		d := r3.Sub(p.At, sensor)
		distance := r3.Norm(d)
		if !(p.Volume > 0 && p.Volume <= 1e-3) {
			problems = append(problems, fmt.Errorf("fastener %q of %.4g mm³ of steel; use more than 0 and at most 1000000", p.Name, 1e9*p.Volume))
			continue
		}
		if size := math.Cbrt(3 * p.Volume / (4 * math.Pi)); !(distance > size) {
			problems = append(problems, fmt.Errorf("fastener %q at %s: %.3g mm from the sensor, which is inside its steel; move it or leave it out", p.Name, place(p.At), 1000*distance))
			continue
		}
		perMoment := worstHorizontal(d)
		part := FastenerPart{
			Name: p.Name, Distance: distance,
			Remanent: p.Volume * o.Remanence / mu0 * perMoment,
			Induced:  p.Volume * earth.F / (mu0 * o.Demagnetising) * perMoment,
		}
		out.Parts = append(out.Parts, part)
		out.Remanent += part.Remanent
		out.Induced += part.Induced
	}
	if err := errors.Join(problems...); err != nil {
		return FastenerError{}, err
	}
	out.RemanentError = asinShare(out.Remanent, earth.H)
	out.InducedError = asinShare(out.Induced, earth.H)
	out.Worse = max(out.RemanentError, out.InducedError)
	return out, nil
}

// DipoleField returns the field in tesla of a magnetic moment in A·m² at a
// vector from it in metres,
//
//	B = µ0/(4π r³) (3 (m·r̂) r̂ − m).
//
// At the dipole itself, where it has no field, it is refused.
func DipoleField(moment, from r3.Vec) (r3.Vec, error) {
	r := r3.Norm(from)
	if !(r > 0) {
		return r3.Vec{}, errors.New("field asked for at the dipole itself; give a point beside it")
	}
	u := r3.Scale(1/r, from)
	b := r3.Sub(r3.Scale(3*r3.Dot(moment, u), u), moment)
	return r3.Scale(mu0/(4*math.Pi*r*r*r), b), nil
}

// worstHorizontal returns the largest horizontal field in tesla that a moment
// of 1 A·m² at d can make, over all directions of the moment:
// µ0/(4π r³) √(1 + 3 cos²ε), with ε the elevation of d.
func worstHorizontal(d r3.Vec) float64 {
	r := r3.Norm(d)
	level := math.Hypot(d.X, d.Y) / r
	return mu0 / (4 * math.Pi * r * r * r) * math.Sqrt(1+3*level*level)
}
