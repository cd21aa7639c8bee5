package prove

import (
	"errors"
	"math"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
)

// About is what is kept with a measured value besides the value: the day of the test as year-month-day, the spool and the
// printer. Empty ones are not kept.
type About struct{ Date, Spool, Printer string }

// Result is what a test says about a design.
type Result struct {
	Test     string             // as Tests names it
	Headline string             // the result in one sentence
	Invented bool               // the record says that it was made up
	Compared []Comparison       // measured against predicted
	Words    []string           // what the test says besides
	Notes    []string           // what was guessed, left out or assumed
	Findings []design.Finding   // what the document may take over, in this order
	Moves    []Move             // what the verdicts become with all findings; those that stay are left out
	Plots    []Plot             // for pictures
	Weighed  []bench.Weighing   // one a material
	Measured *bench.Calipered   // by caliper
	Ringing  *vibration.Ringing // of a tap
	Hung     *bench.Hung        // of a hang test
	Turning  *vibration.Turning // of a hover
	Throttle *compass.Throttled // of a throttle log
	Pointing *compass.Pointing  // of a pointing test
	Turned   *compass.Turned    // of a turn test
	Radio    *bench.Radio       // of a radio test
}

// Comparison is a measured value against the predicted one, in a builder's unit.
type Comparison struct {
	Name      string
	Unit      string
	Measured  bench.Estimate
	Predicted bench.Estimate
	Agrees    bool
	Off       float64       // measured over predicted without one: -0.06 is 6 % below
	Words     string        // one sentence
	Causes    []bench.Cause // the likeliest first
}

// Plot is a picture with its title.
type Plot struct {
	Title string
	bench.Plot
}

// Move is a verdict before the findings and with them.
type Move struct {
	ID, Title string
	Was, Is   review.State
	From, To  review.Figure // the figure that decides before, and the one with the findings
	Accepted  string        // the builder's reason, when the design accepts the verdict
}

// Changed returns how many verdicts change their state.
func (r Result) Changed() int {
	n := 0
	for _, m := range r.Moves {
		if m.Was != m.Is {
			n++
		}
	}
	return n
}

// Fails reports whether a check that did not fail before does with the findings, and the design does not accept it.
func (r Result) Fails() bool {
	return slices.ContainsFunc(r.Moves, func(m Move) bool { return m.Was != review.Fail && m.Is == review.Fail && m.Accepted == "" })
}

// Refusal is the error of a test that cannot answer: every reason, a sentence each.
type Refusal struct{ Sentences []string }

// Error is a line for each sentence.
func (r Refusal) Error() string { return strings.Join(r.Sentences, "\n") }

func refuse(sentences ...string) error { return Refusal{sentences} }

// refused makes a refusal of what an evidence room, a reader or a document found wrong.
func refused(err error) error {
	var done Refusal
	var wrong record.Problems
	switch {
	case err == nil || errors.As(err, &done):
		return err
	case errors.As(err, &wrong):
		for _, p := range wrong {
			done.Sentences = append(done.Sentences, p.Error())
		}
		return done
	}
	return refuse(err.Error())
}

// compared turns an agreement in SI into a comparison in a unit that is so many of SI's; the unit is factor times smaller.
func compared(name, unit string, a bench.Agreement, factor float64) Comparison {
	return Comparison{Name: name, Unit: unit, Measured: a.Measured.Times(factor), Predicted: a.Predicted.Times(factor), Agrees: a.Agrees,
		Off: a.Factor.Value - 1, Words: a.Words, Causes: a.Causes}
}

// finish takes out what is said twice, marks the findings of a record that was made up and adds what the verdicts become with
// the findings.
func (r Result) finish(doc *design.Document) (Result, error) {
	said := []string{strings.TrimSuffix(r.Headline, ".")}
	for _, c := range r.Compared {
		said = append(said, c.Words)
	}
	var words []string
	for _, w := range r.Words {
		if !slices.Contains(said, w) && !slices.Contains(said, capital(w)) {
			words, said = append(words, w), append(said, w)
		}
	}
	r.Words = words
	for i := range r.Findings {
		if r.Invented {
			r.Findings[i].Value.Method += ", invented record"
		}
	}
	if len(r.Findings) == 0 {
		return r, nil
	}
	for i := range r.Findings {
		if m := &r.Findings[i].Value; r.Invented && !strings.Contains(m.Method, record.InventedMark) {
			m.Method += ", " + record.InventedMark + " record"
		}
	}
	before, err := judged(doc)
	if err != nil {
		return Result{}, err
	}
	next := doc.Clone()
	for _, f := range r.Findings {
		if err := next.Use(f.Value, f.Answer); err != nil {
			return Result{}, refuse(err.Error())
		}
	}
	after, err := judged(next)
	if err != nil {
		return Result{}, err
	}
	for i, v := range before.Verdicts {
		w := after.Verdicts[i]
		if v.State != w.State || moved(v.Figure, w.Figure) {
			r.Moves = append(r.Moves, Move{v.ID, v.Title, v.State, w.State, v.Figure, w.Figure, w.Accepted})
		}
	}
	return r, nil
}

// moved reports whether a figure is another one or reads differently: by more than half a percent, and by more than a
// thousandth of a lane where it has a limit.
func moved(was, is review.Figure) bool {
	if was.Name != is.Name {
		return true
	}
	wasLow, wasHigh := was.PlaceRange()
	isLow, isHigh := is.PlaceRange()
	lanes := max(math.Abs(was.Place()-is.Place()), math.Abs(wasLow-isLow), math.Abs(wasHigh-isHigh))
	return (is.Limit == nil || lanes > .001) && (differ(was.Value, is.Value) || differ(was.Low, is.Low) || differ(was.High, is.High))
}

func differ(a, b float64) bool {
	return math.Abs(a-b) > .005*max(math.Abs(a), math.Abs(b))
}

func judged(doc *design.Document) (review.Result, error) {
	result, wrong := review.Judge(doc)
	if len(wrong) == 0 {
		return result, nil
	}
	return review.Result{}, unbuilt(wrong)
}

// without returns the document as it is without those of its measured values that drop picks.
func without(doc *design.Document, drop func(design.Measured) bool) (*design.Document, error) {
	next := doc.Clone()
	for i := len(next.Measured) - 1; i >= 0; i-- {
		if drop(next.Measured[i]) {
			if err := next.Withdraw(i); err != nil {
				return nil, refuse(err.Error())
			}
		}
	}
	return next, nil
}

// texts are the notes of a record in words, the guessed columns in one. That it was invented is said elsewhere.
func texts(notes []record.Note) []string {
	var out, guessed []string
	for _, n := range notes {
		from, ok := strings.CutSuffix(strings.TrimPrefix(n.Text, "taken from column "), ", guessed from its name")
		switch {
		case ok:
			guessed = append(guessed, n.About+" from "+from)
		case n.About != record.InventedMark:
			out = append(out, n.String())
		}
	}
	if len(guessed) > 0 {
		out = slices.Insert(out, 0, "columns guessed from their names: "+strings.Join(guessed, ", "))
	}
	return out
}
