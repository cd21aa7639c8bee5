package plot

import (
	"fmt"
	"math"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// Modes is how the flying mount's modes lie among what the rotors excite.
func Modes(_ *design.Document, r review.Result) Chart {
	c := Chart{title: "Modes of the flying mount, against its rotors", missing: "no data: it needs the aircraft's mass, its motors and the receiver"}
	if len(r.Flying) == 0 || len(r.Bands) == 0 {
		return c
	}
	c.missing = ""
	low, high := math.Inf(1), 0.0
	for _, m := range r.Flying {
		low, high = min(low, m.Low), max(high, m.High)
		c.rows = append(c.rows, row{name: strings.Replace(m.Shape, "second", "2nd", 1), figure: figure(math.Round(m.Hz)) + " Hz", low: m.Low, mid: m.Hz, high: m.High, present: len(c.rows) == 0})
	}
	var meets []string
	for _, b := range r.Bands {
		order, regime, _ := strings.Cut(b.Name, ", ")
		if regime != "working" {
			continue
		}
		c.spans = append(c.spans, span{name: order, from: b.From, to: b.To, strong: order == "once-per-rev"})
		low, high = min(low, b.From), max(high, b.To)
		for _, m := range r.Flying {
			if m.Low <= b.To && m.High >= b.From {
				meets = append(meets, fmt.Sprintf("%s meets %s", order, m.Shape))
			}
		}
	}
	first := r.Flying[0]
	if v, ok := r.Verdict("modes"); ok && len(v.Figures) > 0 && v.Figures[0].Limit != nil && v.Figures[0].Value > 0 {
		bandwidth := first.Hz / v.Figures[0].Value
		l := *v.Figures[0].Limit
		l.Pass, l.Marginal = l.Pass*bandwidth, l.Marginal*bandwidth
		c.lanes = lanes{limit: l, upright: true, shown: true}
		low = min(low, l.Marginal)
	}
	c.x = axis{name: "Hz", low: 0.8 * low, high: 1.15 * high, log: true}
	c.now = now{x: first.Hz, y: math.NaN(), text: fmt.Sprintf("%.0f Hz", first.Hz), shown: true}
	c.summary = fmt.Sprintf("The lowest mode, %s, rings at %.0f Hz (%.0f to %.0f).", first.Shape, first.Hz, first.Low, first.High)
	if len(meets) == 0 {
		c.summary += " No mode lies where the rotors work."
	} else {
		c.summary += " Where the rotors work, " + strings.Join(meets, ", ") + "."
	}
	return c
}
