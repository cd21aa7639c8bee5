package outline

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Kerf returns the region to cut along so that o comes out: with the width in
// mm that the tool takes away its outer loop is moved out and its holes in, by
// half of it. A hole or a slot as narrow as the kerf is refused, and a notch
// that the tool cannot pass.
func (o Outline) Kerf(width float64) (Outline, error) {
	if !(width >= 0 && width <= Reach) {
		return Outline{}, fmt.Errorf("a kerf of %g mm; use 0 or the width that the tool takes away", width)
	}
	if err := o.Check(); err != nil || width == 0 {
		return o, err
	}
	var out Outline
	var err error
	if out.Outer, err = o.Outer.Offset(width / 2); err != nil {
		return Outline{}, fmt.Errorf("a kerf of %g mm does not pass through the narrowest notch; widen the notch or use a thinner cut: %w", width, err)
	}
	for i, l := range o.Holes {
		h, err := l.Offset(-width / 2)
		if err != nil {
			return Outline{}, fmt.Errorf("a kerf of %g mm is wider than hole %d at %s; widen the hole or use a thinner cut: %w", width, i+1, spot(l.Section().Centroid), err)
		}
		out.Holes = append(out.Holes, h)
	}
	return out, out.Check()
}

// Round returns the centre and the radius of a loop that is a circle.
func (l Loop) Round() (centre r2.Vec, radius float64, ok bool) {
	for i, e := range l.edges {
		if e.sweep == 0 {
			return r2.Vec{}, 0, false
		}
		c := e.carrier()
		if i == 0 {
			centre, radius = c.at, c.radius
		}
		if r2.Norm(r2.Sub(c.at, centre)) > touch*max(1, radius) || math.Abs(c.radius-radius) > touch*max(1, radius) {
			return r2.Vec{}, 0, false
		}
	}
	return centre, radius, len(l) > 0
}
