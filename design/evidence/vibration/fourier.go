package vibration

import (
	"math"
	"math/bits"

	"gonum.org/v1/gonum/dsp/fourier"
)

// powerOfTwo is the smallest power of two not below n.
func powerOfTwo(n int) int { return 1 << bits.Len(uint(max(n, 1)-1)) }

// power returns |Σ x e^(−iωt)|² of x, lengthened by zeros to n samples, at the frequencies k·rate/n, k 0 to n/2.
func power(x []float64, n int) []float64 {
	room := make([]float64, n)
	copy(room, x)
	c := fourier.NewFFT(n).Coefficients(nil, room)
	p := make([]float64, len(c))
	for k, z := range c {
		p[k] = real(z)*real(z) + imag(z)*imag(z)
	}
	return p
}

// band returns x without its mean and without what lies outside from to to, in Hz, with soft edges, at the lowest rate, by
// halving, that keeps six samples a period.
func band(x []float64, rate, from, to float64) ([]float64, float64) {
	n := powerOfTwo(len(x) + int(.2*rate))
	room := make([]float64, n)
	mean := 0.
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for i, v := range x {
		room[i] = v - mean
	}
	c := fourier.NewFFT(n).Coefficients(nil, room)
	for k := range c {
		f := float64(k) * rate / float64(n)
		c[k] *= complex(edge(f/from, .6, 1)*(1-edge(f/to, 1, 1.25)), 0)
	}
	m, length := n, len(x)
	for m > 64 && rate/2 >= 6*to {
		m, rate, length = m/2, rate/2, length/2
	}
	y := fourier.NewFFT(m).Sequence(nil, c[:m/2+1])[:length]
	for i := range y {
		y[i] /= float64(n)
	}
	return y, rate
}

// edge rises from 0 below a to 1 above b as half a cosine.
func edge(x, a, b float64) float64 {
	return (1 - math.Cos(math.Pi*min(max((x-a)/(b-a), 0), 1))) / 2
}

// envelope returns the amplitude of x around f, in Hz, through a bell-shaped filter of the given standard width in Hz.
func envelope(x []float64, rate, f, width float64) []float64 {
	n := powerOfTwo(len(x) + int(rate/width))
	room := make([]complex128, n)
	for i, v := range x {
		room[i] = complex(v, 0)
	}
	t := fourier.NewCmplxFFT(n)
	c := t.Coefficients(nil, room)
	for k := range c {
		d := float64(k)*rate/float64(n) - f
		if k > n/2 {
			c[k] = 0
			continue
		}
		c[k] *= complex(2*math.Exp(-d*d/(2*width*width))/float64(n), 0)
	}
	z := t.Sequence(nil, c)
	e := make([]float64, len(x))
	for i := range e {
		e[i] = math.Hypot(real(z[i]), imag(z[i]))
	}
	return e
}
