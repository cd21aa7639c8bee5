package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/materials"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

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

func (c *tube) jointOf(k clamp, bar Member, material string, screw ScrewUse) Joint {
	z := k.middle()
	return Joint{
		Name: k.name + " clamp", Kind: Clamp, A: k.name + " clamp", B: bar.Name,
		AtA: (z - k.root()) / (k.to - k.root()), AtB: (z - bar.From.Z) / (bar.To.Z - bar.From.Z), Centre: r3.Vec{Z: z},
		Grip: k.to - k.from, Wall: (k.outside - k.bore) / 2, Clearance: clampPlay, Material: material, Keyed: k.key.size != 0, Screw: screw,
	}
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
	if k.neck.fitted {
		p.Notes = append(p.Notes, k.neck.note())
	}
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
	ear := k.half - k.slit/2
	for _, side := range []float64{-1, 1} {
		p.Body = bored(p.Body, r3.Vec{X: k.bolt, Y: side * (k.half - ear/2), Z: high / 2}, r3.Vec{Y: 1}, k.thread.hole, ear)
	}
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
