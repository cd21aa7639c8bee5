package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// line puts a small button at the left of a row of its own.
type line struct {
	widget.BaseWidget
	object fyne.CanvasObject
}

func newLine(object fyne.CanvasObject) *line {
	l := &line{object: object}
	l.ExtendBaseWidget(l)
	return l
}

// MinSize is a row's pitch.
func (l *line) MinSize() fyne.Size { return fyne.NewSize(l.object.MinSize().Width, rowPitch) }

// CreateRenderer is the toolkit's.
func (l *line) CreateRenderer() fyne.WidgetRenderer { return &lineRenderer{l} }

type lineRenderer struct{ line *line }

func (r *lineRenderer) Layout(size fyne.Size) {
	least := r.line.object.MinSize()
	r.line.object.Resize(least)
	r.line.object.Move(fyne.NewPos(0, (size.Height-least.Height)/2))
}
func (r *lineRenderer) MinSize() fyne.Size           { return r.line.MinSize() }
func (r *lineRenderer) Refresh()                     { r.line.object.Refresh() }
func (r *lineRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.line.object} }
func (r *lineRenderer) Destroy()                     {}
