package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/design/strength"
	"mastwright/materials"
	hw "mastwright/materials/hardware"
)

// spineJoint is where two members meet: a printed socket around a member's end, a clamp on a tube, a screw through a plate.
type spineJoint struct {
	name     string
	kind     parts.JointKind
	a, b     int    // points; the spring sits on a
	arm      r3.Vec // from a to where it acts, m
	far      r3.Vec // from b to there
	axis     r3.Vec
	grip     float64 // m, along the axis
	width    float64 // m, of what is in a sleeve, the narrower way
	play     float64 // m, each side of it
	bed      float64 // stiffness over the modulus of its plastic, a metre of grip
	material materials.Material
	along    materials.Direction
	keyed    bool
	screw    parts.ScrewUse
}

// newJoint translates a joint; point finds the spine's point at a place of a member.
func (s *subject) newJoint(j parts.Joint, point func(parts.End) int) (spineJoint, error) {
	material, err := s.library.Find(j.Material)
	if err != nil {
		return spineJoint{}, err
	}
	a := s.member(j.A)
	one := spineJoint{
		name: j.Name, kind: j.Kind, a: point(parts.End{Member: j.A, At: j.AtA}), b: point(parts.End{Member: j.B, At: j.AtB}), axis: j.Axis, grip: j.Grip / 1e3,
		bed: 1, play: j.Clearance / 1e3, material: material, along: directionOf(a, s.part(a.Part)), keyed: j.Keyed, screw: j.Screw,
	}
	if one.axis == (r3.Vec{}) {
		one.axis = r3.Vec{Z: 1}
	}
	switch j.Kind {
	case parts.Clamp:
		one.bed = s.doc.Assume.ClampBed.Fraction()
	case parts.Pin:
		one.along = materials.InLayer
		return one, nil
	}
	one.width = narrower(s.member(j.B).Outline(j.AtB)) / 1e3
	return one, nil
}

// spring returns the joint's stiffness at its point a. A sleeve, or a clamp, is a bed of k_w = E of its plastic per metre: k_w e sideways
// and k_w e³/12 in tilt; along the mast and about it the cross screw and the fitting flanks hold it like a bed of the same k_w around the
// grip's circumference. A pin bears on the plate's thickness by the same rule and carries no moment but about itself, where its head holds.
func (j spineJoint) spring(e end) [6][6]float64 {
	bed := stiffness(j.material, j.along, e) * j.bed
	side, tilt := bed*j.grip, bed*j.grip*j.grip*j.grip/12
	if j.kind == parts.Pin {
		return moved(pinned(side, tilt, j.axis), j.arm)
	}
	return frame.Uncoupled(side, side, side, tilt, tilt, tilt)
}

// pinned is a spring that carries force every way and moment about its axis alone.
func pinned(side, about float64, axis r3.Vec) [6][6]float64 {
	k := frame.Uncoupled(side, side, side, 0, 0, 0)
	a := triple(axis)
	for r := range 3 {
		for c := range 3 {
			k[3+r][3+c] = about * a[r] * a[c]
		}
	}
	return k
}

// moved is a spring that acts at the end of a rigid arm, as seen from where the arm begins.
func moved(k [6][6]float64, arm r3.Vec) [6][6]float64 {
	// The arm's end moves by u + θ × arm.
	t := [6][6]float64{}
	for i := range 6 {
		t[i][i] = 1
	}
	t[0][4], t[0][5] = arm.Z, -arm.Y
	t[1][3], t[1][5] = -arm.Z, arm.X
	t[2][3], t[2][4] = arm.Y, -arm.X
	var half, out [6][6]float64
	for r := range 6 {
		for c := range 6 {
			for i := range 6 {
				half[r][c] += k[r][i] * t[i][c]
			}
		}
	}
	for r := range 6 {
		for c := range 6 {
			for i := range 6 {
				out[r][c] += t[i][r] * half[i][c]
			}
		}
		for c := range r { // rounding apart, it is symmetric
			mean := (out[r][c] + out[c][r]) / 2
			out[r][c], out[c][r] = mean, mean
		}
	}
	return out
}

// carried returns the force in N that b's member puts on a's through a joint, and for a bed its moment in N·m, under a weighted load.
func (s *subject) carried(l *loaded, j spineJoint, w weights) (force, moment r3.Vec) {
	a, b := l.at(l.nodes.points[j.a], w), l.at(l.nodes.points[j.b], w)
	slip := r3.Sub(r3.Add(b.Move, r3.Cross(b.Turn, j.far)), r3.Add(a.Move, r3.Cross(a.Turn, j.arm)))
	twist := r3.Sub(b.Turn, a.Turn)
	bed := stiffness(j.material, j.along, typical) * j.bed
	force = r3.Scale(bed*j.grip, slip)
	if j.kind != parts.Pin {
		moment = r3.Scale(bed*j.grip*j.grip*j.grip/12, twist)
	}
	return force, moment
}

// heldJoint is a joint that may give: the share of its strength that it bears under a weighted load, linear in the load's size.
type heldJoint struct {
	name, group string
	used        func(w weights) float64
}

// heldJoints returns the joints that may give: screws through plates, and clamps, which may slip.
func (s *subject) heldJoints(l *loaded) []heldJoint {
	var list []heldJoint
	for _, j := range s.spine.joints {
		hold := s.hold(j)
		if hold == nil {
			continue
		}
		var forces, moments [unitCases]r3.Vec
		for c := range unitCases {
			var w weights
			w[c] = 1
			forces[c], moments[c] = s.carried(l, j, w)
		}
		one := heldJoint{name: j.name, group: "screws of the plates", used: func(w weights) float64 {
			var force, moment r3.Vec
			for c, share := range w {
				if share != 0 {
					force, moment = r3.Add(force, r3.Scale(share, forces[c])), r3.Add(moment, r3.Scale(share, moments[c]))
				}
			}
			return hold(force, moment)
		}}
		if j.kind == parts.Clamp {
			one.name, one.group = j.name+" slipping", "clamps against slipping"
		}
		list = append(list, one)
	}
	return list
}

// hold returns the share of a joint's strength that a force and a moment take, nil where nothing of it is known to give.
func (s *subject) hold(j spineJoint) func(force, moment r3.Vec) float64 {
	switch j.kind {
	case parts.Pin:
		if j.screw.Count == 0 {
			return nil // a tab's end
		}
		material, err := hw.FindMaterial(j.screw.Material)
		if err != nil {
			return nil
		}
		tension := j.screw.Size.BreakingLoad(material).Newtons()
		bolt := strength.Screw{Tension: tension, Shear: strength.ScrewShear(tension)}
		bears := strength.Bearing(j.screw.Size.Diameter().Metres(), j.grip, spreadOf(s.bearing(j), materials.InLayer).Low)
		return func(force, _ r3.Vec) float64 {
			pull := math.Abs(r3.Dot(force, j.axis))
			shear := r3.Norm(r3.Sub(force, r3.Scale(r3.Dot(force, j.axis), j.axis)))
			return math.Max(bolt.Utilisation(strength.ScrewLoad{Tension: pull, Shear: shear}), shear/bears)
		}
	case parts.Clamp:
		c, ok := s.clamp(j)
		if !ok {
			return nil
		}
		pull, torque := c.Pull(), c.Torque()
		return func(force, moment r3.Vec) float64 {
			return math.Max(math.Abs(r3.Dot(force, j.axis))/pull, math.Abs(r3.Dot(moment, j.axis))/torque)
		}
	}
	return nil
}

// bearing is the material that a pin's plate bears with.
func (s *subject) bearing(j spineJoint) materials.Material {
	for _, p := range s.spine.spans {
		if p.to == j.a || p.from == j.a {
			return p.material
		}
	}
	return j.material
}

// clamp is a clamp's hold on its tube by its closing screws' preload and, keyed, its cross screw.
func (s *subject) clamp(j spineJoint) (strength.Clamp, bool) {
	material, err := hw.FindMaterial(j.screw.Material)
	if err != nil || j.screw.Count == 0 {
		return strength.Clamp{}, false
	}
	preload := s.doc.Assume.Preload.Fraction() * j.screw.Size.BreakingLoad(material).Newtons()
	if pull := s.pull(j.screw.For); pull > 0 { // no more than its ears bear
		preload = pull
	}
	c := strength.Clamp{
		Preload: preload, Screws: j.screw.Count,
		Radius: s.doc.Mast.Tube.Outside.Metres() / 2, Friction: s.doc.Assume.ClampFriction.Fraction(),
	}
	if j.keyed {
		for _, u := range s.assembly.Screws {
			if u.For == keyOfClamp(j.name) {
				if m, err := hw.FindMaterial(u.Material); err == nil {
					c.Key = strength.ScrewShear(u.Size.BreakingLoad(m).Newtons())
				}
			}
		}
	}
	return c, true
}

// keyOfClamp is the purpose of a clamp's cross screw.
func keyOfClamp(clamp string) string {
	if clamp == "tray clamp" {
		return "tray key"
	}
	return "foot key"
}
