package prove

import (
	"fmt"
	"io"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
	"mastwright/design/units"
)

// HoverInput is how a record of a steady hover is read.
type HoverInput struct {
	About
	Low, High float64 // rev/s, between which the speed is expected; 0 takes the design's band with a third more to either side
	Record    record.Options
	Elsewhere bool // the record is not the flight controller's: its level is not the document's
}

// Hover finds the rotor speed and the level of vibration in a record of a steady hover.
func Hover(doc *design.Document, r io.Reader, in HoverInput) (Result, error) {
	base, err := without(doc, func(m design.Measured) bool {
		return m.What == design.MeasuredAnswer && (m.Of == "motors.hover_speed" || m.Of == "airframe.vibration")
	})
	if err != nil {
		return Result{}, err
	}
	reviewed, err := judged(base)
	if err != nil {
		return Result{}, err
	}
	band, _ := hoverBand(reviewed)
	o := vibration.HoverOptions{Low: in.Low, High: in.High, Rotors: doc.Motors.Count}
	if band.Value > 0 && in.Low == 0 && in.High == 0 {
		o.Low, o.High = band.Low/1.33, band.High*1.33
	}
	if doc.Motors.Blades < 2 {
		return Result{}, refuse("The number of blades is not answered: fill in motors.blades.")
	}
	series, err := record.ReadMotion(r, in.Record)
	if err != nil {
		return Result{}, refused(err)
	}
	turning, err := vibration.Hover(series, doc.Motors.Blades, o)
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "hover", Invented: series.Invented, Turning: &turning, Notes: texts(turning.Notes)}
	speed := bench.Around(turning.Speed, turning.Plus)
	out.Headline = fmt.Sprintf("The rotors turn at %.0f rpm ± %.0f in hover, %.0f to %.0f among them.", turning.Speed*60, turning.Plus*60, turning.Low*60, turning.High*60)
	if band.Value > 0 {
		agreement, err := bench.Compare(bench.Frequency, bench.Estimate{Value: turning.Speed, Low: min(turning.Low, speed.Low), High: max(turning.High, speed.High)}, band, true)
		if err != nil {
			return Result{}, refused(err)
		}
		c := compared("speed in hover", "rpm", agreement, 60)
		c.Words, c.Causes = "the measured speed lies in the computed band", nil
		if !agreement.Agrees {
			c.Words = "the measured speed lies outside the computed band"
			c.Causes = []bench.Cause{
				{Why: "the take-off mass is another one", Test: "weigh the aircraft with its pack"},
				{Why: "the propellers are of another size or pitch", Test: "read the figures on a blade"},
				{Why: "the record is no steady hover", Test: "record again, half a minute without sticks"},
			}
		}
		out.Compared = append(out.Compared, c)
	}
	m := design.Measured{What: design.MeasuredAnswer, Of: "motors.hover_speed", Spread: spreadOf(speed)}
	to := units.RevolutionsPerMinute(significant(turning.Speed*60, 4))
	out.Findings = append(out.Findings, design.Finding{Value: in.of(m, "hover record"), Answer: to.Kind().Format(float64(to))})
	switch {
	case turning.HasLevel && in.Elsewhere:
		out.Words = append(out.Words, fmt.Sprintf("vibration %.3g m/s² rms where it was recorded; the design asks for the flight controller's", turning.Level))
	case turning.HasLevel:
		out.Words = append(out.Words, fmt.Sprintf("vibration %.3g m/s² rms at the flight controller, from %.0f to %.0f Hz", turning.Level, turning.LevelFrom, turning.LevelTo))
		m := design.Measured{What: design.MeasuredAnswer, Of: "airframe.vibration"}
		to := units.MetresPerSecondSquared(significant(turning.Level, 3))
		out.Findings = append(out.Findings, design.Finding{Value: in.of(m, "hover record"), Answer: to.Kind().Format(float64(to))})
	}
	spectrum := bench.Plot{X: "frequency (Hz)", Y: turning.Spectrum.Unit, Lines: []bench.Trace{{Name: "spectrum", X: turning.Spectrum.Hz, Y: turning.Spectrum.Level}}}
	for _, p := range turning.Spectrum.Peaks {
		spectrum.Points = append(spectrum.Points, bench.Point{X: p.Hz, Y: p.Above, Used: true, Name: "comb"})
	}
	out.Plots = []Plot{{"Spectrum", spectrum}}
	return out.finish(doc)
}

// hoverBand is the computed band of the rotors' speed in hover, rev/s.
func hoverBand(r review.Result) (bench.Estimate, bool) {
	for _, b := range r.Bands {
		if b.Name == "once-per-rev, hover" {
			return bench.Estimate{Value: (b.From + b.To) / 2, Low: b.From, High: b.To}, true
		}
	}
	return bench.Estimate{}, false
}
