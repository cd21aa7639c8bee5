// Package plot draws what a check says as a curve or as rows: the lanes of the verdicts as ground, the good line thin, the limit heavy, the
// present value a violet line, names at the ends of their lines.
//
// A Chart is a drawing's content; it draws itself with any pen, so that the window, a PNG and an SVG show the same. The few things a plot
// of ours needs (lanes, names pushed apart, one violet line) are nothing that a general plotting library has, and what such a library
// has (legends, fonts and styles of its own) is nothing that ours may show: so the axes are drawn here, with the desktop's type.
package plot

import (
	"math"
	"strings"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design"
	"mastwright/design/review"
)

// Chart is the content of one plot. The zero value says that there is no data.
type Chart struct {
	title   string
	summary string // the same in words
	x, y    axis
	lanes   lanes
	curves  []curve
	rows    []row
	spans   []span
	now     now
	missing string // why there is nothing to draw

	dots     []dot     // measured
	uprights []upright // predicted
	needles  []needle  // of a compass rose
}

// axis is a range of figures with its name and unit.
type axis struct {
	name      string // "height mm"
	unit      string // behind every figure: "°"
	low, high float64
	log       bool
}

// lanes are the limits that stand in the plot: across for a limit on y, upright for one on x.
type lanes struct {
	limit   review.Limit
	upright bool
	shown   bool
}

// curve is a line through points in order of x.
type curve struct {
	name   string
	points []pen.Spot // in figures, not pixels
	main   bool       // the one that is judged
	edge   []pen.Spot // with points, the other edge of a spread
}

// row is a value with its spread.
type row struct {
	name           string
	figure         string
	low, mid, high float64
	state          review.State
	bar            bool // from the axis on; otherwise only the spread with its middle
	present        bool // what the design has now
}

// span is a stretch of x that is named at the top.
type span struct {
	name     string
	from, to float64
	strong   bool
}

// now is where the design stands.
type now struct {
	x     float64
	y     float64 // NaN: no point on a curve
	text  string
	shown bool
}

// Title says what the chart is of.
func (c Chart) Title() string { return c.title }

// Summary says in words what the chart shows.
func (c Chart) Summary() string {
	if c.missing != "" {
		return c.missing
	}
	return c.summary
}

// Empty reports whether there is nothing to draw.
func (c Chart) Empty() bool { return len(c.curves)+len(c.rows)+len(c.dots)+len(c.needles) == 0 }

// For returns the chart of a check; false where it has none.
func For(check string, doc *design.Document, r review.Result, materials []review.Candidate) (Chart, bool) {
	switch check {
	case "heading":
		return Heading(doc, r), true
	case "modes":
		return Modes(doc, r), true
	case "shake":
		return Response(doc, r), true
	case "tipover":
		return Break(doc, r, materials), true
	}
	return Chart{}, false
}

// Draw draws the chart on a sheet of a size in pixels at scale 1.
func (c Chart) Draw(p pen.Pen, width, height float64, k Colours) {
	p.Area(pen.Box(pen.Rect{W: width, H: height}, 0), k.ground())
	s := sheet{Chart: c, pen: p, width: width, height: height, k: k}
	p.Words(pen.Spot{X: 12, Y: 20}, s.fit(c.title, look.Strong, width-20), pen.Letters{Font: look.Strong, Colour: k.of(look.Ink)})
	switch {
	case c.Empty():
		s.drawNothing()
	case len(c.rows) > 0:
		s.drawRows()
	case len(c.needles) > 0:
		s.drawRose()
	default:
		s.drawCurves()
	}
}

// sheet is a chart being drawn.
type sheet struct {
	Chart
	pen           pen.Pen
	width, height float64
	k             Colours
	field         pen.Rect // where the figures are
	sx, sy        scale
}

// drawNothing is the hollow lane of a question without an answer.
func (s *sheet) drawNothing() {
	why := s.missing
	if why == "" {
		why = "no data"
	}
	box := pen.Rect{X: 44, Y: 36, W: s.width - 58, H: max(s.height-64, 20)}
	rim := append(pen.Box(box, 0), pen.Spot{X: box.X, Y: box.Y})
	s.pen.Line(rim, pen.Stroke{Width: 1, Colour: s.k.of(look.Edge)})
	s.pen.Words(pen.Spot{X: box.X + box.W/2, Y: box.Y + box.H/2 + 4}, s.fit(why, look.Caption, box.W-16), s.letters(look.Caption, look.NoDataWord, pen.Middle))
}

func (s *sheet) letters(f look.Font, role look.Role, a pen.Align) pen.Letters {
	return pen.Letters{Font: f, Colour: s.k.of(role), Align: a}
}

// fit shortens a text to a width: at its last comma, or else with an ellipsis.
func (s *sheet) fit(text string, f look.Font, width float64) string {
	if s.pen.Width(text, f) <= width {
		return text
	}
	if cut := strings.LastIndex(text, ", "); cut > 0 {
		return s.fit(text[:cut], f, width)
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ") + "…"; s.pen.Width(short, f) <= width {
			return short
		}
	}
	return ""
}

// whole puts a line on the middle of a pixel, so that it is crisp.
func whole(v float64) float64 { return math.Floor(v) + 0.5 }

// drawLanes fills the field with the lanes of the limit and draws its two lines.
func (s *sheet) drawLanes() {
	f := s.field
	if !s.lanes.shown {
		s.pen.Area(pen.Box(f, 0), s.k.of(look.PassLane))
		return
	}
	limit := s.lanes.limit
	at := func(v float64) float64 {
		if s.lanes.upright {
			return min(max(s.sx.at(v), f.X), f.X+f.W)
		}
		return min(max(s.sy.at(v), f.Y), f.Y+f.H)
	}
	low, high := s.y.low, s.y.high
	if s.lanes.upright {
		low, high = s.x.low, s.x.high
	}
	good, bad := limit.Pass, limit.Marginal
	stops, roles := []float64{low, good, bad, high}, []look.Role{look.PassLane, look.MarginalLane, look.FailLane}
	if limit.Sense == review.AtLeast {
		stops, roles = []float64{low, bad, good, high}, []look.Role{look.FailLane, look.MarginalLane, look.PassLane}
	}
	for i, role := range roles {
		from, to := min(max(stops[i], low), high), min(max(stops[i+1], low), high)
		a, b := at(from), at(to)
		box := pen.Rect{X: f.X, Y: min(a, b), W: f.W, H: math.Abs(b - a)}
		if s.lanes.upright {
			box = pen.Rect{X: min(a, b), Y: f.Y, W: math.Abs(b - a), H: f.H}
		}
		if box.W > 0 && box.H > 0 {
			s.pen.Area(pen.Box(box, 0), s.k.of(role))
		}
	}
}

// drawLimits draws the good line thin and the limit heavy.
func (s *sheet) drawLimits() {
	if !s.lanes.shown {
		return
	}
	s.limitLine(s.lanes.limit.Pass, pen.Stroke{Width: 1, Colour: s.k.of(look.Ink), Dash: 3})
	s.limitLine(s.lanes.limit.Marginal, pen.Stroke{Width: 2, Colour: s.k.of(look.Ink)})
}

func (s *sheet) limitLine(v float64, stroke pen.Stroke) {
	f := s.field
	if s.lanes.upright {
		if v > s.x.low && v < s.x.high {
			x := whole(s.sx.at(v))
			s.pen.Line([]pen.Spot{{X: x, Y: f.Y}, {X: x, Y: f.Y + f.H}}, stroke)
		}
		return
	}
	if v > s.y.low && v < s.y.high {
		y := whole(s.sy.at(v))
		s.pen.Line([]pen.Spot{{X: f.X, Y: y}, {X: f.X + f.W, Y: y}}, stroke)
	}
}

// drawX writes the figures under the field and the axis' name at their end.
func (s *sheet) drawX() {
	f := s.field
	y := f.Y + f.H
	ink := s.k.of(look.Second)
	name := s.letters(look.Caption, look.Second, pen.Left)
	room := s.pen.Width(s.x.name, look.Caption) + 12
	nameX := f.X + f.W + 12
	if nameX+room > s.width {
		nameX = s.width - room
	}
	wide := 52.0
	if s.x.log {
		wide = 36
	}
	for _, v := range s.x.ticks(int(f.W / wide)) {
		x := whole(s.sx.at(v))
		s.pen.Line([]pen.Spot{{X: x, Y: y}, {X: x, Y: y + 4}}, pen.Stroke{Width: 1, Colour: ink})
		text := figure(v) + s.x.unit
		if half := s.pen.Width(text, look.Caption) / 2; x+half > nameX-4 {
			continue
		}
		s.pen.Words(pen.Spot{X: x, Y: y + 17}, text, s.letters(look.Caption, look.Second, pen.Middle))
	}
	s.pen.Words(pen.Spot{X: nameX, Y: y + 17}, s.x.name, name)
}

// The baselines above the field: the names of stretches, where there are any, above the present value.
const (
	firstLine  = 39.0
	secondLine = 54.0
)

// nowLine is the baseline of the present value's words.
func (s *sheet) nowLine() float64 {
	if len(s.spans)+len(s.uprights) > 0 {
		return secondLine
	}
	return firstLine
}

// top is where the field begins.
func (s *sheet) top() float64 { return s.nowLine() + 7 }

// drawNow draws the violet line of the present value.
func (s *sheet) drawNow() {
	n, f := s.now, s.field
	if !n.shown || n.x < s.x.low || n.x > s.x.high {
		return
	}
	act := s.k.of(look.Act)
	x := whole(s.sx.at(n.x))
	s.pen.Line([]pen.Spot{{X: x, Y: s.nowLine() + 4}, {X: x, Y: f.Y + f.H}}, pen.Stroke{Width: 1.6, Colour: act})
	half := s.pen.Width(n.text, look.Caption) / 2
	s.pen.Words(pen.Spot{X: min(max(x, half+4), s.width-half-4), Y: s.nowLine()}, n.text, s.letters(look.Caption, look.Act, pen.Middle))
	if !math.IsNaN(n.y) && n.y >= s.y.low {
		y := min(max(s.sy.at(n.y), f.Y), f.Y+f.H)
		s.pen.Area(pen.Disc(pen.Spot{X: x, Y: y}, 5.5), s.k.of(look.MarginalLane))
		s.pen.Area(pen.Disc(pen.Spot{X: x, Y: y}, 4), act)
	}
}
