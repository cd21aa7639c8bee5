// Package parts turns a document into the solids that are printed, and into the members and plates that are checked, from the same
// outlines. It is the only place where a document becomes millimetre solids.
//
// Lengths are in millimetres. Place axes: origin at the centre of the hole pattern on the mounting face, x forward and y left as the
// aircraft's, z up along the mast. A place's turn turns the hole pattern and the foot plate, not the mast, the tray or its arrow.
// Where the foot is a levelling wedge z is the vertical in hover and the foot's underside leans; otherwise z is square to the face.
package parts

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// Assembly is a mount: its parts, and what the checks take from them.
type Assembly struct {
	Parts    []Part   // printed, cut and cut to length
	Members  []Member // a frame: what bears from the foot to the tray first, then collars, blocks and spacers
	Joints   []Joint  // between members; none in a column of one piece
	Roots    []End    // what stands on the foot's hub; where there are pads, one on each
	Tips     []End    // what carries the tray
	Foot     FootPlate
	Pads     []FootPlate // of legs; the foot is then all of them together
	Tray     TrayPlate
	Screws   []ScrewUse
	Fittings []Fitting
	Fuse     *End   // the weakened ring; nil for none
	Seat     r3.Vec // middle of the top of the tray's floor
}

// End is a place along a member.
type End struct {
	Member string
	At     float64 // from 0 to 1
}

// Making is how a part comes about.
type Making string

// The ways to make a part.
const (
	Printed Making = "printed"
	Cut     Making = "cut"   // from a sheet, along an outline
	Stock   Making = "stock" // cut to length
)

// Part is one thing that is made.
type Part struct {
	Name     string // file stem: "mast", "foot", "tray", "spacer"
	Making   Making
	Material string
	Count    int         // in the mount
	Copies   int         // to make, spares included
	Places   []mesh.Pose // where those in the mount stand, from where Solid stands; nil for one that stands there

	// Of a printed part.
	Orientation string    // "upright", "lying"
	Turn        mesh.Pose // from place axes to the bed's directions; see mesh.OnBed
	Box         r3.Vec    // extent in print orientation, mm
	Printing    Printing

	// Of a part cut from a sheet. The outline's axes are the sheet's.
	Outline   outline.Outline // as it comes out
	Drawing   outline.Outline // what is cut along, wider than the outline by half the kerf
	Thickness float64         // mm

	// Of a part cut to length.
	Size   string  // as it is bought: "10/8 mm tube"
	Length float64 // mm

	Notes []string // for who makes and fits it
	Body  Body     // of one, in place axes

	build func() solid.Node
}

// Solid is the part in place axes.
func (p Part) Solid() solid.Node { return p.build() }

// Kind is the part's name without what tells it from its like: "plate" of "left_plate", "pad" of "pad_2".
func (p Part) Kind() string {
	for piece := range strings.SplitSeq(p.Name, "_") {
		if piece != "left" && piece != "right" {
			return piece
		}
	}
	return p.Name
}

// Mass is the mass of one such part as made.
func (p Part) Mass(d units.Density) units.Mass {
	return units.Grams(p.Body.Plastic / 1000 * d.GramsPerCubicCentimetre())
}

// All is the part's body for each place it has in the mount.
func (p Part) All() []Body {
	if len(p.Places) == 0 {
		return []Body{p.Body}
	}
	all := make([]Body, len(p.Places))
	for i, at := range p.Places {
		all[i] = p.Body.at(at)
	}
	return all
}

// Fitting is a bought thing that is no screw: a washer, an insert, edge guard.
type Fitting struct {
	Name     string // "edge guard"
	For      string // "left plate"
	Material string
	Count    int
	Length   units.Length // of what is sold by length; 0 otherwise
	Note     string
}

// Build works a mount out from a document. It makes no solid: that waits for Part.Solid. With problems, each naming a field, its
// value and what would do, the assembly is empty.
func Build(doc *design.Document) (Assembly, []design.Problem) {
	build := buildColumn
	switch doc.Mast.Build {
	case "tube":
		build = buildTube
	case "twin-plate":
		build = buildPlates
	case "legs":
		build = buildLegs
	}
	a, problems := build(doc)
	if len(problems) > 0 {
		return Assembly{}, problems
	}
	a.Fittings = append(append(a.Fittings, fixings(a)...), guards(doc, a)...)
	for i := range a.Parts {
		p := &a.Parts[i]
		p.Count = max(1, len(p.Places))
		p.Copies = p.Count
		for _, c := range doc.Print.Copies {
			if c.Part == p.Kind() && c.Count > 0 {
				p.Copies = p.Count * c.Count
			}
		}
	}
	return a, nil
}

func buildColumn(doc *design.Document) (Assembly, []design.Problem) {
	c := columnOf(doc)
	if len(c.problems) > 0 {
		return Assembly{}, c.problems
	}
	m := doc.Materials
	if !c.apart {
		m.Foot, m.Tray = m.Mast, m.Mast // one piece is of one material
	}
	a := Assembly{Foot: c.footPlate(m.Foot), Tray: c.trayPlate(m.Tray), Seat: r3.Vec{Z: c.seat}, Screws: c.screws()}
	mast := c.mastMember("mast", m.Mast)
	a.Members = []Member{mast}
	a.Roots, a.Tips = []End{{"mast", 0}}, []End{{"mast", 1}}
	if c.fuse.fitted {
		a.Fuse = &End{"mast", (c.fuse.middle() - mast.From.Z) / mast.Length()}
	}
	if !c.apart {
		p := Part{Name: "mast", Material: m.Mast, Body: together(a.Foot.Body, mast.Body(), a.Tray.Body), build: c.onePiece}
		a.Parts = []Part{c.printed(p, whole)}
		return a, nil
	}
	foot, top := c.collarMember(c.footCollar, m.Foot), c.collarMember(c.trayCollar, m.Tray)
	a.Members = append(a.Members, foot, top)
	a.Roots, a.Tips = []End{{foot.Name, 0}}, []End{{top.Name, 1}}
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
	n = append(n, c.spread(stem, c.tip-c.base+sunk)...)
	return solid.Difference(solid.Union(n...), c.cutters()...)
}

// spread widens a stem to the floor: with its fillet or its flare, at a level of the stem's own.
func (c *mount) spread(stem solid.Node, level float64) []solid.Node {
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
	all := append(append(c.screwCutters(), c.waySolid()...), c.fuseCutters()...)
	boreTo, openFrom := c.tip, c.tip-1
	switch {
	case t.opening.X >= tip.X && t.opening.Y >= tip.Y:
		boreTo, openFrom = c.tip+c.into(t.thickness), c.tip
	case t.opening.X > tip.X || t.opening.Y > tip.Y:
		openFrom = c.tip - 0.4
	}
	all = append(all, c.boreSolid(c.below(), boreTo))
	if t.hasOpening() {
		all = append(all, c.openingCutter(openFrom))
	}
	return append(all, c.markCutters()...)
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
	cut := append(append(c.waySolid(), c.fuseCutters()...), c.boreSolid(c.below(), c.tip+c.into(1)), c.jointCutter(c.footCollar, c.pilot()), c.jointCutter(c.trayCollar, c.pilot()))
	return solid.Difference(n, cut...)
}

func (c *column) trayAlone() solid.Node {
	k, into := c.trayCollar, c.into(c.tray.thickness)
	stem := c.sleeve(k, k.from, c.tip+into)
	n := append([]solid.Node{c.traySolid(false), stem}, c.spread(stem, k.grip)...)
	cut := append(c.markCutters(), c.socket(k, k.from-1, c.tip), c.jointCutter(k, c.joint.hole))
	if c.tray.hasOpening() {
		cut = append(cut, c.openingCutter(c.tip-1))
	}
	return solid.Difference(solid.Union(n...), cut...)
}
