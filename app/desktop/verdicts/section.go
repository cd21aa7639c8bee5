package verdicts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// section is a quiet heading over what it is about; hidden when that is nothing.
type section struct {
	widget.BaseWidget

	heading *look.Label
	pieces  []fyne.CanvasObject
	gap     float32 // between the pieces
}

func newSection(title string, pieces ...fyne.CanvasObject) *section {
	s := &section{heading: look.NewLabel(title, look.Caption, look.Second), pieces: pieces}
	s.Hidden = len(pieces) == 0
	s.ExtendBaseWidget(s)
	return s
}

func (s *section) set(title string, pieces ...fyne.CanvasObject) {
	s.heading.SetText(title)
	s.pieces = pieces
	s.shown(len(pieces) > 0)
	s.Refresh()
}

func (s *section) shown(shown bool) {
	if shown {
		s.Show()
		return
	}
	s.Hide()
}

const (
	sectionGap    = 10
	headingHeight = 21
)

// HeightFor is that of the gap, the heading and the pieces.
func (s *section) HeightFor(width float32) float32 {
	height := float32(sectionGap + headingHeight)
	for _, piece := range s.pieces {
		height += tall(piece, width) + s.gap
	}
	return height
}

func tall(piece fyne.CanvasObject, width float32) float32 {
	if t, wraps := piece.(look.Tall); wraps {
		return t.HeightFor(width)
	}
	return piece.MinSize().Height
}

func (s *section) MinSize() fyne.Size {
	least := float32(200)
	for _, piece := range s.pieces {
		least = max(least, piece.MinSize().Width)
	}
	return fyne.NewSize(least, s.HeightFor(max(s.Size().Width, least)))
}

// CreateRenderer is the toolkit's.
func (s *section) CreateRenderer() fyne.WidgetRenderer {
	r := &sheet{widget: s, least: s.MinSize}
	r.draw = func(size fyne.Size) {
		r.put(s.heading, 0, sectionGap, size.Width, headingHeight-3)
		y := float32(sectionGap + headingHeight)
		for _, piece := range s.pieces {
			height := tall(piece, size.Width)
			r.put(piece, 0, y, size.Width, height)
			y += height + s.gap
		}
	}
	return r
}
