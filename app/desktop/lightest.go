package desktop

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"mastwright/app/desktop/look"
	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/sizing"
)

// lighten looks for the lightest design that passes, beside the toolkit's goroutine.
func (w *Window) lighten() {
	w.desk.Settle()
	if said := notice(w.shown); said != "" {
		w.hint.say(said)
		return
	}
	serial := w.shown.Serial
	w.search("Looking for the lightest design", "Height, sections, thickness, fillets, plastic and orientation may change; no check may fail. It takes a minute or two.",
		func(ctx context.Context, progress func(done, total int)) func() {
			found, err := w.session.Lightest(ctx, progress)
			return func() { w.lightened(serial, found, err) }
		})
}

// lightened says what was found of a document, and offers it.
func (w *Window) lightened(serial uint64, found sizing.Sized, err error) {
	said := strings.Join(found.Words, " ")
	switch {
	case err != nil:
		w.tellPerson("No lightest design", capital(err.Error()))
	case w.session.Snapshot().Serial != serial:
		w.hint.say("The design was changed meanwhile: nothing was applied. Look again.")
	case !found.Passes:
		w.tellPerson("No design that passes was found", said)
	case len(found.Changes) == 0:
		w.tellPerson("Nothing lighter was found", said)
	default:
		q := w.put("The lightest design that was found", said, 460, w.changes(found.Changes, found.Binds),
			answer{"Apply", func() { w.size(found) }}, answer{label: "Leave it as it is"})
		w.window.Canvas().Focus(q.chips[0])
	}
}

// size applies the lightest design as one step.
func (w *Window) size(found sizing.Sized) {
	w.take("Lightest design", found.Words[0], found.Changes)
}

// take makes what was found as one step, and says it.
func (w *Window) take(title, said string, changes []sizing.Change) {
	var edits []session.Change
	for _, c := range changes {
		edits = append(edits, session.Change{Path: c.Path, Text: c.Value})
	}
	if err := w.session.Apply(title, edits...); err != nil {
		w.complain(err)
		return
	}
	w.hint.say(said + " Undo takes it back.")
}

// changesHeight is the most that a list of changes takes of a question.
const changesHeight = 300

// changes lists what a found design changes, and what keeps it from getting lighter.
func (w *Window) changes(changes []sizing.Change, binds []sizing.Bind) fyne.CanvasObject {
	const width = 460 - 2*questionMargin
	table := newFacts("Changes")
	var rows []fact
	for _, c := range changes {
		was := w.shown.Document.Get(c.Path)
		if was == "" {
			was = "none"
		}
		rows = append(rows, fact{what: fieldTitle(c.Path), value: w.named(c.Path, was) + " → " + w.named(c.Path, c.Value)})
	}
	table.set(rows)
	pieces := []fyne.CanvasObject{table, look.Space(10)}
	height := table.MinSize().Height + 44
	if len(binds) > 0 {
		pieces = append(pieces, look.NewLabel("What keeps it from getting lighter", look.Strong, look.Ink), look.Space(4))
		height += 20
	}
	for _, b := range binds {
		line := look.NewProse(stop(b), look.Caption, look.Second)
		pieces = append(pieces, line)
		height += line.HeightFor(width)
	}
	return container.New(bleeding{min(height, changesHeight)}, look.NewColumn(pieces...))
}

// bleeding lets a column as high as given reach over the edges, so that its pieces stand flush with what is over it.
type bleeding struct{ height float32 }

// Layout places the column.
func (b bleeding) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Move(fyne.NewPos(-look.ColumnMargin, 0))
	objects[0].Resize(size.AddWidthHeight(2*look.ColumnMargin, 0))
}

// MinSize is narrow: the question decides the width.
func (b bleeding) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(100, b.height) }

// stop says what keeps a field where it is.
func stop(b sizing.Bind) string {
	if b.Problem != "" {
		return fmt.Sprintf("%s %s cannot be built: %s.", fieldTitle(b.Path), b.Value, b.Problem)
	}
	return fmt.Sprintf("%s %s would turn %s to %s.", fieldTitle(b.Path), b.Value, b.Check, b.State)
}

// fieldTitle is how a field is called where it stands alone.
func fieldTitle(path string) string {
	f, known := design.FieldOf(path)
	if !known {
		return path
	}
	return f.Title
}
