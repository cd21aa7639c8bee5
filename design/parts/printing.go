package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/outline"
)

// Printing is what the shape asks of a printer, in print orientation.
type Printing struct {
	Footprint   r2.Vec  // box around the first layer, mm
	Contact     float64 // mm² on the bed
	Height      float64 // mm
	Slenderness float64 // height over the footprint's smaller side
	TipArea     float64 // mm² of the smallest layer in the upper half
	Overhang    float64 // mm that the widest ledge beyond 45 degrees stands out with nothing under it
	Supports    bool    // whether it wants supports
	Wall        float64 // mm, thinnest wall that carries load
	Fits        bool    // on the bed, turned by a quarter if need be
	Bed         r3.Vec  // the least bed that would do, mm
}

// ledge is the widest overhang in mm that prints with nothing under it. Common practice, no source.
const ledge = 1.0

// kind is which part of a column is printed.
type kind int

const (
	whole kind = iota
	footPart
	mastPart
	trayPart
)

// printed turns a part to the bed and says how it prints there.
func (c *column) printed(p Part, k kind) Part {
	p.Orientation = "upright"
	if c.lying && (k == whole || k == mastPart) {
		p.Orientation = "lying"
	}
	turn := c.layDown(k == mastPart)
	switch {
	case p.Orientation == "upright" && k == trayPart:
		turn = mesh.Turn(r3.Vec{Z: 1}, 0)
	case p.Orientation == "upright":
		turn = c.footDown()
	}
	p = c.onBed(p, p.Orientation, turn, c.hull(k))
	g := p.Printing
	g.Wall = c.wall
	switch {
	case p.Orientation == "lying":
		c.lyingFigures(&g, p.Box, k)
	case k == mastPart:
		o := c.ring(0, 0, 0)
		s := c.outer(0)
		g.Footprint, g.Contact, g.TipArea = r2.Vec{X: s.X, Y: s.Y}, o.Area(), c.ring(c.tip, 0, 0).Area()
	case k == trayPart:
		o := c.collarOutline(c.trayCollar, c.trayCollar.from, 0)
		g.Wall = c.trayCollar.wall
		g.Footprint, g.Contact, g.TipArea = size(o.Outer), o.Area(), c.tray.plan(true).Area()
		if c.tray.rim {
			g.TipArea = c.tray.ring().Area()
		}
		g.Overhang = c.trayLedge()
	default:
		o := c.plateOutline()
		g.Footprint, g.Contact = size(o.Outer), o.Area()
		if k == footPart {
			g.Wall = c.footCollar.wall
			g.TipArea = c.collarOutline(c.footCollar, c.footCollar.to, 0).Area()
			break
		}
		g.TipArea = min(c.ring(c.tip, 0, 0).Area(), c.ring((c.base+c.tip)/2, 0, 0).Area())
		g.Overhang = c.trayLedge()
	}
	g.Slenderness = g.Height / min(g.Footprint.X, g.Footprint.Y)
	g.Supports = g.Overhang > ledge
	p.Printing = g
	p.Notes = c.notes(p, k)
	return p
}

// trayLedge is how far the floor stands out beyond what widens the stem under it.
func (c *mount) trayLedge() float64 {
	stem := grown(c.over.section, c.flare)
	edge := c.tray.edge().Box()
	return max(0, edge.Max.X-stem.X/2, -edge.Min.X-stem.X/2, edge.Max.Y-stem.Y/2, -edge.Min.Y-stem.Y/2)
}

func (c *column) lyingFigures(g *Printing, box r3.Vec, k kind) {
	s := c.atBase
	wide := s.Y
	if c.down()%2 == 1 {
		wide = s.X
	}
	flat := wide - 2*s.Radius
	if c.round {
		flat = 2 * math.Sqrt(c.flat()*(s.X-c.flat()))
	}
	long := c.tip - c.base
	if k == mastPart {
		g.Footprint = r2.Vec{X: box.X, Y: flat}
		g.Contact = flat * box.X
		g.TipArea = flat * box.X
		g.Overhang = 0
		if c.round && flat < s.X/3 {
			g.Overhang = ledge
		}
		return
	}
	// The foot's edge and perhaps the tray's touch the bed; what is between hangs free.
	across := size(c.plateOutline().Outer).Y
	if c.down()%2 == 1 {
		across = size(c.plateOutline().Outer).X
	}
	g.Footprint = r2.Vec{X: box.X, Y: across}
	g.Contact = c.foot.thickness * across
	g.TipArea = flat * long
	g.Overhang = long
}

// notes tell who prints and fits a part what its shape does not.
func (c *column) notes(p Part, k kind) []string {
	var all []string
	g := p.Printing
	switch {
	case p.Orientation == "lying" && k == whole:
		all = append(all, "Lies on the edges of foot and tray: supports under the mast and the tray, the cable way up.")
	case p.Orientation == "lying":
		all = append(all, "Lies on one flank, the cable way up; the bore's ceiling is a bridge and wants no supports.")
	case g.Supports && k == trayPart:
		all = append(all, fmt.Sprintf("Stands on its collar: supports under the floor, which reaches out %.1f mm, or a flare of %.1f mm.", g.Overhang, g.Overhang))
	case g.Supports:
		all = append(all, fmt.Sprintf("Supports under the tray, from the bed or the foot: it reaches out %.1f mm beyond 45 degrees.", g.Overhang))
	}
	if p.Orientation == "upright" && g.Slenderness > 6 {
		all = append(all, fmt.Sprintf("Stands %.1f times as tall as its footprint is wide: print it with a brim of 6 mm or more.", g.Slenderness))
	}
	if !g.Fits {
		all = append(all, fmt.Sprintf("Does not fit the bed: it needs %.0f x %.0f mm and %.0f mm of height.", math.Ceil(g.Bed.X), math.Ceil(g.Bed.Y), math.Ceil(g.Bed.Z)))
	}
	if c.apart && k == mastPart {
		all = append(all, "Slides into the foot from below, wide end last, and stops flush with the foot's underside; the frame keeps it there.")
	}
	if c.apart && k == trayPart {
		all = append(all, "Slides down over the mast's tip until its floor rests on it; then the joint's screw goes in.")
	}
	if c.fuse.fitted && (k == whole || k == mastPart) {
		all = append(all, c.fuse.note())
	}
	if k == whole || k == footPart {
		all = append(all, c.footNotes()...)
	}
	if k == whole || k == trayPart {
		all = append(all, c.trayNotes()...)
	}
	return all
}

// footNotes tell what to do with a foot of any style.
func (c *mount) footNotes() []string {
	var all []string
	if c.foot.nut {
		all = append(all, "Press a nut into each pocket of the foot before it goes on the frame.")
	}
	if c.foot.insert {
		all = append(all, insertNote("from above"))
	}
	if c.foot.numbered && len(c.foot.number) == 0 {
		all = append(all, "The foot's underside has no room for the number: write it on.")
	}
	return all
}

// insertNote tells how an insert goes in.
func insertNote(from string) string {
	return "Melt the inserts in " + from + ", square and flush, down to the shoulder that their screws draw them against; let each cool before the next."
}

// trayNotes tell what to do with a tray of any style.
func (c *mount) trayNotes() []string {
	var all []string
	switch held := c.tray.held; {
	case held.hex:
		all = append(all, "Press a nut into each pocket under the floor before the receiver goes on.")
	case held.insert:
		all = append(all, insertNote("from below"))
	}
	switch t := c.tray; {
	case !t.round:
	case t.rim && t.turns > 0:
		all = append(all, fmt.Sprintf("A round receiver is kept from turning by its plug in the rim's gap, within %.1f degrees either way.", t.turns*180/math.Pi))
	case t.rim:
		all = append(all, "A round receiver is kept from turning by its plug in the rim's gap.")
	case len(t.spots) == 0:
		all = append(all, "Nothing but its pad keeps a round receiver from turning: draw a line over case and tray once it points forward.")
	}
	return all
}

// layDown turns the mast's axis along the bed's x with its lower side on the bed; alone, it lies on its tapered flank.
func (c *column) layDown(flank bool) mesh.Pose {
	a := quarterTurns(c.down())
	d := r3.Vec{X: math.Round(math.Cos(a)), Y: math.Round(math.Sin(a))}
	y := r3.Cross(r3.Scale(-1, d), r3.Vec{Z: 1})
	image := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.Z, Y: r3.Dot(y, v), Z: -r3.Dot(d, v)} }
	p := mesh.Pose{X: image(r3.Vec{X: 1}), Y: image(r3.Vec{Y: 1}), Z: image(r3.Vec{Z: 1})}
	if !flank {
		return p
	}
	taper := c.atBase.X - c.atTip.X
	if c.down()%2 == 1 {
		taper = c.atBase.Y - c.atTip.Y
	}
	return p.Then(mesh.Turn(r3.Vec{Y: 1}, math.Atan(taper/2/(c.tip-c.base))))
}

// inverse is the rotation back; the pose has no shift.
func inverse(p mesh.Pose) mesh.Pose {
	return mesh.Pose{
		X: r3.Vec{X: p.X.X, Y: p.Y.X, Z: p.Z.X},
		Y: r3.Vec{X: p.X.Y, Y: p.Y.Y, Z: p.Z.Y},
		Z: r3.Vec{X: p.X.Z, Y: p.Y.Z, Z: p.Z.Z},
	}
}

// hull are points whose box, in any orientation, is the part's: the corners of the boxes around its pieces.
func (c *column) hull(k kind) []r3.Vec {
	var all []r3.Vec
	prism := func(l outline.Loop, low, high float64) { all = append(all, boxHull(l, low, high)...) }
	if k == whole || k == footPart {
		all = append(all, c.footHull()...)
	}
	if k == footPart {
		prism(loopOf(grown(c.outer(c.footCollar.to), play+c.footCollar.wall)), c.base, c.footCollar.to)
	}
	if k == mastPart {
		prism(c.mastLoop(c.outer(c.tip), 0), c.tip, c.tip)
		n := c.foot.pose.Z
		b := c.mastLoop(c.outer(0), 0).Box()
		for _, x := range []float64{b.Min.X, b.Max.X} {
			for _, y := range []float64{b.Min.Y, b.Max.Y} {
				all = append(all, r3.Vec{X: x, Y: y, Z: -(n.X*x + n.Y*y) / n.Z})
			}
		}
	}
	if k == whole || k == trayPart {
		all = append(all, c.trayHull()...)
	}
	if k == trayPart {
		l := c.collarOutline(c.trayCollar, c.trayCollar.from, 0).Outer
		prism(l, c.trayCollar.from, c.tip)
	}
	return all
}

// boxHull are the corners of the box around a prism between two levels.
func boxHull(l outline.Loop, low, high float64) []r3.Vec {
	var all []r3.Vec
	b := l.Box()
	for _, x := range []float64{b.Min.X, b.Max.X} {
		for _, y := range []float64{b.Min.Y, b.Max.Y} {
			all = append(all, r3.Vec{X: x, Y: y, Z: low}, r3.Vec{X: x, Y: y, Z: high})
		}
	}
	return all
}

// footHull are points around the foot's plate.
func (c *mount) footHull() []r3.Vec {
	if !c.foot.wedge {
		return boxHull(c.plateOutline().Outer, 0, c.base)
	}
	var all []r3.Vec
	o := c.foot.outside
	for _, x := range []float64{-o.X / 2, o.X / 2} {
		for _, y := range []float64{-o.Y / 2, o.Y / 2} {
			all = append(all, c.foot.pose.Apply(r3.Vec{X: x, Y: y}), c.foot.pose.Apply(r3.Vec{X: x, Y: y, Z: c.thick(r2.Vec{X: x, Y: y})}))
		}
	}
	return all
}

// trayHull are points around the tray's floor and rim.
func (c *mount) trayHull() []r3.Vec {
	top := c.seat
	if c.tray.rim {
		top += c.tray.rimHeight
	}
	return boxHull(c.tray.edge(), c.tip, top)
}

// onBed turns a printed part to the bed by its hull, and says whether it fits.
func (c *mount) onBed(p Part, orientation string, turn mesh.Pose, hull []r3.Vec) Part {
	p.Making, p.Orientation, p.Turn = Printed, orientation, turn
	p.Box = extent(hull, turn)
	b := c.bed
	p.Printing.Height, p.Printing.Bed = p.Box.Z, p.Box
	p.Printing.Fits = p.Box.Z <= b[2] && (p.Box.X <= b[0] && p.Box.Y <= b[1] || p.Box.Y <= b[0] && p.Box.X <= b[1])
	return p
}

// footDown turns a foot so that its underside lies on the bed.
func (c *mount) footDown() mesh.Pose {
	if c.foot.wedge {
		return inverse(c.foot.pose).Then(mesh.Turn(r3.Vec{Z: 1}, c.foot.turn))
	}
	return mesh.Turn(r3.Vec{Z: 1}, 0)
}

func extent(points []r3.Vec, p mesh.Pose) r3.Vec {
	low := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	high := r3.Scale(-1, low)
	for _, v := range points {
		v = p.Apply(v)
		low = r3.Vec{X: min(low.X, v.X), Y: min(low.Y, v.Y), Z: min(low.Z, v.Z)}
		high = r3.Vec{X: max(high.X, v.X), Y: max(high.Y, v.Y), Z: max(high.Z, v.Z)}
	}
	return r3.Sub(high, low)
}

func size(l outline.Loop) r2.Vec {
	b := l.Box()
	return r2.Sub(b.Max, b.Min)
}
