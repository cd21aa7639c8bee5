package certainty

import "math"

// Share is how many samples of all are in a state, as a probability.
type Share struct {
	Value     float64 // 0 to 1
	Low, High float64 // 95 % confidence, Wilson's interval
}

// z95 is the normal distribution's quantile at 97.5 %.
const z95 = 1.959963984540054

// ShareOf returns the share of count in n samples, with
//
//	(p + z²/2n ± z √(p(1-p)/n + z²/4n²)) / (1 + z²/n)
//
// as its interval. n is above 0.
func ShareOf(count, n int) Share {
	p, N := float64(count)/float64(n), float64(n)
	middle := p + z95*z95/(2*N)
	half := z95 * math.Sqrt(p*(1-p)/N+z95*z95/(4*N*N))
	scale := 1 + z95*z95/N
	s := Share{Value: p, Low: max(0, (middle-half)/scale), High: min(1, (middle+half)/scale)}
	if count == 0 {
		s.Low = 0
	}
	if count == n {
		s.High = 1
	}
	return s
}
