package plot

import (
	"fmt"
	"math"

	"mastwright/design"
	"mastwright/design/review"
)

// Break is the speed at which the mount breaks, in every print material, over the speed at which the aircraft topples onto it: the worst
// fall, and with it that speed, is not the same in every material.
func Break(doc *design.Document, r review.Result, materials []review.Candidate) Chart {
	c := Chart{title: "Break speed over topple speed, by material", missing: "no data: it needs the aircraft's mass and arms"}
	v, ok := r.Verdict("tipover")
	if !ok || r.TipOver == nil || len(materials) == 0 {
		if ok && v.State == review.Pass {
			c.missing = v.Because
		}
		return c
	}
	limit := v.Figures[0].Limit
	if limit == nil {
		return c
	}
	c.missing = ""
	c.lanes = lanes{limit: *limit, upright: true, shown: true}
	most := max(limit.Pass, limit.Marginal, v.Figures[0].Value)
	passing := 0
	for _, m := range materials {
		if m.Break == 0 || m.Required == 0 {
			continue
		}
		ratio := m.Break / m.Required
		state := limit.State(ratio)
		if state == review.Pass {
			passing++
		}
		c.rows = append(c.rows, row{
			name: m.Title, figure: fmt.Sprintf("%.1f of %.1f m/s", m.Break, m.Required),
			low: m.BreakLow / m.Required, mid: ratio, high: m.BreakHigh / m.Required,
			state: state, bar: true, present: m.Name == doc.Materials.Mast,
		})
		most = max(most, min(m.BreakHigh/m.Required, 3*limit.Pass))
	}
	c.x = axis{name: "of topple speed", unit: " ×", high: 1.06 * most}
	c.now = now{x: v.Figures[0].Value, y: math.NaN(), text: fmt.Sprintf("%.2g ×", v.Figures[0].Value), shown: true}
	c.summary = fmt.Sprintf("The aircraft topples onto the mast at %.2g m/s; this design breaks at %.2g m/s, %.2g times that. %d of %d materials pass.",
		r.TipOver.Required, r.TipOver.Break, v.Figures[0].Value, passing, len(c.rows))
	return c
}
