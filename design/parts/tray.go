package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// TrayPlate is the receiver's seat, for its mass and its bending.
type TrayPlate struct {
	Floor     outline.Outline // with its opening, holes and slots
	Rim       outline.Outline // empty where there is none
	Hub       outline.Outline // what does not bend: the mast's tip or the collar with its fillet, filled
	Thickness float64         // of the floor
	RimHeight float64         // above the seat
	Level     float64         // of the seat, the top of the floor
	Screws    []r2.Vec        // receiver's
	Material  string
	Shell     Shell
	Body      Body // without the mast
}

// tray is the seat, about the mast's axis.
type tray struct {
	round     bool
	floor     section // without its tabs
	thickness float64
	opening   r2.Vec
	corner    float64 // radius of the opening's corners
	thread    thread
	spots     []r2.Vec
	connector int // side, in quarter turns

	rim       bool
	pocket    section
	rimWall   float64
	rimHeight float64
	notch     float64 // width of the gap in the rim at the connector
	turns     float64 // radians that a round receiver's plug lets it turn either way; 0 where the plug's width is not known
	lug       float64 // thickness of the receiver's ears
	held      pocket
	washers   bool

	tabs  []tab
	slots []outline.Loop
	marks []mark
}

// pocket is what the floor's underside has around a receiver's screw.
type pocket struct {
	hex    bool    // for a nut
	insert bool    // a bore for a heat-set insert
	across float64 // flats of a nut, diameter of a bore
	deep   float64 // 0: nothing
}

// tab is a tongue of the floor beyond its edge on one side.
type tab struct {
	side       int
	half, long float64 // half its width, and how far it stands out
}

// Figures of the tray in mm. Common practice, no source.
const (
	tieWidth    = 3.0 // cable tie's slot along the cable
	tieSlot     = 1.6
	cableHalf   = 3.0 // half the room for the cable between the slots
	bridge      = 1.4 // plastic between a slot and an edge
	strapSlot   = 3.0
	strapWidest = 16.0
	engraving   = 0.6
	tabCorner   = 1.5
	tabRoom     = 0.8 // of the floor's edge between two tongues
)

func (c *mount) setTray() {
	d := c.doc
	size, ok := d.TraySize()
	if !ok {
		c.refuse("receiver.size.x", "the receiver's size is not answered; measure it, or give tray.size")
		return
	}
	body := d.Receiver.Outline()
	t := tray{
		round: d.Receiver.Shape == "round", thickness: d.Tray.Thickness.Millimetres(),
		floor:   section{X: size.X.Millimetres(), Y: size.Y.Millimetres(), Radius: some(d.Tray.Corner.Millimetres())},
		opening: r2.Vec{X: some(d.Tray.Opening.X.Millimetres()), Y: some(d.Tray.Opening.Y.Millimetres())},
		corner:  some(d.Tray.OpeningCorner.Millimetres()), lug: d.Receiver.Lug.Millimetres(),
		connector: sides[d.Receiver.Connector], rimWall: d.Tray.RimWall.Millimetres(), rimHeight: d.Tray.RimHeight.Millimetres(),
	}
	if !d.Has("receiver.lug") {
		t.lug = lug
	}
	fixing := d.Receiver.Fixing
	gap := d.Tray.Clearance.Millimetres()
	t.rim = fixing == "rim" || fixing == "strap" || fixing == "screws" && d.Has("tray.rim_height")
	t.pocket = section{X: body.X.Millimetres() + 2*gap, Y: body.Y.Millimetres() + 2*gap}
	if t.rim {
		c.setRim(&t, d)
	}
	if t.round {
		t.floor.Y = t.floor.X
		t.floor.Radius = t.floor.X / 2
		t.pocket.Radius = t.pocket.X / 2
	}
	for _, x := range []float64{t.floor.X, t.floor.Y, t.floor.Radius, t.opening.X, t.opening.Y, t.corner, t.lug, t.pocket.X, t.pocket.Y, t.rimWall, t.rimHeight} {
		if !(x >= 0 && x <= longest) {
			c.refuse("tray.size.x", "a tray with a length of %g mm cannot be made; use 0 to %d mm", x, longest)
			return
		}
	}
	if 2*t.floor.Radius > min(t.floor.X, t.floor.Y) {
		c.refuse("tray.corner", "%s is more than half of the tray; use at most %s", mm(t.floor.Radius), mm(min(t.floor.X, t.floor.Y)/2))
		return
	}
	if !t.round {
		t.pocket.Radius = some(max(0, t.floor.Radius-t.rimWall))
	}
	t.roundOff()
	if t.rim {
		c.setGap(&t, d, gap)
	}
	if fixing == "screws" {
		t.thread = c.threadOf("receiver.screw", d.Receiver.Screw)
		x, y := d.Receiver.Holes.X.Millimetres()/2, d.Receiver.Holes.Y.Millimetres()/2
		if x == 0 || y == 0 {
			c.refuse("receiver.holes.x", "the spacing of the receiver's screw holes is not answered; measure it")
			return
		}
		t.spots = []r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
		t.washers = d.Tray.Washers == "under heads"
		c.setHeld(&t)
	}
	t.addTie()
	if fixing == "strap" {
		t.addStrap((t.connector + 1) % 4)
		t.addStrap((t.connector + 3) % 4)
	}
	if t.floor.Radius > 0 && t.crowded() {
		path, remedy := "tray.corner", "a smaller one or a larger tray"
		if t.round {
			path, remedy = "tray.size.x", "a larger tray"
		}
		c.refuse(path, "a radius of %s leaves no edge between the tongues of cable tie and strap; use %s", mm(t.floor.Radius), remedy)
		return
	}
	t.align()
	t.addMarks()
	if d.Tray.Letters == "sides" {
		t.addLetters()
	}
	c.tray = t
}

// nutFloor is what is left over a nut's pocket or an insert's bore under the receiver, mm. Judgement.
const nutFloor = 1.0

// setHeld makes pockets for nuts or bores for inserts in the floor's underside where they are asked for.
func (c *mount) setHeld(t *tray) {
	k := t.thread
	switch c.doc.Tray.Held {
	case "nut pocket":
		t.held = pocket{hex: true, across: k.nutFlats + nutRoom, deep: k.nutHeight + 0.2}
		c.checkHeld(*t, "a nut's pocket")
	case "insert":
		t.held = pocket{insert: true, across: k.insert.Bore().Millimetres() + c.doc.Print.HoleAdd.Millimetres(), deep: k.insert.Length.Millimetres() + insertSpare}
		c.checkHeld(*t, fmt.Sprintf("an insert of %s", k.insert.Length))
	}
}

func (c *mount) checkHeld(t tray, what string) {
	if least := t.held.deep + nutFloor; t.thickness < least-1e-9 && t.thread.size != 0 {
		c.refuse("tray.thickness", "%s is too thin for %s; use at least %s, or hold the screws by nuts", mm(t.thickness), what, mm(least))
	}
}

// reachOf is how far around its screw a nut or an insert's plastic reaches.
func (t tray) reachOf() float64 {
	if t.held.insert {
		return t.held.across/2 + t.thread.insert.Wall.Millimetres()
	}
	return t.thread.nutFlats / math.Sqrt(3)
}

// setGap makes the gap in the rim for the cable: as wide as the plug with its play, or where that is not answered as the straight part of
// the rim's side lets it be.
func (c *mount) setGap(t *tray, d *design.Document, gap float64) {
	outer, across := grown(t.pocket, t.rimWall), t.pocket.Y
	flat := min(outer.Y-2*outer.Radius, t.pocket.Y-2*t.pocket.Radius)
	if t.connector%2 == 1 {
		across = t.pocket.X
		flat = min(outer.X-2*outer.Radius, t.pocket.X-2*t.pocket.Radius)
	}
	if t.round {
		flat = 0.8 * across
	}
	most := flat - 0.2
	if !d.Has("receiver.plug") {
		wide := min(12, 0.6*across)
		t.notch = min(wide, most)
		if least := min(2*cableHalf, wide); t.notch < least-1e-9 && !t.round {
			c.refuse("tray.corner", "%s leaves %s of the rim's side straight and the cable's gap wants %s; use at most %s", mm(t.floor.Radius), mm(max(0, flat)), mm(least+0.2), mm(t.floor.Radius-(least-t.notch)/2))
		}
		return
	}
	plug := d.Receiver.Plug.Millimetres()
	t.notch = plug + 2*max(gap, 0.1)
	if t.round {
		t.turns = math.Asin(min(1, (t.notch-plug)/2/(across/2)))
	}
	if !(t.notch <= most) {
		c.refuse("receiver.plug", "%s is wider than the rim's side lets through; use at most %s, or another fixing", mm(plug), mm(max(0, most-(t.notch-plug))))
	}
}

// setRim makes room for the rim where the floor's size was left open, and refuses a floor that has none.
func (c *mount) setRim(t *tray, d *design.Document) {
	if !(t.rimHeight >= shortest) || !(t.rimWall >= shortest) {
		c.refuse("tray.rim_height", "%s by %s is no rim; use %g mm and more", mm(t.rimHeight), mm(t.rimWall), shortest)
	}
	outer := grown(t.pocket, t.rimWall)
	for _, side := range []struct {
		path      string
		size      *float64
		least     float64
		otherwise bool
	}{
		{"tray.size.x", &t.floor.X, outer.X, d.Tray.Size.X == 0},
		{"tray.size.y", &t.floor.Y, outer.Y, d.Tray.Size.Y == 0},
	} {
		if *side.size > side.least-1e-9 {
			continue
		}
		if side.otherwise {
			*side.size = side.least
			continue
		}
		c.refuse(side.path, "%s is smaller than the receiver with its rim; use at least %s", mm(*side.size), mm(side.least))
	}
}

// reach is how far the floor goes to a side, and half its width there.
func (t tray) reach(side int) (far, half float64) {
	if side%2 == 1 {
		return t.floor.Y / 2, t.floor.X / 2
	}
	return t.floor.X / 2, t.floor.Y / 2
}

// addTie puts a tongue with two slots for a cable tie before the connector.
func (t *tray) addTie() {
	far, half := t.reach(t.connector)
	w := min(cableHalf+tieSlot+bridge, 0.8*half)
	t.tabs = append(t.tabs, tab{t.connector, w, 2*bridge + tieWidth})
	inner := w - bridge - tieSlot
	for _, s := range []float64{-1, 1} {
		y0, y1 := s*inner, s*(inner+tieSlot)
		slot := box(r2.Vec{X: far + bridge, Y: min(y0, y1)}, r2.Vec{X: far + bridge + tieWidth, Y: max(y0, y1)})
		t.slots = append(t.slots, slot.Rotate(quarterTurns(t.connector)))
	}
}

// addStrap puts an ear with a slot for a strap on a side.
func (t *tray) addStrap(side int) {
	far, half := t.reach(side)
	slot := min(strapWidest+1, half)
	t.tabs = append(t.tabs, tab{side, min(slot/2+2.5, 0.95*half), strapSlot + 2*bridge + 0.6})
	hole := box(r2.Vec{X: far + bridge, Y: -slot / 2}, r2.Vec{X: far + bridge + strapSlot, Y: slot / 2})
	t.slots = append(t.slots, hole.Rotate(quarterTurns(side)))
}

// root is where a side's tongue begins: on the flat of the side, at angle 0, or where it is wider than that on the corners' arcs, as an
// angle along them; far is its x there, seen with the side to the right.
func (t tray) root(side int) (angle, far float64) {
	far, half := t.reach(side)
	for _, k := range t.tabs {
		if over := k.half - (half - t.floor.Radius); k.side == side && over > 1e-9 {
			angle = math.Asin(min(1, over/t.floor.Radius))
			far -= t.floor.Radius * (1 - math.Cos(angle))
		}
	}
	return angle, far
}

// crowded reports whether the tongues of two sides meet.
func (t tray) crowded() bool {
	for side := range 4 {
		a, _ := t.root(side)
		b, _ := t.root((side + 1) % 4)
		if t.floor.Radius*(math.Pi/2-a-b) < tabRoom {
			return true
		}
	}
	return false
}

// edge is the floor's outer loop with its tabs.
func (t tray) edge() outline.Loop {
	if t.round {
		return t.roundEdge()
	}
	var l outline.Loop
	for side := range 4 {
		far, half := t.reach(side)
		start, base := t.root(side)
		next, _ := t.root((side + 1) % 4)
		piece := t.tab(side, base, far)
		if start == 0 {
			if t.floor.Radius > 0 {
				piece = append(outline.Loop{{X: far, Y: t.floor.Radius - half}}, piece...)
			}
			piece = append(piece, outline.Vertex{X: far, Y: half - t.floor.Radius})
		}
		if t.floor.Radius > 0 {
			piece[len(piece)-1].Bulge = quarter
			if start+next > 0 {
				piece[len(piece)-1].Bulge = math.Tan((math.Pi/2 - start - next) / 4)
			}
		}
		l = append(l, piece.Rotate(quarterTurns(side))...)
	}
	return l
}

// tab is a side's tongue from an edge at x = base out beyond far, seen with the side to the right.
func (t tray) tab(side int, base, far float64) outline.Loop {
	for _, k := range t.tabs {
		if k.side != side {
			continue
		}
		h, r := k.half, min(tabCorner, k.half/2)
		x := far + k.long
		return outline.Loop{
			{X: base, Y: -h}, {X: x - r, Y: -h, Bulge: quarter}, {X: x, Y: r - h},
			{X: x, Y: h - r, Bulge: quarter}, {X: x - r, Y: h}, {X: base, Y: h},
		}
	}
	return nil
}

// roundEdge is a disc with its tabs: arcs from one tab to the next.
func (t tray) roundEdge() outline.Loop {
	r := t.floor.X / 2
	type piece struct {
		loop          outline.Loop
		start, finish float64 // angles on the disc
	}
	var pieces []piece
	for side := range 4 {
		for _, k := range t.tabs {
			if k.side == side {
				a := math.Asin(k.half / r)
				pieces = append(pieces, piece{t.tab(side, r*math.Cos(a), r).Rotate(quarterTurns(side)), quarterTurns(side) - a, quarterTurns(side) + a})
			}
		}
	}
	if len(pieces) == 0 {
		return outline.Circle(r)
	}
	var l outline.Loop
	for i, p := range pieces {
		l = append(l, p.loop...)
		next := pieces[(i+1)%len(pieces)].start
		for next <= p.finish {
			next += 2 * math.Pi
		}
		mid := (p.finish + next) / 2
		bulge := math.Tan((next - p.finish) / 8)
		l[len(l)-1].Bulge = bulge
		l = append(l, outline.Vertex{X: r * math.Cos(mid), Y: r * math.Sin(mid), Bulge: bulge})
	}
	return l
}

// plan is the floor with its slots and holes, and its opening where that is asked for.
func (t tray) plan(opening bool) outline.Outline {
	holes := append([]outline.Loop(nil), t.slots...)
	for _, s := range t.spots {
		holes = append(holes, circleAt(s, t.thread.hole))
	}
	if opening && t.hasOpening() {
		holes = append(holes, outline.RoundedRectangle(t.opening.X, t.opening.Y, t.corner))
	}
	return plate(t.edge(), holes...)
}

// ring is the rim with its gap at the connector.
func (t tray) ring() outline.Outline {
	if !t.rim {
		return outline.Outline{}
	}
	outer := grown(t.pocket, t.rimWall)
	if t.round {
		return outline.Outline{Outer: openTube(outer.X/2, t.pocket.X/2, t.notch, 0).Rotate(quarterTurns(t.connector))}
	}
	if t.floor.X == outer.X && t.floor.Y == outer.Y {
		outer.Radius = t.floor.Radius // a sharp pocket in a round rim
	}
	return outline.Outline{Outer: openBox(outer, t.pocket, t.notch, t.connector)}
}

// checkTray refuses a tray that its mast, its opening or its screws do not fit.
func (c *mount) checkTray() {
	t := c.tray
	stem := c.over.section
	if t.floor.X == 0 {
		return
	}
	for axis, a := range []struct {
		path                      string
		tip, stem, floor, o, most float64
	}{
		{c.over.paths[0], c.over.widths[0], stem.X, t.floor.X, t.opening.X, c.over.opening.X},
		{c.over.paths[1], c.over.widths[1], stem.Y, t.floor.Y, t.opening.Y, c.over.opening.Y},
	} {
		spread := max(c.tipFillet, c.flare)
		switch {
		case a.stem > a.floor-0.2:
			c.refuse(a.path, "%s is wider than the %s tray; use at most %s or a larger tray", mm(a.tip), mm(a.floor), mm(a.floor-0.2-(a.stem-a.tip)))
			return
		case a.stem+2*spread > a.floor+1e-9:
			path := "mast.tip_fillet"
			if c.flare > 0 {
				path = "tray.flare"
			}
			c.refuse(path, "%s does not fit under the %s tray; use at most %s", mm(spread), mm(a.floor), mm((a.floor-a.stem)/2))
			return
		case t.hasOpening() && a.o > a.most-1.6:
			c.refuse("tray.opening."+"xy"[axis:axis+1], "%s would cut the tray off its mast; use at most %s, or 0 for none", mm(a.o), mm(max(0, a.most-1.6)))
			return
		}
	}
	if t.round && math.Hypot(stem.X, stem.Y)/2-stem.Radius*(math.Sqrt2-1) > t.floor.X/2 {
		c.refuse(c.over.paths[0], "%s has corners beyond the round tray; use %s narrower", mm(c.over.widths[0]), c.over.what)
	}
	for i, s := range t.spots {
		around := t.thread.hole/2 + 0.8
		if t.held.hex {
			around = t.held.across/math.Sqrt(3) + 0.8
		} else if t.held.insert {
			around = t.reachOf()
		}
		if inside(s, t.floor) < around {
			c.refuse("tray.size.x", "%s by %s is smaller than its screws: hole %d leaves no edge; use a larger tray", mm(t.floor.X), mm(t.floor.Y), i+1)
			return
		}
		if -inside(s, stem)-t.reachOf() < 0.2 {
			c.refuse(c.over.paths[0], "%s leaves no room for the nut under hole %d; use %s narrower", mm(c.over.widths[0]), i+1, c.over.what)
			return
		}
	}
	if len(t.spots) > 0 {
		c.stocked(c.receiverScrews()[0], "receiver.lug", "a receiver with thinner ears, or a thinner tray")
	}
}

func (c *mount) trayPlate(material string) TrayPlate {
	t := c.tray
	p := TrayPlate{
		Floor: t.plan(true), Rim: t.ring(), Hub: plate(loopOf(grown(c.over.section, max(c.tipFillet, c.flare)))),
		Thickness: t.thickness, Level: c.seat, Screws: t.spots, Material: material, Shell: c.plates,
	}
	var l lump
	l.plate(p.Floor, c.tip, c.seat, p.Shell)
	if t.rim {
		p.RimHeight = t.rimHeight
		rim := p.Shell
		rim.Face = 0
		l.plate(p.Rim, c.seat, c.seat+t.rimHeight, rim)
	}
	for _, m := range t.marks {
		l.slab(m.shape.Section(), c.seat+m.top-m.depth, c.seat+m.top, 1, -1)
	}
	if k := t.held; k.deep > 0 {
		edge := circleAt(r2.Vec{}, k.across)
		if k.hex {
			edge = outline.Polygon(6, k.across)
		}
		for _, s := range t.spots {
			l.slab(plate(edge.Translate(s.X, s.Y), circleAt(s, t.thread.hole)).Section(), c.tip, c.tip+k.deep, 1, -1)
		}
	}
	p.Body = l.body()
	return p
}

// traySolid is floor and rim, the opening left filled where a mast runs into the floor.
func (c *mount) traySolid(opening bool) solid.Node {
	t := c.tray
	n := solid.Named("tray floor", solid.Move(solid.Extrude(t.thickness, t.plan(opening)), r3.Vec{Z: c.tip}))
	if !t.rim {
		return n
	}
	sunk := overlap * t.thickness
	return solid.Union(n, solid.Named("tray rim", solid.Move(solid.Extrude(t.rimHeight+sunk, t.ring()), r3.Vec{Z: c.seat - sunk})))
}
