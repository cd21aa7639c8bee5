package desktop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// The measures of the window in pixels: the staff beside the picture, the plot below it, what the outer columns keep at least, and what
// the picture keeps.
const (
	staffWidth   = 106
	leastLeft    = 304
	leastRight   = 336
	leastPicture = 168
	seamReach    = 3 // pixels at both sides of a seam that take hold of it
)

// widths are the outer columns' widths in a window as wide as given: from 1024 to 1600 they grow with it, beyond that the picture
// takes the rest.
func widths(window float32) (left, right float32) {
	switch {
	case window >= 1500:
		return 360, 460
	case window >= 1280:
		t := (window - 1280) / 220
		return 322 + t*38, 404 + t*56
	}
	t := max(0, (window-1024)/256)
	return leastLeft + t*18, leastRight + t*68
}

// plotHeight is that of the plot below the picture.
func plotHeight(window float32) float32 {
	if window >= 1000 {
		return 240
	}
	return 196
}

// columns are the three columns with the staff beside the picture. The seams can be dragged; what was dragged is kept in pixels.
type columns struct {
	widget.BaseWidget

	content
	ownLeft, ownRight float32 // dragged widths, 0 for the window's own
	windowHeight      float32
	onDragged         func()

	leftSeam, rightSeam *seam
	lines               [2]*look.Plain // beside the staff, over the plot
}

func newColumns() *columns {
	c := &columns{}
	c.content = content{left: look.Surface(look.Panel), picture: look.Surface(look.Panel), right: look.Surface(look.Panel)}
	c.leftSeam = newSeam(func(dx float32) { c.drag(dx, 0) }, c.dropped)
	c.rightSeam = newSeam(func(dx float32) { c.drag(0, -dx) }, c.dropped)
	c.lines = [2]*look.Plain{look.Surface(look.Seam), look.Surface(look.Seam)}
	c.ExtendBaseWidget(c)
	return c
}

// content is what stands in the columns; staff and plot may be nil.
type content struct{ left, staff, picture, plot, right fyne.CanvasObject }

func (c *columns) set(content content) {
	c.content = content
	c.Refresh()
}

// sizes are the outer columns' widths as they are laid out: as dragged, but so that the picture keeps its least width.
func (c *columns) sizes(width float32) (left, right float32) {
	left, right = widths(width)
	if c.ownLeft > 0 {
		left = c.ownLeft
	}
	if c.ownRight > 0 {
		right = c.ownRight
	}
	left, right = max(left, leastLeft), max(right, leastRight)
	room := width - staffWidth - leastPicture - 3
	if over := left + right - room; over > 0 {
		cut := min(over, right-leastRight)
		right -= cut
		left = max(leastLeft, left-(over-cut))
	}
	return look.Whole(c, left), look.Whole(c, right)
}

func (c *columns) drag(left, right float32) {
	l, r := c.sizes(c.Size().Width)
	if left != 0 {
		c.ownLeft = max(leastLeft, min(l+left, c.Size().Width-r-staffWidth-leastPicture-3))
	}
	if right != 0 {
		c.ownRight = max(leastRight, min(r+right, c.Size().Width-l-staffWidth-leastPicture-3))
	}
	c.Refresh()
}

func (c *columns) dropped() {
	if c.onDragged != nil {
		c.onDragged()
	}
}

// MinSize is what a window of 1024 by 700 gives.
func (c *columns) MinSize() fyne.Size {
	return fyne.NewSize(leastLeft+staffWidth+leastPicture+leastRight+3, 580)
}

// CreateRenderer is the toolkit's.
func (c *columns) CreateRenderer() fyne.WidgetRenderer {
	return &columnsRenderer{c: c, ground: look.Surface(look.Panel)}
}

type columnsRenderer struct {
	c      *columns
	ground *look.Plain
}

func (r *columnsRenderer) Layout(size fyne.Size) {
	c := r.c
	r.ground.Resize(size)
	left, right := c.sizes(size.Width)
	place := func(object fyne.CanvasObject, x, y, width, height float32) {
		object.Move(fyne.NewPos(x, y))
		object.Resize(fyne.NewSize(width, height))
	}
	place(c.left, 0, 0, left, size.Height)
	place(c.leftSeam, left-seamReach, 0, 2*seamReach+1, size.Height)
	x := left + 1
	middle := size.Width - right - 1 - x
	place(c.right, size.Width-right, 0, right, size.Height)
	place(c.rightSeam, size.Width-right-1-seamReach, 0, 2*seamReach+1, size.Height)

	height := size.Height
	plotted := c.plot != nil
	c.lines[1].Hidden = !plotted
	if plotted {
		below := plotHeight(c.windowHeight)
		height -= below + 1
		place(c.lines[1], x, height, middle, 1)
		place(c.plot, x, height+1, middle, below)
	}
	c.lines[0].Hidden = c.staff == nil
	if c.staff != nil {
		place(c.staff, x, 0, staffWidth, height)
		place(c.lines[0], x+staffWidth, 0, 1, height)
		x, middle = x+staffWidth+1, middle-staffWidth-1
	}
	place(c.picture, x, 0, middle, height)
}

func (r *columnsRenderer) MinSize() fyne.Size { return r.c.MinSize() }
func (r *columnsRenderer) Objects() []fyne.CanvasObject {
	c := r.c
	objects := []fyne.CanvasObject{r.ground, c.left}
	if c.staff != nil {
		objects = append(objects, c.staff)
	}
	objects = append(objects, c.lines[0], c.picture, c.lines[1])
	if c.plot != nil {
		objects = append(objects, c.plot)
	}
	return append(objects, c.right, c.leftSeam, c.rightSeam)
}
func (r *columnsRenderer) Destroy() {}
func (r *columnsRenderer) Refresh() {
	r.Layout(r.c.Size())
	canvas.Refresh(r.c)
}

// seam is a line between two columns that can be dragged.
type seam struct {
	widget.BaseWidget

	moved   func(dx float32)
	dropped func()
	line    *look.Plain
}

func newSeam(moved func(dx float32), dropped func()) *seam {
	s := &seam{moved: moved, dropped: dropped, line: look.Surface(look.Seam)}
	s.ExtendBaseWidget(s)
	return s
}

// Dragged moves the seam.
func (s *seam) Dragged(event *fyne.DragEvent) { s.moved(event.Dragged.DX) }

// DragEnd keeps it.
func (s *seam) DragEnd() { s.dropped() }

// Cursor says that it can be dragged.
func (s *seam) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// CreateRenderer is the toolkit's.
func (s *seam) CreateRenderer() fyne.WidgetRenderer { return &seamRenderer{s} }

type seamRenderer struct{ seam *seam }

func (r *seamRenderer) Layout(size fyne.Size) {
	r.seam.line.Move(fyne.NewPos(seamReach, 0))
	r.seam.line.Resize(fyne.NewSize(1, size.Height))
}
func (r *seamRenderer) MinSize() fyne.Size           { return fyne.NewSize(2*seamReach+1, 1) }
func (r *seamRenderer) Refresh()                     { r.seam.line.Refresh() }
func (r *seamRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.seam.line} }
func (r *seamRenderer) Destroy()                     {}
