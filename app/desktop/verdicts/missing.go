package verdicts

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/design/review"
)

// Missing is the list of what is still to be answered, each with the checks that it completes. The one under the hand says how it is
// measured. It stands in a scrolling column, as wide as the column.
type Missing struct {
	picker

	OnPick   func(path string)              // an answer was entered: lead to its field
	OnReflow func()                         // the height has changed: lay the column out anew
	OnReveal func(object fyne.CanvasObject) // scroll until what the keyboard acts on can be seen

	answers []design.Answer
	tops    []float32 // heights of the rows
	bare    bool      // without a heading
}

// NewMissing returns an empty list.
func NewMissing() *Missing {
	m := &Missing{picker: picker{at: -1}}
	m.self, m.act = m, m.pick
	m.row = func(y float32) int { return heights(m.head(), m.tops, y) }
	m.move = m.reflow
	m.reveal = func(object fyne.CanvasObject) {
		if m.OnReveal != nil {
			m.OnReveal(object)
		}
	}
	m.ExtendBaseWidget(m)
	return m
}

// Set shows what is missing.
func (m *Missing) Set(answers []design.Answer) {
	path := m.Picked()
	m.answers, m.count, m.at = answers, len(answers), -1
	for i, a := range answers {
		if a.Path == path {
			m.at = i
		}
	}
	m.Refresh()
	m.reflow()
}

// Picked returns the path of the answer under the hand; empty when none is.
func (m *Missing) Picked() string {
	if m.at < 0 || m.at >= len(m.answers) {
		return ""
	}
	return m.answers[m.at].Path
}

// Rows returns the titles of the answers with what they complete: "Cable length: Bus".
func (m *Missing) Rows() []string {
	rows := make([]string, len(m.answers))
	for i, a := range m.answers {
		rows[i] = a.Title + ": " + titles(a.Checks)
	}
	return rows
}

func (m *Missing) pick() {
	if m.OnPick != nil {
		m.OnPick(m.Picked())
	}
}

func (m *Missing) reflow() {
	if m.OnReflow != nil {
		m.OnReflow()
	}
}

// titles names checks: "Heading, Bus".
func titles(ids []string) string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = id
		if c, known := review.Find(id); known {
			names[i] = c.Title
		}
	}
	return strings.Join(names, ", ")
}

func (m *Missing) head() float32 {
	if m.bare {
		return 0
	}
	return 26
}

// HeightFor is that of all rows.
func (m *Missing) HeightFor(width float32) float32 {
	height := m.head()
	for i := range m.answers {
		height += m.rowHeight(i, width)
	}
	if len(m.answers) == 0 && !m.bare {
		height += rowLeast
	}
	return height
}

// MinSize is that of the rows at the present width.
func (m *Missing) MinSize() fyne.Size {
	m.ExtendBaseWidget(m)
	const least = 240
	return fyne.NewSize(least, m.HeightFor(max(m.Size().Width, least)))
}

const (
	answerLeft  = 21
	answerPitch = 16
	answerBleed = 8 // of the row under the hand, into the column's margins
)

// said are the lines under a title: what the answer completes and, under the hand, how it is measured.
func (m *Missing) said(i int, width float32) (checks, measure []string) {
	room := width - answerLeft
	a := m.answers[i]
	if len(a.Checks) > 0 {
		checks = look.Wrapped("for "+titles(a.Checks), look.Caption, room)
	}
	if i == m.at && a.Measure != "" {
		measure = look.Wrapped(Sentence(a.Measure), look.Caption, room)
	}
	return checks, measure
}

func (m *Missing) rowHeight(i int, width float32) float32 {
	checks, measure := m.said(i, width)
	return 8 + answerPitch*float32(1+len(checks)+len(measure))
}

// CreateRenderer is the toolkit's.
func (m *Missing) CreateRenderer() fyne.WidgetRenderer {
	m.ExtendBaseWidget(m)
	s := &sheet{widget: m, least: m.MinSize}
	s.draw = func(size fyne.Size) { m.draw(s, size) }
	return s
}

func (m *Missing) draw(s *sheet, size fyne.Size) {
	left, right := float32(answerLeft), size.Width
	if !m.bare {
		s.words("Still to be answered", look.Strong, look.Ink, fyne.TextAlignLeading, 0, 0, 20)
		if n := len(m.answers); n > 0 {
			s.words(strconv.Itoa(n), look.Caption, look.Second, fyne.TextAlignTrailing, right, 0, 20)
		}
	}
	if len(m.answers) == 0 && !m.bare {
		s.mark(look.Passes, 14, 0, m.head(), rowLeast)
		s.words("Everything is answered.", look.Body, look.Ink, fyne.TextAlignLeading, left, m.head(), rowLeast)
	}
	m.tops = m.tops[:0]
	y := m.head()
	for i, a := range m.answers {
		height := m.rowHeight(i, size.Width)
		m.tops = append(m.tops, height)
		font := look.Body
		if i == m.at {
			font = look.Strong
			s.box(look.ActSoft, -answerBleed, y, size.Width+2*answerBleed, height)
			s.box(look.Act, -answerBleed, y, 3, height)
		}
		s.mark(look.HasNoData, 14, 0, y+4, answerPitch)
		line := y + 4
		count := strconv.Itoa(len(a.Checks)) + " checks"
		if len(a.Checks) == 1 {
			count = "1 check"
		}
		room := right - left - look.Caption.Width(count) - 8
		s.words(look.Shortened(a.Title, font, room), font, look.Ink, fyne.TextAlignLeading, left, line, answerPitch)
		if len(a.Checks) > 0 {
			s.words(count, look.Caption, look.Second, fyne.TextAlignTrailing, right, line, answerPitch)
		}
		line += answerPitch
		checks, measure := m.said(i, size.Width)
		for _, text := range checks {
			s.words(text, look.Caption, look.Second, fyne.TextAlignLeading, left, line, answerPitch)
			line += answerPitch
		}
		for _, text := range measure {
			s.words(text, look.Caption, look.Ink, fyne.TextAlignLeading, left, line, answerPitch)
			line += answerPitch
		}
		m.underHand(s, i, -answerBleed, y, size.Width+2*answerBleed, height)
		y += height
	}
}
