package sheet

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/materials/hardware"
	"mastwright/mesh"
	"mastwright/mesh/view"
)

// density is how many pixels a picture has for each mm of paper: 254 an inch.
const density = 10

// palette is the picture's colours on paper.
func palette() view.Palette {
	p := view.Light()
	white := p.Print
	white.R, white.G, white.B, white.A = 0xFF, 0xFF, 0xFF, 0xFF
	p.Top, p.Bottom = white, white
	p.Grid.R, p.Grid.G, p.Grid.B = 0xC8, 0xCF, 0xC9
	p.Frame.R, p.Frame.G, p.Frame.B = 0x9A, 0xA3, 0x9F
	p.Body.R, p.Body.G, p.Body.B = 0xC4, 0xCC, 0xC8
	return p
}

// scene is an empty picture on white.
func scene() *view.Scene { return &view.Scene{Palette: palette(), Ground: view.Ground{Hidden: true}} }

// still moves nothing.
func still(part, place int) r3.Vec { return r3.Vec{} }

// stand puts the parts into a scene, each in every place that it has in the mount and moved by a vector.
func (b *builder) stand(s *view.Scene, moved func(part, place int) r3.Vec) {
	for i, m := range b.meshes {
		surface := view.Prepare(m)
		for k, at := range b.places(i) {
			s.Things = append(s.Things, view.Thing{Surface: surface, Colour: b.colour(s.Palette, i), Pose: at.Then(mesh.Move(moved(i, k)))})
		}
	}
}

// places are where a part stands in the mount.
func (b *builder) places(part int) []mesh.Pose {
	if at := b.assembly.Parts[part].Places; len(at) > 0 {
		return at
	}
	return []mesh.Pose{mesh.Move(r3.Vec{})}
}

// colour is a part's: what is cut is darker than what is printed.
func (b *builder) colour(p view.Palette, part int) color.NRGBA {
	if b.assembly.Parts[part].Making == parts.Printed {
		return p.Print
	}
	return color.NRGBA{R: 0x8B, G: 0x95, B: 0x9B, A: 0xFF}
}

// receiver puts the receiver into a scene with the arrow on its lid.
func (b *builder) receiver(s *view.Scene, moved r3.Vec) {
	size, seat := b.Doc.Receiver.Size, r3.Add(b.assembly.Seat, moved)
	if b.Doc.Receiver.Fixing == "tape" {
		seat.Z += b.Doc.Receiver.Tape.Thickness.Millimetres()
	}
	x, y, z := size.X.Millimetres(), size.Y.Millimetres(), size.Z.Millimetres()
	if b.Doc.Receiver.Shape == "round" {
		y = x
	}
	if !(x > 0 && y > 0 && z > 0) {
		return
	}
	body := view.Box(r3.Box{Min: r3.Add(seat, r3.Vec{X: -x / 2, Y: -y / 2}), Max: r3.Add(seat, r3.Vec{X: x / 2, Y: y / 2, Z: z})})
	if b.Doc.Receiver.Shape == "round" {
		body = view.Cylinder(seat, r3.Add(seat, r3.Vec{Z: z}), x/2)
	}
	s.Things = append(s.Things, view.Thing{Surface: view.Prepare(body), Colour: s.Palette.Body})
	sin, cos := math.Sincos(arrowTurn(b.Doc) * math.Pi / 180)
	at := func(forward, left float64) r3.Vec {
		reach := min(x, y) * 0.32
		return r3.Add(seat, r3.Vec{X: reach * (cos*forward - sin*left), Y: reach * (sin*forward + cos*left), Z: z + 0.05})
	}
	s.Lines = append(s.Lines, view.Line{
		Points: []r3.Vec{at(-1, 0), at(1, 0), at(0.45, 0.45), at(1, 0), at(0.45, -0.45)}, Width: 2.2, Colour: s.Palette.Ink,
	})
}

// arrowTurn is how far to the left of the aircraft's nose the receiver's arrow points, in degrees.
func arrowTurn(doc *design.Document) float64 {
	return map[string]float64{"forward": 0, "left": 90, "rear": 180, "right": -90}[doc.Receiver.Arrow]
}

// screws puts the screws of a group into a scene, each backed out along its axis by a distance in mm, and returns the middle of the
// nearest one's head.
func screws(s *view.Scene, u parts.ScrewUse, out float64, moved r3.Vec) r3.Vec {
	head, err := u.Size.Head(u.Head)
	if err != nil {
		head, _ = u.Size.Head(hardware.Socket)
	}
	radius, high := head.Diameter.Millimetres()/2, head.Height.Millimetres()
	long := u.Length.Millimetres()
	if long <= 0 {
		long = u.Grip + u.Through + u.Engagement
	}
	var shown r3.Vec
	for i, at := range u.At {
		seat := r3.Add(r3.Add(at, moved), r3.Scale(-out, u.Axis))
		top := r3.Add(seat, r3.Scale(-high, u.Axis))
		for _, m := range []*mesh.Mesh{
			view.Cylinder(seat, top, radius),
			view.Cylinder(r3.Add(seat, r3.Scale(long, u.Axis)), seat, u.Size.Diameter().Millimetres()/2),
		} {
			s.Things = append(s.Things, view.Thing{Surface: view.Prepare(m), Colour: s.Palette.Body})
		}
		if i == nearest(u) {
			shown = r3.Scale(0.5, r3.Add(seat, top))
		}
	}
	return shown
}

// nearest is the screw of a group that stands nearest to who looks from the front right.
func nearest(u parts.ScrewUse) int {
	best := 0
	for i, at := range u.At {
		if at.X-at.Y > u.At[best].X-u.At[best].Y+1e-6 {
			best = i
		}
	}
	return best
}

// nuts puts the nuts of a group into a scene, away from the screws' tips by a distance in mm, and returns the middle of the nearest.
func nuts(s *view.Scene, u parts.ScrewUse, away float64, moved r3.Vec) r3.Vec {
	n := u.Size.Nut()
	high := n.Height.Millimetres()
	var shown r3.Vec
	for i, at := range u.At {
		near := r3.Add(r3.Add(at, moved), r3.Scale(u.Grip+u.Through+away, u.Axis))
		body := prism(near, r3.Scale(high, u.Axis), n.AcrossCorners().Millimetres()/2)
		s.Things = append(s.Things, view.Thing{Surface: view.Prepare(body), Colour: s.Palette.Body})
		if i == nearest(u) {
			shown = r3.Add(near, r3.Scale(high/2, u.Axis))
		}
	}
	return shown
}

// prism is a hexagon prism that stands on a point.
func prism(foot, along r3.Vec, radius float64) *mesh.Mesh {
	side := r3.Unit(r3.Cross(along, r3.Vec{X: 0.3, Y: 0.9, Z: 0.2}))
	other := r3.Unit(r3.Cross(along, side))
	m := &mesh.Mesh{Vertices: []r3.Vec{foot, r3.Add(foot, along)}}
	for i := range int32(6) {
		sin, cos := math.Sincos(float64(i) * math.Pi / 3)
		rim := r3.Add(foot, r3.Add(r3.Scale(radius*cos, side), r3.Scale(radius*sin, other)))
		m.Vertices = append(m.Vertices, rim, r3.Add(rim, along))
		a, b := 2+2*i, 2+2*((i+1)%6)
		m.Triangles = append(m.Triangles, [3]int32{0, b, a}, [3]int32{1, a + 1, b + 1}, [3]int32{a, b, b + 1}, [3]int32{a, b + 1, a + 1})
	}
	return m
}

// shaded draws a scene over a box of paper and returns where a point of space lies in it, in mm of paper.
func shaded(p *draft.Pen, s *view.Scene, c view.Camera, x, y float64) func(r3.Vec) paper.Point {
	img := image.NewRGBA(image.Rectangle{Max: c.Size})
	var r view.Renderer
	r.Draw(img, s, c, view.Options{Scale: density * 0.2, Fine: true})
	w, h := float64(c.Size.X)/density, float64(c.Size.Y)/density
	p.Picture(img, x, y, w, h)
	return func(v r3.Vec) paper.Point {
		at := c.Project(v)
		return paper.Point{X: x + at.X/density, Y: y + at.Y/density}
	}
}

// pixels is the size of a picture that covers so many mm of paper.
func pixels(w, h float64) image.Point {
	return image.Pt(int(math.Round(w*density)), int(math.Round(h*density)))
}
