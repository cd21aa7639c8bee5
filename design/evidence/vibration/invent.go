package vibration

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"

	"mastwright/design/evidence/record"
)

// invented begins the first comment of every file made here.
const invented = record.InventedMark + ": made up for trying out, not measured"

// InventedTap describes a record of taps to make up: decaying oscillations in white noise. It is the same for the same
// description.
type InventedTap struct {
	Hz        float64 // 0 means 108
	Damping   float64 // part of critical, 0 means .03
	Second    float64 // Hz of a second mode, 0 for none
	SecondBy  float64 // its amplitude, part of the first's; 0 means .3
	Taps      int     // 0 means 4
	Rate      float64 // samples a second; 0 means 1000, 44100 for sound
	Amplitude float64 // 0 means 20 m/s², or .3 of full scale for sound
	Noise     float64 // standard deviation of each sample; 0 means a fiftieth of the amplitude, below 0 none
	Sound     bool    // a sound; else acceleration on three axes in m/s² with gravity along z
	Jitter    float64 // of the times, part of the spacing
	Seed      uint64
}

func (t InventedTap) whole() InventedTap {
	or := func(v *float64, d float64) {
		if *v == 0 {
			*v = d
		}
	}
	or(&t.Hz, 108)
	or(&t.Damping, .03)
	or(&t.SecondBy, .3)
	if t.Taps == 0 {
		t.Taps = 4
	}
	if t.Sound {
		or(&t.Rate, 44100)
		or(&t.Amplitude, .3)
	}
	or(&t.Rate, 1000)
	or(&t.Amplitude, 20)
	or(&t.Noise, t.Amplitude/50)
	t.Noise = max(t.Noise, 0)
	return t
}

// Times returns the moments of the samples in s: a quiet second, then 1.1 s for each tap.
func (t InventedTap) Times() []float64 {
	t = t.whole()
	random := rand.New(rand.NewPCG(t.Seed, 1))
	times := make([]float64, int((1+1.1*float64(t.Taps))*t.Rate))
	for i := range times {
		times[i] = (float64(i) + t.Jitter*(random.Float64()-.5)) / t.Rate
	}
	return times
}

// Series returns the record.
func (t InventedTap) Series() record.Series {
	times := t.Times()
	t = t.whole()
	random := rand.New(rand.NewPCG(t.Seed, 2))
	s := record.Series{Name: "invented tap", Rate: t.Rate, Kind: record.Acceleration, Unit: "m/s^2", Invented: true,
		Names: []string{string(record.AccX), string(record.AccY), string(record.AccZ)}}
	share := []float64{1, .35, .1}
	offset := []float64{.1, -.2, 9.81}
	if t.Sound {
		s.Kind, s.Unit, s.Names, share, offset = record.Audio, "of full scale", []string{string(record.Sound)}, []float64{1}, []float64{0}
	}
	for a := range share {
		x := make([]float64, len(times))
		for i, now := range times {
			x[i] = offset[a] + t.Noise*random.NormFloat64()
			for k := range t.Taps {
				since := now - 1 - 1.1*float64(k)
				if since < 0 {
					break
				}
				by := t.Amplitude * share[a] * (1 - .1*float64(k%3))
				x[i] += by * ring(t.Hz, t.Damping, since)
				if t.Second > 0 {
					x[i] += by * t.SecondBy * ring(t.Second, t.Damping, since)
				}
			}
		}
		s.Axes = append(s.Axes, x)
	}
	return s
}

func ring(hz, damping, since float64) float64 {
	w := 2 * math.Pi * hz
	return math.Exp(-damping*w*since) * math.Sin(w*math.Sqrt(1-damping*damping)*since)
}

// Write writes the record as a file of the kind it came from: a table for acceleration, WAV for sound.
func (t InventedTap) Write(w io.Writer) error {
	s := t.Series()
	t = t.whole()
	comment := fmt.Sprintf("%s. %d taps of a mount that rings at %g Hz with damping %g", invented, t.Taps, t.Hz, t.Damping)
	return writeInvented(w, s, t.Times(), comment)
}

func writeInvented(w io.Writer, s record.Series, times []float64, comment string) error {
	if s.Kind == record.Audio {
		return record.WriteWAV(w, s, comment)
	}
	return record.WriteTable(w, comment, append([]string{"time (s)"}, units(s)...), append([][]float64{times}, s.Axes...))
}

func units(s record.Series) []string {
	names := make([]string, len(s.Names))
	for i, n := range s.Names {
		names[i] = n + " (" + s.Unit + ")"
	}
	return names
}

// InventedHover describes a record of a steady hover to make up: each rotor's once-per-rev, blade-pass and two overtones,
// wandering a little, over noise. It is the same for the same description.
type InventedHover struct {
	Speeds  []float64 // rev/s of the rotors; nil means 71, 74, 76.5 and 79
	Blades  int       // 0 means 3
	Rate    float64   // samples a second; 0 means 1000, 44100 for sound
	Seconds float64   // 0 means 12
	Once    float64   // amplitude of once-per-rev, m/s² or part of full scale; 0 means 2, or .02 for sound; below 0 none
	Pass    float64   // amplitude of blade-pass; 0 means 1, or .05 for sound; below 0 none
	Noise   float64   // standard deviation of each sample; 0 means .8, or .05 for sound
	Wander  float64   // standard deviation of the speeds, part of them; 0 means .003
	Sound   bool      // a sound; else acceleration on three axes in m/s² with gravity along z
	Seed    uint64
}

func (h InventedHover) whole() InventedHover {
	or := func(v *float64, d, sound float64) {
		if *v == 0 {
			*v = d
			if h.Sound {
				*v = sound
			}
		}
	}
	if h.Speeds == nil {
		h.Speeds = []float64{71, 74, 76.5, 79}
	}
	if h.Blades == 0 {
		h.Blades = 3
	}
	or(&h.Rate, 1000, 44100)
	or(&h.Seconds, 12, 12)
	or(&h.Once, 2, .02)
	or(&h.Pass, 1, .05)
	or(&h.Noise, .8, .05)
	or(&h.Wander, .003, .003)
	h.Once, h.Pass = max(h.Once, 0), max(h.Pass, 0)
	return h
}

// Series returns the record.
func (h InventedHover) Series() record.Series {
	h = h.whole()
	n := int(h.Seconds * h.Rate)
	s := record.Series{Name: "invented hover", Rate: h.Rate, Kind: record.Acceleration, Unit: "m/s^2", Invented: true,
		Names: []string{string(record.AccX), string(record.AccY), string(record.AccZ)}}
	offset := []float64{.2, -.1, 9.81}
	if h.Sound {
		s.Kind, s.Unit, s.Names, offset = record.Audio, "of full scale", []string{string(record.Sound)}, []float64{0}
	}
	random := rand.New(rand.NewPCG(h.Seed, 3))
	for a := range offset {
		x := make([]float64, n)
		for i := range x {
			x[i] = offset[a] + h.Noise*random.NormFloat64()
		}
		s.Axes = append(s.Axes, x)
	}
	for _, speed := range h.Speeds {
		drift, turn := 0., 2*math.Pi*random.Float64()
		keep := math.Exp(-1 / (.5 * h.Rate)) // the speed forgets its past in half a second
		kick := h.Wander * math.Sqrt(1-keep*keep)
		lead := []float64{0, math.Pi / 2, 1}
		for i := range n {
			drift = keep*drift + kick*random.NormFloat64()
			turn += 2 * math.Pi * speed * (1 + drift) / h.Rate
			b := float64(h.Blades) * turn
			for a := range s.Axes {
				once, pass := h.Once, h.Pass*.3
				if a == 2 || h.Sound {
					once, pass = h.Once*.2, h.Pass
				}
				if h.Sound {
					once = h.Once
				}
				if speed*float64(3*h.Blades) < h.Rate/2 {
					s.Axes[a][i] += pass * .15 * math.Sin(3*b+lead[a])
				}
				if speed*float64(2*h.Blades) < h.Rate/2 {
					s.Axes[a][i] += pass * .4 * math.Sin(2*b+lead[a])
				}
				s.Axes[a][i] += once*math.Sin(turn+lead[a]) + pass*math.Sin(b+lead[a])
			}
		}
	}
	return s
}

// Write writes the record as a table, or WAV for sound.
func (h InventedHover) Write(w io.Writer) error {
	s := h.Series()
	h = h.whole()
	times := make([]float64, s.Len())
	for i := range times {
		times[i] = float64(i) / s.Rate
	}
	return writeInvented(w, s, times, fmt.Sprintf("%s. hover of %d rotors at %v rev/s with %d blades", invented, len(h.Speeds), h.Speeds, h.Blades))
}
