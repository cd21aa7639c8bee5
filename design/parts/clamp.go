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
	neck     neck    // of a foot clamp with a fuse
	stop     float64 // level at which the tube's end rests, a little beyond
	outside  float64 // diameter of the sleeve
	bore     float64 // as printed
	slit     float64
	turn     float64
	thread   thread
	washers  bool
	levels   []float64 // of the screws
	ear      float64   // how far out the ears reach, from the axis
	bolt     float64   // the screws' distance from the axis
	half     float64   // half the width over both ears

	key      thread  // of the cross screw; size 0 for none
	keyLevel float64 // on the side away from the ears
}

// neck is the weakened ring under a foot's clamp: a thin tube on the plate that widens to the sleeve at 45 degrees.
type neck struct {
	fuse
	outside float64 // diameter
	hole    float64 // for the cable; 0 for none
	root    float64 // level at which it stands on the plate
}

// root is the level at which the clamp, or its neck, stands on the plate or ends under it.
func (k clamp) root() float64 {
	if k.neck.fitted {
		return k.neck.root
	}
	return k.from
}

// stem is the diameter of what stands on the plate.
func (k clamp) stem() float64 {
	if k.neck.fitted {
		return k.neck.outside
	}
	return k.outside
}

// middle is the level of the middle of the grip, where the clamp's springs act.
func (k clamp) middle() float64 { return (k.from + k.to) / 2 }

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
	head := k.headed()
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
	if k.washers {
		out += k.thread.washer.Thickness.Millimetres()
	}
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
	root := k.root()
	m := Member{Name: k.name + " clamp", Part: k.name, Material: material, From: r3.Vec{Z: root}, To: r3.Vec{Z: k.to}}
	put := func(z float64, o outline.Outline) {
		m.Stations = append(m.Stations, c.station((z-root)/(k.to-root), o))
	}
	add := func(z, grow float64) { put(z, k.ring(grow)) }
	small := section{X: k.stem(), Y: k.stem(), Radius: k.stem() / 2}
	if k.name == "foot" {
		grown := k.ring
		if k.neck.fitted {
			grown = k.neck.ring
		}
		for _, p := range filletPoints(c.rootFillet, 0) {
			put(root+p.along, grown(p.out))
		}
		if n := k.neck; n.fitted { // the tube's end stands where the sleeve's bore begins
			put(n.to, n.ring(0))
			put(k.stop, n.ring(k.stop-n.to))
			add(k.stop, k.stop-k.from)
			add(k.from, 0)
			wide := r2.Vec{X: k.outside, Y: k.outside}
			m.Notches = append(m.Notches, Notch{Name: "fuse", At: (n.middle() - root) / (k.to - root), Radius: (n.to - n.from) / 2,
				Small: r2.Vec{X: n.outside, Y: n.outside}, Wide: wide})
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

// ring is the neck across its axis, grown by a fillet or by what it widens.
func (n neck) ring(grow float64) outline.Outline {
	if n.hole == 0 {
		return plate(outline.Circle(n.outside/2 + grow))
	}
	return plate(outline.Circle(n.outside/2+grow), outline.Circle(n.hole/2))
}

// extras is what the clamp has besides its sleeve and the fillet or flare that spreads it: ears, less the slit, the screws' holes
// and the cross screw's.
func (k clamp) extras(spread float64, flare bool) Body {
	var l lump
	put := func(o outline.Loop, low, high, sign float64) { l.slab(o.Rotate(k.turn).Section(), low, high, 1, sign) }
	slitFrom, slitTo := k.slitEnds()
	put(k.earLoop(), k.from, k.to, 1)
	put(k.slitLoop(), slitFrom, slitTo, -1)
	put(box(r2.Vec{X: k.outside / 2, Y: -k.slit / 2}, r2.Vec{X: k.ear, Y: k.slit / 2}), slitFrom, slitTo, -1)
	if spread > 0 { // the ears take its place
		corner, far := (1-math.Pi/4)*spread*spread, 0.22*spread
		if flare {
			corner, far = spread*spread/2, spread/3
		}
		if k.neck.fitted {
			corner = 0 // they are above it
		}
		at := r2.Vec{X: k.outside/2 + far}
		level := k.from + far
		if k.name == "tray" {
			level = k.to - far
		}
		l.sheet(outline.Section{Area: 2 * k.half, Centroid: turned(at, k.turn)}, level, -corner, -corner)
	}
	b, along := l.body(), turned(r2.Vec{Y: 1}, k.turn)
	for _, z := range k.levels {
		b = bored(b, k.at(k.bolt, z), r3.Vec{X: along.X, Y: along.Y}, k.thread.hole, 2*k.half-k.slit)
	}
	if k.key.size != 0 {
		wall := (k.outside - k.bore) / 2
		b = bored(b, k.at(-(k.bore+wall)/2, k.keyLevel), k.at(1, 0), pilotOf(k.key), wall)
		b = bored(b, k.at(-k.outside/2+keySeat/3, k.keyLevel), k.at(1, 0), k.key.headDiameter+headRoom-pilotOf(k.key), keySeat/2) // a cap of the sleeve
	}
	return b
}

// at is a place at a distance from the axis towards the ears, at a level.
func (k clamp) at(out, level float64) r3.Vec {
	p := turned(r2.Vec{X: out}, k.turn)
	return r3.Vec{X: p.X, Y: p.Y, Z: level}
}

// slitEnds are the levels between which the clamp is open: all of it but a little at the plate, that keeps the plate whole.
func (k clamp) slitEnds() (from, to float64) {
	if k.name == "foot" {
		return k.from + slitFoot, k.to
	}
	return k.from, k.to - slitFoot
}

// bodies are the sleeve and its ears as solids, from low to high, which may reach into a plate. Stem is what stands on the plate, the
// rest what there is above a neck.
func (k clamp) bodies(low, high float64) (stem solid.Node, rest []solid.Node) {
	in := k.outside/2 - 0.6*(k.outside-k.bore)/2
	if n := k.neck; n.fitted {
		stem = solid.Named("fuse", solid.Move(solid.Cylinder(n.outside/2, k.from-low), r3.Vec{Z: low}))
		from, up := n.to-bevelOver, k.to+1
		cone := solid.Move(solid.Cone(n.outside/2-bevelOver, n.outside/2+up-n.to, up-from), r3.Vec{Z: from})
		round := solid.Move(solid.Cylinder(k.outside/2, high-from+1), r3.Vec{Z: from - 1})
		rest = append(rest, solid.Named(k.name+" clamp", solid.Intersection(round, cone)))
		low = k.from
	} else {
		stem = solid.Named(k.name+" clamp", solid.Move(solid.Cylinder(k.outside/2, high-low), r3.Vec{Z: low}))
	}
	e := solid.Move(solid.Box(k.ear-in, 2*k.half, high-low), r3.Vec{X: (k.ear + in) / 2, Z: low})
	return stem, append(rest, solid.Named(k.name+" clamp ears", solid.Rotate(e, k.turn, r3.Vec{Z: 1})))
}

// cutters open the clamp: bore, slit and the screws' holes. Beyond is how far out a fillet goes that the slit must cut.
func (k clamp) cutters(beyond float64) []solid.Node {
	low, high := k.stop, k.to+1
	if k.name == "tray" {
		low, high = k.from-1, k.stop
	}
	all := []solid.Node{solid.Named(k.name+" clamp bore", solid.Move(solid.Cylinder(k.bore/2, high-low), r3.Vec{Z: low}))}
	from, to := k.slitEnds()
	if k.name == "foot" {
		to++
	} else {
		from--
	}
	far := max(k.ear, k.outside/2+beyond) + 1
	slit := solid.Rotate(solid.Move(solid.Box(far, k.slit, to-from), r3.Vec{X: far / 2, Z: from}), k.turn, r3.Vec{Z: 1})
	all = append(all, solid.Named(k.name+" clamp slit", slit))
	v := turned(r2.Vec{Y: 1}, k.turn)
	for _, z := range k.levels {
		all = append(all, hole(k.name+" clamp hole", k.at(k.bolt, z), r3.Vec{X: v.X, Y: v.Y}, k.thread.hole, 2*k.half+2))
	}
	if k.key.size != 0 {
		out := k.outside/2 + beyond + 1
		seat := k.outside/2 - keySeat
		high := k.key.headDiameter + headRoom // a flat all across: a round seat's rim would graze the clamp
		flat := solid.Rotate(solid.Move(solid.Box(out-seat, 2*out, high), r3.Vec{X: -(out + seat) / 2, Z: k.keyLevel - high/2}), k.turn, r3.Vec{Z: 1})
		all = append(all, hole(k.name+" clamp key hole", k.at(-out/2, k.keyLevel), k.at(1, 0), pilotOf(k.key), out), solid.Named(k.name+" clamp key seat", flat))
	}
	return all
}

// headed is the diameter of what the screws press on the ears with.
func (k clamp) headed() float64 {
	if k.washers {
		return max(k.thread.headDiameter, k.thread.washer.Outside.Millimetres())
	}
	return k.thread.headDiameter
}

// uses are the screws that close the clamp, and its cross screw.
func (k clamp) uses(material string, wall float64) []ScrewUse {
	t := k.thread
	v := turned(r2.Vec{Y: 1}, k.turn)
	seat := turned(r2.Vec{X: k.bolt, Y: k.half}, k.turn)
	u := ScrewUse{
		For: k.name + " clamp", Size: t.size, Head: hardware.Socket, Material: material, Count: len(k.levels), Axis: r3.Vec{X: -v.X, Y: -v.Y},
		Hole: t.hole, Grip: 2 * k.half, Engagement: t.nutEngagement, HeadRoom: k.headed() + 2*min(earGap, earEdge), Nut: true,
	}
	u.washed(k.washers, 2, t)
	if k.washers {
		seat = turned(r2.Vec{X: k.bolt, Y: k.half + t.washer.Thickness.Millimetres()}, k.turn)
	}
	for _, z := range k.levels {
		u.At = append(u.At, r3.Vec{X: seat.X, Y: seat.Y, Z: z})
	}
	u.Length = stock(u.Grip+u.Through, u.Engagement)
	if k.key.size == 0 {
		return []ScrewUse{u}
	}
	grip := (k.outside-k.bore)/2 - keySeat
	cross := ScrewUse{
		For: k.name + " key", Size: k.key.size, Head: hardware.Socket, Material: material, Count: 1,
		At: []r3.Vec{k.at(keySeat-k.outside/2, k.keyLevel)}, Axis: k.at(1, 0),
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
