package vibration_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"

	"gonum.org/v1/gonum/mat"
)

// decay is one oscillation set off at 1 s, amplitude 1, in white noise.
type decay struct {
	hz, zeta, noise, rate, seconds float64
	seed                           uint64
}

func (d decay) series() record.Series {
	random := rand.New(rand.NewPCG(d.seed, 77))
	x := make([]float64, int(d.seconds*d.rate))
	phase := random.Float64() * 2 * math.Pi
	for i := range x {
		x[i] = d.noise * random.NormFloat64()
		if t := float64(i)/d.rate - 1; t >= 0 {
			x[i] += math.Exp(-d.zeta*2*math.Pi*d.hz*t) * math.Cos(2*math.Pi*d.hz*math.Sqrt(1-d.zeta*d.zeta)*t+phase)
		}
	}
	return record.Series{Rate: d.rate, Axes: [][]float64{x}, Names: []string{"acc x"}, Kind: record.Acceleration}
}

// bound returns the Cramér-Rao bounds on the standard deviations of frequency in Hz and of damping: the inverse of the whole
// Fisher matrix of amplitude, decay, frequency and phase for a decaying oscillation in white noise of known strength, summed
// over the samples. Source: Kay, Fundamentals of Statistical Signal Processing: Estimation Theory, 1993, chapter 3
// (from memory).
func (d decay) bound() (hz, zeta float64) {
	w := 2 * math.Pi * d.hz
	alpha := d.zeta * w
	f := mat.NewSymDense(4, nil)
	for i := range int((d.seconds - 1) * d.rate) {
		t := float64(i) / d.rate
		e, sin, cos := math.Exp(-alpha*t), math.Sin(w*t+1), math.Cos(w*t+1)
		g := [4]float64{e * cos, -t * e * cos, -t * e * sin, -e * sin}
		for a := range 4 {
			for b := a; b < 4; b++ {
				f.SetSym(a, b, f.At(a, b)+g[a]*g[b]/(d.noise*d.noise))
			}
		}
	}
	var inverse mat.Dense
	if err := inverse.Inverse(f); err != nil {
		panic(err)
	}
	return math.Sqrt(inverse.At(2, 2)) / (2 * math.Pi), math.Sqrt(inverse.At(1, 1)) / w
}

// Frequency and damping of known decays are missed, over 30 seeds, by no more than a small multiple of the bound: the first
// 6 ms cost an eighth to a third of the amplitude and the root of 30 squares scatters by an eighth. The line through the
// logarithm of the filtered amplitude waits for the filter too, at damping .05 until half the amplitude is gone.
func TestTapNearTheBound(t *testing.T) {
	for _, d := range []decay{
		{hz: 108, zeta: .03, noise: .02, rate: 1000},
		{hz: 108, zeta: .03, noise: .08, rate: 1000},
		{hz: 164, zeta: .05, noise: .03, rate: 2000},
		{hz: 72, zeta: .01, noise: .1, rate: 500},
		{hz: 240, zeta: .02, noise: .1, rate: 44100},
	} {
		t.Run(fmt.Sprintf("%g Hz, damping %g, noise %g", d.hz, d.zeta, d.noise), func(t *testing.T) {
			d.seconds = 3
			var hz, zeta, half, said float64
			const n = 30
			for seed := range uint64(n) {
				d.seed = seed
				r, err := vibration.Tap(d.series(), []vibration.Mode{{Name: "bending", Hz: d.hz * 1.1}}, vibration.TapOptions{})
				if err != nil {
					t.Fatalf("seed %d: %v", seed, err)
				}
				if len(r.Taps) != 1 || math.Abs(r.Taps[0].At-1) > .05 { // noise may make a crest some periods later the highest
					t.Errorf("seed %d: taps %+v, want one at 1 s", seed, r.Taps)
				}
				hz += sq(r.Hz-d.hz*math.Sqrt(1-d.zeta*d.zeta)) / n
				zeta += sq(r.Decay-d.zeta) / n
				half += sq(r.HalfPower-d.zeta) / n
				said += sq(r.Noise) / n
			}
			boundHz, boundZeta := d.bound()
			t.Logf("frequency %.4f Hz, bound %.4f, said %.4f; damping %.5f and half-power %.5f, bound %.5f",
				math.Sqrt(hz), boundHz, math.Sqrt(said), math.Sqrt(zeta), math.Sqrt(half), boundZeta)
			if got := math.Sqrt(hz) / boundHz; got > 2 {
				t.Errorf("frequency is missed by %.2f bounds, want 2 at most", got)
			}
			if got := math.Sqrt(zeta) / boundZeta; got > 6 {
				t.Errorf("damping from the decay is missed by %.2f bounds, want 6 at most", got)
			}
			if got := math.Sqrt(half) / d.zeta; got > .25 {
				t.Errorf("damping from half power is missed by %.0f %%, want 25 at most", 100*got)
			}
			if got := math.Sqrt(hz / said); got > 2 || got < .5 {
				t.Errorf("the stated error is %.2f times too small, want between .5 and 2", got)
			}
		})
	}
}

func sq(x float64) float64 { return x * x }

func TestTapSeveral(t *testing.T) {
	modes := []vibration.Mode{
		{Name: "second bending", Hz: 640, Low: 580, High: 700},
		{Name: "bending fore-aft", Hz: 112, Low: 96, High: 128},
		{Name: "bending sideways", Hz: 118, Low: 101, High: 135},
		{Name: "bending fore-aft", Hz: 150, Low: 140, High: 160, Flying: true},
	}
	for _, c := range []struct {
		name    string
		tap     vibration.InventedTap
		support vibration.Support
		match   string
		inside  bool
		also    int
	}{
		{"held", vibration.InventedTap{Hz: 108, Taps: 5}, vibration.OnBlock, "bending fore-aft", true, 1},
		{"held down", vibration.InventedTap{Hz: 90, Taps: 3}, vibration.HeldDown, "bending fore-aft", false, 0},
		{"flying", vibration.InventedTap{Hz: 144, Taps: 3}, vibration.OnFoam, "bending fore-aft", true, 0},
		{"sound", vibration.InventedTap{Hz: 125, Damping: .04, Sound: true, Taps: 4}, vibration.OnBlock, "bending sideways", true, 1},
		{"jitter", vibration.InventedTap{Hz: 108, Taps: 4, Jitter: .4}, vibration.OnBlock, "bending fore-aft", true, 1},
		{"second mode", vibration.InventedTap{Hz: 108, Taps: 4, Second: 260, SecondBy: .6}, vibration.OnBlock, "bending fore-aft", true, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			if err := c.tap.Write(&b); err != nil {
				t.Fatal(err)
			}
			s, err := record.ReadMotion(strings.NewReader(b.String()), record.Options{})
			if err != nil {
				t.Fatal(err)
			}
			r, err := vibration.Tap(s, modes, vibration.TapOptions{Support: c.support})
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Taps) != c.tap.Taps {
				t.Errorf("%d taps found, want %d", len(r.Taps), c.tap.Taps)
			}
			if math.Abs(r.Hz-c.tap.Hz) > max(2*r.Plus, .3) { // the damped frequency lies .1 Hz lower
				t.Errorf("%.2f ± %.2f Hz, want %v", r.Hz, r.Plus, c.tap.Hz)
			}
			if !r.Matched || r.Match.Mode.Name != c.match || r.Match.Inside != c.inside || len(r.Match.Also) != c.also {
				t.Errorf("match %+v, want %s, inside %v, %d more", r.Match, c.match, c.inside, c.also)
			}
			if want := sq(r.Hz / r.Match.Mode.Hz); math.Abs(r.Match.Factor-want) > 1e-12 || !(r.Match.Low < want && want < r.Match.High) {
				t.Errorf("factor %v (%v to %v), want %v between", r.Match.Factor, r.Match.Low, r.Match.High, want)
			}
			if c.name == "second mode" && (len(r.Spectrum.Peaks) < 2 || math.Abs(r.Spectrum.Peaks[1].Hz-260) > 7.8) { // its half-width at half power
				t.Errorf("peaks %v, want the second at 260 Hz", r.Spectrum.Peaks)
			}
			if n := len(r.Fade.Time); n == 0 || n != len(r.Fade.Line) || n != len(r.Fade.Envelope) {
				t.Errorf("decay of %d points", n)
			}
		})
	}
}

func TestTapRefuses(t *testing.T) {
	modes := []vibration.Mode{{Name: "bending", Hz: 110, Low: 95, High: 125}}
	known := decay{hz: 108, zeta: .03, noise: .02, rate: 1000, seconds: 3}
	twins := known.series()
	other := decay{hz: 128, zeta: .025, noise: .02, rate: 1000, seconds: 3, seed: 4}.series()
	for i, v := range other.Axes[0] {
		twins.Axes[0][i] += v
	}
	slow, short, cut := known, known, known
	slow.rate, short.seconds, cut.seconds = 100, .2, 1.05
	quiet := decay{hz: 1e-9, noise: 1, rate: 1000, seconds: 5}.series() // noise on a step of the mean
	steady := known.series()
	for i := range steady.Axes[0] {
		steady.Axes[0][i] = math.Sin(2 * math.Pi * 108 * float64(i) / 1000)
	}
	thud := decay{hz: 108, zeta: .03, rate: 1000, seconds: 3, seed: 3}.series()
	random := rand.New(rand.NewPCG(6, 6))
	for i := range thud.Axes[0] { // a broad burst of 40 ms, no ringing
		thud.Axes[0][i] = .02 * random.NormFloat64()
		if i >= 1000 && i < 1040 {
			thud.Axes[0][i] *= 10
		}
	}
	for _, c := range []struct {
		name string
		s    record.Series
		o    vibration.TapOptions
		why  vibration.Why
		text string
	}{
		{"a 100 Hz phone log", slow.series(), vibration.TapOptions{}, vibration.TooSlow, "at least 330 are needed"},
		{"two equal peaks", twins, vibration.TapOptions{}, vibration.Ambiguous, "are alike"},
		{"short record", short.series(), vibration.TapOptions{}, vibration.TooShort, "lasts 0.2 s"},
		{"cut after the tap", cut.series(), vibration.TapOptions{}, vibration.TooShort, "too little follows"},
		{"noise alone", quiet, vibration.TapOptions{}, vibration.Nothing, "stands"},
		{"a thud", thud, vibration.TapOptions{}, vibration.Nothing, "stands only"},
		{"a hum", steady, vibration.TapOptions{}, vibration.Nothing, "no tap stands out"},
		{"no such axis", known.series(), vibration.TapOptions{Axis: 2}, vibration.Nothing, "no axis 2"},
		{"empty", record.Series{}, vibration.TapOptions{}, vibration.TooShort, "no samples"},
		{"nothing to search", known.series(), vibration.TapOptions{From: 390}, vibration.TooSlow, "nothing can be searched"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := vibration.Tap(c.s, modes, c.o)
			var refusal vibration.Refusal
			if !errors.As(err, &refusal) {
				t.Fatalf("%.5g Hz, error %v; want a refusal", r.Hz, err)
			}
			if refusal.Why != c.why || !strings.Contains(refusal.Text, c.text) {
				t.Errorf("refusal %d, %q; want %d with %q", refusal.Why, refusal.Text, c.why, c.text)
			}
		})
	}
	// The same twins, with a prediction whose band holds the higher peak alone, are told apart only if it is the first.
	if _, err := vibration.Tap(twins, modes, vibration.TapOptions{To: 115}); err != nil {
		t.Errorf("a narrower range still does not decide: %v", err)
	}
}

// Noise alone is never taken for a mount.
func TestTapNoise(t *testing.T) {
	for seed := range uint64(40) {
		d := decay{hz: 108, zeta: .03, noise: 1, rate: 1000, seconds: 5, seed: seed}
		s := d.series()
		random := rand.New(rand.NewPCG(seed, 5))
		for i := range s.Axes[0] {
			s.Axes[0][i] = random.NormFloat64()
		}
		if r, err := vibration.Tap(s, nil, vibration.TapOptions{}); err == nil {
			t.Errorf("seed %d: %.4g Hz found in noise", seed, r.Hz)
		}
	}
}

func TestSupport(t *testing.T) {
	for _, s := range vibration.Supports() {
		if got, ok := vibration.ParseSupport(s.String()); !ok || got != s {
			t.Errorf("%q reads as %v, %v", s, got, ok)
		}
	}
	if _, ok := vibration.ParseSupport("in the air"); ok {
		t.Error("an unknown support is accepted")
	}
	if !vibration.OnBlock.Modulus() || vibration.OnFoam.Modulus() || vibration.HeldDown.Modulus() {
		t.Error("the modulus may be corrected from a block alone")
	}
}
