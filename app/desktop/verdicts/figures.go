package verdicts

import (
	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// figures is the table of all of a check's figures. Enter, or a click, copies one with its unit and its source.
type figures struct {
	picker

	onCopy func(text string)

	verdict review.Verdict
	tall    []float32 // heights of the rows as they are drawn
}

func newFigures() *figures {
	f := &figures{picker: picker{at: -1}}
	f.self, f.act = f, f.copy
	f.row = func(y float32) int { return heights(0, f.tall, y) }
	f.ExtendBaseWidget(f)
	return f
}

func (f *figures) set(v review.Verdict) {
	if v.ID != f.verdict.ID || len(v.Figures) != f.count {
		f.at = -1
	}
	f.verdict, f.count = v, len(v.Figures)
	f.Refresh()
}

func (f *figures) copy() {
	if f.onCopy != nil {
		f.onCopy(Citation(f.verdict, f.verdict.Figures[f.at]))
	}
}

const (
	figureLeft  = 20
	figurePitch = 16
)

// lines are the name and what is said of the limits, wrapped beside the value.
func (f *figures) lines(x review.Figure, width float32) (name, limits []string) {
	room := width - figureLeft - look.Body.Width(Value(x)) - 12
	name = look.Wrapped(capital(x.Name), look.Caption, room)
	if x.Limit != nil {
		limits = look.Wrapped(Limits(x), look.Caption, width-figureLeft-4)
	}
	return name, limits
}

func (f *figures) rowHeight(x review.Figure, width float32) float32 {
	name, limits := f.lines(x, width)
	return 8 + figurePitch*float32(len(name)+len(limits))
}

// HeightFor is that of all rows.
func (f *figures) HeightFor(width float32) float32 {
	height := float32(0)
	for _, x := range f.verdict.Figures {
		height += f.rowHeight(x, width)
	}
	return height
}

func (f *figures) MinSize() fyne.Size {
	const least = 200
	return fyne.NewSize(least, f.HeightFor(max(f.Size().Width, least)))
}

// CreateRenderer is the toolkit's.
func (f *figures) CreateRenderer() fyne.WidgetRenderer {
	s := &sheet{widget: f, least: f.MinSize}
	s.draw = func(size fyne.Size) { f.draw(s, size) }
	return s
}

func (f *figures) draw(s *sheet, size fyne.Size) {
	f.tall = f.tall[:0]
	y := float32(0)
	for i, x := range f.verdict.Figures {
		height := f.rowHeight(x, size.Width)
		f.tall = append(f.tall, height)
		if i > 0 {
			s.box(look.Seam, 0, y, size.Width, 1)
		}
		if x.Limit != nil {
			s.mark(look.SignOf(x.Limit.State(x.Value)), 14, 0, y+4, figurePitch)
		}
		s.words(Value(x), look.Body, look.Ink, fyne.TextAlignTrailing, size.Width-2, y+4, figurePitch)
		name, limits := f.lines(x, size.Width)
		line := y + 4
		for _, text := range name {
			s.words(text, look.Caption, look.Ink, fyne.TextAlignLeading, figureLeft, line, figurePitch)
			line += figurePitch
		}
		for _, text := range limits {
			s.words(text, look.Caption, look.Second, fyne.TextAlignLeading, figureLeft, line, figurePitch)
			line += figurePitch
		}
		f.underHand(s, i, -answerBleed, y, size.Width+2*answerBleed, height)
		y += height
	}
}
