package view_test

import (
	"flag"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/view"
	raster "mastwright/mesh/view"
)

var update = flag.Bool("update", false, "write the pictures that later runs are held against")

func vec(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }

// TestMasters holds the picture against pictures that were looked at. Rounding differs a little between processors: one pixel in two hundred
// may be off by more than 24 of 255.
func TestMasters(t *testing.T) {
	good, bad := built(t, example(t, "river-survey")), built(t, example(t, "orchard-mapper"))
	for _, c := range []struct {
		name    string
		model   *view.Model
		variant fyne.ThemeVariant
		set     func(*view.Picture)
	}{
		{"height", good, theme.VariantLight, func(p *view.Picture) { p.SetFocus("mast.height") }},
		{"heading", good, theme.VariantDark, func(p *view.Picture) { p.SetChecked("heading") }},
		{"shape", good, theme.VariantLight, func(p *view.Picture) { p.SetAwake(false); p.SetChecked("modes"); p.Turn(raster.Side) }},
		{"stress", bad, theme.VariantLight, func(p *view.Picture) { p.SetChecked("strength"); p.SetOverlay(view.TipOver, true) }},
		{"holes", good, theme.VariantDark, func(p *view.Picture) { p.SetBare(true); p.SetFocus("airframe.places[0].holes.along") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, w := window(t, fyne.NewSize(300, 260), view.Options{AtOnce: true}, c.model)
			c.set(p)
			w.Canvas().Capture()
			compare(t, c.name, p.Image(300, 260, 1, c.variant))
		})
	}
}

// compare holds a picture against its master; where they differ both and their difference are left beside the test's artefacts.
func compare(t *testing.T, name string, got image.Image) {
	t.Helper()
	path := filepath.Join("testdata", name+".png")
	if *update {
		if err := write(path, got); err != nil {
			t.Fatal(err)
		}
		return
	}
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	want, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	if got.Bounds() != want.Bounds() {
		t.Fatalf("the picture is %v, want %v", got.Bounds(), want.Bounds())
	}
	if share := differing(got, want, 24); share > 0.005 {
		dir := t.ArtifactDir()
		for file, img := range map[string]image.Image{name + "-got.png": got, name + "-difference.png": difference(got, want)} {
			if err := write(filepath.Join(dir, file), img); err != nil {
				t.Error(err)
			}
		}
		t.Errorf("%.2f %% of the pixels differ; see %s, or -update after looking", 100*share, dir)
	}
}

func write(path string, img image.Image) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := png.Encode(file, img); err != nil {
		file.Close()
		return err
	}
	return file.Close()
}

// differing returns the share of pixels that differ in a channel by more than a tolerance.
func differing(a, b image.Image, tolerance int) float64 {
	box, n := a.Bounds(), 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if apart(a.At(x, y), b.At(x, y)) > tolerance {
				n++
			}
		}
	}
	return float64(n) / float64(box.Dx()*box.Dy())
}

func apart(a, b color.Color) int {
	r0, g0, b0, _ := a.RGBA()
	r1, g1, b1, _ := b.RGBA()
	d := func(x, y uint32) int { return max(int(x>>8)-int(y>>8), int(y>>8)-int(x>>8)) }
	return max(d(r0, r1), d(g0, g1), d(b0, b1))
}

func difference(a, b image.Image) image.Image {
	box := a.Bounds()
	out := image.NewGray(box)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			out.SetGray(x, y, color.Gray{Y: uint8(min(4*apart(a.At(x, y), b.At(x, y)), 255))})
		}
	}
	return out
}
