package review

import "fmt"

// Figures of the I2C-bus specification UM10204: greatest rise times, and the greatest capacitance of a bus.
const (
	riseStandard = 1000e-9 // s, at 100 kHz
	riseFast     = 300e-9  // s, at 400 kHz
	mostBus      = 400e-12 // F
	perDevice    = 30e-12  // F, common practice
)

// bus compares the rise time of the compass bus with what its clock allows.
func (s *subject) bus() Verdict {
	if missing := s.lacks("cable.length"); missing != nil {
		return lacking("it needs the cable's length; the same answer completes the wiring table", missing...)
	}
	c := s.doc.Cable
	capacitance := c.Length.Metres()*c.Capacitance.FaradsPerMetre() + float64(c.Devices)*perDevice
	rise := 0.8473 * c.PullUp.Ohms() * capacitance
	allowed, clock := riseStandard, "100 kHz"
	if c.Clock.Hertz() > 100e3 {
		allowed, clock = riseFast, "400 kHz"
	}
	limit := &Limit{AtMost, s.doc.Limits.Bus.Pass.Fraction(), s.doc.Limits.Bus.Marginal.Fraction()}
	v := judged(
		fixed("rise time over the limit", rise/allowed, "", limit),
		fixed("bus capacitance over 400 pF", capacitance/mostBus, "", limit),
		fixed("rise time", rise*1e9, "ns", nil),
	)
	v.Because = fmt.Sprintf("%.0f mm of cable and %d devices make %.0f pF; the signal rises in %.0f of %.0f ns at %s",
		c.Length.Millimetres(), c.Devices, capacitance*1e12, rise*1e9, allowed*1e9, clock)
	v.Formula = fmt.Sprintf("t_r = 0.8473 × %.4g Ω × %.0f pF = %.0f ns; limit %.0f ns", c.PullUp.Ohms(), capacitance*1e12, rise*1e9, allowed*1e9)
	return v
}
