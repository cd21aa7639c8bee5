package pen_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/color"
	"io"
	"math"
	"strings"
	"testing"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
)

var black = color.NRGBA{A: 0xFF}

// sheet is a white picture and a pen for it.
func sheet(scale float64) (*pen.Raster, *image.RGBA) {
	img := image.NewRGBA(image.Rect(0, 0, int(200*scale), int(120*scale)))
	for i := range img.Pix {
		img.Pix[i] = 0xFF
	}
	return &pen.Raster{Image: img, Scale: scale}, img
}

// ink is how much of the picture is black, in pixels at scale 1.
func ink(img *image.RGBA, scale float64) float64 {
	sum := 0.0
	for i := 0; i < len(img.Pix); i += 4 {
		sum += 1 - float64(img.Pix[i])/0xFF
	}
	return sum / scale / scale
}

// TestInk holds the ink of every stroke against its area. Coverage is kept in 256 steps: half a percent.
func TestInk(t *testing.T) {
	arc := func(n int) (path []pen.Spot) {
		for i := range n + 1 {
			sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
			path = append(path, pen.Spot{X: 100 + 50*cos, Y: 80 - 50*sin})
		}
		return path
	}
	straight := []pen.Spot{{X: 20.3, Y: 30.2}, {X: 150.7, Y: 71.9}}
	long := math.Hypot(130.4, 41.7)
	var pieces []pen.Spot // the same straight line in many pieces
	for i := range 101 {
		pieces = append(pieces, pen.Spot{X: 20.3 + 1.304*float64(i), Y: 30.2 + 0.417*float64(i)})
	}
	for _, scale := range []float64{1, 1.5, 2} {
		for _, c := range []struct {
			name string
			draw func(*pen.Raster)
			want float64
			rel  float64
		}{
			{"rectangle", func(p *pen.Raster) { p.Area(pen.Box(pen.Rect{X: 10.5, Y: 20.25, W: 61, H: 33}, 0), black) }, 61 * 33, 0.005},
			{"disc", func(p *pen.Raster) { p.Area(pen.Disc(pen.Spot{X: 60, Y: 60}, 20), black) }, math.Pi * 400, 0.02},
			{"straight line", func(p *pen.Raster) { p.Line(straight, pen.Stroke{Width: 2, Colour: black}) }, 2 * long, 0.005},
			{"straight line in pieces", func(p *pen.Raster) { p.Line(pieces, pen.Stroke{Width: 2, Colour: black}) }, 2 * long, 0.005},
			{"thin line", func(p *pen.Raster) { p.Line(straight, pen.Stroke{Width: 0.8, Colour: black}) }, 0.8 * long, 0.015},
			{"half circle", func(p *pen.Raster) { p.Line(arc(60), pen.Stroke{Width: 3, Colour: black}) }, 3 * math.Pi * 50, 0.01},
			{"dashes", func(p *pen.Raster) { p.Line(straight, pen.Stroke{Width: 2, Colour: black, Dash: long / 19}) }, 2 * long * 10 / 19, 0.01},
		} {
			p, img := sheet(scale)
			c.draw(p)
			if got := ink(img, scale); math.Abs(got-c.want) > c.rel*c.want {
				t.Errorf("%s at scale %g: %.2f px², want %.2f", c.name, scale, got, c.want)
			}
		}
	}
}

// TestNothingOutside: what lies outside the picture or is no number leaves no mark and no panic.
func TestNothingOutside(t *testing.T) {
	p, img := sheet(1)
	nan := math.NaN()
	for _, path := range [][]pen.Spot{
		nil, {{X: 5, Y: 5}}, {{X: 5, Y: 5}, {X: 5, Y: 5}, {X: 5, Y: 5}}, {{X: -500, Y: -9}, {X: -400, Y: -2}, {X: -450, Y: -60}}, {{X: nan, Y: 4}, {X: 9, Y: nan}, {X: 3, Y: 3}},
		{{X: 1e300, Y: 4}, {X: 9, Y: -1e300}, {X: 3, Y: 3}},
	} {
		p.Line(path, pen.Stroke{Width: 2, Colour: black})
		p.Line(path, pen.Stroke{Width: 2, Colour: black, Dash: 3})
		p.Area(path, black)
	}
	if got := ink(img, 1); got != 0 {
		t.Errorf("%.2f px² of ink", got)
	}
}

// TestWords: a text is as wide as it says, and its alignment puts it there.
func TestWords(t *testing.T) {
	const text = "16.1° gjpqy"
	for _, align := range []pen.Align{pen.Left, pen.Middle, pen.Right} {
		p, img := sheet(1)
		p.Words(pen.Spot{X: 100, Y: 60}, text, pen.Letters{Font: look.Caption, Colour: black, Align: align})
		width := p.Width(text, look.Caption)
		left, right := 200, 0
		for y := range 120 {
			for x := range 200 {
				if img.RGBAAt(x, y).R < 200 {
					left, right = min(left, x), max(right, x+1)
				}
			}
		}
		start := [...]float64{100, 100 - width/2, 100 - width}[align]
		// letters have a little white at both sides, and a text starts on a whole pixel
		if float64(left) < start-1 || float64(left) > start+3 || float64(right) > start+width+1 || float64(right) < start+width-3 {
			t.Errorf("align %d: ink from %d to %d, want about %.1f to %.1f", align, left, right, start, start+width)
		}
	}
}

// TestLettering: the outlines of a text laid flat hold as much ink as the text.
func TestLettering(t *testing.T) {
	const text = "forward"
	a, plain := sheet(1)
	a.Words(pen.Spot{X: 20, Y: 60}, text, pen.Letters{Font: look.Title, Colour: black})
	b, laid := sheet(1)
	size := float64(look.Title.Size())
	word := pen.NewLettering(text, look.Title)
	b.Letter(word, pen.Slant{At: pen.Spot{X: 20, Y: 60}, Along: pen.Spot{X: size}, Down: pen.Spot{Y: size}}, black)
	if got, want := ink(laid, 1), ink(plain, 1); math.Abs(got-want) > 0.02*want {
		t.Errorf("%.1f px² of ink, want %.1f", got, want)
	}
	if got, want := word.Width*size, a.Width(text, look.Title); math.Abs(got-want) > 0.5 {
		t.Errorf("%.2f px wide, want %.2f", got, want)
	}
}

// TestWarm: once it has drawn a picture, a pen draws it again without garbage.
func TestWarm(t *testing.T) {
	p, _ := sheet(1)
	path := []pen.Spot{{X: 5, Y: 5}, {X: 60, Y: 80}, {X: 150, Y: 20}}
	draw := func() {
		p.Line(path, pen.Stroke{Width: 1.4, Colour: black})
		p.Line(path, pen.Stroke{Width: 1.4, Colour: black, Dash: 4})
		p.Area(path, color.NRGBA{R: 9, A: 99})
		p.Words(pen.Spot{X: 20, Y: 60}, "92.0 mm", pen.Letters{Font: look.Strong, Colour: black, Align: pen.Middle})
	}
	draw()
	if got := testing.AllocsPerRun(20, draw); got > 0 {
		t.Errorf("%.1f allocations a picture", got)
	}
}

// TestSVG: the file is well-formed and holds its texts, shapes and size.
func TestSVG(t *testing.T) {
	s := &pen.SVG{Title: "a < b & c", Sheet: pen.Spot{X: 300, Y: 150}}
	s.Area(pen.Box(pen.Rect{X: 1, Y: 2, W: 3, H: 4}, 0), color.NRGBA{R: 0x12, G: 0x34, B: 0x56, A: 0x80})
	s.Line([]pen.Spot{{X: 1, Y: 1}, {X: 2.005, Y: 3}}, pen.Stroke{Width: 2, Colour: black, Dash: 3})
	s.Words(pen.Spot{X: 10, Y: 20}, "5 < 15°", pen.Letters{Font: look.Caption, Colour: black, Align: pen.Right})
	var file bytes.Buffer
	if err := s.Encode(&file); err != nil {
		t.Fatal(err)
	}
	var names []string
	text := ""
	decoder := xml.NewDecoder(bytes.NewReader(file.Bytes()))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			names = append(names, token.Name.Local)
		case xml.CharData:
			text += string(token)
		}
	}
	if got, want := strings.Join(names, " "), "svg title path path text"; got != want {
		t.Errorf("elements %s, want %s", got, want)
	}
	for _, want := range []string{"a < b & c", "5 < 15°"} {
		if !strings.Contains(text, want) {
			t.Errorf("text %q misses %q", text, want)
		}
	}
	for _, want := range []string{`width="300" height="150"`, `fill="#123456" fill-opacity="0.5"`, `stroke-dasharray="3"`, `text-anchor="end"`} {
		if !strings.Contains(file.String(), want) {
			t.Errorf("the file misses %s", want)
		}
	}
}
