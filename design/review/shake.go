package review

import (
	"fmt"
	"math"

	"mastwright/design/frame"
	"mastwright/design/motor"
)

const gravity = 9.80665 // m/s²

// path is how a force at a motor reaches the compass and the airframe.
type path struct{ compass, vehicle frame.Transfer }

// shaking is the vibration at the worst rotor speed.
type shaking struct {
	speed   float64 // Hz
	peak    float64 // g at the compass, powers of the motors summed
	inPhase float64 // g, were all motors in step
	move    float64 // m
	turn    float64 // rad
	rate    float64 // rad/s of the airframe
	mode    string
}

// shake judges the peak acceleration at the compass over the working band, with every mode anywhere in its band.
func (s *subject) shake() Verdict {
	if missing := s.lacksStructure(); missing != nil {
		return lacking("the aircraft's mass, motors and receiver are part of the vibrating system", missing...)
	}
	if s.rotorsError != nil {
		return lacking(s.rotorsError.Error(), "motors.kv", "motors.propeller")
	}
	bands, err := s.modeBands()
	if err != nil {
		return lacking(err.Error())
	}
	worst, least := shaking{}, math.Inf(1)
	for i, b := range bands {
		if w := s.shakeAt(i, b); w.peak > worst.peak {
			worst = w
		}
	}
	for _, v := range []variant{{soft, low}, {middle, typical}, {stiff, high}} {
		e, err := s.solve(v, flying)
		if err != nil {
			return lacking(err.Error())
		}
		least = math.Min(least, s.sweep(e, s.rotors.Working.Low, s.rotors.Working.High).peak)
	}
	limits := s.doc.Limits
	v := judged(
		spread("peak acceleration at the compass", worst.peak, least, worst.peak, "g", &Limit{AtMost, limits.Shake.Pass.StandardGravities(), limits.Shake.Marginal.StandardGravities()}),
		fixed("rate of the airframe", degrees(worst.rate), "°/s", &Limit{AtMost, limits.Rate.Pass.DegreesPerSecond(), math.Inf(1)}),
		fixed("were all motors in step", worst.inPhase, "g", nil),
		fixed("movement of the compass", worst.move*1e6, "µm", nil),
		fixed("turning of the compass", degrees(worst.turn)*1e3, "mdeg", nil),
	)
	v.Because = fmt.Sprintf("%.2g g at the compass at %.0f rpm, where once-per-rev is nearest to %s; over the spread of the material it is %.2g to %.2g g",
		worst.peak, worst.speed*60, worst.mode, least, worst.peak)
	r := s.rotors
	v.Formula = fmt.Sprintf("U %.3g g·mm (G %.3g) × (2π %.0f Hz)² = %.3g N a motor; ripple %.3g N; %d motors by powers",
		r.Unbalance*1e6, r.Drive.Grade*1e3, worst.speed, r.UnbalanceForce(worst.speed)*s.scale(), r.RippleForce, r.Drive.Count)
	if s.doc.Has("airframe.vibration") {
		v.Notes = append(v.Notes, fmt.Sprintf("excitation scaled by %.2g to the measured %.3g m/s² rms at the flight controller", s.scale(), s.doc.Airframe.Vibration.MetresPerSecondSquared()))
	}
	if s.rotors.Full.High > s.rotors.Working.High {
		e, err := s.solve(variant{middle, typical}, flying)
		if err != nil {
			return lacking(err.Error())
		}
		if above := s.sweep(e, s.rotors.Working.High, s.rotors.Full.High); above.peak > 10 {
			v.Notes = append(v.Notes, fmt.Sprintf("above the working band, at %.0f rpm, it reaches %.0f g for as long as a burst lasts", above.speed*60, above.peak))
		}
	}
	return v
}

// shakeAt returns the worst vibration in the working band with one mode anywhere in its band: it is set to the rotor's speed, or to
// the blades', wherever the band allows.
func (s *subject) shakeAt(index int, b modeBand) shaking {
	if worst, ok := s.shaken[index]; ok {
		return worst
	}
	e, err := s.solve(variant{middle, typical}, flying)
	if err != nil {
		return shaking{}
	}
	worst := shaking{}
	const steps = 12
	band := s.rotors.Working
	blades := float64(s.rotors.Drive.Blades)
	for i := range steps + 1 {
		speed := band.Low + (band.High-band.Low)*float64(i)/steps
		tried := 0.0
		for _, order := range []float64{1, blades} {
			own := math.Max(b.low, math.Min(b.high, order*speed))
			if own == tried {
				continue
			}
			tried = own
			var w shaking
			if own == e.modes[index].Frequency {
				w = s.asItIs(e, speed)
			} else {
				w = s.vibration(e, speed, retuned{index, own})
			}
			if w.peak > worst.peak {
				worst = w
				worst.mode = b.label
			}
		}
	}
	s.shaken[index] = worst
	return worst
}

// sweep returns the worst vibration over a band of rotor speeds; every mode's own frequency in it is one of the speeds tried.
func (s *subject) sweep(e *solved, from, to float64) shaking {
	worst := shaking{}
	try := func(speed float64) {
		if speed < from || speed > to {
			return
		}
		if w := s.asItIs(e, speed); w.peak > worst.peak {
			worst = w
		}
	}
	const steps = 24
	for i := range steps + 1 {
		try(from + (to-from)*float64(i)/steps)
	}
	for _, m := range e.modes {
		try(m.Frequency)
		try(m.Frequency / float64(s.rotors.Drive.Blades))
	}
	return worst
}

// asItIs is vibration with every mode at its own frequency, computed once for a speed.
func (s *subject) asItIs(e *solved, speed float64) shaking {
	w, ok := e.shaken[speed]
	if !ok {
		w = s.vibration(e, speed, retuned{})
		e.shaken[speed] = w
	}
	return w
}

// retuned is a mode that rings at another frequency in Hz than its own; 0 leaves all as they are.
type retuned struct {
	mode int
	to   float64
}

// vibration returns what the compass feels at a rotor speed in Hz: the unbalance of each motor turning in its plane, and the ripple of its
// thrust at blade-pass, as a sum of powers.
func (s *subject) vibration(e *solved, speed float64, mode retuned) shaking {
	for _, d := range e.damping {
		if !(d > 0 && d < 1) {
			return shaking{}
		}
	}
	out := shaking{speed: speed}
	scale := s.scale()
	force := complex(s.rotors.UnbalanceForce(speed)*scale, 0)
	ripple := s.rotors.RippleForce * scale * (speed / s.rotors.Hover.Mid) * (speed / s.rotors.Hover.Mid)
	pass := motor.BladePass(s.rotors.Drive.Blades, speed)
	e.turning.Set(e.modes, e.damping, speed)
	e.pulsing.Set(e.modes, e.damping, pass)
	if mode.to > 0 {
		e.turning.Retune(mode.mode, mode.to, e.damping[mode.mode], speed)
		e.pulsing.Retune(mode.mode, mode.to, e.damping[mode.mode], pass)
	}
	turning, pulsing := [3]complex128{force, force * -1i}, [3]complex128{2: complex(ripple, 0)}
	var sum frame.Vibration
	add := func(move, airframe frame.Vibration, frequency float64) {
		out.peak += square(move.Derivative(2, frequency).Peak() / gravity)
		out.move += square(move.Peak())
		out.turn += square(move.PeakTurn())
		out.rate += square(airframe.Derivative(1, frequency).PeakTurn())
	}
	for i := range e.paths {
		p := &e.paths[i]
		at := p.compass.Forced(&e.turning, turning)
		add(at, p.vehicle.Forced(&e.turning, turning), speed)
		add(p.compass.Forced(&e.pulsing, pulsing), p.vehicle.Forced(&e.pulsing, pulsing), pass)
		for d := range 3 {
			sum.Move[d] += at.Move[d]
		}
	}
	out.peak, out.move, out.turn, out.rate = math.Sqrt(out.peak), math.Sqrt(out.move), math.Sqrt(out.turn), math.Sqrt(out.rate)
	out.inPhase = sum.Derivative(2, speed).Peak() / gravity
	return out
}

// scale returns by what the computed excitation is multiplied to give the vibration level that was measured at the flight controller in hover, 1
// when none was. The controller is taken at the aircraft's centre of gravity.
func (s *subject) scale() float64 {
	if s.excitation > 0 {
		return s.excitation
	}
	s.excitation = 1
	if s.doc.Has("airframe.vibration") {
		r := s.rotors
		rigid := r.UnbalanceForce(r.Hover.Mid) / s.aircraft.mass * math.Sqrt(float64(r.Drive.Count)/2)
		ripple := r.RippleForce / s.aircraft.mass * math.Sqrt(float64(r.Drive.Count)/2)
		s.excitation = s.doc.Airframe.Vibration.MetresPerSecondSquared() / math.Hypot(math.Sqrt2*rigid, ripple)
	}
	return s.excitation
}

func square(x float64) float64 { return x * x }
