package vibration

import (
	"math"
	"slices"
)

// Strike is one tap and what rang after it.
type Strike struct {
	At        float64 // s from the start of the record
	Seconds   float64 // of ringing that was looked at
	Hz        float64
	Amplitude float64 // at the start of the ringing, in the record's unit
	HalfPower float64 // damping from the width at half power; 0 when the width was not found
	Decay     float64 // damping from the decay; 0 when too little of it stood above the noise
	Above     float64 // dB of the peak over the noise
	Noise     float64 // Hz, standard error of Hz from the noise
	Used      bool    // in the mean; else it was too weak, too short or of another frequency
	Why       string  // not used, in words

	from, to int     // samples of the ringing
	room     float64 // s until the next tap or the end of the record
}

const (
	deadTime = .12 // s after a tap in which no other is looked for
	contact  = .006
	longRing = 1.5 // s of ringing looked at, at most
)

// strikes finds taps in signals that hold the searched band only: blocks of half the longest period, 10 ms at
// least, whose energy rises to three times that of the blocks before and stands ten times over the median of all and at a
// twenty-fifth of the strongest at least.
func strikes(axes [][]float64, rate, from, skip float64) []Strike {
	size := max(int(max(.01, .5/from)*rate), 4)
	n := len(axes[0]) / size
	energy := make([]float64, n)
	for b := range energy {
		for _, x := range axes {
			for _, v := range x[b*size : (b+1)*size] {
				energy[b] += v * v
			}
		}
	}
	if n < 4 {
		return nil
	}
	order := slices.Sorted(slices.Values(energy))
	least := max(10*order[n/2], .04*order[n-1])
	var found []Strike
	for b := 2; b < n; b++ {
		before := energy[b-2]
		if b > 2 {
			before = max(before, energy[b-3])
		}
		at := float64(b*size) / rate
		if !(energy[b] > least && energy[b] > 3*before) || len(found) > 0 && at-found[len(found)-1].At < deadTime {
			continue
		}
		top, best := b*size, 0.
		for i := b * size; i < min((b+3)*size, len(axes[0])); i++ {
			sum := 0.
			for _, x := range axes {
				sum += x[i] * x[i]
			}
			if sum > best {
				top, best = i, sum
			}
		}
		found = append(found, Strike{At: float64(top) / rate, from: top + int(math.Ceil(skip*rate))})
	}
	for i := range found {
		end := len(axes[0])
		if i+1 < len(found) {
			end = int((found[i+1].At - .02) * rate)
		}
		f := &found[i]
		end = max(min(end, f.from+int(longRing*rate)), f.from)
		f.room = float64(end-f.from) / rate
		f.to = min(end, faded(energy, f.from/size, 2*order[n/2])*size)
		f.Seconds = float64(f.to-f.from) / rate
	}
	return found
}

// faded is the block at which ringing that begins at a block has long sunk into the noise: twice as far as it takes for two blocks
// together to fall below a level, and 150 ms at least.
func faded(energy []float64, from int, level float64) int {
	b := from + 1
	for b < len(energy)-1 && (energy[b] > level || energy[b+1] > level) {
		b++
	}
	return max(from+2*(b-from), from+15)
}

// taper falls as half a cosine over the last third of a window, so that its end rings in no spectrum.
func taper(i, n int) float64 {
	return 1 - edge(float64(i)/float64(n), .67, 1)
}

// quiet returns the one-sided density of the noise around f, mean of the axes, in the square of the record's unit per Hz, from
// the stretches just before the taps: the lowest of them, since some hold the end of the ringing before.
func quiet(axes [][]float64, rate float64, taps []Strike, f float64) float64 {
	density := math.Inf(1)
	for i, t := range taps {
		to := int((t.At - .015) * rate)
		from := max(to-int(.5*rate), 0)
		if i > 0 {
			from = max(from, (taps[i-1].from+to)/2)
		}
		if to-from < int(4*rate/f) {
			continue
		}
		density = min(density, densityAround(axes, rate, from, to, f))
	}
	if math.IsInf(density, 1) { // no tap has a stretch before it: the last fifth of the last ringing
		t := taps[len(taps)-1]
		density = densityAround(axes, rate, t.to-(t.to-t.from)/5, t.to, f)
	}
	return density
}

func densityAround(axes [][]float64, rate float64, from, to int, f float64) float64 {
	n := to - from
	if n < 4 {
		return 0
	}
	w := make([]float64, n)
	sum, count := 0., 0
	for _, x := range axes {
		weight := 0.
		for i := range w {
			h := math.Sin(math.Pi * (float64(i) + .5) / float64(n))
			w[i] = x[from+i] * h * h
			weight += h * h * h * h
		}
		size := powerOfTwo(4 * n)
		p := power(w, size)
		for k := max(int(.6*f*float64(size)/rate), 1); k <= min(int(1.5*f*float64(size)/rate), len(p)-1); k++ {
			sum += 2 * p[k] / (rate * weight)
			count++
		}
	}
	return sum / float64(max(count, 1))
}
