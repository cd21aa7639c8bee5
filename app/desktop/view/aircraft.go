package view

import (
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
	raster "mastwright/mesh/view"
)

// What the document does not say of an airframe is drawn plainly: a main plate, flat arms, round motors. Millimetres.
const (
	mainPlate   = 2.5
	armDepth    = 5.0
	supportWide = 5.5
)

// addAircraft adds what the mount stands on and among.
func (m *Model) addAircraft() {
	o := m.origin()
	m.ground = o.Z - mainPlate
	m.addMainPlate(o)
	for i, spot := range m.doc.MotorSpots() {
		m.addArm(i, o, m.at(design.Point{X: spot.X, Y: spot.Y}))
	}
	for i, place := range m.doc.Airframe.Places {
		m.addPlace(i, place)
	}
	for i, n := range m.doc.Airframe.Neighbours {
		half := r3.Scale(0.5, r3.Vec{X: n.Size.X.Millimetres(), Y: n.Size.Y.Millimetres(), Z: n.Size.Z.Millimetres()})
		if half.X <= 0 || half.Y <= 0 || half.Z <= 0 {
			continue
		}
		at := m.at(n.At)
		m.add(body{mesh: raster.Box(r3.Box{Min: r3.Sub(at, half), Max: r3.Add(at, half)}), role: look.Block, path: fmt.Sprintf("airframe.neighbours[%d]", i)})
	}
	for _, w := range m.result.Wires {
		path := ""
		for i, lead := range m.doc.Leads {
			if lead.Name == w.Lead {
				path = fmt.Sprintf("leads[%d]", i)
			}
		}
		m.add(body{mesh: raster.Wire(w.Red, w.Diameter), lead: red, path: path})
		m.add(body{mesh: raster.Wire(w.Black, w.Diameter), lead: black, path: path})
	}
}

func (m *Model) addMainPlate(o r3.Vec) {
	reach := 0.13 * m.doc.Airframe.MotorDiagonal.Millimetres()
	long, wide := reach, reach
	for _, place := range m.doc.Airframe.Places {
		for _, s := range place.PlateSupports() {
			at := turned(s, place.Turn.Radians())
			long = max(long, math.Abs(place.At.X.Millimetres()+at.X)+7)
			wide = max(wide, math.Abs(place.At.Y.Millimetres()+at.Y)+7)
		}
	}
	if long > 0 {
		m.add(body{mesh: prism(rounded(r2.Vec{X: o.X, Y: o.Y}, 2*long, 2*wide, 6), o.Z-mainPlate, o.Z), role: look.Frame})
	}
}

func (m *Model) addArm(i int, o, at r3.Vec) {
	size := m.doc.Motors.Propeller.Millimetres()
	reach := math.Hypot(at.X-o.X, at.Y-o.Y)
	if reach == 0 {
		return
	}
	top := o.Z + m.doc.Airframe.ArmHeight.Millimetres()
	m.add(body{mesh: bar(r2.Vec{X: o.X, Y: o.Y}, r2.Vec{X: at.X, Y: at.Y}, 0.09*reach, top-armDepth, top), role: look.Frame})
	m.ground = min(m.ground, top-armDepth)
	if size == 0 {
		return
	}
	disc := o.Z + m.doc.Motors.PropellerHeight.Millimetres()
	low, high := min(top, disc), max(top, disc)
	can := min(max(0.08*size, 7), 30)
	if high-low > 2 {
		m.add(body{mesh: raster.Cylinder(r3.Vec{X: at.X, Y: at.Y, Z: low}, r3.Vec{X: at.X, Y: at.Y, Z: high - 2}, can), role: look.Block})
		m.add(body{mesh: raster.Cylinder(r3.Vec{X: at.X, Y: at.Y, Z: high - 2}, r3.Vec{X: at.X, Y: at.Y, Z: high + 2}, can/4), role: look.Frame})
	}
	const sides = 96
	c := circle{points: make([]r3.Vec, sides+1)}
	for k := range c.points {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / sides)
		c.points[k] = r3.Vec{X: at.X + size/2*cos, Y: at.Y + size/2*sin, Z: disc}
	}
	m.circles = append(m.circles, c)
}

// addPlace adds a spot's plate with its holes, and what holds the plate.
func (m *Model) addPlace(i int, place design.Place) {
	spots, _, err := place.Holes.Centres()
	if err != nil {
		return
	}
	path := fmt.Sprintf("airframe.places[%d]", i)
	at, turn := m.at(place.At), place.Turn.Radians()
	thick := place.Plate.Thickness.Millimetres()
	if place.Plate.Backing == "block" {
		thick = max(thick, 6)
	}
	sheet := m.sheet(place, thick, spots)
	if sheet == nil {
		return
	}
	pose := mesh.Move(r3.Vec{Z: -thick}).Then(mesh.Turn(r3.Vec{Z: 1}, turn)).Then(m.lean(place)).Then(mesh.Move(at))
	m.add(body{mesh: sheet, pose: pose, role: look.Frame, path: path})
	floor := m.origin().Z
	for _, s := range place.PlateSupports() {
		foot := r3.Add(at, turned(s, turn))
		head := foot
		head.Z -= thick
		foot.Z = floor
		if head.Z-foot.Z > 2 {
			m.add(body{mesh: raster.Cylinder(foot, head, supportWide/2), role: look.Block, path: path})
		}
	}
}

// sheet is a place's plate with its holes, lying under its face; the same mesh as before where the plate is the same.
func (m *Model) sheet(place design.Place, thick float64, spots []design.Spot) *mesh.Mesh {
	s := sheet{size: place.PlateSize(), thick: thick, hole: max(place.Holes.Diameter.Millimetres(), 1), spots: spots}
	for _, old := range m.before {
		if old.size == s.size && old.thick == s.thick && old.hole == s.hole && slices.Equal(old.spots, s.spots) {
			m.sheets = append(m.sheets, old)
			return old.mesh
		}
	}
	x, y := s.size.X.Millimetres(), s.size.Y.Millimetres()
	holes := make([]outline.Loop, len(spots))
	for k, spot := range spots {
		holes[k] = outline.Circle(s.hole/2).Translate(spot.X.Millimetres(), spot.Y.Millimetres())
	}
	plate := outline.Plate(outline.RoundedRectangle(x, y, min(4, x/4, y/4)), holes...)
	var err error
	if s.mesh, _, err = solid.Polygonise(context.Background(), solid.Extrude(thick, plate), solid.Options{Tolerance: 0.1}); err != nil {
		return nil
	}
	m.sheets = append(m.sheets, s)
	return s.mesh
}

// lean is how a place's face lies to the mount's upright: it slopes only under a foot that is made level.
func (m *Model) lean(place design.Place) mesh.Pose {
	if m.doc.Foot.Wedge != "level" {
		return mesh.Move(r3.Vec{})
	}
	normal := r3.Unit(r3.Vec{X: math.Tan(place.SlopeForward.Radians()), Y: math.Tan(place.SlopeLeft.Radians()), Z: 1})
	return mesh.Turn(r3.Cross(r3.Vec{Z: 1}, normal), math.Acos(min(normal.Z, 1)))
}

func turned(s design.Spot, angle float64) r3.Vec {
	sin, cos := math.Sincos(angle)
	x, y := s.X.Millimetres(), s.Y.Millimetres()
	return r3.Vec{X: cos*x - sin*y, Y: sin*x + cos*y}
}
