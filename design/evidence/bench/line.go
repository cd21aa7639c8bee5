package bench

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Line is a straight line through points by least squares, y = intercept + slope·x.
type Line struct {
	Slope          float64 `json:"slope"`
	Intercept      float64 `json:"intercept"`
	SlopeError     float64 `json:"slope_error"`     // standard error
	InterceptError float64 `json:"intercept_error"` // standard error
	Residual       float64 `json:"residual"`        // standard deviation about the line, in y's unit
	Count          int     `json:"count"`
	middle, square float64 // mean of x, sum of squares about it
}

// FitLine returns the line through points of equal numbers of x and y. Fewer than three points, and points at one x, are
// refused. Source: NIST/SEMATECH, e-Handbook of Statistical Methods, section 4.4.3.1; in deviations from the means, which
// keeps the digits of points far from zero.
func FitLine(x, y []float64) (Line, error) {
	n := len(x)
	if n != len(y) {
		panic("bench: x and y of different lengths")
	}
	if n < 3 {
		return Line{}, refuse("take three or more", "%d points say nothing about a line's confidence", n)
	}
	if err := finite("x", x...); err != nil {
		return Line{}, err
	}
	if err := finite("y", y...); err != nil {
		return Line{}, err
	}
	mx, my := mean(x), mean(y)
	var sxx, sxy, widest float64
	for i := range x {
		sxx += (x[i] - mx) * (x[i] - mx)
		sxy += (x[i] - mx) * (y[i] - my)
		widest = max(widest, math.Abs(x[i]))
	}
	if math.Sqrt(sxx) <= 1e-12*widest {
		return Line{}, refuse("take them at different ones", "all %d points stand at %.6g", n, mx)
	}
	l := Line{Slope: sxy / sxx, Count: n, middle: mx, square: sxx}
	l.Intercept = my - l.Slope*mx
	rest := 0.0
	for i := range x {
		r := y[i] - my - l.Slope*(x[i]-mx)
		rest += r * r
	}
	l.Residual = math.Sqrt(rest / float64(n-2))
	l.SlopeError = l.Residual / math.Sqrt(sxx)
	l.InterceptError = l.Residual * math.Sqrt(1/float64(n)+mx*mx/sxx)
	return l, nil
}

// At returns the line's y at x.
func (l Line) At(x float64) float64 { return l.Intercept + l.Slope*x }

// SlopeEstimate returns the slope with its confidence.
func (l Line) SlopeEstimate() Estimate { return Around(l.Slope, Student(l.Count-2)*l.SlopeError) }

// InterceptEstimate returns the intercept with its confidence.
func (l Line) InterceptEstimate() Estimate {
	return Around(l.Intercept, Student(l.Count-2)*l.InterceptError)
}

// Band returns the line at x with its confidence, the band about the line.
func (l Line) Band(x float64) Estimate {
	d := x - l.middle
	return Around(l.At(x), Student(l.Count-2)*l.Residual*math.Sqrt(1/float64(l.Count)+d*d/l.square))
}

// Reach returns the line at x with the bounds between which a further point would fall.
func (l Line) Reach(x float64) Estimate {
	d := x - l.middle
	return Around(l.At(x), Student(l.Count-2)*l.Residual*math.Sqrt(1+1/float64(l.Count)+d*d/l.square))
}

// Student returns the quantile of Student's distribution that leaves 2.5 % on either side, for 1 and more degrees of freedom;
// fewer count as 1.
func Student(freedom int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(max(freedom, 1))}.Quantile(.975)
}

// Mean returns the mean of readings of one thing with its confidence; floor is a half-width that it cannot fall below, such as
// the division of the instrument. One reading has the floor for its confidence; none are refused.
func Mean(values []float64, floor float64) (Estimate, error) {
	if len(values) == 0 {
		return Estimate{}, refuse("take one or more", "there is no reading")
	}
	if err := finite("value", values...); err != nil {
		return Estimate{}, err
	}
	plus := floor
	if n := len(values); n > 1 {
		plus = max(plus, Student(n-1)*deviation(values)/math.Sqrt(float64(n)))
	}
	return Around(mean(values), plus), nil
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// deviation is the standard deviation of a sample of two and more.
func deviation(x []float64) float64 {
	m, sum := mean(x), 0.0
	for _, v := range x {
		sum += (v - m) * (v - m)
	}
	return math.Sqrt(sum / float64(len(x)-1))
}
