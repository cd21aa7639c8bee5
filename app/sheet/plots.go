package sheet

import (
	"math"
	"slices"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
)

// plots are the figures over what the builder can change: the swing over the height, the vibration over the rotors' speed, and the
// stress along the mast.
func (b *builder) plots() []paper.Block {
	var row paper.Beside
	for _, c := range []chart{b.swing(), b.vibration(), b.stress()} {
		if len(c.curves) > 0 {
			row = append(row, c.figure(56, 44))
		}
	}
	if len(row) == 0 {
		return []paper.Block{paper.Prose{Text: "No data for the plots: swing over height, vibration over speed and stress along the mast need answers that are missing."}}
	}
	return []paper.Block{row}
}

// chart is a plot of curves with limits as lines.
type chart struct {
	title, across string
	curves        []curve
	limits        []limitLine
	mark          float64 // where the design stands on the horizontal axis; NaN for nowhere
}

type curve struct {
	name string
	x, y []float64
	thin bool
}

type limitLine struct {
	name string
	y    float64
	bad  bool // beyond it the check fails
}

// swing is the heading error over the height of the mast.
func (b *builder) swing() chart {
	c := chart{title: "Swing of the compass, °", across: "height of the mast, mm", mark: b.Doc.Mast.Height.Millimetres()}
	if b.Result.Compass == nil || len(b.Result.Compass.Field) < 2 {
		return c
	}
	hover, full := curve{name: "hover", thin: true}, curve{name: "full throttle"}
	for _, p := range b.Result.Compass.Field {
		hover.x, hover.y = append(hover.x, p.Height), append(hover.y, p.Hover)
		full.x, full.y = append(full.x, p.Height), append(full.y, p.Full)
	}
	l := b.Doc.Limits
	c.curves = []curve{hover, full}
	c.limits = []limitLine{{"hold, good", l.HeadingHold.Pass.Degrees(), false}, {"hold, fails", l.HeadingHold.Marginal.Degrees(), true}, {"full, fails", l.HeadingFull.Marginal.Degrees(), true}}
	return c
}

// vibration is the acceleration at the compass over the rotors' speed.
func (b *builder) vibration() chart {
	c := chart{title: "Vibration at the compass, g", across: "rotor speed, 1000 rpm", mark: b.Result.Speeds.Hover / 1000}
	if len(b.Result.Response) < 2 {
		return c
	}
	typical, high := curve{name: "typical"}, curve{name: "high", thin: true}
	for _, p := range b.Result.Response {
		typical.x, typical.y = append(typical.x, p.RPM/1000), append(typical.y, p.Peak)
		high.x, high.y = append(high.x, p.RPM/1000), append(high.y, p.High)
	}
	c.curves = []curve{high, typical}
	if v, ok := b.Result.Verdict("shake"); ok && v.Figure.Limit != nil && v.Figure.Unit == "g" {
		c.limits = []limitLine{{"good", v.Figure.Limit.Pass, false}, {"fails", v.Figure.Limit.Marginal, true}}
	}
	return c
}

// stress is the worst stress along the mast, or along the first of plates or legs, against what it bears.
func (b *builder) stress() chart {
	member := b.assembly.Members[0].Name
	c := chart{title: "Worst stress in the " + member + ", MPa", across: "above the frame's face, mm", mark: math.NaN()}
	here, bears := curve{name: "stress"}, curve{name: "bears", thin: true}
	for _, p := range b.Result.Stress {
		if p.Member != member {
			continue
		}
		here.x, here.y = append(here.x, p.Height), append(here.y, p.Stress)
		bears.x, bears.y = append(bears.x, p.Height), append(bears.y, p.Allow)
	}
	if len(here.x) > 1 {
		c.curves = []curve{bears, here}
	}
	return c
}

// figure draws a chart of a size in mm.
func (c chart) figure(w, h float64) paper.Figure {
	const left, right, top, low = 9.0, 2.0, 8.5, 9.0
	p := draft.New(w, h)
	x0, x1, y1 := math.Inf(1), math.Inf(-1), 0.0
	for _, k := range c.curves {
		for i := range k.x {
			if finite(k.x[i]) && finite(k.y[i]) {
				x0, x1, y1 = min(x0, k.x[i]), max(x1, k.x[i]), max(y1, k.y[i])
			}
		}
	}
	for _, l := range c.limits { // the nearest limits are shown, one far above would press the curves flat
		if finite(l.y) && l.y <= 2.5*y1 {
			y1 = max(y1, l.y*1.08)
		}
	}
	if !(x1 > x0) || !(y1 > 0) {
		return paper.Figure{Drawing: p.Drawing, Caption: c.title + ": no data."}
	}
	step, across := tick(y1, 4), tick(x1-x0, 4)
	y1 = step * math.Ceil(y1/step-1e-9)
	at := func(x, y float64) paper.Point {
		return paper.Point{X: left + (x-x0)/(x1-x0)*(w-left-right), Y: h - low - min(y/y1, 1.02)*(h-low-top)}
	}
	p.Strong(paper.Point{Y: 2.8}, paper.Start, draft.Small, paper.Ink, c.title)
	for y := 0.0; y <= y1*1.0001; y += step {
		p.Line(0.12, paper.Seam, at(x0, y), at(x1, y))
		p.Text(paper.Point{X: left - 1, Y: at(x0, y).Y + 0.8}, paper.End, 2.3, paper.Second, number(y))
	}
	for x := across * math.Ceil(x0/across-1e-9); x <= x1+across*1e-6; x += across {
		p.Line(draft.Thin, paper.Second, at(x, 0), paper.Point{X: at(x, 0).X, Y: at(x, 0).Y + 0.9})
		p.Text(paper.Point{X: at(x, 0).X, Y: at(x, 0).Y + 3.4}, paper.Middle, 2.3, paper.Second, number(x))
	}
	p.Text(paper.Point{X: (left + w - right) / 2, Y: h - 1.2}, paper.Middle, 2.3, paper.Second, c.across)
	p.Line(draft.Thin, paper.Ink, at(x0, 0), at(x1, 0))
	above := math.Inf(1) // where the last limit's name stands; one that has no room above it is left out
	for _, l := range c.limits {
		if !finite(l.y) || l.y > y1 {
			continue
		}
		width, ink := draft.Thin, paper.Third
		if l.bad {
			width, ink = 0.5, paper.Ink
		}
		p.Line(width, ink, at(x0, l.y), at(x1, l.y))
		if y := at(x1, l.y).Y - 0.7; y < above-2.4 {
			p.Text(paper.Point{X: w - right, Y: y}, paper.End, 2.3, paper.Ink, l.name)
			above = y
		}
	}
	if finite(c.mark) && c.mark >= x0 && c.mark <= x1 {
		p.Dashed(0.3, 1, paper.Act, at(c.mark, 0), paper.Point{X: at(c.mark, 0).X, Y: top - 0.5})
		p.Text(paper.Point{X: at(c.mark, 0).X, Y: top - 1.4}, paper.Middle, 2.3, paper.Act, "here")
	}
	var named []paper.Point
	for _, k := range c.curves {
		s := paper.Stroke{Width: 0.45, Line: paper.Ink}
		if k.thin {
			s.Width, s.Line = 0.25, paper.Third
		}
		peak := 0
		for i := range k.x {
			if !finite(k.x[i]) || !finite(k.y[i]) {
				continue
			}
			s.Points = append(s.Points, at(k.x[i], k.y[i]))
			if k.y[i] > k.y[peak] {
				peak = i
			}
		}
		p.Add(s)
		where := at(k.x[peak], k.y[peak])
		name := paper.Point{X: where.X + 1, Y: max(where.Y-0.6, top+1.6)}
		anchor := paper.Start
		if where.X > w*0.6 {
			name.X, anchor = where.X-1, paper.End
		}
		for slices.ContainsFunc(named, func(o paper.Point) bool { return math.Abs(o.Y-name.Y) < 2.4 && math.Abs(o.X-name.X) < 12 }) {
			name.Y += 2.5
		}
		named = append(named, name)
		p.Text(name, anchor, 2.3, s.Line, k.name)
	}
	return paper.Figure{Drawing: p.Drawing, Words: c.title + " over " + c.across + "."}
}

// tick is a round distance that divides a span into about n parts.
func tick(span float64, n int) float64 {
	raw := span / float64(n)
	ten := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range []float64{1, 2, 2.5, 5, 10} {
		if m*ten >= raw*0.999 {
			return m * ten
		}
	}
	return 10 * ten
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
