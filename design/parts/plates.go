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

// plates is a mast of two cut sheets left and right of the axis, between a block on the foot and one under the tray.
type plates struct {
	mount

	thickness  float64
	root, tip2 float64 // widths at the foot and at the tray
	gap        float64
	corner     float64
	low, high  float64 // levels of the plates' ends
	grip       float64
	screw      thread
	washers    bool
	drilled    float64 // the screws' holes in the sheet: what print adds to holes is for printed ones
	across     float64 // of the blocks' screws from the axis, fore and aft; 0 for one row
	spacers    []spacer
	held       string // spacers by: two screws, tabs, single screw
	lightening []float64
	light, web float64
	kerf       float64
	way        way
	sheet      []string // notes on what it is cut from
}

// spacer is a block between the plates about a level.
type spacer struct {
	level      float64
	wide, high float64
	screws     []float64 // levels
	tab        r2.Vec    // width and height of the tab through each plate; zero for none
}

// Figures of the plates in mm. Common practice, no source.
const (
	blockCorner = 1.0 // of the blocks' upright edges
	tabPlay     = 0.1 // around a tab, each side
	tabWide     = 3.0
	tabHigh     = 10.0
	plateEdge   = 1.5 // from a screw's hole to the plate's edge, over the hole's diameter: at least, less half
)

// platesOf works out the plates that a document describes and notes what cannot be made.
func platesOf(doc *design.Document) *plates {
	c := &plates{mount: mountOf(doc), sheet: sheetNotes(doc, doc.Materials.Sheet, doc.Mast.Plates.Thickness)}
	defer func() { c.doc = nil }()
	for _, step := range []func(){c.setFoot, c.setPlates, c.setBlocks, c.setSpacers, c.setTray, c.setWay, c.setLightening, c.checkFoot, c.checkTray, c.checkPlates} {
		step()
		if len(c.problems) > 0 {
			break
		}
	}
	return c
}

// sheetNotes are for who buys and cuts a sheet.
func sheetNotes(doc *design.Document, id string, thickness units.Length) []string {
	m, err := doc.Library().Find(id)
	if err != nil {
		return nil
	}
	var notes []string
	if near, exact := m.NearestSheet(thickness); !exact && near > 0 {
		notes = append(notes, fmt.Sprintf("%v is not among the thicknesses that shops keep of it; the nearest is %v.", thickness, near))
	}
	if m.Dust != "" {
		notes = append(notes, "Caution: "+m.Dust+".")
	}
	return notes
}

// setPlates places the levels and the plates between them.
func (c *plates) setPlates() {
	m, p := c.doc.Mast, c.doc.Mast.Plates
	c.seat = m.Height.Millimetres()
	c.rootFillet, c.tipFillet, c.flare = some(m.RootFillet.Millimetres()), some(m.TipFillet.Millimetres()), some(c.doc.Tray.Flare.Millimetres())
	if c.flare > 0 {
		c.tipFillet = 0
	}
	c.thickness, c.root, c.tip2, c.gap = p.Thickness.Millimetres(), p.Root.Millimetres(), p.Tip.Millimetres(), p.Gap.Millimetres()
	c.corner, c.grip, c.kerf = some(p.Corner.Millimetres()), p.Grip.Millimetres(), p.Kerf.Millimetres()
	c.light, c.web, c.held = p.Lightening.Diameter.Millimetres(), p.Lightening.Web.Millimetres(), p.Spacer
	floor := c.doc.Tray.Thickness.Millimetres()
	for _, n := range []struct {
		path  string
		value float64
	}{
		{"mast.height", c.seat}, {"tray.thickness", floor}, {"mast.plates.thickness", c.thickness}, {"mast.plates.root", c.root},
		{"mast.plates.tip", c.tip2}, {"mast.plates.gap", c.gap}, {"mast.plates.grip", c.grip}, {"mast.plates.lightening.diameter", c.light},
	} {
		if !(n.value >= shortest && n.value <= longest) {
			c.refuse(n.path, "%g mm cannot be made; use %g to %d mm", n.value, shortest, longest)
		}
	}
	for _, n := range []struct {
		path  string
		value float64
	}{
		{"mast.plates.corner", p.Corner.Millimetres()}, {"mast.plates.kerf", c.kerf}, {"mast.plates.lightening.web", c.web},
		{"mast.root_fillet", c.rootFillet}, {"mast.tip_fillet", c.tipFillet}, {"tray.flare", c.flare},
	} {
		if !(n.value >= 0 && n.value <= longest) {
			c.refuse(n.path, "%g mm cannot be made; use 0 to %d mm", n.value, longest)
		}
	}
	if len(c.problems) > 0 {
		return
	}
	c.tip = c.seat - floor
	c.low, c.high = c.base+c.rootFillet, c.tip-max(c.tipFillet, c.flare)
	if least := c.low + 2*c.grip + 10 + (c.seat - c.high); c.seat < least {
		c.tip = 0
		c.refuse("mast.height", "%s leaves the plates no free length between their blocks, and they would cross the receiver; use at least %s, or lower blocks",
			mm(c.seat), mm(least))
		return
	}
	if steep := math.Abs(c.root-c.tip2) / 2 / (c.high - c.low); steep > 1 {
		c.refuse("mast.plates.tip", "%s at the tray and %s at the foot taper by more than 45 degrees; bring them closer or use a higher mast", mm(c.tip2), mm(c.root))
	}
	if narrow := min(c.root, c.tip2); 2*c.corner > narrow-0.5 {
		c.refuse("mast.plates.corner", "%s leaves no flat end on a %s plate; use at most %s", mm(c.corner), mm(narrow), mm(max(0, narrow/2-0.25)))
	}
}

// width is the plates' at a level.
func (c *plates) width(z float64) float64 {
	return c.root + (z-c.low)/(c.high-c.low)*(c.tip2-c.root)
}

// headed is the diameter of what the screws press on the plates with.
func (c *plates) headed() float64 {
	if c.washers {
		return max(c.screw.headDiameter, c.screw.washer.Outside.Millimetres())
	}
	return c.screw.headDiameter
}

// setBlocks lays out the blocks on the foot and under the tray and the screws through them.
func (c *plates) setBlocks() {
	c.screw, c.washers = c.threadOf("mast.plates.screw", c.doc.Mast.Plates.Screw), c.doc.Mast.Plates.Washers == "under heads and nuts"
	c.drilled = c.screw.hole - c.doc.Print.HoleAdd.Millimetres()
	if len(c.problems) > 0 {
		return
	}
	apart, narrow := c.headed()+headRoom, min(c.width(c.low+c.grip/4), c.width(c.high-c.grip/4))
	if c.grip/2 < apart {
		c.refuse("mast.plates.grip", "%s leaves two screws in line no room for their heads; use at least %s, or smaller screws", mm(c.grip), mm(2*apart))
	}
	if least := c.screw.hole + 2*plateEdge*c.screw.diameter; narrow < least {
		c.refuse("mast.plates.root", "%s leaves the %s screws in the blocks no edge; use at least %s, or smaller screws", mm(narrow), c.screw.size, mm(least))
	}
	if across := narrow / 4; 2*across >= apart {
		c.across = across
	}
	least := 2*blockCorner + 2
	if c.gap < least {
		c.refuse("mast.plates.gap", "%s is too little for a block between the plates; use at least %s", mm(c.gap), mm(least))
	}
	c.under = stem{section: section{X: c.root, Y: c.gap, Radius: blockCorner}, name: "the block on the foot", what: "plates",
		paths: [2]string{"mast.plates.root", "mast.plates.gap"}, widths: [2]float64{c.root, c.gap}}
	free := max(0, 2*c.across-c.screw.hole)
	c.over = stem{section: section{X: c.tip2, Y: c.gap, Radius: blockCorner}, name: "the block under the tray", what: "plates",
		paths: [2]string{"mast.plates.tip", "mast.plates.gap"}, widths: [2]float64{c.tip2, c.gap}, opening: r2.Vec{X: free, Y: c.gap}}
}

// screwLevels are those of a block's screws; the ways across are in columns.
func (c *plates) screwLevels(foot bool) [2]float64 {
	if foot {
		return [2]float64{c.low + c.grip/4, c.low + 3*c.grip/4}
	}
	return [2]float64{c.high - 3*c.grip/4, c.high - c.grip/4}
}

// columns are where a block's screws stand fore and aft.
func (c *plates) columns() []float64 {
	if c.across == 0 {
		return []float64{0}
	}
	return []float64{-c.across, c.across}
}

// setSpacers puts the spacers evenly between the blocks.
func (c *plates) setSpacers() {
	n := c.doc.Mast.Plates.Spacers
	from, to := c.low+c.grip, c.high-c.grip
	s := spacer{wide: c.headed() + 4, high: c.headed() + 2}
	apart := c.headed() + headRoom + 1
	switch c.held {
	case "two screws":
		s.high += apart
	case "tabs":
		s.wide, s.high, s.tab = tabWide+4, tabHigh+4, r2.Vec{X: tabWide, Y: tabHigh}
	}
	if n < 0 {
		n = 0
	}
	if left := (to - from) - float64(n)*s.high; n > 0 && left < 4*float64(n+1) {
		most := max(0, math.Floor((to-from-4)/(s.high+4)))
		c.refuse("mast.plates.spacers", "%d do not fit between the blocks; use at most %.0f", n, most)
		return
	}
	for i := range n {
		k := s
		k.level = from + (to-from)*float64(i+1)/float64(n+1)
		switch c.held {
		case "two screws":
			k.screws = []float64{k.level - apart/2, k.level + apart/2}
		case "single screw":
			k.screws = []float64{k.level}
		}
		c.spacers = append(c.spacers, k)
	}
}

// setWay is the slot through one plate by which the cable leaves to a side; to the front and the rear it is free.
func (c *plates) setWay() {
	if t := &c.tray; !c.doc.Has("tray.opening.x") && (t.opening.X > c.over.opening.X-1.6 || t.opening.Y > c.over.opening.Y-1.6) {
		t.opening = r2.Vec{} // the block's screws are where the cable would go down; it leaves by the plug's side
	}
	w := c.doc.Mast.CableWay
	if w.Side != "left" && w.Side != "right" {
		return
	}
	c.way = way{open: true, side: sides[w.Side], width: w.Width.Millimetres(), length: w.Length.Millimetres(), bottom: w.Bottom.Millimetres()}
	v := c.way
	switch {
	case !finite(v.length, v.bottom) || !(v.width >= 0.5):
		c.refuse("mast.cable_way.width", "%g mm lets no cable through; use 0.5 mm or more, or side rear", v.width)
		return
	case v.length < v.width:
		c.refuse("mast.cable_way.length", "%s is shorter than the opening is wide; use at least %s", mm(v.length), mm(v.width))
		return
	}
	for _, b := range c.bays() {
		if v.bottom >= b[0]+2 && v.bottom+v.length <= b[1]-2 {
			if narrow := min(c.width(v.bottom), c.width(v.bottom+v.length)); v.width > narrow-2*max(c.web, 2) {
				c.refuse("mast.cable_way.width", "%s leaves no web beside the opening in a %s plate; use at most %s", mm(v.width), mm(narrow), mm(max(0, narrow-2*max(c.web, 2))))
			}
			return
		}
	}
	bay := c.bays()[0]
	c.refuse("mast.cable_way.bottom", "%s puts the opening outside every free stretch of the plate; from %s to %s is free: use %s and at most %s long",
		mm(v.bottom), mm(bay[0]), mm(bay[1]), mm(bay[0]+2), mm(max(0, bay[1]-bay[0]-4)))
}

// bays are the stretches of the plates, by level, between blocks and spacers.
func (c *plates) bays() [][2]float64 {
	from := c.low + c.grip
	var all [][2]float64
	for _, s := range c.spacers {
		all = append(all, [2]float64{from, s.level - s.high/2})
		from = s.level + s.high/2
	}
	return append(all, [2]float64{from, c.high - c.grip})
}

// setLightening spreads the lightening holes over the bays.
func (c *plates) setLightening() {
	n := c.doc.Mast.Plates.Lightening.Count
	bays := c.bays()
	counts := make([]int, len(bays))
	pitch := func(i, count int) float64 { return (bays[i][1] - bays[i][0]) / float64(count) }
	for placed := range max(n, 0) {
		best := 0
		for i := range bays {
			if pitch(i, counts[i]+1) > pitch(best, counts[best]+1)+1e-9 {
				best = i
			}
		}
		if pitch(best, counts[best]+1) < c.light+c.web {
			c.refuse("mast.plates.lightening.count", "%d of %s leave less than %s of web between them; use at most %d, or smaller holes", n, mm(c.light), mm(c.web), placed)
			return
		}
		counts[best]++
	}
	for i, b := range bays {
		for k := range counts[i] {
			c.lightening = append(c.lightening, b[0]+(float64(k)+0.5)*pitch(i, counts[i]))
		}
	}
	if n <= 0 {
		return
	}
	if narrow := min(c.root, c.tip2); c.light > narrow-2*c.web {
		c.refuse("mast.plates.lightening.diameter", "%s lies outside the plate or leaves less than %s of web in its %s; use at most %s", mm(c.light), mm(c.web), mm(narrow), mm(max(0, narrow-2*c.web)))
		return
	}
	for i, z := range c.lightening {
		if w := c.way; w.open && z+c.light/2+c.web > w.bottom && z-c.light/2-c.web < w.bottom+w.length {
			c.refuse("mast.plates.lightening.count", "hole %d of %d runs into the cable way with its web; use fewer, or move the opening", i+1, n)
			return
		}
	}
}

// checkPlates refuses what foot, tray and cutting leave no room for.
func (c *plates) checkPlates() {
	outside := section{X: c.root, Y: c.gap + 2*c.thickness + 2*c.screw.headHeight}
	for i, s := range c.foot.spots {
		if gap := -inside(turned(s, c.foot.turn), outside) - c.foot.room/2; gap < 0 && c.foot.thread.headHeight > c.rootFillet {
			c.refuse("mast.plates.gap", "%s puts the plates over the screw head at hole %d; use a narrower gap, or a root fillet of %s", mm(c.gap), i+1, mm(c.foot.thread.headHeight+0.2))
			break
		}
	}
	if across := c.gap + 2*c.thickness; across > c.tray.floor.Y+1e-9 {
		c.refuse("mast.plates.gap", "%s puts the plates beside the %s tray, where they would cross the receiver's plug and straps; use at most %s, or a larger tray",
			mm(c.gap), mm(c.tray.floor.Y), mm(max(0, c.tray.floor.Y-2*c.thickness)))
	}
	for _, n := range []struct {
		path, what string
		width      float64
		used       bool
	}{
		{"mast.plates.screw", "screw holes", c.drilled, true},
		{"mast.plates.spacer", "slots for tabs", tabWide + 2*tabPlay, c.held == "tabs" && len(c.spacers) > 0},
		{"mast.plates.lightening.diameter", "lightening holes", c.light, len(c.lightening) > 0},
		{"mast.cable_way.width", "cable opening", c.way.width, c.way.open},
	} {
		if n.used && c.kerf >= n.width-0.05 {
			c.refuse("mast.plates.kerf", "%s is as wide as the %s of %s, which cannot be cut then; use less than %s", mm(c.kerf), n.what, mm(n.width), mm(n.width))
			break
		}
	}
	if c.held == "tabs" && len(c.spacers) > 0 && min(c.root, c.tip2) < tabWide+2*tabPlay+2*max(c.web, 2) {
		c.refuse("mast.plates.spacer", "tabs leave no web beside their slots in a %s plate; use screws, or plates of at least %s", mm(min(c.root, c.tip2)), mm(tabWide+2*tabPlay+2*max(c.web, 2)))
	}
	c.checkPlateHoles()
}

// checkPlateHoles refuses screws whose length is not kept in stock.
func (c *plates) checkPlateHoles() {
	for _, u := range c.plateScrews() {
		if u.Length == 0 {
			c.refuse("mast.plates.gap", "%s needs screws of %s, longer than any in stock; use a smaller gap or thinner plates", mm(c.gap), mm(u.Grip+u.Engagement))
			return
		}
	}
}

// sheetLevel is a level above the plate's lower end.
func (c *plates) sheetLevel(z float64) float64 { return z - c.low }

// outline is a plate in the sheet's axes, x forward and y up from its lower end, the cable way in the one it goes through.
func (c *plates) outline(side int) outline.Outline {
	h := c.high - c.low
	edge := outline.Loop{{X: -c.root / 2}, {X: c.root / 2}, {X: c.tip2 / 2, Y: h}, {X: -c.tip2 / 2, Y: h}}
	var holes []outline.Loop
	drill := func(x, z, d float64) { holes = append(holes, circleAt(r2.Vec{X: x, Y: c.sheetLevel(z)}, d)) }
	for _, foot := range []bool{true, false} {
		for _, z := range c.screwLevels(foot) {
			for _, x := range c.columns() {
				drill(x, z, c.drilled)
			}
		}
	}
	for _, s := range c.spacers {
		for _, z := range s.screws {
			drill(0, z, c.drilled)
		}
		if s.tab.X > 0 {
			holes = append(holes, outline.Rectangle(s.tab.X+2*tabPlay, s.tab.Y+2*tabPlay).Translate(0, c.sheetLevel(s.level)))
		}
	}
	for _, z := range c.lightening {
		drill(0, z, c.light)
	}
	if w := c.way; w.open && w.side == side {
		holes = append(holes, outline.Slot(w.length, w.width).Rotate(math.Pi/2).Translate(0, c.sheetLevel(w.bottom+w.length/2)))
	}
	return plate(rounded(edge, c.corner), holes...)
}

// rounded is a convex loop of straight edges with its corners rounded.
func rounded(l outline.Loop, radius float64) outline.Loop {
	if radius == 0 {
		return l
	}
	var out outline.Loop
	for i := range l {
		p, before, after := corner(l, i), corner(l, i+len(l)-1), corner(l, i+1)
		in, on := r2.Unit(r2.Sub(before, p)), r2.Unit(r2.Sub(after, p))
		angle := math.Acos(max(-1, min(1, r2.Dot(in, on))))
		reach := radius / math.Tan(angle/2)
		a, b := r2.Add(p, r2.Scale(reach, in)), r2.Add(p, r2.Scale(reach, on))
		out = append(out, outline.Vertex{X: a.X, Y: a.Y, Bulge: math.Tan((math.Pi - angle) / 4)}, outline.Vertex{X: b.X, Y: b.Y})
	}
	return out
}

// sheetPose stands a plate of the left or right side up from the sheet's axes.
func (c *plates) sheetPose(left bool) mesh.Pose {
	p := mesh.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}, At: r3.Vec{Y: -c.gap / 2, Z: c.low}}
	if left {
		p.At.Y = c.gap/2 + c.thickness
	}
	return p
}
