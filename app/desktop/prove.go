package desktop

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/app/prove"
	"mastwright/app/session"
	"mastwright/design"
)

// prover is the stage Prove: a form for each test at the left, what was found in its record in the middle, and at the right what was
// predicted and measured, what would change, and the measured values in use.
type prover struct {
	w       *Window
	left    *look.Column
	right   *look.Column
	records *records

	trials []*trial
	chips  []*look.Chip  // of the tests
	act    [4]*look.Chip // open a record, make one up, work out what was typed, one more row
	open   int
	opened uint64   // the design that the records are of
	leads  []string // that the throttle test can correct
	built  string   // what stands in the left column

	date, spool, printer *ask // kept with a measured value

	shown outcome
	inUse *inUse
}

func newProver(w *Window) *prover {
	p := &prover{w: w, left: look.NewColumn(), right: look.NewColumn(), records: newRecords()}
	again := func() { p.again(p.trial()) }
	p.date, p.spool, p.printer = askText("Date", "2026-05-02", again), askText("Spool", "its number", again), askText("Printer", "its name", again)
	p.date.boxes[0].Text = time.Now().Format(time.DateOnly)
	for _, a := range []*ask{p.date, p.spool, p.printer} {
		p.seat(a)
	}
	p.opened, p.leads = w.shown.Opened, leadsOf(w.shown.Document)
	for i, test := range prove.Tests() {
		p.trials = append(p.trials, p.newTrial(test))
		chip := look.NewChip(test.Title, func() { p.pick(i) })
		chip.OnFocus = func() { p.left.Reveal(chip) }
		p.chips = append(p.chips, chip)
	}
	p.act = [4]*look.Chip{
		p.leading("Open a record…", p.openRecord),
		p.leading("Try a made-up one", func() { p.attempt(p.trial(), origin{invented: true}) }),
		p.leading("Work it out", func() { p.attempt(p.trial(), origin{}) }),
		p.leading("One more row", func() { p.trial().more(); p.compose(p.trial()) }),
	}
	p.inUse = newInUse(p)
	p.shown = newOutcome(p)
	return p
}

func (p *prover) trial() *trial { return p.trials[p.open] }

// seat makes a question part of the left column.
func (p *prover) seat(a *ask) {
	a.onReveal, a.onReflow = p.left.Reveal, p.left.Reflow
}

// about is what is kept with a measured value.
func (p *prover) about() prove.About {
	return prove.About{Date: p.date.text(), Spool: p.spool.text(), Printer: p.printer.text()}
}

// pick opens the form of a test.
func (p *prover) pick(i int) {
	p.open = i
	p.records.set(p.trial().result)
	p.left.ToTop()
	p.right.ToTop()
	p.show(p.w.shown)
	p.w.compose()
}

// middle is what was found in the record, and before there is one the mount.
func (p *prover) middle() fyne.CanvasObject {
	if t := p.trial(); t.result != nil && len(t.result.Plots) > 0 {
		return p.records
	}
	return p.w.pictures.view()
}

// show follows a snapshot: what is predicted, and what a record says of the design as it is now.
func (p *prover) show(n *session.Snapshot) {
	if p.w.open != Prove {
		return
	}
	p.follow(n)
	t := p.trial()
	p.expect(t, n)
	if t.tried && !t.running && t.serial != n.Serial {
		p.attempt(t, t.from)
	}
	p.compose(t)
	p.inUse.set(n)
	p.shown.show(t, n)
}

// follow makes every form anew for another design, whose records are others, and the throttle test's for a design with other leads.
func (p *prover) follow(n *session.Snapshot) {
	if n.Opened != p.opened {
		p.opened, p.leads, p.built = n.Opened, leadsOf(n.Document), ""
		for i, t := range p.trials {
			t.abandon()
			p.trials[i] = p.newTrial(t.test)
		}
		p.records.set(nil)
		p.w.compose()
		return
	}
	leads := leadsOf(n.Document)
	if slices.Equal(leads, p.leads) {
		return
	}
	p.leads = leads
	for i, t := range p.trials {
		if t.test.Name == "throttle" {
			t.abandon()
			p.trials[i], p.built = p.newTrial(t.test), ""
		}
	}
	p.records.set(p.trial().result)
}

// leadsOf are the names of a design's leads.
func leadsOf(doc *design.Document) []string {
	var names []string
	for _, l := range doc.Leads {
		names = append(names, l.Name)
	}
	return names
}

// compose puts the form of a test into the left column.
func (p *prover) compose(t *trial) {
	built := fmt.Sprint(t.test.Name, len(t.typed), t.named, t.from, t.tried)
	if built == p.built {
		return
	}
	p.built = built
	var chips []fyne.CanvasObject
	for i, chip := range p.chips {
		chip.SetPicked(i == p.open)
		chips = append(chips, chip)
	}
	pieces := []fyne.CanvasObject{look.NewLabel("Prove", look.Title, look.Ink), look.Space(6), newChipRow(chips...), look.Space(10)}
	if cautions := t.test.Cautions(); len(cautions) > 0 {
		pieces = append(pieces, newCaution(cautions), look.Space(10))
	}
	pieces = append(pieces, look.NewProse(t.test.How, look.Body, look.Ink), look.Space(8))
	pieces = append(pieces, t.options...)
	if t.recorded() {
		pieces = append(pieces, look.Space(8), look.NewProse(recordWords(t.test), look.Caption, look.Second),
			look.Space(4), newChipRow(p.act[0], p.act[1]))
	} else {
		pieces = append(pieces, look.Space(8), look.NewLabel(t.heads, look.Strong, look.Ink))
		for _, a := range t.typed {
			pieces = append(pieces, a)
		}
		row := []fyne.CanvasObject{p.act[2], p.act[0], p.act[1]}
		if t.more != nil {
			row = append(row, p.act[3])
		}
		pieces = append(pieces, look.Space(4), newChipRow(row...))
	}
	if t.tried {
		pieces = append(pieces, look.Space(4), look.NewProse("Read: "+t.from.words(), look.Caption, look.Second))
	}
	if t.test.Name != "turn" && t.test.Name != "radio" {
		pieces = append(pieces, look.Space(12), look.NewLabel("Kept with the value", look.Strong, look.Ink), p.date, p.spool, p.printer)
	}
	p.left.SetPieces(pieces...)
}

// recordWords say what a record holds, and in what kind of file.
func recordWords(test prove.Test) string {
	said := "The record: " + test.Record + ", in a table of text with a header"
	if strings.Contains(test.Record, "sound") {
		said += ", or a sound as 16-bit WAV"
	}
	return said + "."
}

// leading is a button of the left column.
func (p *prover) leading(text string, press func()) *look.Chip {
	chip := look.NewChip(text, press)
	chip.OnFocus = func() { p.left.Reveal(chip) }
	return chip
}

// openRecord asks for a record of the open test.
func (p *prover) openRecord() {
	t := p.trial()
	sound := ""
	if prove.Audible(t.test.Name) {
		sound = ".wav"
	}
	p.w.choose(chooser{title: "Open a record: " + t.test.Title, act: "Open", folder: standing(p.w.app.Preferences().String(recordKey)), suffix: ".csv", also: []string{sound, ".txt", ".tsv"},
		done: func(path string) {
			p.w.app.Preferences().SetString(recordKey, filepath.Dir(path))
			p.attempt(t, origin{file: path})
		}})
}

// recordKey keeps the folder of records.
const recordKey = "records"

// again reads the same record anew after the form was changed.
func (p *prover) again(t *trial) {
	if t.tried {
		p.attempt(t, t.from)
	}
	p.show(p.w.shown)
}

// attempt does a test beside the toolkit's goroutine.
func (p *prover) attempt(t *trial, from origin) {
	do, ok := t.gather()
	if !ok {
		p.w.hint.say("Something in the form cannot be read as a number; it is marked.")
		return
	}
	t.abandon()
	ctx, cancel := context.WithCancel(context.Background())
	turn, doc := t.turn, p.w.shown.Document
	t.from, t.tried, t.running, t.cancel, t.serial = from, true, true, cancel, p.w.shown.Serial
	progress := func(share float64) {
		p.w.options.Post(func() {
			if turn == t.turn {
				t.share = share
				p.shown.follow(t)
			}
		})
	}
	go func() {
		defer cancel()
		result, err := from.try(ctx, doc, t.test.Name, do, progress)
		p.w.options.Post(func() {
			if turn == t.turn {
				p.answered(t, result, err)
			}
		})
	}()
	time.AfterFunc(busyAfter, func() {
		p.w.options.Post(func() {
			if t.running && turn == t.turn {
				t.slow = true
				p.show(p.w.shown)
			}
		})
	})
}

// answered takes what a test says.
func (p *prover) answered(t *trial, result prove.Result, err error) {
	t.abandon()
	t.result, t.refused = nil, nil
	if err != nil {
		t.refused = sentencesOf(err)
	} else {
		t.result = &result
	}
	if t != p.trial() {
		return
	}
	p.records.set(t.result)
	p.show(p.w.shown)
	if p.w.open == Prove {
		p.w.compose()
	}
}

// giveUp leaves a record that takes long unread.
func (p *prover) giveUp() {
	t := p.trial()
	t.abandon()
	t.tried, t.result, t.refused = false, nil, nil
	p.records.set(nil)
	p.show(p.w.shown)
	p.w.compose()
	p.w.window.Canvas().Focus(p.act[0])
	p.w.hint.say("Given up: the record was not read.")
}

// expect works out, beside the toolkit's goroutine, what a test should find.
func (p *prover) expect(t *trial, n *session.Snapshot) {
	of := fmt.Sprint(n.Serial, t.stands())
	if t.expecting || t.expectedOf == of {
		return
	}
	t.expecting = true
	doc, support := n.Document, t.stands()
	go func() {
		figures, err := prove.Predicted(doc, t.test.Name, support)
		p.w.options.Post(func() {
			t.expecting, t.expectedOf = false, of
			t.expected, t.expectation = figures, nil
			if err != nil {
				t.expectation = sentencesOf(err)
			}
			t.name(p)
			p.show(p.w.shown)
		})
	}()
}

// use enters what was measured, as one step.
func (p *prover) use() {
	if r := p.trial().result; r != nil && len(r.Findings) > 0 {
		p.w.complain(p.w.session.Use(p.trial().test.Title+" test used", r.Findings...))
	}
}
