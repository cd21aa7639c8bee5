package compass

import (
	"math"
	"slices"

	"mastwright/design/evidence/bench"
)

// Log is a record of the compass while the motors' current rises and falls, as over a hover and climbs with the nose held at one heading.
type Log struct {
	Axes     [3][]float64 // in the record's unit
	Current  []float64    // A, of the whole pack; nil when there is only throttle
	Throttle []float64    // in any measure that is 0 with the motors off; used without Current
}

// Limits are the heading errors in radians up to which a check passes and up to which it is marginal.
type Limits struct {
	Pass     float64 `json:"pass"`
	Marginal float64 `json:"marginal"`
}

// ThrottleOptions say what the site and the design are.
type ThrottleOptions struct {
	Unit          string                       // of the axes, one of Units; "" guesses
	Total         float64                      // T, earth's field at the site; 0 when not known
	Horizontal    float64                      // T, its horizontal part; needed
	Idle          float64                      // A, armed; what the heading error counts from
	Hover         float64                      // A; needed
	Full          float64                      // A; 0 leaves full throttle out
	ThrottleHover float64                      // throttle in the log's measure at Hover; needed without a current
	ThrottleFull  float64                      // at Full; needed without a current
	HoverLimits   Limits                       // 0 means 5 and 15 degrees
	FullLimits    Limits                       // 0 means 15 and 45 degrees
	Predicted     bench.Estimate               // T/A, size of the field per ampere; value 0 when there is none
	Height        float64                      // m, of the compass over the leads; 0 leaves the needed height out
	Decay         func(height float64) float64 // field per ampere at a height in m, in any measure; nil takes Exponent
	Exponent      float64                      // of the decay, field ∝ height^-Exponent; 0 means 2, two long leads beside each other
	Vertical      int                          // compass axis that stands upright: 1, 2 or 3; 0 means 3
}

// Throttled is what a throttle log says.
type Throttled struct {
	Slopes    [3]Slope        `json:"slopes"`
	Size      bench.Estimate  `json:"size_t_per_a"`   // of the field per ampere
	Across    bench.Estimate  `json:"across_t_per_a"` // its horizontal part
	Unit      Unit            `json:"unit"`
	Swings    []Swung         `json:"swings"`      // hover, full
	Agreement bench.Agreement `json:"agreement"`   // of Size with the prediction; its Factor is the lead model's; empty when nothing was predicted
	Ratio     float64         `json:"ratio"`       // by which the field has to fall for every limit, at most 1 when none is passed
	Raise     float64         `json:"raise_m"`     // m, more height that does it
	Reached   bool            `json:"raise_known"` // Raise is known
	Residual  float64         `json:"residual_t"`  // standard deviation about the lines, all axes
	Moved     bool            `json:"moved"`       // the rest is more than noise: the aircraft moved, or another current flowed
	Words     []string        `json:"words"`
	Plots     []bench.Plot    `json:"plots"` // one an axis, uT over A
}

// Slope is one axis against the current.
type Slope struct {
	Axis     string         `json:"axis"`
	Slope    bench.Estimate `json:"slope_t_per_a"`
	At0      float64        `json:"at_0_t"`     // T without current
	Residual float64        `json:"residual_t"` // T
}

// Swung is the heading error at one current, worst over yaw.
type Swung struct {
	At      string         `json:"at"` // hover, full
	Current float64        `json:"current_a"`
	Angle   bench.Estimate `json:"angle_rad"`
	Limits  Limits         `json:"limits_rad"`
	Says    string         `json:"says"` // pass, marginal, fail
	Sure    bool           `json:"sure"` // both bounds say the same
}

// Throttle finds what a compass sees of each ampere. Each axis is a straight line of the current by least squares; the
// confidence counts rows that follow each other closely as fewer.
func Throttle(log Log, o ThrottleOptions) (Throttled, error) {
	if err := sound(log.Axes, 10); err != nil {
		return Throttled{}, err
	}
	current, err := log.current(o)
	if err != nil {
		return Throttled{}, err
	}
	if o.Horizontal <= 0 || o.Hover <= 0 {
		return Throttled{}, refuse("enter the site and the motors", "the earth's horizontal field or the current in hover is missing")
	}
	span := slices.Max(current) - slices.Min(current)
	if span < max(1, .1*o.Hover) {
		return Throttled{}, refuse("log a flight with a hover and steady climbs, the nose held at one heading, where local rules allow it",
			"the current spans %.2g A only, of %.3g A in hover", span, o.Hover)
	}
	var t Throttled
	if t.Unit, err = unitOf(o.Unit, quietField(log.Axes, current), o.Total); err != nil {
		return Throttled{}, err
	}
	vertical := 2
	if o.Vertical != 0 {
		vertical = o.Vertical - 1
	}
	var rest, noise float64
	for a, values := range log.Axes {
		line, err := bench.FitLine(current, values)
		if err != nil {
			return Throttled{}, err
		}
		plus, jitter := looser(line, current, values)
		slope := bench.Around(line.Slope, plus).Times(t.Unit.Tesla)
		t.Slopes[a] = Slope{axisNames[a], slope, line.Intercept * t.Unit.Tesla, line.Residual * t.Unit.Tesla}
		rest += line.Residual * line.Residual
		noise += jitter * jitter
		t.Plots = append(t.Plots, plotAxis(axisNames[a], current, values, line, t.Unit.Tesla))
	}
	t.Residual = math.Sqrt(rest/3) * t.Unit.Tesla
	t.Moved = rest > 9*noise && math.Sqrt(rest)*t.Unit.Tesla > .03*o.Horizontal
	t.Size = sizeOf(t.Slopes[:])
	t.Across = sizeOf(slices.Delete(slices.Clone(t.Slopes[:]), vertical, vertical+1))
	t.swings(o)
	if o.Predicted.Value > 0 {
		if t.Agreement, err = bench.Compare(bench.LeadField, t.Size, o.Predicted, false); err != nil {
			return Throttled{}, err
		}
	}
	t.raise(o)
	t.words(o)
	return t, nil
}

// current is the current of each row, from the throttle where it was not logged: a power law through the two known points.
func (l Log) current(o ThrottleOptions) ([]float64, error) {
	source, name := l.Current, "current"
	if source == nil {
		source, name = l.Throttle, "throttle"
	}
	if source == nil {
		return nil, refuse("log the pack's current, or the throttle", "there is neither current nor throttle")
	}
	if len(source) != len(l.Axes[0]) {
		return nil, refuse("log them together", "%s has %d rows, the compass %d", name, len(source), len(l.Axes[0]))
	}
	for i, v := range source {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, refuse("leave that row out", "%s of row %d is no number", name, i+1)
		}
	}
	if l.Current != nil {
		return source, nil
	}
	if !(o.ThrottleHover > 0 && o.ThrottleFull > o.ThrottleHover && o.Full > o.Hover && o.Hover > 0) {
		return nil, refuse("tell throttle and current in hover and at full", "throttle alone says nothing of the current")
	}
	power := math.Log(o.Full/o.Hover) / math.Log(o.ThrottleFull/o.ThrottleHover)
	out := make([]float64, len(source))
	for i, v := range source {
		out[i] = o.Full * math.Pow(max(v, 0)/o.ThrottleFull, power)
	}
	return out, nil
}

// quietField is the mean size of the field over the rows in the lowest tenth of the current's span.
func quietField(axes [3][]float64, current []float64) float64 {
	least := slices.Min(current)
	quiet := least + .1*(slices.Max(current)-least)
	sum, count := 0.0, 0.0
	for i, c := range current {
		if c <= quiet {
			sum += norm([3]float64{axes[0][i], axes[1][i], axes[2][i]})
			count++
		}
	}
	return sum / count
}

// looser is the half-width of a slope's confidence with neighbours that follow each other counted as fewer, n(1−ρ)/(1+ρ), and
// the noise from one row to the next. Source: Bartlett, Journal of the Royal Statistical Society 98, 1935, pages 536–543 (from memory).
func looser(line bench.Line, x, y []float64) (plus, noise float64) {
	var square, next, jump, last float64
	for i := range x {
		r := y[i] - line.At(x[i])
		square += r * r
		if i > 0 {
			next += r * last
			jump += (r - last) * (r - last)
		}
		last = r
	}
	n := float64(len(x))
	noise = math.Sqrt(jump / (2 * (n - 1)))
	if square == 0 {
		return 0, noise
	}
	rho := min(max(next/square, 0), .98)
	fewer := (1 - rho) / (1 + rho)
	return bench.Student(int(n*fewer)-2) * line.SlopeError / math.Sqrt(fewer), noise
}

// sizeOf is the length of a vector of slopes; its confidence follows the vector's direction.
func sizeOf(slopes []Slope) bench.Estimate {
	var size, plus float64
	for _, s := range slopes {
		size = math.Hypot(size, s.Slope.Value)
	}
	for _, s := range slopes {
		if size > 0 {
			plus = math.Hypot(plus, s.Slope.Value/size*s.Slope.Plus())
		}
	}
	if size == 0 || plus > size {
		for _, s := range slopes {
			plus = max(plus, s.Slope.Plus())
		}
	}
	return bench.Estimate{Value: size, Low: max(0, size-plus), High: size + plus}
}

func plotAxis(name string, current, values []float64, line bench.Line, tesla float64) bench.Plot {
	p := bench.Plot{X: "current (A)", Y: name + " (uT)"}
	every := (len(current) + 399) / 400
	for i := 0; i < len(current); i += every {
		p.Points = append(p.Points, bench.Point{X: current[i], Y: values[i] * tesla * 1e6, Used: true, Name: name})
	}
	p.Lines = append(p.Lines, bench.Span("fit", slices.Min(current), slices.Max(current), 2, func(x float64) float64 { return line.At(x) * tesla * 1e6 }))
	return p
}
