package view_test

import (
	"flag"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/view"
)

var update = flag.Bool("update", false, "write the master pictures anew")

// TestMasters compares pictures with those in testdata. Where they differ, run
// with -artifacts: the picture and a copy with the differences in red are kept.
func TestMasters(t *testing.T) {
	violet := color.NRGBA{R: 0x4D, G: 0x3F, B: 0x94, A: 0xFF}
	for _, c := range []struct {
		name string
		make func() (*view.Scene, view.Camera, view.Options)
	}{
		{"corner-light", func() (*view.Scene, view.Camera, view.Options) {
			s := frame(view.Light(), 6)
			return s, corner(s, 240, 190), view.Options{}
		}},
		{"corner-dark-fine", func() (*view.Scene, view.Camera, view.Options) {
			s := frame(view.Dark(), 6)
			return s, corner(s, 240, 190), view.Options{Fine: true}
		}},
		{"side-scale-2", func() (*view.Scene, view.Camera, view.Options) {
			s := frame(view.Light(), 6)
			return s, s.Fit(view.Camera{Size: image.Pt(360, 280)}.From(view.Side), 12), view.Options{Scale: 2}
		}},
		{"top-stress", func() (*view.Scene, view.Camera, view.Options) {
			s := frame(view.Light(), 6)
			s.Things = s.Things[:1]
			s.Things[0].Band = view.Band{From: r3.Vec{Z: 4}, To: r3.Vec{Z: 96}, Colours: []color.NRGBA{
				{R: 0xA1, G: 0x1D, B: 0x33}, {R: 0xAF, G: 0x73, B: 0x0B}, {R: 0x2F, G: 0x8D, B: 0x79}, {R: 0x2F, G: 0x8D, B: 0x79}}}
			return s, s.Fit(view.Camera{Size: image.Pt(160, 160), Azimuth: -0.5, Elevation: 0.9}, 8), view.Options{Fine: true}
		}},
		{"mode-shape", func() (*view.Scene, view.Camera, view.Options) {
			s := frame(view.Light(), 6)
			rest := s.Things[0]
			rest.Style, rest.Ink = view.Outline, violet
			last := rest
			last.Style, last.Pose, last.Colour = view.Ghost, mesh.Move(r3.Vec{X: -45}), violet
			last.Colour.A = 40
			swing := &s.Things[0]
			swing.Shift = swing.Surface.Displace(func(p r3.Vec) r3.Vec { u := p.Z / 96; return r3.Vec{X: u * u} })
			swing.Amount = 14
			s.Things = append(s.Things[:1], s.Things[2], rest, last)
			s.Lines = []view.Line{
				{Points: []r3.Vec{{X: 30, Y: -30}, {X: 30, Y: -30, Z: 96}}, Width: 1.4, Colour: violet},
				{Points: []r3.Vec{{X: -40, Z: 96}, {X: 60, Z: 96}}, Dash: 4, Colour: violet, Over: true},
			}
			return s, s.Fit(view.Camera{Size: image.Pt(240, 190)}.From(view.Corner), 10), view.Options{Fine: true}
		}},
	} {
		t.Run(c.name, func(t *testing.T) { compare(t, c.name, draw(c.make())) })
	}
}

// compare allows two pixels in a thousand to differ visibly: processors that
// multiply and add in one step may round a pixel's middle to the other side
// of an edge.
func compare(t *testing.T, name string, got *image.RGBA) {
	file := filepath.Join("testdata", name+".png")
	if *update {
		write(t, file, got)
		return
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if want.Bounds() != got.Rect {
		t.Fatalf("the picture is %v, want %v", got.Rect, want.Bounds())
	}
	const visible = 16 // of 255 in any channel
	marked := image.NewRGBA(got.Rect)
	differ, worst := 0, 0
	for y := range got.Rect.Dy() {
		for x := range got.Rect.Dx() {
			g, w := got.RGBAAt(x, y), color.RGBAModel.Convert(want.At(x, y)).(color.RGBA)
			d := max(gap(g.R, w.R), gap(g.G, w.G), gap(g.B, w.B))
			worst = max(worst, d)
			marked.SetRGBA(x, y, color.RGBA{R: g.R/2 + 127, G: g.G/2 + 127, B: g.B/2 + 127, A: 0xFF})
			if d > visible {
				differ++
				marked.SetRGBA(x, y, color.RGBA{R: 0xE0, A: 0xFF})
			}
		}
	}
	if allowed := int(math.Ceil(0.002 * float64(len(got.Pix)/4))); differ > allowed {
		dir := t.ArtifactDir()
		write(t, filepath.Join(dir, name+"-got.png"), got)
		write(t, filepath.Join(dir, name+"-differs.png"), marked)
		t.Errorf("%d pixels differ by more than %d, at most %d may; the worst by %d; pictures in %s (kept with -artifacts)", differ, visible, allowed, worst, dir)
	}
}

func write(t *testing.T, file string, m image.Image) {
	t.Helper()
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(f, m); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
