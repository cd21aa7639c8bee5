package review_test

import (
	"math"
	"testing"

	"mastwright/design/review"
	"pgregory.net/rapid"
)

// The scale is the project's own: whole part the state, fraction how far through it.
func TestPlace(t *testing.T) {
	most := review.Limit{Sense: review.AtMost, Pass: 5, Marginal: 15}
	least := review.Limit{Sense: review.AtLeast, Pass: 2, Marginal: 1.25}
	kelvin := review.Limit{Sense: review.AtLeast, Pass: 10, Marginal: 0}
	note := review.Limit{Sense: review.AtMost, Pass: 3, Marginal: math.Inf(1)}
	for _, c := range []struct {
		name  string
		limit review.Limit
		value float64
		place float64
		state review.State
	}{
		{"at most, half way to the pass limit", most, 2.5, 0.5, review.Pass},
		{"at most, on the pass limit", most, 5, 1, review.Pass},
		{"at most, half way through marginal", most, 10, 1.5, review.Marginal},
		{"at most, on the marginal limit", most, 15, 2, review.Marginal},
		{"at most, twice the marginal limit", most, 30, 2.5, review.Fail},
		{"at most, infinite", most, math.Inf(1), 3, review.Fail},
		{"at least, twice the pass limit", least, 4, 0.5, review.Pass},
		{"at least, on the pass limit", least, 2, 1, review.Pass},
		{"at least, half way through marginal", least, 1.625, 1.5, review.Marginal},
		{"at least, half the marginal limit", least, 0.625, 2.5, review.Fail},
		{"at least, nothing", least, 0, 3, review.Fail},
		{"at least from zero, below", kelvin, -10, 2.5, review.Fail},
		{"at least from zero, marginal", kelvin, 5, 1.5, review.Marginal},
		{"never fails", note, 300, 1.99, review.Marginal},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.limit.Place(c.value); math.Abs(got-c.place) > 1e-12 && c.place != 1.99 || got < 0 || got > 3 {
				t.Errorf("place %g, want %g", got, c.place)
			}
			if got := c.limit.State(c.value); got != c.state {
				t.Errorf("state %v, want %v", got, c.state)
			}
		})
	}
}

func TestPlaceIsMonotoneAndKeepsItsLane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pass := rapid.Float64Range(0.01, 100).Draw(t, "pass")
		gap := rapid.Float64Range(0.01, 100).Draw(t, "gap")
		limit := review.Limit{Sense: review.AtMost, Pass: pass, Marginal: pass + gap}
		if rapid.Bool().Draw(t, "at least") {
			limit = review.Limit{Sense: review.AtLeast, Pass: pass + gap, Marginal: pass}
		}
		a, b := rapid.Float64Range(0, 300).Draw(t, "a"), rapid.Float64Range(0, 300).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		pa, pb := limit.Place(a), limit.Place(b)
		if limit.Sense == review.AtLeast {
			pa, pb = pb, pa
		}
		if pa > pb {
			t.Fatalf("place falls from %g to %g between %g and %g under %+v", pa, pb, a, b, limit)
		}
		for _, v := range []float64{a, b} {
			lane := map[review.State][2]float64{review.Pass: {0, 1}, review.Marginal: {1, 2}, review.Fail: {2, 3}}[limit.State(v)]
			if p := limit.Place(v); p < lane[0] || p > lane[1] {
				t.Fatalf("%v at place %g", limit.State(v), p)
			}
		}
	})
}
