package desktop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
)

// rightStack is the right column of Shape: the verdicts with the materials below them, or, where the window is too low for both, one of
// the two with a switch over it.
type rightStack struct {
	widget.BaseWidget

	list      *verdicts.List
	materials *verdicts.Materials
	checks    *look.Chip
	compare   *look.Chip
	seam      *look.Plain
	comparing bool
	open      bool // it has the list; otherwise the list stands in a column of its own
}

func newRightStack(list *verdicts.List, materials *verdicts.Materials) *rightStack {
	r := &rightStack{list: list, materials: materials, seam: look.Surface(look.Seam)}
	r.checks = look.NewChip("checks", func() { r.turn(false) })
	r.compare = look.NewChip("materials", func() { r.turn(true) })
	materials.OnReflow = r.Refresh
	r.ExtendBaseWidget(r)
	return r
}

// hold takes the list into the stack, or lets it go.
func (r *rightStack) hold(open bool) {
	r.open = open
	if !open {
		r.list.Show()
	}
}

func (r *rightStack) turn(comparing bool) {
	r.comparing = comparing
	r.Refresh()
}

// CreateRenderer is the toolkit's.
func (r *rightStack) CreateRenderer() fyne.WidgetRenderer { return &rightStackRenderer{r} }

type rightStackRenderer struct{ r *rightStack }

func (r *rightStackRenderer) Layout(size fyne.Size) {
	s := r.r
	if !s.open {
		return
	}
	below := s.materials.HeightFor(size.Width)
	both := size.Height >= s.list.MinSize().Height+below+1
	s.checks.Hidden, s.compare.Hidden = both, both
	s.seam.Hidden = !both
	s.list.Hidden = !both && s.comparing
	s.materials.Hidden = !both && !s.comparing
	place := func(object fyne.CanvasObject, y, height float32) {
		object.Move(fyne.NewPos(0, y))
		object.Resize(fyne.NewSize(size.Width, height))
	}
	if both {
		place(s.list, 0, size.Height-below-1)
		place(s.seam, size.Height-below-1, 1)
		place(s.materials, size.Height-below, below)
		return
	}
	s.checks.SetPicked(!s.comparing)
	s.compare.SetPicked(s.comparing)
	const bar = 32
	x := float32(look.ColumnMargin)
	for _, chip := range []*look.Chip{s.checks, s.compare} {
		width := chip.MinSize().Width
		chip.Move(fyne.NewPos(x, 6))
		chip.Resize(fyne.NewSize(width, 24))
		x += width + 8
	}
	place(s.list, bar, size.Height-bar)
	place(s.materials, bar+4, size.Height-bar-4)
}

func (r *rightStackRenderer) MinSize() fyne.Size {
	return fyne.NewSize(max(r.r.list.MinSize().Width, r.r.materials.MinSize().Width), r.r.list.MinSize().Height)
}
func (r *rightStackRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.r.checks, r.r.compare, r.r.list, r.r.seam, r.r.materials}
}
func (r *rightStackRenderer) Destroy() {}
func (r *rightStackRenderer) Refresh() {
	r.Layout(r.r.Size())
	canvas.Refresh(r.r)
}
