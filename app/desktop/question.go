package desktop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// answer is a button of a question.
type answer struct {
	label string
	act   func() // nil: nothing but leaving
}

// question is a small panel over the window: a title, a text, something to fill in perhaps, and the answers. Escape is the last answer.
type question struct {
	widget.BaseWidget

	title *look.Label
	text  *look.Prose
	body  fyne.CanvasObject // nil: none
	chips []*look.Chip
	width float32
	popup *widget.PopUp
}

// put puts a question over the window. Only one is open at a time.
func (w *Window) put(title, text string, width float32, body fyne.CanvasObject, answers ...answer) *question {
	if w.asked != nil {
		w.asked.leave()
	}
	q := &question{title: look.NewLabel(title, look.Title, look.Ink), text: look.NewProse(text, look.Body, look.Ink), body: body, width: width}
	leave := func(a answer) func() {
		return func() {
			q.leave()
			w.asked = nil
			if a.act != nil {
				a.act()
			}
		}
	}
	last := leave(answers[len(answers)-1])
	for _, a := range answers {
		chip := look.NewChip(a.label, leave(a))
		chip.OnLeave = last
		q.chips = append(q.chips, chip)
	}
	q.ExtendBaseWidget(q)
	q.popup = widget.NewModalPopUp(q, w.window.Canvas())
	w.asked = q
	q.popup.Show()
	if body == nil {
		w.window.Canvas().Focus(q.chips[0])
	}
	return q
}

// tellPerson says something that has to be read.
func (w *Window) tellPerson(title, text string) {
	w.put(title, text, 420, nil, answer{label: "Close"})
}

func (q *question) leave() { q.popup.Hide() }

// press answers as the button of a label does; it reports whether there is one.
func (q *question) press(label string) bool {
	for _, chip := range q.chips {
		if chip.Text == label {
			chip.Tapped(nil)
			return true
		}
	}
	return false
}

const questionMargin = 16

// MinSize is as high as its text at its width.
func (q *question) MinSize() fyne.Size {
	inner := q.width - 2*questionMargin
	height := float32(2*questionMargin) + q.title.MinSize().Height + 8 + q.text.HeightFor(inner) + 12 + 32
	if q.body != nil {
		height += q.body.MinSize().Height + 12
	}
	return fyne.NewSize(q.width, height)
}

// CreateRenderer is the toolkit's.
func (q *question) CreateRenderer() fyne.WidgetRenderer { return &questionRenderer{q} }

type questionRenderer struct{ q *question }

func (r *questionRenderer) Layout(size fyne.Size) {
	q := r.q
	inner := size.Width - 2*questionMargin
	y := float32(questionMargin)
	place := func(object fyne.CanvasObject, height float32) {
		object.Move(fyne.NewPos(questionMargin, y))
		object.Resize(fyne.NewSize(inner, height))
		y += height
	}
	place(q.title, q.title.MinSize().Height)
	y += 8
	place(q.text, q.text.HeightFor(inner))
	y += 12
	if q.body != nil {
		place(q.body, size.Height-y-12-32-questionMargin)
		y += 12
	}
	x := size.Width - questionMargin
	for i := len(q.chips) - 1; i >= 0; i-- {
		width := max(72, q.chips[i].MinSize().Width)
		x -= width
		q.chips[i].Move(fyne.NewPos(x, size.Height-questionMargin-28))
		q.chips[i].Resize(fyne.NewSize(width, 28))
		x -= 8
	}
}
func (r *questionRenderer) MinSize() fyne.Size { return r.q.MinSize() }
func (r *questionRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.q.title, r.q.text}
	if r.q.body != nil {
		objects = append(objects, r.q.body)
	}
	for _, chip := range r.q.chips {
		objects = append(objects, chip)
	}
	return objects
}
func (r *questionRenderer) Destroy() {}
func (r *questionRenderer) Refresh() {
	r.Layout(r.q.Size())
	canvas.Refresh(r.q)
}
