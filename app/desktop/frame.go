package desktop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// frame lays out the road, the columns and the hint line.
type frame struct {
	widget.BaseWidget
	w *Window
}

func newFrame(w *Window) *frame {
	f := &frame{w: w}
	f.ExtendBaseWidget(f)
	return f
}

// CreateRenderer is the toolkit's.
func (f *frame) CreateRenderer() fyne.WidgetRenderer {
	return &frameRenderer{frame: f, witness: newWitness(f.w.painted)}
}

type frameRenderer struct {
	frame   *frame
	witness *canvas.Raster
}

func (r *frameRenderer) Layout(size fyne.Size) {
	w := r.frame.w
	w.road.Resize(fyne.NewSize(size.Width, roadHeight))
	w.columns.windowHeight = size.Height + 22
	w.columns.Move(fyne.NewPos(0, roadHeight))
	w.columns.Resize(fyne.NewSize(size.Width, max(0, size.Height-roadHeight-hintHeight)))
	w.hint.Move(fyne.NewPos(0, size.Height-hintHeight))
	w.hint.Resize(fyne.NewSize(size.Width, hintHeight))
	r.witness.Resize(fyne.NewSize(1, 1))
	if size.Width > 0 {
		keepSize(w.app.Preferences(), fyne.NewSize(size.Width, size.Height))
	}
}
func (r *frameRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.frame.w.columns.MinSize().Width, r.frame.w.columns.MinSize().Height+roadHeight+hintHeight)
}
func (r *frameRenderer) Objects() []fyne.CanvasObject {
	w := r.frame.w
	return []fyne.CanvasObject{w.road, w.columns, w.hint, r.witness}
}
func (r *frameRenderer) Destroy() {}
func (r *frameRenderer) Refresh() { canvas.Refresh(r.frame) }
