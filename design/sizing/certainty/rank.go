package certainty

import (
	"math"
	"slices"
)

// RankCorrelation returns Spearman's coefficient of two lists of equal length, -1 to 1: the correlation of their ranks, equal values
// sharing the mean of theirs. It is 0 where one of them does not vary.
func RankCorrelation(a, b []float64) float64 {
	if len(a) != len(b) {
		panic("certainty: lists of unequal length have no rank correlation")
	}
	x, y := ranks(a), ranks(b)
	mean := float64(len(a)+1) / 2
	var xy, xx, yy float64
	for i := range x {
		dx, dy := x[i]-mean, y[i]-mean
		xy, xx, yy = xy+dx*dy, xx+dx*dx, yy+dy*dy
	}
	if xx == 0 || yy == 0 {
		return 0
	}
	return min(1, max(-1, xy/math.Sqrt(xx*yy)))
}

// ranks numbers values from 1 in rising order.
func ranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case values[i] < values[j]:
			return -1
		case values[i] > values[j]:
			return 1
		}
		return 0
	})
	out := make([]float64, len(values))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && values[order[to]] == values[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			out[i] = float64(from+1+to) / 2
		}
		from = to
	}
	return out
}
