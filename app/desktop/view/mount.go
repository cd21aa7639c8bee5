package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	hw "mastwright/materials/hardware"
	"mastwright/mesh"
	raster "mastwright/mesh/view"
)

// addMount adds the printed parts, their screws and the receiver: nothing floats where the parts are not meshed yet.
func (m *Model) addMount(printed []Part) {
	for _, p := range printed {
		places := p.Places
		if len(places) == 0 {
			places = make([]mesh.Pose, 1)
		}
		for _, at := range places {
			m.add(body{mesh: p.Mesh, pose: at, role: look.Print, path: p.Name, mount: true, moves: true})
		}
	}
	if !m.built() || len(printed) == 0 {
		return
	}
	m.addScrews()
	m.addReceiver()
}

func (m *Model) addScrews() {
	for _, use := range m.assembly.Screws {
		head, err := use.Size.Head(hw.Socket)
		if err != nil {
			continue
		}
		for _, at := range use.At {
			top := r3.Sub(at, r3.Scale(head.Height.Millimetres(), use.Axis))
			m.add(body{mesh: raster.Cylinder(at, top, head.Diameter.Millimetres()/2), role: look.Block, path: "mast", screw: true, moves: use.For != "foot"})
		}
	}
}

// addReceiver adds the receiver's body on its seat, the tape under it, and the arrow it carries.
func (m *Model) addReceiver() {
	r := m.doc.Receiver
	size, high := r.Outline(), r.Size.Z.Millimetres()
	x, y := size.X.Millimetres(), size.Y.Millimetres()
	if x <= 0 || y <= 0 || high <= 0 {
		return
	}
	bottom := m.assembly.Seat
	if tape := r.Tape; r.Fixing == "tape" && tape.Size.X > 0 {
		pad, thick := tape.Size.Square(), tape.Thickness.Millimetres()
		m.add(body{mesh: prism(rounded(r2.Vec{}, pad.X.Millimetres(), pad.Y.Millimetres(), 0), bottom.Z, bottom.Z+thick), role: look.Frame, moves: true})
		bottom.Z += thick
	}
	top := bottom.Z + high
	if r.Shape == "round" {
		m.add(body{mesh: raster.Cylinder(bottom, r3.Vec{X: bottom.X, Y: bottom.Y, Z: top}, x/2), role: look.Block, path: "receiver", moves: true})
	} else {
		m.add(body{mesh: prism(rounded(r2.Vec{}, x, y, min(2.5, x/6, y/6)), bottom.Z, top), role: look.Block, path: "receiver", moves: true})
	}
	turn := map[string]float64{"left": math.Pi / 2, "rear": math.Pi, "right": -math.Pi / 2}[r.Arrow]
	along := 0.56 * min(x, y)
	m.add(body{mesh: arrow(along, 0.5*along, top+0.02, top+0.05), pose: mesh.Turn(r3.Vec{Z: 1}, turn), role: look.Print, path: "receiver", moves: true})
}
