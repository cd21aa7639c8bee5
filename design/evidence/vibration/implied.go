package vibration

import (
	"fmt"
	"math"
)

// Scale is a factor on a modulus or a stiffness with the bounds that follow from the bounds of a frequency.
type Scale struct {
	Value, Low, High float64
	Runs             int // evaluations of the model
}

// Implied returns the factor on the modulus with which a model's frequency in Hz becomes hz, low and high. The model gives the
// frequency for a factor and has to rise with it; it is asked for factors between 1/64 and 64. A foot or a frame that
// gives way puts a ceiling on the frequency: a measurement above it is refused with the ceiling named, and a bound above
// it is given as 64.
func Implied(hz, low, high float64, model func(scale float64) (float64, error)) (Scale, error) {
	if !(low > 0 && low <= hz && hz <= high) {
		return Scale{}, fmt.Errorf("frequency bounds %g and %g Hz do not hold %g Hz between them; give rising values above 0", low, high, hz)
	}
	s := solver{model: model}
	start, err := s.at(1)
	if err != nil {
		return Scale{}, err
	}
	s.start = start
	r := Scale{}
	if r.Value, err = s.solve(hz); err != nil {
		return Scale{}, err
	}
	if s.edge {
		side, limit := "over", "stiffer"
		if r.Value < 1 {
			side, limit = "under", "softer"
		}
		return Scale{}, fmt.Errorf("%.4g Hz lies %s the %.4g Hz that the model reaches with a plastic 64 times %s; what gives way is the foot, the frame or a screw, or another mode was measured: tap the mount on a solid block",
			hz, side, s.reached, limit)
	}
	if r.Low, err = s.solve(low); err != nil {
		return Scale{}, err
	}
	r.High, err = s.solve(high)
	r.Runs = s.runs
	return r, err
}

const farthest = 64

type solver struct {
	model   func(float64) (float64, error)
	start   float64 // frequency at scale 1
	runs    int
	edge    bool    // the last solution is the edge of the range
	reached float64 // frequency there
}

func (s *solver) at(scale float64) (float64, error) {
	s.runs++
	f, err := s.model(scale)
	if err != nil {
		return 0, fmt.Errorf("model with %.4g times the modulus: %w", scale, err)
	}
	if !(f > 0) || math.IsInf(f, 0) {
		return 0, fmt.Errorf("model with %.4g times the modulus: %g is no frequency; it has to be above 0 Hz", scale, f)
	}
	return f, nil
}

// solve brackets from 1 by doubling and closes in by false position on the logarithms (the Illinois rule), to 1e-7 of the
// frequency. Source: Dowell & Jarratt, BIT 11, 1971.
func (s *solver) solve(hz float64) (float64, error) {
	s.edge = false
	want := math.Log(hz)
	xa, ya := 0., math.Log(s.start)-want
	if ya == 0 {
		return 1, nil
	}
	step := math.Copysign(math.Ln2, -ya)
	xb, yb := xa, ya
	for yb*ya > 0 {
		if math.Abs(xb+step) > math.Log(farthest)+1e-9 {
			s.edge, s.reached = true, math.Exp(yb+want)
			return math.Pow(farthest, math.Copysign(1, step)), nil
		}
		xa, ya = xb, yb
		xb += step
		f, err := s.at(math.Exp(xb))
		if err != nil {
			return 0, err
		}
		if yb = math.Log(f) - want; (yb-ya)*step < 0 {
			return 0, fmt.Errorf("the model's frequency falls from %.4g to %.4g Hz between %.4g and %.4g times the modulus; follow one mode",
				math.Exp(ya+want), f, math.Exp(xa), math.Exp(xb))
		}
	}
	for range 60 {
		x := xb - yb*(xb-xa)/(yb-ya)
		f, err := s.at(math.Exp(x))
		if err != nil {
			return 0, err
		}
		y := math.Log(f) - want
		if math.Abs(y) < 1e-7 {
			return math.Exp(x), nil
		}
		if y*yb < 0 {
			xa, ya = xb, yb
		} else {
			ya /= 2
		}
		xb, yb = x, y
	}
	return math.Exp(xb), nil
}
