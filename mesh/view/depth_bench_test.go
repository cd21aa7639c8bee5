package view

import (
	"image"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// BenchmarkDepthBuffer clears and fills a picture of 900 x 700 pixels with a
// bumpy ball, without ground, edges and lines: the bare depth buffer.
func BenchmarkDepthBuffer(b *testing.B) {
	for _, c := range []struct {
		name  string
		steps int
	}{{"6 k triangles", 39}, {"212 k triangles", 230}} {
		b.Run(c.name, func(b *testing.B) {
			m := bumpy(c.steps)
			s := &Scene{Things: []Thing{{Surface: Prepare(m), Colour: Light().Print}}, Palette: Light()}
			dst := image.NewRGBA(image.Rect(0, 0, 900, 700))
			camera := s.Fit(Camera{Size: dst.Rect.Max}.From(Corner), 20)
			var r Renderer
			b.ReportAllocs()
			for b.Loop() {
				r.begin(dst, s, camera, Options{})
				r.place()
				r.bin()
				r.pool.run(&r, phasePaint, len(r.bins))
			}
			b.ReportMetric(float64(len(m.Triangles)), "triangles")
		})
	}
}

func bumpy(steps int) *mesh.Mesh {
	m := &mesh.Mesh{}
	n := 2 * steps
	for i := range steps + 1 {
		for k := range n {
			sz, cz := math.Sincos(math.Pi * (float64(i) + 0.5) / float64(steps+1))
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			r := 50 + 5*math.Sin(7*float64(k)/float64(n)*2*math.Pi)*sz
			m.Vertices = append(m.Vertices, r3.Vec{X: r * sz * c, Y: r * sz * s, Z: -r * cz})
		}
	}
	for i := range steps {
		for k := range n {
			a, b, c, d := int32(i*n+k), int32(i*n+(k+1)%n), int32((i+1)*n+(k+1)%n), int32((i+1)*n+k)
			m.Triangles = append(m.Triangles, [3]int32{a, b, c}, [3]int32{a, c, d})
		}
	}
	return m
}
