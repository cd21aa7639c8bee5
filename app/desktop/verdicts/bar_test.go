package verdicts

import (
	"math"
	"testing"

	"mastwright/design/review"
)

// The lanes take 52, 28 and 20 % of the zone, and a verdict's place runs evenly through each: the shares below are those sums.
func TestPlaceAcrossTheLanes(t *testing.T) {
	for _, c := range []struct{ place, want float64 }{
		{0, 0}, {0.5, 0.26}, {1, 0.52}, {1.5, 0.66}, {2, 0.80}, {2.5, 0.90}, {3, 1}, {7, 1}, {-1, 0},
	} {
		// float32 shares: 1e-6 is their rounding
		if got := float64(across(c.place)); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("place %v: got %v, want %v", c.place, got, c.want)
		}
	}
}

func TestBarOnItsWay(t *testing.T) {
	from := bar{state: review.Pass, middle: 0.2, low: 0.1, high: 0.4}
	to := bar{state: review.Fail, middle: 1, low: 0.9, high: 1, arrow: true}
	half := to.between(from, 0.5)
	want := bar{state: review.Fail, middle: 0.6, low: 0.5, high: 0.7, arrow: true}
	for _, c := range []struct {
		name      string
		got, want float32
	}{{"middle", half.middle, want.middle}, {"low", half.low, want.low}, {"high", half.high, want.high}} {
		if math.Abs(float64(c.got-c.want)) > 1e-6 {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
	if half.state != review.Fail || !half.arrow {
		t.Error("the colour does not change at once")
	}
	if got := to.between(from, 1); got != to {
		t.Errorf("at the end: got %v, want %v", got, to)
	}
	empty := bar{state: review.NoData}
	if got := to.between(empty, 0); got != to {
		t.Error("a bar without a place to come from does not stand at once")
	}
	if got := empty.between(from, 0); got != empty {
		t.Error("a check that lost its data still has a bar")
	}
}

func TestArrowBeyondTheLanes(t *testing.T) {
	figure := func(value, high float64) review.Verdict {
		return review.Verdict{State: review.Fail, Figure: review.Figure{Value: value, Low: value, High: high, Limit: &review.Limit{Pass: 1, Marginal: 2}}}
	}
	for _, c := range []struct {
		name        string
		value, high float64
		want        bool
	}{
		{"a little over", 3, 3, false},
		{"a hundred times over", 200, 200, true},
		{"only at the worst end", 3, 200, true},
		{"without an end", math.Inf(1), math.Inf(1), true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := newBar(figure(c.value, c.high)).arrow; got != c.want {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}
