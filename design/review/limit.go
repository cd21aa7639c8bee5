package review

import "math"

// Sense says on which side of its limits a figure is good.
type Sense int

const (
	AtMost  Sense = iota // good below the pass limit
	AtLeast              // good above it
)

// Limit is the pair of values that parts pass from marginal and marginal from fail. A Marginal of +Inf (at most) or -Inf
// (at least) says that the figure never fails.
type Limit struct {
	Sense          Sense
	Pass, Marginal float64
}

// State returns what a value means under the limit.
func (l Limit) State(value float64) State {
	switch p := l.Place(value); {
	case p <= 1:
		return Pass
	case p <= 2:
		return Marginal
	}
	return Fail
}

// Place returns where a value stands on the one scale of every verdict, 0 to 3: below 1 it passes, to 2 it is marginal, beyond
// it fails, and the fraction says how far through that lane it is. A pass lane runs from 0 (or from infinity, at least) to the
// pass limit, the marginal lane is linear between its limits, and the fail lane approaches 3 without reaching it.
func (l Limit) Place(value float64) float64 {
	p, m, v := l.Pass, l.Marginal, value
	if l.Sense == AtLeast {
		switch {
		case v >= p:
			return ratio(p, v)
		case v >= m && math.IsInf(m, -1):
			return 1 + (1 - ratio(v, p))
		case v >= m:
			return 1 + (p-v)/(p-m)
		case m > 0:
			return 2 + (1 - ratio(v, m))
		}
		return 2 + beyond(m-v, p-m)
	}
	switch {
	case v <= p:
		return ratio(v, p)
	case v <= m && math.IsInf(m, 1):
		return 1 + beyond(v-p, p)
	case v <= m:
		return 1 + (v-p)/(m-p)
	}
	return 2 + beyond(v-m, m)
}

// ratio is a over b held between 0 and 1.
func ratio(a, b float64) float64 {
	if b <= 0 || a <= 0 {
		return 0
	}
	return math.Min(a/b, 1)
}

// beyond maps an excess of 0 to infinity over a scale onto 0 to 1.
func beyond(excess, scale float64) float64 {
	if math.IsInf(excess, 1) {
		return 1
	}
	return excess / (excess + math.Max(scale, math.SmallestNonzeroFloat64))
}

// Margin returns how much room a value has to the pass limit, in the figure's unit; negative when it is over.
func (l Limit) Margin(value float64) float64 {
	if l.Sense == AtLeast {
		return value - l.Pass
	}
	return l.Pass - value
}
