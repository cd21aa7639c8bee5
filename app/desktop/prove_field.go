package desktop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/form"
	"mastwright/app/desktop/look"
	"mastwright/design/units"
)

// ask is a question of a test: a label with one box, or several beside each other, and a sentence below when what stands there cannot be read.
type ask struct {
	widget.BaseWidget

	label   *look.Label
	caption *look.Label
	boxes   []*askBox
	list    *askList // instead of boxes
	problem *look.Prose
	mark    *look.Mark

	onReveal func(object fyne.CanvasObject)
	onReflow func()
}

// The measures of a question's row, as those of the other forms.
const (
	askPitch = 32
	askHigh  = 26
	askWide  = 118
)

// askNumber asks for a figure of a kind; a bare number is in the unit. The caption says what is expected or assumed.
func askNumber(label, caption string, kind units.Kind, unit string, change func()) *ask {
	a := newAsk(label, caption)
	a.add(kind, unit, "", change)
	return a
}

// askText asks for a word or two.
func askText(label, held string, change func()) *ask {
	a := newAsk(label, "")
	a.add(0, "", held, change)
	return a
}

// askChoice asks for one of a list.
func askChoice(label string, choices []string, change func()) *ask {
	a := newAsk(label, "")
	a.list = newAskList(choices, a, change)
	return a
}

func newAsk(label, caption string) *ask {
	a := &ask{label: look.NewLabel(label, look.Body, look.Ink), caption: look.NewLabel(caption, look.Caption, look.Third),
		problem: look.NewProse("", look.Caption, look.FailWord), mark: look.NewMark(look.Fails, 12)}
	a.caption.Align = fyne.TextAlignTrailing
	a.mark.Hide()
	a.ExtendBaseWidget(a)
	return a
}

func (a *ask) add(kind units.Kind, unit, held string, change func()) *askBox {
	b := newAskBox(a, kind, unit, held, change)
	a.boxes = append(a.boxes, b)
	return b
}

// say shows what is wrong, or nothing.
func (a *ask) say(problem string) {
	if a.problem.Text == problem {
		return
	}
	a.problem.SetText(problem)
	a.mark.Hidden = problem == ""
	a.Refresh()
	if a.onReflow != nil {
		a.onReflow()
	}
}

// text is what was typed or chosen.
func (a *ask) text() string {
	if a.list != nil {
		return a.list.Selected
	}
	return strings.TrimSpace(a.boxes[0].Text)
}

// chosen is the place of what was chosen.
func (a *ask) chosen() int { return max(0, a.list.SelectedIndex()) }

// HeightFor is the pitch, and what a problem needs.
func (a *ask) HeightFor(width float32) float32 {
	if a.problem.Text == "" {
		return askPitch
	}
	return askPitch + 4 + a.problem.HeightFor(width-18)
}

// MinSize is narrow enough for every column.
func (a *ask) MinSize() fyne.Size {
	return fyne.NewSize(220, a.HeightFor(max(220, a.Size().Width)))
}

// CreateRenderer is the toolkit's.
func (a *ask) CreateRenderer() fyne.WidgetRenderer { return &askRenderer{a} }

type askRenderer struct{ a *ask }

func (r *askRenderer) Layout(size fyne.Size) {
	a := r.a
	place := func(object fyne.CanvasObject, x, y, width, height float32) {
		object.Move(fyne.NewPos(x, y))
		object.Resize(fyne.NewSize(max(0, width), height))
	}
	const top = (askPitch - askHigh) / 2
	need := a.label.MinSize().Width
	boxes, gap := askWide*float32(max(1, len(a.boxes))), float32(6)
	if len(a.boxes) > 1 {
		boxes = size.Width - 26
	}
	if a.list != nil {
		boxes = look.Whole(a, max(askWide, min(1.6*askWide, size.Width-need-12)))
	}
	left := look.Whole(a, size.Width-boxes)
	place(a.label, 0, top, min(need, left-6), askHigh)
	room := left - need - 12
	a.caption.Hidden = room < a.caption.MinSize().Width
	place(a.caption, need+6, top, room, askHigh)
	if a.list != nil {
		place(a.list, left, top, boxes, askHigh)
		place(a.list.rim, left, top, boxes, askHigh)
	}
	share := (boxes - gap*float32(max(0, len(a.boxes)-1))) / float32(max(1, len(a.boxes)))
	for i, b := range a.boxes {
		x, end := look.Whole(a, left+float32(i)*(share+gap)), look.Whole(a, left+float32(i)*(share+gap)+share)
		place(b, x, top, end-x, askHigh)
		place(b.rim, x, top, end-x, askHigh)
	}
	place(a.mark, 0, askPitch+2, 12, 12)
	place(a.problem, 18, askPitch, size.Width-18, a.problem.HeightFor(size.Width-18))
}
func (r *askRenderer) MinSize() fyne.Size { return r.a.MinSize() }
func (r *askRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.a.label, r.a.caption}
	for _, b := range r.a.boxes {
		objects = append(objects, b, b.rim)
	}
	if r.a.list != nil {
		objects = append(objects, r.a.list, r.a.list.rim)
	}
	return append(objects, r.a.mark, r.a.problem)
}
func (r *askRenderer) Destroy() {}
func (r *askRenderer) Refresh() {
	r.Layout(r.a.Size())
	canvas.Refresh(r.a)
}

// askBox is an entry with its unit inside.
type askBox struct {
	widget.Entry

	of     *ask
	kind   units.Kind
	unit   string
	rim    *look.Rim
	change func()
}

func newAskBox(of *ask, kind units.Kind, unit, held string, change func()) *askBox {
	b := &askBox{of: of, kind: kind, unit: unit, rim: look.NewRim(look.Bare), change: change}
	b.ExtendBaseWidget(b)
	b.Scroll = fyne.ScrollHorizontalOnly
	if unit != "" {
		b.ActionItem = form.Unit(strings.NewReplacer("deg", "°").Replace(unit))
	}
	b.Text, b.PlaceHolder = "", held
	b.OnChanged = func(string) {
		b.of.say("")
		if b.rim.Edging() == look.Wrong {
			b.rim.Set(look.Focused)
		}
	}
	b.OnSubmitted = func(string) { b.done() }
	return b
}

func (b *askBox) done() {
	if b.change != nil {
		b.change()
	}
}

// Inner returns the entry.
func (b *askBox) Inner() *widget.Entry { return &b.Entry }

// FocusGained shows the rim.
func (b *askBox) FocusGained() {
	b.Entry.FocusGained()
	b.rim.Set(look.Focused)
	if b.of.onReveal != nil {
		b.of.onReveal(b.of)
	}
}

// FocusLost takes it away.
func (b *askBox) FocusLost() {
	b.Entry.FocusLost()
	if b.of.problem.Text == "" {
		b.rim.Set(look.Bare)
	}
}

// empty reports whether nothing was typed.
func (b *askBox) empty() bool { return strings.TrimSpace(b.Text) == "" }

// value is the typed figure in the box's unit, 0 where it is empty; what cannot be read is said below the row.
func (b *askBox) value() (float64, bool) {
	text := strings.TrimSpace(b.Text)
	if text == "" {
		return 0, true
	}
	if v, err := strconv.ParseFloat(plain(text, b.kind), 64); err == nil && !math.IsNaN(v) && !math.IsInf(v, 0) {
		return v, true
	}
	if b.kind != 0 {
		v, err := b.kind.Parse(text)
		one, wrong := b.kind.Parse("1 " + b.unit)
		if err == nil && wrong == nil && one != 0 {
			return v / one, true
		}
		if err != nil {
			b.wrong(capital(dotted(err.Error())))
			return 0, false
		}
	}
	b.wrong(fmt.Sprintf("%q is not a number; write one like 12.5.", text))
	return 0, false
}

// plain is a text for a number without a kind: a comma is a point. A kind reads commas by itself.
func plain(text string, kind units.Kind) string {
	if kind != 0 {
		return text
	}
	return strings.Replace(text, ",", ".", 1)
}

// wrong says what is wrong with the box.
func (b *askBox) wrong(problem string) {
	b.of.say(problem)
	b.rim.Set(look.Wrong)
}

// askList is a list to pick from with a rim of its own.
type askList struct {
	widget.Select

	of  *ask
	rim *look.Rim
}

func newAskList(choices []string, of *ask, change func()) *askList {
	l := &askList{of: of, rim: look.NewRim(look.Quiet)}
	l.Options, l.Selected = choices, choices[0]
	l.OnChanged = func(string) {
		if change != nil {
			change()
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained shows the rim.
func (l *askList) FocusGained() {
	l.Select.FocusGained()
	l.rim.Set(look.Focused)
	if l.of.onReveal != nil {
		l.of.onReveal(l.of)
	}
}

// FocusLost takes it away.
func (l *askList) FocusLost() {
	l.Select.FocusLost()
	l.rim.Set(look.Quiet)
}
