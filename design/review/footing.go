package review

import (
	"math"

	"mastwright/design/strength"
)

// footing says what a weighted load does to what holds the mount down: the share of their strength that its screws bear, and the bending
// stress in Pa of the plate around them. Both are linear in the load's size.
type footing func(w weights) (screws, stress float64)

// footing returns that of the foot, or of the worst pad.
func (s *subject) footing(l *loaded) footing {
	screw := s.footScrew()
	if len(s.assembly.Pads) == 0 {
		foot, bending := s.footScrews(), s.footBending()
		return func(w weights) (float64, float64) {
			base := s.footLoad(l, w)
			return foot.Utilisation(base, screw), bending(base)
		}
	}
	feet, bending := make([]strength.Foot, len(s.assembly.Pads)), make([]float64, len(s.assembly.Pads))
	for i, pad := range s.assembly.Pads {
		feet[i], bending[i] = padFoot(pad), padBending(pad)
	}
	return func(w weights) (screws, stress float64) {
		for i, foot := range feet {
			load := s.padLoad(l, i, w)
			screws = math.Max(screws, foot.Utilisation(load, screw))
			stress = math.Max(stress, foot.Loads(load)[0].Tension*bending[i])
		}
		return screws, stress
	}
}

// blow is a load along a direction on the mast top.
func blow(direction [3]float64) (w weights) {
	copy(w[topX:topX+3], direction[:])
	return w
}
