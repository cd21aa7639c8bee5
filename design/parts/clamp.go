package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/materials/hardware"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// clamp is a split sleeve around the tube, with ears that its screws draw together. In its own axes the ears point forward; turn is
// where they do point.
type clamp struct {
	name     string  // "foot", "tray"
	from, to float64 // levels of the sleeve
	stop     float64 // level at which the tube's end rests, a little beyond
	outside  float64 // diameter of the sleeve
	bore     float64 // as printed
	slit     float64
	turn     float64
	thread   thread
	levels   []float64 // of the screws
	ear      float64   // how far out the ears reach, from the axis
	bolt     float64   // the screws' distance from the axis
	half     float64   // half the width over both ears

	key      thread  // of the cross screw; size 0 for none
	keyLevel float64 // on the side away from the ears
}

// Figures of the clamps in mm. Judgement.
const (
	clampPlay   = 0.05 // each side, before the screws close it
	earLeast    = 3.0  // thickness of an ear
	earEdge     = 1.0  // beyond a screw's head
	earGap      = 0.5  // between the head and the sleeve
	slitFoot    = 0.6  // what the slit leaves at the plate
	tubeSeat    = 0.8  // how deep the tube's end sits in the plate
	keySeat     = 0.6  // flat for the cross screw's head
	keyShare    = 0.36 // of the tube's outside that a cross screw's hole may take
	clampMargin = 1.0  // plastic around a screw's head at the ends of the ears
)

// earTurns are the directions that ears may point to, the first that has room is taken: across the aircraft, along it, between.
var earTurns = []float64{math.Pi / 2, -math.Pi / 2, 0, math.Pi, math.Pi / 4, 3 * math.Pi / 4, -3 * math.Pi / 4, -math.Pi / 4}

// shapeEars lays out ears and screws over the grip.
func (k *clamp) shapeEars(wall float64) {
	r := k.outside / 2
	k.half = min(max(wall, earLeast)+k.slit/2, r-0.2)
	head := k.thread.headDiameter
	k.bolt = r + head/2 + earGap
	k.ear = k.bolt + head/2 + earEdge
	grip := k.to - k.from
	n := max(1, int(grip/(2*head+1)))
	for i := range n {
		k.levels = append(k.levels, k.from+grip*(float64(i)+0.5)/float64(n))
	}
}

// earBox is the room that the ears take with their screws' heads and nuts, in the clamp's own axes.
func (k clamp) earBox() outline.Loop {
	out := k.half + max(k.thread.headHeight, k.thread.nutHeight+1) + 0.3
	return box(r2.Vec{X: k.outside / 2, Y: -out}, r2.Vec{X: k.ear, Y: out})
}

// earLoop is both ears and the slit between them outside the sleeve.
func (k clamp) earLoop() outline.Loop {
	r := k.outside / 2
	return k.beside(r, k.ear, k.half)
}

// beside is the strip of half a width from a circle about the axis out to a distance.
func (k clamp) beside(r, far, half float64) outline.Loop {
	x := math.Sqrt(r*r - half*half)
	arc := math.Tan(math.Asin(half/r) / 2)
	return outline.Loop{{X: x, Y: -half}, {X: far, Y: -half}, {X: far, Y: half}, {X: x, Y: half, Bulge: -arc}}
}

// slitLoop is the slit through the sleeve's wall.
func (k clamp) slitLoop() outline.Loop {
	l := k.beside(k.bore/2, k.outside/2, k.slit/2)
	r, half := k.outside/2, k.slit/2
	x := math.Sqrt(r*r - half*half)
	l[1].X, l[2].X = x, x
	l[1].Bulge = math.Tan(math.Asin(half/r) / 2)
	return l
}

// ring is the sleeve across its axis, closed as its screws hold it, grown by a fillet.
func (k clamp) ring(grow float64) outline.Outline {
	return plate(outline.Circle(k.outside/2+grow), outline.Circle(k.bore/2))
}

// member is the sleeve as a bar, with its fillet at the plate's end.
func (c *tube) clampMember(k clamp, material string) Member {
	m := Member{Name: k.name + " clamp", Part: k.name, Material: material, From: r3.Vec{Z: k.from}, To: r3.Vec{Z: k.to}}
	long := k.to - k.from
	add := func(z, grow float64) { m.Stations = append(m.Stations, c.station((z-k.from)/long, k.ring(grow))) }
	small := section{X: k.outside, Y: k.outside, Radius: k.outside / 2}
	if k.name == "foot" {
		for _, p := range filletPoints(c.rootFillet, 0) {
			add(k.from+p.along, p.out)
		}
		add(k.to, 0)
		m.Notches = c.filletNotch(m.Notches, "root fillet", 0, c.rootFillet, small, c.foot.outside)
		return m
	}
	add(k.from, 0)
	points := filletPoints(c.tipFillet, 0)
	if c.flare > 0 {
		points = []filletPoint{{0, c.flare}, {c.flare, 0}}
	} else {
		m.Notches = c.filletNotch(m.Notches, "tip fillet", 1, c.tipFillet, small, c.tray.floor)
	}
	for i := len(points) - 1; i >= 0; i-- {
		add(k.to-points[i].along, points[i].out)
	}
	return m
}

// extras is what the clamp has besides its sleeve: ears, less the slit, the screws' holes and the cross screw's.
func (k clamp) extras(fillet float64) Body {
	var l lump
	put := func(o outline.Loop, low, high, sign float64) { l.slab(o.Rotate(k.turn).Section(), low, high, 1, sign) }
	slitFrom, slitTo := k.slitEnds()
	put(k.earLoop(), k.from, k.to, 1)
	put(k.slitLoop(), slitFrom, slitTo, -1)
	put(box(r2.Vec{X: k.outside / 2, Y: -k.slit / 2}, r2.Vec{X: k.ear, Y: k.slit / 2}), slitFrom, slitTo, -1)
	if fillet > 0 { // the ears take its place
		corner := (1 - math.Pi/4) * fillet * fillet
		at := r2.Vec{X: k.outside/2 + 0.22*fillet}
		level := k.from + 0.22*fillet
		if k.name == "tray" {
			level = k.to - 0.22*fillet
		}
		l.sheet(outline.Section{Area: 2 * k.half, Centroid: turned(at, k.turn)}, level, -corner, -corner)
	}
	hole := math.Pi / 4 * k.thread.hole
	for _, z := range k.levels {
		ears := outline.Section{Area: (2*k.half - k.slit) * k.thread.hole, Centroid: turned(r2.Vec{X: k.bolt}, k.turn)}
		l.sheet(ears, z, -hole/k.thread.hole*k.thread.hole, -hole)
	}
	if k.key.size != 0 {
		wall := (k.outside - k.bore) / 2
		pilot := pilotOf(k.key)
		way := outline.Section{Area: (wall - keySeat) * pilot, Centroid: turned(r2.Vec{X: -(k.bore + wall) / 2}, k.turn)}
		l.sheet(way, k.keyLevel, -math.Pi/4*pilot, -math.Pi/4*pilot)
	}
	return l.body()
}

// slitEnds are the levels between which the clamp is open: all of it but a little at the plate, that keeps the plate whole.
func (k clamp) slitEnds() (from, to float64) {
	if k.name == "foot" {
		return k.from + slitFoot, k.to
	}
	return k.from, k.to - slitFoot
}

// bodies are the sleeve and its ears as solids, from low to high, which may reach into a plate.
func (k clamp) bodies(low, high float64) (stem, ears solid.Node) {
	stem = solid.Named(k.name+" clamp", solid.Move(solid.Cylinder(k.outside/2, high-low), r3.Vec{Z: low}))
	in := k.outside/2 - 0.6*(k.outside-k.bore)/2
	e := solid.Move(solid.Box(k.ear-in, 2*k.half, high-low), r3.Vec{X: (k.ear + in) / 2, Z: low})
	return stem, solid.Named(k.name+" clamp ears", solid.Rotate(e, k.turn, r3.Vec{Z: 1}))
}

// cutters open the clamp: bore, slit and the screws' holes. Beyond is how far out a fillet goes that the slit must cut.
func (k clamp) cutters(beyond float64) []solid.Node {
	low, high := k.stop, k.to+1
	if k.name == "tray" {
		low, high = k.from-1, k.stop
	}
	all := []solid.Node{solid.Named(k.name+" clamp bore", solid.Move(solid.Cylinder(k.bore/2, high-low), r3.Vec{Z: low}))}
	turn := func(n solid.Node, name string) {
		all = append(all, solid.Named(k.name+" clamp "+name, solid.Rotate(n, k.turn, r3.Vec{Z: 1})))
	}
	from, to := k.slitEnds()
	if k.name == "foot" {
		to++
	} else {
		from--
	}
	far := max(k.ear, k.outside/2+beyond) + 1
	turn(solid.Move(solid.Box(far, k.slit, to-from), r3.Vec{X: far / 2, Z: from}), "slit")
	across := 2*k.half + 2
	for _, z := range k.levels {
		n := solid.Rotate(solid.Cylinder(k.thread.hole/2, across), -math.Pi/2, r3.Vec{X: 1})
		turn(solid.Move(n, r3.Vec{X: k.bolt, Y: -across / 2, Z: z}), "hole")
	}
	if k.key.size != 0 {
		out := k.outside/2 + beyond + 1
		pilot := solid.Rotate(solid.Cylinder(pilotOf(k.key)/2, out), -math.Pi/2, r3.Vec{Y: 1})
		turn(solid.Move(pilot, r3.Vec{Z: k.keyLevel}), "key hole")
		seat := k.outside/2 - keySeat
		flat := solid.Rotate(solid.Cylinder((k.key.headDiameter+headRoom)/2, out-seat), -math.Pi/2, r3.Vec{Y: 1})
		turn(solid.Move(flat, r3.Vec{X: -seat, Z: k.keyLevel}), "key seat")
	}
	return all
}

// uses are the screws that close the clamp, and its cross screw.
func (k clamp) uses(material string, wall float64) []ScrewUse {
	t := k.thread
	v := turned(r2.Vec{Y: 1}, k.turn)
	seat := turned(r2.Vec{X: k.bolt, Y: k.half}, k.turn)
	u := ScrewUse{
		For: k.name + " clamp", Size: t.size, Head: hardware.Socket, Material: material, Count: len(k.levels), Axis: r3.Vec{X: -v.X, Y: -v.Y},
		Hole: t.hole, Grip: 2 * k.half, Engagement: t.nutEngagement, HeadRoom: 2 * (k.bolt - k.outside/2 + earGap), Nut: true,
	}
	for _, z := range k.levels {
		u.At = append(u.At, r3.Vec{X: seat.X, Y: seat.Y, Z: z})
	}
	u.HeadRoom = t.headDiameter + 2*min(earGap, earEdge)
	u.Length = stock(u.Grip, u.Engagement)
	if k.key.size == 0 {
		return []ScrewUse{u}
	}
	at := turned(r2.Vec{X: keySeat - k.outside/2}, k.turn)
	in := turned(r2.Vec{X: 1}, k.turn)
	grip := (k.outside-k.bore)/2 - keySeat
	cross := ScrewUse{
		For: k.name + " key", Size: k.key.size, Head: hardware.Socket, Material: material, Count: 1,
		At: []r3.Vec{{X: at.X, Y: at.Y, Z: k.keyLevel}}, Axis: r3.Vec{X: in.X, Y: in.Y},
		Hole: pilotOf(k.key), Pilot: pilotOf(k.key), Grip: grip, Engagement: wall, HeadRoom: k.key.headDiameter + headRoom,
	}
	cross.Length = stock(cross.Grip, cross.Engagement)
	return []ScrewUse{u, cross}
}

// pilotOf is the hole for a thread cut in plastic: 0.85 of the thread's diameter. Common practice, no source.
func pilotOf(t thread) float64 { return 0.85 * t.diameter }

// clears is whether the ears keep away from circles and loops around them.
func (k clamp) clears(circles []r2.Vec, diameter float64, loops []outline.Loop) bool {
	ears := k.earBox().Rotate(k.turn)
	for _, p := range circles {
		if ears.Distance(p) < diameter/2+0.3 {
			return false
		}
	}
	for _, l := range loops {
		if meet(ears, l) {
			return false
		}
	}
	return true
}
