package review

import (
	"context"
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
)

// Run reviews a design and studies its compass over height. The problems are those of a design that cannot be built; with any, there
// is no result.
func Run(doc *design.Document) (Result, []design.Problem) {
	s, problems := new(Workshop).subject(doc)
	if len(problems) > 0 {
		return Result{}, problems
	}
	r, _ := s.judge(context.Background(), checks)
	s.report(&r)
	s.picture(&r)
	if c, err := s.study(); err == nil {
		r.Compass = c
	}
	return r, nil
}

// Judge reviews a design without the study of its compass over height, which costs more than all the checks together. Who reviews
// many designs does so in a Workshop.
func Judge(doc *design.Document) (Result, []design.Problem) {
	r, problems, _ := new(Workshop).Judge(context.Background(), doc)
	return r, problems
}

// judge runs checks.
func (s *subject) judge(ctx context.Context, asked []Check) (Result, error) {
	r := Result{Design: s.doc.Name, Mass: (s.added().mass - s.doc.Receiver.Mass.Kilograms()) * 1e3}
	for _, c := range asked {
		if err := ctx.Err(); err != nil {
			return Result{}, err
		}
		r.Verdicts = append(r.Verdicts, s.verdict(c))
	}
	return r, nil
}

// verdict runs one check.
func (s *subject) verdict(c Check) Verdict {
	v := c.run(s)
	v.ID, v.Title, v.Source = c.ID, c.Title, c.Source
	v.Notes = append(v.Notes, s.measured(c.ID)...)
	for _, a := range s.doc.Accepted {
		if a.Check == c.ID {
			v.Accepted = a.Reason
			if v.State == Pass {
				v.Notes = append(v.Notes, "it is accepted in the design and passes now: the acceptance is no longer needed")
			}
		}
	}
	return v
}

// picture adds what only pictures need.
func (s *subject) picture(r *Result) {
	if s.lacksMount() == nil {
		r.Stress = s.stresses()
	}
	if len(r.Flying) > 0 {
		bands, err := s.modeBands()
		for i := range r.Flying {
			r.Flying[i].Path = s.shape(i)
			if err == nil {
				r.Flying[i].Move = s.shakeAt(i, bands[i]).move * 1e3
			}
		}
		r.Response = s.response()
		rpm := func(hertz float64) float64 { return hertz * 60 }
		r.Speeds = Speeds{rpm(s.rotors.Hover.Mid), rpm(s.rotors.Working.Low), rpm(s.rotors.Working.High), rpm(s.rotors.Full.High)}
	}
	if s.lacks("leads") == nil {
		r.Wires = s.wires()
	}
}

// report adds what stands beside the verdicts.
func (s *subject) report(r *Result) {
	if s.lacksMount() == nil {
		s.reportTip(r)
	}
	if s.lacksStructure() == nil && s.rotorsError == nil {
		if bands, err := s.modeBands(); err == nil {
			for _, b := range bands {
				r.Flying = append(r.Flying, Mode{Shape: b.label, Hz: b.mid, Low: b.low, High: b.high})
			}
		}
		for _, line := range s.rotors.Lines() {
			r.Bands = append(r.Bands, Band{Name: fmt.Sprintf("%s, %s", line.Name, line.Regime), From: line.Band.Low, To: line.Band.High})
		}
	}
	if s.lacksAircraft() == nil {
		if f, err := s.falls(); err == nil && f != nil {
			height, _ := s.drop()
			r.TipOver = &TipOver{
				Required: f.Speed, Damage: f.Outcome.Typical.DamageSpeed, Break: f.Outcome.Typical.BreakSpeed,
				BreakLow: f.Outcome.Low.BreakSpeed, BreakHigh: f.Outcome.High.BreakSpeed,
				Direction: vector(f.Direction), At: r3.Scale(1e3, r3.Vec{X: s.receiver.X, Y: s.receiver.Y, Z: s.top()}),
				Arms:       [2]r3.Vec{r3.Scale(1e3, s.aircraft.arms[f.Arms[0]]), r3.Scale(1e3, s.aircraft.arms[f.Arms[1]])},
				DropHeight: height, Weakest: f.Outcome.Typical.Broken,
			}
		}
	}
	r.Screws = s.grips()
	r.Notes = s.assumptions()
}

func (s *subject) reportTip(r *Result) {
	if e, err := s.solve(variant{middle, typical}, held); err == nil {
		lowEnd, err1 := s.solve(variant{soft, low}, held)
		highEnd, err2 := s.solve(variant{stiff, high}, held)
		for i, m := range e.modes {
			mode := Mode{Shape: m.Label, Hz: m.Frequency, Low: m.Frequency, High: m.Frequency}
			if err1 == nil && i < len(lowEnd.modes) {
				mode.Low = lowEnd.modes[i].Frequency
			}
			if err2 == nil && i < len(highEnd.modes) {
				mode.High = highEnd.modes[i].Frequency
			}
			r.Held = append(r.Held, mode)
		}
	}
	r.Shares = s.shares()
	r.Tip.Compliance = s.tipCompliance()
	if v, ok := r.Verdict("sway"); ok && v.State != NoData {
		r.Tip.Tilt, r.Tip.Deflection = v.Figures[0].Value, v.Figures[1].Value
	}
}

// assumptions lists what stands in for an answer that was not given and moves a verdict.
func (s *subject) assumptions() []string {
	var notes []string
	note := func(path, text string) {
		if !s.doc.Has(path) {
			notes = append(notes, text)
		}
	}
	a := s.aircraft
	note("airframe.inertia.x", fmt.Sprintf("inertia of the aircraft assumed from its mass and motor diagonal: %.2g, %.2g, %.2g kg·m²", a.inertia[0][0], a.inertia[1][1], a.inertia[2][2]))
	if len(s.assembly.Pads) > 0 && s.doc.Mast.Legs.Pattern != "stack holes" {
		notes = append(notes, "arms or standoffs under the legs' pads taken as rigid")
	}
	note("airframe.centre_of_gravity.z", fmt.Sprintf("centre of gravity assumed %.0f mm above the main plate", s.doc.Airframe.CentreOfGravity.Z.Millimetres()))
	if s.lacksStructure() == nil && s.rotorsError == nil {
		note("airframe.bandwidth", fmt.Sprintf("attitude-control bandwidth assumed %.3g Hz from the propeller's size", s.rotors.Drive.Bandwidth))
		note("motors.hover_speed", fmt.Sprintf("hover speed computed: %.0f rpm (%.0f to %.0f)", s.rotors.Hover.Mid*60, s.rotors.Hover.Low*60, s.rotors.Hover.High*60))
		note("motors.rotating_mass", fmt.Sprintf("propeller and bell assumed to weigh %.0f g", s.rotors.Drive.RotatingMass*1e3))
	}
	return notes
}
