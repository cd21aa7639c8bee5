package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Tall is something whose height follows from its width.
type Tall interface {
	HeightFor(width float32) float32
}

// Prose is a text that wraps at the edge of its column.
type Prose struct {
	widget.BaseWidget

	Text string
	Font Font
	Role Role // Ink when empty
}

// NewProse returns a text that wraps.
func NewProse(text string, font Font, role Role) *Prose {
	p := &Prose{Text: text, Font: font, Role: role}
	p.ExtendBaseWidget(p)
	return p
}

// SetText changes what is written. The column it stands in must be laid out anew.
func (p *Prose) SetText(text string) {
	if p.Text != text {
		p.Text = text
		p.Refresh()
	}
}

// HeightFor returns the height of the text in a column.
func (p *Prose) HeightFor(width float32) float32 {
	if p.Text == "" {
		return 0
	}
	return float32(len(Wrapped(p.Text, p.Font, width))) * p.Font.Pitch()
}

// MinSize is narrow: the column decides the width.
func (p *Prose) MinSize() fyne.Size {
	width := p.Size().Width
	if width <= 0 {
		return fyne.NewSize(40, p.Font.Pitch())
	}
	return fyne.NewSize(40, p.HeightFor(width))
}

// CreateRenderer is the toolkit's.
func (p *Prose) CreateRenderer() fyne.WidgetRenderer {
	return &proseRenderer{prose: p}
}

type proseRenderer struct {
	still
	prose *Prose
	lines []fyne.CanvasObject
}

func (r *proseRenderer) Layout(size fyne.Size) {
	r.lines = r.lines[:0:0]
	if size.Width <= 0 || r.prose.Text == "" {
		return
	}
	pitch := r.prose.Font.Pitch()
	for i, line := range Wrapped(r.prose.Text, r.prose.Font, size.Width) {
		text := Words(line, r.prose.Font, orInk(r.prose.Role))
		Lay(text, fyne.TextAlignLeading, 0, float32(i)*pitch, pitch)
		r.lines = append(r.lines, text)
	}
}

func (r *proseRenderer) MinSize() fyne.Size { return r.prose.MinSize() }
func (r *proseRenderer) Refresh() {
	r.Layout(r.prose.Size())
	canvas.Refresh(r.prose)
}
func (r *proseRenderer) Objects() []fyne.CanvasObject { return r.lines }
