package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Edging is how a rim is drawn.
type Edging int

// The edgings: 1 px in the edge's grey, 2 px violet round what has the focus, 2 px crimson round what is not understood, and none.
const (
	Quiet Edging = iota
	Focused
	Wrong
	Bare
)

// Rim is laid over a field, a list or a button; it takes no clicks.
type Rim struct {
	widget.BaseWidget

	edging Edging
	line   *canvas.Rectangle
}

// NewRim returns a quiet rim.
func NewRim(edging Edging) *Rim {
	r := &Rim{edging: edging, line: &canvas.Rectangle{CornerRadius: 3}}
	r.ExtendBaseWidget(r)
	return r
}

// Set changes the edging.
func (r *Rim) Set(edging Edging) {
	if r.edging != edging {
		r.edging = edging
		r.Refresh()
	}
}

// Edging returns how the rim is drawn.
func (r *Rim) Edging() Edging { return r.edging }

// CreateRenderer is the toolkit's.
func (r *Rim) CreateRenderer() fyne.WidgetRenderer {
	renderer := &rimRenderer{rim: r}
	renderer.dress()
	return renderer
}

type rimRenderer struct {
	still
	rim *Rim
}

func (r *rimRenderer) Layout(size fyne.Size)        { r.rim.line.Resize(size) }
func (r *rimRenderer) MinSize() fyne.Size           { return fyne.NewSquareSize(6) }
func (r *rimRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.rim.line} }
func (r *rimRenderer) Refresh() {
	r.dress()
	r.rim.line.Refresh()
}

func (r *rimRenderer) dress() {
	line := r.rim.line
	line.FillColor = color.Transparent
	switch r.rim.edging {
	case Quiet:
		line.StrokeWidth, line.StrokeColor = 1, Color(Edge)
	case Focused:
		line.StrokeWidth, line.StrokeColor = 2, Color(Act)
	case Wrong:
		line.StrokeWidth, line.StrokeColor = 2, Color(FailBar)
	case Bare:
		line.StrokeWidth, line.StrokeColor = 0, color.Transparent
	}
}
