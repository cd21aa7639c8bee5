package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Column stacks its pieces, each as wide as the column less its margins and as high as it needs at that width. It scrolls when they do
// not fit.
type Column struct {
	widget.BaseWidget

	scroll *container.Scroll
	stack  *stack
}

// ColumnMargin is the space at both sides of a column's pieces.
const ColumnMargin = 14

// NewColumn returns a column of pieces from top to bottom.
func NewColumn(pieces ...fyne.CanvasObject) *Column {
	c := &Column{stack: &stack{pieces: pieces, margin: ColumnMargin}}
	c.stack.ExtendBaseWidget(c.stack)
	c.scroll = container.NewVScroll(c.stack)
	c.ExtendBaseWidget(c)
	return c
}

// SetPieces replaces what stands in the column.
func (c *Column) SetPieces(pieces ...fyne.CanvasObject) {
	c.stack.pieces = pieces
	c.stack.Refresh()
	c.Reflow()
}

// Reflow lays the column out anew after a piece changed its height.
func (c *Column) Reflow() {
	c.stack.width = c.Size().Width
	c.scroll.Refresh()
	c.stack.Resize(fyne.NewSize(c.Size().Width, max(c.stack.MinSize().Height, c.Size().Height)))
	c.stack.arrange()
}

// Reveal scrolls until a piece, or something inside one, can be seen.
func (c *Column) Reveal(object fyne.CanvasObject) {
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(object).Y - driver.AbsolutePositionForObject(c.stack).Y
	const air = 24
	switch view := c.scroll.Offset.Y; {
	case top < view+air:
		c.scroll.ScrollToOffset(fyne.NewPos(0, max(0, top-air)))
	case top+object.Size().Height > view+c.Size().Height-air:
		c.scroll.ScrollToOffset(fyne.NewPos(0, top+object.Size().Height-c.Size().Height+air))
	}
}

// Scrolled turns the column by the wheel, for what lies in it and would keep the wheel to itself.
func (c *Column) Scrolled(event *fyne.ScrollEvent) { c.scroll.Scrolled(event) }

// ToTop scrolls to the first piece.
func (c *Column) ToTop() { c.scroll.ScrollToOffset(fyne.NewPos(0, 0)) }

// MinSize is the width of the widest piece with the margins; the height is what there is.
func (c *Column) MinSize() fyne.Size {
	return fyne.NewSize(c.stack.MinSize().Width, 60)
}

// CreateRenderer is the toolkit's.
func (c *Column) CreateRenderer() fyne.WidgetRenderer { return &columnRenderer{column: c} }

type columnRenderer struct {
	still
	column *Column
}

func (r *columnRenderer) Layout(size fyne.Size) {
	r.column.stack.width = size.Width
	r.column.scroll.Resize(size)
	r.column.stack.arrange()
}
func (r *columnRenderer) MinSize() fyne.Size           { return r.column.MinSize() }
func (r *columnRenderer) Refresh()                     { r.column.Reflow() }
func (r *columnRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.column.scroll} }

// Stack is a column without margins that does not scroll, to stand inside another column.
func Stack(pieces ...fyne.CanvasObject) fyne.CanvasObject {
	s := &stack{pieces: pieces}
	s.ExtendBaseWidget(s)
	return s
}

type stack struct {
	widget.BaseWidget

	pieces []fyne.CanvasObject
	margin float32
	width  float32
}

// HeightFor is that of all the pieces that are shown.
func (s *stack) HeightFor(width float32) float32 {
	height := 2 * s.margin
	for _, piece := range s.pieces {
		if piece.Visible() {
			height += heightOf(piece, width-2*s.margin)
		}
	}
	return height
}

func (s *stack) MinSize() fyne.Size {
	width := float32(0)
	for _, piece := range s.pieces {
		if piece.Visible() {
			width = max(width, piece.MinSize().Width)
		}
	}
	if s.width > 0 {
		return fyne.NewSize(width+2*s.margin, s.HeightFor(s.width))
	}
	return fyne.NewSize(width+2*s.margin, s.HeightFor(width+2*s.margin))
}

func (s *stack) arrange() {
	width := s.Size().Width
	y := s.margin
	for _, piece := range s.pieces {
		if !piece.Visible() {
			continue
		}
		height := heightOf(piece, width-2*s.margin)
		piece.Move(fyne.NewPos(s.margin, y))
		piece.Resize(fyne.NewSize(width-2*s.margin, height))
		y += height
	}
}

func heightOf(piece fyne.CanvasObject, width float32) float32 {
	if tall, wraps := piece.(Tall); wraps {
		return tall.HeightFor(width)
	}
	return piece.MinSize().Height
}

// CreateRenderer is the toolkit's.
func (s *stack) CreateRenderer() fyne.WidgetRenderer { return &stackRenderer{stack: s} }

type stackRenderer struct {
	still
	stack *stack
}

func (r *stackRenderer) Layout(size fyne.Size) {
	r.stack.width = size.Width
	r.stack.arrange()
}
func (r *stackRenderer) MinSize() fyne.Size           { return r.stack.MinSize() }
func (r *stackRenderer) Objects() []fyne.CanvasObject { return r.stack.pieces }
func (r *stackRenderer) Refresh() {
	r.stack.arrange()
	canvas.Refresh(r.stack)
}

// Space is an empty piece of a height.
func Space(height float32) fyne.CanvasObject {
	gap := &canvas.Rectangle{FillColor: color.Transparent}
	gap.SetMinSize(fyne.NewSize(0, height))
	return gap
}

// Surface returns a plain surface in a role's colour.
func Surface(role Role) *Plain {
	p := &Plain{role: role, fill: &canvas.Rectangle{}}
	p.ExtendBaseWidget(p)
	return p
}

// Plain is a surface, or a seam when it is 1 px thick.
type Plain struct {
	widget.BaseWidget

	role Role
	fill *canvas.Rectangle
}

// CreateRenderer is the toolkit's.
func (p *Plain) CreateRenderer() fyne.WidgetRenderer {
	p.fill.FillColor = Color(p.role)
	return &plainRenderer{plain: p}
}

type plainRenderer struct {
	still
	plain *Plain
}

func (r *plainRenderer) Layout(size fyne.Size)        { r.plain.fill.Resize(size) }
func (r *plainRenderer) MinSize() fyne.Size           { return fyne.NewSquareSize(1) }
func (r *plainRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.plain.fill} }
func (r *plainRenderer) Refresh() {
	r.plain.fill.FillColor = Color(r.plain.role)
	r.plain.fill.Refresh()
}
