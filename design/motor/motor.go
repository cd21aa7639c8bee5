// Package motor turns motors, cells and propellers into rotor speeds and into
// what those rotors excite: once-per-rev unbalance and blade-pass ripple.
//
// Everything is SI, with one exception: a motor's speed constant is in r/min per
// volt, as it is marked on the motor. Speeds and bands are in Hz (revolutions or
// cycles per second), forces in N, unbalance in kg·m. A rotor's unbalance force
// turns with the rotor in the plane of its disc; thrust ripple acts along its shaft.
package motor

import (
	"errors"
	"fmt"
	"math"
)

const gravity = 9.80665 // m/s², standard, ISO 80000-3

// Spread is a figure with the ends of its range; all three are equal when it is known.
type Spread struct{ Low, Mid, High float64 }

// Band is a range of frequencies in Hz.
type Band struct{ Low, High float64 }

// Meets reports whether the two bands share a frequency.
func (b Band) Meets(other Band) bool { return b.Low <= other.High && other.Low <= b.High }

// Drive is one aircraft's motors, pack and propellers. KV, Cells, Blades, Diameter
// and Mass are asked; every other field may be zero.
type Drive struct {
	Count    int     // number of rotors; 0 means 4
	KV       float64 // no-load speed constant, r/min per V; may be 0 when MeasuredFull is given
	Cells    int     // in series; may be 0 when MeasuredFull is given
	Blades   int     // of one propeller
	Diameter float64 // of the propeller, m
	Mass     float64 // at take-off with everything on board, kg
	MassLow  float64 // lightest take-off, kg; 0 means Mass
	MassHigh float64 // heaviest take-off, kg; 0 means Mass

	Altitude float64 // of the site above the sea, m
	Density  float64 // of the air, kg/m³; 0 means the standard atmosphere at Altitude

	ThrustCoefficient Spread  // C_T = T/(ρ n² D⁴), n in rev/s; zero means ThrustCoefficient(Blades)
	CellVoltage       float64 // under load, V; 0 means 3.7 (nominal, common practice)
	FullFraction      Spread  // loaded over no-load speed at full throttle; zero means .75, .80, .85 (common practice)
	IdleFraction      float64 // armed idle over hover speed; 0 means .35 (common practice)

	MeasuredHover float64 // Hz; 0 means not measured
	MeasuredFull  float64 // Hz; 0 means not measured
	MeasuredIdle  float64 // Hz; 0 means not measured

	RotatingMass float64 // propeller and bell of one motor, kg; 0 means RotatingMass(Diameter)
	Grade        float64 // balance quality e·Ω, m/s; 0 means Unselected
	Ripple       float64 // thrust ripple at blade-pass over hover thrust; 0 means .03 (judgement, range .01 to .10)
	Bandwidth    float64 // of the attitude control, Hz; 0 means Bandwidth(Diameter)
}

// Rotors is what a Drive does.
type Rotors struct {
	Drive   Drive  // with every default filled in
	Idle    Spread // Hz
	Hover   Spread // Hz; low for the highest C_T and the lightest take-off
	Full    Spread // Hz
	Working Band   // .85 of the low hover speed to 1.15 of the high one: trim, wind, cruise tilt (common practice)

	Thrust       float64 // of one rotor in hover, N
	Eccentricity float64 // e of the rotating mass, m
	Unbalance    float64 // U of one rotor, kg·m: the same at every speed
	RippleForce  float64 // amplitude of one rotor's thrust ripple in hover, N
}

// Estimate works out d's rotor speeds and excitation. Hover is where thrust carries weight,
//
//	n = √(m g / (N C_T ρ D⁴)),
//
// full is kv × cells × cell voltage × loaded fraction, idle a fraction of hover;
// a measured speed replaces its estimate and has no spread. The error holds every
// problem found, each naming its field.
func Estimate(d Drive) (Rotors, error) {
	d, err := d.filled()
	if err != nil {
		return Rotors{}, err
	}
	r := Rotors{Drive: d, Hover: known(d.MeasuredHover), Full: known(d.MeasuredFull), Idle: known(d.MeasuredIdle)}
	if d.MeasuredHover == 0 {
		r.Hover = Spread{
			Low:  d.hover(d.MassLow, d.ThrustCoefficient.High),
			Mid:  d.hover(d.Mass, d.ThrustCoefficient.Mid),
			High: d.hover(d.MassHigh, d.ThrustCoefficient.Low),
		}
	}
	if d.MeasuredFull == 0 {
		r.Full = d.FullFraction.times(d.KV * float64(d.Cells) * d.CellVoltage / 60)
	}
	if d.MeasuredIdle == 0 {
		r.Idle = r.Hover.times(d.IdleFraction)
	}
	if r.Hover.Low > r.Full.High {
		return Rotors{}, fmt.Errorf("full speed: hover needs at least %.0f r/min and full throttle gives at most %.0f; check kv, cells, propeller and mass",
			r.Hover.Low*60, r.Full.High*60)
	}
	r.Working = Band{Low: .85 * r.Hover.Low, High: 1.15 * r.Hover.High}
	r.Thrust = d.Mass * gravity / float64(d.Count)
	r.Eccentricity = Eccentricity(d.Grade, r.Hover.Mid)
	r.Unbalance = d.RotatingMass * r.Eccentricity
	r.RippleForce = d.Ripple * r.Thrust
	return r, nil
}

// hover returns the speed in Hz at which the rotors carry mass at thrust coefficient ct.
func (d Drive) hover(mass, ct float64) float64 {
	return math.Sqrt(mass * gravity / (float64(d.Count) * ct * d.Density * math.Pow(d.Diameter, 4)))
}

// filled returns d with its defaults in place of zeros, or every problem of d.
func (d Drive) filled() (Drive, error) {
	var problems []error
	problem := func(format string, args ...any) { problems = append(problems, fmt.Errorf(format, args...)) }
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"kv", d.KV}, {"propeller diameter", d.Diameter}, {"mass", d.Mass}, {"low mass", d.MassLow}, {"high mass", d.MassHigh},
		{"air density", d.Density}, {"low thrust coefficient", d.ThrustCoefficient.Low}, {"thrust coefficient", d.ThrustCoefficient.Mid},
		{"high thrust coefficient", d.ThrustCoefficient.High}, {"cell voltage", d.CellVoltage},
		{"low full-throttle fraction", d.FullFraction.Low}, {"full-throttle fraction", d.FullFraction.Mid}, {"high full-throttle fraction", d.FullFraction.High},
		{"idle fraction", d.IdleFraction}, {"measured hover speed", d.MeasuredHover}, {"measured full speed", d.MeasuredFull},
		{"measured idle speed", d.MeasuredIdle}, {"rotating mass", d.RotatingMass}, {"balance grade", d.Grade},
		{"thrust ripple", d.Ripple}, {"bandwidth", d.Bandwidth},
	} {
		if !(f.value >= 0 && f.value <= math.MaxFloat64) {
			problem("%s %g is not a positive number; give one or leave it out", f.name, f.value)
		}
	}
	if d.Count < 0 || d.Cells < 0 || d.Blades < 0 {
		problem("%d motors, %d cells, %d blades: none of them can be negative", d.Count, d.Cells, d.Blades)
	}
	if d.Diameter == 0 {
		problem("propeller diameter is 0; give it in metres")
	}
	if d.Mass == 0 {
		problem("take-off mass is 0; give it in kilograms")
	}
	if d.MeasuredFull == 0 && (d.KV == 0 || d.Cells == 0) {
		problem("full speed: kv %g with %d cells; give both, or the measured full speed", d.KV, d.Cells)
	}
	if d.Blades < 2 {
		problem("blades: %d blades leave no blade-pass line; give 2 or more", d.Blades)
	}
	if d.ThrustCoefficient == (Spread{}) {
		d.ThrustCoefficient = ThrustCoefficient(d.Blades)
	}
	if d.FullFraction == (Spread{}) {
		d.FullFraction = Spread{Low: .75, Mid: .80, High: .85}
	}
	d.MassLow, d.MassHigh = either(d.MassLow, d.Mass), either(d.MassHigh, d.Mass)
	if !d.ThrustCoefficient.ordered() {
		problem("thrust coefficient %g, %g, %g: give low, mid and high in rising order", d.ThrustCoefficient.Low, d.ThrustCoefficient.Mid, d.ThrustCoefficient.High)
	}
	if !d.FullFraction.ordered() {
		problem("full-throttle fraction %g, %g, %g: give low, mid and high in rising order", d.FullFraction.Low, d.FullFraction.Mid, d.FullFraction.High)
	}
	if d.Mass > 0 && !(d.MassLow <= d.Mass && d.Mass <= d.MassHigh) {
		problem("take-off mass %g kg lies outside its own range %g to %g kg", d.Mass, d.MassLow, d.MassHigh)
	}
	if d.Density == 0 {
		density, err := Density(d.Altitude)
		if err != nil {
			problems = append(problems, err)
		}
		d.Density = density
	}
	if d.Count == 0 {
		d.Count = 4
	}
	d.CellVoltage = either(d.CellVoltage, 3.7)
	d.IdleFraction = either(d.IdleFraction, .35)
	d.RotatingMass = either(d.RotatingMass, RotatingMass(d.Diameter))
	d.Grade = either(d.Grade, Unselected)
	d.Ripple = either(d.Ripple, .03)
	d.Bandwidth = either(d.Bandwidth, Bandwidth(d.Diameter))
	return d, errors.Join(problems...)
}

// ThrustCoefficient returns C_T = T/(ρ n² D⁴) of a hovering propeller by its blades:
// .11 (.095 to .13) with two, .145 (.12 to .17) with three, .17 (.14 to .20) with four or more.
// Source: the whole range from public wind-tunnel data of small propellers; its split by blades from memory.
func ThrustCoefficient(blades int) Spread {
	switch {
	case blades <= 2:
		return Spread{Low: .095, Mid: .11, High: .13}
	case blades == 3:
		return Spread{Low: .12, Mid: .145, High: .17}
	}
	return Spread{Low: .14, Mid: .17, High: .20}
}

func known(x float64) Spread { return Spread{x, x, x} }

func (s Spread) times(k float64) Spread { return Spread{s.Low * k, s.Mid * k, s.High * k} }

func (s Spread) ordered() bool { return 0 < s.Low && s.Low <= s.Mid && s.Mid <= s.High }

func either(x, otherwise float64) float64 {
	if x == 0 {
		return otherwise
	}
	return x
}
