package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/design/strength"
)

// notchOf turns a notch of a member into a section with its stress concentration, at the nearest cut of the span. A fillet concentrates the
// whole outline's stress; a hole only that of the wall it goes through, so its section ends at that wall and at the hole's own edges.
func (s *subject) notchOf(n parts.Notch, one span, bounds [2]float64) place {
	share := (n.At - bounds[0]) / (bounds[1] - bounds[0])
	cut := max(0, min(one.elements, int(math.Round(share*float64(one.elements)))))
	f := one.stations[cut].Section
	out := place{name: fmt.Sprintf("%s of the %s", n.Name, one.name), cut: cut, section: section(f), kt: 1}
	if n.Diameter > 0 {
		width := n.Small.Y
		out.section.Round = false
		if s.throughSide(n, one) {
			width = n.Small.X
			out.section.Y = n.Diameter / 2e3
		} else {
			out.section.Z = n.Diameter / 2e3
		}
		out.kt = strength.StripHole(n.Diameter/1e3, width/1e3).Kt
		if n.Long > 0 {
			out.kt *= slotShare(n.Diameter, n.Long)
		}
		if n.Name == "cable way" {
			out.kt *= slotShare(n.Diameter, s.doc.Mast.CableWay.Length.Millimetres())
		}
		return out
	}
	for _, side := range [2][2]float64{{n.Wide.X, n.Small.X}, {n.Wide.Y, n.Small.Y}} {
		if side[0] <= side[1] {
			continue
		}
		if f.Circular {
			out.kt = math.Max(out.kt, strength.ShaftShoulder(side[0]/1e3, side[1]/1e3, n.Radius/1e3).Kt)
		} else {
			out.kt = math.Max(out.kt, strength.ShoulderFillet(side[0]/1e3, side[1]/1e3, n.Radius/1e3).Kt)
		}
	}
	out.section = scaledTo(f, n.Small.X/1e3, n.Small.Y/1e3)
	return out
}

// slotShare returns by how much a slot along the stress concentrates less than a round hole of its width: as the ellipse of its width and
// length does, (1 + 2 width/length)/3. Source: Inglis's ellipse, any handbook of stress concentration; its use for a slot is from memory.
func slotShare(width, length float64) float64 {
	return (1 + 2*width/math.Max(width, length)) / 3
}

// throughSide says whether a hole goes through the left or right wall rather than through the front or rear one.
func (s *subject) throughSide(n parts.Notch, one span) bool {
	if n.Axis != (r3.Vec{}) {
		return math.Abs(n.Axis.Y) > math.Abs(n.Axis.X)
	}
	if n.Name == "cable way" {
		return s.doc.Mast.CableWay.Side == "left" || s.doc.Mast.CableWay.Side == "right"
	}
	for _, j := range s.assembly.Joints {
		if j.A == one.name || j.B == one.name {
			return math.Abs(j.Screw.Axis.Y) > math.Abs(j.Screw.Axis.X)
		}
	}
	return false
}

// scaledTo returns the section shrunk to outside sizes in m, as a fillet's nominal section is that of the stem without the fillet.
func scaledTo(f frame.Section, x, y float64) strength.Section {
	s := section(f)
	if wide, deep := f.Left+f.Right, f.Bottom+f.Top; x > 0 && y > 0 && (wide > x || deep > y) {
		kx, ky := math.Min(1, x/wide), math.Min(1, y/deep)
		s.Area *= kx * ky
		s.Iy *= kx * ky * ky * ky
		s.Iz *= kx * kx * kx * ky
		s.Y *= kx
		s.Z *= ky
		s.Torsion *= kx * ky * math.Min(kx, ky)
	}
	return s
}
