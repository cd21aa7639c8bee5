package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// fold is the heading of rows that can be put away. Space or Enter opens and closes it.
type fold struct {
	widget.BaseWidget

	title, note string
	open, inner bool // inner: the heading of a list's entry
	onToggle    func()
	onFocus     func()
	remove      *look.Chip // nil: it cannot be taken out

	focused, hovered bool
}

func newFold(title, note string, open, inner bool, onToggle, onRemove func()) *fold {
	f := &fold{title: title, note: note, open: open, inner: inner, onToggle: onToggle}
	if onRemove != nil {
		f.remove = look.NewChip("remove", onRemove)
	}
	f.ExtendBaseWidget(f)
	return f
}

// Tapped opens or closes the fold.
func (f *fold) Tapped(*fyne.PointEvent) { f.onToggle() }

// TypedKey opens or closes the fold.
func (f *fold) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		f.onToggle()
	case fyne.KeyRight:
		if !f.open {
			f.onToggle()
		}
	case fyne.KeyLeft:
		if f.open {
			f.onToggle()
		}
	}
}

// TypedRune does nothing.
func (f *fold) TypedRune(rune) {}

// FocusGained shows the rim.
func (f *fold) FocusGained() { f.focused = true; f.onFocus(); f.Refresh() }

// FocusLost takes it away.
func (f *fold) FocusLost() { f.focused = false; f.Refresh() }

// MouseIn shows that the heading can be pressed.
func (f *fold) MouseIn(*desktop.MouseEvent) { f.hovered = true; f.Refresh() }

// MouseMoved does nothing.
func (f *fold) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is the other end of MouseIn.
func (f *fold) MouseOut() { f.hovered = false; f.Refresh() }

// MinSize is a row of 28.
func (f *fold) MinSize() fyne.Size { return fyne.NewSize(100, 28) }

// CreateRenderer is the toolkit's.
func (f *fold) CreateRenderer() fyne.WidgetRenderer {
	r := &foldRenderer{fold: f, ground: &canvas.Rectangle{CornerRadius: 3}, rim: look.NewRim(look.Bare),
		arms: [2]*canvas.Line{{StrokeWidth: 1.6}, {StrokeWidth: 1.6}}}
	r.title = look.Words(f.title, look.Strong, look.Ink)
	r.note = look.Words(f.note, look.Caption, look.Second)
	r.dress()
	return r
}

type foldRenderer struct {
	fold        *fold
	ground      *canvas.Rectangle
	rim         *look.Rim
	arms        [2]*canvas.Line
	title, note *canvas.Text
}

func (r *foldRenderer) Layout(size fyne.Size) {
	r.ground.Resize(fyne.NewSize(size.Width+8, size.Height-2))
	r.ground.Move(fyne.NewPos(-4, 1))
	r.rim.Resize(r.ground.Size())
	r.rim.Move(r.ground.Position())
	const x, y = 4, 14
	if r.fold.open {
		r.arm(0, x-4, y-2, x, y+2)
		r.arm(1, x, y+2, x+4, y-2)
	} else {
		r.arm(0, x-2, y-4, x+2, y)
		r.arm(1, x+2, y, x-2, y+4)
	}
	right := size.Width
	if r.fold.remove != nil {
		chip := r.fold.remove.MinSize()
		r.fold.remove.Resize(chip)
		r.fold.remove.Move(fyne.NewPos(size.Width-chip.Width, 2))
		right -= chip.Width + 8
	}
	left := float32(16)
	r.title.Text = look.Shortened(r.fold.title, r.font(), right-left)
	look.Lay(r.title, fyne.TextAlignLeading, left, 0, size.Height)
	room := right - left - r.title.MinSize().Width - 12
	r.note.Text = ""
	if room > 40 {
		r.note.Text = look.Shortened(r.fold.note, look.Caption, room)
	}
	look.Lay(r.note, fyne.TextAlignTrailing, right, 0, size.Height)
}

func (r *foldRenderer) arm(i int, x1, y1, x2, y2 float32) {
	r.arms[i].Position1, r.arms[i].Position2 = fyne.NewPos(x1, y1), fyne.NewPos(x2, y2)
}

func (r *foldRenderer) font() look.Font {
	if r.fold.inner {
		return look.Body
	}
	return look.Strong
}

func (r *foldRenderer) MinSize() fyne.Size { return r.fold.MinSize() }
func (r *foldRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.ground, r.arms[0], r.arms[1], r.title, r.note, r.rim}
	if r.fold.remove != nil {
		objects = append(objects, r.fold.remove)
	}
	return objects
}
func (r *foldRenderer) Destroy() {}
func (r *foldRenderer) Refresh() {
	r.dress()
	r.Layout(r.fold.Size())
	canvas.Refresh(r.fold)
}

func (r *foldRenderer) dress() {
	r.ground.FillColor = look.Color(look.Panel)
	if r.fold.hovered {
		r.ground.FillColor = look.Color(look.ActSoft)
	}
	edging := look.Bare
	if r.fold.focused {
		edging = look.Focused
	}
	r.rim.Set(edging)
	r.title.TextStyle, r.title.Color = r.font().Style(), look.Color(look.Ink)
	r.note.Color = look.Color(look.Second)
	for _, arm := range r.arms {
		arm.StrokeColor = look.Color(look.Second)
	}
}
