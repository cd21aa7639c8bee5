package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// JointKind is how a joint carries load.
type JointKind string

// The kinds of joints.
const (
	// Sleeve is a printed socket around a member: a bed of springs over its grip. The member's taper, corners, flat or glue key it.
	Sleeve JointKind = "sleeve"
	// Clamp is a split sleeve closed by a screw: a bed whose friction, or a cross screw, keeps the member from sliding and turning.
	Clamp JointKind = "clamp"
	// Pin is a screw or the end of a tab across two members: it carries force but no moment. Two in line carry moment as a pair.
	Pin JointKind = "pin"
)

// Joint is where two members meet.
type Joint struct {
	Name      string // "foot joint", "tray joint", "left plate, foot screw 1"
	Kind      JointKind
	A, B      string  // members: the collar and what is in it; of a pin the plate and the block. A pin's spring sits on A
	AtA, AtB  float64 // its middle along each; a station lies there
	Centre    r3.Vec  // its middle
	Axis      r3.Vec  // of the sleeve, or of the pin; zero: up
	Grip      float64 // mm along the axis: the sleeve's depth, or what of the plate the pin bears on
	Wall      float64 // mm of collar around the member; 0 for a pin
	Clearance float64 // mm on each side
	Material  string  // of the collar; of the softer side of a pin
	Keyed     bool    // a clamp's cross screw keeps the member from turning
	Screw     ScrewUse
}

// collar is a sleeve around the mast at one of its ends, between two levels.
type collar struct {
	name     string // "foot", "tray"
	from, to float64
	grip     float64
	wall     float64
	screw    float64 // level of the joint's screw
}

// Figures of the joints in mm; judgement. The play is what two printed flanks need to slide together.
const (
	play       = 0.1
	leastGrip  = 10
	leastWall  = 2.4
	screwEdge  = 3.5 // from the joint screw's middle to the collar's end
	screwSpace = 6.5 // collar beyond a fillet that the joint screw's head needs
	jointSize  = "M3"
)

// setJoints lays out the collars: each grips the mast over its own depth, and clears its fillet by a screw's head.
func (c *column) setJoints() {
	if !c.apart || c.tip == 0 {
		return
	}
	c.joint = c.threadOf("mast.split", jointSize)
	wall := max(c.wall, leastWall)
	rise := max(c.rootFillet+screwSpace, max(c.atBase.X, c.atBase.Y)-c.base, leastGrip-c.base)
	c.footCollar = collar{name: "foot", from: c.base, to: c.base + rise, grip: c.base + rise, wall: wall, screw: c.base + rise - screwEdge}
	drop := max(c.tipFillet+screwSpace, c.flare+screwSpace, c.atTip.X, c.atTip.Y, leastGrip)
	c.trayCollar = collar{name: "tray", from: c.tip - drop, to: c.tip, grip: drop, wall: wall, screw: c.tip - drop + screwEdge}
	if c.footCollar.to+2 > c.trayCollar.from {
		c.refuse("mast.height", "%s leaves no mast between the collars of a column in three pieces; use at least %s, or one piece",
			mm(c.seat), mm(c.seat+c.footCollar.to+2-c.trayCollar.from))
	}
}

// flat is how much of a round mast's wall is cut away along the side it is printed on: a third of the wall.
func (c *column) flat() float64 {
	if !c.apart || !c.round {
		return 0
	}
	return c.wall / 3
}

// down is the side a lying mast is printed on: away from the cable way.
func (c *column) down() int {
	if c.way.open {
		return (c.way.side + 2) % 4
	}
	return 2
}

// collarOutline is the sleeve across its axis at a level, grown by a fillet.
func (c *column) collarOutline(k collar, z, grow float64) outline.Outline {
	return plate(sharpless(grown(c.outer(z), play+k.wall+grow)), c.mastLoop(loose(c.outer(z), play), 0))
}

// collarMember is the sleeve as a bar, with its fillet at the plate's end.
func (c *column) collarMember(k collar, material string) Member {
	m := Member{Name: k.name + " collar", Part: k.name, Material: material, From: r3.Vec{Z: k.from}, To: r3.Vec{Z: k.to}}
	add := func(z, grow float64) {
		m.Stations = append(m.Stations, c.station((z-k.from)/(k.to-k.from), c.collarOutline(k, z, grow)))
	}
	middle := k.middle()
	wide := c.foot.outside
	fillet, small := c.rootFillet, grown(c.outer(k.from), play+k.wall)
	if k.name == "foot" {
		for _, p := range filletPoints(c.rootFillet, c.slope()) {
			add(k.from+p.along, p.out)
		}
		if middle > k.from+c.rootFillet {
			add(middle, 0)
		}
		add(k.to, 0)
		m.Notches = c.filletNotch(m.Notches, "root fillet", 0, fillet, small, wide)
	} else {
		add(k.from, 0)
		top := c.tipPoints()
		if len(top) > 0 && middle < k.to-top[0].along {
			add(middle, 0)
		}
		for _, p := range top {
			add(k.to-p.along, p.out)
		}
		if len(top) == 0 {
			add(middle, 0)
			add(k.to, 0)
		}
		m.Notches = c.filletNotch(m.Notches, "tip fillet", 1, c.tipFillet, grown(c.outer(k.to), play+k.wall), c.tray.floor)
	}
	m.Notches = append(m.Notches, c.crossHole("joint screw", (k.screw-k.from)/(k.to-k.from), c.joint.hole, grown(c.outer(k.screw), play+k.wall)))
	return m
}

// middle is the level of the middle of the grip, where the joint's springs act.
func (k collar) middle() float64 {
	if k.name == "foot" {
		return max(k.to-k.grip/2, k.from)
	}
	return k.from + k.grip/2
}

func (c *column) jointOf(k collar, mast Member, material string, screw ScrewUse) Joint {
	z := k.middle()
	return Joint{
		Name: k.name + " joint", Kind: Sleeve, A: k.name + " collar", B: mast.Name,
		AtA: (z - k.from) / (k.to - k.from), AtB: (z - mast.From.Z) / (mast.To.Z - mast.From.Z),
		Centre: r3.Vec{Z: z}, Grip: k.grip, Wall: k.wall, Clearance: play, Material: material, Screw: screw,
	}
}

// sleeve is the collar's outside as a solid between two levels, for fillets and unions.
func (c *column) sleeve(k collar, low, high float64) solid.Node {
	at := func(z float64) section { return grown(c.outer(z), play+k.wall) }
	return solid.Named(k.name+" collar", solid.Move(solid.TaperedPrism(at(low), at(high), high-low), r3.Vec{Z: low}))
}

// socket is what the mast takes of a collar, between two levels.
func (c *column) socket(k collar, low, high float64) solid.Node {
	return solid.Named(k.name+" socket", c.mastSolid(low, high, play))
}

// drilled is a body less the joint's hole: through the thickness of a wall whose outside grows by out over the mast's.
func (c *column) drilled(b Body, k collar, diameter, out, thickness float64) Body {
	s := grown(c.outer(k.screw), out-thickness/2)
	at := turned(r2.Vec{X: s.X / 2}, quarterTurns(c.screwSide()))
	if c.screwSide()%2 == 1 {
		at = turned(r2.Vec{X: s.Y / 2}, quarterTurns(c.screwSide()))
	}
	var l lump
	l.add(b)
	hole := outline.Section{Area: thickness * diameter, Centroid: at}
	l.sheet(hole, k.screw, -math.Pi/4*diameter, -math.Pi/4*diameter)
	return l.body()
}

// jointCutter is the screw's hole at a collar, through the wall on the screw's side only.
func (c *column) jointCutter(k collar, diameter float64) solid.Node {
	o := grown(c.outer(k.screw), play+k.wall)
	long := max(o.X, o.Y)
	n := solid.Rotate(solid.Cylinder(diameter/2, long), math.Pi/2, r3.Vec{Y: 1})
	n = solid.Rotate(n, quarterTurns(c.screwSide()), r3.Vec{Z: 1})
	return solid.Named(k.name+" joint hole", solid.Move(n, r3.Vec{Z: k.screw}))
}
