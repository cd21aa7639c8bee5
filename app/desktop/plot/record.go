package plot

import (
	"fmt"
	"math"
	"strings"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design/evidence/bench"
	"mastwright/design/review"
)

// dot is a measured point; one that is not in the fit is hollow.
type dot struct {
	at   pen.Spot
	used bool
}

// upright is a figure that stands in the plot as a broken line with its name at the top.
type upright struct {
	name string
	x    float64
}

// Record is a picture of what a test found in its record: measured points as dots, the fit heavy, a prediction thin or as an upright
// broken line, and the peak that was found as the violet line.
func Record(title string, p bench.Plot) Chart {
	xName, xUnit := named(p.X)
	yName, yUnit := named(p.Y)
	c := Chart{title: title, x: axis{name: strings.TrimSpace(xName + " " + xUnit)}, missing: "no data in the record"}
	if yUnit != "" && len(yUnit) < 5 {
		c.y.unit = " " + yUnit
		yUnit = ""
	}
	if said := strings.TrimSpace(yName + " " + yUnit); said != "" && !strings.Contains(strings.ToLower(title), strings.ToLower(yName)) {
		c.title += ": " + said
	}
	var x, y extent
	for _, line := range p.Lines {
		if n := len(line.X); n == 2 && line.X[0] == line.X[1] && line.Name == "predicted" {
			c.uprights = append(c.uprights, upright{fmt.Sprintf("predicted, %s %s", brief(line.X[0]), xUnit), line.X[0]})
			continue
		}
		if len(line.X) < 2 {
			continue
		}
		drawn := curve{name: line.Name, main: line.Name == "fit" || line.Name == "spectrum" || line.Name == "decay"}
		if line.Name == "spectrum" {
			drawn.name = ""
		}
		for i := range line.X {
			drawn.points = append(drawn.points, pen.Spot{X: line.X[i], Y: line.Y[i]})
			x.take(line.X[i])
			y.take(line.Y[i])
		}
		drawn.points = thinned(drawn.points)
		c.curves = append(c.curves, drawn)
	}
	peak := 0.0
	for _, point := range p.Points {
		x.take(point.X)
		y.take(point.Y)
		c.dots = append(c.dots, dot{pen.Spot{X: point.X, Y: point.Y}, point.Used})
		if point.Used && point.Name == "peak" {
			c.now = now{x: point.X, y: point.Y, text: fmt.Sprintf("found, %s %s", brief(point.X), xUnit), shown: true}
			peak = max(peak, point.X)
		}
		if point.Name == "comb" {
			peak = max(peak, point.X)
		}
	}
	if len(c.curves) == 0 && len(c.dots) == 0 {
		return c
	}
	c.missing = ""
	for _, u := range c.uprights {
		x.take(u.x)
		peak = max(peak, u.x)
	}
	if peak > 0 {
		x.high = min(x.high, 2.2*peak)
		x.low = min(0, x.low)
	}
	c.x.low, c.x.high = x.low, x.high
	margin := 0.06 * (y.high - y.low)
	if margin == 0 {
		margin = 0.5*math.Abs(y.high) + 1e-3
	}
	c.y.low, c.y.high = y.low-margin, y.high+margin
	if y.low >= 0 && y.low < 0.3*y.high {
		c.y.low = 0
	}
	c.cut()
	c.summary = c.described()
	return c
}

// cut takes away what lies beyond the axis: the far end of a spectrum.
func (c *Chart) cut() {
	for i, line := range c.curves {
		last := len(line.points)
		for last > 2 && line.points[last-1].X > c.x.high {
			last--
		}
		c.curves[i].points = line.points[:last]
	}
	var dots []dot
	for _, d := range c.dots {
		if d.at.X <= c.x.high {
			dots = append(dots, d)
		}
	}
	c.dots = dots
}

// described says in words what a record's picture shows.
func (c Chart) described() string {
	said := []string{fmt.Sprintf("%s over %s, from %s to %s", c.title, c.x.name, brief(c.x.low), brief(c.x.high))}
	if c.now.shown {
		said = append(said, c.now.text)
	}
	for _, u := range c.uprights {
		said = append(said, u.name)
	}
	if len(c.dots) > 0 && !c.now.shown {
		said = append(said, fmt.Sprintf("%d points", len(c.dots)))
	}
	return strings.Join(said, "; ") + "."
}

// Costs is a picture of what each device costs the receiver, a bar each.
func Costs(title string, p bench.Plot) Chart {
	c := Chart{title: title + ", lost when the device is on", x: axis{name: "dB"}, missing: "no device was switched"}
	for _, point := range p.Points {
		c.x.low, c.x.high = min(c.x.low, point.Y), max(c.x.high, point.Y)
		c.rows = append(c.rows, row{name: point.Name, figure: fmt.Sprintf("%.1f dB", point.Y), low: point.Y, mid: point.Y, high: point.Y,
			state: review.NoData, bar: true})
	}
	c.x.low, c.x.high = min(c.x.low, 0), 1.15*max(c.x.high, 1)
	var said []string
	for _, r := range c.rows {
		said = append(said, r.name+" "+r.figure)
	}
	if len(said) > 0 {
		c.missing = ""
	}
	c.summary = "Signal lost: " + strings.Join(said, ", ") + "."
	return c
}

// extent is from the least to the greatest of some figures.
type extent struct {
	low, high float64
	some      bool
}

func (e *extent) take(v float64) {
	if !e.some {
		*e = extent{v, v, true}
		return
	}
	e.low, e.high = min(e.low, v), max(e.high, v)
}

// named parts a label into its name and its unit.
func named(label string) (name, unit string) {
	name, unit, has := strings.Cut(strings.TrimSuffix(label, ")"), " (")
	if !has {
		return label, ""
	}
	return name, strings.NewReplacer("uT", "µT", "deg", "°", "m/s^2", "m/s²").Replace(unit)
}

// brief is a figure in four digits.
func brief(v float64) string {
	if v == 0 {
		return "0"
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-3)
	return figure(math.Round(v/step) * step)
}

// most is how many points of a line are drawn: two a pixel on a wide screen.
const most = 1200

// thinned keeps the lowest and the highest point of each stretch of a long line, so that every peak stays.
func thinned(points []pen.Spot) []pen.Spot {
	if len(points) <= most {
		return points
	}
	stretch := (2*len(points) + most - 1) / most
	var kept []pen.Spot
	for from := 0; from < len(points); from += stretch {
		part := points[from:min(from+stretch, len(points))]
		low, high := 0, 0
		for i, p := range part {
			if p.Y < part[low].Y {
				low = i
			}
			if p.Y > part[high].Y {
				high = i
			}
		}
		kept = append(kept, part[min(low, high)])
		if low != high {
			kept = append(kept, part[max(low, high)])
		}
	}
	return kept
}

// drawUprights draws the broken lines and writes their names above the field.
func (s *sheet) drawUprights() {
	f := s.field
	for _, u := range s.uprights {
		if u.x < s.x.low || u.x > s.x.high {
			continue
		}
		x := whole(s.sx.at(u.x))
		ink := s.k.of(look.Second)
		s.pen.Line([]pen.Spot{{X: x, Y: s.nowLine() + 4}, {X: x, Y: f.Y + f.H}}, pen.Stroke{Width: 1.4, Colour: ink, Dash: 5})
		half := s.pen.Width(u.name, look.Caption) / 2
		s.pen.Words(pen.Spot{X: min(max(x, half+4), s.width-half-4), Y: firstLine}, u.name, s.letters(look.Caption, look.Second, pen.Middle))
	}
}

// drawDots draws the measured points.
func (s *sheet) drawDots() {
	radius := 3.2
	if len(s.dots) > 60 {
		radius = 1.8
	}
	for _, d := range s.dots {
		if d.at.X < s.x.low || d.at.X > s.x.high {
			continue
		}
		at := s.pixel(d.at)
		s.pen.Area(pen.Disc(at, radius), s.k.of(look.Ink))
		if !d.used {
			s.pen.Area(pen.Disc(at, radius-1.2), s.k.of(look.PassLane))
		}
	}
}
