// Package parts turns a document into the solids that are printed, and into the members and plates that are checked, from the same
// outlines. It is the only place where a document becomes millimetre solids.
//
// Lengths are in millimetres. Place axes: origin at the centre of the hole pattern on the mounting face, x forward and y left as the
// aircraft's, z up along the mast. A place's turn turns the hole pattern and the foot plate, not the mast, the tray or its arrow.
// Where the foot is a levelling wedge z is the vertical in hover and the foot's underside leans; otherwise z is square to the face.
package parts

import (
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/mesh"
	"mastwright/mesh/solid"
)

// Assembly is a mount: its parts, and what the checks take from them.
type Assembly struct {
	Parts   []Part   // "mast" in one piece; or "foot", "mast", "tray"
	Members []Member // "mast"; in three pieces "foot collar" and "tray collar" too
	Joints  []Joint  // none in one piece
	Foot    FootPlate
	Tray    TrayPlate
	Screws  []ScrewUse
	Seat    r3.Vec // middle of the top of the tray's floor
}

// Part is one thing that is printed.
type Part struct {
	Name     string // file stem: "mast", "foot", "tray"
	Material string
	Copies   int

	Orientation string    // "upright", "lying"
	Turn        mesh.Pose // from place axes to the bed's directions; see mesh.OnBed
	Box         r3.Vec    // extent in print orientation, mm
	Printing    Printing
	Notes       []string // for who prints and fits it
	Body        Body     // in place axes

	build func() solid.Node
}

// Solid is the part in place axes.
func (p Part) Solid() solid.Node { return p.build() }

// Mass is the part's mass as printed.
func (p Part) Mass(d units.Density) units.Mass {
	return units.Grams(p.Body.Plastic / 1000 * d.GramsPerCubicCentimetre())
}

// Build works a mount out from a document. It makes no solid: that waits for Part.Solid. With problems, each naming a field, its
// value and what would do, the assembly is empty.
func Build(doc *design.Document) (Assembly, []design.Problem) {
	c := columnOf(doc)
	if len(c.problems) > 0 {
		return Assembly{}, c.problems
	}
	m := doc.Materials
	if !c.apart {
		m.Foot, m.Tray = m.Mast, m.Mast // one piece is of one material
	}
	place, _ := doc.PlaceChosen()
	a := Assembly{
		Foot: c.footPlate(m.Foot), Tray: c.trayPlate(m.Tray), Seat: r3.Vec{Z: c.seat},
		Screws: c.screws(docScrews{doc.Foot.Screws, doc.Tray.Screws, place.Plate.Thickness.Millimetres(), place.Plate.Backing == "block"}),
	}
	mast := c.mastMember("mast", m.Mast)
	a.Members = []Member{mast}
	if !c.apart {
		p := Part{Name: "mast", Material: m.Mast, Body: together(a.Foot.Body, mast.Body(), a.Tray.Body), build: c.onePiece}
		a.Parts = []Part{c.printed(p, whole)}
		return a, nil
	}
	foot, top := c.collarMember(c.footCollar, m.Foot), c.collarMember(c.trayCollar, m.Tray)
	a.Members = append(a.Members, foot, top)
	a.Joints = []Joint{c.jointOf(c.footCollar, mast, m.Foot, a.Screws[1]), c.jointOf(c.trayCollar, mast, m.Tray, a.Screws[2])}
	low, high, d := c.footCollar, c.trayCollar, c.joint.hole
	below := c.drilled(together(a.Foot.Body, foot.Body()), low, d, play+low.wall, low.wall)
	above := c.drilled(together(a.Tray.Body, top.Body()), high, d, play+high.wall, high.wall)
	between := c.drilled(c.drilled(mast.Body(), low, c.pilot(), 0, c.wall), high, c.pilot(), 0, c.wall)
	a.Parts = []Part{
		c.printed(Part{Name: "foot", Material: m.Foot, Body: below, build: c.footAlone}, footPart),
		c.printed(Part{Name: "mast", Material: m.Mast, Body: between, build: c.mastAlone}, mastPart),
		c.printed(Part{Name: "tray", Material: m.Tray, Body: above, build: c.trayAlone}, trayPart),
	}
	return a, nil
}

// overlap is the share of a plate's thickness that a neighbour reaches into it: solids that only touch are not one body. It is no
// round number, so that the hidden end meets no seat of a screw.
const overlap = 0.382

// onePiece is foot, mast and tray as one solid.
func (c *column) onePiece() solid.Node {
	sunk, into := c.into(c.foot.thickness), c.into(c.tray.thickness)
	stem := solid.Named("mast", c.mastSolid(c.base-sunk, c.tip+into, 0))
	n := []solid.Node{c.plateSolid(), stem, c.traySolid(false)}
	if c.rootFillet > 0 {
		n = append(n, solid.Named("root fillet", solid.Fillet(stem, sunk, solid.Above, c.rootFillet)))
	}
	n = append(n, c.underTray(stem, c.tip-c.base+sunk)...)
	return solid.Difference(solid.Union(n...), c.cutters()...)
}

// underTray widens a stem to the floor: with its fillet or its flare, at a level of the stem's own.
func (c *column) underTray(stem solid.Node, level float64) []solid.Node {
	switch {
	case c.flare > 0:
		return []solid.Node{solid.Named("flare", solid.Chamfer(stem, level, solid.Below, c.flare))}
	case c.tipFillet > 0:
		return []solid.Node{solid.Named("tip fillet", solid.Fillet(stem, level, solid.Below, c.tipFillet))}
	}
	return nil
}

// cutters are what is taken from a column in one piece.
func (c *column) cutters() []solid.Node {
	t, tip := c.tray, c.bore(c.tip)
	all := append(c.screwCutters(), c.waySolid()...)
	boreTo, openFrom := c.tip, c.tip-1
	switch {
	case t.opening.X >= tip.X && t.opening.Y >= tip.Y:
		boreTo, openFrom = c.tip+c.into(t.thickness), c.tip
	case t.opening.X > tip.X || t.opening.Y > tip.Y:
		openFrom = c.tip - 0.4
	}
	all = append(all, c.boreSolid(c.below(), boreTo))
	if t.hasOpening() {
		n := solid.Box(t.opening.X, t.opening.Y, c.seat+1-openFrom)
		all = append(all, solid.Named("opening", solid.Move(n, r3.Vec{Z: openFrom})))
	}
	return append(all, c.markCutters()...)
}

// below is a level under every point of the foot.
func (c *column) below() float64 {
	e := c.foot.pose
	return -1 - max(e.X.Z, -e.X.Z)*c.foot.outside.X/2 - max(e.Y.Z, -e.Y.Z)*c.foot.outside.Y/2
}

func (c *column) footAlone() solid.Node {
	k, sunk := c.footCollar, c.into(c.foot.thickness)
	stem := c.sleeve(k, c.base-sunk, k.to)
	n := []solid.Node{c.plateSolid(), stem}
	if c.rootFillet > 0 {
		n = append(n, solid.Named("root fillet", solid.Fillet(stem, sunk, solid.Above, c.rootFillet)))
	}
	cut := append(c.screwCutters(), c.socket(k, c.below(), k.to+1), c.jointCutter(k, c.joint.hole))
	return solid.Difference(solid.Union(n...), cut...)
}

func (c *column) mastAlone() solid.Node {
	n := solid.Named("mast", c.mastSolid(0, c.tip, 0))
	if c.foot.wedge {
		f := c.foot.pose
		n = solid.Intersection(solid.Named("mast", c.mastSolid(c.below(), c.tip, 0)), solid.Named("mast end", solid.HalfSpace(r3.Vec{}, r3.Scale(-1, f.Z))))
	}
	cut := append(c.waySolid(), c.boreSolid(c.below(), c.tip+c.into(1)), c.jointCutter(c.footCollar, c.pilot()), c.jointCutter(c.trayCollar, c.pilot()))
	return solid.Difference(n, cut...)
}

func (c *column) trayAlone() solid.Node {
	k, into := c.trayCollar, c.into(c.tray.thickness)
	stem := c.sleeve(k, k.from, c.tip+into)
	n := append([]solid.Node{c.traySolid(false), stem}, c.underTray(stem, k.grip)...)
	cut := append(c.markCutters(), c.socket(k, k.from-1, c.tip), c.jointCutter(k, c.joint.hole))
	if t := c.tray; t.hasOpening() {
		cut = append(cut, solid.Named("opening", solid.Move(solid.Box(t.opening.X, t.opening.Y, t.thickness+2), r3.Vec{Z: c.tip - 1})))
	}
	return solid.Difference(solid.Union(n...), cut...)
}
