package view_test

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/view"
)

// ring is a level section of a loft: a rounded square.
type ring struct{ z, side, radius float64 }

// loft joins rounded squares, each corner drawn with so many pieces, and
// closes the ends.
func loft(pieces int, rings ...ring) *mesh.Mesh {
	m := &mesh.Mesh{}
	for _, r := range rings {
		for q := range 4 {
			for k := range pieces + 1 {
				a := math.Pi / 2 * (float64(q) + float64(k)/float64(pieces))
				s, c := math.Sincos(math.Pi / 4 * float64(2*q+1))
				reach := (r.side/2 - r.radius) * math.Sqrt2
				m.Vertices = append(m.Vertices, r3.Vec{
					X: reach*c + r.radius*math.Cos(a), Y: reach*s + r.radius*math.Sin(a), Z: r.z})
			}
		}
	}
	n := 4 * (pieces + 1)
	at := func(r, k int) int32 { return int32(r*n + k%n) }
	for r := range len(rings) - 1 {
		for k := range n {
			m.Triangles = append(m.Triangles,
				[3]int32{at(r, k), at(r, k+1), at(r+1, k+1)}, [3]int32{at(r, k), at(r+1, k+1), at(r+1, k)})
		}
	}
	for k := 1; k < n-1; k++ {
		m.Triangles = append(m.Triangles,
			[3]int32{at(0, 0), at(0, k+1), at(0, k)}, [3]int32{at(len(rings)-1, 0), at(len(rings)-1, k), at(len(rings)-1, k+1)})
	}
	return m
}

// ball is a sphere about the origin.
func ball(radius float64, steps int) *mesh.Mesh {
	m := &mesh.Mesh{Vertices: []r3.Vec{{Z: -radius}}}
	n := 2 * steps
	for i := 1; i < steps; i++ {
		sz, cz := math.Sincos(math.Pi * float64(i) / float64(steps))
		for k := range n {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			m.Vertices = append(m.Vertices, r3.Vec{X: radius * sz * c, Y: radius * sz * s, Z: -radius * cz})
		}
	}
	top := int32(len(m.Vertices))
	m.Vertices = append(m.Vertices, r3.Vec{Z: radius})
	at := func(i, k int) int32 { return int32(1 + (i-1)*n + k%n) }
	for k := range n {
		m.Triangles = append(m.Triangles, [3]int32{0, at(1, k+1), at(1, k)}, [3]int32{top, at(steps-1, k), at(steps-1, k+1)})
		for i := 1; i < steps-1; i++ {
			m.Triangles = append(m.Triangles,
				[3]int32{at(i, k), at(i, k+1), at(i+1, k+1)}, [3]int32{at(i, k), at(i+1, k+1), at(i+1, k)})
		}
	}
	return m
}

// mast is a foot with a filleted, tapered column and a tray, some 45 triangles
// a piece of its round corners.
func mast(pieces int) *mesh.Mesh {
	rings := []ring{{0, 44, 4}, {4, 44, 4}}
	for k := range pieces + 1 { // a fillet of radius 5
		s, c := math.Sincos(math.Pi / 2 * float64(k) / float64(pieces))
		rings = append(rings, ring{4 + 5*(1-c), 28 - 10*s, 7 - 5*s})
	}
	rings = append(rings, ring{92, 12, 2}, ring{92, 32, 3}, ring{96, 32, 3})
	return loft(pieces, rings...)
}

// frame is a mount on an airframe: mast, receiver, plates, standoffs, leads, a
// battery and a motor. pieces is how finely the mast is drawn.
func frame(p view.Palette, pieces int) *view.Scene {
	s := &view.Scene{Palette: p, Ground: view.Ground{Centre: r3.Vec{Z: -27}}}
	add := func(m *mesh.Mesh, c color.NRGBA, at r3.Vec) {
		s.Things = append(s.Things, view.Thing{Surface: view.Prepare(m), Colour: c, Pose: mesh.Move(at)})
	}
	add(mast(pieces), p.Print, r3.Vec{})
	add(loft(6, ring{0, 28, 2}, ring{9, 28, 2}), p.Body, r3.Vec{Z: 96})
	plate := loft(8, ring{0, 70, 12}, ring{3, 70, 12})
	add(plate, p.Frame, r3.Vec{Z: -3})
	add(plate, p.Frame, r3.Vec{Z: -27})
	for _, x := range []float64{-26, 26} {
		for _, y := range []float64{-26, 26} {
			add(view.Cylinder(r3.Vec{Z: -24}, r3.Vec{Z: -3}, 3), p.Body, r3.Vec{X: x, Y: y})
		}
	}
	lead := []r3.Vec{{X: -50, Y: -12, Z: 8}, {X: -38, Y: -26, Z: 14}, {X: 34, Y: -26, Z: 14}, {X: 52, Y: -6, Z: 10}}
	add(view.Wire(lead, 4), color.NRGBA{R: 0xB1, G: 0x3A, B: 0x31, A: 0xFF}, r3.Vec{Z: 12})
	add(view.Wire(lead, 4), color.NRGBA{R: 0x1E, G: 0x24, B: 0x26, A: 0xFF}, r3.Vec{})
	add(view.Box(r3.Box{Min: r3.Vec{X: 38, Y: -18}, Max: r3.Vec{X: 110, Y: 18, Z: 30}}), p.Frame, r3.Vec{})
	add(view.Cylinder(r3.Vec{Z: -27}, r3.Vec{Z: -6}, 14), p.Body, r3.Vec{X: -60, Y: 60})
	return s
}

// corner is a camera on the scene from the corner.
func corner(s *view.Scene, w, h int) view.Camera {
	return s.Fit(view.Camera{Size: image.Pt(w, h)}.From(view.Corner), float64(h)/20)
}

func draw(s *view.Scene, c view.Camera, o view.Options) *image.RGBA {
	dst := image.NewRGBA(image.Rectangle{Max: c.Size})
	var r view.Renderer
	r.Draw(dst, s, c, o)
	return dst
}

// plain is a scene of one thing on a white ground without a grid.
func plain(m *mesh.Mesh) *view.Scene {
	white := color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	return &view.Scene{
		Things:  []view.Thing{{Surface: view.Prepare(m), Colour: color.NRGBA{R: 200, G: 200, B: 200, A: 0xFF}}},
		Ground:  view.Ground{Hidden: true},
		Palette: view.Palette{Top: white, Bottom: white, Ink: color.NRGBA{A: 0xFF}},
	}
}

func box(x, y, z float64) *mesh.Mesh {
	return view.Box(r3.Box{Min: r3.Vec{X: -x / 2, Y: -y / 2, Z: -z / 2}, Max: r3.Vec{X: x / 2, Y: y / 2, Z: z / 2}})
}
