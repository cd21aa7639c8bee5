package parts

import (
	"fmt"
	"math"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/mesh/solid"
)

type section = solid.Section

// column is a printed column in millimetres, worked out from a document. Levels are above the middle of the mounting face.
type column struct {
	doc      *design.Document // while it is being worked out
	problems []design.Problem

	apart bool // printed in three pieces
	lying bool // the mast is printed lying
	round bool

	base, tip, seat        float64 // levels: top of the foot, underside and top of the tray's floor
	atBase, atTip          section // outside of the mast at the first two
	wall                   float64
	rootFillet, tipFillet  float64
	flare                  float64
	way                    way
	foot                   foot
	tray                   tray
	footCollar, trayCollar collar
	joint                  thread
	shell, upended         Shell // of a plate printed flat, and on its edge
	bed                    [3]float64
	layer                  float64
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
	c := &column{doc: doc, apart: doc.Mast.Split == "three pieces", lying: doc.Print.Orientation == "lying"}
	defer func() { c.doc = nil }()
	p := doc.Print
	edge, face := float64(p.Walls)*p.LineWidth.Millimetres(), float64(p.Skins)*p.Layer.Millimetres()
	c.shell = Shell{Face: face, Edge: edge, Infill: p.Infill.Fraction()}
	c.upended = Shell{Face: edge, Edge: edge, Infill: c.shell.Infill}
	c.layer = p.Layer.Millimetres()
	c.bed = [3]float64{p.Bed.X.Millimetres(), p.Bed.Y.Millimetres(), p.Bed.Z.Millimetres()}
	steps := []func(){c.setFoot, c.setMast, c.setJoints, c.setTray, c.setWay, c.checkFoot, c.checkTray}
	for _, step := range steps {
		step()
		if len(c.problems) > 0 && c.tip == 0 {
			break // nothing further can be placed
		}
	}
	return c
}

// refuse notes a problem; the text begins with the value and ends with the remedy.
func (c *column) refuse(path, format string, args ...any) {
	c.problems = append(c.problems, design.Problem{Path: path, Value: c.doc.Get(path), Text: fmt.Sprintf(format, args...)})
}

// mm writes a length for an error text, to a hundredth.
func mm(x float64) string { return units.Millimetres(math.Round(x*100) / 100).String() }

func finite(all ...float64) bool {
	for _, x := range all {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
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

// A column is worked out for lengths in mm between these; a radius or a chamfer below the shortest counts as none.
const (
	shortest = 0.1
	longest  = 1000
)

// some is a radius or chamfer, or none where it is too small to be made.
func some(x float64) float64 {
	if x >= 0 && x < shortest {
		return 0
	}
	return x
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

// grown is the section all round d larger.
func grown(s section, d float64) section {
	return section{X: s.X + 2*d, Y: s.Y + 2*d, Radius: s.Radius + d}
}

// loose is the section all round d larger, sharp corners staying sharp.
func loose(s section, d float64) section {
	g := grown(s, d)
	if s.Radius == 0 {
		g.Radius = 0
	}
	return g
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
