package strength

import "math"

// Drop is a free fall onto the mast top.
type Drop struct {
	Polar      float64    // between the blow and the mast axis: 0 falls straight on the mast, π/2 across it, rad
	Azimuth    float64    // of the blow's sideways part, from x towards y, rad
	Direction  [3]float64 // of the ground's force on the mast top, unit, body axes
	Mass       float64    // effective, kg
	Compliance float64    // m/N
	Outcome    Outcome
}

// Grid is the directions of drops.
type Grid struct {
	Polar   int // steps from 0 to π/2; 0 means 6
	Azimuth int // steps around; 0 means 24
}

// Drops returns the free falls onto the mast top over polar angle and azimuth and
// the index of the one that breaks it from the least typical height. Polar angle 0
// is given once.
func Drops(v Vehicle, links Links, rule Rule, g Grid) (drops []Drop, worst int, err error) {
	if err := v.Check(); err != nil {
		return nil, -1, err
	}
	if g.Polar <= 0 {
		g.Polar = 6
	}
	if g.Azimuth <= 0 {
		g.Azimuth = 24
	}
	drops = make([]Drop, 0, 1+g.Polar*g.Azimuth)
	axis := v.axis()
	x := [3]float64{1, 0, 0}
	if math.Abs(axis[0]) > .9 {
		x = [3]float64{0, 1, 0}
	}
	x = unit(along(x, -dot(x, axis), axis))
	y := cross(axis, x)
	for i := range g.Polar + 1 {
		for j := range g.Azimuth {
			if i == 0 && j > 0 {
				break
			}
			d := Drop{Polar: math.Pi / 2 * float64(i) / float64(g.Polar), Azimuth: 2 * math.Pi * float64(j) / float64(g.Azimuth)}
			sp, cp := math.Sincos(d.Polar)
			sa, ca := math.Sincos(d.Azimuth)
			d.Direction = along(along(along([3]float64{}, sp*ca, x), sp*sa, y), -cp, axis)
			d.Compliance = v.Along(d.Direction)
			if d.Mass, err = v.EffectiveMass(d.Direction); err != nil {
				return nil, -1, err
			}
			if d.Outcome, err = Withstand(Blow{Mass: d.Mass, Compliance: d.Compliance}, links(d.Direction), rule); err != nil {
				return nil, -1, err
			}
			drops = append(drops, d)
			if d.Outcome.Typical.BreakHeight < drops[worst].Outcome.Typical.BreakHeight {
				worst = len(drops) - 1
			}
		}
	}
	return drops, worst, nil
}
