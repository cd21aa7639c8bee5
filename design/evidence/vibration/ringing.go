package vibration

import (
	"fmt"
	"math"
	"slices"

	"mastwright/design/evidence/record"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// TapOptions say how a tap record is read. The zero value is a mount on a block.
type TapOptions struct {
	Support Support
	From    float64 // Hz, lowest frequency looked for; 0 means .4 of the lowest prediction's low end, 15 without one
	To      float64 // Hz, highest; 0 means 1.5 of the highest prediction's high end, at most 1/2.5 of the rate
	Axis    int     // 1, 2 or 3: that axis alone; 0 means all together
	Skip    float64 // s after the tap's greatest value that are left out, 0 means 6 ms: the finger is still on
}

// Ringing is what a tap record says.
type Ringing struct {
	Hz             float64 // of the ringing: lower than the undamped by ζ²/2, an eighth of a percent at damping .05
	Plus           float64 // Hz, half-width of the 95 % interval
	Spread, Noise  float64 // Hz, standard errors: over the taps (0 for one), and from the noise
	HalfPower      float64 // damping, part of critical, from the width at half power; 0 when not found
	Decay          float64 // damping from the logarithmic decrement of the filtered decay; 0 when not found
	HalfPowerError float64 // standard error over the taps, 0 for one
	DecayError     float64
	Taps           []Strike
	Match          Match // valid when Matched
	Matched        bool  // there was a prediction to match
	Support        Support
	Spectrum       Spectrum
	Fade           Fade // of the strongest tap
	Notes          []record.Note
}

// Tap finds the taps in a record and the frequency at which the mount rings after them. Predicted holds modes of the held and
// of the free mount; the support chooses which count. The powers of all axes are added.
//
// After each tap the spectrum of the ringing is taken, its highest peak found with a parabola through the logarithms of
// three points, and found again with the ringing weighed by its own decay, which uses the noisy end least. The standard error
// from the noise is the bound for a decaying oscillation A e^(−αt) in white noise of one-sided density S,
//
//	σ_f = √(8 S α³) / (2π A),
//
// from the Fisher information of frequency and phase over a whole decay (for the exact finite sums see Yao & Pandit, IEEE
// Transactions on Signal Processing 42, 1994).
//
// A record that is too short, sampled below three times the lowest prediction, without a peak over the noise or with two
// peaks alike is refused with a Refusal.
func Tap(s record.Series, predicted []Mode, o TapOptions) (Ringing, error) {
	r := Ringing{Support: o.Support, Notes: slices.Clone(s.Notes)}
	var modes []Mode
	for _, m := range predicted {
		if m.Flying == o.Support.Flying() && m.Hz > 0 {
			modes = append(modes, m)
		}
	}
	slices.SortStableFunc(modes, func(a, b Mode) int { return int(math.Copysign(1, a.Hz-b.Hz)) })
	axes, err := chosen(s, o.Axis)
	if err != nil {
		return r, err
	}
	if err := enough(s, modes); err != nil {
		return r, err
	}
	from, to := searched(s.Rate, modes, o)
	if from >= .8*to {
		return r, refuse(TooSlow, "nothing can be searched between %.3g and %.3g Hz in a record of %.4g samples a second; sample faster or widen the range", from, to, s.Rate)
	}
	t := tap{from: from, to: to, support: o.Support, modes: modes}
	for _, x := range axes {
		y, rate := band(x, s.Rate, from, to)
		t.axes, t.rate = append(t.axes, y), rate
	}
	skip := o.Skip
	if skip == 0 {
		skip = contact
	}
	r.Taps = strikes(t.axes, t.rate, from, skip)
	if err := t.read(&r); err != nil {
		return r, err
	}
	if len(modes) > 0 {
		r.Match, r.Matched = match(modes, r.Hz, r.Plus), true
	}
	return r, nil
}

func chosen(s record.Series, axis int) ([][]float64, error) {
	switch {
	case s.Len() == 0 || !(s.Rate > 0):
		return nil, refuse(TooShort, "the record holds no samples; record again")
	case axis < 0 || axis > len(s.Axes):
		return nil, refuse(Nothing, "there is no axis %d in a record of %d; choose 1 to %d, or 0 for all", axis, len(s.Axes), len(s.Axes))
	case axis > 0:
		return s.Axes[axis-1 : axis], nil
	}
	return s.Axes, nil
}

func enough(s record.Series, modes []Mode) error {
	if len(modes) > 0 && s.Rate < 3*modes[0].Hz {
		return refuse(TooSlow, "%.4g samples a second are too few for the %.4g Hz that is expected: at least %.4g are needed; a gyro log with 1000 rows a second or a sound recording serves",
			s.Rate, modes[0].Hz, 3*modes[0].Hz)
	}
	if s.Seconds() < .3 {
		return refuse(TooShort, "the record lasts %.3g s; record at least 3 s with a quiet second before the first tap", s.Seconds())
	}
	return nil
}

func searched(rate float64, modes []Mode, o TapOptions) (from, to float64) {
	from, to = 15, rate/2.5
	if len(modes) > 0 {
		low, _ := modes[0].band()
		high := 0.
		for _, m := range modes {
			_, h := m.band()
			high = max(high, h)
		}
		from, to = .4*low, min(to, 1.5*high)
	}
	if o.From > 0 {
		from = o.From
	}
	if o.To > 0 {
		to = min(o.To, rate/2.5)
	}
	return from, to
}

// settle takes the mean over the used taps.
func (r *Ringing) settle() {
	var hz, half, decay []float64
	noise := 0.
	for _, t := range r.Taps {
		if !t.Used {
			continue
		}
		hz = append(hz, t.Hz)
		noise += t.Noise * t.Noise
		if t.HalfPower > 0 {
			half = append(half, t.HalfPower)
		}
		if t.Decay > 0 {
			decay = append(decay, t.Decay)
		}
	}
	n := len(hz)
	r.Hz, r.Spread = meanAndError(hz)
	r.Noise = math.Sqrt(noise) / float64(n)
	r.HalfPower, r.HalfPowerError = meanAndError(half)
	r.Decay, r.DecayError = meanAndError(decay)
	r.Plus = 1.96 * r.Noise
	switch {
	case n > 2:
		r.Plus = max(r.Plus, r.Spread*studentT(n-1))
	case n == 2:
		r.Plus = max(r.Plus, 2*r.Spread)
	}
	if n < 3 {
		r.Notes = append(r.Notes, record.Note{About: "taps", Text: fmt.Sprintf("the result rests on %d; three and more show how well they agree", n)})
	}
	if a, b := r.HalfPower, r.Decay; a > 0 && b > 0 && max(a, b) > 1.5*min(a, b) {
		r.Notes = append(r.Notes, record.Note{About: "damping", Text: "the two ways disagree by more than half: two modes close together, a touched mount or an overdriven record"})
	}
}

// meanAndError returns the mean and its standard error, 0 for a single value.
func meanAndError(v []float64) (mean, err float64) {
	if len(v) == 0 {
		return 0, 0
	}
	mean = stat.Mean(v, nil)
	if len(v) > 1 {
		err = stat.StdDev(v, nil) / math.Sqrt(float64(len(v)))
	}
	return mean, err
}

// studentT is the two-sided 95 % point of Student's distribution.
func studentT(freedom int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(freedom)}.Quantile(.975)
}
