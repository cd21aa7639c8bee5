package view

import (
	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
)

const (
	chipMargin = 10 // to the picture's edge
	chipGap    = 6
)

// CreateRenderer is the toolkit's.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer { return &renderer{p} }

type renderer struct{ picture *Picture }

// Layout puts the views at the top right and the switches at the bottom left, over the picture.
func (r *renderer) Layout(size fyne.Size) {
	p := r.picture
	p.raster.Move(fyne.NewPos(0, 0))
	p.raster.Resize(size)
	p.rim.Resize(size)
	x := size.Width - chipMargin
	place := func(o fyne.CanvasObject, at fyne.Position) {
		o.Resize(o.MinSize())
		o.Move(at)
	}
	right := []fyne.CanvasObject{p.fit}
	for i := len(p.turns) - 1; i >= 0; i-- {
		right = append(right, p.turns[i])
	}
	for _, o := range right {
		x -= o.MinSize().Width
		place(o, fyne.NewPos(x, chipMargin))
		x -= chipGap
	}
	x = chipMargin
	row := p.lays[0].MinSize().Height
	bottom := size.Height - chipMargin - row
	worded := p.shorten(size.Width - 2*chipMargin)
	if word := p.word.MinSize(); worded {
		place(p.word, fyne.NewPos(x, bottom+(row-word.Height)/2))
		x += word.Width + chipGap
	} else {
		p.word.Resize(fyne.NewSize(0, 0))
		p.word.Move(fyne.NewPos(-1000, 0))
	}
	for _, c := range p.lays {
		place(c, fyne.NewPos(x, bottom))
		x += c.MinSize().Width + chipGap
	}
}

// shorten gives the switches names that fit a width and reports whether the word before them fits too.
func (p *Picture) shorten(width float32) (worded bool) {
	const around = 16 // of a chip's words
	wide := func(name func(Overlay) string) (w float32) {
		for i := range p.lays {
			w += look.Body.Width(name(Overlay(i))) + around + 1 + chipGap
		}
		return w - chipGap
	}
	name := Overlay.String
	if wide(name) > width {
		name = Overlay.short
	}
	for i, c := range p.lays {
		c.SetText(name(Overlay(i)))
	}
	return wide(name)+p.word.MinSize().Width+chipGap <= width
}

func (r *renderer) MinSize() fyne.Size { return fyne.NewSize(160, 120) }

func (r *renderer) Refresh() {
	p := r.picture
	r.Layout(p.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *renderer) Objects() []fyne.CanvasObject {
	p := r.picture
	list := []fyne.CanvasObject{p.raster, p.word}
	for _, c := range p.turns {
		list = append(list, c)
	}
	list = append(list, p.fit)
	for _, c := range p.lays {
		list = append(list, c)
	}
	return append(list, p.rim)
}

func (r *renderer) Destroy() {
	if p := r.picture; p.motion != nil {
		p.motion.Stop()
	}
}
