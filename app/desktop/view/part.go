// Package view is the picture in the middle of the window: the mount on its frame, to be walked round, with what a check talks about
// drawn where it is.
//
// A Model is what is shown of one design; it is built away from the window's thread and does not change. A Picture is the widget that
// shows it. Lengths in space are in millimetres in the axes of the chosen place: origin in the middle of its holes on the mounting face, x
// forward, y left, z up.
package view

import (
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/mesh"
	raster "mastwright/mesh/view"
)

// Part is a part of the mount where it stands on the frame.
type Part struct {
	Name string
	Mesh *mesh.Mesh // in the axes of the place

	Places []mesh.Pose // where its copies stand, from where the mesh stands; nil for one that stands there
}

// Model is what the picture shows of one design.
type Model struct {
	doc      *design.Document
	result   review.Result
	assembly parts.Assembly // empty where the mount cannot be built
	place    design.Place

	bodies  []body
	circles []circle
	sheets  []sheet
	before  []sheet // of the model that was shown before, while this one is built
	mount   r3.Box  // what a fit shows
	ground  float64
}

// sheet is a plate of the frame.
type sheet struct {
	size        design.Rectangle
	thick, hole float64
	spots       []design.Spot
	mesh        *mesh.Mesh
}

// body is one thing of the picture.
type body struct {
	mesh    *mesh.Mesh
	surface *raster.Surface
	pose    mesh.Pose
	role    look.Role
	lead    polarity
	path    string // of the part of the document that is picked with it
	mount   bool   // printed: shown as a ghost when the face is asked about
	moves   bool   // swings with the mount
	screw   bool
}

// polarity is the trade's colour of a lead.
type polarity int

const (
	none polarity = iota
	red
	black
)

// circle is a level circle of a line.
type circle struct{ points []r3.Vec }

// Build makes a design ready to be shown. It is for the goroutine that reviewed the design. A zero result shows no overlays, no parts show
// the aircraft alone. Surfaces of an earlier model are used again where a mesh is the same.
func Build(doc *design.Document, result review.Result, printed []Part, before *Model) *Model {
	m := &Model{doc: doc.Clone(), result: result}
	m.place, _ = m.doc.PlaceChosen()
	if assembly, problems := parts.Build(m.doc); len(problems) == 0 {
		m.assembly = assembly
	}
	if before != nil {
		m.before = before.sheets
	}
	m.addAircraft()
	m.addMount(printed)
	m.before = nil
	m.prepare(before)
	m.measure()
	return m
}

// built reports whether there is a mount to show.
func (m *Model) built() bool { return len(m.assembly.Parts) > 0 }

// at moves a point from aircraft axes to those of the place.
func (m *Model) at(p design.Point) r3.Vec {
	o := m.place.At
	return r3.Vec{X: (p.X - o.X).Millimetres(), Y: (p.Y - o.Y).Millimetres(), Z: (p.Z - o.Z).Millimetres()}
}

// origin is the middle of the motors on the main plate.
func (m *Model) origin() r3.Vec { return m.at(design.Point{}) }

func (m *Model) add(b body) {
	if b.mesh != nil && len(b.mesh.Triangles) > 0 {
		m.bodies = append(m.bodies, b)
	}
}

func (m *Model) prepare(before *Model) {
	for i := range m.bodies {
		b := &m.bodies[i]
		if before != nil {
			for _, old := range before.bodies {
				if old.mesh == b.mesh {
					b.surface = old.surface
				}
			}
		}
		for _, copy := range m.bodies[:i] {
			if copy.mesh == b.mesh {
				b.surface = copy.surface
			}
		}
		if b.surface == nil {
			b.surface = raster.Prepare(b.mesh)
		}
	}
}

// emptyReach in mm is half of what is shown where there is nothing yet.
const emptyReach = 60

// measure finds what a fit shows: the mount, or the chosen place where there is none.
func (m *Model) measure() {
	var scene raster.Scene
	for _, b := range m.bodies {
		if b.moves {
			scene.Things = append(scene.Things, raster.Thing{Surface: b.surface, Pose: b.pose})
		}
	}
	if len(scene.Things) == 0 {
		scene = m.scene()
	}
	m.mount = scene.Box()
	if len(scene.Things) == 0 {
		m.mount = r3.Box{Min: r3.Vec{X: -emptyReach, Y: -emptyReach}, Max: r3.Vec{X: emptyReach, Y: emptyReach, Z: emptyReach}}
	}
	if size := m.place.PlateSize(); m.built() {
		x, y := 0.4*size.X.Millimetres(), 0.4*size.Y.Millimetres()
		m.mount.Min = r3.Vec{X: min(m.mount.Min.X, -x), Y: min(m.mount.Min.Y, -y), Z: m.mount.Min.Z}
		m.mount.Max = r3.Vec{X: max(m.mount.Max.X, x), Y: max(m.mount.Max.Y, y), Z: m.mount.Max.Z}
	}
}

// scene is everything there is, at rest.
func (m *Model) scene() raster.Scene {
	var scene raster.Scene
	for i := range m.bodies {
		scene.Things = append(scene.Things, raster.Thing{Surface: m.bodies[i].surface, Pose: m.bodies[i].pose})
	}
	return scene
}
