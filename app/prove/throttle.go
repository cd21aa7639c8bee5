package prove

import (
	"fmt"
	"io"
	"math"
	"slices"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
	"mastwright/design/units"
)

// ThrottleInput is how a throttle log is read.
type ThrottleInput struct {
	About
	Unit          string  // of the axes, one of compass.Units; "" guesses
	Lead          string  // whose field is corrected; "" every lead's
	ThrottleHover float64 // throttle in the log's measure at hover; needed without a current
	ThrottleFull  float64
	Vertical      int // compass axis that stands upright: 1, 2 or 3; 0 means 3
	Record        record.Options
}

// Throttle holds a log of the compass against the motors' current against the leads of the design.
func Throttle(doc *design.Document, r io.Reader, in ThrottleInput) (Result, error) {
	if in.Lead != "" && !slices.ContainsFunc(doc.Leads, func(l design.Lead) bool { return l.Name == in.Lead }) {
		return Result{}, refuse(fmt.Sprintf("%q is no lead of this design; leave it out for every lead.", in.Lead))
	}
	base, err := without(doc, func(m design.Measured) bool {
		return m.What == design.MeasuredLead && (in.Lead == "" || m.Of == "" || m.Of == in.Lead)
	})
	if err != nil {
		return Result{}, err
	}
	field, err := earth(base)
	if err != nil {
		return Result{}, err
	}
	expected, err := expect(base)
	if err != nil {
		return Result{}, err
	}
	in.Record.Thin = true
	rec, err := record.Read(r, append(record.Needs(record.MagX, record.MagY, record.MagZ), record.Maybe(record.Current, record.Throttle)...), in.Record)
	if err != nil {
		return Result{}, refused(err)
	}
	l := doc.Limits
	throttled, err := compass.Throttle(compass.Log{
		Axes:    [3][]float64{rec.Values(record.MagX), rec.Values(record.MagY), rec.Values(record.MagZ)},
		Current: rec.Values(record.Current), Throttle: rec.Values(record.Throttle),
	}, compass.ThrottleOptions{Unit: in.Unit, Total: field.F, Horizontal: field.H, Idle: expected.idle, Hover: expected.hover, Full: expected.full,
		ThrottleHover: in.ThrottleHover, ThrottleFull: in.ThrottleFull,
		HoverLimits: compass.Limits{Pass: l.HeadingHold.Pass.Radians(), Marginal: l.HeadingHold.Marginal.Radians()},
		FullLimits:  compass.Limits{Pass: l.HeadingFull.Pass.Radians(), Marginal: l.HeadingFull.Marginal.Radians()},
		Height:      base.Mast.Height.Metres(), Decay: expected.decay, Vertical: in.Vertical})
	if err != nil {
		return Result{}, refused(err)
	}
	agreement, err := bench.Compare(bench.LeadField, throttled.Across, expected.slope, false)
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "throttle", Invented: rec.Invented, Throttle: &throttled, Words: throttled.Words, Notes: texts(rec.Notes),
		Compared: []Comparison{compared("level field for each ampere", "uT/A", agreement, 1e6)}}
	out.Headline = fmt.Sprintf("The compass sees %s uT of level field for each ampere; %.3g uT is predicted.", throttled.Across.Times(1e6).Words(), expected.slope.Value*1e6)
	for i, p := range throttled.Plots {
		out.Plots = append(out.Plots, Plot{"Compass axis " + string("xyz"[i%3]), p})
	}
	factor := bench.Estimate{Value: agreement.Factor.Value, Low: agreement.Factor.Low, High: agreement.Factor.High}
	if in.Lead != "" && len(doc.Leads) > 1 {
		if factor, err = leadFactor(base, in.Lead, throttled.Across); err != nil {
			return Result{}, err
		}
	}
	of := in.Lead
	if of == "" {
		of = "every lead"
	}
	out.Words = append(out.Words, fmt.Sprintf("the field of %s is %.3g of the computed one", of, factor.Value))
	out.Findings = []design.Finding{{Value: in.of(design.Measured{What: design.MeasuredLead, Of: in.Lead, Factor: units.Fraction(significant(factor.Value, 4)), Spread: spreadOf(factor)}, "throttle test")}}
	return out.finish(doc)
}

// expectation is what a design says of its leads, by the current of the pack, A.
type expectation struct {
	idle, hover, full float64
	slope             bench.Estimate // T/A, level
	decay             func(height float64) float64
}

// expect works out what the leads do to the compass. The pack's current is the greatest that a lead carries.
func expect(doc *design.Document) (expectation, error) {
	var e expectation
	for _, l := range doc.Leads {
		e.idle, e.hover, e.full = max(e.idle, l.Currents.Idle.Amperes()), max(e.hover, l.Currents.Hover.Amperes()), max(e.full, l.Currents.Full.Amperes())
	}
	if len(doc.Leads) == 0 || e.hover <= e.idle || e.full <= e.idle {
		return e, refuse("The design predicts no lead field yet: describe the leads and what they carry idle, in hover and at full throttle.")
	}
	result, wrong := review.Run(doc)
	if len(wrong) > 0 {
		return e, unbuilt(wrong)
	}
	if result.Compass == nil || len(result.Compass.Field) < 2 {
		return e, refuse("The design predicts no lead field yet: answer what mastwright missing asks of the heading.")
	}
	points := result.Compass.Field
	e.decay = func(height float64) float64 { return change(points, height*1e3) }
	e.slope.Value = e.decay(doc.Mast.Height.Metres()) * 1e-6 / (e.full - e.idle)
	e.slope.Low, e.slope.High = e.slope.Value, e.slope.Value
	if v, ok := result.Verdict("heading"); ok {
		for _, f := range v.Figures {
			if f.Name == "swing in full throttle" && f.Low > 0 && f.High < 90 {
				with := math.Sin(radians(f.High)) / math.Sin(radians(f.Low))
				e.slope.Low, e.slope.High = e.slope.Value/with, e.slope.Value*with
			}
		}
	}
	return e, nil
}

// change is the level field in uT at full throttle with the mast so many mm high, between the heights that were studied by
// the power law through its neighbours, beyond them by that of the last two.
func change(points []review.FieldPoint, height float64) float64 {
	i := 1
	for i < len(points)-1 && points[i].Height < height {
		i++
	}
	a, b := points[i-1], points[i]
	if a.FullChange <= 0 || b.FullChange <= 0 || height <= 0 {
		return b.FullChange
	}
	power := math.Log(b.FullChange/a.FullChange) / math.Log(b.Height/a.Height)
	return b.FullChange * math.Pow(height/b.Height, power)
}

// leadFactor is the factor on one lead's field with which the design shows the measured one.
func leadFactor(doc *design.Document, name string, across bench.Estimate) (bench.Estimate, error) {
	scale, err := vibration.Implied(across.Value, across.Low, across.High, func(factor float64) (float64, error) {
		next := doc.Clone()
		if err := next.Use(design.Measured{What: design.MeasuredLead, Of: name, Factor: units.Fraction(min(factor, 50))}, ""); err != nil {
			return 0, err
		}
		e, err := expect(next)
		return e.slope.Value, err
	})
	if err != nil {
		return bench.Estimate{}, refuse(fmt.Sprintf("No factor on %q alone explains %.3g uT/A: correct every lead together, or log with that lead's load alone.", name, across.Value*1e6))
	}
	return bench.Estimate{Value: scale.Value, Low: scale.Low, High: scale.High}, nil
}
