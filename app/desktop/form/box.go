package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// box is an entry with the keys of a field.
type box struct {
	widget.Entry

	cell  *cell
	shift bool
}

func newBox(c *cell) *box {
	b := &box{cell: c}
	b.ExtendBaseWidget(b)
	b.Scroll = fyne.ScrollHorizontalOnly
	if c.unit != "" {
		b.ActionItem = newUnit(c.unit)
	}
	b.OnChanged = c.changed
	b.OnSubmitted = func(string) { c.commit() }
	return b
}

// Inner returns the entry.
func (b *box) Inner() *widget.Entry { return &b.Entry }

// FocusGained marks the field.
func (b *box) FocusGained() {
	b.Entry.FocusGained()
	b.cell.focusChanged(true)
}

// FocusLost commits.
func (b *box) FocusLost() {
	b.Entry.FocusLost()
	b.cell.focusChanged(false)
}

// KeyDown follows Shift.
func (b *box) KeyDown(key *fyne.KeyEvent) {
	if key.Name == desktop.KeyShiftLeft || key.Name == desktop.KeyShiftRight {
		b.shift = true
	}
	b.Entry.KeyDown(key)
}

// KeyUp follows Shift.
func (b *box) KeyUp(key *fyne.KeyEvent) {
	if key.Name == desktop.KeyShiftLeft || key.Name == desktop.KeyShiftRight {
		b.shift = false
	}
	b.Entry.KeyUp(key)
}

// TypedKey steps on the arrows and gives up on Escape.
func (b *box) TypedKey(key *fyne.KeyEvent) {
	fine := 1.0
	if b.shift {
		fine = 0.1
	}
	switch key.Name {
	case fyne.KeyUp:
		b.cell.step(fine)
	case fyne.KeyDown:
		b.cell.step(-fine)
	case fyne.KeyPageUp:
		b.cell.step(10)
	case fyne.KeyPageDown:
		b.cell.step(-10)
	case fyne.KeyEscape:
		b.cell.revert()
	default:
		b.Entry.TypedKey(key)
	}
}

// Unit is a unit to stand inside an entry, at its right.
func Unit(text string) fyne.CanvasObject { return newUnit(text) }

// unit is the unit inside a box, at its right.
type unit struct {
	widget.BaseWidget
	label *look.Label
}

func newUnit(text string) *unit {
	u := &unit{label: look.NewLabel(text, look.Caption, look.Second)}
	u.label.Align = fyne.TextAlignTrailing
	u.ExtendBaseWidget(u)
	return u
}

// MinSize keeps 7 px between the unit and the edge.
func (u *unit) MinSize() fyne.Size { return u.label.MinSize().AddWidthHeight(9, 0) }

// CreateRenderer is the toolkit's.
func (u *unit) CreateRenderer() fyne.WidgetRenderer { return &unitRenderer{u} }

type unitRenderer struct{ unit *unit }

func (r *unitRenderer) Layout(size fyne.Size) {
	r.unit.label.Move(fyne.NewPos(2, 0))
	r.unit.label.Resize(fyne.NewSize(size.Width-9, size.Height))
}
func (r *unitRenderer) MinSize() fyne.Size           { return r.unit.MinSize() }
func (r *unitRenderer) Refresh()                     { r.unit.label.Refresh() }
func (r *unitRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.unit.label} }
func (r *unitRenderer) Destroy()                     {}
