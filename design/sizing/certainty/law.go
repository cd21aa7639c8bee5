package certainty

import "math"

// Law is the distribution of a property from its low, typical and high figure: triangular with the mode at the typical one, in
// the figure itself or in its logarithm.
type Law struct {
	Low, Typical, High float64
	Logarithmic        bool // a judgement within a factor; then the figures are above 0
}

// Quantile returns the figure below which the share u, 0 to 1, of the distribution lies:
//
//	x = a + √(u (b-a) (c-a))        where u ≤ (c-a)/(b-a)
//	x = b - √((1-u) (b-a) (b-c))    beyond
//
// for the ends a and b and the mode c.
func (l Law) Quantile(u float64) float64 {
	a, c, b := l.Low, l.Typical, l.High
	if l.Logarithmic {
		a, c, b = math.Log(a), math.Log(c), math.Log(b)
	}
	x := c
	switch {
	case a >= b:
	case u <= (c-a)/(b-a):
		x = a + math.Sqrt(u*(b-a)*(c-a))
	default:
		x = b - math.Sqrt((1-u)*(b-a)*(b-c))
	}
	if l.Logarithmic {
		return math.Exp(x)
	}
	return x
}

// spreads reports whether the law leaves anything open.
func (l Law) spreads() bool { return l.Low < l.High && l.Low <= l.Typical && l.Typical <= l.High }

// within is the law of a judgement within a factor.
func within(factor, typical float64) Law {
	return Law{Low: typical / factor, Typical: typical, High: typical * factor, Logarithmic: true}
}
