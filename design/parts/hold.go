package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/materials/hardware"
)

// Hold is how a group of screws holds, in mm.
type Hold struct {
	Use      ScrewUse
	Standard string       // of screw and head: "ISO 4762"
	End      hardware.End // what the thread is in
	Across   bool         // it works across its thread, as a pin: no length of thread is asked of it
	Grip     float64      // all that is between head and thread
	Thread   float64      // that engages
	Least    float64      // that its end needs; 0 for a pin
	Beyond   float64      // that the tip stands out of what holds it; negative where it does not come through
	Ahead    float64      // free before the tip, the least of the group, looked for up to AheadSought; negative how far the screw runs into a part
	Unseen   bool         // the tip is under the frame's plate or in the frame: only the builder can see what is ahead of it
	Rooms    []Room       // around the tightest head, and the tightest nut that sits in no pocket
}

// AheadSought is how far before a tip is looked, mm.
const AheadSought = 5.0

// Holds works out how every group of screws holds.
func (a Assembly) Holds() []Hold {
	rooms := a.Rooms()
	bodies := a.placed()
	var all []Hold
	for _, u := range a.Screws {
		h := Hold{Use: u, Standard: u.Head.Standard(), Grip: u.Grip + u.Through}
		long := u.Length.Millimetres() - h.Grip
		deep := math.Inf(1) // of thread on offer
		switch {
		case u.Insert:
			h.End, deep = hardware.InInsert, u.Size.Insert().Length.Millimetres()
		case u.Nut:
			h.End, deep = hardware.InNut, u.Size.Nut().Height.Millimetres()
		case u.Pilot > 0:
			h.End, h.Across, deep = hardware.InPlastic, true, u.Engagement
		default:
			h.End = hardware.InMetal
		}
		h.Thread, h.Beyond = max(0, min(long, deep)), long-deep
		if math.IsInf(deep, 1) {
			h.Beyond = 0
		}
		if least, err := u.Size.Thread(h.End); err == nil && !h.Across {
			h.Least = least.Millimetres()
		}
		h.Unseen = h.End == hardware.InMetal || u.For == "foot" && h.End == hardware.InNut && !u.Pocket
		h.Ahead = AheadSought
		if !h.Unseen && u.Length > 0 {
			h.Ahead = bodies.ahead(u, h.Grip+min(long, deep), u.Length.Millimetres())
		}
		for _, r := range rooms {
			if r.For == u.For {
				h.Rooms = append(h.Rooms, r)
			}
		}
		all = append(all, h)
	}
	return all
}

// ahead is how much is free before the tips of a group of screws, negative how far the stretch between what holds one and its tip runs
// into a part.
func (all placed) ahead(u ScrewUse, from, tip float64) float64 {
	const step, sides = 0.05, 4
	least := AheadSought
	axis := r3.Unit(u.Axis)
	p := pointing(axis)
	radius := u.Size.Diameter().Millimetres() / 2 * 0.98 // a screw may touch its own hole
	if u.Pilot > 0 {
		radius = u.Pilot / 2 * 0.95 // its thread cuts into a wall that ends aslant
	}
	for _, at := range u.At {
		for k := range sides + 1 {
			out := r3.Vec{}
			if k > 0 {
				sin, cos := math.Sincos(2 * math.Pi * float64(k) / sides)
				out = r3.Add(r3.Scale(radius*cos, p.X), r3.Scale(radius*sin, p.Y))
			}
			for way := from + step; way < tip+least; {
				v := all.value(r3.Add(r3.Add(at, out), r3.Scale(way, axis)))
				if v < 0 {
					least = way - tip
					break
				}
				way += max(v, step)
			}
		}
	}
	return least
}
