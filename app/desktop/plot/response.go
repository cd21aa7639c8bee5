package plot

import (
	"fmt"
	"math"

	"mastwright/app/desktop/plot/pen"
	"mastwright/design"
	"mastwright/design/review"
)

// Response is the vibration at the compass against the rotors' speed.
func Response(_ *design.Document, r review.Result) Chart {
	c := Chart{title: "Vibration at the compass, against rotor speed", missing: "no data: it needs the aircraft's mass, its motors and the receiver"}
	v, ok := r.Verdict("shake")
	if !ok || len(r.Response) < 2 {
		return c
	}
	c.missing = ""
	line := curve{name: "typical", main: true}
	var back []pen.Spot
	var worst review.ResponsePoint
	hover := 0.0
	for i, p := range r.Response {
		line.points = append(line.points, pen.Spot{X: p.RPM, Y: p.Peak})
		line.edge = append(line.edge, pen.Spot{X: p.RPM, Y: p.High})
		back = append(back, pen.Spot{X: p.RPM, Y: p.Low})
		if working := p.RPM >= r.Speeds.WorkingLow && p.RPM <= r.Speeds.WorkingHigh; working && p.High > worst.High {
			worst = p
		}
		if i > 0 && p.RPM >= r.Speeds.Hover && r.Response[i-1].RPM < r.Speeds.Hover {
			before := r.Response[i-1]
			hover = before.Peak + (p.Peak-before.Peak)*(r.Speeds.Hover-before.RPM)/(p.RPM-before.RPM)
		}
	}
	for i := len(back) - 1; i >= 0; i-- {
		line.edge = append(line.edge, back[i])
	}
	c.curves = []curve{{name: "spread", points: line.edge[:len(r.Response)]}, line}
	c.x = axis{name: "rpm", low: r.Response[0].RPM, high: r.Response[len(r.Response)-1].RPM}
	c.spans = []span{{name: "working", from: r.Speeds.WorkingLow, to: r.Speeds.WorkingHigh, strong: true}}
	top := 1.15 * worst.High
	for _, f := range v.Figures {
		if f.Unit == "g" && f.Limit != nil {
			c.lanes = lanes{limit: *f.Limit, shown: true}
			top = ceiling(worst.High, *f.Limit, max(f.Value, hover))
			break
		}
	}
	c.y = axis{unit: " g", high: top}
	c.now = now{x: r.Speeds.Hover, y: hover, text: fmt.Sprintf("hover, %s rpm", figure(math.Round(r.Speeds.Hover/10)*10)), shown: true}
	c.summary = fmt.Sprintf("In hover, at %s rpm, the compass feels %.2g g; over the working band at most %.2g g, at %s rpm, over the spread of the material.",
		figure(math.Round(r.Speeds.Hover/10)*10), hover, worst.High, figure(math.Round(worst.RPM/10)*10))
	return c
}
