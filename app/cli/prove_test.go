package cli

import (
	"bytes"
	"testing"

	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/review"
	"mastwright/design/units"
)

func TestProveGolden(t *testing.T) {
	at := func(name string, value float64, unit string) review.Figure {
		return review.Figure{Name: name, Value: value, Unit: unit, Low: value, High: value}
	}
	p := proven{design: source{doc: &design.Document{Name: "Hedge mount"}}, Result: prove.Result{
		Test: "throttle", Invented: true, Headline: "The compass sees 0.2 uT of level field for each ampere; 0.1 uT is predicted.",
		Compared: []prove.Comparison{
			{Name: "level field for each ampere", Unit: "uT/A", Measured: bench.Around(.2, .01), Predicted: bench.Around(.1, .02), Off: 1,
				Words:  "the measured lead field is above the design: 200 % of the predicted",
				Causes: []bench.Cause{{Why: "a lead runs nearer to the compass than in the design", Test: "measure the routes again"}, {Why: "go and return run apart", Test: "tape them together and repeat"}}},
			{Name: "first mode", Unit: "Hz", Measured: bench.Around(101.23, 1.5), Predicted: bench.Around(110, 10), Off: -.08, Agrees: true},
		},
		Words: []string{"raise the compass by 20 mm", "pa6-cf would weigh that much: was the right spool on the printer?"},
		Notes: []string{`columns guessed from their names: time from "t"`, "time: in s, as its header says"},
		Findings: []design.Finding{
			{Value: design.Measured{What: design.MeasuredLead, Of: "battery lead", Factor: units.Fraction(2), Spread: units.Fraction(.05), Date: "2026-05-02", Method: "throttle test"}},
			{Value: design.Measured{What: design.MeasuredAnswer, Of: "motors.hover_speed", Date: "2026-05-02", Method: "hover record"}, Answer: "8900 rpm"},
		},
		Moves: []prove.Move{
			{ID: "heading", Title: "Heading", Was: review.Pass, Is: review.Fail, From: at("swing in cruise", 4, "°"), To: at("swing in cruise", 8, "°")},
			{ID: "shake", Title: "Shake", Was: review.NoData, Is: review.Pass, To: at("peak acceleration", 2.2, "g")},
			{ID: "modes", Title: "Modes", From: at("lowest mode", 5, ""), To: at("lowest mode", 5, "")},
		},
	}}
	var b bytes.Buffer
	p.print(&b, []string{"new.yaml is written with what was measured."})
	fits(t, b.String())
	golden(t, "prove.txt", b.Bytes())
}
