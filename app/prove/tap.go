package prove

import (
	"fmt"
	"io"
	"math"
	"strings"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
	"mastwright/design/units"
)

// TapInput is how a mount was tapped and how its record is read.
type TapInput struct {
	About
	vibration.TapOptions
	Record record.Options
}

// Tap reads the record of a tapped mount: the frequency at which it rings, and from it the modulus of the mast's plastic where
// it stood on a block, the stiffness of the whole mount on its aircraft.
func Tap(doc *design.Document, r io.Reader, in TapInput) (Result, error) {
	stood, err := standing(doc, in.Support)
	if err != nil {
		return Result{}, err
	}
	design, err := judged(stood)
	if err != nil {
		return Result{}, err
	}
	predicted := modes(design, in.Support)
	if len(predicted) == 0 {
		return Result{}, refuse("The design predicts no frequency yet: answer what mastwright missing asks of the modes.")
	}
	series, err := record.ReadMotion(r, in.Record)
	if err != nil {
		return Result{}, refused(err)
	}
	ringing, err := vibration.Tap(series, predicted, in.TapOptions)
	if err != nil {
		return Result{}, refused(err)
	}
	mode := ringing.Match.Mode
	measured := bench.Around(ringing.Hz, ringing.Plus)
	agreement, err := bench.Compare(bench.Frequency, measured, bench.Estimate{Value: mode.Hz, Low: mode.Low, High: mode.High}, in.Support.Modulus())
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "tap", Invented: series.Invented, Ringing: &ringing, Notes: texts(ringing.Notes),
		Compared: []Comparison{compared(mode.Name, "Hz", agreement, 1)}, Plots: tapPlots(ringing, mode, series.Unit)}
	out.Headline = fmt.Sprintf("It rings at %s Hz, %s; %.4g Hz is predicted for %s.", measured.Words(), in.Support, mode.Hz, mode.Name)
	if ringing.Decay > 0 {
		out.Words = append(out.Words, fmt.Sprintf("damping %.2g %% of critical by its decay", 100*ringing.Decay))
	}
	if ringing.HalfPower > 0 {
		out.Words = append(out.Words, fmt.Sprintf("damping %.2g %% of critical by the width at half power", 100*ringing.HalfPower))
	}
	method := "tap test, " + in.Support.String()
	if in.Support.Modulus() {
		err = out.modulus(doc, stood, in.About, method, measured, at(predicted, mode), ringing.Hz)
	} else {
		out.stiffness(in.About, method, bench.Estimate{Value: ringing.Match.Factor, Low: ringing.Match.Low, High: ringing.Match.High}, ringing.Hz)
	}
	if err != nil {
		return Result{}, err
	}
	return out.finish(doc)
}

// at is the place of a mode in a list.
func at(list []vibration.Mode, mode vibration.Mode) int {
	for i, m := range list {
		if m == mode {
			return i
		}
	}
	return 0
}

// modulus adds the modulus of the mast's plastic with which the design as it stood has the measured frequency in its mode of an
// index. Where a stiffness was measured on the aircraft before, it is read again with the modulus.
func (r *Result) modulus(doc, stood *design.Document, about About, method string, hz bench.Estimate, mode int, heard float64) error {
	p, err := mastPlastic(stood)
	if err != nil {
		return err
	}
	scale, err := p.implied(stood, widened(hz, modelSpread/2), func(r review.Result) float64 {
		if mode >= len(r.Held) {
			return 0
		}
		return r.Held[mode].Hz
	})
	if err != nil {
		return refuse("No modulus of " + p.material.ID + " explains it: " + err.Error())
	}
	r.enterModulus(doc, p, about, method, scale, heard)
	return nil
}

func (r *Result) enterModulus(doc *design.Document, p plastic, about About, method string, scale vibration.Scale, heard float64) {
	e := bench.Estimate{Value: scale.Value, Low: scale.Low, High: scale.High}
	if e.Spread() > worthless {
		r.Notes = append(r.Notes, fmt.Sprintf("the modulus of %s is not entered: the foot and the screws give most of the movement here, and it would be known to %.0f %% only", p.material.ID, 100*e.Spread()))
		return
	}
	m := design.Measured{What: design.MeasuredModulus, Of: p.material.ID, Layers: p.layers(), Modulus: units.Megapascals(significant(scale.Value*p.modulus()/1e6, 4)),
		Frequency: units.Hertz(significant(heard, 5)), Spread: spreadOf(e), Walls: doc.Print.Walls}
	m = about.of(m, method)
	r.Findings = append(r.Findings, design.Finding{Value: m})
	r.Words = append(r.Words, fmt.Sprintf("modulus of %s, layers %s the mast, %.4g MPa ± %.2g %%: %.3g of the library's", p.material.ID, m.Layers, m.Modulus.Megapascals(),
		100*m.Spread.Fraction(), scale.Value))
	r.again(doc, m)
}

// again reads a stiffness that was measured on the aircraft again with a new modulus, from the frequency that was kept with it.
func (r *Result) again(doc *design.Document, modulus design.Measured) {
	old, ok := doc.Stiffness()
	if !ok {
		return
	}
	with := doc.Clone()
	support := vibration.HeldDown
	if strings.Contains(old.Method, vibration.OnFoam.String()) {
		support = vibration.OnFoam
	}
	if with.Use(modulus, "") == nil && old.Frequency > 0 {
		stood, err := without(with, func(m design.Measured) bool { return m.What == design.MeasuredStiffness })
		if err == nil {
			if got, err := judged(stood); err == nil {
				if list := modes(got, support); len(list) > 0 {
					near := list[0]
					for _, m := range list {
						if math.Abs(math.Log(old.Frequency.Hertz()/m.Hz)) < math.Abs(math.Log(old.Frequency.Hertz()/near.Hz)) {
							near = m
						}
					}
					was := old.Factor
					old.Factor = units.Fraction(significant(math.Pow(old.Frequency.Hertz()/near.Hz, 2), 4))
					r.Findings = append(r.Findings, design.Finding{Value: old})
					r.Notes = append(r.Notes, fmt.Sprintf("the stiffness measured on the aircraft held part of this modulus; read again from its %.4g Hz it is %.3g of the computed one, not %.3g",
						old.Frequency.Hertz(), old.Factor.Fraction(), was.Fraction()))
					return
				}
			}
		}
	}
	r.Notes = append(r.Notes, "the stiffness measured on the aircraft held part of this modulus and kept no frequency to read it again from: repeat that test, or withdraw its value")
}

// stiffness adds the stiffness of the whole mount on its aircraft over the computed one.
func (r *Result) stiffness(about About, method string, factor bench.Estimate, heard float64) {
	factor = widened(factor, modelSpread)
	m := about.of(design.Measured{What: design.MeasuredStiffness, Factor: units.Fraction(significant(factor.Value, 4)), Frequency: units.Hertz(significant(heard, 5)),
		Spread: spreadOf(factor)}, method)
	r.Findings = append(r.Findings, design.Finding{Value: m})
	r.Words = append(r.Words, fmt.Sprintf("stiffness of the whole mount with foot and frame %.3g of the computed one; for the plastic alone repeat with the mount on a solid block", factor.Value))
}

// of fills in what is kept with every measured value.
func (a About) of(m design.Measured, method string) design.Measured {
	m.Date, m.Spool, m.Printer, m.Method = a.Date, a.Spool, a.Printer, method
	return m
}

// spreadOf is the spread of an estimate as the document keeps it, in two digits and at most all of it.
func spreadOf(e bench.Estimate) units.Ratio {
	return units.Fraction(min(1, significant(e.Spread(), 2)))
}

// significant rounds to so many digits.
func significant(x float64, digits int) float64 {
	if x == 0 {
		return 0
	}
	step := math.Pow(10, float64(digits-1)-math.Floor(math.Log10(math.Abs(x))))
	return math.Round(x*step) / step
}

func tapPlots(r vibration.Ringing, mode vibration.Mode, unit string) []Plot {
	spectrum := bench.Plot{X: "frequency (Hz)", Y: "amplitude, part of the highest", Lines: []bench.Trace{{Name: "spectrum", X: r.Spectrum.Hz, Y: r.Spectrum.Level}}}
	for _, p := range r.Spectrum.Peaks {
		spectrum.Points = append(spectrum.Points, bench.Point{X: p.Hz, Y: p.Level, Used: math.Abs(p.Hz/r.Hz-1) < .05, Name: "peak"})
	}
	spectrum.Lines = append(spectrum.Lines, bench.Trace{Name: "predicted", X: []float64{mode.Hz, mode.Hz}, Y: []float64{0, 1}})
	fade := bench.Plot{X: "time (s)", Y: "ringing (" + unit + ")", Lines: []bench.Trace{{Name: "ringing", X: r.Fade.Time, Y: r.Fade.Value},
		{Name: "envelope", X: r.Fade.Time, Y: r.Fade.Envelope}}}
	fit := bench.Trace{Name: "decay"}
	for i, t := range r.Fade.Time {
		if r.Fade.Line[i] > 0 {
			fit.X, fit.Y = append(fit.X, t), append(fit.Y, r.Fade.Line[i])
		}
	}
	fade.Lines = append(fade.Lines, fit)
	return []Plot{{"Spectrum", spectrum}, {"Decay", fade}}
}
