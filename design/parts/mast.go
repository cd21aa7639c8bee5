package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// filletPoint is a point of a fillet's profile: along the bar from the plate, and out from the bar's wall.
type filletPoint struct{ along, out float64 }

// filletPoints are chords for a ball's arc from a plate to a wall that leans away from it by a slope, moved in so that they enclose
// the fillet's own area r² (cot(φ/2) - (π-φ)/2), φ the angle between plate and wall.
func filletPoints(radius, slope float64) []filletPoint {
	if radius == 0 {
		return []filletPoint{{}}
	}
	const chords = 5
	step := math.Pi / 2 / chords
	angle := math.Pi/2 + math.Atan(slope)
	area := 1/math.Tan(angle/2) - (math.Pi-angle)/2
	share := area / (1 - math.Pi/4 + chords*(step-math.Sin(step))/2)
	var all []filletPoint
	for i := range chords + 1 {
		sin, cos := math.Sincos(float64(i) * step)
		if i == chords {
			sin, cos = 1, 0
		}
		all = append(all, filletPoint{radius * (1 - cos), share * radius * (1 - sin)})
	}
	return all
}

// slope is how much the mast's sides lean inwards on the way up.
func (c *column) slope() float64 {
	return (c.atBase.X + c.atBase.Y - c.atTip.X - c.atTip.Y) / 4 / (c.tip - c.base)
}

// tipPoints go up from the wall to the tray: the fillet's, or the flare's straight line.
func (c *column) tipPoints() []filletPoint { return tipPoints(c.tipFillet, c.flare, -c.slope()) }

func tipPoints(fillet, flare, slope float64) []filletPoint {
	if flare > 0 {
		return []filletPoint{{flare, 0}, {0, flare}}
	}
	p := filletPoints(fillet, slope)
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
	return p
}

// sharpless is the loop of a section with at least a trace of a corner radius, so that all stations have the same structure.
func sharpless(s section) outline.Loop {
	return outline.RoundedRectangle(s.X, s.Y, min(max(s.Radius, 0.01), s.X/2, s.Y/2))
}

// mastLoop is the outside of the mast across its axis, grown by so much, with what is left of its flat where it has one.
func (c *column) mastLoop(s section, grow float64) outline.Loop {
	if !c.round {
		return sharpless(s)
	}
	cut := c.flat()
	if cut == 0 {
		return outline.Circle(s.X / 2)
	}
	if grow < 0 {
		cut = max(cut+grow, 0.001)
	}
	r := s.X / 2
	half := math.Acos((r - cut) / r)
	sin, cos := math.Sincos(math.Pi - half)
	bulge := math.Tan((math.Pi - half) / 4)
	return outline.Loop{{X: r * cos, Y: -r * sin, Bulge: bulge}, {X: r, Bulge: bulge}, {X: r * cos, Y: r * sin}}.Rotate(quarterTurns(c.down()) + math.Pi)
}

// ring is the mast across its axis: closed, or open to the cable way's side where slot is its width there.
func (c *column) ring(z, grow, slot float64) outline.Outline {
	outside, inside := grown(c.outer(z), grow), c.bore(z)
	if slot == 0 {
		return plate(c.mastLoop(outside, grow), loopOf(inside))
	}
	if c.round {
		return outline.Outline{Outer: openTube(outside.X/2, inside.X/2, slot, c.flat()).Rotate(quarterTurns(c.way.side))}
	}
	return outline.Outline{Outer: openBox(outside, inside, slot, c.way.side)}
}

// openTube is a tube with a slot to the front, and a flat to the rear where cut is not 0.
func openTube(R, r, slot, cut float64) outline.Loop {
	a, b := math.Asin(slot/2/R), math.Asin(slot/2/r)
	l := outline.Loop{{X: R * math.Cos(a), Y: slot / 2}}
	if cut == 0 {
		l[0].Bulge = math.Tan((math.Pi - a) / 4)
		l = append(l, outline.Vertex{X: -R, Bulge: l[0].Bulge})
	} else {
		half := math.Acos((R - cut) / R)
		bulge := math.Tan((math.Pi - half - a) / 4)
		l[0].Bulge = bulge
		x, y := cut-R, R*math.Sin(half)
		l = append(l, outline.Vertex{X: x, Y: y}, outline.Vertex{X: x, Y: -y, Bulge: bulge})
	}
	inner := -math.Tan((math.Pi - b) / 4)
	return append(l,
		outline.Vertex{X: R * math.Cos(a), Y: -slot / 2},
		outline.Vertex{X: r * math.Cos(b), Y: -slot / 2, Bulge: inner},
		outline.Vertex{X: -r, Bulge: inner},
		outline.Vertex{X: r * math.Cos(b), Y: slot / 2})
}

// openBox is a hollow box with a slot to a side. The slot's edges lie on the flat of that side.
func openBox(outside, inside section, slot float64, side int) outline.Loop {
	if side%2 == 1 {
		outside.X, outside.Y, inside.X, inside.Y = outside.Y, outside.X, inside.Y, inside.X
	}
	l := append(outline.Loop{{X: outside.X / 2, Y: slot / 2}}, fromFront(sharpless(outside))...)
	l = append(l, outline.Vertex{X: outside.X / 2, Y: -slot / 2}, outline.Vertex{X: inside.X / 2, Y: -slot / 2})
	l = append(l, fromFront(loopOf(inside)).Reverse()...)
	return append(l, outline.Vertex{X: inside.X / 2, Y: slot / 2}).Rotate(quarterTurns(side))
}

// fromFront begins a loop with the first vertex above the middle of its front side.
func fromFront(l outline.Loop) outline.Loop {
	far := l.Box().Max.X
	for i, v := range l {
		before := l[(i+len(l)-1)%len(l)]
		if v.Y > 0 && before.Y < 0 && v.X > far-1e-9 {
			out := append(append(outline.Loop{}, l[i:]...), l[:i]...)
			return out
		}
	}
	return l
}

func (c *mount) station(at float64, o outline.Outline) Station {
	m := measure(o)
	empty := (1 - c.shell.Infill) * m.without(c.shell.Edge) / m.Area
	return Station{At: at, Outline: o, Fill: 1 - empty, section: m.Section}
}

// mastMember is the mast as a bar: from the top of the foot in one piece, from the frame's face otherwise.
func (c *column) mastMember(part, material string) Member {
	low := c.base
	if c.apart {
		low = 0
	}
	m := Member{Name: "mast", Bears: true, Part: part, Material: material, From: r3.Vec{Z: low}, To: r3.Vec{Z: c.tip}}
	at := func(z float64) float64 { return (z - low) / (c.tip - low) }
	add := func(z, grow, slot float64) {
		m.Stations = append(m.Stations, c.station(at(z), c.ring(z, grow, slot)))
	}
	if c.apart {
		add(0, 0, 0)
		if z := c.footCollar.middle(); z > c.base {
			add(z, 0, 0)
		}
	} else {
		for _, p := range filletPoints(c.rootFillet, c.slope()) {
			add(c.base+p.along, p.out, 0)
		}
		m.Notches = c.filletNotch(m.Notches, "root fillet", 0, c.rootFillet, c.atBase, c.foot.outside)
	}
	c.fuseStations(&m, add, false)
	if w := c.way; w.open {
		r, top := w.width/2, w.bottom+w.length
		// The round ends keep their area as a trapezium: its narrow side is (π/2 - 1) of the width.
		narrow := w.width * (math.Pi/2 - 1)
		add(w.bottom, 0, 0)
		add(w.bottom, 0, narrow)
		add(w.bottom+r, 0, w.width)
		add(top-r, 0, w.width)
		add(top, 0, narrow)
		add(top, 0, 0)
		m.Notches = append(m.Notches, c.crossHole("cable way", at(w.bottom), w.width, c.outer(w.bottom)))
	}
	c.fuseStations(&m, add, true)
	if c.apart {
		add(c.trayCollar.middle(), 0, 0)
		add(c.tip, 0, 0)
		for _, k := range []collar{c.footCollar, c.trayCollar} {
			m.Notches = append(m.Notches, c.crossHole("joint screw", at(k.screw), c.pilot(), c.outer(k.screw)))
		}
	} else {
		for _, p := range c.tipPoints() {
			add(c.tip-p.along, p.out, 0)
		}
		m.Notches = c.filletNotch(m.Notches, "tip fillet", 1, c.tipFillet, c.atTip, c.tray.floor)
	}
	return m
}

// filletNotch adds a fillet, or the bare corner that a fillet of 0 leaves.
func (c *mount) filletNotch(list []Notch, name string, at, radius float64, small, wide section) []Notch {
	if name == "tip fillet" && c.flare > 0 {
		return list
	}
	return append(list, Notch{Name: name, At: at, Radius: radius, Small: r2.Vec{X: small.X, Y: small.Y}, Wide: r2.Vec{X: wide.X, Y: wide.Y}})
}

func (c *mount) crossHole(name string, at, width float64, s section) Notch {
	return Notch{Name: name, At: at, Radius: width / 2, Diameter: width, Small: r2.Vec{X: s.X, Y: s.Y}}
}

// mastSolid is the mast's outside between two levels, grown by a play; beyond its ends the taper goes on.
func (c *column) mastSolid(low, high, grow float64) solid.Node {
	at := func(z float64) section { return loose(c.outer(z), grow) }
	n := solid.Move(solid.TaperedPrism(at(low), at(high), high-low), r3.Vec{Z: low})
	if cut := c.flat(); cut > 0 {
		sin, cos := math.Sincos(quarterTurns(c.down()))
		lean := (c.atBase.X - c.atTip.X) / 2 / (c.tip - c.base)
		from := at(c.base).X/2 - cut
		n = solid.Intersection(n, solid.Named("flat", solid.HalfSpace(
			r3.Vec{X: from * math.Round(cos), Y: from * math.Round(sin), Z: c.base},
			r3.Vec{X: math.Round(cos), Y: math.Round(sin), Z: lean})))
	}
	return n
}

// boreSolid hollows the mast between two levels.
func (c *column) boreSolid(low, high float64) solid.Node {
	n := solid.TaperedPrism(c.bore(low), c.bore(high), high-low)
	return solid.Named("bore", solid.Move(n, r3.Vec{Z: low}))
}

// waySolid cuts the cable way out of one wall.
func (c *column) waySolid() []solid.Node {
	w := c.way
	if !w.open {
		return nil
	}
	s := c.outer(w.bottom)
	n := solid.Rotate(solid.Slot(w.length, w.width, max(s.X, s.Y)), math.Pi/2, r3.Vec{Y: 1})
	n = solid.Rotate(n, quarterTurns(w.side), r3.Vec{Z: 1})
	return []solid.Node{solid.Named("cable way", solid.Move(n, r3.Vec{Z: w.bottom + w.length/2}))}
}
