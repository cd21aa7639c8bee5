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

// Sizes of the fit pieces in mm.
const (
	fitFoot  = 1.6
	fitFloor = 1.0
	combHigh = 3.0
	combText = 3.0 // height of its figures
	combCut  = 0.6 // their depth
)

// combSteps are added to the diameter of a comb's holes, mm; the one that fits is print.hole_add.
var combSteps = []float64{-0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4}

// fits is what a style gives to its fit pieces.
type fits struct {
	*mount
	foot, tray string          // materials
	threads    []thread        // besides those of foot and tray
	pieces     []Part          // of the style's own
	plan       outline.Outline // of the piece that tries the frame's holes; zero for the foot's own
}

// FitPieces are thin first prints that settle the holes and the rim before the mount is printed: "fit_foot" is the foot's lowest
// 1.6 mm, "fit_tray" the rim on a floor of 1 mm (absent without a rim), "fit_m3", one for each screw used, is a comb of holes, and
// "fit_nut" or "fit_insert" one of the foot's nut pockets or inserts' bores where it has them.
// A style adds its own, such as a ring of the tube's clamp.
func FitPieces(doc *design.Document) ([]Part, []design.Problem) {
	fitsOf := columnFits
	switch doc.Mast.Build {
	case "tube":
		fitsOf = tubeFits
	case "twin-plate":
		fitsOf = plateFits
	case "legs":
		fitsOf = legFits
	}
	c := fitsOf(doc)
	if len(c.problems) > 0 {
		return nil, c.problems
	}
	plan := c.plan
	if len(plan.Outer) == 0 {
		plan = c.plateOutline()
	}
	all := []Part{c.flatPiece("fit_foot", c.foot, fitFoot, plan, func() solid.Node { return solid.Extrude(fitFoot, plan) },
		"Lay it on the frame: every screw must drop in.")}
	if t := c.mount.tray; t.rim {
		floor, rim := t.plan(true), t.ring()
		p := c.flatPiece("fit_tray", c.tray, fitFloor+t.rimHeight, floor, func() solid.Node {
			return solid.Union(solid.Extrude(fitFloor, floor), solid.Move(solid.Extrude(t.rimHeight+fitFloor/2, rim), r3.Vec{Z: fitFloor / 2}))
		}, "The receiver must sit flat in it and not shift; the play is tray.clearance.")
		p.Body = together(flatBody(floor, 0, fitFloor), flatBody(rim, fitFloor, fitFloor+t.rimHeight))
		all = append(all, p)
	}
	add := doc.Print.HoleAdd.Millimetres()
	seen := map[string]bool{}
	for _, t := range append([]thread{c.mount.foot.thread, c.mount.tray.thread}, c.threads...) {
		if t.size == 0 || seen[t.size.String()] {
			continue
		}
		seen[t.size.String()] = true
		all = append(all, c.comb(t, t.hole-add, c.foot))
	}
	if c.mount.foot.fromBelow() {
		all = append(all, c.nutPiece(c.foot))
	}
	return append(all, c.pieces...), nil
}

func columnFits(doc *design.Document) fits {
	c, m := columnOf(doc), doc.Materials
	if !c.apart {
		m.Foot, m.Tray = m.Mast, m.Mast
	}
	return fits{mount: &c.mount, foot: m.Foot, tray: m.Tray, threads: []thread{c.joint}}
}

// flatPiece is a plate printed as it lies.
func (c *mount) flatPiece(name, material string, high float64, o outline.Outline, build func() solid.Node, note string) Part {
	s := size(o.Outer)
	p := Part{
		Name: name, Making: Printed, Material: material, Count: 1, Copies: 1, Orientation: "upright", Turn: mesh.Turn(r3.Vec{Z: 1}, 0),
		Box: r3.Vec{X: s.X, Y: s.Y, Z: high}, Body: flatBody(o, 0, high), Notes: []string{note}, build: build,
	}
	p.Printing = Printing{
		Footprint: s, Contact: o.Area(), Height: high, Slenderness: high / min(s.X, s.Y), TipArea: o.Area(), Wall: high, Bed: p.Box,
		Fits: high <= c.bed[2] && (s.X <= c.bed[0] && s.Y <= c.bed[1] || s.Y <= c.bed[0] && s.X <= c.bed[1]),
	}
	return p
}

func flatBody(o outline.Outline, low, high float64) Body {
	var l lump
	l.slab(o.Section(), low, high, 1, 1)
	return l.body()
}

// comb is a bar with a hole for each step, its figure beside it.
func (c *mount) comb(t thread, nominal float64, material string) Part {
	pitch := max(nominal+3, 9)
	long, wide := pitch*float64(len(combSteps)), nominal+combText+6
	var holes, figures []outline.Outline
	var loops []outline.Loop
	for i, step := range combSteps {
		x := pitch * (float64(i) - float64(len(combSteps)-1)/2)
		at := r2.Vec{X: x, Y: wide/2 - 2 - nominal/2}
		loops = append(loops, circleAt(at, nominal+step))
		text, err := outline.Text(stepName(step), combText)
		if err != nil {
			continue // only digits, signs and dots are written
		}
		for _, o := range text {
			figures = append(figures, o.Translate(x, -wide/2+1.8+combText/2))
		}
	}
	o := plate(outline.RoundedRectangle(long, wide, 1.5), loops...)
	holes = append(holes, o)
	p := c.flatPiece("fit_"+sizeStem(t), material, combHigh, o, func() solid.Node {
		return solid.Difference(solid.Extrude(combHigh, holes...), solid.Move(solid.Extrude(combCut+1, figures...), r3.Vec{Z: combHigh - combCut}))
	}, fmt.Sprintf("Try an %s screw in each hole: the figure at the one it just slides through is print.hole_add in mm.", t.size))
	var l lump
	l.slab(o.Section(), 0, combHigh, 1, 1)
	for _, f := range figures {
		l.slab(f.Section(), combHigh-combCut, combHigh, 1, -1)
	}
	p.Body = l.body()
	return p
}

// nutPiece is a block with one of the foot's nut pockets, or one of its bores for inserts.
func (c *mount) nutPiece(material string) Part {
	const around = 3.0
	f := c.foot
	side := f.thread.nutFlats/math.Cos(math.Pi/6) + 2*around
	o := plate(outline.RoundedRectangle(side, side, 1.5), circleAt(r2.Vec{}, f.thread.hole))
	name, note := "fit_nut", fmt.Sprintf("An %s nut must press in by hand, lie flush and not turn.", f.thread.size)
	cutter, edge := solid.HexPocket(f.room, f.thickness-f.seat+1), outline.Polygon(6, f.room)
	if f.insert {
		name, note = "fit_insert", fmt.Sprintf("An %s insert must stand upright in the bore cold and go in flush with heat, without cracks or a bulge around it.", f.thread.size)
		cutter, edge = solid.Cylinder(f.room/2, f.thickness-f.seat+1), circleAt(r2.Vec{}, f.room)
	}
	p := c.flatPiece(name, material, f.thickness, o, func() solid.Node {
		return solid.Difference(solid.Extrude(f.thickness, o), solid.Named("nut pocket", solid.Move(cutter, r3.Vec{Z: f.seat})))
	}, note)
	pocket := plate(edge, circleAt(r2.Vec{}, f.thread.hole))
	var l lump
	l.slab(o.Section(), 0, f.thickness, 1, 1)
	l.slab(pocket.Section(), f.seat, f.thickness, 1, -1)
	p.Body = l.body()
	return p
}

// stepName is a step in tenths of a millimetre: "-0.2", "0", "0.4".
func stepName(step float64) string {
	if step == 0 {
		return "0"
	}
	return fmt.Sprintf("%.1f", math.Round(step*10)/10)
}

// sizeStem is a thread as a part of a file's name: "m3", "m2_5".
func sizeStem(t thread) string {
	out := []rune{}
	for _, r := range t.size.String() {
		switch r {
		case '.':
			r = '_'
		case 'M':
			r = 'm'
		}
		out = append(out, r)
	}
	return string(out)
}
