package sheet

import (
	"math"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
	"mastwright/design/review"
)

// The three lanes share the width of the zone.
const (
	passShare     = 0.52
	marginalShare = 0.28
	failShare     = 1 - passShare - marginalShare
)

// across is how far along the zone a place from 0 to 3 stands, as a share of its width.
func across(place float64) float64 {
	p := min(max(place, 0), 3)
	switch {
	case p <= 1:
		return p * passShare
	case p <= 2:
		return passShare + (p-1)*marginalShare
	}
	return passShare + marginalShare + (p-2)*failShare
}

// lanes draws every verdict as a row on the same three lanes: a thin line where a pass ends and a plumb line with its bob where a
// failure begins hang through all of them.
func lanes(verdicts []review.Verdict, width float64) paper.Figure {
	const (
		top   = 5.0
		pitch = 5.4
		name  = 22.0
		value = 19.0
		word  = 15.0
	)
	rows := float64(len(verdicts))
	ruler := face.NewRuler()
	p := draft.New(width, top+rows*pitch+5)
	left, zone := name, width-name-value-word
	good, limit := left+zone*passShare, left+zone*(passShare+marginalShare)
	for i, t := range []string{"pass", "marginal", "fail"} {
		at := left + zone*[]float64{passShare / 2, passShare + marginalShare/2, passShare + marginalShare + failShare/2}[i]
		p.Text(paper.Point{X: at, Y: 3}, paper.Middle, draft.Small, paper.Second, t)
	}
	for i, v := range verdicts {
		y := top + float64(i)*pitch
		middle := y + pitch/2
		tone := tone(v.State)
		if v.State == review.Fail {
			p.Area(tone.Ground(), 0, y, width, pitch)
		}
		p.Add(tone.Mark(paper.Point{X: 0.6, Y: middle - 1.7}, 3.4)...)
		p.Add(paper.Label{At: paper.Point{X: 5.4, Y: middle + 1}, Text: v.Title, Size: 2.9, Weight: bold(v), Ink: paper.Ink})
		bar(p, v, left, middle, zone)
		shown := "no data"
		if v.State != review.NoData && v.Figure.Name != "" {
			shown = ruler.Shortened(figureText(v.Figure), bold(v), 2.9, value-1)
		}
		if v.State == review.NoData {
			shown = ""
		}
		p.Add(paper.Label{At: paper.Point{X: left + zone + value - 0.5, Y: middle + 1}, Text: shown, Size: 2.9, Weight: bold(v), Anchor: paper.End, Ink: paper.Ink})
		p.Add(paper.Label{At: paper.Point{X: left + zone + value + 1.6, Y: middle + 1}, Text: v.State.String(), Size: 2.9, Weight: bold(v), Ink: tone.Word()})
	}
	low := top + rows*pitch
	p.Line(0.2, paper.Third, paper.Point{X: good, Y: top - 0.8}, paper.Point{X: good, Y: low + 0.8})
	p.Line(1.1, paper.White, paper.Point{X: limit, Y: top}, paper.Point{X: limit, Y: low})
	p.Line(0.5, paper.Ink, paper.Point{X: limit, Y: top - 0.8}, paper.Point{X: limit, Y: low + 1.4})
	p.Add(paper.Stroke{Closed: true, Filled: true, Fill: paper.Ink, Points: []paper.Point{
		{X: limit - 1, Y: low + 1.4}, {X: limit + 1, Y: low + 1.4}, {X: limit + 0.7, Y: low + 2.8}, {X: limit, Y: low + 4.6}, {X: limit - 0.7, Y: low + 2.8},
	}})
	words := ""
	for _, v := range verdicts {
		words += v.Title + " " + v.State.String() + ". "
	}
	return paper.Figure{Drawing: p.Drawing, Words: words}
}

func bold(v review.Verdict) paper.Weight {
	if v.State == review.Fail {
		return paper.Medium
	}
	return paper.Regular
}

func figureText(f review.Figure) string { return value(f, f.Value) }

// bar draws a verdict's bar on its lanes, about a middle line.
func bar(p *draft.Pen, v review.Verdict, left, middle, zone float64) {
	const lane, thick = 4.0, 2.3
	if v.State == review.NoData {
		p.Box(0.25, paper.Unknown.Bar(), left, middle-lane/2, zone, lane)
		return
	}
	x := left
	for i, share := range []float64{passShare, marginalShare, failShare} {
		p.Area([]paper.Colour{paper.PassLane, paper.MarginalLane, paper.FailLane}[i], x, middle-lane/2, zone*share, lane)
		x += zone * share
	}
	low, high := v.Figure.PlaceRange()
	at := v.Figure.Place()
	p.Area(tone(v.State).Bar(), left, middle-thick/2, max(zone*across(at), 0.4), thick)
	from, to := left+zone*across(low), left+zone*across(high)
	if to-from > 0.6 {
		p.Line(1.2, paper.White, paper.Point{X: from - 0.3, Y: middle}, paper.Point{X: to + 0.3, Y: middle})
		p.Line(0.4, paper.Ink, paper.Point{X: from, Y: middle}, paper.Point{X: to, Y: middle})
		for _, end := range []float64{from, to} {
			p.Line(0.4, paper.Ink, paper.Point{X: end, Y: middle - 1.1}, paper.Point{X: end, Y: middle + 1.1})
		}
	}
	if math.Max(at, high) >= 2.95 { // beyond the zone
		end := left + zone
		p.Add(paper.Stroke{Closed: true, Filled: true, Fill: tone(v.State).Bar(), Points: []paper.Point{
			{X: end - 1.6, Y: middle - 1.8}, {X: end, Y: middle}, {X: end - 1.6, Y: middle + 1.8},
		}})
	}
}

// byUrgency is the verdicts with those that fail first, then the marginal ones, those without data, and those that pass.
func byUrgency(list []review.Verdict) []review.Verdict {
	var out []review.Verdict
	for _, s := range []review.State{review.Fail, review.Marginal, review.NoData, review.Pass} {
		for _, v := range list {
			if v.State == s {
				out = append(out, v)
			}
		}
	}
	return out
}
