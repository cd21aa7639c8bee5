package record

import (
	"fmt"
	"math"
)

// EvenOptions say how uneven times may be. The zero value is the usual.
type EvenOptions struct {
	Gap float64 // longest gap in usual spacings, at least 2; 0 means 5
}

// Even returns the columns of the roles at even times. Stamps that are even but for rounding or a jitter of a twentieth of
// the spacing are taken as even; others are interpolated by cubics through four rows at the mean rate. A gap longer than
// the allowed one is refused. Both are stated in a note.
func (r Record) Even(roles []Role, o EvenOptions) (Series, error) {
	s := Series{Name: r.Name, Invented: r.Invented, Notes: r.Notes[:len(r.Notes):len(r.Notes)], Kind: kindOf(roles)}
	if len(r.Time) < 2 {
		return s, Problems{{File: r.Name, Column: string(Time), Text: "the record has no times; name the time column or give the rate in rows a second"}}
	}
	step, err := r.step(o)
	if err != nil {
		return s, err
	}
	if n := r.Time[len(r.Time)-1] / step; n > 20*float64(len(r.Time)) {
		return s, Problems{{File: r.Name, Column: string(Time), Text: fmt.Sprintf("%d rows are too few for the %.0f even ones that their times ask for; use the part between gaps", len(r.Time), n)}}
	}
	even, worst := r.isEven(&step)
	for _, role := range roles {
		c, ok := r.Column(role)
		if !ok || c.Values == nil {
			return s, Problems{{File: r.Name, Column: string(role), Text: "the record has no such column; name the column that holds it"}}
		}
		v := c.Values
		if !even {
			v = resample(r.Time, v, step)
		}
		s.Axes, s.Names, s.Unit = append(s.Axes, v), append(s.Names, string(role)), c.Unit
	}
	how := fmt.Sprintf("evenly spaced, %.6g rows a second", 1/step)
	if !even {
		how = fmt.Sprintf("unevenly spaced by up to %.2g of a row, so resampled to %.6g rows a second", worst, 1/step)
	}
	s.Rate = 1 / step
	s.Notes = append(s.Notes, Note{string(Time), how})
	return s, nil
}

// step returns the mean spacing outside gaps, or tells that a gap is too long.
func (r Record) step(o EvenOptions) (float64, error) {
	usual, gap := medianStep(r.Time), o.Gap
	if gap == 0 {
		gap = 5
	}
	gap = max(gap, 2)
	gaps, longest, at, sum, n := 0, 0., 0, 0., 0
	for i := 1; i < len(r.Time); i++ {
		d := r.Time[i] - r.Time[i-1]
		if d > gap*usual {
			if gaps++; d > longest {
				longest, at = d, i
			}
		}
		if d < 2.5*usual {
			sum, n = sum+d, n+1
		}
	}
	if gaps > 0 {
		return 0, Problems{{File: r.Name, Line: r.Lines[at], Column: string(Time), Value: fmt.Sprintf("%.4g s", longest),
			Text: fmt.Sprintf("%d gaps in the record are longer than %.3g rows, the longest %.4g s before this line; use the part between gaps, or log slower than the device can write",
				gaps, gap, longest)}}
	}
	return sum / float64(n), nil
}

// isEven says whether row i stands at i steps but for rounding or a small jitter, and by how many steps it misses at worst.
// It corrects the step to the mean of the whole record when so.
func (r Record) isEven(step *float64) (bool, float64) {
	n := len(r.Time)
	mean := (r.Time[n-1] - r.Time[0]) / float64(n-1)
	if math.Abs(mean / *step - 1) > .02 { // rows are missing
		return false, math.Abs(mean / *step - 1) * float64(n)
	}
	low, high := 0., 0.
	for i, t := range r.Time {
		d := t - float64(i)*mean
		low, high = min(low, d), max(high, d)
	}
	worst := (high - low) / 2 / mean
	if worst <= .05 || high-low <= 1.01*r.grain() {
		*step = mean
		return true, worst
	}
	return false, worst
}

// grain is the step to which the stamps are rounded, 1 ms down to 1 us, 0 for finer.
func (r Record) grain() float64 {
	for _, g := range []float64{1e-2, 1e-3, 1e-4, 1e-5, 1e-6} {
		round := true
		for _, t := range r.Time {
			if q := t / g; math.Abs(q-math.Round(q)) > 1e-3 {
				round = false
				break
			}
		}
		if round {
			return g
		}
	}
	return 0
}

// resample interpolates v at even steps with the cubic through the four nearest times.
func resample(t, v []float64, step float64) []float64 {
	n := int(t[len(t)-1]/step+1e-9) + 1
	out := make([]float64, n)
	j := 0
	for i := range out {
		x := float64(i) * step
		for j < len(t)-2 && t[j+1] <= x {
			j++
		}
		from := min(max(j-1, 0), max(len(t)-4, 0))
		to := min(from+4, len(t))
		for a := from; a < to; a++ {
			w := v[a]
			for b := from; b < to; b++ {
				if b != a {
					w *= (x - t[b]) / (t[a] - t[b])
				}
			}
			out[i] += w
		}
	}
	return out
}

func kindOf(roles []Role) Kind {
	if len(roles) == 0 {
		return Other
	}
	switch roles[0] {
	case AccX, AccY, AccZ:
		return Acceleration
	case GyroX, GyroY, GyroZ:
		return Rotation
	case Sound:
		return Audio
	}
	return Other
}
