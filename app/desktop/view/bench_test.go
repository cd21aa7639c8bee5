package view_test

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/view"
	"mastwright/design/review"
)

// BenchmarkOrbit draws an example at 900 by 700 while it is turned, all overlays off: a frame has 16.7 ms at 60 a second.
func BenchmarkOrbit(b *testing.B) { orbit(b) }

// BenchmarkOrbitOverlays is the same with everything switched on and a dimension line.
func BenchmarkOrbitOverlays(b *testing.B) {
	orbit(b, view.Heading, view.Shape, view.Stress, view.TipOver)
}

// BenchmarkStill draws the picture that stands still, four samples a pixel.
func BenchmarkStill(b *testing.B) {
	test.NewTempApp(b)
	p := view.New(view.Options{AtOnce: true})
	p.Resize(fyne.NewSize(900, 700))
	p.SetModel(built(b, example(b, "river-survey")))
	dst := image.NewRGBA(image.Rect(0, 0, 900, 700))
	view.Frame(p, dst)
	for b.Loop() {
		view.Frame(p, dst)
	}
}

func orbit(b *testing.B, overlays ...view.Overlay) {
	test.NewTempApp(b)
	model := built(b, example(b, "river-survey"))
	p := view.New(view.Options{AtOnce: true})
	p.Resize(fyne.NewSize(900, 700))
	p.SetModel(model)
	for _, o := range overlays {
		p.SetOverlay(o, true)
		p.SetFocus("mast.height")
	}
	view.Moving(p)
	dst := image.NewRGBA(image.Rect(0, 0, 900, 700))
	view.Frame(p, dst)
	b.ReportAllocs()
	up := float32(1)
	for i := 0; b.Loop(); i++ {
		if i%60 == 0 {
			up = -up
		}
		p.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(2, up)})
		view.Frame(p, dst)
	}
}

// BenchmarkBuild makes a reviewed and meshed example ready to be shown.
func BenchmarkBuild(b *testing.B) {
	doc := example(b, "river-survey")
	result, _ := review.Run(doc)
	parts := printed(b, doc)
	b.ReportAllocs()
	for b.Loop() {
		view.Build(doc, result, parts, nil)
	}
}

// BenchmarkBuildAgain is the same after an edit that changes no mesh.
func BenchmarkBuildAgain(b *testing.B) {
	doc := example(b, "river-survey")
	result, _ := review.Run(doc)
	parts := printed(b, doc)
	before := view.Build(doc, result, parts, nil)
	b.ReportAllocs()
	for b.Loop() {
		view.Build(doc, result, parts, before)
	}
}
