package review

import (
	"fmt"
	"math"

	"mastwright/design/motor"
)

// flexible is how many modes of the flying aircraft are judged.
const flexible = 5

// modeBand is a flying mode with the band its frequency may lie in, Hz.
type modeBand struct {
	label          string
	low, mid, high float64
}

// modeBands returns the flying modes: the geometric mean of the soft and the stiff base at the typical modulus, and the band from the low
// modulus on the soft base to the high modulus on the stiff one.
func (s *subject) modeBands() ([]modeBand, error) {
	if s.bands != nil {
		return s.bands, nil
	}
	var ends [4]*solved
	for i, v := range [4]variant{{soft, typical}, {stiff, typical}, {soft, low}, {stiff, high}} {
		var err error
		if ends[i], err = s.solve(v, flying); err != nil {
			return nil, err
		}
	}
	count := flexible
	for _, e := range ends {
		count = min(count, len(e.modes))
	}
	bands := make([]modeBand, count)
	for i := range bands {
		bands[i] = modeBand{
			label: ends[0].modes[i].Label,
			low:   ends[2].modes[i].Frequency,
			mid:   math.Sqrt(ends[0].modes[i].Frequency * ends[1].modes[i].Frequency),
			high:  ends[3].modes[i].Frequency,
		}
	}
	s.bands = bands
	return bands, nil
}

// modes judges the lowest mode against the attitude control and names every crossing of a mode with a rotor line.
func (s *subject) modes() Verdict {
	if missing := s.lacksStructure(); missing != nil {
		return lacking("the aircraft's mass, motors and receiver are part of the vibrating system", missing...)
	}
	if s.rotorsError != nil {
		return lacking(s.rotorsError.Error(), "motors.kv", "motors.propeller")
	}
	bands, err := s.modeBands()
	if err != nil {
		return lacking(err.Error())
	}
	bandwidth := s.rotors.Drive.Bandwidth
	limits := s.doc.Limits.Modes
	first := bands[0]
	v := judged(
		spread("lowest mode over control bandwidth", first.mid/bandwidth, first.low/bandwidth, first.high/bandwidth, "",
			&Limit{AtLeast, limits.Pass.Fraction(), limits.Marginal.Fraction()}),
		spread("lowest mode", first.mid, first.low, first.high, "Hz", nil),
	)
	v.Because = fmt.Sprintf("the lowest mode, %s, rings at %.0f Hz; the attitude control works to %.0f Hz", first.label, first.mid, bandwidth)
	v.Formula = fmt.Sprintf("%.1f Hz / %.3g Hz = %.2f", first.mid, bandwidth, first.mid/bandwidth)

	if note := s.pivots(); note != "" {
		v.Notes = append(v.Notes, note)
	}
	once := s.rotors.Band(motor.Working, 1)
	crossing := 0.0
	for i, b := range bands {
		if !once.Meets(motor.Band{Low: b.low, High: b.high}) {
			continue
		}
		worst := s.shakeAt(i, b)
		at := worst.speed * 60
		text := fmt.Sprintf("once-per-rev meets %s, %.0f to %.0f Hz, at %.0f rpm: %.2g g there", b.label, b.low, b.high, at, worst.peak)
		v.Notes = append(v.Notes, text)
		if worst.peak > s.doc.Limits.Shake.Pass.StandardGravities() && worst.peak > crossing {
			crossing = worst.peak
			if v.State == Pass {
				v.Because = text
			}
		}
	}
	if crossing > 0 {
		figure := fixed("shake where once-per-rev meets a mode", crossing, "g", &Limit{AtMost, s.doc.Limits.Shake.Pass.StandardGravities(), math.Inf(1)})
		because, formula, notes := v.Because, v.Formula, v.Notes
		v = judged(append(v.Figures, figure)...)
		v.Because, v.Formula, v.Notes = because, formula, notes
	}
	v.Notes = append(v.Notes, s.crossings(bands)...)
	if s.heatedParts() {
		if e, err := s.solve(variant{middle, hot}, flying); err == nil && len(e.modes) > 0 {
			v.Figures = append(v.Figures, fixed(fmt.Sprintf("lowest mode at %.0f °C", s.doc.Site.Service.Celsius()), e.modes[0].Frequency, "Hz", nil))
		}
	}
	for _, b := range bands[1:] {
		v.Figures = append(v.Figures, spread(b.label, b.mid, b.low, b.high, "Hz", nil))
	}
	return v
}

// crossings names where modes meet the rotor lines that are not judged: blade-pass, twice-per-rev, and once-per-rev outside the working band.
func (s *subject) crossings(bands []modeBand) []string {
	var notes []string
	for _, line := range s.rotors.Lines() {
		if line.Regime == motor.Hover || line.Regime == motor.Working && line.Order == 1 {
			continue
		}
		for _, b := range bands {
			if line.Band.Meets(motor.Band{Low: b.low, High: b.high}) {
				notes = append(notes, fmt.Sprintf("%s, %s, meets %s at %.0f to %.0f Hz", line.Name, line.Regime, b.label,
					math.Max(line.Band.Low, b.low), math.Min(line.Band.High, b.high)))
			}
		}
	}
	return notes
}
