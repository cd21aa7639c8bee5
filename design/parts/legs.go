package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/mesh"
	"mastwright/mesh/outline"
)

// legs is a mast of slender bars that stand in pads on the frame and carry the tray in sockets.
type legs struct {
	mount

	wide, across float64 // a leg's section: in the direction it leans, and across
	grip         float64 // of the sockets, along a leg
	wall         float64
	cut          bool
	kerf         float64
	own          bool     // on a pattern of their own
	upon         bool     // over their screws, which come from below
	sheet        []string // notes on what they are cut from
	all          []leg
}

// leg is one bar with its pad and its socket under the tray.
type leg struct {
	hole   r2.Vec  // of the pad's screw
	face   float64 // level of the frame's face there
	beside float64 // the way from the screw to the leg's foot
	foot   r3.Vec  // where its axis meets the pad's top
	head   r3.Vec  // where it meets the tray's floor
	axis   r3.Vec  // unit, upwards
	lean   float64 // from upright, rad
	out    float64 // azimuth of the way from the tray to the pad
	length float64
	from   r3.Vec // middle of its lower end
}

// Figures of pads and sockets in mm. Judgement.
const (
	socketFlare  = 1.5 // by which a socket is wider all round at its pad than at its mouth
	trayFlare    = 0.5 // the same under the tray
	socketWeb    = 1.6 // between the legs' rooms, where sockets under the tray run into each other
	socketCorner = 0.8
	padEdge      = 1.5 // around head and socket
	headGap      = 0.2 // between a head's room and the socket
	padTail      = 4.5 // beyond the head, on the side away from the socket: what a leg that pulls pries on
	padCorner    = 3.0
	leanMost     = 40 // degrees beyond which a leg no longer reaches
)

// legsOf works out the legs that a document describes and notes what cannot be made.
func legsOf(doc *design.Document) *legs {
	c := &legs{mount: mountOf(doc), sheet: sheetNotes(doc, doc.Materials.Legs, doc.Mast.Legs.Section.Square().Y)}
	defer func() { c.doc = nil }()
	for _, step := range []func(){c.setLegFoot, c.setLevels, c.setTray, c.setLegs, c.checkLegs, c.checkTray} {
		step()
		if len(c.problems) > 0 {
			break
		}
	}
	return c
}

// setLegFoot finds the screws that the pads stand on.
func (c *legs) setLegFoot() {
	d, l := c.doc, c.doc.Mast.Legs
	place, ok := d.PlaceChosen()
	if !ok {
		c.refuse("mast.place", "no place is chosen; name one of the airframe's places")
		return
	}
	f := foot{
		thickness: l.Pad.Millimetres(), relief: some(d.Foot.Relief.Millimetres()), turn: place.Turn.Radians(), sunk: d.Foot.Head == "counterbore",
		nut: d.Foot.Head == "nut pocket", insert: d.Foot.Head == "insert", washers: d.Foot.Washers == "under heads", screws: d.Foot.Screws, under: place.Plate.Thickness.Millimetres(), block: place.Plate.Backing == "block",
	}
	if !(f.thickness >= shortest && f.thickness <= longest) {
		c.refuse("mast.legs.pad", "%g mm cannot be made; use %g to %d mm", f.thickness, shortest, longest)
		return
	}
	if !(f.relief >= 0 && 2*f.relief < f.thickness) {
		c.refuse("foot.relief", "%s takes the edge of %s pads away; use less than %s", mm(f.relief), mm(f.thickness), mm(f.thickness/2))
		return
	}
	if c.upon = l.Stand == "over the screws"; c.upon && !f.insert {
		c.refuse("mast.legs.stand", "legs over their screws leave the heads no room; use foot.head insert, so that the screws come from below, or legs beside them")
		return
	}
	size, path := place.Screw, placePath(d)+".screw"
	switch l.Pattern {
	case "rectangle":
		s := l.Spread.Square()
		x, y := s.X.Millimetres()/2, s.Y.Millimetres()/2
		f.spots = []r2.Vec{{X: x, Y: y}, {X: -x, Y: y}, {X: -x, Y: -y}, {X: x, Y: -y}}
		c.own = true
	case "ring":
		n := l.Count
		for i := range max(n, 0) {
			sin, cos := math.Sincos(math.Pi * float64(2*i+1) / float64(n))
			f.spots = append(f.spots, r2.Scale(l.Ring.Millimetres()/2, r2.Vec{X: cos, Y: sin}))
		}
		c.own = true
	default:
		spots, _, err := place.Holes.Centres()
		if err != nil {
			c.refuse(placePath(d)+".holes.as", "the holes of place %q cannot be drilled: %v", place.Name, err)
			return
		}
		for _, s := range spots {
			f.spots = append(f.spots, r2.Vec{X: s.X.Millimetres(), Y: s.Y.Millimetres()})
		}
	}
	if c.own {
		size, path, f.block = l.Screw, "mast.legs.screw", true
	}
	if n := len(f.spots); n < 3 || n > 4 {
		c.refuse("mast.legs.pattern", "%d holes make no stand for three or four legs; choose a rectangle or a ring of their own", n)
		return
	}
	for _, s := range f.spots {
		if !(r2.Norm(s) >= 1 && r2.Norm(s) <= longest) {
			c.refuse("mast.legs.pattern", "a leg's screw %g mm from the middle cannot be used; use 1 to %d mm", r2.Norm(s), longest)
			return
		}
	}
	f.thread = c.threadOf(path, size)
	c.setPose(&f, place.SlopeForward.Radians(), place.SlopeLeft.Radians())
	if c.upon && f.wedge {
		c.refuse("mast.legs.stand", "legs over their screws stand on no wedge; use legs beside them, or underside none")
	}
	if len(c.problems) == 0 {
		c.setSeat(&f, "mast.legs.pad")
	}
	c.foot, c.base = f, f.thickness
}

// setLevels places foot and tray, and the legs' section.
func (c *legs) setLevels() {
	m, l := c.doc.Mast, c.doc.Mast.Legs
	section := l.Section.Square()
	c.seat, c.wide, c.across = m.Height.Millimetres(), section.X.Millimetres(), section.Y.Millimetres()
	c.grip, c.wall, c.cut, c.kerf = l.Grip.Millimetres(), l.Socket.Millimetres(), l.Made == "cut", l.Kerf.Millimetres()
	floor := c.doc.Tray.Thickness.Millimetres()
	for _, n := range []struct {
		path  string
		value float64
	}{
		{"mast.height", c.seat}, {"tray.thickness", floor}, {"mast.legs.section.x", c.wide}, {"mast.legs.section.y", c.across},
		{"mast.legs.grip", c.grip}, {"mast.legs.socket", c.wall},
	} {
		if !(n.value >= shortest && n.value <= longest) {
			c.refuse(n.path, "%g mm cannot be made; use %g to %d mm", n.value, shortest, longest)
		}
	}
	if !(c.kerf >= 0 && c.kerf < min(c.wide, c.across)) {
		c.refuse("mast.legs.kerf", "%s is no narrower than a leg; use less than %s", mm(c.kerf), mm(min(c.wide, c.across)))
	}
	if least := c.base + 2*c.grip + 10 + floor; len(c.problems) == 0 && c.seat < least {
		c.refuse("mast.height", "%s leaves the legs no free length between their sockets; use at least %s, or shallower sockets", mm(c.seat), mm(least))
	}
	c.tip = c.seat - floor
	none := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}
	c.over = stem{name: "the legs", what: "legs", paths: [2]string{"mast.legs.top.x", "mast.legs.top.y"}, opening: none}
}

// socket is the outside of a socket at its mouth.
func (c *legs) socket() section {
	return section{X: c.wide + 2*c.wall, Y: c.across + 2*c.wall, Radius: socketCorner}
}

// flared is the outside of a socket at its pad, or at the tray.
func (c *legs) flared(low bool) section { return grown(c.socket(), flareOf(low)) }

func flareOf(low bool) float64 {
	if low {
		return socketFlare
	}
	return trayFlare
}

// tops is the spacing of the legs' axes under the tray.
func (c *legs) tops() r2.Vec {
	t := c.doc.Mast.Legs.Top
	low, high := c.foot.spots[0], c.foot.spots[0]
	for _, s := range c.foot.spots {
		low, high = r2.Vec{X: min(low.X, s.X), Y: min(low.Y, s.Y)}, r2.Vec{X: max(high.X, s.X), Y: max(high.Y, s.Y)}
	}
	spread := r2.Sub(high, low)
	if c.foot.ring() {
		spread = r2.Vec{X: 2 * r2.Norm(c.foot.spots[0]), Y: 2 * r2.Norm(c.foot.spots[0])}
	}
	s := c.flared(false)
	edge := math.Hypot(s.X, s.Y) - 2*(math.Sqrt2-1)*s.Radius + 0.5 // it may stand on its corner
	most := r2.Vec{X: min(spread.X, c.tray.floor.X-edge), Y: min(spread.Y, c.tray.floor.Y-edge)}
	if c.foot.ring() {
		most = r2.Vec{X: min(most.X, most.Y), Y: min(most.X, most.Y)}
	} else if c.tray.round {
		most = r2.Scale(1/math.Sqrt2, r2.Vec{X: min(spread.X*math.Sqrt2, c.tray.floor.X-edge), Y: min(spread.Y*math.Sqrt2, c.tray.floor.X-edge)})
	}
	if x := t.X.Millimetres(); x != 0 {
		most.X = x
		if c.foot.ring() {
			most.Y = x
		}
	}
	if y := t.Y.Millimetres(); y != 0 && !c.foot.ring() {
		most.Y = y
	}
	for i, s := range [2]float64{spread.X, spread.Y} { // as shares of the spread
		if s == 0 {
			s = 1
		}
		if i == 0 {
			most.X /= s
		} else {
			most.Y /= s
		}
	}
	return most
}

// ring is whether all screws are equally far from the middle and no rectangle.
func (f foot) ring() bool {
	far := r2.Norm(f.spots[0])
	for _, s := range f.spots {
		if math.Abs(r2.Norm(s)-far) > 1e-6 {
			return false
		}
	}
	return len(f.spots) == 3
}

// setLegs leans the legs; on wedge pads, whose tops are level, their thinnest corner is as thick as is asked.
func (c *legs) setLegs() {
	c.placeLegs()
	for range 40 {
		if !c.foot.wedge || len(c.problems) > 0 {
			return
		}
		base := math.Inf(-1)
		for _, k := range c.all {
			p := c.padPose(k)
			for _, v := range c.padPlan(k) {
				base = max(base, p.Apply(v).Z+c.foot.thickness*p.Z.Z)
			}
		}
		if math.Abs(base-c.base) < 1e-7 {
			return
		}
		c.base = base
		c.placeLegs()
	}
}

// placeLegs leans the legs from their pads to the tray; where their spacing there was left open, it shrinks until their sockets, which
// the floor cuts aslant, lie on the tray.
func (c *legs) placeLegs() {
	share := c.tops()
	for range 6 {
		c.all = nil
		c.leanLegs(share)
		out := 0.0
		for _, k := range c.all {
			out = max(out, 0.2-c.socketEdge(k), 0.2-c.nutRoom(k))
		}
		if t := c.doc.Mast.Legs.Top; len(c.problems) > 0 || out <= 0 || t.X != 0 || t.Y != 0 {
			return
		}
		far := r2.Norm(r2.Vec{X: c.all[0].head.X, Y: c.all[0].head.Y})
		share = r2.Scale(max(0, 1-1.5*(out+0.05)/far), share)
	}
}

func (c *legs) leanLegs(share r2.Vec) {
	if !finite(share.X, share.Y) || share.X <= 0 || share.Y <= 0 {
		c.refuse("mast.legs.top.x", "a tray of %s by %s has no room for the legs' sockets; use thinner legs, or a larger tray", mm(c.tray.floor.X), mm(c.tray.floor.Y))
		return
	}
	rise := c.tip - c.base
	for _, spot := range c.foot.spots {
		hole, face := turned(spot, c.foot.turn), 0.0
		if c.foot.wedge {
			p := c.foot.pose.Apply(r3.Vec{X: spot.X, Y: spot.Y})
			hole, face = r2.Vec{X: p.X, Y: p.Y}, p.Z
		}
		head := turned(r2.Vec{X: spot.X * share.X, Y: spot.Y * share.Y}, c.foot.turn)
		away := r2.Sub(hole, head)
		if r2.Norm(away) < 1e-6 {
			away = hole
		}
		away = r2.Unit(away)
		beside := c.beside(r2.Norm(r2.Sub(hole, head)), rise) + c.aslant(face)
		at := r2.Add(hole, r2.Scale(beside, away))
		k := leg{hole: hole, face: face, beside: beside, out: math.Atan2(away.Y, away.X), foot: r3.Vec{X: at.X, Y: at.Y, Z: c.base}, head: r3.Vec{X: head.X, Y: head.Y, Z: c.tip}}
		way := r3.Sub(k.head, k.foot)
		k.axis = r3.Unit(way)
		k.lean = math.Acos(min(1, k.axis.Z))
		if k.lean*180/math.Pi > leanMost {
			path := "mast.legs.top.x"
			if c.own {
				path = map[string]string{"rectangle": "mast.legs.spread.x", "ring": "mast.legs.ring"}[c.doc.Mast.Legs.Pattern]
			}
			c.refuse(path, "the legs cannot reach the tray: they would lean by %.0f degrees; at most %d stand: bring pads and tray closer than %s, or use a higher mast",
				k.lean*180/math.Pi, leanMost, mm(rise*math.Tan(leanMost*math.Pi/180)))
			return
		}
		inset := c.wide / 2 * math.Sin(k.lean) // so that the square ends stay out of pad and floor
		k.from = r3.Add(k.foot, r3.Scale(inset/k.axis.Z, k.axis))
		k.length = r3.Norm(way) - 2*inset/k.axis.Z
		if k.length < 2*c.grip+5 {
			c.refuse("mast.height", "%s leaves legs of %s that cannot reach from socket to socket; use a higher mast, or shallower sockets", mm(c.seat), mm(k.length))
			return
		}
		c.all = append(c.all, k)
	}
}

// beside is how far from its screw a leg stands, so that its socket, which leans over the screw's head, leaves that its room; the tray's
// end of the leg lies a way from the screw and a rise above it.
func (c *legs) beside(way, rise float64) float64 {
	if c.upon {
		return 0
	}
	f, s := c.foot, c.flared(true)
	high := 0.0
	if !f.fromBelow() {
		high = max(0, f.headLevel()+f.thread.headHeight-f.thickness)
	}
	out := 0.0
	for range 8 { // it leans the more, the farther off it stands
		slope := min((way+out)/rise, 2)
		out = c.screwRoom()/2 + headGap + s.X/2*math.Sqrt(1+slope*slope) + high*slope
	}
	return out
}

// checkLegs refuses pads and sockets that have no room.
func (c *legs) checkLegs() {
	s := c.flared(false)
	around := math.Hypot(s.X, s.Y)/2 - (math.Sqrt2-1)*s.Radius
	for i, k := range c.all {
		for n, o := range c.all[:i] {
			if apart(c.padLoop(k), c.padLoop(o)) < 0.5 {
				c.refuse("mast.legs.pattern", "pads %d and %d overlap; use a wider pattern, thinner legs or smaller screws", n+1, i+1)
				return
			}
			if web := apart(c.roomLoop(k), c.roomLoop(o)); web < socketWeb {
				c.refuse("mast.legs.top.x", "legs %d and %d are %s apart under the tray, which leaves their sockets no wall; use %s more, thinner legs, or a larger tray", n+1, i+1, mm(web), mm(socketWeb-web))
				return
			}
		}
		if edge := c.socketEdge(k); edge < 0 {
			c.refuse("mast.legs.top.x", "the socket of leg %d stands out of the %s by %s tray by %s; bring the legs closer, or use a larger tray", i+1, mm(c.tray.floor.X), mm(c.tray.floor.Y), mm(-edge))
			return
		}
		at := r2.Vec{X: k.head.X, Y: k.head.Y}
		if t := &c.tray; !c.doc.Has("tray.opening.x") && -inside(at, section{X: t.opening.X, Y: t.opening.Y}) < around+0.8 {
			t.opening = r2.Vec{} // no room between the sockets; the cable leaves by the plug's side
		}
		if t := c.tray; t.hasOpening() && -inside(at, section{X: t.opening.X, Y: t.opening.Y}) < around+0.8 {
			c.refuse("tray.opening.x", "%s by %s reaches the socket of leg %d; use a smaller opening, or 0 for none", mm(t.opening.X), mm(t.opening.Y), i+1)
			return
		}
		if room := c.nutRoom(k); room < 0 {
			c.refuse("mast.legs.top.x", "the socket of leg %d leaves the nuts under the receiver's holes %s too little room; move the legs", i+1, mm(-room))
			return
		}
	}
}

// apart is the distance between two loops, negative where they overlap.
func apart(a, b outline.Loop) float64 {
	least := math.Inf(1)
	for _, v := range a.Flatten(0.05) {
		least = min(least, b.Distance(r2.Vec{X: v.X, Y: v.Y}))
	}
	for _, v := range b.Flatten(0.05) {
		least = min(least, a.Distance(r2.Vec{X: v.X, Y: v.Y}))
	}
	return least
}

// roomLoop is what a leg takes of the tray's underside.
func (c *legs) roomLoop(k leg) outline.Loop {
	return outline.Rectangle((c.wide+2*play)/k.axis.Z, c.across+2*play).Rotate(k.out).Translate(k.head.X, k.head.Y)
}

// socketEdge is how far the edge of a leg's socket is from the tray's.
func (c *legs) socketEdge(k leg) float64 {
	least := math.Inf(1)
	s := c.flared(false)
	s.X /= k.axis.Z // cut aslant by the floor
	for _, v := range loopOf(s).Rotate(k.out).Translate(k.head.X, k.head.Y).Flatten(0.1) {
		least = min(least, inside(r2.Vec{X: v.X, Y: v.Y}, c.tray.floor))
	}
	return least
}

// nutRoom is what is between a leg's socket and the nuts under the receiver's holes, more than a bare fit.
func (c *legs) nutRoom(k leg) float64 {
	s := c.flared(false)
	least := math.Inf(1)
	for _, spot := range c.tray.spots {
		away := r2.Norm(r2.Sub(spot, r2.Vec{X: k.head.X, Y: k.head.Y})) - math.Hypot(s.X, s.Y)/2 + (math.Sqrt2-1)*s.Radius
		least = min(least, away-c.tray.reachOf()-0.2)
	}
	return least
}

// screwRoom is the diameter that a pad's screw takes.
func (c *legs) screwRoom() float64 { return max(c.foot.room, c.foot.thread.hole) }

// legPose puts a leg's own axes in place: x in the direction it leans away from the tray, z along it from its lower end.
func (c *legs) legPose(k leg, from r3.Vec) mesh.Pose {
	sin, cos := math.Sincos(k.out)
	out := r3.Vec{X: cos, Y: sin}
	x := r3.Unit(r3.Sub(out, r3.Scale(r3.Dot(out, k.axis), k.axis)))
	return mesh.Pose{X: x, Y: r3.Cross(k.axis, x), Z: k.axis, At: from}
}

// groups puts legs that are alike together, in order.
func (c *legs) groups() [][]leg {
	var all [][]leg
next:
	for _, k := range c.all {
		for i, g := range all {
			if math.Abs(g[0].length-k.length) < 1e-6 && math.Abs(g[0].lean-k.lean) < 1e-9 {
				all[i] = append(g, k)
				continue next
			}
		}
		all = append(all, []leg{k})
	}
	return all
}

// named is a part's name with the number of its group where there are several.
func named(name string, group, of int) string {
	if of == 1 {
		return name
	}
	return fmt.Sprintf("%s_%d", name, group+1)
}

// sheetOf is the thickness of the sheet that legs are cut from, as a part's size says it.
func (c *legs) sheetOf() string { return units.Millimetres(c.across).String() + " sheet" }
