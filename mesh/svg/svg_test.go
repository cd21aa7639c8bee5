package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/outline"
	"mastwright/mesh/svg"
)

func encode(t testing.TB, d outline.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Encode(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// ears is a plate of lines and arcs of both turns, less and more than half a circle, with a bore and a note.
func ears() outline.Drawing {
	return outline.Drawing{
		Cut:     []outline.Outline{outline.Plate(outline.Loop{{X: 0, Y: 0}, {X: 20, Y: 0, Bulge: 2}, {X: 20, Y: 6, Bulge: -0.25}, {X: 0, Y: 6}}, outline.Circle(1).Translate(4, 3))},
		Engrave: []outline.Outline{outline.Plate(outline.Rectangle(2, 1)).Translate(9, 2)},
		Notes:   []outline.Note{{At: r2.Vec{X: 1, Y: -4}, Height: 3, Text: `2 mm & "x" <y>`}},
	}
}

// The file by hand: the page is 1 mm larger all round, y is turned over, and a bulge b over a chord c has the radius
// c (1 + b²) / 4b: 6 · 5/8 = 3.75 and 20 · 17/16 = 21.25. The ear, about (22.25, 3), rises to 6.75 mm.
func TestLayout(t *testing.T) {
	d := ears()
	d.Notes[0].At.X = 0 // its letters are taken to be 42 mm wide
	const want = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="44mm" height="12.75mm" viewBox="0 0 44 12.75">
 <g id="engrave" fill="none" stroke="#000000" stroke-width="0.05">
  <path d="M9,6.25 L11,6.25 L11,5.25 L9,5.25 Z"/>
 </g>
 <g id="inner-cut" fill="none" stroke="#000000" stroke-width="0.05">
  <path d="M4,4.75 A1,1 0 0 1 6,4.75 A1,1 0 0 1 4,4.75 Z"/>
 </g>
 <g id="outer-cut" fill="none" stroke="#000000" stroke-width="0.05">
  <path d="M1,7.75 L21,7.75 A3.75,3.75 0 1 0 21,1.75 A21.25,21.25 0 0 1 1,1.75 Z"/>
 </g>
 <g id="notes" fill="none" stroke="#000000" stroke-width="0.05">
  <text x="1" y="11.75" font-family="monospace" font-size="3">2 mm &amp; &#34;x&#34; &lt;y&gt;</text>
 </g>
</svg>
`
	if got := string(encode(t, d)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Any reader of XML takes the file, and no text lies outside the notes.
func TestText(t *testing.T) {
	d := xml.NewDecoder(bytes.NewReader(encode(t, ears())))
	layer := ""
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "g":
			layer = start.Attr[0].Value
		case "text":
			if layer != "notes" {
				t.Errorf("text in layer %q", layer)
			}
		}
	}
}

func TestEncodeRefuses(t *testing.T) {
	var b bytes.Buffer
	for _, d := range []outline.Drawing{{}, {Cut: []outline.Outline{outline.Plate(outline.Rectangle(math.NaN(), 2))}}, {Cut: append(ears().Cut, ears().Cut...)}} {
		if err := svg.Encode(&b, d); err == nil || !strings.HasPrefix(err.Error(), "write svg: ") || b.Len() > 0 {
			t.Errorf("got %v and %d bytes", err, b.Len())
		}
	}
}

// full is a disk with room for a number of bytes.
type full int

var errFull = errors.New("disk full")

func (f *full) Write(p []byte) (int, error) {
	n := min(len(p), int(*f))
	*f -= full(n)
	if n < len(p) {
		return n, errFull
	}
	return n, nil
}

func TestEncodeReportsEveryWriteError(t *testing.T) {
	for n := range len(encode(t, ears())) {
		room := full(n)
		if err := svg.Encode(&room, ears()); !errors.Is(err, errFull) {
			t.Fatalf("room for %d bytes: %v, want %v", n, err, errFull)
		}
	}
}

// TestAgainstRasteriser has a rasteriser from outside this project draw files at 100 dots a millimetre: 10 mm is 10 mm.
func TestAgainstRasteriser(t *testing.T) {
	program, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("no rasteriser to measure with: install the Debian package librsvg2-bin")
	}
	for _, c := range []struct {
		name     string
		loop     outline.Loop
		min, max r2.Vec // by hand
	}{
		{"10 mm square", outline.Rectangle(10, 10).Translate(3, 7), r2.Vec{X: -2, Y: 2}, r2.Vec{X: 8, Y: 12}},
		{"10 mm circle", outline.Circle(5), r2.Vec{X: -5, Y: -5}, r2.Vec{X: 5, Y: 5}},
		{"10 mm slot", outline.Slot(10, 4), r2.Vec{X: -5, Y: -2}, r2.Vec{X: 5, Y: 2}},
		// a circle of radius 3.75 beyond its chord of 6 mm: its centre lies 2.25 mm right of the chord
		{"more than half a circle", outline.Loop{{X: 0, Y: 0, Bulge: 2}, {X: 0, Y: 6}}, r2.Vec{X: 0, Y: -0.75}, r2.Vec{X: 6, Y: 6.75}},
		// rises by b c / 2 = 0.8 mm over its chord, to the left of the way from (8, 0) to (0, 0): below
		{"inward arc", outline.Loop{{X: 0, Y: 0}, {X: 0, Y: -6}, {X: 8, Y: -6}, {X: 8, Y: 0, Bulge: -0.2}}, r2.Vec{X: 0, Y: -6}, r2.Vec{X: 8, Y: 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := outline.Drawing{Cut: []outline.Outline{outline.Plate(c.loop)}}
			name := filepath.Join(t.TempDir(), "piece")
			if err := os.WriteFile(name+".svg", encode(t, d), 0o666); err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command(program, "--dpi-x=2540", "--dpi-y=2540", "--output="+name+".png", name+".svg").CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			file, err := os.Open(name + ".png")
			if err != nil {
				t.Fatal(err)
			}
			defer file.Close()
			picture, err := png.Decode(file)
			if err != nil {
				t.Fatal(err)
			}
			size := picture.Bounds()
			lo, hi := size.Max, size.Min
			ink := 0.0
			for y := size.Min.Y; y < size.Max.Y; y++ {
				for x := size.Min.X; x < size.Max.X; x++ {
					_, _, _, a := picture.At(x, y).RGBA()
					if a > 0x8000 {
						lo.X, lo.Y, hi.X, hi.Y = min(lo.X, x), min(lo.Y, y), max(hi.X, x+1), max(hi.Y, y+1)
					}
					ink += float64(a) / 0xffff
				}
			}
			want := r2.Sub(c.max, c.min)
			// a line is 0.05 mm wide; two dots of rounding
			if w, h := float64(hi.X-lo.X)/100, float64(hi.Y-lo.Y)/100; math.Abs(w-want.X-0.05) > 0.02 || math.Abs(h-want.Y-0.05) > 0.02 {
				t.Errorf("%g by %g mm over its lines, want %g by %g", w, h, want.X+0.05, want.Y+0.05)
			}
			// what is drawn is the loop's length by the width of the line
			if long := ink / 1e4 / 0.05; math.Abs(long-c.loop.Length()) > 0.03*c.loop.Length() {
				t.Errorf("%g mm of line, want %g", long, c.loop.Length())
			}
		})
	}
}

func ExampleEncode() {
	var file bytes.Buffer
	err := svg.Encode(&file, outline.Drawing{Cut: []outline.Outline{outline.Plate(outline.Rectangle(10, 8))}})
	fmt.Println(strings.Contains(file.String(), `width="12mm" height="10mm" viewBox="0 0 12 10"`), err)
	// Output: true <nil>
}
