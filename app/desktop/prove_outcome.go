package desktop

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/app/prove"
	"mastwright/app/session"
	"mastwright/design"
	"mastwright/materials"
)

// outcome is the right column of Prove: predicted, measured and whether they agree, in words why not, what the verdicts become, and the
// measured values in use.
type outcome struct {
	p *prover

	table *agreement
	moves *moves
	use   *look.Chip
	keep  *look.Chip
	gauge *gauge // of a record that takes long
}

func newOutcome(p *prover) outcome {
	g := newGauge()
	g.onCancel = p.giveUp
	return outcome{p: p, table: newAgreement(), moves: newMoves(), gauge: g, use: look.NewChip("Use it", p.use), keep: look.NewChip("Keep the plastic in a file…", p.keepPlastic)}
}

// show says what there is to say of a test.
func (o *outcome) show(t *trial, n *session.Snapshot) {
	column := o.p.right
	o.use.OnFocus = func() { column.Reveal(o.use) }
	o.keep.OnFocus = func() { column.Reveal(o.keep) }
	pieces := []fyne.CanvasObject{look.NewLabel(t.test.Title, look.Title, look.Ink), look.Space(8)}
	said := func(space float32, text string, font look.Font, role look.Role) {
		if text != "" {
			pieces = append(pieces, look.Space(space), look.NewProse(text, font, role))
		}
	}
	switch {
	case t.slow:
		o.follow(t)
		pieces = append(pieces, o.gauge)
	case len(t.refused) > 0:
		pieces = append(pieces, newMarked(look.Fails, "No answer", look.FailWord), look.Space(4))
		for _, sentence := range t.refused {
			said(4, begun(dotted(sentence)), look.Body, look.Ink)
		}
	case t.result != nil:
		said(0, micro(t.result.Headline), look.Body, look.Ink)
		if t.result.Invented {
			said(6, "This record was made up. It tries the test out; it says nothing of your mount.", look.Strong, look.Ink)
		}
	default:
		said(0, "Nothing was read yet.", look.Body, look.Second)
	}
	o.table.set(linesOf(t))
	pieces = append(pieces, look.Space(10), o.table)
	if t.result == nil {
		for _, sentence := range t.expectation {
			said(6, begun(dotted(sentence)), look.Caption, look.Second)
		}
		if len(t.expected) == 0 && len(t.expectation) == 0 && !t.expecting {
			said(6, "The design predicts nothing for this test.", look.Caption, look.Second)
		}
	}
	if t.result != nil && !t.slow {
		pieces = o.found(pieces, *t.result, n)
	}
	pieces = append(pieces, look.Space(18), o.p.inUse)
	column.SetPieces(pieces...)
}

// follow tells how far the reading of a record is.
func (o *outcome) follow(t *trial) {
	if !t.slow || t != o.p.trial() {
		return
	}
	said := fmt.Sprintf("Reading %s, %.0f %%", t.from.name(), 100*t.share)
	if t.share == 0 || t.share >= 1 {
		said = "Working it out"
	}
	o.gauge.say(said, t.share)
}

// found adds what a result says besides its figures.
func (o *outcome) found(pieces []fyne.CanvasObject, r prove.Result, n *session.Snapshot) []fyne.CanvasObject {
	said := func(space float32, text string, font look.Font, role look.Role) {
		if text != "" {
			pieces = append(pieces, look.Space(space), look.NewProse(text, font, role))
		}
	}
	for _, c := range r.Compared {
		if c.Agrees {
			continue
		}
		said(6, capital(dotted(c.Words)), look.Body, look.Ink)
		for i, cause := range c.Causes {
			said(4, fmt.Sprintf("%d  %s. To tell: %s", i+1, capital(cause.Why), dotted(cause.Test)), look.Caption, look.Second)
		}
	}
	if len(r.Findings) > 0 {
		pieces = append(pieces, look.Space(14), look.NewLabel("What the design may take over", look.Strong, look.Ink))
		for _, f := range r.Findings {
			name, value := valueOf(n.Document, f.Value, f.Answer)
			said(3, name, look.Body, look.Ink)
			said(0, value, look.Strong, look.Ink)
		}
		used := inUseAlready(n.Document, r.Findings)
		o.use.SetOff(used)
		row := []fyne.CanvasObject{o.use}
		if _, err := prove.Kept(n.Document, r.Findings, ""); err == nil {
			row = append(row, o.keep)
		}
		pieces = append(pieces, look.Space(4), newChipRow(row...))
		switch changed := r.Changed(); {
		case used:
			said(2, "It is in use.", look.Caption, look.Second)
		case changed == 0:
			said(2, "It changes no verdict's state.", look.Body, look.Second)
		case changed == 1:
			said(2, "It changes 1 verdict.", look.Strong, look.Ink)
		default:
			said(2, fmt.Sprintf("It changes %d verdicts.", changed), look.Strong, look.Ink)
		}
		if r.Fails() && !used {
			said(2, "A check that passed fails with it: the design is to be changed, not the measurement.", look.Body, look.FailWord)
		}
		if o.moves.set(r.Moves); len(r.Moves) > 0 && !used {
			pieces = append(pieces, look.Space(6), o.moves)
		}
	}
	if len(r.Words) > 0 {
		pieces = append(pieces, look.Space(14), look.NewLabel("It says besides", look.Strong, look.Ink))
		for _, word := range r.Words {
			said(3, capital(dotted(micro(word))), look.Body, look.Ink)
		}
	}
	if len(r.Notes) > 0 {
		pieces = append(pieces, look.Space(10))
		for _, note := range r.Notes {
			said(3, capital(dotted(note)), look.Caption, look.Second)
		}
	}
	return pieces
}

// linesOf are the lines of the table: the comparisons of a result, and before there is one the predictions.
func linesOf(t *trial) []agreed {
	var lines []agreed
	if t.result != nil {
		for _, c := range t.result.Compared {
			lines = append(lines, agreed{name: c.Name, unit: c.Unit, predicted: c.Predicted, measured: c.Measured, off: c.Off, agrees: c.Agrees, done: true})
		}
		return lines
	}
	for _, f := range t.expected {
		lines = append(lines, agreed{name: f.Name, unit: f.Unit, predicted: f.Value})
	}
	return lines
}

// inUseAlready reports whether the design holds every finding as it is.
func inUseAlready(doc *design.Document, findings []design.Finding) bool {
	for _, f := range findings {
		held := false
		for _, m := range doc.Measured {
			if m.What != design.MeasuredAnswer || doc.Get(m.Of) == f.Answer {
				m.Before = f.Value.Before
				held = held || m == f.Value
			}
		}
		if !held {
			return false
		}
	}
	return true
}

// valueOf is what a measured value is of, and the value; the answer is that of a finding that is not in use.
func valueOf(doc *design.Document, m design.Measured, answer string) (name, value string) {
	material := func() string {
		if found, err := doc.Library().Find(m.Of); err == nil {
			return unbracketed(found.Title)
		}
		return m.Of
	}
	spread := ""
	if m.Spread > 0 {
		spread = fmt.Sprintf(" ± %.2g %%", 100*m.Spread.Fraction())
	}
	times := shortFigure(m.Factor.Fraction()) + " × the computed one" + spread
	switch m.What {
	case design.MeasuredModulus:
		return "Modulus of " + material() + ", layers " + m.Layers + " the mast", shortFigure(m.Modulus.Megapascals()) + " MPa" + spread
	case design.MeasuredDensity:
		return "Density of " + material(), shortFigure(m.Factor.Fraction()) + " × the library's" + spread
	case design.MeasuredStiffness:
		return "Stiffness of the whole mount", times
	case design.MeasuredLead:
		if m.Of == "" {
			return "Field of every lead", times
		}
		return "Field of " + m.Of, times
	}
	name = m.Of
	if field, known := design.FieldOf(m.Of); known {
		name = field.Title
	}
	if answer == "" {
		answer = doc.Get(m.Of)
	}
	return name, strings.Replace(answer, "m/s2", "m/s²", 1) + spread
}

// micro sets the unit of fields as print does.
func micro(text string) string { return strings.ReplaceAll(text, " uT", " µT") }

// begun begins a sentence, unless it begins with the name of a file.
func begun(text string) string {
	if first, _, _ := strings.Cut(text, " "); strings.Contains(first, ".") {
		return text
	}
	return capital(text)
}

// dotted ends a sentence.
func dotted(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".?!") {
		return text
	}
	return text + "."
}

// keepPlastic writes the plastic with what was measured of it into a file of one's own materials.
func (p *prover) keepPlastic() {
	r := p.trial().result
	if r == nil {
		return
	}
	kept, err := prove.Kept(p.w.shown.Document, r.Findings, "")
	if err != nil {
		p.w.complain(err)
		return
	}
	p.w.choose(chooser{title: "Keep the plastic as", act: "Save", folder: p.w.folder(), name: kept.ID + ".yaml", suffix: ".yaml", making: true,
		done: func(path string) {
			p.w.replacing(path, encoderOf(materials.List{kept}))
		}})
}
