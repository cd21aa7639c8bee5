package vibration

import "math"

// Mode is a predicted natural frequency.
type Mode struct {
	Name   string  // "bending fore-aft"
	Hz     float64 // as designed
	Low    float64 // Hz, soft end of the spread; 0 means Hz
	High   float64 // Hz, stiff end; 0 means Hz
	Flying bool    // of the free aircraft; else of the held base
}

// Match is the predicted mode that a measured frequency is taken for.
type Match struct {
	Mode   Mode
	Inside bool     // the measured frequency, with its doubt, reaches into Low to High
	Factor float64  // (measured/predicted)²: what the whole stiffness would have to be multiplied by
	Low    float64  // of Factor, at 95 %
	High   float64  // of Factor, at 95 %
	Also   []string // names of other modes whose band the measured frequency lies in
}

func (m Mode) band() (low, high float64) {
	low, high = m.Low, m.High
	if low == 0 {
		low = m.Hz
	}
	if high == 0 {
		high = m.Hz
	}
	return low, high
}

// match takes the nearest mode by ratio; modes must not be empty.
func match(modes []Mode, hz, doubt float64) Match {
	best := 0
	for i, m := range modes {
		if math.Abs(math.Log(hz/m.Hz)) < math.Abs(math.Log(hz/modes[best].Hz)) {
			best = i
		}
	}
	square := func(f float64) float64 { f = max(f, 0) / modes[best].Hz; return f * f }
	r := Match{Mode: modes[best], Factor: square(hz), Low: square(hz - doubt), High: square(hz + doubt)}
	for i, m := range modes {
		low, high := m.band()
		inside := hz+doubt >= low && hz-doubt <= high
		switch {
		case i == best:
			r.Inside = inside
		case inside:
			r.Also = append(r.Also, m.Name)
		}
	}
	return r
}
