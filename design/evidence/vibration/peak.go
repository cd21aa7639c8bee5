package vibration

import (
	"cmp"
	"math"
	"slices"
)

// Peak is a maximum of a spectrum.
type Peak struct {
	Hz    float64
	Level float64 // amplitude as part of the highest peak's
	Above float64 // dB over the noise
}

// Spectrum is a spectrum for a plot, at most some 800 points, with what was found in it.
type Spectrum struct {
	Hz, Level []float64 // amplitude, part of the highest, for a tap; dB over the noise for a hover
	Unit      string    // of Level
	From, To  float64   // Hz, where was searched
	Peaks     []Peak    // highest first
}

// parabola returns where between the points the maximum at k lies, in points, and its height, from the logarithms of three
// values.
func parabola(p []float64, k int) (float64, float64) {
	if k <= 0 || k >= len(p)-1 || p[k-1] <= 0 || p[k+1] <= 0 {
		return float64(k), p[k]
	}
	a, b, c := math.Log(p[k-1]), math.Log(p[k]), math.Log(p[k+1])
	bend := a - 2*b + c
	if bend >= 0 {
		return float64(k), p[k]
	}
	d := max(-.5, min(.5, (a-c)/(2*bend)))
	return float64(k) + d, math.Exp(b - (a-c)*d/4)
}

// peaks lists the maxima of p between two points that stand at least drop times above the saddle to a higher one, highest
// first. Positions are in points.
func peaks(p []float64, from, to int, drop float64) (at []int) {
	for k := max(from, 1); k <= min(to, len(p)-2); k++ {
		if !(p[k] > p[k-1] && p[k] >= p[k+1]) {
			continue
		}
		left, right := saddle(p, k, -1, from, to), saddle(p, k, 1, from, to)
		if max(left, right)*drop <= p[k] {
			at = append(at, k)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(p[b], p[a]) })
	return at
}

// saddle is the lowest value on the way from k to a higher one, 0 when there is none.
func saddle(p []float64, k, step, from, to int) float64 {
	low := p[k]
	for i := k + step; i >= max(from, 0) && i <= min(to, len(p)-1); i += step {
		low = min(low, p[i])
		if p[i] > p[k] {
			return low
		}
	}
	return 0
}

// halfPower returns the positions, in points, on both sides of k where p falls to half its height there.
func halfPower(p []float64, k int, height float64) (low, high float64, ok bool) {
	cross := func(step int) (float64, bool) {
		for i := k; i+step >= 0 && i+step < len(p); i += step {
			a, b := p[i], p[i+step]
			if b <= height/2 {
				return float64(i) + float64(step)*(a-height/2)/(a-b), true
			}
		}
		return 0, false
	}
	low, okLow := cross(-1)
	high, okHigh := cross(1)
	return low, high, okLow && okHigh
}

// thin returns at most about 800 points of y between two positions, the greatest of each group, x scaled by step.
func thin(y []float64, from, to int, step float64) (x, z []float64) {
	from, to = max(from, 0), min(to, len(y)-1)
	group := max((to-from)/800, 1)
	for k := from; k <= to; k += group {
		best := k
		for i := k; i < min(k+group, to+1); i++ {
			if y[i] > y[best] {
				best = i
			}
		}
		x, z = append(x, float64(best)*step), append(z, y[best])
	}
	return x, z
}
