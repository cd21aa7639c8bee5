package bench_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"mastwright/design/evidence/bench"
)

// norris is NIST StRD, linear regression, data set Norris (ozone monitors): y, x. Data and certified values from public copies
// of the set, two of which were compared.
var norris = [][2]float64{
	{.1, .2}, {338.8, 337.4}, {118.1, 118.2}, {888, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3},
	{449.1, 448.6}, {778.9, 777}, {559.2, 558.2}, {.3, .4}, {.1, .6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338},
	{448.9, 447.5}, {10.8, 11.6}, {557.7, 556}, {228.3, 228.1}, {998, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {.3, .3},
	{.6, .3}, {557.6, 556.8}, {339.3, 339.1}, {888, 887.2}, {998.5, 999}, {778.9, 779}, {10.2, 11.1}, {117.6, 118.3},
	{228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {.2, .5},
}

func TestLineOnNorris(t *testing.T) {
	var x, y []float64
	for _, p := range norris {
		y, x = append(y, p[0]), append(x, p[1])
	}
	l, err := bench.FitLine(x, y)
	if err != nil {
		t.Fatal(err)
	}
	ones := make([]float64, len(x))
	for i := range ones {
		ones[i] = 1
	}
	p, err := bench.FitPlane([][]float64{ones, x}, y)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name            string
		line, plane, is float64
	}{
		{"intercept", l.Intercept, p.Terms[0], -.262323073774029},
		{"its error", l.InterceptError, p.Errors[0], .232818234301152},
		{"slope", l.Slope, p.Terms[1], 1.00211681802045},
		{"its error", l.SlopeError, p.Errors[1], .429796848199937e-3},
		{"residual", l.Residual, p.Residual, .884796396144373},
	} {
		// Twelve of the fifteen certified digits: the set is of low difficulty.
		if !near(c.line, c.is, 1e-12) || !near(c.plane, c.is, 1e-12) {
			t.Errorf("%s: line %.15g, plane %.15g, want %.15g", c.name, c.line, c.plane, c.is)
		}
	}
}

func TestPlaneOnLongley(t *testing.T) {
	// NIST StRD, linear regression, data set Longley, of high difficulty; origin as of Norris. y, then x1 to x6.
	rows := [][7]float64{
		{60323, 83.0, 234289, 2356, 1590, 107608, 1947}, {61122, 88.5, 259426, 2325, 1456, 108632, 1948},
		{60171, 88.2, 258054, 3682, 1616, 109773, 1949}, {61187, 89.5, 284599, 3351, 1650, 110929, 1950},
		{63221, 96.2, 328975, 2099, 3099, 112075, 1951}, {63639, 98.1, 346999, 1932, 3594, 113270, 1952},
		{64989, 99.0, 365385, 1870, 3547, 115094, 1953}, {63761, 100.0, 363112, 3578, 3350, 116219, 1954},
		{66019, 101.2, 397469, 2904, 3048, 117388, 1955}, {67857, 104.6, 419180, 2822, 2857, 118734, 1956},
		{68169, 108.4, 442769, 2936, 2798, 120445, 1957}, {66513, 110.8, 444546, 4681, 2637, 121950, 1958},
		{68655, 112.6, 482704, 3813, 2552, 123366, 1959}, {69564, 114.2, 502601, 3931, 2514, 125368, 1960},
		{69331, 115.7, 518173, 4806, 2572, 127852, 1961}, {70551, 116.9, 554894, 4007, 2827, 130081, 1962},
	}
	terms := []float64{-3482258.63459582, 15.0618722713733, -.358191792925910e-1, -2.02022980381683, -1.03322686717359, -.511041056535807e-1, 1829.15146461355}
	spread := []float64{890420.383607373, 84.9149257747669, .334910077722432e-1, .488399681651699, .214274163161675, .226073200069370, 455.478499142212}
	columns, y := make([][]float64, 7), []float64(nil)
	for _, r := range rows {
		y, columns[0] = append(y, r[0]), append(columns[0], 1)
		for j := 1; j < 7; j++ {
			columns[j] = append(columns[j], r[j])
		}
	}
	p, err := bench.FitPlane(columns, y)
	if err != nil {
		t.Fatal(err)
	}
	for j := range terms {
		// The columns' condition of some 4e4 (scaled) leaves eleven digits; normal equations would leave seven.
		if !near(p.Terms[j], terms[j], 1e-10) || !near(p.Errors[j], spread[j], 1e-10) {
			t.Errorf("term %d: %.14g ± %.14g, want %.14g ± %.14g", j, p.Terms[j], p.Errors[j], terms[j], spread[j])
		}
	}
	if !near(p.Residual, 304.854073561965, 1e-10) {
		t.Errorf("residual %.14g, want 304.854073561965", p.Residual)
	}
}

func TestStudentAgainstTable(t *testing.T) {
	// NIST/SEMATECH e-Handbook, section 1.3.6.7.2, column .975 (from memory).
	for freedom, want := range map[int]float64{1: 12.706, 2: 4.303, 3: 3.182, 5: 2.571, 10: 2.228, 30: 2.042, 100: 1.984} {
		if got := bench.Student(freedom); math.Abs(got-want) > .0005 { // as printed
			t.Errorf("%d degrees of freedom: %.4f, want %.3f", freedom, got, want)
		}
	}
}

// TestConfidenceCovers draws lines with known slope: 95 % of the bounds have to hold it.
func TestConfidenceCovers(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	x := []float64{0, 1, 2, 3, 5, 8}
	held, inBand, reached := 0, 0, 0
	const runs = 4000
	for range runs {
		y := make([]float64, len(x))
		for i := range x {
			y[i] = 7 - 2*x[i] + .5*random.NormFloat64()
		}
		l, err := bench.FitLine(x, y)
		if err != nil {
			t.Fatal(err)
		}
		if s := l.SlopeEstimate(); s.Low <= -2 && -2 <= s.High {
			held++
		}
		if b := l.Band(6); b.Low <= -5 && -5 <= b.High {
			inBand++
		}
		if r, further := l.Reach(6), -5+.5*random.NormFloat64(); r.Low <= further && further <= r.High {
			reached++
		}
	}
	for name, count := range map[string]int{"slope": held, "band": inBand, "reach": reached} {
		// Four standard deviations of a count of 4000 at 95 %: 55.
		if math.Abs(float64(count)-.95*runs) > 55 {
			t.Errorf("%s: %d of %d bounds hold the truth, want %d", name, count, runs, int(.95*runs))
		}
	}
}

func TestFitsRefuse(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		x, y []float64
	}{
		{"two points", []float64{1, 2}, []float64{1, 2}},
		{"one x", []float64{4, 4, 4}, []float64{1, 2, 3}},
		{"no number in x", []float64{1, nan, 3}, []float64{1, 2, 3}},
		{"infinite y", []float64{1, 2, 3}, []float64{1, 2, math.Inf(1)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := bench.FitLine(c.x, c.y)
			var r bench.Refusal
			if !errors.As(err, &r) || r.Remedy == "" {
				t.Errorf("got %v, want a refusal with a remedy", err)
			}
		})
	}
	ones := []float64{1, 1, 1, 1}
	if _, err := bench.FitPlane([][]float64{ones, {1, 2, 3, 4}, {2, 3, 4, 5}}, ones); err == nil {
		t.Error("columns that are sums of others were not refused")
	}
	if _, err := bench.FitPlane([][]float64{ones, {1, 2, 3, 4}, {1, 4, 9, 16}, {1, 8, 27, 64}}, ones); err == nil {
		t.Error("four rows for four terms were not refused")
	}
}

func near(got, want, part float64) bool { return math.Abs(got-want) <= part*math.Abs(want) }
