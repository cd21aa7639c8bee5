package verdicts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// front is the top of an account: mark and name, the figure with its limits, and why.
type front struct {
	widget.BaseWidget

	verdict review.Verdict
	stale   bool
}

func newFront() *front {
	f := &front{}
	f.ExtendBaseWidget(f)
	return f
}

// HeightFor is that of all its lines.
func (f *front) HeightFor(width float32) float32 { return f.write(nil, width) }

func (f *front) MinSize() fyne.Size {
	const least = 200
	return fyne.NewSize(least, f.HeightFor(max(f.Size().Width, least)))
}

// CreateRenderer is the toolkit's.
func (f *front) CreateRenderer() fyne.WidgetRenderer {
	s := &sheet{widget: f, least: f.MinSize}
	s.draw = func(size fyne.Size) { f.write(s, size.Width) }
	return s
}

// write writes the lines on a sheet, or only measures them, and returns how high they stand.
func (f *front) write(s *sheet, width float32) float32 {
	v := f.verdict
	y := float32(0)
	lines := func(text string, font look.Font, role look.Role, x, pitch float32) {
		if text == "" {
			return
		}
		for _, line := range look.Wrapped(text, font, width-x) {
			if s != nil {
				s.words(line, font, role, fyne.TextAlignLeading, x, y, pitch)
			}
			y += pitch
		}
	}
	if s != nil {
		s.mark(look.SignOf(v.State), 16, 0, y, 20)
	}
	lines(v.Title, look.Title, look.Ink, 24, 20)
	if c, known := review.Find(v.ID); known {
		y += 2
		lines(capital(c.Question), look.Caption, look.Second, 0, 16)
	}
	f.writeFigure(s, &y, width)
	lines(Sentence(v.Because), look.Body, look.Ink, 0, 17)
	if v.State == review.NoData {
		y += 6 // to the answers it waits for
	} else if !strings.Contains(v.Because, "spread") {
		lines(Sentence(Spread(v.Figure)), look.Body, look.Ink, 0, 17)
	}
	return y
}

// writeFigure writes the headline with its name and its limits beside it, or under it where they are too long.
func (f *front) writeFigure(s *sheet, y *float32, width float32) {
	v := f.verdict
	value, beside := "No data", []string(nil)
	if v.State != review.NoData {
		value = Value(v.Figure)
		beside = []string{v.Figure.Name, Limits(v.Figure)}
	}
	role := look.Ink
	if f.stale {
		role = look.Third
	}
	*y += 4
	left := look.Headline.Width(value) + 10
	var text []string
	for _, line := range beside {
		if look.Caption.Width(line) > width-left {
			line = strings.Replace(line, ", ", ",\n", 1) // a figure stays with its unit
		}
		text = append(text, look.Wrapped(line, look.Caption, width-left)...)
	}
	under := len(text) > 3
	if under {
		left, text = 0, look.Wrapped(strings.Join(beside, "; "), look.Caption, width)
	}
	block := max(36, float32(len(text))*16)
	if under {
		block = 36
	}
	if s != nil {
		s.words(value, look.Headline, role, fyne.TextAlignLeading, 0, *y, 36)
	}
	top := *y + (block-float32(len(text))*16)/2 + 2
	if under {
		top = *y + block
		block += float32(len(text)) * 16
	}
	if s != nil {
		for i, line := range text {
			s.words(line, look.Caption, look.Second, fyne.TextAlignLeading, left, top+float32(i)*16, 16)
		}
	}
	*y += block + 8
}
