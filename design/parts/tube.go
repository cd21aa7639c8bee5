package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/materials"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// tube is a stock tube in printed split clamps, in millimetres, worked out from a document.
type tube struct {
	mount

	stock         materials.Material
	outside, bore float64
	grip, wall    float64 // of the clamps
	low, high     clamp
	drilled       float64 // diameter of the cross screws' holes in the tube; 0 for none
}

// tubeOf works out the mount that a document describes and notes what cannot be made.
func tubeOf(doc *design.Document) *tube {
	c := &tube{mount: mountOf(doc)}
	defer func() { c.doc = nil }()
	for _, step := range []func(){c.setFoot, c.setTube, c.setClamps, c.setTray, c.setLedge, c.checkFoot, c.checkTray, c.setEars} {
		step()
		if len(c.problems) > 0 && c.tip == 0 {
			break // nothing further can be placed
		}
	}
	return c
}

// setTube places the levels and the tube between them.
func (c *tube) setTube() {
	m, t := c.doc.Mast, c.doc.Tray
	var err error
	if c.stock, err = c.doc.Library().Find(c.doc.Materials.Tube); err != nil {
		c.refuse("materials.tube", "%v", err)
		return
	}
	c.outside, c.bore = m.Tube.Outside.Millimetres(), some(m.Tube.Bore.Millimetres())
	c.grip, c.wall = m.Tube.Clamp.Grip.Millimetres(), m.Tube.Clamp.Wall.Millimetres()
	c.seat = m.Height.Millimetres()
	c.rootFillet, c.tipFillet, c.flare = some(m.RootFillet.Millimetres()), some(m.TipFillet.Millimetres()), some(t.Flare.Millimetres())
	floor := t.Thickness.Millimetres()
	slit := m.Tube.Clamp.Slit.Millimetres()
	for _, n := range []struct {
		path              string
		value, least, top float64
	}{
		{"mast.height", c.seat, shortest, longest}, {"mast.tube.outside", c.outside, 2, 100}, {"mast.tube.bore", c.bore, 0, 100},
		{"mast.tube.clamp.grip", c.grip, 1, 200}, {"mast.tube.clamp.wall", c.wall, 1.2, 50}, {"mast.tube.clamp.slit", slit, 0.2, 10},
		{"tray.thickness", floor, shortest, longest}, {"mast.root_fillet", c.rootFillet, 0, longest}, {"mast.tip_fillet", c.tipFillet, 0, longest},
		{"tray.flare", c.flare, 0, longest},
	} {
		if !(n.value >= n.least && n.value <= n.top) {
			c.refuse(n.path, "%g mm cannot be made; use %g to %g mm", n.value, n.least, n.top)
		}
	}
	if len(c.problems) > 0 {
		return
	}
	if c.flare > 0 {
		c.tipFillet = 0
	}
	if c.bore > c.outside-0.5 {
		c.refuse("mast.tube.bore", "%s leaves no wall in a %s tube; use at most %s", mm(c.bore), mm(c.outside), mm(c.outside-0.5))
	}
	if most := c.outside / 3; slit > most {
		c.refuse("mast.tube.clamp.slit", "%s opens the clamp of a %s tube too far to hold it; use at most %s", mm(slit), mm(c.outside), mm(most))
	}
	for _, n := range []struct {
		path  string
		value float64
	}{{"mast.root_fillet", c.rootFillet}, {"mast.tip_fillet", c.tipFillet}, {"tray.flare", c.flare}} {
		if n.value > c.grip-1 {
			c.refuse(n.path, "%s is higher than a clamp of %s lets it be; use at most %s", mm(n.value), mm(c.grip), mm(max(0, c.grip-1)))
		}
	}
	if least := c.base + 2*c.grip + 2 + floor; c.seat < least {
		c.refuse("mast.height", "%s leaves no tube between its clamps; use at least %s, or a shorter grip", mm(c.seat), mm(least))
		return
	}
	c.tip = c.seat - floor
}

// setClamps lays out the two clamps, their ears still pointing forward.
func (c *tube) setClamps() {
	if c.tip == 0 {
		return
	}
	m := c.doc.Mast.Tube.Clamp
	k := clamp{
		outside: c.outside + 2*c.wall, bore: c.outside + 2*clampPlay + c.doc.Print.HoleAdd.Millimetres(), slit: m.Slit.Millimetres(),
		thread: c.threadOf("mast.tube.clamp.screw", m.Screw),
	}
	if least := k.thread.headDiameter + 2*clampMargin; c.grip < least {
		c.refuse("mast.tube.clamp.grip", "%s is too short for the ears of an %s screw; use at least %s, or a smaller screw", mm(c.grip), m.Screw, mm(least))
	}
	if k.bore > k.outside-2 || k.bore < k.slit+0.2 {
		c.refuse("mast.tube.clamp.wall", "%s leaves nothing around the bore of %s; use at least %s", mm(c.wall), mm(k.bore), mm((k.bore-c.outside)/2+1))
		return
	}
	if m.Key == "cross screw" {
		k.key = c.keyThread(k.thread)
	}
	c.low, c.high = k, k
	c.low.name, c.low.from, c.low.to = "foot", c.base, c.base+c.grip
	c.low.stop = c.base - min(tubeSeat, 0.25*c.foot.thickness)
	c.high.name, c.high.from, c.high.to, c.high.stop = "tray", c.tip-c.grip, c.tip, c.tip
	way := section{}
	if d := c.bore - 0.5; d >= 2 { // leaves the tube a ledge to stand on
		way = section{X: d, Y: d, Radius: d / 2}
	}
	if c.setNeck(way.X); len(c.problems) > 0 {
		return
	}
	for _, k := range []*clamp{&c.low, &c.high} {
		k.shapeEars(c.wall)
		k.keyLevel = (k.from + k.to) / 2
	}
	round := section{X: k.outside, Y: k.outside, Radius: k.outside / 2}
	c.under = stem{section: section{X: c.low.stem(), Y: c.low.stem(), Radius: c.low.stem() / 2}, name: "the clamp", what: "a clamp", paths: [2]string{"mast.tube.clamp.wall", "mast.tube.clamp.wall"},
		widths: [2]float64{c.wall, c.wall}, through: way}
	c.over = stem{section: round, name: "the clamp", what: "a clamp", paths: c.under.paths, widths: c.under.widths,
		opening: r2.Vec{X: k.outside, Y: k.outside}}
}

// setNeck puts the foot's clamp on a fuse, where there is to be one.
func (c *tube) setNeck(hole float64) {
	m := c.doc.Mast.Fuse
	if !m.Fitted {
		return
	}
	k := &c.low
	width := m.Width.Millimetres()
	n := neck{fuse: fuse{fitted: true, wall: m.Wall.Millimetres()}, hole: hole, root: c.base}
	n.outside = hole + 2*n.wall
	n.depth = (k.outside - n.outside) / 2
	if !(n.wall >= 0.2 && n.depth >= fuseLeast) {
		c.refuse("mast.fuse.wall", "%s weakens no clamp of %s around an opening of %s; use at most %s", mm(n.wall), mm(k.outside), mm(hole), mm((k.outside-hole)/2-fuseLeast))
		return
	}
	if !(width >= 0.5 && width <= longest) {
		c.refuse("mast.fuse.width", "%g mm cannot be made; use 0.5 to %d mm", width, longest)
		return
	}
	least := c.base + c.rootFillet + width/2
	z := least
	if c.doc.Has("mast.fuse.height") {
		z = m.Height.Millimetres()
	}
	floor := c.seat - c.tip
	most := c.tip - 2*c.grip - 2 - n.depth - width/2
	switch {
	case !(z >= least-1e-9):
		c.refuse("mast.fuse.height", "%s puts the fuse into the foot or its fillet; use at least %s", mm(z), mm(math.Ceil(least*10)/10))
		return
	case z > most+1e-9:
		c.refuse("mast.height", "%s leaves no tube between the clamps over a fuse; use at least %s, or a shorter grip", mm(c.seat), mm(z+n.depth+width/2+2*c.grip+2+floor))
		return
	}
	n.from, n.to = z-width/2, z+width/2
	k.neck = n
	k.from = n.to + n.depth
	k.to = k.from + c.grip
	k.stop = k.from - min(tubeSeat, n.depth/2)
}

// setLedge leaves the tube's end a ledge to stop at.
func (c *tube) setLedge() { c.tray.shyOf(c.high.bore) }

// keyThread is the largest screw, no larger than the clamp's, whose hole the tube bears.
func (c *tube) keyThread(most thread) thread {
	best := thread{}
	for _, name := range []string{"M2", "M2.5", "M3", "M4"} {
		t := c.threadOf("mast.tube.clamp.screw", name)
		hole := t.hole - c.doc.Print.HoleAdd.Millimetres() // drilled, not printed
		if t.diameter <= most.diameter && (best.size == 0 || hole <= keyShare*c.outside) {
			best, c.drilled = t, hole
		}
	}
	return best
}

// setEars turns the ears to where they find room between the frame's screws and the receiver's.
func (c *tube) setEars() {
	if len(c.problems) > 0 {
		return
	}
	f := c.foot
	var heads []r2.Vec
	for _, s := range f.spots {
		heads = append(heads, turned(s, f.turn))
	}
	var kept []outline.Loop
	for _, k := range f.cuts {
		kept = append(kept, k.shape.Rotate(f.turn))
	}
	if !c.turnEars(&c.low, earTurns, heads, max(f.room, f.thread.hole), kept, loopOf(f.outside).Rotate(f.turn)) {
		c.refuse("mast.tube.clamp.screw", "%s leaves the clamp's ears no room between the frame's screws; use a smaller one, a thinner clamp or a larger foot", c.doc.Mast.Tube.Clamp.Screw)
		return
	}
	if c.low.neck.fitted { // the sleeve stands over the plate
		for i, h := range heads {
			if r2.Norm(h)-c.low.outside/2 < max(f.room, f.thread.hole)/2+0.3 {
				c.refuse("mast.tube.clamp.wall", "%s puts the clamp over the screw head at hole %d; use a thinner clamp, or no fuse", mm(c.wall), i+1)
				return
			}
		}
	}
	turns := append([]float64{c.low.turn}, earTurns...)
	if !c.turnEars(&c.high, turns, c.tray.spots, 2*c.tray.thread.nutFlats/math.Sqrt(3), nil, nil) {
		c.refuse("mast.tube.clamp.screw", "%s leaves the clamp's ears no room between the receiver's screws; use a smaller one or a thinner clamp", c.doc.Mast.Tube.Clamp.Screw)
	}
}

func (c *tube) turnEars(k *clamp, turns []float64, circles []r2.Vec, diameter float64, loops []outline.Loop, on outline.Loop) bool {
	for _, turn := range turns {
		k.turn = turn
		stands := true
		for _, v := range k.earLoop().Rotate(turn) {
			stands = stands && (len(on) == 0 || on.Distance(r2.Vec{X: v.X, Y: v.Y}) < -0.5)
		}
		if stands && k.clears(circles, diameter, loops) {
			return true
		}
	}
	return false
}

// buildTube is a stock tube in printed clamps.
func buildTube(doc *design.Document) (Assembly, []design.Problem) {
	c := tubeOf(doc)
	if len(c.problems) > 0 {
		return Assembly{}, c.problems
	}
	m := doc.Materials
	a := Assembly{Foot: c.footPlate(m.Foot), Tray: c.trayPlate(m.Tray), Seat: r3.Vec{Z: c.seat}}
	a.Foot.Body = together(a.Foot.Body, c.low.extras(c.rootFillet, false), c.recess())
	if n := c.low.neck; n.fitted {
		a.Fuse = &End{c.low.name + " clamp", (n.middle() - n.root) / (c.low.to - n.root)}
	}
	a.Tray.Body = together(a.Tray.Body, c.high.extras(max(c.tipFillet, c.flare), c.flare > 0))
	bar, foot, top := c.bar(m.Tube), c.clampMember(c.low, m.Foot), c.clampMember(c.high, m.Tray)
	a.Members = []Member{bar, foot, top}
	a.Roots, a.Tips = []End{{foot.Name, 0}}, []End{{top.Name, 1}}
	a.Screws = append(a.Screws, c.footScrews())
	for _, k := range []struct {
		clamp
		material, screws string
	}{{c.low, m.Foot, doc.Foot.Screws}, {c.high, m.Tray, c.trayScrews}} {
		screws := k.uses(k.screws, (c.outside-c.bore)/2)
		a.Screws = append(a.Screws, screws...)
		a.Joints = append(a.Joints, c.jointOf(k.clamp, bar, k.material, screws[0]))
	}
	a.Screws = append(a.Screws, c.receiverScrews()...)
	a.Parts = []Part{
		c.printedEnd(Part{Name: "foot", Material: m.Foot, Body: together(a.Foot.Body, foot.Body()), build: c.footSolid}, c.low),
		c.cutTube(bar),
		c.printedEnd(Part{Name: "tray", Material: m.Tray, Body: together(a.Tray.Body, top.Body()), build: c.traySolids}, c.high),
	}
	return a, nil
}

// recess is what the tube's seat takes of the foot's plate beside the opening for the cable; a neck has it in its own sections.
func (c *tube) recess() Body {
	var l lump
	if c.low.neck.fitted {
		return l.body()
	}
	seat := plate(outline.Circle(c.low.bore / 2))
	if w := c.under.through; w.X > 0 {
		seat = plate(outline.Circle(c.low.bore/2), outline.Circle(w.X/2))
	}
	l.slab(seat.Section(), c.low.stop, c.base, 1, -1)
	return l.body()
}

// ring is the tube across its axis.
func (c *tube) ring() outline.Outline {
	if c.bore == 0 {
		return plate(outline.Circle(c.outside / 2))
	}
	return plate(outline.Circle(c.outside/2), outline.Circle(c.bore/2))
}

// bar is the tube as a member.
func (c *tube) bar(material string) Member {
	m := Member{Name: "tube", Bears: true, Part: "tube", Material: material, From: r3.Vec{Z: c.low.stop}, To: r3.Vec{Z: c.high.stop}}
	o := c.ring()
	at := func(z float64) float64 { return (z - c.low.stop) / (c.high.stop - c.low.stop) }
	for _, z := range []float64{c.low.stop, c.low.middle(), c.high.middle(), c.high.stop} {
		m.Stations = append(m.Stations, Station{At: at(z), Outline: o, Fill: 1, section: o.Section()})
	}
	if c.drilled > 0 {
		s := section{X: c.outside, Y: c.outside}
		for _, k := range []clamp{c.low, c.high} {
			n := c.crossHole("key hole", at(k.keyLevel), c.drilled, s)
			n.Axis = k.at(1, 0)
			m.Notches = append(m.Notches, n)
		}
	}
	return m
}

// middle is the level of the middle of the grip, where the clamp's springs act.
func (k clamp) middle() float64 { return (k.from + k.to) / 2 }

func (c *tube) jointOf(k clamp, bar Member, material string, screw ScrewUse) Joint {
	z := k.middle()
	return Joint{
		Name: k.name + " clamp", Kind: Clamp, A: k.name + " clamp", B: bar.Name,
		AtA: (z - k.root()) / (k.to - k.root()), AtB: (z - bar.From.Z) / (bar.To.Z - bar.From.Z), Centre: r3.Vec{Z: z},
		Grip: k.to - k.from, Wall: (k.outside - k.bore) / 2, Clearance: clampPlay, Material: material, Keyed: k.key.size != 0, Screw: screw,
	}
}

// footSolid is the foot with its clamp.
func (c *tube) footSolid() solid.Node {
	k, sunk := c.low, overlap*c.foot.thickness
	stem, rest := k.bodies(c.base-sunk, k.to)
	n := append([]solid.Node{c.plateSolid(), stem}, rest...)
	if c.rootFillet > 0 {
		n = append(n, solid.Named("root fillet", solid.Fillet(stem, sunk, solid.Above, c.rootFillet)))
	}
	spread := c.rootFillet
	if k.neck.fitted {
		spread = 0 // it lies below the slit
	}
	cut := append(c.screwCutters(), k.cutters(spread)...)
	if w := c.under.through; w.X > 0 {
		low := c.below()
		cut = append(cut, solid.Named("cable opening", solid.Move(solid.Cylinder(w.X/2, k.stop+0.3-low), r3.Vec{Z: low})))
	}
	return solid.Difference(solid.Union(n...), cut...)
}

// traySolids is the tray with its clamp.
func (c *tube) traySolids() solid.Node {
	k := c.high
	stem, rest := k.bodies(k.from, c.tip+overlap*c.tray.thickness)
	n := append([]solid.Node{c.traySolid(false), stem}, rest...)
	switch {
	case c.flare > 0:
		n = append(n, solid.Named("flare", solid.Chamfer(stem, k.to-k.from, solid.Below, c.flare)))
	case c.tipFillet > 0:
		n = append(n, solid.Named("tip fillet", solid.Fillet(stem, k.to-k.from, solid.Below, c.tipFillet)))
	}
	cut := append(c.markCutters(), k.cutters(max(c.tipFillet, c.flare))...)
	if t := c.tray; t.hasOpening() {
		from := c.tip - 1
		if math.Hypot(t.opening.X, t.opening.Y) > k.bore {
			from = c.tip - 0.3
		}
		cut = append(cut, c.openingCutter(from))
	}
	return solid.Difference(solid.Union(n...), cut...)
}

// tubeSolid is the tube with the cross screws' holes in one wall.
func (c *tube) tubeSolid() solid.Node {
	n := solid.Named("tube", solid.Move(solid.Cylinder(c.outside/2, c.high.stop-c.low.stop), r3.Vec{Z: c.low.stop}))
	var cut []solid.Node
	if c.bore > 0 {
		cut = append(cut, solid.Named("tube bore", solid.Move(solid.Cylinder(c.bore/2, c.high.stop-c.low.stop+2), r3.Vec{Z: c.low.stop - 1})))
	}
	if c.drilled > 0 {
		for _, k := range []clamp{c.low, c.high} {
			cut = append(cut, hole("key hole", k.at(-c.outside/2, k.keyLevel), k.at(1, 0), c.drilled, c.outside))
		}
	}
	return solid.Difference(n, cut...)
}

// cutTube is the tube as it is bought and cut.
func (c *tube) cutTube(bar Member) Part {
	body, wall := bar.Body(), (c.outside-c.bore)/2
	if c.drilled > 0 {
		for _, k := range []clamp{c.low, c.high} {
			body = bored(body, k.at(-(c.outside-wall)/2, k.keyLevel), k.at(1, 0), c.drilled, wall)
		}
	}
	size := materials.TubeSize{Outside: units.Millimetres(c.outside), Bore: units.Millimetres(c.bore)}
	p := Part{
		Name: "tube", Making: Stock, Material: bar.Material, Turn: mesh.Turn(r3.Vec{Z: 1}, 0), Box: r3.Vec{X: c.outside, Y: c.outside, Z: bar.Length()},
		Size: size.String() + " tube", Length: bar.Length(), Body: body, build: c.tubeSolid,
	}
	if c.bore == 0 {
		p.Size = mm(c.outside) + " rod"
	}
	p.Notes = append(p.Notes, fmt.Sprintf("Cut square to %s and take the burr off both ends.", mm(p.Length)))
	if near, exact := c.stock.NearestTube(size.Outside, size.Bore); !exact && c.bore > 0 && near.Outside > 0 {
		p.Notes = append(p.Notes, fmt.Sprintf("%s is not among the sizes that shops keep of it; the nearest is %s.", size, near))
	}
	if c.drilled > 0 {
		p.Notes = append(p.Notes, fmt.Sprintf("Drill %s through one wall, %s from the lower end and %s from the upper, with the clamps in place: the cross screws key it against turning.",
			mm(c.drilled), mm(c.low.keyLevel-c.low.stop), mm(c.high.stop-c.high.keyLevel)))
	} else {
		p.Notes = append(p.Notes, "Draw a line over tube and clamps once the receiver points forward: nothing but the clamps' grip keeps it from turning.")
	}
	if c.stock.Dust != "" {
		p.Notes = append(p.Notes, "Caution: "+c.stock.Dust+".")
	}
	return p
}

// printedEnd turns a foot or a tray to the bed and says how it prints there: the tray stands on its clamp.
func (c *tube) printedEnd(p Part, k clamp) Part {
	ring := boxHull(outline.Circle(k.outside/2), k.from, k.to)
	ears := boxHull(k.earLoop().Rotate(k.turn), k.from, k.to)
	var g Printing
	if k.name == "foot" {
		p = c.onBed(p, "upright", c.footDown(), append(append(c.footHull(), ring...), ears...))
		o := c.plateOutline()
		g = p.Printing
		g.Footprint, g.Contact, g.TipArea = size(o.Outer), o.Area(), k.ring(0).Area()
		if k.neck.fitted {
			g.TipArea = min(g.TipArea, k.neck.ring(0).Area())
			g.Overhang = k.ear - k.outside/2
		}
	} else {
		p = c.onBed(p, "upright", mesh.Turn(r3.Vec{Z: 1}, 0), append(append(c.trayHull(), ring...), ears...))
		g = p.Printing
		g.Footprint = size(outline.Circle(k.outside / 2))
		g.Contact, g.TipArea = k.ring(0).Area()+k.earLoop().Area(), c.tray.plan(true).Area()
		if c.tray.rim {
			g.TipArea = c.tray.ring().Area()
		}
		g.Overhang = c.trayLedge()
	}
	g.Wall = (k.outside - k.bore) / 2
	g.Slenderness = g.Height / min(g.Footprint.X, g.Footprint.Y)
	g.Supports = g.Overhang > ledge
	p.Printing = g
	switch {
	case g.Supports && k.name == "foot":
		p.Notes = append(p.Notes, "Supports from the plate under the clamp's ears: the fuse below them is thinner.")
	case g.Supports:
		p.Notes = append(p.Notes, fmt.Sprintf("Stands on its clamp: supports under the floor, which reaches out %.1f mm, or a flare of %.1f mm.", g.Overhang, g.Overhang))
	}
	if !g.Fits {
		p.Notes = append(p.Notes, fmt.Sprintf("Does not fit the bed: it needs %.0f x %.0f mm and %.0f mm of height.", math.Ceil(g.Bed.X), math.Ceil(g.Bed.Y), math.Ceil(g.Bed.Z)))
	}
	p.Notes = append(p.Notes, fmt.Sprintf("Tighten the clamp's %s only until the tube no longer turns by hand: printed ears creep, and a pultruded tube splits.", plural(len(k.levels), "screw")))
	if k.name == "foot" {
		p.Notes = append(p.Notes, c.footNotes()...)
	} else {
		p.Notes = append(p.Notes, c.trayNotes()...)
	}
	return p
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// tubeFits adds a ring of the clamp to try the tube in.
func tubeFits(doc *design.Document) fits {
	c, m := tubeOf(doc), doc.Materials
	f := fits{mount: &c.mount, foot: m.Foot, tray: m.Tray, threads: []thread{c.low.thread}}
	if len(c.problems) > 0 {
		return f
	}
	const high = 8
	k := c.low
	k.from, k.to, k.stop, k.turn, k.key = 0, high, -1, 0, thread{}
	k.levels = []float64{high / 2}
	o := plate(k.open(), nil...)
	p := c.flatPiece("fit_clamp", m.Foot, high, o, func() solid.Node {
		return solid.Difference(solid.Extrude(high, o), k.cutters(0)[2:]...)
	}, "The tube must push in by hand and no longer turn once the screw is tight; its play is print.hole_add.")
	f.pieces = append(f.pieces, p)
	return f
}

// open is the clamp across its axis with its slit and its ears.
func (k clamp) open() outline.Loop {
	r, in, half := k.outside/2, k.bore/2, k.slit/2
	x := func(r, y float64) float64 { return math.Sqrt(r*r - y*y) }
	sweep := 2 * (math.Pi - math.Asin(k.half/r))
	bulge := math.Tan(sweep / 8)
	back := -math.Tan(2 * (math.Pi - math.Asin(half/in)) / 8)
	return outline.Loop{
		{X: x(in, half), Y: half}, {X: k.ear, Y: half}, {X: k.ear, Y: k.half}, {X: x(r, k.half), Y: k.half, Bulge: bulge}, {X: -r, Bulge: bulge},
		{X: x(r, k.half), Y: -k.half}, {X: k.ear, Y: -k.half}, {X: k.ear, Y: -half}, {X: x(in, half), Y: -half, Bulge: back}, {X: -in, Bulge: back},
	}
}
