package parts

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/materials/hardware"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// buildPlates is two cut plates with printed foot, spacers and tray.
func buildPlates(doc *design.Document) (Assembly, []design.Problem) {
	c := platesOf(doc)
	if len(c.problems) > 0 {
		return Assembly{}, c.problems
	}
	m := doc.Materials
	a := Assembly{
		Foot: c.footPlate(m.Foot), Tray: c.trayPlate(m.Tray), Seat: r3.Vec{Z: c.seat},
		Screws: append(append([]ScrewUse{c.footScrews()}, c.plateScrews()...), c.receiverScrews()...),
	}
	a.Roots, a.Tips = []End{{"foot block", 0}}, []End{{"tray block", 1}}
	foot, tray := c.blockMember(true, m.Foot), c.blockMember(false, m.Tray)
	holes := float64(2*len(c.columns())) * c.boreVolume()
	a.Members = []Member{c.plateMember(true, m.Sheet), c.plateMember(false, m.Sheet), emptied(foot, holes), emptied(tray, holes)}
	for i, s := range c.spacers {
		a.Members = append(a.Members, c.spacerMember(i, s, m.Spacer))
	}
	c.join(&a, m)
	parts, err := c.plateParts(m.Sheet)
	if err != nil {
		return Assembly{}, []design.Problem{{Path: "mast.plates.kerf", Value: doc.Get("mast.plates.kerf"), Text: fmt.Sprintf("%s cannot be cut around: %v; use a smaller kerf", doc.Get("mast.plates.kerf"), err)}}
	}
	a.Parts = append([]Part{c.footPart(a.Foot, foot), c.trayPart(a.Tray, tray)}, parts...)
	if len(c.spacers) > 0 {
		a.Parts = append(a.Parts, c.spacerPart(m.Spacer))
	}
	return a, nil
}

// plateScrews are those through the blocks and the spacers, from left to right.
func (c *plates) plateScrews() []ScrewUse {
	right := r3.Vec{Y: -1}
	use := func(purpose, material string) ScrewUse {
		u := ScrewUse{
			For: purpose, Size: c.screw.size, Head: hardware.Socket, Material: material, Axis: right, Hole: c.screw.hole,
			Grip: c.gap + 2*c.thickness, Engagement: c.screw.nutEngagement, Nut: true, HeadRoom: c.headed() + headRoom,
		}
		u.washed(c.washers, 2, c.screw)
		u.Length = stock(u.Grip+u.Through, u.Engagement)
		return u
	}
	put := func(u *ScrewUse, x, z float64) {
		u.At = append(u.At, r3.Vec{X: x, Y: c.gap/2 + c.thickness + float64(u.Washers)/2*c.screw.washer.Thickness.Millimetres(), Z: z})
		u.Count++
	}
	foot, tray, between := use("foot block", c.foot.screws), use("tray block", c.trayScrews), use("spacers", c.trayScrews)
	for _, x := range c.columns() {
		for _, z := range c.screwLevels(true) {
			put(&foot, x, z)
		}
		for _, z := range c.screwLevels(false) {
			put(&tray, x, z)
		}
	}
	for _, s := range c.spacers {
		for _, z := range s.screws {
			put(&between, 0, z)
		}
	}
	all := []ScrewUse{foot, tray}
	if between.Count > 0 {
		all = append(all, between)
	}
	return all
}

// plateMember is a plate as a bar; holes narrow it, on the safe side, as if what is left on both sides of them stood together.
func (c *plates) plateMember(left bool, material string) Member {
	y, name, side := -(c.gap+c.thickness)/2, "right plate", sides["right"]
	if left {
		y, name, side = -y, "left plate", sides["left"]
	}
	m := Member{Name: name, Bears: true, Part: c.partOf(left), Material: material, From: r3.Vec{Y: y, Z: c.low}, To: r3.Vec{Y: y, Z: c.high}}
	at := func(z float64) float64 { return (z - c.low) / (c.high - c.low) }
	add := func(z, less float64) {
		o := plate(outline.Rectangle(c.width(z)-less, c.thickness))
		m.Stations = append(m.Stations, Station{At: at(z), Outline: o, Fill: 1, section: o.Section()})
	}
	// A hole with round ends keeps its area as trapezia: its narrow side is (π/2 - 1) of the width.
	open := func(from, to, width float64) {
		narrow := width * (math.Pi/2 - 1)
		add(from, 0)
		add(from, narrow)
		add(from+width/2, width)
		if to-from > width+1e-6 {
			add(to-width/2, width)
		}
		add(to, narrow)
		add(to, 0)
		n := Notch{Name: "opening", At: at((from + to) / 2), Radius: width / 2, Diameter: width, Axis: r3.Vec{Y: 1}, Small: r2.Vec{X: c.width((from + to) / 2), Y: c.thickness}, Long: to - from}
		m.Notches = append(m.Notches, n)
	}
	add(c.low, 0)
	slot := c.way.open && c.way.side == side
	done := false
	for _, z := range c.lightening {
		if slot && !done && c.way.bottom < z {
			open(c.way.bottom, c.way.bottom+c.way.length, c.way.width)
			done = true
		}
		open(z-c.light/2, z+c.light/2, c.light)
	}
	if slot && !done {
		open(c.way.bottom, c.way.bottom+c.way.length, c.way.width)
	}
	add(c.high, 0)
	drill := func(z float64) {
		m.Notches = append(m.Notches, Notch{Name: "screw hole", At: at(z), Radius: c.drilled / 2, Diameter: c.drilled, Axis: r3.Vec{Y: 1}, Small: r2.Vec{X: c.width(z), Y: c.thickness}})
	}
	for _, foot := range []bool{true, false} {
		for _, z := range c.screwLevels(foot) {
			drill(z)
		}
	}
	for _, s := range c.spacers {
		for _, z := range s.screws {
			drill(z)
		}
		if s.tab.X > 0 {
			m.Notches = append(m.Notches, Notch{Name: "slot", At: at(s.level), Radius: s.tab.X / 2, Diameter: s.tab.X, Axis: r3.Vec{Y: 1}, Small: r2.Vec{X: c.width(s.level), Y: c.thickness}, Long: s.tab.Y})
		}
	}
	return emptied(m, c.plateLoss(side))
}

// plateLoss is what screws, slots and rounded corners take of a plate besides what its sections show, mm³.
func (c *plates) plateLoss(side int) float64 {
	shown := float64(len(c.lightening)) * math.Pi / 4 * c.light * c.light
	if w := c.way; w.open && w.side == side {
		shown += outline.Slot(w.length, w.width).Area()
	}
	return ((c.root+c.tip2)/2*(c.high-c.low) - c.outline(side).Area() - shown) * c.thickness
}

// emptied is a member that weighs less by a volume in mm³ than its sections do, evenly along it.
func emptied(m Member, less float64) Member {
	share := 1 - less/m.Body().Volume
	m.Stations = slices.Clone(m.Stations)
	for i := range m.Stations {
		m.Stations[i].Fill *= share
	}
	return m
}

// blockMember is the block on the foot, or the one under the tray, as a bar.
func (c *plates) blockMember(foot bool, material string) Member {
	name, part, low, high, s := "foot block", "foot", c.base, c.low+c.grip, c.under.section
	if !foot {
		name, part, low, high, s = "tray block", "tray", c.high-c.grip, c.tip, c.over.section
	}
	m := Member{Name: name, Part: part, Material: material, From: r3.Vec{Z: low}, To: r3.Vec{Z: high}}
	add := func(z, grow float64) {
		o := plate(sharpless(grown(s, grow)))
		if t := c.tray; !foot && t.hasOpening() {
			o = plate(sharpless(grown(s, grow)), loopOf(c.opening()))
		}
		m.Stations = append(m.Stations, c.station((z-low)/(high-low), o))
	}
	if foot {
		for _, p := range filletPoints(c.rootFillet, 0) {
			add(low+p.along, p.out)
		}
		add(high, 0)
		m.Notches = c.filletNotch(m.Notches, "root fillet", 0, c.rootFillet, s, c.foot.outside)
	} else {
		add(low, 0)
		for _, p := range tipPoints(c.tipFillet, c.flare, 0) {
			add(high-p.along, p.out)
		}
		m.Notches = c.filletNotch(m.Notches, "tip fillet", 1, c.tipFillet, s, c.tray.floor)
	}
	for _, z := range c.screwLevels(foot) {
		m.Notches = append(m.Notches, Notch{Name: "screw hole", At: (z - low) / (high - low), Radius: c.screw.hole / 2, Diameter: c.screw.hole, Axis: r3.Vec{Y: 1}, Small: r2.Vec{X: s.X, Y: s.Y}})
	}
	return m
}

// boreVolume is that of a screw's hole from plate to plate.
func (c *plates) boreVolume() float64 { return math.Pi / 4 * c.screw.hole * c.screw.hole * c.gap }

// opening is the tray's through floor and block.
func (c *plates) opening() section { return section{X: c.tray.opening.X, Y: c.tray.opening.Y} }

// spacerMember is a spacer as a bar from the right plate to the left one.
func (c *plates) spacerMember(i int, s spacer, material string) Member {
	m := Member{Name: fmt.Sprintf("spacer %d", i+1), Part: "spacer", Material: material, From: r3.Vec{Y: -c.gap / 2, Z: s.level}, To: r3.Vec{Y: c.gap / 2, Z: s.level}}
	o := plate(outline.Rectangle(s.wide, s.high))
	m.Stations = []Station{c.station(0, o), c.station(1, o)}
	return emptied(m, float64(len(s.screws))*c.boreVolume())
}

// join pins the plates to the blocks and the spacers.
func (c *plates) join(a *Assembly, m design.Materials) {
	named := map[string]Member{}
	for _, k := range a.Members {
		named[k.Name] = k
	}
	pin := func(name, side, to, material string, x, z float64, screw ScrewUse) {
		p, b := named[side], named[to]
		j := Joint{Name: side + ", " + name, Kind: Pin, A: side, B: to, AtA: (z - p.From.Z) / p.Length(), Axis: r3.Vec{Y: 1}, Grip: c.thickness, Material: material, Screw: screw}
		j.Centre = r3.Vec{X: x, Y: math.Copysign(c.gap/2, p.From.Y), Z: z}
		switch along := r3.Unit(r3.Sub(b.To, b.From)); {
		case along.Z > 0.5:
			j.AtB = (z - b.From.Z) / b.Length()
		case side == "left plate":
			j.AtB = 1
		}
		a.Joints = append(a.Joints, j)
	}
	use := func(purpose string) ScrewUse {
		for _, u := range a.Screws {
			if u.For == purpose {
				return u
			}
		}
		return ScrewUse{}
	}
	for _, side := range []string{"left plate", "right plate"} {
		for k, z := range c.screwLevels(true) {
			for i, x := range c.columns() {
				pin(fmt.Sprintf("foot screw %d", 2*i+k+1), side, "foot block", m.Foot, x, z, use("foot block"))
			}
		}
		for k, z := range c.screwLevels(false) {
			for i, x := range c.columns() {
				pin(fmt.Sprintf("tray screw %d", 2*i+k+1), side, "tray block", m.Tray, x, z, use("tray block"))
			}
		}
		for i, s := range c.spacers {
			to := fmt.Sprintf("spacer %d", i+1)
			for k, z := range s.screws {
				pin(fmt.Sprintf("%s, screw %d", to, k+1), side, to, m.Spacer, 0, z, use("spacers"))
			}
			if s.tab.X > 0 {
				for k, end := range []float64{-s.tab.Y / 2, s.tab.Y / 2} {
					pin(fmt.Sprintf("%s, tab end %d", to, k+1), side, to, m.Spacer, 0, s.level+end, ScrewUse{})
				}
			}
		}
	}
}

// partOf is the name of the part that a plate is: both are one unless the cable leaves through one of them.
func (c *plates) partOf(left bool) string {
	switch {
	case !c.way.open:
		return "plate"
	case left:
		return "left_plate"
	}
	return "right_plate"
}

// plateParts are the plates to cut.
func (c *plates) plateParts(material string) ([]Part, error) {
	one := func(left bool) (Part, error) {
		side := sides["right"]
		if left {
			side = sides["left"]
		}
		o, pose := c.outline(side), c.sheetPose(left)
		d, err := o.Kerf(c.kerf)
		p := Part{Name: c.partOf(left), Making: Cut, Material: material, Outline: o, Drawing: d, Thickness: c.thickness}
		b := flatBody(o, 0, c.thickness)
		p.Body = b.at(pose)
		p.build = func() solid.Node { return solid.Named("plate", solid.Place(solid.Extrude(c.thickness, o), pose)) }
		s := size(o.Outer)
		p.Box = r3.Vec{X: s.X, Y: s.Y, Z: c.thickness}
		p.Notes = []string{fmt.Sprintf("Cut from sheet of %s; break every edge that the cable touches.", mm(c.thickness))}
		p.Notes = append(p.Notes, c.sheet...)
		if c.kerf > 0 {
			p.Notes = append(p.Notes, fmt.Sprintf("The drawing holds a kerf of %s: cut along its lines.", mm(c.kerf)))
		}
		return p, err
	}
	left, err := one(true)
	if err != nil {
		return nil, err
	}
	if !c.way.open {
		left.Places = []mesh.Pose{mesh.Move(r3.Vec{}), mesh.Move(r3.Vec{Y: -c.gap - c.thickness})}
		return []Part{left}, nil
	}
	right, err := one(false)
	return []Part{left, right}, err
}

// footPart is the foot with its block.
func (c *plates) footPart(plate FootPlate, m Member) Part {
	p := Part{Name: "foot", Material: plate.Material, Body: c.drilledBlock(together(plate.Body, m.Body()), true), build: c.footSolid}
	hull := append(c.footHull(), boxHull(loopOf(c.under.section), c.base, c.low+c.grip)...)
	o := c.plateOutline()
	p.Printing = Printing{Footprint: size(o.Outer), Contact: o.Area(), TipArea: loopOf(c.under.section).Area(), Wall: c.gap}
	p = c.onBed(p, "upright", c.footDown(), hull)
	p.Printing.Slenderness = p.Printing.Height / min(p.Printing.Footprint.X, p.Printing.Footprint.Y)
	p.Notes = append(p.Notes, c.footNotes()...)
	return c.bedNote(p)
}

// bedNote says where a part does not fit the bed.
func (c *mount) bedNote(p Part) Part {
	if g := p.Printing; !g.Fits {
		p.Notes = append(p.Notes, fmt.Sprintf("Does not fit the bed: it needs %.0f x %.0f mm and %.0f mm of height.", math.Ceil(g.Bed.X), math.Ceil(g.Bed.Y), math.Ceil(g.Bed.Z)))
	}
	return p
}

// trayPart is the tray with its block.
func (c *plates) trayPart(plate TrayPlate, m Member) Part {
	p := Part{Name: "tray", Material: plate.Material, Body: c.drilledBlock(together(plate.Body, m.Body()), false), build: c.trayAlone}
	l := loopOf(c.over.section)
	hull := append(c.trayHull(), boxHull(l, c.high-c.grip, c.tip)...)
	p.Printing = Printing{Footprint: size(l), Contact: l.Area(), TipArea: c.tray.plan(true).Area(), Wall: c.gap, Overhang: c.trayLedge()}
	if c.tray.rim {
		p.Printing.TipArea = c.tray.ring().Area()
	}
	p = c.onBed(p, "upright", mesh.Turn(r3.Vec{Z: 1}, 0), hull)
	g := &p.Printing
	g.Supports = g.Overhang > ledge
	g.Slenderness = g.Height / min(g.Footprint.X, g.Footprint.Y)
	if g.Supports {
		p.Notes = append(p.Notes, fmt.Sprintf("Stands on its block: supports under the floor, which reaches out %.1f mm.", g.Overhang))
	}
	if c.tray.round && c.tray.rim {
		p.Notes = append(p.Notes, "A round receiver is kept from turning by its plug in the rim's gap.")
	}
	return c.bedNote(p)
}

// spacerPart is the spacer, printed on its end with its screw holes upright.
func (c *plates) spacerPart(material string) Part {
	s := c.spacers[0]
	p := Part{Name: "spacer", Material: material, build: func() solid.Node { return c.spacerSolid(s) }}
	long := c.gap
	p.Body = block(r3.Vec{Z: s.level}, r3.Vec{X: s.wide, Y: c.gap, Z: s.high})
	if s.tab.X > 0 {
		long += 2 * c.thickness
		for _, y := range []float64{-1, 1} {
			p.Body = together(p.Body, block(r3.Vec{Y: y * (c.gap + c.thickness) / 2, Z: s.level}, r3.Vec{X: s.tab.X, Y: c.thickness, Z: s.tab.Y}))
		}
	}
	for _, z := range s.screws {
		p.Body = bored(p.Body, r3.Vec{Z: z}, r3.Vec{Y: 1}, c.screw.hole, c.gap)
	}
	for _, k := range c.spacers {
		p.Places = append(p.Places, mesh.Move(r3.Vec{Z: k.level - s.level}))
	}
	hull := []r3.Vec{{X: -s.wide / 2, Y: -long / 2, Z: s.level - s.high/2}, {X: s.wide / 2, Y: long / 2, Z: s.level + s.high/2}}
	p = c.onBed(p, "upright", mesh.Turn(r3.Vec{X: 1}, math.Pi/2), hull)
	g := &p.Printing
	g.Footprint, g.Contact, g.TipArea, g.Wall = r2.Vec{X: s.wide, Y: s.high}, s.wide*s.high, s.wide*s.high, (s.wide-c.screw.hole)/2
	if s.tab.X > 0 {
		g.Footprint, g.Contact, g.TipArea, g.Wall = s.tab, s.tab.X*s.tab.Y, s.tab.X*s.tab.Y, s.tab.X
		g.Overhang = (s.wide - s.tab.X) / 2
		g.Supports = g.Overhang > ledge
		p.Notes = append(p.Notes, "Goes between the plates before they are screwed to the foot; a drop of glue keeps each tab in its slot.")
	}
	g.Slenderness = g.Height / min(g.Footprint.X, g.Footprint.Y)
	return c.bedNote(p)
}

// drilledBlock is a body less the screw holes through its block.
func (c *plates) drilledBlock(b Body, foot bool) Body {
	for _, z := range c.screwLevels(foot) {
		for _, x := range c.columns() {
			b = bored(b, r3.Vec{X: x, Z: z}, r3.Vec{Y: 1}, c.screw.hole, c.gap)
		}
	}
	return b
}

// blockHoles cut a block's screw holes.
func (c *plates) blockHoles(foot bool) []solid.Node {
	var all []solid.Node
	for _, z := range c.screwLevels(foot) {
		for _, x := range c.columns() {
			all = append(all, hole("block screw", r3.Vec{X: x, Z: z}, r3.Vec{Y: 1}, c.screw.hole, c.gap+2))
		}
	}
	return all
}

// blockSolid is a block's prism between two levels.
func blockSolid(name string, s section, low, high float64) solid.Node {
	return solid.Named(name, solid.Move(solid.RoundedPrism(s.X, s.Y, high-low, s.Radius), r3.Vec{Z: low}))
}

func (c *plates) footSolid() solid.Node {
	sunk := overlap * c.foot.thickness
	stem := blockSolid("foot block", c.under.section, c.base-sunk, c.low+c.grip)
	n := []solid.Node{c.plateSolid(), stem}
	if c.rootFillet > 0 {
		n = append(n, solid.Named("root fillet", solid.Fillet(stem, sunk, solid.Above, c.rootFillet)))
	}
	return solid.Difference(solid.Union(n...), append(c.screwCutters(), c.blockHoles(true)...)...)
}

func (c *plates) trayAlone() solid.Node {
	from := c.high - c.grip
	stem := blockSolid("tray block", c.over.section, from, c.tip+overlap*c.tray.thickness)
	n := append([]solid.Node{c.traySolid(false), stem}, c.spread(stem, c.tip-from)...)
	cut := append(c.markCutters(), c.blockHoles(false)...)
	if t := c.tray; t.hasOpening() {
		cut = append(cut, solid.Named("opening", solid.Move(solid.Box(t.opening.X, t.opening.Y, c.seat-from+2), r3.Vec{Z: from - 1})))
	}
	return solid.Difference(solid.Union(n...), cut...)
}

func (c *plates) spacerSolid(s spacer) solid.Node {
	n := solid.Named("spacer", solid.Move(solid.Box(s.wide, c.gap, s.high), r3.Vec{Z: s.level - s.high/2}))
	if s.tab.X > 0 {
		tab := solid.Move(solid.Box(s.tab.X, c.gap+2*c.thickness, s.tab.Y), r3.Vec{Z: s.level - s.tab.Y/2})
		n = solid.Union(n, solid.Named("tab", tab))
	}
	var cut []solid.Node
	for _, z := range s.screws {
		cut = append(cut, hole("spacer screw", r3.Vec{Z: z}, r3.Vec{Y: 1}, c.screw.hole, c.gap+2))
	}
	return solid.Difference(n, cut...)
}

// plateFits adds the end of a spacer, whose tab is tried in a slot of the sheet.
func plateFits(doc *design.Document) fits {
	c := platesOf(doc)
	f := fits{mount: &c.mount, foot: doc.Materials.Foot, tray: doc.Materials.Tray, threads: []thread{c.screw}}
	if len(c.problems) > 0 || len(c.spacers) == 0 || c.held != "tabs" {
		return f
	}
	s := c.spacers[0]
	const under = 3.0
	body, tab := plate(outline.Rectangle(s.wide, s.high)), plate(outline.Rectangle(s.tab.X, s.tab.Y))
	p := c.flatPiece("fit_tab", doc.Materials.Spacer, under+c.thickness, body, func() solid.Node {
		return solid.Union(solid.Extrude(under, body), solid.Move(solid.Extrude(c.thickness+under/2, tab), r3.Vec{Z: under / 2}))
	}, fmt.Sprintf("Must push by hand into a slot of %s by %s cut in the sheet.", mm(s.tab.X+2*tabPlay), mm(s.tab.Y+2*tabPlay)))
	p.Body = together(flatBody(body, 0, under), flatBody(tab, under, under+c.thickness))
	f.pieces = append(f.pieces, p)
	return f
}
