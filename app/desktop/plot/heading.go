package plot

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/interp"

	"mastwright/app/desktop/plot/pen"
	"mastwright/design"
	"mastwright/design/review"
)

// Heading is the swing of the compass against the mast's height, in every state of flight that the same limit judges.
func Heading(doc *design.Document, r review.Result) Chart {
	c := Chart{title: "Heading swing against height, worst heading", missing: "no data: it needs the place on earth and what the leads carry"}
	v, ok := r.Verdict("heading")
	if !ok || r.Compass == nil || v.Figure.Limit == nil || len(r.Compass.Field) < 2 {
		return c
	}
	states := []struct {
		name   string
		suffix string
		amps   func(design.Currents) float64
		swing  func(review.FieldPoint) float64
	}{
		{"hover", "hover", func(c design.Currents) float64 { return c.Hover.Amperes() }, func(p review.FieldPoint) float64 { return p.Hover }},
		{"cruise", "cruise", func(c design.Currents) float64 { return c.Cruise.Amperes() }, func(p review.FieldPoint) float64 { return p.Cruise }},
		{"full throttle", "full throttle", func(c design.Currents) float64 { return c.Full.Amperes() }, func(p review.FieldPoint) float64 { return p.Full }},
	}
	full := strings.HasSuffix(v.Figure.Name, "full throttle")
	c.missing = ""
	c.lanes = lanes{limit: *v.Figure.Limit, shown: true}
	field := r.Compass.Field
	c.x = axis{name: "height mm", low: 10 * math.Ceil(field[0].Height/10), high: field[len(field)-1].Height}
	most := 0.0
	for _, state := range states {
		if (state.suffix == "full throttle") != full {
			continue
		}
		line := curve{name: state.name, main: strings.HasSuffix(v.Figure.Name, state.suffix)}
		if len(doc.Leads) == 1 {
			line.name = fmt.Sprintf("%s, %.3g A", state.name, state.amps(doc.Leads[0].Currents))
		}
		line.points = smooth(field, state.swing)
		if len(line.points) == 0 {
			continue
		}
		for _, p := range line.points {
			most = max(most, p.Y)
		}
		c.curves = append(c.curves, line)
	}
	c.y = axis{unit: "°", high: ceiling(most, c.lanes.limit, v.Figure.Value)}
	height := doc.Mast.Height.Millimetres()
	c.now = now{x: height, y: v.Figure.Value, text: fmt.Sprintf("%.1f mm, %.3g°", height, v.Figure.Value), shown: true}
	c.summary = fmt.Sprintf("%s is %.3g° at %.1f mm; it is %.3g° at %.0f mm and %.3g° at %.0f mm. Good to %.3g°, fails above %.3g°.", v.Figure.Name, v.Figure.Value, height,
		c.main().points[0].Y, c.x.low, last(c.main().points).Y, c.x.high, c.lanes.limit.Pass, c.lanes.limit.Marginal)
	return c
}

// ceiling is the top of an axis of a figure that is good below its limit: the present value and the good line are always seen, the limit
// where anything comes near it.
func ceiling(most float64, l review.Limit, value float64) float64 {
	top := max(1.2*l.Pass, 1.15*value, 1.08*most)
	if !math.IsInf(l.Marginal, 1) {
		top = min(top, max(1.6*l.Marginal, 1.15*value))
		if top > 0.7*l.Marginal {
			top = max(top, 1.1*l.Marginal)
		}
	}
	return top
}

// smooth joins the points of the study every 2 mm without overshooting them.
func smooth(field []review.FieldPoint, figure func(review.FieldPoint) float64) []pen.Spot {
	var x, y []float64
	for _, p := range field {
		x, y = append(x, p.Height), append(y, figure(p))
	}
	var f interp.FritschButland
	if f.Fit(x, y) != nil {
		return nil
	}
	var points []pen.Spot
	for h := x[0]; h <= x[len(x)-1]; h += 2 {
		points = append(points, pen.Spot{X: h, Y: f.Predict(h)})
	}
	return points
}

// main is the curve that is judged.
func (c Chart) main() curve {
	for _, line := range c.curves {
		if line.main {
			return line
		}
	}
	return c.curves[0]
}

func last(points []pen.Spot) pen.Spot { return points[len(points)-1] }
