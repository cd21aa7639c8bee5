package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Chip is a small button, 24 high: one of a choice of views, or "Try" beside a repair. Space or Enter presses it while it has the focus.
type Chip struct {
	widget.BaseWidget

	Text    string
	Picked  bool
	Off     bool // shown, but cannot be pressed
	OnPress func()
	OnLeave func() // Escape; nil for nothing
	OnFocus func() // the chip has the keyboard; nil for nothing

	focused, hovered bool
}

// NewChip returns a button.
func NewChip(text string, onPress func()) *Chip {
	c := &Chip{Text: text, OnPress: onPress}
	c.ExtendBaseWidget(c)
	return c
}

// SetPicked shows the chip as the one that is chosen.
func (c *Chip) SetPicked(picked bool) {
	if c.Picked != picked {
		c.Picked = picked
		c.Refresh()
	}
}

// SetOff shows the chip as one that cannot be pressed.
func (c *Chip) SetOff(off bool) {
	if c.Off != off {
		c.Off = off
		c.Refresh()
	}
}

// SetText changes what is written on the chip.
func (c *Chip) SetText(text string) {
	if c.Text != text {
		c.Text = text
		c.Refresh()
	}
}

// Tapped presses the chip.
func (c *Chip) Tapped(*fyne.PointEvent) {
	if !c.Off && c.OnPress != nil {
		c.OnPress()
	}
}

// FocusGained shows the rim.
func (c *Chip) FocusGained() {
	c.focused = true
	c.Refresh()
	if c.OnFocus != nil {
		c.OnFocus()
	}
}

// FocusLost is the other end of FocusGained.
func (c *Chip) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune does nothing.
func (c *Chip) TypedRune(rune) {}

// TypedKey presses the chip on Space and Enter.
func (c *Chip) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		c.Tapped(nil)
	case fyne.KeyEscape:
		if c.OnLeave != nil {
			c.OnLeave()
		}
	}
}

// MouseIn, MouseMoved and MouseOut show that the chip can be pressed.
func (c *Chip) MouseIn(*desktop.MouseEvent) { c.hovered = true; c.Refresh() }

// MouseMoved does nothing.
func (c *Chip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is the other end of MouseIn.
func (c *Chip) MouseOut() { c.hovered = false; c.Refresh() }

// MinSize is the text with 8 px at both sides.
func (c *Chip) MinSize() fyne.Size {
	return fyne.NewSize(ceil(Body.Width(c.Text))+16, 24)
}

// CreateRenderer is the toolkit's.
func (c *Chip) CreateRenderer() fyne.WidgetRenderer {
	r := &chipRenderer{chip: c, ground: &canvas.Rectangle{CornerRadius: 3}, text: Words("", Body, Ink)}
	r.dress()
	return r
}

type chipRenderer struct {
	still
	chip   *Chip
	ground *canvas.Rectangle
	text   *canvas.Text
}

func (r *chipRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	Lay(r.text, fyne.TextAlignCenter, size.Width/2, 0, size.Height)
}
func (r *chipRenderer) MinSize() fyne.Size           { return r.chip.MinSize() }
func (r *chipRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.ground, r.text} }
func (r *chipRenderer) Refresh() {
	r.dress()
	r.Layout(r.chip.Size())
	r.ground.Refresh()
	r.text.Refresh()
}

func (r *chipRenderer) dress() {
	c := r.chip
	ground, edge, words, width := Panel, Edge, Ink, float32(1)
	if c.Picked {
		edge, words = Act, Act
	}
	if c.hovered && !c.Off {
		ground = ActSoft
	}
	if c.Off {
		edge, words = Seam, Third
	}
	if c.focused {
		edge, width = Act, 2
	}
	r.ground.FillColor, r.ground.StrokeColor, r.ground.StrokeWidth = color.Color(Color(ground)), Color(edge), width
	r.text.Text, r.text.Color = c.Text, Color(words)
}
