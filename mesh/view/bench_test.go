package view_test

import (
	"fmt"
	"image"
	"math"
	"testing"

	"mastwright/mesh/view"
)

// BenchmarkOrbit draws an example while it is orbited: everything a picture of
// the desktop holds. 60 pictures a second leave 16.7 ms for each.
func BenchmarkOrbit(b *testing.B) {
	for _, c := range []struct {
		name   string
		w, h   int
		pieces int
		o      view.Options
	}{
		{"900x700", 900, 700, 12, view.Options{}},
		{"900x700 one core", 900, 700, 12, view.Options{Workers: 1}},
		{"900x700 fine", 900, 700, 12, view.Options{Fine: true}},
		{"1800x1400", 1800, 1400, 12, view.Options{Scale: 2}},
		{"1800x1400 fine", 1800, 1400, 12, view.Options{Scale: 2, Fine: true}},
		{"900x700 heavy", 900, 700, 100, view.Options{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			s := frame(view.Light(), c.pieces)
			dst := image.NewRGBA(image.Rect(0, 0, c.w, c.h))
			camera := corner(s, c.w, c.h)
			var r view.Renderer
			for range 180 { // once round, so that every buffer has its size
				camera = camera.Orbit(math.Pi/90, 0)
				r.Draw(dst, s, camera, c.o)
			}
			triangles := 0
			for _, t := range s.Things {
				triangles += t.Surface.Triangles()
			}
			b.ReportAllocs()
			for b.Loop() {
				camera = camera.Orbit(math.Pi/90, 0)
				r.Draw(dst, s, camera, c.o)
			}
			b.ReportMetric(float64(triangles), "triangles")
		})
	}
}

func BenchmarkPrepare(b *testing.B) {
	for _, pieces := range []int{12, 100} {
		m := mast(pieces)
		b.Run(fmt.Sprintf("%d triangles", len(m.Triangles)), func(b *testing.B) {
			for b.Loop() {
				view.Prepare(m)
			}
		})
	}
}

func BenchmarkPick(b *testing.B) {
	s := frame(view.Light(), 12)
	c := corner(s, 900, 700)
	for b.Loop() {
		s.Pick(c, 450, 350, 4)
	}
}
