package view

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/units"
)

func (m *Model) ofMount(path string) (distance, bool) {
	mast, tray, foot, receiver := m.doc.Mast, m.doc.Tray, m.doc.Foot, m.doc.Receiver
	footSize, _ := m.doc.FootSize()
	traySize, _ := m.doc.TraySize()
	root, tip := mast.Outline(mast.Root), mast.Outline(mast.Tip)
	seat, rise := m.assembly.Seat, m.assembly.Foot.Rise
	under := r3.Vec{Z: seat.Z - tray.Thickness.Millimetres()}
	at := func(z float64) r3.Vec { return r3.Vec{Z: z} }
	half := func(l units.Length) float64 { return l.Millimetres() / 2 }
	body := receiver.Outline()
	bottom := seat
	if receiver.Fixing == "tape" {
		bottom.Z += receiver.Tape.Thickness.Millimetres()
	}
	compass := r3.Add(bottom, r3.Vec{X: receiver.Compass.X.Millimetres(), Y: receiver.Compass.Y.Millimetres(), Z: receiver.Compass.Z.Millimetres()})
	wayX, wayY := half(root.X), half(root.Y)
	beside := func(from, to units.Length) distance {
		return upright(r3.Vec{}, from.Millimetres(), to.Millimetres(), wayX, wayY, millimetres(to-from))
	}
	switch path {
	case "mast.height":
		d := upright(r3.Vec{}, 0, mast.Height.Millimetres(), half(max(traySize.X, footSize.X)), half(max(traySize.Y, footSize.Y)), millimetres(mast.Height))
		d.edge = [2]r3.Vec{{X: half(footSize.X), Y: half(footSize.Y)}, {X: half(traySize.X), Y: half(traySize.Y)}}
		return d, true
	case "mast.root.x":
		return level(at(rise), forward, root.X, half(max(root.Y, footSize.Y))), true
	case "mast.root.y":
		return level(at(rise), left, root.Y, half(max(root.X, footSize.X))), true
	case "mast.tip.x":
		return level(under, forward, tip.X, half(traySize.Y)), true
	case "mast.tip.y":
		return level(under, left, tip.Y, half(traySize.X)), true
	case "mast.cable_way.bottom":
		return beside(0, mast.CableWay.Bottom), mast.CableWay.Side != "none"
	case "mast.cable_way.length":
		return beside(mast.CableWay.Bottom, mast.CableWay.Bottom+mast.CableWay.Length), mast.CableWay.Side != "none"
	case "foot.size.x":
		return level(r3.Vec{}, forward, footSize.X, half(footSize.Y)), true
	case "foot.size.y":
		return level(r3.Vec{}, left, footSize.Y, half(footSize.X)), true
	case "foot.thickness":
		return upright(r3.Vec{}, 0, foot.Thickness.Millimetres(), half(footSize.X), half(footSize.Y), millimetres(foot.Thickness)), true
	case "tray.size.x":
		return level(under, forward, traySize.X, half(traySize.Y)), true
	case "tray.size.y":
		return level(under, left, traySize.Y, half(traySize.X)), true
	case "tray.thickness":
		return upright(r3.Vec{}, under.Z, seat.Z, half(traySize.X), half(traySize.Y), millimetres(tray.Thickness)), true
	case "tray.rim_height":
		return upright(r3.Vec{}, seat.Z, seat.Z+tray.RimHeight.Millimetres(), half(traySize.X), half(traySize.Y), millimetres(tray.RimHeight)), receiver.Fixing == "rim"
	case "receiver.size.x":
		return level(at(bottom.Z+receiver.Size.Z.Millimetres()), forward, body.X, half(body.Y)), true
	case "receiver.size.y":
		return level(at(bottom.Z+receiver.Size.Z.Millimetres()), left, body.Y, half(body.X)), true
	case "receiver.size.z":
		return upright(r3.Vec{}, bottom.Z, bottom.Z+receiver.Size.Z.Millimetres(), half(traySize.X), half(traySize.Y), millimetres(receiver.Size.Z)), true
	case "receiver.holes.x":
		return level(bottom, forward, receiver.Holes.X, half(traySize.Y)), true
	case "receiver.holes.y":
		return level(bottom, left, receiver.Holes.Y, half(traySize.X)), true
	case "receiver.compass.x":
		return distance{a: r3.Vec{Z: compass.Z}, b: r3.Vec{X: compass.X, Z: compass.Z}, away: []r3.Vec{{Z: 30}}, figure: millimetres(receiver.Compass.X)}, true
	case "receiver.compass.y":
		return distance{a: r3.Vec{Z: compass.Z}, b: r3.Vec{Y: compass.Y, Z: compass.Z}, away: []r3.Vec{{Z: 30}}, figure: millimetres(receiver.Compass.Y)}, true
	case "receiver.compass.z":
		return upright(r3.Vec{}, bottom.Z, compass.Z, half(traySize.X), half(traySize.Y), millimetres(receiver.Compass.Z)), true
	}
	return distance{}, false
}

func (m *Model) ofPlace(place design.Place, rest string) (distance, bool) {
	at, turn := m.at(place.At), place.Turn.Radians()
	size := place.PlateSize()
	spots, _, err := place.Holes.Centres()
	point := func(s design.Spot) r3.Vec { return r3.Add(at, turned(s, turn)) }
	o := m.origin()
	reach := max(size.X.Millimetres(), size.Y.Millimetres()) / 2
	// between is the distance of two holes as it was read, seen from the pattern's outside
	between := func(i, j int, figure units.Length) (distance, bool) {
		if err != nil || max(i, j) >= len(spots) {
			return distance{}, false
		}
		a, b := point(spots[i]), point(spots[j])
		if long := r3.Norm(r3.Sub(b, a)); long > 0 {
			u := r3.Scale(map[string]float64{"near edges": 0.5, "far edges": -0.5}[place.Holes.Read]*place.Holes.Diameter.Millimetres()/long, r3.Sub(b, a))
			a, b = r3.Add(a, u), r3.Sub(b, u)
		}
		out := r3.Sub(r3.Scale(0.5, r3.Add(a, b)), at)
		if r3.Norm(out) < 1 {
			out = r3.Cross(up, r3.Sub(b, a))
		}
		clear := reach + gap - r3.Norm(out)
		return distance{a: a, b: b, away: []r3.Vec{r3.Scale(max(clear, gap)/r3.Norm(out), out)}, figure: millimetres(figure)}, true
	}
	switch rest {
	case "holes.along":
		return between(0, 1, place.Holes.Along)
	case "holes.across":
		across := place.Holes.Across
		if across == 0 {
			across = place.Holes.Along
		}
		return between(1, 2, across)
	case "holes.ring":
		return between(0, len(spots)/2, place.Holes.Ring)
	case "holes.diameter":
		if err != nil || len(spots) == 0 {
			return distance{}, false
		}
		d := level(point(spots[0]), forward, place.Holes.Diameter, reach)
		return d, true
	case "at.x":
		return distance{a: r3.Vec{X: o.X, Y: at.Y, Z: at.Z}, b: at, away: []r3.Vec{{Y: reach + gap}, {Y: -reach - gap}}, figure: millimetres(place.At.X)}, true
	case "at.y":
		return distance{a: r3.Vec{X: at.X, Y: o.Y, Z: at.Z}, b: at, away: []r3.Vec{{X: reach + gap}, {X: -reach - gap}}, figure: millimetres(place.At.Y)}, true
	case "at.z":
		return upright(r3.Vec{X: at.X, Y: at.Y}, o.Z, at.Z, reach, reach, millimetres(place.At.Z)), true
	case "plate.size.x":
		return level(at, forward, size.X, size.Y.Millimetres()/2), true
	case "plate.size.y":
		return level(at, left, size.Y, size.X.Millimetres()/2), true
	case "plate.thickness":
		return upright(r3.Vec{X: at.X, Y: at.Y}, at.Z-place.Plate.Thickness.Millimetres(), at.Z, size.X.Millimetres()/2, size.Y.Millimetres()/2, millimetres(place.Plate.Thickness)), true
	}
	var k int
	if n, scanned := fmt.Sscanf(rest, "holes.distances[%d].length", &k); n == 1 && scanned == nil && k >= 0 && k < len(place.Holes.Distances) {
		d := place.Holes.Distances[k]
		return between(d.From-1, d.To-1, d.Length)
	}
	return distance{}, false
}

func (m *Model) ofNeighbour(n design.Neighbour, rest string) (distance, bool) {
	at, o := m.at(n.At), m.origin()
	x, y, z := n.Size.X.Millimetres()/2, n.Size.Y.Millimetres()/2, n.Size.Z.Millimetres()/2
	top := r3.Vec{X: at.X, Y: at.Y, Z: at.Z + z}
	switch rest {
	case "at.x":
		return distance{a: r3.Vec{X: o.X, Y: at.Y, Z: top.Z}, b: top, away: []r3.Vec{{Y: y + gap}, {Y: -y - gap}}, figure: millimetres(n.At.X)}, true
	case "at.y":
		return distance{a: r3.Vec{X: at.X, Y: o.Y, Z: top.Z}, b: top, away: []r3.Vec{{X: x + gap}, {X: -x - gap}}, figure: millimetres(n.At.Y)}, true
	case "at.z":
		return upright(r3.Vec{X: at.X, Y: at.Y}, o.Z, at.Z, x, y, millimetres(n.At.Z)), true
	case "size.x":
		return level(top, forward, n.Size.X, y), true
	case "size.y":
		return level(top, left, n.Size.Y, x), true
	case "size.z":
		return upright(r3.Vec{X: at.X, Y: at.Y}, at.Z-z, at.Z+z, x, y, millimetres(n.Size.Z)), true
	}
	return distance{}, false
}

// ofLead measures a lead where it passes the mast: half way along its conductors.
func (m *Model) ofLead(lead design.Lead, rest string) (distance, bool) {
	for _, w := range m.result.Wires {
		if w.Lead != lead.Name || len(w.Red) < 2 || len(w.Black) < 2 {
			continue
		}
		p, q := nearest(w.Red, r3.Vec{Z: w.Red[0].Z}), r3.Vec{}
		q = nearest(w.Black, p)
		middle := r3.Scale(0.5, r3.Add(p, q))
		floor := m.origin().Z
		switch rest {
		case "height":
			return upright(r3.Vec{X: middle.X, Y: middle.Y}, floor, middle.Z, 12, 12, millimetres(lead.Height)), true
		case "offset":
			return distance{a: r3.Vec{X: middle.X, Z: middle.Z}, b: r3.Vec{X: middle.X, Y: middle.Y, Z: middle.Z}, away: []r3.Vec{{X: 26}, {X: -26}}, figure: millimetres(lead.Offset)}, true
		case "spacing":
			return distance{a: p, b: q, away: []r3.Vec{{X: 14}, {X: -14}}, figure: millimetres(lead.Spacing)}, true
		}
	}
	return distance{}, false
}

// nearest returns the point of a chain nearest to another point.
func nearest(chain []r3.Vec, p r3.Vec) r3.Vec {
	best, least := chain[0], math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, u := chain[i-1], r3.Sub(chain[i], chain[i-1])
		t := 0.0
		if long := r3.Dot(u, u); long > 0 {
			t = min(max(r3.Dot(r3.Sub(p, a), u)/long, 0), 1)
		}
		q := r3.Add(a, r3.Scale(t, u))
		if d := r3.Norm(r3.Sub(q, p)); d < least {
			best, least = q, d
		}
	}
	return best
}

func (m *Model) ofAircraft(path string) (distance, bool) {
	o := m.origin()
	spots := m.doc.MotorSpots()
	switch path {
	case "airframe.motor_diagonal":
		if len(spots) < 2 {
			return distance{}, false
		}
		far := spots[len(spots)/2]
		z := design.Point{Z: m.doc.Motors.PropellerHeight}.Z
		a, b := m.at(design.Point{X: spots[0].X, Y: spots[0].Y, Z: z}), m.at(design.Point{X: far.X, Y: far.Y, Z: z})
		return distance{a: a, b: b, away: []r3.Vec{{}}, figure: millimetres(m.doc.Airframe.MotorDiagonal)}, true
	case "airframe.arm_height", "motors.propeller_height":
		if len(spots) == 0 {
			return distance{}, false
		}
		figure := m.doc.Airframe.ArmHeight
		if path == "motors.propeller_height" {
			figure = m.doc.Motors.PropellerHeight
		}
		s := spots[0]
		at := m.at(design.Point{X: s.X, Y: s.Y})
		return upright(r3.Vec{X: at.X, Y: at.Y}, o.Z, o.Z+figure.Millimetres(), 18, 18, millimetres(figure)), true
	case "motors.propeller":
		if len(spots) == 0 {
			return distance{}, false
		}
		at := m.at(design.Point{X: spots[0].X, Y: spots[0].Y, Z: m.doc.Motors.PropellerHeight})
		d := level(at, left, m.doc.Motors.Propeller, 0)
		d.away = []r3.Vec{{}}
		return d, true
	}
	return distance{}, false
}
