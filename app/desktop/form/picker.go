package form

import (
	"strconv"

	"fyne.io/fyne/v2/widget"
)

// picker is a list to pick from that tells when it has the keyboard.
type picker struct {
	widget.Select
	cell *cell
}

func newPicker(c *cell) *picker {
	p := &picker{cell: c}
	p.Options, p.PlaceHolder = c.names(), "choose"
	p.OnChanged = func(string) {
		if at := p.SelectedIndex(); at >= 0 {
			c.pick(c.choice[at])
		}
	}
	p.ExtendBaseWidget(p)
	return p
}

// FocusGained marks the field.
func (p *picker) FocusGained() {
	p.Select.FocusGained()
	p.cell.focusChanged(true)
}

// FocusLost takes the mark away.
func (p *picker) FocusLost() {
	p.Select.FocusLost()
	p.cell.focusChanged(false)
}

// ticker is a tick that tells when it has the keyboard.
type ticker struct {
	widget.Check
	cell *cell
}

func newTicker(c *cell) *ticker {
	t := &ticker{cell: c}
	t.OnChanged = func(on bool) { c.pick(strconv.FormatBool(on)) }
	t.ExtendBaseWidget(t)
	return t
}

// FocusGained marks the field.
func (t *ticker) FocusGained() {
	t.Check.FocusGained()
	t.cell.focusChanged(true)
}

// FocusLost takes the mark away.
func (t *ticker) FocusLost() {
	t.Check.FocusLost()
	t.cell.focusChanged(false)
}
