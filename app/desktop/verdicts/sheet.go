package verdicts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"mastwright/app/desktop/look"
)

// sheet is a renderer that draws its widget from top to bottom whenever it is resized or refreshed. The objects of the last drawing are
// used again in the same order, so that a text that did not change is not painted anew.
type sheet struct {
	widget fyne.Widget
	draw   func(size fyne.Size)
	least  func() fyne.Size

	objects []fyne.CanvasObject
	texts   kept[*canvas.Text]
	boxes   kept[*canvas.Rectangle]
	marks   kept[*look.Mark]
}

// kept are the objects of one kind.
type kept[T any] struct {
	all  []T
	used int
}

// next is the next object of the last drawing, or a new one.
func (k *kept[T]) next(fresh func() T) T {
	if k.used == len(k.all) {
		k.all = append(k.all, fresh())
	}
	k.used++
	return k.all[k.used-1]
}

func (s *sheet) Layout(size fyne.Size) {
	s.objects = s.objects[:0:0]
	s.texts.used, s.boxes.used, s.marks.used = 0, 0, 0
	s.draw(size)
}

func (s *sheet) Refresh() {
	s.Layout(s.widget.Size())
	canvas.Refresh(s.widget)
}

func (s *sheet) MinSize() fyne.Size           { return s.least() }
func (s *sheet) Objects() []fyne.CanvasObject { return s.objects }
func (s *sheet) Destroy()                     {}

// words writes one line in the middle of a row: from x, around x or up to x.
func (s *sheet) words(text string, font look.Font, role look.Role, align fyne.TextAlign, x, top, height float32) {
	t := s.texts.next(func() *canvas.Text { return look.Words("", font, role) })
	next := look.Words(text, font, role)
	changed := t.Text != next.Text || t.Color != next.Color || t.TextSize != next.TextSize || t.TextStyle != next.TextStyle
	t.Text, t.Color, t.TextSize, t.TextStyle = next.Text, next.Color, next.TextSize, next.TextStyle
	look.Lay(t, align, x, top, height)
	if changed {
		t.Refresh()
	}
	s.objects = append(s.objects, t)
}

// box fills a rectangle.
func (s *sheet) box(role look.Role, x, y, width, height float32) *canvas.Rectangle {
	b := s.boxes.next(func() *canvas.Rectangle { return &canvas.Rectangle{} })
	b.FillColor, b.StrokeColor, b.StrokeWidth, b.CornerRadius = look.Color(role), nil, 0, 0
	s.put(b, x, y, width, height)
	return b
}

// focus draws the rim round what the keyboard acts on.
func (s *sheet) focus(x, y, width, height float32) {
	b := s.box(look.Act, x, y, width, height)
	b.FillColor, b.StrokeColor, b.StrokeWidth, b.CornerRadius = color.Transparent, look.Color(look.Act), 2, 3
}

// mark draws a sign in the middle of a row.
func (s *sheet) mark(sign look.Sign, side, x, top, height float32) {
	m := s.marks.next(func() *look.Mark { return look.NewMark(sign, side) })
	m.Side = side
	m.Set(sign)
	s.put(m, x, look.Whole(m, top+(height-side)/2), side, side)
}

func (s *sheet) put(object fyne.CanvasObject, x, y, width, height float32) {
	object.Move(fyne.NewPos(x, y))
	object.Resize(fyne.NewSize(width, height))
	s.objects = append(s.objects, object)
}
