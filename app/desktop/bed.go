package desktop

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/mesh"
	"mastwright/mesh/layout"
	"mastwright/mesh/view"
)

// bedPart is a part of the sheet's drawing.
type bedPart struct {
	number int
	name   string
	mesh   *mesh.Mesh
	copies int    // to print
	said   string // under it in the elevation: "24.0 high"
	cut    bool   // it is not printed: it stands in the elevation alone
	at     r3.Vec // where its box begins, mm
	box    r3.Vec
}

// bedSheet is a drawing of the parts as they are made: the bed from above with its size and everything that is printed, and below it on the
// same scale one of each part seen from the side, with layers as hatching and numbers in circles; what is cut stands there too.
type bedSheet struct {
	widget.BaseWidget

	bed     r3.Vec // mm
	layer   float64
	parts   []bedPart // one of each
	laid    []bedPart // every copy on the first bed
	beds    int
	why     string // there is nothing to draw
	raster  *canvas.Raster
	drawer  view.Renderer
	picture pen.Raster
}

func newBedSheet() *bedSheet {
	b := &bedSheet{}
	b.raster = canvas.NewRaster(b.paint)
	b.ExtendBaseWidget(b)
	return b
}

// set lays parts out on a bed as their file does; layer is the height of a layer in mm.
func (b *bedSheet) set(bed r3.Vec, layer float64, parts []bedPart, why string) {
	b.bed, b.layer, b.parts, b.why = bed, layer, nil, why
	for _, p := range parts {
		p.mesh, p.box = cornered(p.mesh)
		b.parts = append(b.parts, p)
	}
	b.laid, b.beds = laidOut(bed, b.parts)
	b.raster.Refresh()
}

// cornered moves a mesh so that its box begins at the origin.
func cornered(m *mesh.Mesh) (*mesh.Mesh, r3.Vec) {
	box := m.Box()
	return m.Moved(mesh.Move(r3.Scale(-1, box.Min))), r3.Sub(box.Max, box.Min)
}

// facing turns a plate so that it is seen from its broad side.
func facing(m *mesh.Mesh) *mesh.Mesh {
	box := m.Box()
	size := r3.Sub(box.Max, box.Min)
	switch {
	case size.X < size.Y && size.X < size.Z:
		return m.Moved(mesh.Turn(r3.Vec{Z: 1}, math.Pi/2))
	case size.Z < size.Y:
		return m.Moved(mesh.Turn(r3.Vec{X: 1}, math.Pi/2))
	}
	return m
}

// laidOut lays every copy of what is printed out on beds; it returns those of the first and how many there are. What fits on no bed is left
// out: the check of the printing says so.
func laidOut(bed r3.Vec, parts []bedPart) (first []bedPart, beds int) {
	footprints := make([]layout.Footprint, len(parts))
	for i, p := range parts {
		if !p.cut && p.box.X <= bed.X && p.box.Y <= bed.Y {
			footprints[i] = layout.Footprint{Name: p.name, X: p.box.X, Y: p.box.Y, Copies: max(1, p.copies)}
		}
	}
	plan, err := layout.Beds(footprints, r2.Vec{X: bed.X, Y: bed.Y}, layout.Options{})
	if err != nil || len(plan) == 0 {
		return nil, 0
	}
	for _, place := range plan[0] {
		p := parts[place.Footprint]
		if place.Turned {
			p.mesh, p.box = cornered(p.mesh.Moved(mesh.Turn(r3.Vec{Z: 1}, math.Pi/2)))
		}
		p.at = r3.Vec{X: place.At.X, Y: place.At.Y}
		p.mesh = p.mesh.Moved(mesh.Move(p.at))
		first = append(first, p)
	}
	return first, len(plan)
}

// CreateRenderer is the toolkit's.
func (b *bedSheet) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.raster) }

// MinSize is what can still be read.
func (b *bedSheet) MinSize() fyne.Size { return fyne.NewSize(160, 160) }

// The margins of the sheet in pixels at scale 1: beside the bed for its dimension, over it for the title, between plan and elevation.
const (
	sheetSide   = 56
	sheetTop    = 80
	sheetGap    = 44
	sheetBottom = 40
)

func (b *bedSheet) paint(width, height int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	scale := 1.0
	if w := float64(b.Size().Width); w > 0 {
		scale = float64(width) / w
	}
	b.picture.Image, b.picture.Scale = img, scale
	w, h := float64(width)/scale, float64(height)/scale
	p := &b.picture
	p.Area(pen.Box(pen.Rect{W: w, H: h}, 0), look.Color(look.Field))
	ink, quiet := look.Color(look.Ink), look.Color(look.Second)
	if len(b.parts) == 0 {
		for i, line := range look.Wrapped(b.why, look.Body, float32(max(100, w-2*sheetSide))) {
			p.Words(pen.Spot{X: w / 2, Y: h/2 + 16*float64(i)}, line, pen.Letters{Font: look.Body, Colour: quiet, Align: pen.Middle})
		}
		return img
	}
	highest := 0.0
	for _, part := range b.parts {
		highest = max(highest, part.box.Z)
	}
	k := min((w-2*sheetSide)/b.bed.X, (h-sheetTop-sheetGap-sheetBottom)/(b.bed.Y+highest)) // pixels per mm
	for b.rowWidth(k) > w-2*rowSide && k > 0.05 {
		k *= 0.95
	}
	if k <= 0 {
		return img
	}
	left := math.Round((w - k*b.bed.X) / 2)
	plan := pen.Rect{X: left, Y: sheetTop, W: k * b.bed.X, H: k * b.bed.Y}
	p.Words(pen.Spot{X: 14, Y: 24}, "Parts as they are made", pen.Letters{Font: look.Strong, Colour: ink})
	said := fmt.Sprintf("bed from above, one of each from the side; layers of %.3g mm", b.layer)
	if b.beds > 1 {
		said = fmt.Sprintf("bed 1 of %d from above, one of each from the side; layers of %.3g mm", b.beds, b.layer)
	}
	p.Words(pen.Spot{X: 14, Y: 42}, said, pen.Letters{Font: look.Caption, Colour: quiet})

	b.draw(img, scale, k, plan, b.laid, math.Pi/2, r3.Vec{X: b.bed.X / 2, Y: b.bed.Y / 2}, 0)
	edge := pen.Stroke{Width: 1.4, Colour: ink}
	p.Line([]pen.Spot{{X: plan.X, Y: plan.Y}, {X: plan.X + plan.W, Y: plan.Y}, {X: plan.X + plan.W, Y: plan.Y + plan.H},
		{X: plan.X, Y: plan.Y + plan.H}, {X: plan.X, Y: plan.Y}}, edge)
	b.across(plan.X, plan.X+plan.W, plan.Y-14, b.bed.X)
	b.upright(plan.Y, plan.Y+plan.H, plan.X+plan.W+16, b.bed.Y)
	for _, part := range b.laid {
		b.number(pen.Spot{X: plan.X + k*(part.at.X+part.box.X/2), Y: plan.Y + plan.H - k*(part.at.Y+part.box.Y/2)}, part.number)
	}

	ground := plan.Y + plan.H + sheetGap + k*highest
	x := math.Round((w - b.rowWidth(k)) / 2)
	from := x
	for _, part := range b.parts {
		slot := b.slot(k, part)
		at := pen.Rect{X: math.Round(x + (slot-k*part.box.X)/2), Y: ground - k*part.box.Z, W: k * part.box.X, H: k * part.box.Z}
		layer := b.layer
		if part.cut {
			layer = 0
		}
		b.draw(img, scale, k, at.Grown(partEdge), []bedPart{part}, 0, r3.Vec{X: part.box.X / 2, Z: part.box.Z / 2}, layer)
		b.number(pen.Spot{X: at.X + at.W/2, Y: at.Y + at.H/2}, part.number)
		p.Words(pen.Spot{X: x + slot/2, Y: ground + 18}, part.said, pen.Letters{Font: look.Caption, Colour: quiet, Align: pen.Middle})
		x += slot + rowGap
	}
	p.Line([]pen.Spot{{X: from, Y: ground}, {X: x - rowGap, Y: ground}}, edge)
	return img
}

// The elevation's margins at both sides, the gap between parts, and what their edges need round them, in pixels.
const rowSide, rowGap, partEdge = 14, 18, 3

// slot is how wide a part with its words stands in the elevation.
func (b *bedSheet) slot(k float64, part bedPart) float64 {
	return max(k*part.box.X, float64(look.Caption.Width(part.said))+1, 20)
}

// rowWidth is the width of the elevation.
func (b *bedSheet) rowWidth(k float64) float64 {
	width := rowGap * float64(len(b.parts)-1)
	for _, part := range b.parts {
		width += b.slot(k, part)
	}
	return width
}

// draw draws parts into a rectangle as lines on a flat tint, hatched by layers of a height where that is not 0.
func (b *bedSheet) draw(into *image.RGBA, scale, k float64, at pen.Rect, parts []bedPart, elevation float64, target r3.Vec, layer float64) {
	size := image.Pt(int(math.Ceil(at.W*scale)), int(math.Ceil(at.H*scale)))
	if size.X < 1 || size.Y < 1 {
		return
	}
	paper, ink := color.NRGBA{R: 0xFF, B: 0xFF, A: 0xFF}, color.NRGBA{A: 0xFF}
	scene := &view.Scene{Ground: view.Ground{Hidden: true}, Palette: view.Palette{Top: paper, Bottom: paper, Ink: ink, Print: look.Color(look.Print)}}
	for _, part := range parts {
		scene.Things = append(scene.Things, view.Thing{Surface: view.Prepare(part.mesh), Colour: color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}})
	}
	camera := view.Camera{Target: target, Azimuth: -math.Pi / 2, Elevation: elevation, Scale: k * scale, Size: size}
	lines := image.NewRGBA(image.Rectangle{Max: size})
	b.drawer.Draw(lines, scene, camera, view.Options{Scale: scale, Fine: true})
	flat := image.NewRGBA(image.Rectangle{Max: size})
	for i := range scene.Things {
		scene.Things[i].Ink = color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	}
	b.drawer.Draw(flat, scene, camera, view.Options{Scale: scale, Fine: true})
	shade := tones{paper: look.Color(look.Field), tint: look.Color(look.Panel), ink: look.Color(look.Ink), hatch: look.Color(look.Seam)}
	shade.every = hatchPitch(layer * k * scale)
	shade.blend(into, image.Pt(int(math.Round(at.X*scale)), int(math.Round(at.Y*scale))), lines, flat)
}

// hatchPitch is the distance of the hatch lines in pixels: of whole layers, four pixels at least.
func hatchPitch(layer float64) float64 {
	if layer <= 0 {
		return 0
	}
	return layer * math.Ceil(4/layer)
}

// tones turn a picture of white bodies on magenta paper, once with black edges and once with none, into a drawing.
type tones struct {
	paper, tint, ink, hatch color.NRGBA
	every                   float64
}

func (t tones) blend(into *image.RGBA, at image.Point, lines, flat *image.RGBA) {
	size := lines.Bounds().Size()
	for y := range size.Y {
		for x := range size.X {
			drawn, plain := lines.RGBAAt(x, y), flat.RGBAAt(x, y)
			ground := t.paper
			if 2*int(plain.G) > int(plain.R) { // paper has no green, a body as much as red
				ground = t.tint
				if t.every > 0 && math.Mod(float64(size.Y-1-y), t.every) < 1 {
					ground = t.hatch
				}
			}
			// red is what the edges take away: paper and bodies have some everywhere
			into.SetRGBA(at.X+x, at.Y+y, mixed(t.ink, ground, min(1, float64(drawn.R)/max(1, float64(plain.R)))))
		}
	}
}

func mixed(a, b color.NRGBA, part float64) color.RGBA {
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + (float64(b)-float64(a))*part)) }
	return color.RGBA{R: mix(a.R, b.R), G: mix(a.G, b.G), B: mix(a.B, b.B), A: 0xFF}
}

// number is a part's number in a circle.
func (b *bedSheet) number(at pen.Spot, n int) {
	b.picture.Area(pen.Disc(at, 9), look.Color(look.Ink))
	b.picture.Area(pen.Disc(at, 7.8), look.Color(look.Field))
	b.picture.Words(at.Plus(0, 4.2), fmt.Sprint(n), pen.Letters{Font: look.Caption, Colour: look.Color(look.Ink), Align: pen.Middle})
}

// across is a level dimension line with its figure over the middle.
func (b *bedSheet) across(from, to, y, mm float64) {
	s := pen.Stroke{Width: 1, Colour: look.Color(look.Second)}
	b.picture.Line([]pen.Spot{{X: from, Y: y}, {X: to, Y: y}}, s)
	b.arrow(pen.Spot{X: from, Y: y}, 1, 0)
	b.arrow(pen.Spot{X: to, Y: y}, -1, 0)
	pen.Beside(&b.picture, pen.Spot{X: (from + to) / 2, Y: y + 4}, fmt.Sprintf("%.4g mm", mm),
		pen.Letters{Font: look.Caption, Colour: look.Color(look.Second), Align: pen.Middle}, look.Color(look.Field))
}

// upright is a plumb dimension line with its figure in the middle.
func (b *bedSheet) upright(from, to, x, mm float64) {
	s := pen.Stroke{Width: 1, Colour: look.Color(look.Second)}
	b.picture.Line([]pen.Spot{{X: x, Y: from}, {X: x, Y: to}}, s)
	b.arrow(pen.Spot{X: x, Y: from}, 0, 1)
	b.arrow(pen.Spot{X: x, Y: to}, 0, -1)
	pen.Beside(&b.picture, pen.Spot{X: x, Y: (from+to)/2 + 4}, fmt.Sprintf("%.4g", mm),
		pen.Letters{Font: look.Caption, Colour: look.Color(look.Second), Align: pen.Middle}, look.Color(look.Field))
}

// arrow is a filled arrowhead whose tip is at a spot and which opens in a direction.
func (b *bedSheet) arrow(tip pen.Spot, dx, dy float64) {
	const long, half = 8, 2.5
	b.picture.Area([]pen.Spot{tip, tip.Plus(long*dx-half*dy, long*dy+half*dx), tip.Plus(long*dx+half*dy, long*dy-half*dx)}, look.Color(look.Second))
}
