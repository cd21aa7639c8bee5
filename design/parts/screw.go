package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/units"
	"mastwright/materials/hardware"
)

// ScrewUse is a group of equal screws.
type ScrewUse struct {
	For      string // "foot", "receiver", "foot joint", "tray joint"
	Size     hardware.Size
	Head     hardware.HeadForm
	Material string // of the screw
	Count    int
	At       []r3.Vec // middle of each head's underside
	Axis     r3.Vec   // from the head to the tip

	Hole       float64      // mm, clearance hole as printed
	Pilot      float64      // mm, hole in the mast's wall in which the screw cuts its thread; 0 where there is none
	Grip       float64      // mm from the head's seat to the far face of the printed part
	Through    float64      // mm of what is clamped besides: the frame's plate, the receiver's lug, washers
	Engagement float64      // mm of thread that holds it
	HeadRoom   float64      // mm, diameter free for the head and its washer
	Nut        bool         // a nut holds it
	Pocket     bool         // the nut sits in a pocket of the part
	Insert     bool         // a heat-set insert in the part holds it
	Washers    int          // for each screw: under its head, and where there are two under its nut
	Length     units.Length // shortest stock length; 0 when none is long enough
}

// thread is a screw's size with the holes the part needs for it, in mm.
type thread struct {
	size                hardware.Size
	diameter            float64
	hole                float64 // as printed
	headDiameter        float64
	headHeight          float64
	nutFlats, nutHeight float64
	nutEngagement       float64
	washer              hardware.Washer
	insert              hardware.Insert
}

// Room around heads and nuts, mm on the diameter and across the flats. Common practice, no source.
const (
	headRoom = 1.0
	nutRoom  = 0.2
)

// threadOf looks a screw up; the zero thread, after a problem, when there is none such.
func (c *mount) threadOf(path, name string) thread {
	if name == "" {
		c.refuse(path, "the screw's size is not answered; write one of M2, M2.5, M3, M4")
		return thread{}
	}
	size, err := hardware.ParseSize(name)
	if err != nil {
		c.refuse(path, "%v", err)
		return thread{}
	}
	hole, err := size.ClearanceHole(hardware.Fit(c.doc.Foot.Fit))
	if err != nil {
		c.refuse("foot.fit", "%v", err)
	}
	head, err := size.Head(hardware.Socket)
	if err != nil {
		c.refuse(path, "%v", err)
	}
	t := thread{
		size: size, diameter: size.Diameter().Millimetres(),
		hole:         hole.Millimetres() + c.doc.Print.HoleAdd.Millimetres(),
		headDiameter: head.Diameter.Millimetres(), headHeight: head.Height.Millimetres(),
		nutFlats: size.Nut().AcrossFlats.Millimetres(), nutHeight: size.Nut().Height.Millimetres(),
		washer: size.Washer(), insert: size.Insert(),
	}
	if e, err := size.Engagement(hardware.InNut); err == nil {
		t.nutEngagement = e.Millimetres()
	}
	if !(t.hole > 0) || !finite(t.hole) {
		c.refuse("print.hole_add", "%g mm leaves no hole for an %s screw; use more", c.doc.Print.HoleAdd.Millimetres(), name)
	}
	return t
}

func stock(grip, engagement float64) units.Length {
	l, err := hardware.StockLength(units.Millimetres(grip), units.Millimetres(engagement))
	if err != nil {
		return 0
	}
	return l
}

// screws lists what holds the mount together and down.
func (c *column) screws() []ScrewUse {
	all := []ScrewUse{c.footScrews()}
	if c.apart {
		for _, k := range []collar{c.footCollar, c.trayCollar} {
			all = append(all, c.jointScrew(k, c.trayScrews))
		}
	}
	return append(all, c.receiverScrews()...)
}

// footScrews are those that hold the foot on the frame.
func (c *mount) footScrews() ScrewUse {
	f := c.foot
	u := ScrewUse{
		For: "foot", Size: f.thread.size, Head: hardware.Socket, Material: f.screws, Count: len(f.spots), Axis: r3.Scale(-1, f.pose.Z),
		Hole: f.thread.hole, Grip: f.seat, Nut: !f.block && !f.insert, Pocket: f.nut, Insert: f.insert, HeadRoom: f.room, Engagement: f.thread.nutEngagement,
	}
	for _, s := range f.spots {
		u.At = append(u.At, f.pose.Apply(r3.Vec{X: s.X, Y: s.Y, Z: f.headLevel()}))
	}
	switch {
	case f.block:
		u.Engagement = f.thread.diameter
	case f.insert:
		u.Through, u.Engagement = f.under, f.thread.insert.Length.Millimetres()
	default:
		u.Through = f.under
	}
	if f.fromBelow() {
		u.Axis = f.pose.Z
	}
	u.washed(f.washers, 1, f.thread)
	u.Length = stock(u.Grip+u.Through, u.Engagement)
	return u
}

// receiverScrews are those that hold the receiver on the tray; none where it is held otherwise.
func (c *mount) receiverScrews() []ScrewUse {
	t := c.tray
	if len(t.spots) == 0 {
		return nil
	}
	head := hardware.Button
	if _, err := t.thread.size.Head(head); err != nil {
		head = hardware.Socket // button heads begin at M3
	}
	u := ScrewUse{
		For: "receiver", Size: t.thread.size, Head: head, Material: c.trayScrews, Count: len(t.spots), Axis: r3.Vec{Z: 1},
		Hole: t.thread.hole, Grip: t.thickness - t.held.deep, Through: t.lug, Engagement: t.thread.nutEngagement, Nut: !t.held.insert, Pocket: t.held.hex, Insert: t.held.insert,
		HeadRoom: t.thread.headDiameter + headRoom,
	}
	level := c.tip
	if t.held.deep > 0 { // the screw comes from above, its head on the receiver
		u.Axis, level = r3.Vec{Z: -1}, c.seat+t.lug
	}
	if t.held.insert {
		u.Engagement = t.thread.insert.Length.Millimetres()
	}
	u.washed(t.washers, 1, t.thread)
	for _, s := range t.spots {
		at := r3.Vec{X: s.X, Y: s.Y, Z: level}
		if t.washers {
			at = r3.Sub(at, r3.Scale(t.thread.washer.Thickness.Millimetres(), u.Axis))
		}
		u.At = append(u.At, at)
	}
	u.Length = stock(u.Grip+u.Through, u.Engagement)
	return []ScrewUse{u}
}

// washed puts washers on a group's screws, which are clamped with the rest.
func (u *ScrewUse) washed(fitted bool, each int, t thread) {
	if fitted {
		u.Washers, u.Through = each, u.Through+float64(each)*t.washer.Thickness.Millimetres()
		u.HeadRoom = max(u.HeadRoom, t.washer.Outside.Millimetres())
	}
}

// stocked refuses a screw that would have to be longer than shops keep.
func (c *mount) stocked(u ScrewUse, path, remedy string) {
	if u.Length == 0 && len(c.problems) == 0 {
		all := hardware.StockLengths()
		c.refuse(path, "%s puts %s of parts and thread before the %s screws, the longest in stock is %s; use %s",
			c.doc.Get(path), mm(u.Grip+u.Through+u.Engagement), u.For, all[len(all)-1], remedy)
	}
}

// lug is the thickness in mm of a receiver's ear under its screw where it is not answered. Judgement.
const lug = 2

// jointScrew goes through the collar's wall into the mast's, on the side away from the cable way.
func (c *column) jointScrew(k collar, material string) ScrewUse {
	s := c.outer(k.screw)
	half := s.X / 2
	if c.screwSide()%2 == 1 {
		half = s.Y / 2
	}
	sin, cos := math.Sincos(quarterTurns(c.screwSide()))
	out := r3.Vec{X: math.Round(cos), Y: math.Round(sin)}
	at := r3.Scale(half+play+k.wall, out)
	at.Z = k.screw
	u := ScrewUse{
		For: k.name + " joint", Size: c.joint.size, Head: hardware.Socket, Material: material, Count: 1, At: []r3.Vec{at}, Axis: r3.Scale(-1, out),
		Hole: c.joint.hole, Pilot: c.pilot(), Grip: k.wall + play, Engagement: c.wall, HeadRoom: math.Inf(1),
	}
	u.HeadRoom = c.joint.headDiameter + headRoom
	u.Length = stock(u.Grip, u.Engagement)
	return u
}

// screwSide is where the joints' screws go in: left, or front where the cable way is on the left or the right.
func (c *column) screwSide() int {
	if c.way.open && c.way.side%2 == 1 {
		return 0
	}
	return 1
}

// pilot is the hole for a thread cut in plastic: 0.85 of the thread's diameter. Common practice, no source.
func (c *column) pilot() float64 { return 0.85 * c.joint.diameter }
