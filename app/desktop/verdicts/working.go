package verdicts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// working is the formula, first as it stands and then with the numbers put in, and its source.
type working struct {
	widget.BaseWidget

	verdict review.Verdict
}

func newWorking() *working {
	w := &working{}
	w.ExtendBaseWidget(w)
	return w
}

const workingMargin = 8

// HeightFor is that of all its lines.
func (w *working) HeightFor(width float32) float32 {
	height := float32(2 * workingMargin)
	for _, p := range w.paragraphs() {
		height += float32(len(look.Wrapped(p.text, p.font, width-2*workingMargin)))*paragraphPitch + p.gap
	}
	return height
}

func (w *working) MinSize() fyne.Size {
	const least = 200
	return fyne.NewSize(least, w.HeightFor(max(w.Size().Width, least)))
}

type paragraph struct {
	text string
	font look.Font
	role look.Role
	gap  float32 // before it
}

const paragraphPitch = 15

func (w *working) paragraphs() []paragraph {
	var list []paragraph
	add := func(text string, font look.Font, role look.Role) {
		gap := float32(0)
		if len(list) > 0 {
			gap = 4
		}
		if text != "" {
			list = append(list, paragraph{text, font, role, gap})
		}
	}
	if c, known := review.Find(w.verdict.ID); known {
		add(c.Formula, look.Formula, look.Second)
	}
	for _, step := range strings.Split(w.verdict.Formula, "; ") {
		add(step, look.Formula, look.Ink)
	}
	add(Sentence(w.verdict.Source), look.Caption, look.Second)
	return list
}

// CreateRenderer is the toolkit's.
func (w *working) CreateRenderer() fyne.WidgetRenderer {
	s := &sheet{widget: w, least: w.MinSize}
	s.draw = func(size fyne.Size) {
		s.box(look.Field, 0, 0, size.Width, size.Height)
		y := float32(workingMargin)
		for _, p := range w.paragraphs() {
			y += p.gap
			for _, line := range look.Wrapped(p.text, p.font, size.Width-2*workingMargin) {
				s.words(line, p.font, p.role, fyne.TextAlignLeading, workingMargin, y, paragraphPitch)
				y += paragraphPitch
			}
		}
	}
	return s
}
