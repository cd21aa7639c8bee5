package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// FootPlate is the plate that the frame's screws hold, for its bending and its mass.
type FootPlate struct {
	Outline   outline.Outline // in place axes, with its screw holes, its bore and what it leaves to others, pockets too
	Hub       outline.Outline // what does not bend: the mast's root or the collar with its fillet, filled
	Thickness float64         // at its thinnest
	Rise      float64         // level of its top on the mast's axis; the thickness where there is no wedge
	Seat      float64         // plastic between a screw's head, its nut or its insert and the frame
	Screws    []r2.Vec        // in place axes
	Head      float64         // diameter of what draws it down: heads or their washers, nuts across flats, inserts
	Material  string
	Shell     Shell
	Body      Body // without the mast
}

// foot is the plate in axes of its own: turned with the hole pattern and lying on the frame's face.
type foot struct {
	outside   section
	thickness float64 // at its thinnest
	relief    float64
	pose      mesh.Pose // from its axes to the place's
	turn      float64
	wedge     bool
	thread    thread
	spots     []r2.Vec
	sunk      bool
	nut       bool
	insert    bool
	washers   bool
	seat      float64 // plastic under the head, its washer, the nut or the insert
	room      float64 // diameter around the head, across the flats of a nut, of an insert's bore
	screws    string  // their material
	under     float64 // thickness of the frame's plate
	block     bool    // the frame is a block with threads
	crowded   bool    // a head reaches into the root fillet, which makes way for it
	cuts      []cutout
	numbered  bool              // its underside is to bear the number
	number    []outline.Outline // empty where there is no room
}

// steepest is the wedge in degrees beyond which screws and printing no longer work out. Judgement.
const steepest = 25

func (c *mount) setFoot() {
	d := c.doc
	place, ok := d.PlaceChosen()
	if !ok {
		c.refuse("mast.place", "no place is chosen; name one of the airframe's places")
		return
	}
	spots, _, err := place.Holes.Centres()
	if err != nil {
		c.refuse(placePath(d)+".holes.as", "the holes of place %q cannot be drilled: %v", place.Name, err)
		return
	}
	f := foot{
		thickness: d.Foot.Thickness.Millimetres(), relief: some(d.Foot.Relief.Millimetres()), turn: place.Turn.Radians(),
		sunk: d.Foot.Head == "counterbore", nut: d.Foot.Head == "nut pocket", insert: d.Foot.Head == "insert", washers: d.Foot.Washers == "under heads",
		screws: d.Foot.Screws, under: place.Plate.Thickness.Millimetres(), block: place.Plate.Backing == "block",
	}
	size, _ := d.FootSize()
	f.outside = section{X: size.X.Millimetres(), Y: size.Y.Millimetres(), Radius: some(d.Foot.Corner.Millimetres())}
	f.thread = c.threadOf(placePath(d)+".screw", place.Screw)
	for _, s := range spots {
		f.spots = append(f.spots, r2.Vec{X: s.X.Millimetres(), Y: s.Y.Millimetres()})
	}
	if !(f.thickness >= shortest && max(f.thickness, f.outside.X, f.outside.Y) <= longest && min(f.outside.X, f.outside.Y) > 0) {
		c.refuse("foot.thickness", "a foot of %g x %g x %g mm cannot be made; use lengths above 0, at most %d mm", f.outside.X, f.outside.Y, f.thickness, longest)
	}
	if !finite(f.relief) || f.relief < 0 || 2*f.relief >= f.thickness {
		c.refuse("foot.relief", "%s takes the edge of a %s foot away; use less than %s", mm(f.relief), mm(f.thickness), mm(f.thickness/2))
	}
	if r := f.outside.Radius; !finite(r) || r < 0 || 2*r > min(f.outside.X, f.outside.Y) {
		c.refuse("foot.corner", "%s is more than half of the foot; use at most %s", mm(r), mm(min(f.outside.X, f.outside.Y)/2))
	}
	if f.outside.Radius > 0 {
		f.outside.Radius = max(f.outside.Radius, f.relief+0.1) // the relief leaves a round edge round
	}
	c.setSeat(&f, "foot.thickness")
	c.setSlope(&f, place.SlopeForward.Radians(), place.SlopeLeft.Radians())
	c.setKeepOuts(&f)
	c.foot = f
}

// placePath is where the chosen place is in the document.
func placePath(d *design.Document) string {
	for i, p := range d.Airframe.Places {
		if p.Name == d.Mast.Place {
			return fmt.Sprintf("airframe.places[%d]", i)
		}
	}
	return "airframe.places[0]"
}

// insertFloor is what is left under an insert's bore, the shoulder that its screw draws it against, mm. Judgement.
const insertFloor = 1.2

// insertSpare is how much deeper than the insert its bore is, for the plastic that it pushes before it, mm. Common practice, no source.
const insertSpare = 0.3

// fromBelow is whether the screws come from under the frame's plate, into nuts or inserts in the foot.
func (f foot) fromBelow() bool { return f.nut || f.insert }

// head is the diameter of what presses on the foot or, from below, on the frame's plate: a head, or its washer.
func (f foot) head() float64 {
	if f.washers {
		return max(f.thread.headDiameter, f.thread.washer.Outside.Millimetres())
	}
	return f.thread.headDiameter
}

// pressing is the diameter of what draws the foot down: a head, its washer, a nut or an insert.
func (f foot) pressing() float64 {
	switch {
	case f.nut:
		return f.thread.nutFlats
	case f.insert:
		return f.room
	}
	return f.head()
}

// headLevel is the level of the heads' undersides in the foot's own axes.
func (f foot) headLevel() float64 {
	washer := 0.0
	if f.washers {
		washer = f.thread.washer.Thickness.Millimetres()
	}
	if f.fromBelow() {
		return -f.under - washer
	}
	return f.seat + washer
}

// setSeat sinks the head, the nut or the insert: heads leave 2 mm, nuts 1.5 mm of plastic. Judgement. The path is the thickness's.
func (c *mount) setSeat(f *foot, path string) {
	f.seat, f.room = f.thickness, f.head()+headRoom
	switch {
	case f.sunk:
		f.seat = max(f.thickness-f.thread.headHeight-(f.headLevel()-f.seat), 2)
		if f.seat > f.thickness-0.5 {
			c.refuse(path, "%s is too thin to sink a screw's head; use at least 2.5 mm, or head plain", mm(f.thickness))
		}
	case f.insert && f.block:
		c.refuse("foot.head", "insert wants screws from below, where the frame is a block with threads of its own; use plain or counterbore")
	case f.insert:
		f.room = f.thread.insert.Bore().Millimetres() + c.doc.Print.HoleAdd.Millimetres()
		f.seat = f.thickness - f.thread.insert.Length.Millimetres() - insertSpare
		if f.seat < insertFloor && f.thread.size != 0 {
			c.refuse(path, "%s is too thin for an %s insert of %s; use at least %s, or nut pockets", mm(f.thickness), f.thread.size, f.thread.insert.Length,
				mm(f.thickness+insertFloor-f.seat))
		}
	case f.nut:
		f.room = f.thread.nutFlats + nutRoom
		f.seat = max(f.thickness-f.thread.nutHeight-0.2, 1.5)
		if f.seat > f.thickness-0.5 {
			c.refuse(path, "%s is too thin for a nut's pocket; use at least 2 mm, or head plain", mm(f.thickness))
		}
	}
}

// setSlope lays the foot on the face and, as a wedge, makes its thinnest corner as thick as is asked.
func (c *mount) setSlope(f *foot, forward, left float64) {
	c.base = f.thickness
	if c.setPose(f, forward, left); f.wedge {
		p := f.pose
		c.base = p.Z.Z*f.thickness + math.Abs(p.X.Z)*f.outside.X/2 + math.Abs(p.Y.Z)*f.outside.Y/2
	}
}

// setPose turns the foot with its pattern and, as a wedge, onto the face: the plane z = -x tan(forward) - y tan(left).
func (c *mount) setPose(f *foot, forward, left float64) {
	f.pose = mesh.Turn(r3.Vec{Z: 1}, f.turn)
	if c.doc.Foot.Wedge != "level" || forward == 0 && left == 0 {
		return
	}
	normal := r3.Unit(r3.Vec{X: math.Tan(forward), Y: math.Tan(left), Z: 1})
	angle := math.Acos(normal.Z)
	if !finite(angle) || angle > steepest*math.Pi/180 {
		c.refuse("foot.wedge", "level would need a wedge of %.0f degrees; at most %d can be screwed and printed: move the mount or level the face", angle*180/math.Pi, steepest)
		return
	}
	f.wedge = true
	f.pose = f.pose.Then(mesh.Turn(r3.Cross(r3.Vec{Z: 1}, normal), angle))
}

// thick is the plate's thickness along its own axis, at a point of its own axes.
func (c *mount) thick(p r2.Vec) float64 {
	e := c.foot.pose
	return (c.base - e.X.Z*p.X - e.Y.Z*p.Y) / e.Z.Z
}

// checkFoot refuses a foot that its holes, its mast or its fillet do not fit.
func (c *mount) checkFoot() {
	f := c.foot
	stem := c.under.section
	rim := grown(stem, c.rootFillet)
	room, edged := max(f.room, f.thread.hole), 0.8
	if f.insert {
		edged = f.thread.insert.Wall.Millimetres()
	}
	for i, s := range f.spots {
		for k, o := range f.spots[:i] {
			if apart := r2.Norm(r2.Sub(s, o)); apart < room+0.8 {
				c.refuse(placePath(c.doc)+".holes.as", "holes %d and %d are %s apart, less than their heads need; use at least %s, or smaller screws", k+1, i+1, mm(apart), mm(room+0.8))
				return
			}
		}
	}
	for i, s := range f.spots {
		if edge := inside(s, f.outside) - room/2; edge < edged {
			path, size, at := "foot.size.x", f.outside.X, s.X
			if f.outside.Y/2-math.Abs(s.Y) < f.outside.X/2-math.Abs(s.X) {
				path, size, at = "foot.size.y", f.outside.Y, s.Y
			}
			least := 2 * (math.Abs(at) + room/2 + edged)
			if least <= size { // the corner's rounding cuts it off
				c.refuse("foot.corner", "%s leaves the head at hole %d only %s to the edge; use a smaller corner or a larger foot", mm(f.outside.Radius), i+1, mm(edge))
			} else {
				c.refuse(path, "%s leaves hole %d with its head no edge; use at least %s", mm(size), i+1, mm(math.Ceil(least*10)/10))
			}
			break
		}
	}
	for i, s := range f.spots {
		if gap := -inside(turned(s, f.turn), stem) - room/2; gap < 0.3 {
			c.refuse(c.under.paths[0], "%s puts %s into the screw head at hole %d; use %s narrower by %s, or wider holes",
				mm(c.under.widths[0]), c.under.name, i+1, c.under.what, mm(math.Ceil((0.3-gap)*20)/10))
			break
		}
	}
	for _, s := range f.spots {
		c.foot.crowded = c.foot.crowded || inside(turned(s, f.turn), rim)+f.room/2 > 0
	}
	if c.foot.crowded && !f.sunk && !f.fromBelow() {
		c.foot.seat -= 0.2 // a shallow seat, so that the heads find a flat
	}
	// The fillet's corners, seen from the foot's own axes.
	for _, p := range []r2.Vec{{X: rim.X / 2, Y: rim.Y/2 - rim.Radius}, {X: rim.X/2 - rim.Radius, Y: rim.Y / 2}, {X: rim.X / 2, Y: rim.Radius - rim.Y/2}, {X: rim.X/2 - rim.Radius, Y: -rim.Y / 2}} {
		over := -inside(turned(p, -f.turn), f.outside)
		if over <= 0 {
			continue
		}
		if c.rootFillet > over {
			c.refuse("mast.root_fillet", "%s does not fit on the foot beside the root; use at most %s or a larger foot", mm(c.rootFillet), mm(c.rootFillet-over))
		} else {
			c.refuse(c.under.paths[0], "%s is too wide for a %s foot; use %s narrower or a larger foot", mm(c.under.widths[0]), mm(f.outside.X), c.under.what)
		}
		break
	}
	c.checkKeepOuts()
	c.stocked(c.footScrews(), "foot.thickness", "a thinner foot, or sunk heads")
	if len(c.problems) == 0 {
		c.setNumber()
	}
}

// plateOutline is the foot with its screw holes, its keep-outs and the opening for the mast, in place axes.
func (c *mount) plateOutline() outline.Outline {
	o := c.foot.cutThrough(plate(loopOf(c.foot.outside)), true)
	return c.pierced(o)
}

// pierced is a region of the foot's own axes in place axes, with the screw holes and the opening for the mast.
func (c *mount) pierced(o outline.Outline) outline.Outline {
	f := c.foot
	var holes []outline.Loop
	for _, s := range f.spots {
		holes = append(holes, circleAt(turned(s, f.turn), f.thread.hole))
	}
	if c.under.through.X > 0 {
		holes = append(holes, loopOf(c.under.through))
	}
	for _, h := range o.Holes {
		holes = append(holes, h.Rotate(f.turn).Reverse())
	}
	return plate(o.Outer.Rotate(f.turn), holes...)
}

func loopOf(s section) outline.Loop {
	return outline.RoundedRectangle(s.X, s.Y, min(s.Radius, s.X/2, s.Y/2))
}

func (c *mount) footPlate(material string) FootPlate {
	f := c.foot
	p := FootPlate{
		Outline: c.plateOutline(), Hub: plate(loopOf(grown(c.under.section, c.rootFillet))),
		Thickness: f.thickness, Rise: c.base, Seat: f.seat, Head: f.pressing(), Material: material, Shell: c.plates,
	}
	for _, s := range f.spots {
		p.Screws = append(p.Screws, turned(s, f.turn))
	}
	p.Body = c.footBody(p.Shell)
	return p
}

func (c *mount) footBody(shell Shell) Body {
	f := c.foot
	var l lump
	open := f.cutThrough(plate(loopOf(f.outside)), false)
	o := c.pierced(open)
	middle := c.thick(r2.Vec{})
	if len(f.cuts) > 0 { // what is cut out may leave more on one side
		middle = c.thick(turned(o.Section().Centroid, -f.turn))
	}
	l.plate(o, 0, middle, shell)
	for _, s := range f.spots {
		if depth := c.thick(s) - f.seat; depth > 0 {
			head := circleAt(r2.Vec{}, f.room)
			if f.nut {
				head = outline.Polygon(6, f.room)
			}
			at := turned(s, f.turn)
			l.slab(plate(head.Translate(at.X, at.Y), circleAt(at, f.thread.hole)).Section(), f.seat, f.seat+depth, 1, -1)
		}
	}
	for _, k := range f.cuts {
		if left, ok := less(open, k.shape); ok && k.depth > 0 { // a pocket takes what a cut would
			l.slab(open.Section(), 0, k.depth, 1, -1)
			l.slab(left.Section(), 0, k.depth, 1, 1)
		}
	}
	for _, n := range f.number {
		l.slab(n.Section(), 0, numberDeep, 1, -1)
	}
	edge := outline.Section{Area: o.Outer.Length() * f.relief / 2}
	l.slab(edge, 0, f.relief, 1, -1)
	b := l.body()
	if f.wedge { // thicker to one side
		s, e := o.Section(), f.pose
		flat := mesh.Turn(r3.Vec{Z: 1}, -f.turn).Then(e)
		b.Centre.X -= flat.X.Z / flat.Z.Z * s.Iyy / b.Volume
		b.Centre.Y -= flat.Y.Z / flat.Z.Z * s.Ixx / b.Volume
		b.Centre = flat.Apply(b.Centre)
	}
	return b
}

// plateSolid is the plate without its holes.
func (c *mount) plateSolid() solid.Node {
	f := c.foot
	top := c.highest()
	o := f.outside
	n := solid.Named("foot", relieved(o, top, f.relief))
	n = solid.Place(n, f.pose)
	if f.wedge {
		n = solid.Intersection(n, solid.Named("foot top", solid.HalfSpace(r3.Vec{Z: c.base}, r3.Vec{Z: 1})))
	}
	return n
}

// relieved is a prism up to a level whose lowest edge is chamfered.
func relieved(o section, top, relief float64) solid.Node {
	e := relief
	if e == 0 {
		return solid.RoundedPrism(o.X, o.Y, top, o.Radius)
	}
	// The lowest edge flares out past the sides, which cut it; the rest overlaps it.
	edge := solid.Intersection(
		solid.Move(solid.RoundedPrism(o.X, o.Y, 4*e, o.Radius), r3.Vec{Z: -e}),
		solid.Named("foot relief", solid.TaperedPrism(loose(o, -e), loose(o, e), 2*e)))
	return solid.Union(solid.Move(solid.RoundedPrism(o.X, o.Y, top-1.5*e, o.Radius), r3.Vec{Z: 1.5 * e}), edge)
}

// screwCutters are the frame's screw holes with room for their heads, the keep-outs and the number in the underside.
func (c *mount) screwCutters() []solid.Node {
	f := c.foot
	var all []solid.Node
	for _, s := range f.spots {
		high := c.thick(s) + 1
		if f.crowded {
			high += c.rootFillet
		}
		put := func(n solid.Node, z float64) {
			all = append(all, solid.Place(solid.Move(n, r3.Vec{X: s.X, Y: s.Y, Z: z}), f.pose))
		}
		put(solid.Named("foot hole", solid.Cylinder(f.thread.hole/2, high+1)), -1)
		switch {
		case f.nut:
			put(solid.Named("nut pocket", solid.HexPocket(f.room, high-f.seat)), f.seat)
		case f.insert:
			put(solid.Named("insert's bore", solid.Cylinder(f.room/2, high-f.seat)), f.seat)
		case f.sunk || f.wedge || f.crowded:
			put(solid.Named("head room", solid.Cylinder(f.room/2, high-f.seat)), f.seat)
		}
	}
	return append(append(all, c.keepCutters()...), c.numberCutters()...)
}
