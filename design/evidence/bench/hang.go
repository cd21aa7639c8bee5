package bench

import (
	"fmt"
	"math"
	"slices"
)

// Load is one mass that hung on the mount and what was read with it, in the order in which they were taken.
type Load struct {
	Mass    float64 // kg
	Reading float64 // m: of the dial, of the ruler, or of the pointer's spot along its wall
}

// Gauge is how the movement was read.
type Gauge int

// The gauges.
const (
	Dial    Gauge = iota // a dial or another gauge that touches the mount where the mass pulls
	Pointer              // the spot of a pointer taped to the tray, on a wall at a known distance
	Ruler                // a ruler held beside
)

// String is the gauge in words.
func (g Gauge) String() string { return [...]string{"dial", "pointer", "ruler"}[g] }

// HangOptions say how the masses hung and how the movement was read. The zero value is a dial.
type HangOptions struct {
	Gauge     Gauge
	Division  float64  // m, of the scale that was read; 0 means 0.01 mm for a dial, 1 mm else
	Distance  float64  // m from the tray to the pointer's wall
	Rotation  float64  // rad by which the tray turns for each metre that the point of load moves; 0 keeps a pointer's result in N per rad
	Gravity   float64  // m/s²; 0 means 9.80665
	Predicted Estimate // stiffness at the point of load, in the unit of the result; value 0 when there is none
	OnBlock   bool     // the mount stood on a solid block; else on its aircraft
}

// Hung is what the loads say.
type Hung struct {
	Stiffness Estimate  `json:"stiffness"`
	Unit      string    `json:"unit"`        // of Stiffness: N/m or N/rad
	Agreement Agreement `json:"agreement"`   // empty when nothing was predicted
	TakeUp    float64   `json:"take_up"`     // m or rad that the base moves before it bears; 0 when none was seen
	Drift     Estimate  `json:"drift"`       // growth of the movement at equal load from the first to the last pair, m or rad
	Drifts    bool      `json:"drifts"`      // Drift is beyond doubt and more than 3 % of the movement
	DriftSeen bool      `json:"drift_known"` // the order of loads tells drift from load
	Residual  float64   `json:"residual"`    // standard deviation about the line, m or rad
	Words     []string  `json:"words"`
	Plot      Plot      `json:"plot"`
}

// Hang finds the stiffness of the mount where the masses pull, by least squares of movement on force. Pairs at the lowest
// forces that lie off the line of the others, on the side of more movement, are taken for play in the base and left out. With
// loads taken up and down again, growth at equal load (creep, slipping screws) is told apart from load. Fewer than four pairs,
// fewer than three different masses, and a movement of fewer than ten divisions are refused.
func Hang(loads []Load, o HangOptions) (Hung, error) {
	if o.Gravity == 0 {
		o.Gravity = 9.80665 // standard acceleration of gravity, ISO 80000-3
	}
	if o.Division == 0 {
		o.Division = 1e-3
		if o.Gauge == Dial {
			o.Division = .01e-3
		}
	}
	forces, readings, err := pulled(loads, o)
	if err != nil {
		return Hung{}, err
	}
	if err := o.fineEnough(forces, readings); err != nil {
		return Hung{}, err
	}
	h := Hung{Unit: "N/m"}
	if o.Gauge == Pointer && o.Rotation == 0 {
		h.Unit = "N/rad"
	}
	moves := o.moves(forces, readings)
	division := math.Abs(o.move(o.Division))
	used := h.takeUp(forces, moves, division)
	x, y := kept(forces, used), kept(moves, used)
	line, err := FitLine(x, y)
	if err != nil {
		return Hung{}, err
	}
	h.Residual = line.Residual
	compliance := line.SlopeEstimate()
	compliance = h.drift(compliance, x, y, division)
	if compliance.Low <= 0 {
		return Hung{}, refuse("hang more mass, or read a finer scale", "the readings do not rise with the force beyond their scatter: no stiffness can be told")
	}
	h.Stiffness = Estimate{1 / compliance.Value, 1 / compliance.High, 1 / compliance.Low}
	if o.Predicted.Value > 0 {
		if h.Agreement, err = Compare(Stiffness, h.Stiffness, o.Predicted, o.OnBlock); err != nil {
			return Hung{}, err
		}
	}
	h.words(forces)
	h.plot(forces, moves, used, line, o)
	return h, nil
}

// pulled returns forces in N and readings.
func pulled(loads []Load, o HangOptions) (forces, readings []float64, err error) {
	var masses []float64
	for _, l := range loads {
		masses, readings = append(masses, l.Mass), append(readings, l.Reading)
		forces = append(forces, l.Mass*o.Gravity)
	}
	if err := finite("mass", masses...); err != nil {
		return nil, nil, err
	}
	if err := finite("reading", readings...); err != nil {
		return nil, nil, err
	}
	for i, m := range masses {
		if m < 0 {
			return nil, nil, refuse("write masses as they hang, from 0", "the mass of row %d is %.4g kg", i+1, m)
		}
	}
	if len(loads) < 4 {
		return nil, nil, refuse("take four or more, up and down again", "%d pairs say nothing about the spread", len(loads))
	}
	if n := len(levels(forces)); n < 3 {
		return nil, nil, refuse("hang three or more different ones", "there are %d different masses", n)
	}
	if o.Gauge == Pointer && o.Distance <= 0 {
		return nil, nil, refuse("measure it from the tray to the wall", "the distance of the pointer's spot is missing")
	}
	return forces, readings, nil
}

// levels returns the different forces, lowest first; forces within a hundredth of the greatest are one.
func levels(forces []float64) []float64 {
	sorted := slices.Sorted(slices.Values(forces))
	near := .01 * sorted[len(sorted)-1]
	out := sorted[:1]
	for _, f := range sorted {
		if f-out[len(out)-1] > near {
			out = append(out, f)
		}
	}
	return out
}

// fineEnough refuses a scale of which the movement spans fewer than ten divisions.
func (o HangOptions) fineEnough(forces, readings []float64) error {
	force := slices.Max(forces) - slices.Min(forces)
	spot := slices.Max(readings) - slices.Min(readings)
	expected := ""
	if k := o.Predicted.Value; k > 0 {
		turn := force / k
		if o.Gauge == Pointer {
			if o.Rotation > 0 {
				turn *= o.Rotation
			}
			spot = o.Distance * math.Tan(min(turn, 1))
		} else {
			spot = turn
		}
		expected = "is expected to "
	}
	if spot >= 10*o.Division {
		return nil
	}
	remedy := "hang more mass, or tape a pointer to the tray and read its spot on a far wall"
	if o.Gauge == Pointer {
		remedy = "hang more mass, or let the spot fall on a wall farther off"
	} else if o.Rotation > 0 && o.Predicted.Value > 0 {
		remedy = fmt.Sprintf("tape a pointer to the tray and read its spot: on a wall 3 m off it moves %.0f mm", 3000*o.Rotation*force/o.Predicted.Value)
	}
	return refuse(remedy, "%.3g N %smove the %s by %.2g mm, fewer than ten of its divisions of %.2g mm", force, expected, o.what(), 1000*spot, 1000*o.Division)
}

func (o HangOptions) what() string {
	return map[Gauge]string{Dial: "dial", Pointer: "spot", Ruler: "mount beside the ruler"}[o.Gauge]
}

// move turns a distance along the scale into the movement of the mount, m or rad.
func (o HangOptions) move(reading float64) float64 {
	if o.Gauge != Pointer {
		return reading
	}
	turn := math.Atan(reading / o.Distance)
	if o.Rotation > 0 {
		return turn / o.Rotation
	}
	return turn
}

// moves are the movements from the first unloaded reading, or from the scale's zero, rising with force.
func (o HangOptions) moves(forces, readings []float64) []float64 {
	zero := 0.0
	if i := slices.IndexFunc(forces, func(f float64) bool { return f <= .01*slices.Max(forces) }); i >= 0 {
		zero = readings[i]
	}
	out, moment, middle := make([]float64, len(readings)), 0.0, mean(forces)
	for i, r := range readings {
		out[i] = o.move(r - zero)
		moment += out[i] * (forces[i] - middle)
	}
	if moment < 0 {
		for i := range out {
			out[i] = -out[i]
		}
	}
	return out
}

// takeUp finds the play of the base and says which pairs are used.
func (h *Hung) takeUp(forces, moves []float64, division float64) []bool {
	steps := levels(forces)
	best, rest := slices.Repeat([]bool{true}, len(forces)), math.Inf(1)
	for leave := 1; leave <= 2 && len(steps)-leave >= 3; leave++ {
		used := make([]bool, len(forces))
		for i, f := range forces {
			used[i] = f >= steps[leave]-.005*steps[len(steps)-1]
		}
		line, err := FitLine(kept(forces, used), kept(moves, used))
		if err != nil || line.Residual >= rest/2 {
			continue
		}
		play, off := 0.0, true
		for i, f := range forces {
			if used[i] {
				continue
			}
			band := line.Reach(f)
			if f < steps[0]+.005*steps[len(steps)-1] {
				play = band.Value - moves[i]
			}
			off = off && band.Value-moves[i] > max(band.Plus(), 2*division, .03*(line.At(steps[len(steps)-1])-line.At(0)))
		}
		if off {
			best, rest, h.TakeUp = used, line.Residual, play
		}
	}
	return best
}

// drift finds the growth with the order of the pairs. The compliance returned is free of it where it matters.
func (h *Hung) drift(compliance Estimate, forces, moves []float64, division float64) Estimate {
	n := len(forces)
	ones, order := make([]float64, n), make([]float64, n)
	for i := range n {
		ones[i], order[i] = 1, float64(i)/float64(n-1)
	}
	if n < 5 || rises(forces) {
		return compliance
	}
	p, err := FitPlane([][]float64{ones, forces, order}, moves)
	if err != nil {
		return compliance
	}
	h.DriftSeen, h.Drift = true, p.Estimate(2)
	span := compliance.Value * (slices.Max(forces) - slices.Min(forces))
	h.Drifts = h.Drift.Low*h.Drift.High > 0 && math.Abs(h.Drift.Value) > max(.03*span, 2*division)
	if !h.Drifts {
		return compliance
	}
	h.Residual = p.Residual
	return p.Estimate(1)
}

// rises says whether no force is smaller than the one before it: then growth with time looks like load.
func rises(forces []float64) bool { return slices.IsSorted(forces) }

func kept(values []float64, used []bool) []float64 {
	var out []float64
	for i, v := range values {
		if used[i] {
			out = append(out, v)
		}
	}
	return out
}
