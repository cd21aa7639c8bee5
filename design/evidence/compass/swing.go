package compass

import (
	"fmt"
	"math"
)

// swings fills in the heading errors at hover and full, and by how much the field has to fall.
func (t *Throttled) swings(o ThrottleOptions) {
	or := func(l Limits, pass, marginal float64) Limits {
		if l == (Limits{}) {
			return Limits{pass * degree, marginal * degree}
		}
		return l
	}
	for _, at := range []Swung{
		{At: "hover", Current: o.Hover, Limits: or(o.HoverLimits, 5, 15)},
		{At: "full", Current: o.Full, Limits: or(o.FullLimits, 15, 45)},
	} {
		if at.Current == 0 {
			continue
		}
		more := max(at.Current-o.Idle, 0)
		angle := func(across float64) float64 { return Swing(across*more, o.Horizontal) }
		at.Angle.Value, at.Angle.Low, at.Angle.High = angle(t.Across.Value), angle(t.Across.Low), angle(t.Across.High)
		at.Says = at.Limits.says(at.Angle.Value)
		at.Sure = at.Limits.says(at.Angle.Low) == at.Limits.says(at.Angle.High)
		t.Swings = append(t.Swings, at)
		t.Ratio = max(t.Ratio, t.Across.Value*more/(o.Horizontal*math.Sin(min(at.Limits.Pass, math.Pi/2))))
	}
}

func (l Limits) says(angle float64) string {
	switch {
	case angle <= l.Pass:
		return "pass"
	case angle <= l.Marginal:
		return "marginal"
	}
	return "fail"
}

// raise finds the height at which every limit is met, up to one metre more.
func (t *Throttled) raise(o ThrottleOptions) {
	if o.Height <= 0 || t.Ratio <= 1 {
		t.Reached = t.Ratio <= 1
		return
	}
	decay := o.Decay
	if decay == nil {
		n := o.Exponent
		if n == 0 {
			n = 2
		}
		decay = func(h float64) float64 { return math.Pow(h/o.Height, -n) }
	}
	want := decay(o.Height) / t.Ratio
	low, high := o.Height, o.Height+1
	if !(want > 0) || !(decay(high) <= want) {
		return
	}
	for range 60 {
		if middle := (low + high) / 2; decay(middle) <= want {
			high = middle
		} else {
			low = middle
		}
	}
	t.Raise, t.Reached = high-o.Height, true
}

func (t *Throttled) words(o ThrottleOptions) {
	say := func(format string, a ...any) { t.Words = append(t.Words, fmt.Sprintf(format, a...)) }
	say("%s", t.Unit.Said)
	say("per ampere, in uT: x %s, y %s, z %s; together %s, across the vertical %s", t.Slopes[0].Slope.Times(1e6).Words(), t.Slopes[1].Slope.Times(1e6).Words(),
		t.Slopes[2].Slope.Times(1e6).Words(), t.Size.Times(1e6).Words(), t.Across.Times(1e6).Words())
	for _, s := range t.Swings {
		sure := ""
		if !s.Sure {
			sure = ", but its confidence reaches over the limit"
		}
		bounds := ""
		if low, high := fmt.Sprintf("%.1f", s.Angle.Low/degree), fmt.Sprintf("%.1f", s.Angle.High/degree); low != high {
			bounds = fmt.Sprintf(" (%s° to %s°)", low, high)
		}
		say("at %s (%.3g A) the heading swings by up to %.1f°%s, limit %.0f°: %s%s", s.At, s.Current, s.Angle.Value/degree, bounds, s.Limits.Pass/degree, s.Says, sure)
	}
	if t.Agreement.Words != "" {
		say("%s", t.Agreement.Words)
	}
	switch {
	case t.Ratio <= 1:
		say("no limit is passed: the height is enough")
	case t.Reached && t.Raise > 0:
		say("raise the compass by %.0f mm, by the decay of the field with height", math.Ceil(1000*t.Raise))
	case o.Height > 0:
		say("a metre more height does not do it: the leads have to be moved or twisted")
	default:
		say("the field has to fall to %.0f %%", 100/t.Ratio)
	}
	if t.Moved {
		say("the field wandered by %.2g uT beside the current: the aircraft tilted or turned, or another current flowed; repeat in calm air, straight up, the nose held at one heading", 1e6*t.Residual)
	}
}
