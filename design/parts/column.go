package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/design"
)

// column is a printed column in millimetres, worked out from a document.
type column struct {
	mount

	apart bool // printed in three pieces
	lying bool // the mast is printed lying
	round bool

	atBase, atTip          section // outside of the mast at the top of the foot and under the tray's floor
	wall                   float64
	way                    way
	fuse                   fuse
	footCollar, trayCollar collar
	joint                  thread
}

// way is the cable's opening in the mast's side, with round ends.
type way struct {
	open          bool
	side          int // quarter turns from the front, to the left
	width, length float64
	bottom        float64 // level
}

var sides = map[string]int{"front": 0, "left": 1, "rear": 2, "right": 3}

func quarterTurns(side int) float64 { return float64(side) * math.Pi / 2 }

// columnOf works out the column that a document describes and notes what cannot be made.
func columnOf(doc *design.Document) *column {
	c := &column{mount: mountOf(doc), apart: doc.Mast.Split == "three pieces", lying: doc.Print.Orientation == "lying"}
	defer func() { c.doc = nil }()
	if c.lying && !c.apart {
		c.plates = Shell{Face: c.shell.Edge, Edge: c.shell.Edge, Infill: c.shell.Infill} // foot and tray are printed on their edge
	}
	steps := []func(){c.setFoot, c.setMast, c.setJoints, c.setStems, c.setTray, c.setOpening, c.setWay, c.setFuse, c.checkFoot, c.checkTray}
	for _, step := range steps {
		step()
		if len(c.problems) > 0 && c.tip == 0 {
			break // nothing further can be placed
		}
	}
	return c
}

// setMast places the levels and the mast between them.
func (c *column) setMast() {
	m, t := c.doc.Mast, c.doc.Tray
	c.round = m.Section == "round"
	c.seat = m.Height.Millimetres()
	root, tip := m.Outline(m.Root), m.Outline(m.Tip)
	c.atBase = section{X: root.X.Millimetres(), Y: root.Y.Millimetres(), Radius: some(m.Corner.Millimetres())}
	c.atTip = section{X: tip.X.Millimetres(), Y: tip.Y.Millimetres(), Radius: some(m.Corner.Millimetres())}
	if c.round {
		c.atBase.Radius, c.atTip.Radius = c.atBase.X/2, c.atTip.X/2
	}
	c.wall = m.Wall.Millimetres()
	c.rootFillet, c.tipFillet, c.flare = some(m.RootFillet.Millimetres()), some(m.TipFillet.Millimetres()), some(t.Flare.Millimetres())
	floor := t.Thickness.Millimetres()
	numbers := []struct {
		path  string
		value float64
	}{
		{"mast.height", c.seat}, {"mast.root.x", c.atBase.X}, {"mast.root.y", c.atBase.Y}, {"mast.tip.x", c.atTip.X},
		{"mast.tip.y", c.atTip.Y}, {"mast.wall", c.wall}, {"tray.thickness", floor},
	}
	for _, n := range numbers {
		if !(n.value >= shortest && n.value <= longest) {
			c.refuse(n.path, "%g mm cannot be made; use %g to %d mm", n.value, shortest, longest)
		}
	}
	for _, n := range []struct {
		path  string
		value float64
	}{
		{"mast.corner", m.Corner.Millimetres()}, {"mast.root_fillet", c.rootFillet}, {"mast.tip_fillet", c.tipFillet}, {"tray.flare", c.flare},
	} {
		if !(n.value >= 0 && n.value <= longest) {
			c.refuse(n.path, "%g mm cannot be made; use 0 to %d mm", n.value, longest)
		}
	}
	if len(c.problems) > 0 {
		return
	}
	if c.flare > 0 {
		c.tipFillet = 0
	}
	thin := min(c.atBase.X, c.atBase.Y, c.atTip.X, c.atTip.Y)
	if 2*c.wall > thin-1 {
		c.refuse("mast.wall", "%s leaves no bore in a %s section; use at most %s", mm(c.wall), mm(thin), mm(max(0, thin/2-0.5)))
	}
	if r := c.atBase.Radius; !c.round && 2*r > thin-0.5 {
		c.refuse("mast.corner", "%s leaves no flat on a %s section; use at most %s, or a round section", mm(r), mm(thin), mm(max(0, thin/2-0.25)))
	}
	least := c.base + c.rootFillet + max(c.tipFillet, c.flare) + floor + 1
	if c.seat < least {
		c.refuse("mast.height", "%s leaves no mast between foot and tray; use at least %s", mm(c.seat), mm(least))
		return
	}
	c.tip = c.seat - floor
	if c.steepness() > 1 {
		c.refuse("mast.tip.x", "%s at the tip and %s at the root taper by more than 45 degrees; bring them closer or use a higher mast", mm(c.atTip.X), mm(c.atBase.X))
	}
	if b := c.bore(c.below()); min(b.X, b.Y) < 1 {
		c.refuse("mast.tip.x", "%s is so much wider than the root that the bore closes in the foot; use a narrower tip", mm(c.atTip.X))
	}
}

// setStems is what foot and tray see of the mast: its own ends, or its collars.
func (c *column) setStems() {
	if c.tip == 0 {
		return
	}
	c.under = stem{section: c.outer(c.base), name: "the mast", what: "a root", paths: [2]string{"mast.root.x", "mast.root.y"},
		widths: [2]float64{c.atBase.X, c.atBase.Y}, through: c.bore(c.base / 2)}
	c.over = stem{section: c.outer(c.tip), name: "the mast", what: "a tip", paths: [2]string{"mast.tip.x", "mast.tip.y"},
		widths: [2]float64{c.atTip.X, c.atTip.Y}, opening: r2.Vec{X: c.atTip.X, Y: c.atTip.Y}}
	if c.apart {
		c.under.section = grown(c.outer(c.base), play+c.footCollar.wall)
		c.under.name, c.under.through = "the foot's collar", loose(c.outer(c.base/2), play)
		c.over.section = grown(c.outer(c.tip), play+c.trayCollar.wall)
	}
}

// setOpening keeps an opening with round corners from running along a round bore.
func (c *column) setOpening() {
	if c.tip != 0 && c.round && c.tray.corner > 0 {
		c.tray.shyOf(c.bore(c.tip).X)
	}
}

// steepness is the most that a side of the mast leans, in mm a mm.
func (c *column) steepness() float64 {
	return max(math.Abs(c.atBase.X-c.atTip.X), math.Abs(c.atBase.Y-c.atTip.Y)) / 2 / (c.tip - c.base)
}

// into is how far the mast's taper may go on into a plate of a thickness: as far as makes one body, and its sides do not meet.
func (c *column) into(thickness float64) float64 {
	return min(overlap*thickness, 0.2/max(c.steepness(), 1e-3))
}

// outer is the outside of the mast at a level; beyond its ends the taper goes on.
func (c *column) outer(z float64) section {
	t := (z - c.base) / (c.tip - c.base)
	a, b := c.atBase, c.atTip
	return section{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y), Radius: a.Radius + t*(b.Radius-a.Radius)}
}

// bore is the hollow at a level.
func (c *column) bore(z float64) section {
	s := grown(c.outer(z), -c.wall)
	s.Radius = some(max(s.Radius, 0))
	return s
}

// setWay places the cable way between what is below and above it.
func (c *column) setWay() {
	w := c.doc.Mast.CableWay
	side, open := sides[w.Side]
	if !open {
		return
	}
	c.way = way{open: true, side: side, width: w.Width.Millimetres(), length: w.Length.Millimetres(), bottom: w.Bottom.Millimetres()}
	v := c.way
	switch {
	case !finite(v.length, v.bottom) || !(v.width >= 0.5):
		c.refuse("mast.cable_way.width", "%g mm lets no cable through; use 0.5 mm or more, or side none", v.width)
		return
	case v.length < v.width:
		c.refuse("mast.cable_way.length", "%s is shorter than the opening is wide; use at least %s", mm(v.length), mm(v.width))
		return
	}
	from, under := c.base+c.rootFillet, "the root fillet"
	if c.apart {
		from, under = c.footCollar.to+2, "the foot's collar"
	}
	to, over := c.tip-max(c.tipFillet, c.flare), "the tray"
	if c.apart {
		to, over = c.trayCollar.from-2, "the tray's collar"
	}
	if v.bottom < from-1e-9 {
		c.refuse("mast.cable_way.bottom", "%s starts within %s; use at least %s", mm(v.bottom), under, mm(math.Ceil(from*10)/10))
		return
	}
	if v.bottom+v.length > to {
		c.refuse("mast.cable_way.length", "%s ends at %s, beyond the mast below %s at %s; use at most %s or start lower",
			mm(v.length), mm(v.bottom+v.length), over, mm(to), mm(max(0, to-v.bottom)))
		return
	}
	widest := math.Inf(1)
	for _, z := range []float64{v.bottom, v.bottom + v.length} {
		o, b := c.outer(z), c.bore(z)
		if v.side%2 == 1 {
			o.X, o.Y, b.X, b.Y = o.Y, o.X, b.Y, b.X
		}
		if c.round {
			widest = min(widest, 0.8*b.Y)
		} else {
			widest = min(widest, o.Y-2*o.Radius, b.Y-2*b.Radius)
		}
	}
	if v.width > widest-0.2 {
		c.refuse("mast.cable_way.width", "%s is wider than the mast's flat side there; use at most %s or a wider mast", mm(v.width), mm(max(0, widest-0.2)))
	}
}
