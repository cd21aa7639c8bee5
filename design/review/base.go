package review

import (
	"fmt"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/materials"
	"mastwright/mesh/outline"
)

// base is what the mast stands on: the foot's plate on its screws, and the frame's plate on its standoffs. Both are solved once for a
// modulus of 1 GPa, since a plate's stiffness is proportional to it.
type base struct {
	foot, frame [6][6]float64 // stiffness at that modulus; in-plane entries are left zero
	footYields  bool
	frameYields bool
}

// newBase solves the two plates as they are at the soft end: screws pinned, hub rigid. Pads on the place's holes move as one with them;
// those on a pattern of their own stand on arms or standoffs, which are taken as rigid.
func (s *subject) newBase() (base, error) {
	var b base
	plate := s.assembly.Foot
	foot := frame.Plate{
		Outline: loops(plate.Outline), Thickness: plate.Thickness / 1e3, E: unitModulus, Poisson: s.footMaterial.Poisson.Typical.Fraction(),
		Hub: loop(plate.Hub.Outer),
	}
	b.footYields = true
	for _, at := range plate.Screws {
		foot.Pins = append(foot.Pins, frame.Pin{X: at.X / 1e3, Y: at.Y / 1e3})
		if plate.Hub.Outer.Distance(at) < hubEdge {
			b.footYields = false // the mast stands on its screws
		}
	}
	var err error
	if b.footYields {
		if b.foot, err = s.unitSpring(foot); err != nil {
			return b, fmt.Errorf("the foot's plate: %w", err)
		}
	}
	if s.place.Plate.Backing == "block" || len(s.assembly.Pads) > 0 && s.doc.Mast.Legs.Pattern != "stack holes" {
		return b, nil
	}
	size := s.place.PlateSize()
	x, y := size.X.Metres()/2, size.Y.Metres()/2
	under := frame.Plate{
		Outline:   []frame.Loop{{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}},
		Thickness: s.place.Plate.Thickness.Metres(), E: unitModulus, Poisson: s.plateMaterial.Poisson.Typical.Fraction(),
	}
	for _, at := range plate.Screws {
		under.Ties = append(under.Ties, [2]float64{at.X / 1e3, at.Y / 1e3})
	}
	for _, at := range s.place.PlateSupports() {
		under.Pins = append(under.Pins, frame.Pin{X: at.X.Metres(), Y: at.Y.Metres()})
	}
	if b.frame, err = s.unitSpring(under); err != nil {
		return b, fmt.Errorf("the frame's plate: %w", err)
	}
	b.frameYields = true
	return b, nil
}

// hubEdge is how near to the mast's root a screw may stand, mm, before the plate between them is taken as rigid.
const hubEdge = 0.5

// unitModulus is the modulus in Pa that the plates are solved for.
const unitModulus = 1e9

func (s *subject) unitSpring(p frame.Plate) ([6][6]float64, error) {
	p = p.Filled() // a bore that goes with the mast's height makes no other plate
	return s.shop.plates.take(keyOf(p), func() ([6][6]float64, error) {
		s.work.Plates++
		c, err := p.Compliance()
		if err != nil {
			return [6][6]float64{}, err
		}
		return c.Spring(0, 0, 0)
	})
}

// footSpring returns the spring between the frame's plate and the mast's root. The soft end has the screws pinned, the stiff end a root
// that is clamped; the middle takes half the soft end's compliance, which gives the geometric mean of the two first frequencies to first order.
func (s *subject) footSpring(v variant) [6][6]float64 {
	e := footModulus(s.assembly.Foot, s.footMaterial, s.footDirection, v.modulus)
	return seated(s.base.foot, e, s.yield(v.base), s.base.footYields)
}

// plateSpring returns the spring between the vehicle and the plate that the foot is screwed to.
func (s *subject) plateSpring(at seat) [6][6]float64 {
	e := s.plateMaterial.ModulusInLayer.Typical.Pascals()
	return seated(s.base.frame, e, s.yield(at), s.base.frameYields)
}

// yield returns the share of the soft end's compliance that the plates give.
func (s *subject) yield(at seat) float64 {
	if at == middle && s.lot != nil {
		return s.lot.Yield
	}
	return [...]float64{soft: 1, middle: middleYield, stiff: 0}[at]
}

const middleYield = 0.5

// seated returns the spring of a plate that is solved for the unit modulus, at a modulus in Pa and a share of its compliance.
func seated(unit [6][6]float64, modulus, yield float64, yields bool) [6][6]float64 {
	rigid := frame.Uncoupled(rigidForce, rigidForce, rigidForce, rigidMoment, rigidMoment, rigidMoment)
	if !yields || yield == 0 {
		return rigid
	}
	modulus /= yield
	for r := range 6 {
		for c := range 6 {
			unit[r][c] *= modulus / unitModulus
		}
	}
	unit[0][0], unit[1][1], unit[5][5] = rigidForce, rigidForce, rigidMoment
	return unit
}

// footModulus returns the modulus of a plate that bends like the printed one: solid faces over a core of infill.
func footModulus(plate parts.FootPlate, material materials.Material, direction materials.Direction, e end) float64 {
	solid := stiffness(material, direction, e)
	core := max(0, 1-2*plate.Shell.Face/plate.Thickness)
	return solid * (1 - core*core*core*(1-materials.CoreStiffness(fraction(plate.Shell.Infill)).Fraction()))
}

// loops turns an outline in mm into the engine's loops in m.
func loops(o outline.Outline) []frame.Loop {
	out := []frame.Loop{loop(o.Outer)}
	for _, hole := range o.Holes {
		out = append(out, loop(hole))
	}
	return out
}

func loop(l outline.Loop) frame.Loop {
	out := make(frame.Loop, len(l))
	for i, v := range l {
		out[i] = frame.Vertex{X: v.X / 1e3, Y: v.Y / 1e3, Bulge: v.Bulge}
	}
	return out
}
