package view

import (
	"image"
	"image/color"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	raster "mastwright/mesh/view"
)

// shown is what a picture shows.
type shown struct {
	model, before *Model
	focus         string // path of the field with the focus
	picked        string // path of the part that is picked
	overlays      overlays
	mode          int
	bare          bool    // the mount only as a ghost
	still         bool    // nothing swings: both ends as outlines
	swing         float64 // where the mode shape stands, -1 to 1
}

// frame draws one picture at a time. It keeps what it can from one to the next.
type frame struct {
	shown
	camera raster.Camera
	scale  float64 // pixels per pixel at scale 1
	fine   bool
	taken  []pen.Rect // where no label may stand
	word   pen.Rect   // a word of the widget's that needs a plate behind it

	colours  colours
	renderer raster.Renderer
	scene    raster.Scene
	pen      pen.Raster
	shapes   shapes
	stress   stressBand
	swings   swingCurve
	forward  pen.Lettering
	left     pen.Lettering
}

func newFrame() *frame {
	return &frame{forward: pen.NewLettering("forward", look.Strong), left: pen.NewLettering("left", look.Strong)}
}

// draw fills an image with the picture.
func (f *frame) draw(dst *image.RGBA) {
	f.camera.Size = dst.Rect.Size()
	f.pen.Image, f.pen.Scale = dst, f.scale
	f.compose()
	f.renderer.Draw(dst, &f.scene, f.camera, raster.Options{Scale: f.scale, Fine: f.fine})
	if f.model == nil {
		return
	}
	f.pen.Area(pen.Box(f.word, 3), f.colours.plate())
	f.writeDirections()
	f.sayMissing()
	if f.showsFace() {
		f.numberHoles()
	}
	if f.overlays[Stress] {
		f.drawStress()
	}
	if f.overlays[TipOver] {
		f.drawTipOver()
	}
	if f.overlays[Heading] {
		f.drawHeading()
	}
	if f.overlays[Shape] {
		f.captionShape()
	}
	f.drawDimension()
}

// sayMissing says why there is no mount: the picture is never blank without a word.
func (f *frame) sayMissing() {
	m := f.model
	var text string
	switch {
	case len(m.bodies) == 0:
		text = "Nothing is measured yet: begin with the frame's holes"
	case !m.built():
		text = "The mount cannot be built yet: this is the aircraft alone"
	default:
		return
	}
	width, _ := f.size()
	f.label(pen.Spot{X: width / 2, Y: 64}, f.shortened(text, width-32), pen.Letters{Font: look.Caption, Colour: f.colours.of(look.Ink), Align: pen.Middle})
}

// shortened leaves out the second half of a sentence where there is little room.
func (f *frame) shortened(text string, width float64) string {
	if before, _, ok := strings.Cut(text, ":"); ok && f.pen.Width(text, look.Caption) > width {
		return before
	}
	return text
}

// showsFace reports whether the mount steps back for the frame's face.
func (f *frame) showsFace() bool {
	return f.bare || strings.HasPrefix(f.focus, "airframe.places")
}

// compose lists the things of the scene.
func (f *frame) compose() {
	f.scene.Palette = f.colours.palette
	f.scene.Things, f.scene.Lines = f.scene.Things[:0], f.scene.Lines[:0]
	f.scene.Ground.Hidden = f.model == nil
	if f.model == nil {
		return
	}
	f.scene.Ground.Centre = r3.Vec{Z: f.model.ground}
	face := f.showsFace()
	seen := f.overlays[Heading] || strings.HasPrefix(f.focus, "leads") // what hides the leads lets them through
	if f.overlays[Shape] {
		f.shapes.ready(f.model, f.mode)
	}
	if f.overlays[Stress] {
		f.stress.ready(f.model, &f.colours)
	}
	for i := range f.model.bodies {
		b := &f.model.bodies[i]
		t := raster.Thing{Surface: b.surface, Pose: b.pose, Colour: f.colours.body(b)}
		switch {
		case face && b.screw:
			continue
		case face && (b.mount || b.moves), seen && strings.HasPrefix(b.path, "airframe.neighbours"):
			t.Style, t.Colour, t.Ink = raster.Ghost, fade(t.Colour, 0.30), f.colours.of(look.Third)
		}
		if b.path != "" && b.path == f.picked {
			t.Ink = f.colours.of(look.Act)
		}
		if b.role == look.Print && f.overlays[Stress] && t.Style == raster.Solid && b.mount {
			t.Band = f.stress.band
		}
		if f.overlays[Shape] && b.moves && f.shapes.moves() {
			f.swinging(i, t)
			continue
		}
		f.scene.Things = append(f.scene.Things, t)
	}
	if f.before != nil && f.before != f.model {
		for i := range f.before.bodies {
			if b := &f.before.bodies[i]; b.moves || b.mount {
				f.scene.Things = append(f.scene.Things, raster.Thing{Surface: b.surface, Pose: b.pose, Style: raster.Outline, Ink: f.colours.of(look.Act), Inert: true})
			}
		}
	}
	for i := range f.model.circles {
		f.scene.Lines = append(f.scene.Lines, raster.Line{Points: f.model.circles[i].points, Width: 1, Colour: fade(f.colours.of(look.Third), 0.55)})
	}
}

// spot returns where a point lies in the drawing, in pixels at scale 1.
func (f *frame) spot(p r3.Vec) pen.Spot {
	at := f.camera.Project(p)
	return pen.Spot{X: at.X / f.scale, Y: at.Y / f.scale}
}

// size is the drawing's size in pixels at scale 1.
func (f *frame) size() (width, height float64) {
	return float64(f.camera.Size.X) / f.scale, float64(f.camera.Size.Y) / f.scale
}

// mmWide returns how many pixels at scale 1 a millimetre across the view is.
func (f *frame) mmWide() float64 { return f.camera.Scale / f.scale }

// label writes words on a soft plate, inside the picture and clear of other labels, and returns the plate's place.
func (f *frame) label(at pen.Spot, text string, l pen.Letters) pen.Rect {
	r := f.clear(pen.PlateOf(&f.pen, at, text, l))
	f.pen.Area(pen.Box(r, 3), f.colours.plate())
	pen.Inside(&f.pen, r, text, l)
	f.taken = append(f.taken, r)
	return r
}

// clear moves a plate into the picture and off what is taken, upwards or downwards, whichever is nearer.
func (f *frame) clear(r pen.Rect) pen.Rect {
	width, height := f.size()
	const margin = 6
	r.X = max(min(r.X, width-margin-r.W), margin)
	r.Y = max(min(r.Y, height-margin-r.H), margin)
	for step := range 60 {
		try := r
		try.Y += float64((step+1)/2*4) * float64(1-2*(step%2))
		if try.Y < margin || try.Y > height-margin-try.H {
			continue
		}
		free := true
		for _, t := range f.taken {
			free = free && !try.Meets(t.Grown(2))
		}
		if free {
			return try
		}
	}
	return r
}

// inked is a stroke in a colour.
func inked(width float64, c color.NRGBA) pen.Stroke { return pen.Stroke{Width: width, Colour: c} }
