package review

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// balance weighs what the mount and the receiver add to the aircraft.
func (s *subject) balance() Verdict {
	if missing := s.lacks("airframe.mass", "receiver.mass"); missing != nil {
		return lacking("it needs the mass of the aircraft and of the receiver", missing...)
	}
	added := s.added()
	share := added.mass / s.aircraft.mass
	whole := s.whole()
	shift := r3.Sub(whole.cg, s.aircraft.cg)
	limits := s.doc.Limits.Balance
	v := judged(
		fixed("added mass over take-off mass", share*100, "%", &Limit{AtMost, limits.Pass.Percent(), limits.Marginal.Percent()}),
		fixed("printed parts and screws", (added.mass-s.doc.Receiver.Mass.Kilograms())*1e3, "g", nil),
		fixed("with the receiver", added.mass*1e3, "g", nil),
		fixed("centre of gravity moves forward", shift.X*1e3, "mm", nil),
		fixed("centre of gravity moves left", shift.Y*1e3, "mm", nil),
		fixed("centre of gravity moves up", shift.Z*1e3, "mm", nil),
		fixed("added inertia about forward", (whole.inertia[0][0]-s.aircraft.inertia[0][0])/s.aircraft.inertia[0][0]*100, "%", nil),
	)
	offset := r3.Sub(s.receiver, s.aircraft.cg)
	v.Because = fmt.Sprintf("mount and receiver weigh %.1f g on an aircraft of %.0f g", added.mass*1e3, s.aircraft.mass*1e3)
	v.Formula = fmt.Sprintf("(%.1f g + %.1f g) / %.0f g = %.1f %%", (added.mass-s.doc.Receiver.Mass.Kilograms())*1e3, s.doc.Receiver.Mass.Grams(), s.aircraft.mass*1e3, share*100)
	v.Notes = append(v.Notes, fmt.Sprintf("the receiver stands %.0f mm forward, %.0f mm left and %.0f mm up of the centre of gravity (x forward, y left, z up)",
		offset.X*1e3, offset.Y*1e3, offset.Z*1e3))
	return v
}

// added is everything the mount puts on the aircraft: printed parts, screws, receiver.
func (s *subject) added() lump {
	var sum lump
	for _, p := range s.assembly.Parts {
		material, err := s.library.Find(p.Material)
		if err != nil {
			continue
		}
		for _, b := range p.All() {
			sum = join(sum, newLump(b, material))
		}
	}
	for _, f := range s.fasteners() {
		sum = join(sum, lump{mass: f.mass, cg: f.at})
	}
	r := s.receiverBody(0)
	return join(sum, lump{mass: r.Mass, cg: r3.Add(s.receiver, r.CG), inertia: r.Inertia})
}

// whole is the aircraft with its mount and receiver.
func (s *subject) whole() lump {
	return join(lump{mass: s.aircraft.mass, cg: s.aircraft.cg, inertia: s.aircraft.inertia}, s.added())
}

// join returns two rigid bodies as one.
func join(a, b lump) lump {
	sum := lump{mass: a.mass + b.mass}
	if sum.mass == 0 {
		return sum
	}
	sum.cg = r3.Scale(1/sum.mass, r3.Add(r3.Scale(a.mass, a.cg), r3.Scale(b.mass, b.cg)))
	for _, l := range []lump{a, b} {
		d := triple(r3.Sub(l.cg, sum.cg))
		d2 := d[0]*d[0] + d[1]*d[1] + d[2]*d[2]
		for r := range 3 {
			for c := range 3 {
				sum.inertia[r][c] += l.inertia[r][c] - l.mass*d[r]*d[c]
			}
			sum.inertia[r][r] += l.mass * d2
		}
	}
	return sum
}
