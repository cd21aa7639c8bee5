package vibration

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mastwright/design/evidence/record"
)

// tap is a record in the searched band while it is read.
type tap struct {
	axes     [][]float64
	rate     float64
	from, to float64 // Hz
	support  Support
	modes    []Mode

	size  int       // samples of the lengthened windows
	mean  []float64 // power over the taps
	noise float64   // density around the peak, mean of the axes
	hz    float64   // of the mean's peak
	width float64   // Hz, of the filter for the decay
}

const (
	standsOut = 12. // dB of the peak over the noise
	alike     = .8  // amplitude of the second peak from which the first is not the answer
)

func (t *tap) read(r *Ringing) error {
	if len(r.Taps) == 0 {
		return refuse(Nothing, "no tap stands out of the noise between %.3g and %.3g Hz; tap harder, fix the sensor to the tray, or hold the microphone closer", t.from, t.to)
	}
	longest := slices.MaxFunc(r.Taps, func(a, b Strike) int { return cmp.Compare(a.to-a.from, b.to-b.from) })
	t.size = powerOfTwo(8 * max(longest.to-longest.from, 256))
	for _, s := range r.Taps {
		p := t.powerOf(s, 0)
		if t.mean == nil {
			t.mean = make([]float64, len(p))
		}
		for k, v := range p {
			t.mean[k] += v / float64(len(r.Taps))
		}
	}
	if err := t.findPeaks(r, longest); err != nil {
		return err
	}
	used, strongest := 0, -1
	for i := range r.Taps {
		t.measure(&r.Taps[i])
	}
	t.agree(r.Taps)
	for i, s := range r.Taps {
		if s.Used {
			used++
			if strongest < 0 || s.Amplitude > r.Taps[strongest].Amplitude {
				strongest = i
			}
		} else {
			r.Notes = append(r.Notes, record.Note{About: "taps", Text: fmt.Sprintf("the one at %.3f s is left out: %s", s.At, s.Why)})
		}
	}
	if used == 0 {
		return refuse(TooShort, "too little follows the taps: %.3g s at most, and ten periods of %.4g Hz take %.3g s; leave a second between taps and after the last",
			longest.room, t.hz, 10/t.hz)
	}
	r.settle()
	r.Fade, _ = t.fade(r.Taps[strongest])
	return nil
}

// powerOf is the power of a tap's ringing, all axes, weighed with e^(−alpha t).
func (t *tap) powerOf(s Strike, alpha float64) []float64 {
	n := s.to - s.from
	w := make([]float64, n)
	var sum []float64
	for _, x := range t.axes {
		for i := range w {
			w[i] = x[s.from+i] * taper(i, n) * math.Exp(-alpha*float64(i)/t.rate)
		}
		p := power(w, t.size)
		if sum == nil {
			sum = p
			continue
		}
		for k, v := range p {
			sum[k] += v
		}
	}
	return sum
}

func (t *tap) hzOf(point float64) float64 { return point * t.rate / float64(t.size) }
func (t *tap) pointOf(hz float64) int     { return int(math.Round(hz * float64(t.size) / t.rate)) }

// findPeaks fills the spectrum and decides whether one peak stands out.
func (t *tap) findPeaks(r *Ringing, longest Strike) error {
	from, to := t.pointOf(t.from), t.pointOf(t.to)
	at := peaks(t.mean, from, to, 1.4)
	if len(at) == 0 {
		return refuse(Nothing, "the spectrum has no peak between %.3g and %.3g Hz; tap harder or widen the range", t.from, t.to)
	}
	top := t.mean[at[0]]
	level := func(k int) float64 {
		return 10 * math.Log10(t.mean[k]/t.noisePower(r.Taps, longest, t.hzOf(float64(k))))
	}
	for _, k := range at[:min(len(at), 12)] {
		p, _ := parabola(t.mean, k)
		peak := Peak{Hz: t.hzOf(p), Level: math.Sqrt(t.mean[k] / top), Above: level(k)}
		if len(r.Spectrum.Peaks) == 0 || peak.Level > .1 && peak.Above > standsOut {
			r.Spectrum.Peaks = append(r.Spectrum.Peaks, peak)
		}
	}
	r.Spectrum.From, r.Spectrum.To, r.Spectrum.Unit = t.from, t.to, "of the highest"
	r.Spectrum.Hz, r.Spectrum.Level = thin(t.mean, from, to, t.rate/float64(t.size))
	for i, v := range r.Spectrum.Level {
		r.Spectrum.Level[i] = math.Sqrt(v / top)
	}
	first := r.Spectrum.Peaks[0]
	t.hz = first.Hz
	t.noise = quiet(t.axes, t.rate, r.Taps, t.hz)
	if first.Above < standsOut {
		return refuse(Nothing, "the highest peak, %.4g Hz, stands only %.2g dB over the noise; %g dB are needed: tap harder, fix the sensor to the tray, or hold the microphone closer",
			first.Hz, max(first.Above, 0), standsOut)
	}
	near := math.Inf(1)
	for i, p := range r.Spectrum.Peaks[1:] {
		near = min(near, math.Abs(p.Hz-t.hz))
		if p.Level >= alike && !t.told(first, p) {
			return refuse(Ambiguous, "peaks %d and %d, %.4g and %.4g Hz, are alike (%.0f %% of the height): tap straight along one axis, choose one axis, or narrow the range",
				1, i+2, t.hz, p.Hz, 100*p.Level)
		}
	}
	t.width = max(min(.15*t.hz, .35*near), .04*t.hz)
	return nil
}

// told says whether the predictions tell two peaks apart: the first lies in the band of one, the second in none.
func (t *tap) told(first, second Peak) bool {
	in := func(p Peak) bool {
		return slices.ContainsFunc(t.modes, func(m Mode) bool { low, high := m.band(); return p.Hz >= low && p.Hz <= high })
	}
	return in(first) && !in(second)
}

// noisePower is what the noise alone would give in the mean spectrum.
func (t *tap) noisePower(taps []Strike, longest Strike, hz float64) float64 {
	density, samples := quiet(t.axes, t.rate, taps, hz), 0.
	for _, s := range taps {
		n := s.to - s.from
		for i := range n {
			w := taper(i, n)
			samples += w * w / float64(len(taps))
		}
	}
	return density/2*t.rate*samples*float64(len(t.axes)) + 1e-30
}

// measure finds frequency, damping and their doubt in one tap's ringing.
func (t *tap) measure(s *Strike) {
	if s.room < 10/t.hz {
		s.Why = fmt.Sprintf("only %.3g s follow it", s.room)
		return
	}
	p := t.powerOf(*s, 0)
	k, height := t.highest(p)
	if low, high, ok := halfPower(p, k, height); ok {
		s.HalfPower = DampingOfHalfPower(low, high)
	}
	f := t.hzOf(float64(k))
	if fade, ok := t.fade(*s); ok {
		s.Decay = fade.Damping
	}
	zeta := s.Decay
	if zeta == 0 {
		zeta = s.HalfPower
	}
	alpha := zeta * 2 * math.Pi * f
	p = t.powerOf(*s, alpha)
	k, height = t.highest(p)
	point, _ := parabola(p, k)
	s.Hz = t.refine(*s, t.hzOf(point), alpha)
	sum, squares := 0., 0.
	n := s.to - s.from
	for i := range n {
		w := taper(i, n) * math.Exp(-alpha*float64(i)/t.rate)
		sum += w * math.Exp(-alpha*float64(i)/t.rate)
		squares += w * w
	}
	s.Amplitude = 2 * math.Sqrt(height) / sum
	s.Noise = math.Sqrt(8*t.noise*alpha*alpha*alpha) / (2 * math.Pi * s.Amplitude)
	s.Above = 10 * math.Log10(height/(t.noise/2*t.rate*squares*float64(len(t.axes))+1e-30))
	s.Used = true
}

// refine moves f to where a decaying oscillation, e^(−alpha t) times cosine and sine on each axis, explains most of the
// ringing. The spectrum alone is drawn aside by the oscillation's own image at negative frequency.
func (t *tap) refine(s Strike, f, alpha float64) float64 {
	h := alpha / (6 * math.Pi)
	for range 4 {
		a, b, c := t.explained(s, f-h, alpha), t.explained(s, f, alpha), t.explained(s, f+h, alpha)
		if bend := a - 2*b + c; bend < 0 {
			f += max(-h, min(h, h*(a-c)/(2*bend)))
		}
		h /= 3
	}
	return f
}

func (t *tap) explained(s Strike, f, alpha float64) float64 {
	var cc, ss, cs float64
	sums := make([][2]float64, len(t.axes))
	for i := s.from; i < s.to; i++ {
		now := float64(i-s.from) / t.rate
		sin, cos := math.Sincos(2 * math.Pi * f * now)
		e := math.Exp(-alpha * now)
		sin, cos = e*sin, e*cos
		cc, ss, cs = cc+cos*cos, ss+sin*sin, cs+cos*sin
		for a, x := range t.axes {
			sums[a][0] += x[i] * cos
			sums[a][1] += x[i] * sin
		}
	}
	sum, det := 0., cc*ss-cs*cs
	for _, b := range sums {
		sum += (ss*b[0]*b[0] - 2*cs*b[0]*b[1] + cc*b[1]*b[1]) / det
	}
	return sum
}

// highest is the highest point of p within a twelfth of the mean's peak.
func (t *tap) highest(p []float64) (int, float64) {
	best := t.pointOf(t.hz)
	for k := t.pointOf(t.hz * 11 / 12); k <= min(t.pointOf(t.hz*13/12), len(p)-1); k++ {
		if p[k] > p[best] {
			best = k
		}
	}
	return best, p[best]
}

// agree leaves out taps that are weak or ring at another frequency than most.
func (t *tap) agree(taps []Strike) {
	var hz []float64
	for _, s := range taps {
		if s.Used {
			hz = append(hz, s.Hz)
		}
	}
	slices.Sort(hz)
	for i := range taps {
		s := &taps[i]
		switch {
		case !s.Used:
		case s.Above < standsOut:
			s.Used, s.Why = false, fmt.Sprintf("its peak stands only %.2g dB over the noise", max(s.Above, 0))
		case math.Abs(s.Hz/hz[len(hz)/2]-1) > .05:
			s.Used, s.Why = false, fmt.Sprintf("it rings at %.4g Hz, unlike the others", s.Hz)
		}
	}
}

// fade is the decay of a tap on its strongest axis.
func (t *tap) fade(s Strike) (Fade, bool) {
	best, most := 0, -1.
	k := t.pointOf(t.hz)
	n := s.to - s.from
	for a, x := range t.axes {
		w := make([]float64, n)
		for i := range w {
			w[i] = x[s.from+i] * taper(i, n)
		}
		if p := power(w, t.size)[k]; p > most {
			best, most = a, p
		}
	}
	return fade(t.axes[best], t.rate, s, t.hz, t.width, t.noise)
}
