package record

import "math"

// Run is values that stand at their extreme for several rows together, as a sensor does that is driven past its range.
type Run struct {
	Low     bool // at the lowest value; else at the highest
	Value   float64
	Longest int // rows of the longest run
	Rows    int // rows in all runs
}

// Saturated looks for runs of four and more equal extreme values. A signal of fewer than 16 steps is not judged: its extremes
// repeat without being clipped. Common practice, no source.
func Saturated(values []float64) (Run, bool) {
	low, high, step := math.Inf(1), math.Inf(-1), math.Inf(1)
	for i, v := range values {
		low, high = min(low, v), max(high, v)
		if i > 0 {
			if d := math.Abs(v - values[i-1]); d > 0 {
				step = min(step, d)
			}
		}
	}
	if !(high-low >= 16*step) {
		return Run{}, false
	}
	worst := Run{}
	for _, r := range []Run{{Low: true, Value: low}, {Value: high}} {
		n := 0
		for i, v := range values {
			if v == r.Value {
				n++
			}
			if v != r.Value || i == len(values)-1 {
				if n >= 4 {
					r.Longest, r.Rows = max(r.Longest, n), r.Rows+n
				}
				n = 0
			}
		}
		if r.Longest > worst.Longest {
			worst = r
		}
	}
	return worst, worst.Longest > 0
}
