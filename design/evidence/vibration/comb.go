package vibration

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mastwright/design/evidence/record"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// comb looks for the lines of rotors in a density.
type comb struct {
	d        density
	above    []float64 // dB over the floor
	least    float64   // dB that a line has to stand out
	blades   float64
	from, to float64 // rev/s
	told     bool    // the range was given
	rate     float64
}

const (
	unlike  = 1. / 6 // part of the speed within which rotors of one aircraft may differ
	as      = .8     // share of the best comb's height at which another makes the answer doubtful
	tallest = 20.    // dB to which a line counts
	alone   = 6.     // dB by which a line that stands alone has to pass the least
)

// leastOf is the excess in dB that noise alone passes at one point in a hundred thousand: a density of so many looks is spread
// as chi-square with twice as many degrees of freedom, and the floor is its median.
func leastOf(looks float64) float64 {
	spread := distuv.ChiSquared{K: 2 * looks}
	return 10 * math.Log10(spread.Quantile(1-1e-5)/spread.Quantile(.5))
}

// lines are the harmonics of the comb and what each counts.
func (c comb) lines() [4][2]float64 {
	return [4][2]float64{{1, 1}, {c.blades, 1}, {2 * c.blades, .5}, {3 * c.blades, .3}}
}

// at is the greatest excess within .4 % of a frequency, 0 beyond what was sampled or below the least.
func (c comb) at(hz float64) float64 {
	low, high := int(math.Floor(hz*.996/c.d.step)), int(math.Ceil(hz*1.004/c.d.step))
	if hz > .475*c.rate || high >= len(c.above) {
		return 0
	}
	e := slices.Max(c.above[low : high+1])
	if e < c.least {
		return 0
	}
	return min(e, tallest)
}

// height is how high the comb of a speed stands and how many of its lines; it needs the blade-pass line where it was sampled.
func (c comb) height(speed float64) (sum float64, lines int) {
	for _, l := range c.lines() {
		e := c.at(l[0] * speed)
		if e > 0 {
			lines++
			sum += l[1] * e
		}
		if l[0] == c.blades && e == 0 && speed*c.blades <= .475*c.rate {
			return 0, 0
		}
	}
	return sum, lines
}

func (c comb) find() (float64, error) {
	type candidate struct{ speed, sum float64 }
	var all []candidate
	most := 0
	for v := c.from; v <= min(c.to, .475*c.rate); v *= 1.001 {
		sum, lines := c.height(v)
		most = max(most, lines)
		if lines >= 2 || lines == 1 && c.told && sum >= c.least+alone {
			all = append(all, candidate{v, sum})
		}
	}
	if len(all) == 0 {
		if most > 0 {
			return 0, refuse(Nothing, "single lines stand out, but none with its blade-pass between %.3g and %.3g rev/s; check the number of blades, hover steadily, or give the expected speed", c.from, c.to)
		}
		return 0, refuse(Nothing, "no line of a rotor stands out between %.3g and %.3g rev/s; record a longer steady hover, fix the sensor firmly, or hold the microphone closer", c.from, c.to)
	}
	best := slices.MaxFunc(all, func(a, b candidate) int { return cmp.Compare(a.sum, b.sum) })
	for _, o := range all {
		if math.Abs(o.speed/best.speed-1) > unlike && o.sum >= as*best.sum {
			return 0, refuse(Ambiguous, "%.4g and %.4g rev/s fit about as well; give a narrower range for the expected speed, or check the number of blades", best.speed, o.speed)
		}
	}
	return best.speed, nil
}

// rotors finds the single speeds around the best one.
func (c comb) rotors(r *Turning, best float64, most int) {
	harmonic := c.blades
	if best*(1+unlike)*c.blades > .475*c.rate {
		harmonic = 1
		r.Notes = append(r.Notes, record.Note{About: "hover", Text: "blade-pass lies above what was sampled; the speed rests on the once-per-rev line alone"})
	}
	from, to := int(best*(1-unlike)*harmonic/c.d.step), int(best*(1+unlike)*harmonic/c.d.step)
	at := peaks(c.d.total, from, to, 1.6)
	var strongest float64
	for _, k := range at {
		point, _ := parabola(c.d.total, k)
		hz := point * c.d.step
		if len(r.Rotors) > 0 && c.above[k] < strongest-15 || c.above[k] < c.least || len(r.Rotors) == most {
			continue
		}
		strongest = max(strongest, c.above[k])
		speed := hz / harmonic
		once, pass := c.at(speed), c.at(c.blades*speed)
		r.Rotors = append(r.Rotors, Rotor{Speed: speed, Once: once, Pass: pass})
		r.Spectrum.Peaks = append(r.Spectrum.Peaks, Peak{Hz: hz, Level: math.Pow(10, (c.above[k]-strongest)/20), Above: c.above[k]})
		if once > 0 && harmonic != 1 {
			r.Spectrum.Peaks = append(r.Spectrum.Peaks, Peak{Hz: speed, Level: math.Pow(10, (once-strongest)/20), Above: once})
		}
	}
	slices.SortFunc(r.Rotors, func(a, b Rotor) int { return cmp.Compare(a.Speed, b.Speed) })
	slices.SortStableFunc(r.Spectrum.Peaks, func(a, b Peak) int { return cmp.Compare(b.Above, a.Above) })
	speeds := make([]float64, len(r.Rotors))
	for i, v := range r.Rotors {
		speeds[i] = v.Speed
	}
	r.Speed, r.Low, r.High = stat.Mean(speeds, nil), speeds[0], speeds[len(speeds)-1]
	doubt := c.drift(r.Low*harmonic, r.High*harmonic) / harmonic
	doubt = math.Hypot(doubt, c.d.step/harmonic/2)
	if len(speeds) < most {
		r.Notes = append(r.Notes, record.Note{About: "hover", Text: fmt.Sprintf("%d of %d rotors show a line of their own; the others turn at nearly the same speeds or are too quiet", len(speeds), most)})
		doubt = math.Hypot(doubt, (r.High-r.Low)/math.Sqrt(12))
	}
	r.Plus = 1.96 * doubt
}

// drift is the standard error, in Hz, of the middle of the lines between two frequencies, from how it moves from window to
// window.
func (c comb) drift(low, high float64) float64 {
	floor := c.d.floor()
	from, to := max(int(low*.985/c.d.step), 1), min(int(high*1.015/c.d.step)+1, len(floor)-1)
	var middles []float64
	for _, p := range c.d.each {
		sum, moment := 0., 0.
		for k := from; k <= to; k++ {
			if e := p[k] - 4*floor[k]; e > 0 {
				sum, moment = sum+e, moment+e*float64(k)*c.d.step
			}
		}
		if sum > 0 {
			middles = append(middles, moment/sum)
		}
	}
	if len(middles) < 2 {
		return (high - low) / 2
	}
	return stat.StdDev(middles, nil) / math.Sqrt(c.d.looks)
}
