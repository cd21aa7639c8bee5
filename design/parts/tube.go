package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/design"
	"mastwright/materials"
	"mastwright/mesh/outline"
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
		thread: c.threadOf("mast.tube.clamp.screw", m.Screw), washers: m.Washers == "under heads and nuts",
	}
	if least := k.headed() + 2*clampMargin; c.grip < least {
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
	for _, u := range c.low.uses("", (c.outside-c.bore)/2) {
		c.stocked(u, "mast.tube.clamp.wall", "a thinner clamp")
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
