package verdicts

import (
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// Materials compares the same design in every print material. A click, or Enter on the row under the hand, applies one. Rows keep their
// order while the design changes.
type Materials struct {
	picker

	OnPick   func(name string) // apply the material
	OnReflow func()            // the height has changed

	list    []review.Candidate
	current string
	stale   bool
}

// NewMaterials returns an empty comparison.
func NewMaterials() *Materials {
	m := &Materials{picker: picker{at: -1}}
	m.self, m.act, m.move = m, m.apply, m.reflow
	m.row = func(y float32) int {
		if y < materialsTop {
			return -1
		}
		return int((y - materialsTop) / rowLeast)
	}
	m.ExtendBaseWidget(m)
	return m
}

// Set shows a comparison and which of its materials the design is of; none when it is of several.
func (m *Materials) Set(list []review.Candidate, current string) {
	hand := m.Hand()
	m.list, m.current, m.stale = m.ordered(list), current, false
	m.count = len(list)
	m.at = m.index(hand)
	if m.at < 0 {
		m.at = m.index(current)
	}
	m.Refresh()
	m.reflow()
}

// ordered keeps the rows where they are as long as the same materials are compared.
func (m *Materials) ordered(list []review.Candidate) []review.Candidate {
	if len(list) != len(m.list) {
		return list
	}
	ordered := make([]review.Candidate, len(m.list))
	for i, old := range m.list {
		at := slices.IndexFunc(list, func(c review.Candidate) bool { return c.Name == old.Name })
		if at < 0 {
			return list
		}
		ordered[i] = list[at]
	}
	return ordered
}

// SetStale shows that a new comparison is on its way, until the next Set.
func (m *Materials) SetStale(stale bool) {
	if m.stale != stale {
		m.stale = stale
		m.Refresh()
	}
}

// Hand returns the name of the material under the hand; empty when none is.
func (m *Materials) Hand() string {
	if m.at < 0 || m.at >= len(m.list) {
		return ""
	}
	return m.list[m.at].Name
}

// Names returns the materials in the order they are shown.
func (m *Materials) Names() []string {
	names := make([]string, len(m.list))
	for i, c := range m.list {
		names[i] = c.Name
	}
	return names
}

func (m *Materials) index(name string) int {
	return slices.IndexFunc(m.list, func(c review.Candidate) bool { return c.Name == name })
}

func (m *Materials) apply() {
	if m.OnPick != nil && m.Hand() != m.current {
		m.OnPick(m.Hand())
	}
}

func (m *Materials) reflow() {
	if m.OnReflow != nil {
		m.OnReflow()
	}
}

// Measures of the table, in pixels.
const (
	materialsTop   = 56 // heading and captions
	materialsLeast = 320
)

// materialColumn is a figure of every material. Right is the share of the width beside the names at which it ends.
type materialColumn struct {
	title, unit string
	right       float32
	check       string // whose state the figure is judged by
	value       func(c review.Candidate) string
}

var materialColumns = []materialColumn{
	{"mass", "g", 0.19, "", func(c review.Candidate) string { return decimals(c.Mass, 1) }},
	{"mode", "Hz", 0.40, "modes", func(c review.Candidate) string { return decimals(c.First, 0) }},
	{"tilt", "°", 0.60, "sway", func(c review.Candidate) string { return strconv.FormatFloat(c.Tilt, 'f', 2, 64) }},
	{"break", "m/s", 0.80, "tipover", func(c review.Candidate) string { return decimals(c.Break, 1) }},
	{"heat", "K", 1, "heat", func(c review.Candidate) string {
		if !c.Softens {
			return "–"
		}
		return strconv.FormatFloat(c.Room, 'f', 1, 64)
	}},
}

// decimals writes a figure; a dash where there is none.
func decimals(value float64, n int) string {
	if value == 0 {
		return "–"
	}
	return strconv.FormatFloat(value, 'f', n, 64)
}

// shortName is a material's name in a narrow column: letters of the trade in capitals, words as words.
func shortName(name string) string {
	if len(name) <= 7 {
		return strings.ToUpper(name)
	}
	return capital(name)
}

// said are the lines under the table: the full name of the material under the hand and how it would do.
func (m *Materials) said(width float32) []string {
	if m.Hand() == "" {
		return nil
	}
	c := m.list[m.at]
	text := c.Title + ": " + Sentence(c.Because)
	if m.current != "" && c.Name != m.current {
		text += " Enter or a click applies it."
	}
	return look.Wrapped(text, look.Caption, width-2*listMargin)
}

// HeightFor is that of the rows and of what is said under them.
func (m *Materials) HeightFor(width float32) float32 {
	return materialsTop + rowLeast*float32(len(m.list)) + 8 + 16*float32(max(len(m.said(width)), 2))
}

// MinSize is that of all rows.
func (m *Materials) MinSize() fyne.Size {
	m.ExtendBaseWidget(m)
	return fyne.NewSize(materialsLeast, m.HeightFor(max(m.Size().Width, materialsLeast)))
}

// CreateRenderer is the toolkit's.
func (m *Materials) CreateRenderer() fyne.WidgetRenderer {
	m.ExtendBaseWidget(m)
	s := &sheet{widget: m, least: m.MinSize}
	s.draw = func(size fyne.Size) { m.draw(s, size) }
	return s
}

func (m *Materials) draw(s *sheet, size fyne.Size) {
	s.words("Materials", look.Strong, look.Ink, fyne.TextAlignLeading, listMargin, 4, 20)
	s.words("this design, printed in each", look.Caption, look.Second, fyne.TextAlignTrailing, size.Width-listMargin, 4, 20)
	names := m.nameWidth()
	room := size.Width - nameLeft - names - listMargin
	ends := func(c materialColumn) float32 { return nameLeft + names + c.right*room }
	for _, c := range materialColumns {
		s.words(c.title, look.Caption, look.Second, fyne.TextAlignTrailing, ends(c), 24, 15)
		s.words(c.unit, look.Caption, look.Third, fyne.TextAlignTrailing, ends(c), 38, 15)
	}
	for i, c := range m.list {
		m.drawRow(s, size, i, c, ends)
	}
	y := materialsTop + rowLeast*float32(len(m.list)) + 6
	for i, line := range m.said(size.Width) {
		s.words(line, look.Caption, look.Second, fyne.TextAlignLeading, listMargin, y+16*float32(i), 16)
	}
}

func (m *Materials) nameWidth() float32 {
	width := float32(60)
	for _, c := range m.list {
		width = max(width, look.Strong.Width(shortName(c.Name)))
	}
	return min(width, 92)
}

func (m *Materials) drawRow(s *sheet, size fyne.Size, i int, c review.Candidate, ends func(materialColumn) float32) {
	top := materialsTop + rowLeast*float32(i)
	font, ink := look.Body, look.Ink
	if c.Name == m.current {
		font = look.Strong
		s.box(look.ActSoft, 0, top, size.Width, rowLeast)
		s.box(look.Act, 0, top, 3, rowLeast)
	}
	if m.stale {
		ink = look.Third
	}
	s.mark(look.SignOf(worst(c)), 14, 9, top, rowLeast)
	s.words(look.Shortened(shortName(c.Name), font, m.nameWidth()), font, look.Ink, fyne.TextAlignLeading, nameLeft, top, rowLeast)
	for _, column := range materialColumns {
		value := column.value(c)
		s.words(value, look.Body, ink, fyne.TextAlignTrailing, ends(column), top, rowLeast)
		if state := stateOf(c, column.check); state == review.Marginal || state == review.Fail {
			s.mark(look.SignOf(state), 10, ends(column)-look.Body.Width(value)-13, top, rowLeast)
		}
	}
	m.underHand(s, i, 0, top, size.Width, rowLeast)
}

func worst(c review.Candidate) review.State {
	switch {
	case c.Fails > 0:
		return review.Fail
	case c.Marginals > 0:
		return review.Marginal
	}
	return review.Pass
}

// stateOf is the state of one of a candidate's checks; pass for a figure that none judges.
func stateOf(c review.Candidate, check string) review.State {
	for _, v := range c.Verdicts {
		if v.ID == check {
			return v.State
		}
	}
	return review.Pass
}
