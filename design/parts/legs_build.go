package parts

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// buildLegs is slender legs from pads on the frame to the tray.
func buildLegs(doc *design.Document) (Assembly, []design.Problem) {
	c := legsOf(doc)
	if len(c.problems) > 0 {
		return Assembly{}, c.problems
	}
	m := doc.Materials
	a := Assembly{Tray: c.trayPlate(m.Tray), Seat: r3.Vec{Z: c.seat}, Screws: append([]ScrewUse{c.padScrews()}, c.receiverScrews()...)}
	a.Tray.Hub = plate(c.tray.edge()) // it does not bend between its legs
	groups, padded := c.groups(), c.padGroups()
	var sockets []Member
	for i, k := range c.all {
		bar, low, high := c.legMember(i, k, named("leg", groupOf(k, groups), len(groups)), m.Legs), c.socketMember(i, k, true, named("pad", groupOf(k, padded), len(padded)), m.Foot), c.socketMember(i, k, false, "tray", m.Tray)
		a.Members = append(a.Members, bar)
		sockets = append(sockets, low, high)
		a.Joints = append(a.Joints, c.socketJoint(low, bar, m.Foot, true), c.socketJoint(high, bar, m.Tray, false))
		a.Roots, a.Tips = append(a.Roots, End{low.Name, 0}), append(a.Tips, End{high.Name, 1})
		a.Pads = append(a.Pads, c.padPlate(k, m.Foot))
	}
	a.Members = append(a.Members, sockets...)
	a.Foot = c.allPads(a.Pads, m.Foot)
	for g, all := range padded {
		a.Parts = append(a.Parts, c.padPart(named("pad", g, len(padded)), all, m.Foot))
	}
	for g, all := range groups {
		bar, err := c.legPart(named("leg", g, len(groups)), all, m.Legs)
		if err != nil {
			return Assembly{}, []design.Problem{{Path: "mast.legs.kerf", Value: doc.Get("mast.legs.kerf"), Text: fmt.Sprintf("%s cannot be cut around: %v; use a smaller kerf", mm(c.kerf), err)}}
		}
		a.Parts = append(a.Parts, bar)
	}
	a.Parts = append(a.Parts, c.trayPart(a))
	return a, nil
}

// groupOf is the index of a leg's group.
func groupOf(k leg, groups [][]leg) int {
	for g, all := range groups {
		for _, o := range all {
			if o.hole == k.hole {
				return g
			}
		}
	}
	return 0
}

// legMember is a leg as a bar.
func (c *legs) legMember(i int, k leg, part, material string) Member {
	p := c.legPose(k, k.from)
	o := plate(outline.Rectangle(c.wide, c.across))
	s := Station{Outline: o, Fill: 1, section: o.Section()}
	if !c.cut {
		s = c.station(0, o)
	}
	top := s
	top.At = 1
	return Member{Name: fmt.Sprintf("leg %d", i+1), Part: part, Material: material, Bears: true, From: k.from, To: p.Apply(r3.Vec{Z: k.length}), SectionX: p.X,
		Stations: []Station{s, top}}
}

// ends are where a socket's axis begins and ends, upwards: from the pad's top, or to the tray's floor.
func (c *legs) ends(k leg, low bool) (from, to r3.Vec) {
	if low {
		return k.foot, r3.Add(k.from, r3.Scale(c.grip, k.axis))
	}
	return r3.Add(k.from, r3.Scale(k.length-c.grip, k.axis)), k.head
}

// socketMember is the socket of a pad, or one under the tray, as a bar.
func (c *legs) socketMember(i int, k leg, low bool, part, material string) Member {
	name := fmt.Sprintf("pad %d", i+1)
	if !low {
		name = fmt.Sprintf("tray socket %d", i+1)
	}
	from, to := c.ends(k, low)
	m := Member{Name: name, Part: part, Material: material, From: from, To: to, SectionX: c.legPose(k, from).X}
	hole := outline.Rectangle(c.wide+2*play, c.across+2*play)
	wide, narrow := c.station(0, plate(loopOf(c.flared(low)), hole)), c.station(1, plate(loopOf(c.socket()), hole))
	n := Notch{Name: "foot of the socket", Radius: flareOf(low), Small: r2.Vec{X: c.socket().X, Y: c.socket().Y}, Wide: r2.Vec{X: c.flared(low).X + 2*padEdge, Y: c.flared(low).Y + 2*padEdge}}
	if !low {
		wide, narrow = narrow, wide
		wide.At, narrow.At, n.At = 0, 1, 1
	}
	m.Stations, m.Notches = []Station{wide, narrow}, []Notch{n}
	return m
}

func (c *legs) socketJoint(socket, bar Member, material string, low bool) Joint {
	from, middle := bar.From, c.grip/2
	if !low {
		middle = bar.Length() - c.grip/2
	}
	axis := r3.Unit(r3.Sub(bar.To, bar.From))
	at := r3.Add(from, r3.Scale(middle, axis))
	return Joint{
		Name: socket.Name + " joint", Kind: Sleeve, A: socket.Name, B: bar.Name, AtA: r3.Norm(r3.Sub(at, socket.From)) / socket.Length(), AtB: middle / bar.Length(),
		Centre: at, Axis: axis, Grip: c.grip, Wall: c.wall, Clearance: play, Material: material,
	}
}

// bearing says where a screw is, seen from the pattern's middle.
func bearing(at r2.Vec) string {
	side := func(x float64, more, less string) string {
		if x < 0 {
			return fmt.Sprintf("%.1f mm %s", -x, less)
		}
		return fmt.Sprintf("%.1f mm %s", x, more)
	}
	return side(at.X, "forward", "aft") + " and " + side(at.Y, "left", "right")
}

// places are where parts that are alike stand, from where the first does.
func (c *legs) places(like []leg, pose func(leg) mesh.Pose) []mesh.Pose {
	back := undone(pose(like[0]))
	var all []mesh.Pose
	for _, k := range like {
		all = append(all, back.Then(pose(k)))
	}
	return all
}

// undone is the motion back.
func undone(p mesh.Pose) mesh.Pose {
	back := inverse(p)
	back.At = r3.Scale(-1, back.Apply(p.At))
	return back
}

// socketBody is a socket's own: the bar between the plate and its mouth less the leg's room, aslant at the plate.
func (c *legs) socketBody(k leg, from, to r3.Vec, low bool) Body {
	wide, narrow := loopOf(c.flared(low)).Section(), loopOf(c.socket()).Section()
	mid := loopOf(grown(c.socket(), flareOf(low)/2)).Section()
	if !low {
		wide, narrow = narrow, wide
	}
	h := r3.Norm(r3.Sub(to, from))
	var l lump
	l.sheet(wide, 0, h/6, h/6)
	l.sheet(mid, h/2, 4*h/6, 4*h/6)
	l.sheet(narrow, h, h/6, h/6)
	room := outline.Rectangle(c.wide+2*play, c.across+2*play).Section()
	at := r3.Norm(r3.Sub(k.from, k.foot)) // the leg's end lies that far from the plate
	if low {
		l.slab(room, at, h, 1, -1)
	} else {
		l.slab(room, 0, h-at, 1, -1)
	}
	// The plate cuts it aslant: what it gains on one side of its axis it loses on the other.
	slope := math.Tan(k.lean)
	if low {
		l.first.X += wide.Iyy * slope
		l.first.Z -= wide.Iyy * slope * slope / 2
	} else {
		l.first.X -= narrow.Iyy * slope
		l.first.Z += narrow.Iyy * slope * slope / 2
	}
	return l.body().at(c.legPose(k, from))
}

// legPart is a leg, printed lying or cut.
func (c *legs) legPart(name string, like []leg, material string) (Part, error) {
	k := like[0]
	pose := c.legPose(k, k.from)
	p := Part{Name: name, Material: material, build: func() solid.Node {
		return solid.Named("leg", solid.Place(solid.Box(c.wide, c.across, k.length), pose))
	}}
	p.Body = block(r3.Vec{Z: k.length / 2}, r3.Vec{X: c.wide, Y: c.across, Z: k.length}).at(pose)
	p.Places = c.places(like, func(k leg) mesh.Pose { return c.legPose(k, k.from) })
	p.Notes = []string{"Glue it into its sockets, pads first, with the frame's screws in place."}
	if c.foot.wedge && len(like) < len(c.all) {
		at := make([]string, len(like))
		for i, k := range like {
			at[i] = bearing(k.hole)
		}
		p.Notes = append(p.Notes, "It stands at the screw "+strings.Join(at, "; ")+".")
	}
	if c.cut {
		o := plate(outline.Rectangle(k.length, c.wide))
		d, err := o.Kerf(c.kerf)
		p.Making, p.Outline, p.Drawing, p.Thickness = Cut, o, d, c.across
		p.Box = r3.Vec{X: k.length, Y: c.wide, Z: c.across}
		p.Notes = append(append(p.Notes, "Cut from "+c.sheetOf()+", along the fibres where there are any."), c.sheet...)
		return p, err
	}
	fill := c.station(0, plate(outline.Rectangle(c.wide, c.across))).Fill
	p.Body.Plastic *= fill
	p.Body.Inertia = scaledTensor(p.Body.Inertia, fill)
	lie := inverse(pose).Then(mesh.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{X: 1}})
	var hull []r3.Vec
	for _, v := range boxHull(outline.Rectangle(c.wide, c.across), 0, k.length) {
		hull = append(hull, pose.Apply(v))
	}
	flat := k.length * c.wide
	p.Printing = Printing{Footprint: r2.Vec{X: k.length, Y: c.wide}, Contact: flat, TipArea: flat, Wall: min(c.wide, c.across)}
	p = c.onBed(p, "lying", lie, hull)
	p.Printing.Slenderness = p.Printing.Height / c.wide
	return c.bedNote(p), nil
}

// trayPart is the tray with its sockets.
func (c *legs) trayPart(a Assembly) Part {
	p := Part{Name: "tray", Material: a.Tray.Material, Body: a.Tray.Body, build: c.traySockets}
	hull := c.trayHull()
	for _, k := range c.all {
		from, to := c.ends(k, false)
		p.Body = together(p.Body, c.socketBody(k, from, to, false))
		mouth := c.legPose(k, from)
		for _, v := range loopOf(c.socket()).Flatten(0.005) {
			hull = append(hull, mouth.Apply(r3.Vec{X: v.X, Y: v.Y}))
		}
	}
	o := c.tray.plan(true)
	top := c.tip
	p.Printing = Printing{Footprint: size(o.Outer), Contact: o.Area(), TipArea: loopOf(c.socket()).Area() - c.wide*c.across, Wall: c.wall}
	turn := mesh.Turn(r3.Vec{X: 1}, math.Pi) // floor down, sockets up
	if c.tray.rim {
		ring := c.tray.ring()
		p.Printing.Footprint, p.Printing.Contact = size(ring.Outer), ring.Area()
		p.Printing.Overhang = max(c.tray.pocket.X, c.tray.pocket.Y)
	}
	p = c.onBed(p, "upright", turn, hull)
	g := &p.Printing
	g.Supports = g.Overhang > ledge
	g.Slenderness = g.Height / min(g.Footprint.X, g.Footprint.Y)
	p.Notes = []string{"Printed upside down, its sockets up."}
	if g.Supports {
		p.Notes[0] = fmt.Sprintf("Printed upside down on its rim, its sockets up: supports under the floor, %.1f mm below it.", c.seat+c.tray.rimHeight-top-c.tray.thickness)
	}
	if c.tray.round && c.tray.rim {
		p.Notes = append(p.Notes, "A round receiver is kept from turning by its plug in the rim's gap.")
	}
	return c.bedNote(p)
}

// socketSolid is a socket's outside, its taper taken on into the plate and cut off there.
func (c *legs) socketSolid(k leg, low bool) solid.Node {
	from, to := c.ends(k, low)
	h := r3.Norm(r3.Sub(to, from))
	const beyond = 0.9 // of the height that the taper goes on
	wide, narrow := c.flared(low), c.socket()
	s := grown(wide, beyond*flareOf(low))
	if low {
		p := c.legPose(k, r3.Sub(from, r3.Scale(beyond*h, k.axis)))
		n := solid.Place(solid.TaperedPrism(s, narrow, (1+beyond)*h), p)
		return solid.Named("socket", solid.Intersection(n, solid.HalfSpace(r3.Vec{Z: c.base - overlap*c.foot.thickness}, r3.Vec{Z: -1})))
	}
	n := solid.Place(solid.TaperedPrism(narrow, s, (1+beyond)*h), c.legPose(k, from))
	return solid.Named("socket", solid.Intersection(n, solid.HalfSpace(r3.Vec{Z: c.tip + overlap*c.tray.thickness}, r3.Vec{Z: 1})))
}

// legRoom is what a leg takes of its socket.
func (c *legs) legRoom(k leg, low bool) solid.Node {
	box := solid.Box(c.wide+2*play, c.across+2*play, c.grip+1)
	at := k.from
	if !low {
		at = r3.Add(k.from, r3.Scale(k.length-c.grip-1, k.axis))
	}
	return solid.Named("leg's room", solid.Place(box, c.legPose(k, at)))
}

func (c *legs) traySockets() solid.Node {
	n := []solid.Node{c.traySolid(true)}
	cut := c.markCutters()
	for _, k := range c.all {
		n = append(n, c.socketSolid(k, false))
		cut = append(cut, c.legRoom(k, false))
	}
	return solid.Difference(solid.Union(n...), cut...)
}

// legFits adds a pad's socket, in which the leg is tried.
func legFits(doc *design.Document) fits {
	c := legsOf(doc)
	f := fits{mount: &c.mount, foot: doc.Materials.Foot, tray: doc.Materials.Tray}
	if len(c.problems) > 0 {
		return f
	}
	const high = 6
	o := plate(loopOf(c.socket()), outline.Rectangle(c.wide+2*play, c.across+2*play))
	f.pieces = append(f.pieces, c.flatPiece("fit_socket", doc.Materials.Foot, high, o, func() solid.Node { return solid.Extrude(high, o) },
		"The leg must slide in by hand without shaking."))
	k := c.all[0]
	f.plan = plate(c.padLoop(k).Translate(-k.hole.X, -k.hole.Y).Rotate(-k.out), circleAt(r2.Vec{}, c.foot.thread.hole))
	return f
}
