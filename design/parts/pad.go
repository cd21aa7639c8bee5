package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// padPlan are the corners of a pad's underside in its own axes.
func (c *legs) padPlan(k leg) []r3.Vec {
	s, middle := c.padSection(k)
	var all []r3.Vec
	for _, v := range loopOf(s).Translate(middle, 0).Flatten(0.05) {
		all = append(all, r3.Vec{X: v.X, Y: v.Y})
	}
	return all
}

// deep is a pad's thickness along its screw at a place of its own axes.
func (c *legs) deep(k leg, x float64) float64 {
	p := c.padPose(k)
	return (c.base - p.Apply(r3.Vec{X: x}).Z) / p.Z.Z
}

// aslant is how far a screw's line moves sideways from the face up to a wedge pad's top.
func (c *legs) aslant(face float64) float64 {
	if !c.foot.wedge {
		return 0
	}
	n := c.foot.pose.Z
	return math.Hypot(n.X, n.Y) / n.Z * (c.base - face)
}

// padSection is a pad's rectangle and the place of its middle, along the way out from the screw.
func (c *legs) padSection(k leg) (section, float64) {
	s := c.flared(true)
	back := c.screwRoom()/2 + padTail
	if c.upon {
		back = max(back, s.X/2+padEdge)
	}
	front := k.beside + s.X/2/math.Cos(k.lean) + c.foot.thickness*math.Tan(k.lean) + padEdge + c.aslant(k.face)
	p := section{X: back + front, Y: max(c.screwRoom(), s.Y) + 2*padEdge + 2*c.aslant(k.face)}
	if c.foot.insert {
		p.Y = max(p.Y, c.foot.room+2*c.foot.thread.insert.Wall.Millimetres())
	}
	p.Radius = min(padCorner, p.X/3, p.Y/3)
	return p, (front - back) / 2
}

// padPose puts a pad's own axes, x outwards from its screw and z square to the face, in place.
func (c *legs) padPose(k leg) mesh.Pose {
	if c.foot.wedge {
		sin, cos := math.Sincos(k.out)
		z := c.foot.pose.Z
		out := r3.Vec{X: cos, Y: sin}
		x := r3.Unit(r3.Sub(out, r3.Scale(r3.Dot(out, z), z)))
		return mesh.Pose{X: x, Y: r3.Cross(z, x), Z: z, At: r3.Vec{X: k.hole.X, Y: k.hole.Y, Z: k.face}}
	}
	return mesh.Turn(r3.Vec{Z: 1}, k.out).Then(mesh.Move(r3.Vec{X: k.hole.X, Y: k.hole.Y}))
}

// padLoop is a pad's edge in place.
func (c *legs) padLoop(k leg) outline.Loop {
	s, middle := c.padSection(k)
	return loopOf(s).Translate(middle, 0).Rotate(k.out).Translate(k.hole.X, k.hole.Y)
}

// padGroups puts legs whose pads are alike together, in order: each wedge is one of its own.
func (c *legs) padGroups() [][]leg {
	if !c.foot.wedge {
		return c.groups()
	}
	var all [][]leg
	for _, k := range c.all {
		all = append(all, []leg{k})
	}
	return all
}

// padPlate is a pad under its socket.
func (c *legs) padPlate(k leg, material string) FootPlate {
	f := c.foot
	socket := c.flared(true)
	socket.X /= k.axis.Z
	p := FootPlate{
		Outline: plate(c.padLoop(k), circleAt(k.hole, f.thread.hole)), Hub: plate(loopOf(socket).Rotate(k.out).Translate(k.foot.X, k.foot.Y)),
		Thickness: f.thickness, Rise: c.base, Seat: f.seat, Screws: []r2.Vec{k.hole}, Head: f.pressing(), Material: material, Shell: c.shell,
	}
	if f.wedge {
		p.Body = c.wedgeBody(k, p.Shell)
		return p
	}
	var l lump
	l.plate(p.Outline, 0, c.base, p.Shell)
	if depth := f.thickness - f.seat; depth > 0 {
		head := circleAt(r2.Vec{}, f.room)
		if f.nut {
			head = outline.Polygon(6, f.room).Rotate(k.out)
		}
		l.slab(plate(head.Translate(k.hole.X, k.hole.Y), circleAt(k.hole, f.thread.hole)).Section(), f.seat, f.thickness, 1, -1)
	}
	l.slab(outline.Section{Area: p.Outline.Outer.Length() * f.relief / 2, Centroid: p.Outline.Section().Centroid}, 0, f.relief, 1, -1)
	p.Body = l.body()
	return p
}

// wedgeBody is a wedge pad's own: thicker to one side, its screw's head or nut sunk in a well.
func (c *legs) wedgeBody(k leg, shell Shell) Body {
	f, p := c.foot, c.padPose(k)
	s, middle := c.padSection(k)
	o := plate(loopOf(s).Translate(middle, 0), circleAt(r2.Vec{}, f.thread.hole))
	section := o.Section()
	var l lump
	l.plate(o, 0, c.deep(k, section.Centroid.X), shell)
	head := circleAt(r2.Vec{}, f.room)
	if f.nut {
		head = outline.Polygon(6, f.room)
	}
	if deep := c.deep(k, 0); deep > f.seat {
		l.slab(plate(head, circleAt(r2.Vec{}, f.thread.hole)).Section(), f.seat, deep, 1, -1)
	}
	l.slab(outline.Section{Area: o.Outer.Length() * f.relief / 2, Centroid: section.Centroid}, 0, f.relief, 1, -1)
	b := l.body()
	shift := r2.Vec{X: -p.X.Z / p.Z.Z * section.Iyy / b.Volume, Y: -p.Y.Z / p.Z.Z * section.Ixx / b.Volume}
	b.Centre.X += shift.X
	b.Centre.Y += shift.Y
	b.Centre.Z -= (p.X.Z*shift.X + p.Y.Z*shift.Y) / p.Z.Z / 2
	return b.at(p)
}

// allPads is what the pads are to the frame, taken together: the rectangle around them.
func (c *legs) allPads(pads []FootPlate, material string) FootPlate {
	all := pads[0]
	box := pads[0].Outline.Outer.Box()
	all.Screws, all.Body = nil, Body{}
	var holes []outline.Loop
	for _, p := range pads {
		b := p.Outline.Outer.Box()
		box.Min, box.Max = r2.Vec{X: min(box.Min.X, b.Min.X), Y: min(box.Min.Y, b.Min.Y)}, r2.Vec{X: max(box.Max.X, b.Max.X), Y: max(box.Max.Y, b.Max.Y)}
		all.Screws = append(all.Screws, p.Screws...)
		all.Body = together(all.Body, p.Body)
		holes = append(holes, circleAt(p.Screws[0], c.foot.thread.hole))
	}
	around := outline.RoundedRectangle(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y, padCorner).Translate((box.Min.X+box.Max.X)/2, (box.Min.Y+box.Max.Y)/2)
	all.Outline, all.Hub, all.Material = plate(around, holes...), plate(around), material
	return all
}

// padPart is a pad with its socket.
func (c *legs) padPart(name string, like []leg, material string) Part {
	k := like[0]
	p := Part{Name: name, Material: material, build: func() solid.Node { return c.padSolid(k) }}
	from, to := c.ends(k, true)
	p.Body = together(c.padPlate(k, material).Body, c.socketBody(k, from, to, true))
	p.Places = c.places(like, c.padPose)
	s, _ := c.padSection(k)
	pose := c.padPose(k)
	var hull []r3.Vec
	for _, v := range c.padPlan(k) {
		low := pose.Apply(v)
		hull = append(hull, low, r3.Add(low, r3.Scale((c.base-low.Z)/pose.Z.Z, pose.Z)))
	}
	mouth := c.legPose(k, to)
	for _, v := range loopOf(c.socket()).Flatten(0.005) {
		hull = append(hull, mouth.Apply(r3.Vec{X: v.X, Y: v.Y}))
	}
	p.Printing = Printing{Footprint: r2.Vec{X: s.X, Y: s.Y}, Contact: loopOf(s).Area(), TipArea: loopOf(c.socket()).Area() - c.wide*c.across, Wall: c.wall}
	turn := mesh.Turn(r3.Vec{Z: 1}, -k.out)
	if c.foot.wedge {
		turn = inverse(pose)
	}
	p = c.onBed(p, "upright", turn, hull)
	p.Printing.Slenderness = p.Printing.Height / min(s.X, s.Y)
	p.Notes = []string{fmt.Sprintf("Its socket leans by %.0f degrees towards the tray.", k.lean*180/math.Pi)}
	if c.foot.wedge {
		p.Notes = append(p.Notes, fmt.Sprintf("A wedge of its own: it stands on the screw %s, its top level.", bearing(k.hole)))
	}
	switch {
	case c.foot.nut:
		p.Notes = append(p.Notes, "Press a nut into its pocket before it goes on the frame.")
	case c.foot.insert:
		p.Notes = append(p.Notes, insertNote("from above"))
	}
	return c.bedNote(p)
}

func (c *legs) padSolid(k leg) solid.Node {
	s, middle := c.padSection(k)
	f, pose := c.foot, c.padPose(k)
	top := c.base
	if f.wedge {
		top = 1
		for _, v := range c.padPlan(k) {
			top = max(top, (c.base-pose.Apply(v).Z)/pose.Z.Z+1)
		}
	}
	pad := solid.Place(solid.Move(relieved(s, top, f.relief), r3.Vec{X: middle}), pose)
	if f.wedge {
		pad = solid.Intersection(pad, solid.Named("pad's top", solid.HalfSpace(r3.Vec{Z: c.base}, r3.Vec{Z: 1})))
	}
	n := solid.Union(solid.Named("pad", pad), c.socketSolid(k, true))
	deep := c.deep(k, 0)
	cut := []solid.Node{c.legRoom(k, true), hole("pad screw", pose.Apply(r3.Vec{Z: deep / 2}), pose.Z, f.thread.hole, deep+2)}
	well := func(name string, n solid.Node) {
		cut = append(cut, solid.Named(name, solid.Place(solid.Move(n, r3.Vec{Z: f.seat}), pose)))
	}
	high := deep - f.seat + 1
	switch {
	case f.nut:
		well("nut pocket", solid.HexPocket(f.room, high))
	case f.insert:
		well("insert's bore", solid.Cylinder(f.room/2, high))
	case f.sunk || f.wedge:
		well("head room", solid.Cylinder(f.room/2, high))
	}
	return solid.Difference(n, cut...)
}

// padScrews hold the pads.
func (c *legs) padScrews() ScrewUse {
	u := c.footScrews()
	u.At = nil
	for _, k := range c.all {
		u.At = append(u.At, c.padPose(k).Apply(r3.Vec{Z: c.foot.headLevel()}))
	}
	return u
}
