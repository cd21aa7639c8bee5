package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/design/strength"
	"mastwright/materials"
)

// padSpring returns what a pad under a leg yields: pressed on the frame by its screw it is a bed of E over its thickness on its whole
// area, tilting about its middle; the stiff end does not yield at all. Own judgement.
func (s *subject) padSpring(i int, v variant) [6][6]float64 {
	pad := s.assembly.Pads[i]
	o := pad.Outline.Section()
	bed := stiffness(s.footMaterial, materials.Across, v.modulus) / (pad.Thickness / 1e3)
	unit := frame.Uncoupled(0, 0, bed*o.Area/1e6, bed*o.Ixx/1e12, bed*o.Iyy/1e12, 0)
	unit[3][4] = -bed * o.Ixy / 1e12
	unit[4][3] = unit[3][4]
	spring := seated(unit, unitModulus, s.yield(v.base), true)
	middle := r3.Vec{X: o.Centroid.X / 1e3, Y: o.Centroid.Y / 1e3}
	return moved(spring, r3.Sub(middle, s.spine.points[s.spine.roots[i]]))
}

// padLoad returns what a leg does to its pad, at the origin, under a weighted load.
func (s *subject) padLoad(l *loaded, i int, w weights) (f strength.FootLoad) {
	root := s.spine.roots[i]
	for k, p := range s.spine.spans {
		if p.from != root {
			continue
		}
		x, y, z := p.axes(s.spine.points)
		var force, moment r3.Vec
		for c, share := range w {
			if share == 0 {
				continue
			}
			at := l.units[c].Members[k][0]
			force = r3.Add(force, r3.Scale(share, body(x, y, z, at.Vx, at.Vy, at.N)))
			moment = r3.Add(moment, r3.Scale(share, body(x, y, z, at.Mx, at.My, at.T)))
		}
		moment = r3.Add(moment, r3.Cross(s.spine.points[root], force))
		return strength.FootLoad{Force: triple(force), Moment: triple(moment)}
	}
	return f
}

func body(x, y, z r3.Vec, a, b, c float64) r3.Vec {
	return r3.Add(r3.Add(r3.Scale(a, x), r3.Scale(b, y)), r3.Scale(c, z))
}

// axes returns a span's own axes: its section's x and y, and along it.
func (p span) axes(points []r3.Vec) (x, y, z r3.Vec) {
	z = r3.Unit(r3.Sub(points[p.to], points[p.from]))
	x = p.sectionX
	if x == (r3.Vec{}) {
		x = r3.Vec{X: 1}
		if math.Abs(z.X) > 0.999 {
			x = r3.Vec{Z: 1}
		}
	}
	x = r3.Unit(r3.Sub(x, r3.Scale(r3.Dot(x, z), z)))
	return x, r3.Cross(z, x), z
}

// padFoot returns a pad as its screw sees it.
func padFoot(pad parts.FootPlate) strength.Foot {
	var foot strength.Foot
	for _, at := range pad.Screws {
		foot.Screws = append(foot.Screws, [2]float64{at.X / 1e3, at.Y / 1e3})
	}
	for _, v := range pad.Outline.Outer.Flatten(0.05) {
		foot.Outline = append(foot.Outline, [2]float64{v.X / 1e3, v.Y / 1e3})
	}
	return foot
}

// padBending returns the bending stress in Pa of a pad between its screw and its socket for a pull of 1 N in the screw: a strip as wide as
// the pad's socket. Own judgement.
func padBending(pad parts.FootPlate) float64 {
	box := pad.Hub.Outer.Box()
	width := math.Min(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y) / 1e3
	reach := math.Max(0, pad.Hub.Outer.Distance(pad.Screws[0])) / 1e3
	t := pad.Thickness / 1e3
	return reach / (width * t * t / 6)
}
