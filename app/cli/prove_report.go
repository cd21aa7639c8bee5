package cli

import (
	"fmt"
	"io"
	"strings"

	"mastwright/app/build"
	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/review"
)

// print prints a test's result: what was found, against the design, what differs and why, what can be entered and what that does.
func (p proven) print(out io.Writer, done []string) {
	for _, t := range prove.Tests() {
		if t.Name != p.Test || !t.Powered {
			continue
		}
		for _, c := range t.Cautions() {
			fmt.Fprint(out, build.Wrap("  -", 4, c))
		}
		fmt.Fprintln(out)
	}
	if p.Invented {
		fmt.Fprint(out, build.Wrap("!!", 3, "The record is made up, not measured."), "\n")
	}
	paragraph(out, p.design.doc.Name+": "+p.Headline)
	if len(p.Compared) > 0 {
		fmt.Fprintf(out, "\n%s%9s%18s%20s\n", build.Pad("", 33), "predicted", "measured", "off by")
	}
	for _, c := range p.Compared {
		off := build.Digits(100*c.Off, 2) + " %"
		if c.Agrees {
			off += ", agrees"
		} else {
			off += ", differs"
		}
		fmt.Fprintf(out, "%s%s%s%20s\n", build.Pad(c.Name+", "+c.Unit, 33), build.PadLeft(build.Digits(c.Predicted.Value, 4), 9),
			build.PadLeft(build.Digits(c.Measured.Value, 4)+" ± "+build.Digits(c.Measured.Plus(), 2), 18), off)
	}
	for _, c := range p.Compared {
		if c.Words != "" {
			paragraph(out, "\n"+capital(c.Words))
		}
		for i, cause := range c.Causes {
			if i == 0 {
				fmt.Fprintln(out, "Likely causes, in this order, and what tells them apart:")
			}
			fmt.Fprint(out, build.Wrap(fmt.Sprintf("  %d", i+1), 5, capital(cause.Why)+". "+build.Sentence(capital(cause.Test))))
		}
	}
	for i, w := range p.Words {
		if i == 0 {
			fmt.Fprintln(out)
		}
		paragraph(out, capital(w))
	}
	p.printFindings(out)
	for i, n := range p.Notes {
		if i == 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprint(out, build.Wrap("Note:", 6, build.Sentence(n)))
	}
	if len(done) > 0 {
		fmt.Fprintln(out)
	}
	for _, d := range done {
		paragraph(out, d)
	}
}

// printFindings prints what can be entered, and what the verdicts become with it.
func (p proven) printFindings(out io.Writer) {
	if len(p.Findings) == 0 {
		return
	}
	if p.flags.Use {
		fmt.Fprintln(out, "\nMeasured and entered:")
	} else {
		fmt.Fprintln(out, "\nMeasured, to enter with --use --out FILE:")
	}
	for _, f := range p.Findings {
		fmt.Fprint(out, build.Wrap("", 4, "  "+value(f.Value, f.Answer)+": "+f.Value.Source()))
	}
	switch n := p.Changed(); {
	case len(p.Moves) == 0:
		fmt.Fprintln(out, "No verdict moves with it.")
	case n == 0:
		fmt.Fprintln(out, "With it no verdict changes its state; these figures move:")
	case n == 1:
		fmt.Fprintln(out, "With it 1 verdict changes:")
	default:
		fmt.Fprintf(out, "With it %d verdicts change:\n", n)
	}
	for _, m := range p.Moves {
		state := m.Was.String()
		if m.Was != m.Is {
			state += " -> " + m.Is.String()
		}
		fmt.Fprint(out, build.Wrap("  "+build.Pad(m.Title, 12), 15, state+", "+movement(m)))
	}
}

// movement says what a verdict's figure was and is.
func movement(m prove.Move) string {
	was, is := build.Figure(m.From.Value, m.From.Unit), build.Figure(m.To.Value, m.To.Unit)
	switch {
	case m.Was == review.NoData:
		return m.To.Name + " " + is
	case m.From.Name != m.To.Name:
		return m.From.Name + " " + was + ", now " + m.To.Name + " " + is
	case was != is:
		return m.From.Name + " " + was + " -> " + is
	}
	return fmt.Sprintf("%s %s, its spread now %s to %s", m.From.Name, is, build.Figure(m.To.Low, m.To.Unit), build.Figure(m.To.High, m.To.Unit))
}

func paragraph(out io.Writer, text string) {
	if text != "" && text[0] == '\n' {
		fmt.Fprintln(out)
	}
	if !strings.HasSuffix(text, "?") {
		text = build.Sentence(text)
	}
	fmt.Fprint(out, build.Wrap("", 0, text))
}

// capital begins a sentence; a material's ID stays as it is written.
func capital(text string) string {
	i := len(text) - len(strings.TrimLeft(text, "\n"))
	word, _, _ := strings.Cut(text[i:], " ")
	if word == "" || word[0] < 'a' || word[0] > 'z' || strings.ContainsAny(word, "0123456789-") {
		return text
	}
	return text[:i] + string(word[0]-'a'+'A') + text[i+1:]
}

// value is a measured value in words.
func value(m design.Measured, answer string) string {
	spread := ""
	if m.Spread > 0 {
		spread = " ± " + build.Digits(100*m.Spread.Fraction(), 2) + " %"
	}
	switch m.What {
	case design.MeasuredModulus:
		return fmt.Sprintf("modulus of %s, layers %s the mast, %s MPa%s", m.Of, m.Layers, build.Digits(m.Modulus.Megapascals(), 4), spread)
	case design.MeasuredStiffness:
		return fmt.Sprintf("stiffness of the whole mount, %s of the computed one%s", build.Digits(m.Factor.Fraction(), 3), spread)
	case design.MeasuredDensity:
		return fmt.Sprintf("density of %s, %s of the library's%s", m.Of, build.Digits(m.Factor.Fraction(), 3), spread)
	case design.MeasuredLead:
		of := m.Of
		if of == "" {
			of = "every lead"
		}
		return fmt.Sprintf("field of %s, %s of the computed one%s", of, build.Digits(m.Factor.Fraction(), 3), spread)
	}
	return fmt.Sprintf("%s = %s%s", m.Of, answer, spread)
}

// proofRecord is a test's result as JSON. Numbers are in the units that stand beside them or in their keys; angles of the
// mounting are in degrees under turn_deg, clockwise seen from above, with right_way_up.
type proofRecord struct {
	Test       string             `json:"test"`
	Headline   string             `json:"headline"`
	Invented   bool               `json:"invented"`
	Compared   []comparisonRecord `json:"compared"`
	Words      []string           `json:"words"`
	Notes      []string           `json:"notes"`
	Findings   []findingRecord    `json:"findings"`
	Moves      []movedRecord      `json:"moves"`
	Changed    int                `json:"verdicts_changed"`
	TurnDeg    *int               `json:"turn_deg,omitempty"`
	RightWayUp *bool              `json:"right_way_up,omitempty"`
	Frequency  *estimateRecord    `json:"frequency_hz,omitempty"`
	Decay      *float64           `json:"damping_by_decay,omitempty"`
	HalfPower  *float64           `json:"damping_by_half_power,omitempty"`
	Taps       int                `json:"taps,omitempty"`
	Stiffness  *estimateRecord    `json:"stiffness_n_mm,omitempty"`
	Speed      *estimateRecord    `json:"speed_rpm,omitempty"`
	Vibration  *float64           `json:"vibration_m_s2,omitempty"`
	Detail     any                `json:"detail,omitempty"`
}

type estimateRecord struct {
	Value *float64 `json:"value"`
	Low   *float64 `json:"low"`
	High  *float64 `json:"high"`
}

type comparisonRecord struct {
	Name      string         `json:"name"`
	Unit      string         `json:"unit"`
	Measured  estimateRecord `json:"measured"`
	Predicted estimateRecord `json:"predicted"`
	Agrees    bool           `json:"agrees"`
	Off       *float64       `json:"off"`
	Words     string         `json:"words"`
	Causes    []bench.Cause  `json:"causes"`
}

type findingRecord struct {
	What      string   `json:"what"`
	Of        string   `json:"of"`
	Layers    string   `json:"layers,omitempty"`
	Modulus   *float64 `json:"modulus_mpa,omitempty"`
	Factor    *float64 `json:"factor,omitempty"`
	Frequency *float64 `json:"frequency_hz,omitempty"`
	Answer    string   `json:"answer,omitempty"`
	Spread    *float64 `json:"spread"`
	Date      string   `json:"date"`
	Method    string   `json:"method"`
	Spool     string   `json:"spool,omitempty"`
	Printer   string   `json:"printer,omitempty"`
	Walls     int      `json:"walls,omitempty"`
}

type movedRecord struct {
	Check string   `json:"check"`
	Was   string   `json:"was"`
	Is    string   `json:"is"`
	From  *float64 `json:"from"`
	To    *float64 `json:"to"`
	Unit  string   `json:"unit"`
}

func newEstimate(e bench.Estimate) estimateRecord {
	return estimateRecord{build.Number(e.Value), build.Number(e.Low), build.Number(e.High)}
}

func newFindingRecord(f design.Finding) findingRecord {
	m := f.Value
	r := findingRecord{What: m.What, Of: m.Of, Layers: m.Layers, Answer: f.Answer, Spread: build.Number(m.Spread.Fraction()), Date: m.Date, Method: m.Method,
		Spool: m.Spool, Printer: m.Printer, Walls: m.Walls}
	for _, n := range []struct {
		to    **float64
		value float64
	}{{&r.Modulus, m.Modulus.Megapascals()}, {&r.Factor, m.Factor.Fraction()}, {&r.Frequency, m.Frequency.Hertz()}} {
		if n.value != 0 {
			*n.to = build.Number(n.value)
		}
	}
	return r
}

func newProofRecord(p prove.Result) proofRecord {
	r := proofRecord{Test: p.Test, Headline: p.Headline, Invented: p.Invented, Compared: []comparisonRecord{}, Words: orNone(p.Words), Notes: orNone(p.Notes),
		Findings: []findingRecord{}, Moves: []movedRecord{}, Changed: p.Changed()}
	for _, c := range p.Compared {
		causes := c.Causes
		if causes == nil {
			causes = []bench.Cause{}
		}
		r.Compared = append(r.Compared, comparisonRecord{c.Name, c.Unit, newEstimate(c.Measured), newEstimate(c.Predicted), c.Agrees, build.Number(c.Off), c.Words, causes})
	}
	for _, f := range p.Findings {
		r.Findings = append(r.Findings, newFindingRecord(f))
	}
	for _, m := range p.Moves {
		r.Moves = append(r.Moves, movedRecord{m.ID, m.Was.String(), m.Is.String(), build.Number(m.From.Value), build.Number(m.To.Value), m.To.Unit})
	}
	switch {
	case p.Ringing != nil:
		e := newEstimate(bench.Around(p.Ringing.Hz, p.Ringing.Plus))
		r.Frequency, r.Decay, r.HalfPower, r.Taps = &e, build.Number(p.Ringing.Decay), build.Number(p.Ringing.HalfPower), len(p.Ringing.Taps)
	case p.Turning != nil:
		e := newEstimate(bench.Around(60*p.Turning.Speed, 60*p.Turning.Plus))
		r.Speed = &e
		if p.Turning.HasLevel {
			r.Vibration = build.Number(p.Turning.Level)
		}
	case p.Hung != nil:
		if p.Hung.Unit == "N/m" {
			e := newEstimate(p.Hung.Stiffness.Times(1e-3))
			r.Stiffness = &e
		}
		r.Detail = p.Hung
	case p.Pointing != nil:
		r.TurnDeg, r.RightWayUp, r.Detail = &p.Pointing.TurnDeg, &p.Pointing.RightWayUp, p.Pointing
	case p.Weighed != nil:
		r.Detail = p.Weighed
	case p.Measured != nil:
		r.Detail = p.Measured
	case p.Throttle != nil:
		r.Detail = p.Throttle
	case p.Turned != nil:
		r.Detail = p.Turned
	case p.Radio != nil:
		r.Detail = p.Radio
	}
	return r
}
