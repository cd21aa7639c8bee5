package desktop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/app/prove"
	"mastwright/design/evidence/bench"
	"mastwright/design/review"
)

// agreed is a line of the table: what was predicted, and when it is done what was measured.
type agreed struct {
	name, unit          string
	predicted, measured bench.Estimate
	off                 float64 // measured over predicted, less one
	agrees, done        bool
}

// agreement is the table Predicted, Measured, Agree: a line for the figures, with the name where it has room and below it otherwise, and one for
// their spreads.
type agreement struct {
	widget.BaseWidget

	lines []agreed
}

const (
	agreementTop  = 24
	agreementName = 18
	agreementLine = 17
	agreementGap  = 8
)

func newAgreement() *agreement {
	a := &agreement{}
	a.ExtendBaseWidget(a)
	return a
}

func (a *agreement) set(lines []agreed) {
	a.lines = lines
	a.Refresh()
}

func (l agreed) spread() bool { return l.predicted.Plus() > 0 || l.measured.Plus() > 0 }

// title is the line's name with its unit.
func (l agreed) title() string {
	if l.unit == "" {
		return capital(l.name)
	}
	return capital(l.name) + ", " + strings.Replace(l.unit, "uT", "µT", 1)
}

// room is what a name has beside what is predicted, in a table of a width.
func (l agreed) room(width float32) float32 {
	return predictedEnds*width - look.Body.Width(estimated(l.predicted, l.unit)) - 8
}

// beside reports whether the name stands in one row with the figures: where it has room, and where there is nothing but one row.
func (l agreed) beside(width float32) bool {
	return !l.spread() && !l.done || look.Body.Width(l.title()) <= l.room(width)
}

func (l agreed) height(width float32) float32 {
	height := float32(agreementLine + agreementGap)
	if !l.beside(width) {
		height += agreementName
	}
	if l.spread() {
		height += agreementLine
	}
	return height
}

// HeightFor is that of its lines.
func (a *agreement) HeightFor(width float32) float32 {
	height := float32(0)
	for _, l := range a.lines {
		height += l.height(width)
	}
	if height == 0 {
		return 0
	}
	return height + agreementTop
}

// MinSize is narrow: the column decides the width.
func (a *agreement) MinSize() fyne.Size {
	return fyne.NewSize(200, a.HeightFor(max(200, a.Size().Width)))
}

// Where the columns of figures end, parts of the table's width.
const predictedEnds, measuredEnds = 0.46, 0.74

// CreateRenderer is the toolkit's.
func (a *agreement) CreateRenderer() fyne.WidgetRenderer { return &agreementRenderer{a: a} }

type agreementRenderer struct {
	a       *agreement
	objects []fyne.CanvasObject
}

func (r *agreementRenderer) Layout(size fyne.Size) {
	r.objects = nil
	if size.Width <= 0 || len(r.a.lines) == 0 {
		return
	}
	words := func(text string, font look.Font, role look.Role, align fyne.TextAlign, x, y, width, height float32) {
		line := look.Words(look.Shortened(text, font, width), font, role)
		look.Lay(line, align, x, y, height)
		r.objects = append(r.objects, line)
	}
	predicted, measured := predictedEnds*size.Width, measuredEnds*size.Width
	column := 0.28 * size.Width
	words("Predicted", look.Caption, look.Second, fyne.TextAlignTrailing, predicted, 0, column, 18)
	words("Measured", look.Caption, look.Second, fyne.TextAlignTrailing, measured, 0, column, 18)
	words("Agree", look.Caption, look.Second, fyne.TextAlignTrailing, size.Width, 0, column, 18)
	seam := look.Surface(look.Seam)
	seam.Move(fyne.NewPos(0, 19))
	seam.Resize(fyne.NewSize(size.Width, 1))
	r.objects = append(r.objects, seam)
	y := float32(agreementTop)
	for _, l := range r.a.lines {
		figures, room := y+agreementName, size.Width
		if l.beside(size.Width) {
			figures, room = y, l.room(size.Width)
		}
		words(l.title(), look.Body, look.Ink, fyne.TextAlignLeading, 0, y, room+1, agreementLine)
		words(estimated(l.predicted, l.unit), look.Body, look.Ink, fyne.TextAlignTrailing, predicted, figures, column, agreementLine)
		words(spreadOf(l.predicted), look.Caption, look.Second, fyne.TextAlignTrailing, predicted, figures+agreementLine, column, agreementLine)
		if l.done {
			words(estimated(l.measured, l.unit), look.Strong, look.Ink, fyne.TextAlignTrailing, measured, figures, column, agreementLine)
			words(spreadOf(l.measured), look.Caption, look.Second, fyne.TextAlignTrailing, measured, figures+agreementLine, column, agreementLine)
			sign, role, word := look.Passes, look.PassWord, "agrees"
			if !l.agrees {
				sign, role, word = look.IsMarginal, look.MarginalWord, "differs"
			}
			off := fmt.Sprintf("%+.0f %%", 100*l.off)
			switch {
			case math.Abs(l.off) < 0.005:
				off = "0 %"
			case l.off < 0:
				off = strings.Replace(off, "-", "−", 1)
			}
			words(off, look.Body, look.Ink, fyne.TextAlignTrailing, size.Width, figures, column, agreementLine)
			at := figures
			if l.spread() {
				at += agreementLine
				words(word, look.Caption, role, fyne.TextAlignTrailing, size.Width, at, column, agreementLine)
			}
			mark := look.NewMark(sign, 14)
			mark.Resize(fyne.NewSquareSize(14))
			left := size.Width - 20 - look.Body.Width(off)
			if l.spread() {
				left = size.Width - 20 - look.Caption.Width(word)
			}
			mark.Move(fyne.NewPos(look.Whole(r.a, left), look.Whole(r.a, at+1)))
			r.objects = append(r.objects, mark)
		} else {
			words("not yet", look.Caption, look.NoDataWord, fyne.TextAlignTrailing, measured, figures, column, agreementLine)
		}
		y += l.height(size.Width)
	}
}
func (r *agreementRenderer) MinSize() fyne.Size           { return r.a.MinSize() }
func (r *agreementRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *agreementRenderer) Destroy()                     {}
func (r *agreementRenderer) Refresh() {
	r.Layout(r.a.Size())
	canvas.Refresh(r.a)
}

// estimated is an estimate's value with the digits that its spread leaves.
func estimated(e bench.Estimate, unit string) string {
	plus := e.Plus()
	if plus <= 0 || e.Value == 0 {
		return figured(e.Value, unit)
	}
	return strconv.FormatFloat(e.Value, 'f', decimals(plus), 64)
}

// decimals are those of a figure that is known to plus or minus so much.
func decimals(plus float64) int {
	power := math.Floor(math.Log10(plus))
	if plus/math.Pow(10, power) < 2 {
		power--
	}
	return int(min(max(0, -power), 6))
}

// spreadOf words the bounds of an estimate: "± 2.1", or "96 to 113" where it does not lie in their middle.
func spreadOf(e bench.Estimate) string {
	plus := e.Plus()
	if plus <= 0 {
		return ""
	}
	digits := decimals(plus)
	if math.Abs(e.Value-(e.Low+e.High)/2) < 0.05*plus {
		return "± " + strconv.FormatFloat(plus, 'f', digits, 64)
	}
	return strconv.FormatFloat(e.Low, 'f', digits, 64) + " to " + strconv.FormatFloat(e.High, 'f', digits, 64)
}

// figured is a figure without a spread: a mass to a tenth of a gram, which a kitchen scale shows at best, anything else in four digits.
func figured(v float64, unit string) string {
	if unit == "g" {
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return shortFigure(v)
}

// shortFigure is a figure in four digits at most.
func shortFigure(v float64) string {
	if v == 0 {
		return "0"
	}
	digits := max(0, 3-int(math.Floor(math.Log10(math.Abs(v)))))
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// moves are the verdicts before a finding and with it: their marks and the figure that decides.
type moves struct {
	widget.BaseWidget
	list []prove.Move
}

const movePitch = 22

func newMoves() *moves {
	m := &moves{}
	m.ExtendBaseWidget(m)
	return m
}

func (m *moves) set(list []prove.Move) {
	m.list = list
	m.Refresh()
}

// MinSize is a line each.
func (m *moves) MinSize() fyne.Size { return fyne.NewSize(200, movePitch*float32(len(m.list))) }

// CreateRenderer is the toolkit's.
func (m *moves) CreateRenderer() fyne.WidgetRenderer { return &movesRenderer{m: m} }

type movesRenderer struct {
	m       *moves
	objects []fyne.CanvasObject
}

func (r *movesRenderer) Layout(size fyne.Size) {
	r.objects = nil
	if size.Width <= 0 {
		return
	}
	words := func(text string, role look.Role, align fyne.TextAlign, x, y, width float32) {
		line := look.Words(look.Shortened(text, look.Body, width), look.Body, role)
		look.Lay(line, align, x, y, movePitch)
		r.objects = append(r.objects, line)
	}
	for i, m := range r.m.list {
		y := movePitch * float32(i)
		for at, state := range []review.State{m.Was, m.Is} {
			mark := look.NewMark(look.SignOf(state), 14)
			mark.Resize(fyne.NewSquareSize(14))
			mark.Move(fyne.NewPos(38*float32(at), y+4))
			r.objects = append(r.objects, mark)
		}
		words("→", look.Second, fyne.TextAlignCenter, 26, y, 20)
		figures := moved(m.From, m.To)
		if m.From.Name != m.To.Name {
			figures = verdicts.Value(m.To)
		}
		room := look.Body.Width(figures) + 1
		words(figures, look.WordRole(m.Is), fyne.TextAlignTrailing, size.Width, y, room)
		words(m.Title, look.Ink, fyne.TextAlignLeading, 58, y, size.Width-58-room-8)
	}
}

// moved writes a figure before and after; where the usual digits do not tell the two apart, in three that count.
func moved(from, to review.Figure) string {
	before, after := verdicts.Value(from), verdicts.Value(to)
	if before == after && from.Value != to.Value {
		unit := from.Unit
		switch {
		case unit == "":
			unit = " ×"
		case !strings.HasPrefix(unit, "°"):
			unit = " " + unit
		}
		before, after = strconv.FormatFloat(from.Value, 'g', 3, 64)+unit, strconv.FormatFloat(to.Value, 'g', 3, 64)+unit
	}
	return before + " → " + after
}

func (r *movesRenderer) MinSize() fyne.Size           { return r.m.MinSize() }
func (r *movesRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *movesRenderer) Destroy()                     {}
func (r *movesRenderer) Refresh() {
	r.Layout(r.m.Size())
	canvas.Refresh(r.m)
}
