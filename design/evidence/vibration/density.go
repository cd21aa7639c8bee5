package vibration

import (
	"math"
	"slices"
)

// density is the mean one-sided power density of a record in overlapping, bell-shaped windows.
type density struct {
	step  float64   // Hz between points
	total []float64 // sum over the axes, square of the unit per Hz
	axes  [][]float64
	each  [][]float64 // total of each used window
	looks float64     // independent windows, about
	left  int         // windows left out as unlike the others
}

// densityOf takes windows of size samples that overlap by half, leaves out those whose strength is less than .4 or more than
// 2.5 of the median, and averages. Source of the method: Welch, IEEE Transactions on Audio and Electroacoustics 15, 1967.
func densityOf(axes [][]float64, rate float64, size int) density {
	bell := make([]float64, size)
	weight := 0.
	for i := range bell {
		s := math.Sin(math.Pi * (float64(i) + .5) / float64(size))
		bell[i] = s * s
		weight += bell[i] * bell[i]
	}
	d := density{step: rate / float64(size)}
	var parts [][][]float64 // window, axis, point
	var strength []float64
	room := make([]float64, size)
	for from := 0; from+size <= len(axes[0]); from += size / 2 {
		var window [][]float64
		sum := 0.
		for _, x := range axes {
			mean := 0.
			for _, v := range x[from : from+size] {
				mean += v / float64(size)
			}
			for i, v := range x[from : from+size] {
				room[i] = (v - mean) * bell[i]
				sum += room[i] * room[i]
			}
			p := power(room, size)
			for k := range p {
				p[k] *= 2 / (rate * weight)
			}
			window = append(window, p)
		}
		parts, strength = append(parts, window), append(strength, math.Sqrt(sum))
	}
	order := slices.Sorted(slices.Values(strength))
	usual := order[len(order)/2]
	d.total = make([]float64, size/2+1)
	d.axes = make([][]float64, len(axes))
	for a := range d.axes {
		d.axes[a] = make([]float64, size/2+1)
	}
	for i, window := range parts {
		if strength[i] < .4*usual || strength[i] > 2.5*usual {
			d.left++
			continue
		}
		sum := make([]float64, size/2+1)
		for a, p := range window {
			for k, v := range p {
				sum[k] += v
				d.axes[a][k] += v
			}
		}
		for k, v := range sum {
			d.total[k] += v
		}
		d.each = append(d.each, sum)
	}
	n := float64(len(d.each))
	for k := range d.total {
		d.total[k] /= n
		for a := range d.axes {
			d.axes[a][k] /= n
		}
	}
	d.looks = max(1, n*.55) // windows that overlap by half share what they see
	return d
}

// floor is the median of the density around each point, 15 Hz or a seventh of the frequency to both sides: what lies under
// lines.
func (d density) floor() []float64 {
	f := make([]float64, len(d.total))
	const nodes = 1.02
	at, value := []int{}, []float64{}
	for k := 1.; int(k) < len(d.total); k = max(k+1, k*nodes) {
		half := int(max(15/d.step, k/7))
		order := slices.Sorted(slices.Values(d.total[max(int(k)-half, 1):min(int(k)+half+1, len(d.total))]))
		at, value = append(at, int(k)), append(value, order[len(order)/2]+1e-30)
	}
	j := 0
	for k := range f {
		for j < len(at)-2 && at[j+1] < k {
			j++
		}
		t := min(max(float64(k-at[j])/float64(at[j+1]-at[j]), 0), 1)
		f[k] = value[j]*(1-t) + value[j+1]*t
	}
	return f
}

// rms is the root of the power of one density between two frequencies.
func (d density) rms(p []float64, from, to float64) float64 {
	sum := 0.
	for k := int(math.Ceil(from / d.step)); k <= min(int(to/d.step), len(p)-1); k++ {
		sum += p[k] * d.step
	}
	return math.Sqrt(sum)
}
