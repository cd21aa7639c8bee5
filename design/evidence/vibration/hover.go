package vibration

import (
	"fmt"
	"math"
	"slices"

	"mastwright/design/evidence/record"
)

// HoverOptions say how a hover record is read.
type HoverOptions struct {
	Low, High float64 // rev/s, between which the speed is expected, such as the computed band; 0 means 15 and 500
	Rotors    int     // 0 means 4
}

// Turning is what a record of a steady hover says.
type Turning struct {
	Speed     float64 // rev/s, mean of the rotors found
	Plus      float64 // rev/s, half-width of the 95 % interval of the mean
	Low, High float64 // rev/s of the slowest and the fastest rotor found
	Rotors    []Rotor // slowest first; rotors at nearly one speed show as one
	Blades    int
	HasLevel  bool      // the record is an acceleration of known unit
	Level     float64   // m/s² rms, all axes together, without gravity
	Levels    []float64 // m/s² rms of each axis
	LevelFrom float64   // Hz, lowest frequency in the level
	LevelTo   float64   // Hz, highest
	Spectrum  Spectrum  // dB over the noise; its peaks are the lines of the comb
	Notes     []record.Note
}

// Rotor is one speed found.
type Rotor struct {
	Speed float64 // rev/s
	Once  float64 // dB of the once-per-rev line over the noise
	Pass  float64 // dB of the blade-pass line over the noise
}

// Hover finds the speed of the rotors in a record of a steady hover: acceleration, gyro or sound. The lines of a rotor stand at
// once, blades, twice and three times blades per revolution; the speed at which this comb stands highest over the noise is
// taken, and around it the speeds of the single rotors from the lines at blade-pass. Sound often lacks once-per-rev; the
// comb of blade-pass then does, and where the speed is expected in a narrow band, a single clear line at blade-pass.
//
// A record is refused with a Refusal when it is too short, sampled too slowly, shows no comb, or when another speed, more
// than a sixth away, fits four fifths as well: then a narrower expected band may decide.
func Hover(s record.Series, blades int, o HoverOptions) (Turning, error) {
	r := Turning{Blades: blades, Notes: slices.Clone(s.Notes)}
	if blades < 2 || blades > 8 {
		return r, fmt.Errorf("propellers with %d blades are not known; give 2 to 8", blades)
	}
	axes, err := chosen(s, 0)
	if err != nil {
		return r, err
	}
	if s.Seconds() < 4 {
		return r, refuse(TooShort, "the record lasts %.3g s; record at least 4 s of steady hover, better 20", s.Seconds())
	}
	c := comb{blades: float64(blades), told: o.Low > 0 && o.High > 0, from: 15, to: 500, rate: s.Rate}
	if c.told {
		c.from, c.to = .8*o.Low, 1.25*o.High
	}
	if need := 2.5 * c.from; s.Rate < need {
		return r, refuse(TooSlow, "%.4g samples a second are too few for rotors at %.4g rev/s and more; at least %.4g are needed", s.Rate, c.from, need)
	}
	c.d = densityOf(axes, s.Rate, windowSize(s))
	c.above = excess(c.d)
	c.least = leastOf(c.d.looks * float64(len(axes)))
	if c.d.left > 0 {
		r.Notes = append(r.Notes, record.Note{About: "hover", Text: fmt.Sprintf("%d of %d stretches of %.2g s are much weaker or stronger than the rest and left out", c.d.left, c.d.left+len(c.d.each), 1/c.d.step)})
	}
	best, err := c.find()
	if err != nil {
		return r, err
	}
	rotors := o.Rotors
	if rotors == 0 {
		rotors = 4
	}
	c.rotors(&r, best, rotors)
	r.level(s, c.d)
	top := min(c.to*c.blades*2, s.Rate/2)
	r.Spectrum.Hz, r.Spectrum.Level = thin(c.above, int(10/c.d.step), int(top/c.d.step), c.d.step)
	r.Spectrum.Unit, r.Spectrum.From, r.Spectrum.To = "dB over the noise", c.from, min(c.to, s.Rate/2)
	return r, nil
}

// windowSize is about two seconds, four in a record of half a minute.
func windowSize(s record.Series) int {
	seconds := 2.
	if s.Seconds() >= 30 {
		seconds = 4
	}
	return powerOfTwo(int(seconds*s.Rate*.7)) &^ 1
}

// excess is how far the density stands over its floor, in dB.
func excess(d density) []float64 {
	e := d.floor()
	for k, f := range e {
		e[k] = 10 * math.Log10((d.total[k]+1e-30)/f)
	}
	return e
}
