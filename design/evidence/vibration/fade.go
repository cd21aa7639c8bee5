package vibration

import "math"

// Fade is the decay after one tap, filtered around the found frequency, for a plot.
type Fade struct {
	Time     []float64 // s from the start of the record
	Value    []float64 // the signal in the searched band, strongest axis, in the record's unit
	Envelope []float64 // its amplitude through the filter
	Line     []float64 // the fitted decay, drawn on from the tap to the end; 0 before the tap
	From, To float64   // s, where the line was fitted
	Damping  float64
}

// fade fits the logarithm of the filtered amplitude over time, each point weighed with the square of its amplitude, from where
// the filter has settled to where the amplitude is twice the noise or a twentieth. ok is false when less than two periods
// remain. rate in Hz; width is the filter's standard width in Hz; density is the noise's.
func fade(x []float64, rate float64, s Strike, f, width, density float64) (Fade, bool) {
	lead := int(.05 * rate)
	from := max(s.from-lead, 0)
	seg := x[from:s.to]
	e := envelope(seg, rate, f, width)
	settle := 1.6 / (2 * math.Pi * width) // s; the filter's answer to a step has then all but died
	first := s.from - from + int(settle*rate)
	if first >= len(e) {
		return Fade{}, false
	}
	noise := math.Sqrt(2 * density * width * math.Sqrt(math.Pi))
	last := first
	for last < len(e)-1 && e[last] > 2*noise && e[last] > e[first]/20 {
		last++
	}
	if float64(last-first)/rate < 2/f {
		return Fade{}, false
	}
	var sw, st, sy, stt, sty float64
	for i := first; i < last; i++ {
		w, t, y := e[i]*e[i], float64(i-first)/rate, math.Log(e[i])
		sw, st, sy, stt, sty = sw+w, st+w*t, sy+w*y, stt+w*t*t, sty+w*t*y
	}
	slope := (sw*sty - st*sy) / (sw*stt - st*st)
	start := (sy - slope*st) / sw
	if !(slope < 0) {
		return Fade{}, false
	}
	r := Fade{From: float64(from+first) / rate, To: float64(from+last) / rate, Damping: DampingOfDecrement(-slope / f)}
	for i := range seg {
		line := 0.
		if i >= s.from-from {
			line = math.Exp(start + slope*float64(i-first)/rate)
		}
		r.Time = append(r.Time, float64(from+i)/rate)
		r.Value, r.Envelope, r.Line = append(r.Value, seg[i]), append(r.Envelope, e[i]), append(r.Line, line)
	}
	return r, true
}
