package verdicts_test

import (
	"fmt"
	"math"
	"testing"

	"mastwright/app/desktop/verdicts"
	"mastwright/design/review"
)

func ExampleNumber() {
	fmt.Println(verdicts.Number(84.2, "mm"), verdicts.Number(16.1, "°"), verdicts.Number(1249.6, "N"), verdicts.Number(0.0004, "°"))
	// Output: 84.2 mm 16.1° 1250 N < 0.01°
}

func ExampleLimits() {
	swing := review.Figure{Name: "swing in cruise", Value: 16.1, Unit: "°", Limit: &review.Limit{Pass: 5, Marginal: 15}}
	fmt.Println(verdicts.Value(swing), verdicts.Limits(swing))
	// Output: 16.1° good to 5°, fails above 15°
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		value float64
		unit  string
		want  string
	}{
		{0, "%", "0 %"}, {2.136, "", "2.14"}, {-5.5, "K", "-5.5 K"}, {999.6, "mm", "1000 mm"}, {0.934, "°/s", "0.93°/s"},
		{math.Inf(1), "g", "– g"}, {math.NaN(), "", "–"}, {math.Copysign(0, -1), "mm", "0 mm"}, {0.0051, "g", "0.01 g"}, {11840, "rpm", "11800 rpm"},
	} {
		if got := verdicts.Number(c.value, c.unit); got != c.want {
			t.Errorf("%v %s: got %q, want %q", c.value, c.unit, got, c.want)
		}
	}
}

func TestWordsOfAFigure(t *testing.T) {
	limit := func(sense review.Sense, pass, marginal float64) *review.Limit {
		return &review.Limit{Sense: sense, Pass: pass, Marginal: marginal}
	}
	for _, c := range []struct {
		name                  string
		figure                review.Figure
		value, limits, spread string
	}{
		{"at most", review.Figure{Value: 3.8, Unit: "g", Low: 1.9, High: 6.6, Limit: limit(review.AtMost, 3, 6)},
			"3.8 g", "good to 3 g, fails above 6 g", "1.9 to 6.6 g over its spread, from pass to fail"},
		{"at least", review.Figure{Value: 12.5, Unit: "K", Low: 10, High: 15, Limit: limit(review.AtLeast, 10, 0)},
			"12.5 K", "good from 10 K, fails below 0 K", "10 to 15 K over its spread"},
		{"a ratio", review.Figure{Value: 2.6, Low: 2.6, High: 2.6, Limit: limit(review.AtLeast, 2, 1.25)},
			"2.6 ×", "good from 2 ×, fails below 1.25 ×", ""},
		{"never fails", review.Figure{Value: 14.8, Unit: "°/s", Low: 14.8, High: 14.8, Limit: limit(review.AtMost, 10, math.Inf(1))},
			"14.8°/s", "good to 10°/s, marginal above", ""},
		{"things of which there are none", review.Figure{Limit: limit(review.AtMost, 0, math.Inf(1))},
			"none", "good at none, marginal with any", ""},
		{"things that must not be", review.Figure{Value: 2, Low: 2, High: 2, Limit: limit(review.AtMost, 0, 0)},
			"2", "good at none, fails with any", ""},
		{"not judged", review.Figure{Value: 28.3, Unit: "µm", Low: 20, High: 30}, "28.3 µm", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, x := range []struct{ what, got, want string }{
				{"value", verdicts.Value(c.figure), c.value},
				{"limits", verdicts.Limits(c.figure), c.limits},
				{"spread", verdicts.Spread(c.figure), c.spread},
			} {
				if x.got != x.want {
					t.Errorf("%s: got %q, want %q", x.what, x.got, x.want)
				}
			}
		})
	}
}

func TestCitation(t *testing.T) {
	f := review.Figure{Name: "swing in cruise", Value: 16.1, Unit: "°", Low: 16.1, High: 16.1, Limit: &review.Limit{Pass: 5, Marginal: 15}}
	v := review.Verdict{ID: "heading", Title: "Heading", State: review.Fail, Figure: f, Source: "Biot-Savart law"}
	if got, want := verdicts.Citation(v, f), "Heading, swing in cruise: 16.1°, fail (good to 5°, fails above 15°). Source: Biot-Savart law."; got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	v = review.Verdict{Title: "Bus", State: review.NoData, Because: "it needs the cable's length"}
	if got, want := verdicts.Citation(v, v.Figure), "Bus: no data. It needs the cable's length."; got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}
