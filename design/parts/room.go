package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/solid"
)

// Room is the free space around a screw's head or nut.
type Room struct {
	For   string  // the screw's use
	Index int     // of the screw, from 0
	Nut   bool    // of its nut, not its head
	Clear float64 // mm from its side outwards to the nearest part, looked for up to 1 mm; negative where it would be inside one
}

// roomSought is how far around a head or a nut is looked, mm.
const roomSought = 1.0

// Rooms measures the space around every head and every nut against the solids, the least of each use. A nut in a pocket of its
// own is left out.
func (a Assembly) Rooms() []Room {
	var all []Room
	bodies := a.placed()
	for _, u := range a.Screws {
		head, err := u.Size.Head(u.Head)
		if err != nil || len(u.At) == 0 {
			continue
		}
		look := func(nut bool, from, high, diameter float64) {
			least := Room{For: u.For, Nut: nut, Clear: math.Inf(1)}
			for i, at := range u.At {
				foot := r3.Add(at, r3.Scale(from, r3.Unit(u.Axis)))
				if c := bodies.clear(foot, u.Axis, high, diameter/2); c < least.Clear {
					least.Index, least.Clear = i, c
				}
			}
			all = append(all, least)
		}
		look(false, -head.Height.Millimetres(), head.Height.Millimetres(), head.Diameter.Millimetres())
		if u.Nut && !u.Pocket {
			n := u.Size.Nut()
			look(true, u.Grip+u.Through, n.Height.Millimetres(), n.AcrossCorners().Millimetres())
		}
	}
	return all
}

// placed are the solids of a mount, each with the way from the mount's axes to its own.
type placed []struct {
	node solid.Node
	back mesh.Pose
	at   r3.Vec
}

func (a Assembly) placed() placed {
	var all placed
	for _, p := range a.Parts {
		node := p.Solid()
		places := p.Places
		if len(places) == 0 {
			places = []mesh.Pose{mesh.Turn(r3.Vec{Z: 1}, 0)}
		}
		for _, at := range places {
			shift := at.At
			at.At = r3.Vec{}
			all = append(all, struct {
				node solid.Node
				back mesh.Pose
				at   r3.Vec
			}{node, inverse(at), shift})
		}
	}
	return all
}

// clear is the least way in mm from the side of a cylinder outwards to the solids, negative how deep it is inside one; its ends,
// which lie on them, are left out. A solid's value bounds the way from below, so it is walked until a solid is met.
func (all placed) clear(foot, axis r3.Vec, high, radius float64) float64 {
	const around, levels = 16, 3
	p := pointing(axis)
	all = all.within(r3.Add(foot, r3.Scale(high/2, p.Z)), math.Hypot(radius+roomSought, high/2))
	least := roomSought
	for k := range levels {
		z := high * (float64(k) + 0.5) / levels
		for i := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / around)
			out := r3.Add(r3.Scale(cos, p.X), r3.Scale(sin, p.Y))
			from := r3.Add(foot, r3.Scale(z, p.Z))
			least = min(least, all.walk(from, out, radius, least))
		}
	}
	return least
}

// within are the solids that may lie nearer than so far to a place.
func (all placed) within(at r3.Vec, far float64) placed {
	var near placed
	for _, b := range all {
		if b.node.Value(b.back.Apply(r3.Sub(at, b.at))) < far {
			near = append(near, b)
		}
	}
	return near
}

// walk is how far one can go from a distance out before a solid is met, at most so far; negative how far back one must.
func (all placed) walk(from, out r3.Vec, radius, most float64) float64 {
	const step = 0.02
	value := func(way float64) float64 { return all.value(r3.Add(from, r3.Scale(radius+way, out))) }
	if value(0) < 0 {
		way := 0.0
		for -way < radius && value(way) < 0 {
			way -= step
		}
		return way
	}
	way := 0.0
	for way < most {
		v := value(way)
		if v < 0 {
			return max(0, way-step)
		}
		way += max(v, step)
	}
	return most
}

// value is that of all the solids together at a place.
func (all placed) value(at r3.Vec) float64 {
	least := math.Inf(1)
	for _, b := range all {
		least = min(least, b.node.Value(b.back.Apply(r3.Sub(at, b.at))))
	}
	return least
}
