package verdicts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// picker is what all rows have in common: one of them is under the hand, by key or by click. It is the keyboard's stop in the order of
// Tab.
type picker struct {
	widget.BaseWidget

	self    fyne.Focusable
	count   int
	at      int // -1: none
	focused bool

	row    func(y float32) int            // the row at a height, -1 where there is none
	move   func()                         // the hand went to another row
	act    func()                         // Enter, or Space, or a click
	reveal func(object fyne.CanvasObject) // scroll until the row under the hand can be seen

	hand *canvas.Rectangle // stands behind the row under the hand
}

// Tapped takes the row under the pointer.
func (p *picker) Tapped(e *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p.self.(fyne.CanvasObject)); c != nil {
		c.Focus(p.self)
	}
	row := p.row(e.Position.Y)
	if row < 0 || row >= p.count {
		return
	}
	p.goTo(row)
	p.act()
}

// TypedKey moves the hand with Up, Down, Home and End and acts on Enter and Space.
func (p *picker) TypedKey(key *fyne.KeyEvent) {
	if p.count == 0 {
		return
	}
	switch key.Name {
	case fyne.KeyUp:
		p.goTo(max(p.at-1, 0))
	case fyne.KeyDown:
		p.goTo(min(p.at+1, p.count-1))
	case fyne.KeyHome:
		p.goTo(0)
	case fyne.KeyEnd:
		p.goTo(p.count - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		p.goTo(max(p.at, 0))
		p.act()
	}
}

func (p *picker) goTo(row int) {
	if row == p.at {
		return
	}
	p.at = row
	p.Refresh()
	if p.move != nil {
		p.move()
	}
	if p.reveal != nil && p.hand != nil {
		p.reveal(p.hand)
	}
}

// underHand puts the hand's place behind a row; the sheet draws the rim as well while the keyboard is here.
func (p *picker) underHand(s *sheet, row int, x, y, width, height float32) {
	if row != max(p.at, 0) {
		return
	}
	if p.hand == nil {
		p.hand = canvas.NewRectangle(color.Transparent)
	}
	s.put(p.hand, x, y, width, height)
	if p.focused {
		s.focus(x, y, width, height)
	}
}

// heights finds rows of different heights that stand under each other from a top.
func heights(top float32, rows []float32, y float32) int {
	for i, height := range rows {
		if y >= top && y < top+height {
			return i
		}
		top += height
	}
	return -1
}

// TypedRune does nothing.
func (p *picker) TypedRune(rune) {}

// FocusGained shows where the keyboard is.
func (p *picker) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost is the other end of FocusGained.
func (p *picker) FocusLost() { p.focused = false; p.Refresh() }

// Cursor is a hand: rows can be taken.
func (p *picker) Cursor() desktop.Cursor { return desktop.PointerCursor }
