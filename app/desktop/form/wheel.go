package form

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// wheel lies over a box and hands the mouse's wheel on to the column: the entry below would keep it for a text that is too long, and the
// form would stand still wherever the pointer meets a box.
type wheel struct {
	widget.BaseWidget
	turned func(*fyne.ScrollEvent)
}

func newWheel(turned func(*fyne.ScrollEvent)) *wheel {
	w := &wheel{turned: turned}
	w.ExtendBaseWidget(w)
	return w
}

// Scrolled hands the wheel on.
func (w *wheel) Scrolled(event *fyne.ScrollEvent) { w.turned(event) }

// CreateRenderer is the toolkit's.
func (w *wheel) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(&canvas.Rectangle{FillColor: color.Transparent})
}
