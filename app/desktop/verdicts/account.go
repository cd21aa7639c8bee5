package verdicts

import (
	"fmt"
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/design/review"
)

// Story is all that the account of a check tells.
type Story struct {
	Verdict review.Verdict
	Changes []Change        // that help it; none: the heading is left out
	Advice  string          // said before the changes; may be empty
	Seeking bool            // changes are being looked for
	Sought  float64         // share of that which is done
	Past    bool            // the changes are for an earlier design: shown, but not to be tried
	Heights string          // what the check says at other heights; may be empty
	Gone    bool            // the heights are those of an earlier design
	Doubt   Doubt           // how sure the verdict is
	Answers []design.Answer // everything that is missing; the account shows those that complete its check
}

// Account is why a verdict is what it is: its figure, its limits, the reason, what moves it, what would repair it and how it was
// computed. It stands in a scrolling column, as wide as the column.
type Account struct {
	widget.BaseWidget

	OnTry    func(change Change)
	OnAnswer func(path string)              // a missing answer was entered: lead to its field
	OnDoubt  func(asked bool)               // how sure it is was asked, or given up
	OnCopy   func(text string)              // a figure was copied, with its unit and its source
	OnReflow func()                         // the height has changed: lay the column out anew
	OnReveal func(object fyne.CanvasObject) // scroll until what the keyboard acts on can be seen

	story Story
	stale bool
	head  *front
	tries []*changeRow
	wait  *look.Prose // how far the search for changes is

	missing *Missing
	changes *section
	heights *section
	doubts  *section
	moves   *section
	working *section
	figures *section
	notes   *section

	rows  *figures
	doubt *doubt
	proof *working
	stack fyne.CanvasObject
}

// NewAccount returns the account of nothing.
func NewAccount() *Account {
	a := &Account{head: newFront(), wait: look.NewProse("", look.Caption, look.Third), missing: NewMissing(), rows: newFigures(), doubt: newDoubt(), proof: newWorking()}
	a.missing.bare = true
	a.missing.OnPick = func(path string) {
		if a.OnAnswer != nil {
			a.OnAnswer(path)
		}
	}
	a.missing.OnReflow = a.reflow
	a.missing.OnReveal, a.rows.reveal = a.reveal, a.reveal
	a.doubt.ask.OnFocus = func() { a.reveal(a.doubt.ask) }
	a.doubt.onAsk = func(asked bool) {
		if a.OnDoubt != nil {
			a.OnDoubt(asked)
		}
	}
	a.rows.onCopy = func(text string) {
		if a.OnCopy != nil {
			a.OnCopy(text)
		}
	}
	a.changes = newSection("Smallest changes that repair it")
	a.heights = newSection("At other heights")
	a.doubts = newSection("How sure it is", a.doubt)
	a.moves = newSection("What moves it")
	a.working = newSection("How it was computed", a.proof)
	a.figures = newSection("All its figures; Enter or a click copies one", a.rows)
	a.notes = newSection("Notes")
	a.notes.gap = 5
	a.stack = look.Stack(a.head, a.missing, a.changes, a.moves, a.doubts, a.heights, a.working, a.figures, a.notes)
	a.ExtendBaseWidget(a)
	return a
}

// Set tells another story. What has the keyboard's focus keeps it while the story is still about the same check.
func (a *Account) Set(s Story) {
	old := a.story
	a.story, a.stale = s, false
	v := s.Verdict
	a.head.verdict, a.head.stale = v, false
	a.rows.set(v)
	a.proof.verdict = v

	a.missing.Hide()
	if answers := completing(s.Answers, v); len(answers) > 0 {
		a.missing.Set(answers)
		a.missing.Show()
	}
	if !reflect.DeepEqual(old.Changes, s.Changes) || old.Seeking != s.Seeking || old.Advice != s.Advice || (old.Verdict.State == review.Pass) != (v.State == review.Pass) {
		a.setChanges()
	}
	for _, row := range a.tries {
		row.setPast(s.Past)
	}
	a.setWait()
	if old.Heights != s.Heights || old.Gone != s.Gone {
		a.setHeights()
	}
	a.doubt.set(s.Doubt)
	a.doubts.shown(v.State != review.NoData)
	if !slices.Equal(old.Verdict.Notes, v.Notes) || old.Verdict.Accepted != v.Accepted {
		a.setNotes()
	}
	a.working.shown(v.Formula != "" || v.Source != "")
	a.figures.shown(len(v.Figures) > 0)
	a.head.Refresh()
	a.proof.Refresh()
	a.reflow()
}

// completing are the answers that a verdict without data waits for.
func completing(answers []design.Answer, v review.Verdict) []design.Answer {
	if v.State != review.NoData {
		return nil
	}
	var list []design.Answer
	for _, answer := range answers {
		if slices.Contains(answer.Checks, v.ID) {
			list = append(list, answer)
		}
	}
	return list
}

func (a *Account) setChanges() {
	title := "Smallest changes that repair it"
	if a.story.Verdict.State == review.Pass {
		title = "Smallest changes"
	}
	var rows []fyne.CanvasObject
	old := a.tries
	a.tries = nil
	if a.story.Advice != "" {
		rows = append(rows, look.NewProse(a.story.Advice, look.Body, look.Second))
	}
	for _, c := range a.story.Changes {
		var row *changeRow
		if i := slices.IndexFunc(old, func(r *changeRow) bool { return reflect.DeepEqual(r.change, c) }); i >= 0 {
			row = old[i] // it may have the keyboard
		} else {
			row = newChangeRow(c, func(c Change) {
				if a.OnTry != nil {
					a.OnTry(c)
				}
			})
			row.try.OnFocus = func() { a.reveal(row) }
		}
		a.tries, rows = append(a.tries, row), append(rows, row)
	}
	if a.story.Seeking {
		rows = append(rows, a.wait)
	}
	a.changes.set(title, rows...)
}

// setWait says how far the search for changes is.
func (a *Account) setWait() {
	said := "looking for repairs"
	if len(a.story.Changes) > 0 && !a.story.Past {
		said = "looking for more"
	}
	if a.story.Sought > 0 {
		said += fmt.Sprintf(", %.0f %%", 100*a.story.Sought)
	}
	a.wait.SetText(said)
}

func (a *Account) setHeights() {
	var rows []fyne.CanvasObject
	if a.story.Heights != "" {
		role := look.Ink
		if a.story.Gone {
			role = look.Third
		}
		rows = append(rows, look.NewProse(a.story.Heights, look.Body, role))
	}
	a.heights.set("At other heights", rows...)
}

func (a *Account) reveal(object fyne.CanvasObject) {
	if a.OnReveal != nil {
		a.OnReveal(object)
	}
}

func (a *Account) setNotes() {
	var rows []fyne.CanvasObject
	if reason := a.story.Verdict.Accepted; reason != "" {
		rows = append(rows, look.NewProse("Accepted: "+Sentence(reason), look.Caption, look.Ink))
	}
	for _, note := range a.story.Verdict.Notes {
		rows = append(rows, look.NewProse(Sentence(note), look.Caption, look.Second))
	}
	a.notes.set("Notes", rows...)
}

// SetMoves fills the place under "What moves it" with the form's rows; the heading is left out when there are none.
func (a *Account) SetMoves(rows ...fyne.CanvasObject) {
	if slices.Equal(a.moves.pieces, rows) {
		return
	}
	a.moves.set("What moves it", rows...)
	a.reflow()
}

// SetStale shows that a new review is on its way, until the next Set.
func (a *Account) SetStale(stale bool) {
	if a.stale != stale {
		a.stale, a.head.stale = stale, stale
		a.head.Refresh()
	}
}

// Story returns what is told.
func (a *Account) Story() Story { return a.story }

// Citation is the deciding figure with its unit, its limits and its source, as it is copied.
func (a *Account) Citation() string { return Citation(a.story.Verdict, a.story.Verdict.Figure) }

func (a *Account) reflow() {
	a.Refresh()
	if a.OnReflow != nil {
		a.OnReflow()
	}
}

// HeightFor is that of everything told.
func (a *Account) HeightFor(width float32) float32 { return a.stack.(look.Tall).HeightFor(width) }

// MinSize is that of everything told at the present width.
func (a *Account) MinSize() fyne.Size {
	a.ExtendBaseWidget(a)
	const least = 240
	return fyne.NewSize(least, a.HeightFor(max(a.Size().Width, least)))
}

// CreateRenderer is the toolkit's.
func (a *Account) CreateRenderer() fyne.WidgetRenderer {
	a.ExtendBaseWidget(a)
	s := &sheet{widget: a, least: a.MinSize}
	s.draw = func(size fyne.Size) {
		s.put(a.stack, 0, 0, size.Width, size.Height)
		a.stack.Refresh()
	}
	return s
}
