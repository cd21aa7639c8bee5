package certainty_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"mastwright/design/sizing/certainty"
)

// Every n-th of every dimension holds exactly one point: the definition of a Latin hypercube (McKay, Beckman & Conover 1979).
func TestHypercubeStrata(t *testing.T) {
	for _, c := range []struct{ n, dimensions int }{{1, 1}, {7, 3}, {200, 12}} {
		points := certainty.Hypercube(c.n, c.dimensions, 5)
		for d := range c.dimensions {
			held := make([]int, c.n)
			for _, p := range points {
				held[int(p[d]*float64(c.n))]++
			}
			if slices.Min(held) != 1 || slices.Max(held) != 1 {
				t.Errorf("%d points, dimension %d: strata hold %v, want one each", c.n, d, held)
			}
		}
	}
}

// The star discrepancy of points in order is 1/2n + max |x_i - (2i-1)/2n| (Niederreiter 1992, Random Number Generation and Quasi-Monte Carlo Methods,
// theorem 2.6); with one point in each stratum it is at most 1/n. Independent points have about 0.87/√n, seventeen times that at n = 400.
func TestHypercubeDiscrepancy(t *testing.T) {
	const n = 400
	points := certainty.Hypercube(n, 4, 1)
	for d := range 4 {
		x := make([]float64, n)
		for i, p := range points {
			x[i] = p[d]
		}
		slices.Sort(x)
		star := 0.0
		for i, v := range x {
			star = max(star, math.Abs(v-(2*float64(i)+1)/(2*n)))
		}
		if star += 1.0 / (2 * n); star > 1.0/n {
			t.Errorf("dimension %d: star discrepancy %g, want at most %g", d, star, 1.0/n)
		}
	}
}

// A frequency that goes with the root of a modulus exceeds f0 where the modulus exceeds its square: P = (b - E0)²/((b - a)(b - c)) above
// the mode, the area of the triangle's tip.
func TestFrequencyAgainstClosedForm(t *testing.T) {
	law := certainty.Law{Low: 1420, Typical: 1850, High: 2117} // PETG in layer, MPa
	const n = 500
	for _, E0 := range []float64{1500, 1700, 1850, 1950, 2100} {
		f0, count := math.Sqrt(E0), 0
		for _, p := range certainty.Hypercube(n, 3, 2) {
			if math.Sqrt(law.Quantile(p[1])) > f0 {
				count++
			}
		}
		want := above(law.Low, law.Typical, law.High, E0)
		if got := certainty.ShareOf(count, n).Value; math.Abs(got-want) > 1.0/n {
			t.Errorf("above √%g: got %.4f, want %.4f within one stratum", E0, got, want)
		}
	}
}

// Mean (a+b+c)/3 and variance (a²+b²+c²-ab-ac-bc)/18 of the triangular distribution (Johnson, Kotz & Balakrishnan, Continuous Univariate
// Distributions 2, 2nd ed., section 26.9), by the midpoints of many strata.
func TestLawMoments(t *testing.T) {
	const n = 20000
	for _, l := range []certainty.Law{{Low: 23, Typical: 45, High: 55}, {Low: 64, Typical: 64, High: 67}, {Low: 1, Typical: 3, High: 3}, {Low: 0, Typical: .5, High: 1}} {
		var sum, squares float64
		for i := range n {
			x := l.Quantile((float64(i) + .5) / n)
			sum, squares = sum+x, squares+x*x
		}
		a, c, b := l.Low, l.Typical, l.High
		mean, variance := sum/n, squares/n-sum/n*sum/n
		wantMean, wantVariance := (a+b+c)/3, (a*a+b*b+c*c-a*b-a*c-b*c)/18
		if math.Abs(mean/wantMean-1) > 1e-6 || math.Abs(variance/wantVariance-1) > 1e-4 { // midpoint rule with a root at the ends
			t.Errorf("%v: got mean %g, variance %g, want %g, %g", l, mean, variance, wantMean, wantVariance)
		}
	}
	factor := certainty.Law{Low: 2, Typical: 6, High: 18, Logarithmic: true}
	for _, c := range []struct{ u, want float64 }{{0, 2}, {.5, 6}, {1, 18}} {
		if got := factor.Quantile(c.u); math.Abs(got/c.want-1) > 1e-12 {
			t.Errorf("within a factor of 3 of 6 at %g: got %g, want %g", c.u, got, c.want)
		}
	}
}

// Source: Newcombe 1998, Statistics in Medicine 17, 857, table I, method 3 (score interval without continuity correction); figures from memory.
func TestShareAgainstPublished(t *testing.T) {
	for _, c := range []struct {
		count, n  int
		low, high float64
	}{{81, 263, .2553, .3662}, {15, 148, .0624, .1605}, {0, 20, 0, .1611}, {1, 29, .0061, .1718}, {20, 20, 1 - .1611, 1}} {
		got := certainty.ShareOf(c.count, c.n)
		if math.Abs(got.Low-c.low) > 5e-5 || math.Abs(got.High-c.high) > 5e-5 {
			t.Errorf("%d of %d: got %.4f to %.4f, want %.4f to %.4f", c.count, c.n, got.Low, got.High, c.low, c.high)
		}
	}
}

// The worked example of ten people's intelligence quotient and hours of television a week, a common one in texts: Σd² = 194, ρ = -29/165.
// Of ties: 1 - 6 Σd²/(n(n²-1)) does not hold there, so the value is worked by hand: ranks 1, 2.5, 2.5, 4 against 1, 2, 3, 4 give 4.5/√(4.5·5).
func TestRankCorrelation(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b []float64
		want float64
	}{
		{"worked example", []float64{106, 100, 86, 101, 99, 103, 97, 113, 112, 110}, []float64{7, 27, 2, 50, 28, 29, 20, 12, 6, 17}, -29. / 165},
		{"ties", []float64{5, 7, 7, 9}, []float64{1, 2, 3, 4}, 4.5 / math.Sqrt(4.5*5)},
		{"rising", []float64{1, 2, 30}, []float64{-1, 0, 7}, 1},
		{"falling", []float64{1, 2, 30}, []float64{9, 8, -7}, -1},
		{"one does not vary", []float64{1, 2, 3}, []float64{4, 4, 4}, 0},
	} {
		if got := certainty.RankCorrelation(c.a, c.b); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: got %g, want %g", c.name, got, c.want)
		}
	}
}

func ExampleShareOf() {
	s := certainty.ShareOf(190, 200)
	fmt.Printf("%.0f %% (%.0f to %.0f)\n", 100*s.Value, 100*s.Low, 100*s.High)
	// Output: 95 % (91 to 97)
}
