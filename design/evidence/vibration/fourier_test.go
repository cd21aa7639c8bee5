package vibration

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

func TestPowerAgainstDirectSum(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	x := make([]float64, 50)
	for i := range x {
		x[i] = random.NormFloat64()
	}
	const n = 64
	for k, got := range power(x, n) {
		sum := complex128(0)
		for i, v := range x {
			sum += complex(v, 0) * cmplx.Exp(complex(0, -2*math.Pi*float64(k*i)/n))
		}
		if want := real(sum)*real(sum) + imag(sum)*imag(sum); math.Abs(got-want) > 1e-10 {
			t.Errorf("point %d: got %g, want %g", k, got, want)
		}
	}
}

func tone(n int, rate, hz, amplitude float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = 5 + amplitude*math.Sin(2*math.Pi*hz*float64(i)/rate)
	}
	return x
}

// A tone inside the band comes through unchanged at the lower rate, one outside and the mean do not.
func TestBand(t *testing.T) {
	for _, c := range []struct{ hz, want float64 }{{100, 1}, {200, 1}, {10, 0}, {600, 0}} {
		y, rate := band(tone(44100, 44100, c.hz, 1), 44100, 50, 300)
		if rate != 44100./16 {
			t.Fatalf("rate %g, want 44100/16: the lowest with 1800 a second", rate)
		}
		worst := 0.
		for i := len(y) / 4; i < len(y)*3/4; i++ {
			worst = max(worst, math.Abs(y[i]-c.want*math.Sin(2*math.Pi*c.hz*float64(i)/rate)))
		}
		if worst > .01 { // the ends of the record, half a second away, ring by a hundredth
			t.Errorf("%g Hz is missed by %g", c.hz, worst)
		}
	}
}

func TestEnvelope(t *testing.T) {
	// A bell of standard width 10 Hz passes a tone 10 Hz beside its middle with e^(−1/2).
	for _, c := range []struct{ hz, want float64 }{{100, 2}, {110, 2 * math.Exp(-.5)}} {
		x := tone(1000, 1000, c.hz, 2)
		for i := range x {
			x[i] -= 5
		}
		if got := envelope(x, 1000, 100, 10)[500]; math.Abs(got-c.want) > 2e-3 {
			t.Errorf("%g Hz: got %g, want %g", c.hz, got, c.want)
		}
	}
}

func TestParabola(t *testing.T) {
	p := make([]float64, 9)
	for k := range p {
		p[k] = 3 * math.Exp(-math.Pow(float64(k)-4.3, 2)/5)
	}
	at, height := parabola(p, 4)
	if math.Abs(at-4.3) > 1e-12 || math.Abs(height-3) > 1e-12 {
		t.Errorf("got %g at %g, want 3 at 4.3: the logarithm of a bell is a parabola", height, at)
	}
}
