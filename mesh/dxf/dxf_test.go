package dxf_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/dxf"
	"mastwright/mesh/outline"
)

// plate is a rounded plate with a bore and a slot, a letter on it and a note under it.
func plate(t testing.TB) outline.Drawing {
	t.Helper()
	letter, err := outline.Text("A", 5)
	if err != nil {
		t.Fatal(err)
	}
	return outline.Drawing{
		Cut:     []outline.Outline{outline.Plate(outline.RoundedRectangle(40, 20, 4), outline.Circle(3).Translate(-10, 0), outline.Slot(10, 3).Translate(8, 0))},
		Engrave: letter,
		Notes:   []outline.Note{{At: r2.Vec{X: -20, Y: -16}, Height: 3, Text: "1 unit = 1 mm"}},
	}
}

func encode(t testing.TB, d outline.Drawing, o dxf.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Encode(&b, d, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A plate of two lines' worth, group by group, as the reference for release 12 says (from memory).
func TestLayout(t *testing.T) {
	d := outline.Drawing{Cut: []outline.Outline{outline.Plate(outline.Loop{{X: 0, Y: 0, Bulge: 0.5}, {X: 10, Y: 0}, {X: 10, Y: 8.25}}, outline.Circle(1.5).Translate(8, 3))}}
	const want = `999|1 unit = 1 mm|
0|SECTION|2|HEADER|9|$ACADVER|1|AC1009|9|$EXTMIN|10|0.0|20|-2.5|30|0.0|9|$EXTMAX|10|10.0|20|8.25|30|0.0|9|$LUNITS|70|2|0|ENDSEC|
0|SECTION|2|TABLES|
0|TABLE|2|LTYPE|70|1|0|LTYPE|2|CONTINUOUS|70|0|3|Solid line|72|65|73|0|40|0.0|0|ENDTAB|
0|TABLE|2|LAYER|70|5|
0|LAYER|2|0|70|0|62|7|6|CONTINUOUS|
0|LAYER|2|engrave|70|0|62|7|6|CONTINUOUS|
0|LAYER|2|inner-cut|70|0|62|7|6|CONTINUOUS|
0|LAYER|2|outer-cut|70|0|62|7|6|CONTINUOUS|
0|LAYER|2|notes|70|0|62|7|6|CONTINUOUS|
0|ENDTAB|0|ENDSEC|
0|SECTION|2|ENTITIES|
0|CIRCLE|8|inner-cut|10|8.0|20|3.0|30|0.0|40|1.5|
0|POLYLINE|8|outer-cut|66|1|10|0.0|20|0.0|30|0.0|70|1|
0|VERTEX|8|outer-cut|10|0.0|20|0.0|30|0.0|42|0.5|
0|VERTEX|8|outer-cut|10|10.0|20|0.0|30|0.0|
0|VERTEX|8|outer-cut|10|10.0|20|8.25|30|0.0|
0|SEQEND|8|outer-cut|0|ENDSEC|0|EOF|`
	lines := strings.Split(strings.TrimSuffix(string(encode(t, d, dxf.Options{})), "\n"), "\n")
	for i := 0; i < len(lines); i += 2 {
		lines[i] = strings.TrimLeft(lines[i], " ")
	}
	if got, want := strings.Join(lines, "|")+"|", strings.ReplaceAll(want, "\n", ""); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Chords of a flattened file stray from the arc by 0.01 mm at most: both ends lie on the circle, and their middle no deeper.
func TestFlatten(t *testing.T) {
	d := outline.Drawing{Cut: []outline.Outline{outline.Plate(outline.Circle(20))}}
	lines := strings.Split(string(encode(t, d, dxf.Options{Flatten: true})), "\n")
	var points []r2.Vec
	for i, line := range lines {
		if line == "CIRCLE" || strings.TrimSpace(line) == "42" && i%2 == 0 {
			t.Fatalf("line %d: %s in a flattened file", i, line)
		}
		if line == "VERTEX" {
			x, err1 := strconv.ParseFloat(lines[i+4], 64)
			y, err2 := strconv.ParseFloat(lines[i+6], 64)
			if err := errors.Join(err1, err2); err != nil {
				t.Fatal(err)
			}
			points = append(points, r2.Vec{X: x, Y: y})
		}
	}
	if len(points) < 12 {
		t.Fatalf("%d corners", len(points))
	}
	for i, p := range points {
		if math.Abs(r2.Norm(p)-20) > 2e-6 { // written to a millionth
			t.Errorf("corner %d is %g mm from the middle, want 20", i, r2.Norm(p))
		}
		if depth := 20 - r2.Norm(r2.Scale(0.5, r2.Add(p, points[(i+1)%len(points)]))); depth > 0.01001 {
			t.Errorf("chord %d strays by %g mm", i, depth)
		}
	}
}

func TestEncodeRefuses(t *testing.T) {
	twice := plate(t)
	twice.Cut = append(twice.Cut, twice.Cut[0])
	var b bytes.Buffer
	for _, d := range []outline.Drawing{{}, twice, {Cut: []outline.Outline{outline.Plate(outline.Rectangle(math.NaN(), 2))}}} {
		if err := dxf.Encode(&b, d, dxf.Options{}); err == nil || !strings.HasPrefix(err.Error(), "write dxf: ") || b.Len() > 0 {
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
	d := plate(t)
	for n := range len(encode(t, d, dxf.Options{})) {
		room := full(n)
		if err := dxf.Encode(&room, d, dxf.Options{}); !errors.Is(err, errFull) {
			t.Fatalf("room for %d bytes: %v, want %v", n, err, errFull)
		}
	}
}

// TestAgainstParser has a parser from outside this project read a drawing with a kerf and without: the areas that its loops
// enclose are those of the outlines, by the formulas of a rounded rectangle, a circle and a slot.
func TestAgainstParser(t *testing.T) {
	if os.Getenv("MASTWRIGHT_NODE_MODULES") == "" {
		t.Skip("no parser to read with: install the npm package dxf-parser and name its node_modules folder in MASTWRIGHT_NODE_MODULES")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node to run the parser with: ", err)
	}
	for _, c := range []struct {
		kerf, tolerance float64
		o               dxf.Options
	}{
		{0, 1e-4, dxf.Options{}}, // coordinates and bulges are rounded: 1e-6 mm along 120 mm
		{0.2, 1e-4, dxf.Options{}},
		{0, 0.6, dxf.Options{Flatten: true}}, // 0.01 mm along the arcs, 19 to 25 mm of them
	} {
		d := plate(t)
		if d.Cut[0], err = d.Cut[0].Kerf(c.kerf); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "plate.dxf")
		if err := os.WriteFile(name, encode(t, d, c.o), 0o666); err != nil {
			t.Fatal(err)
		}
		command := exec.Command(node, "testdata/read.mjs", name)
		command.Stderr = os.Stderr
		out, err := command.Output()
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Version  string
			Min, Max [2]float64
			Layers   []string
			Colours  []int
			Entities []struct {
				Type, Layer, Text string
				Closed            bool
				Area              float64
			}
		}
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%v in %s", err, out)
		}
		h := c.kerf / 2
		if got.Version != "AC1009" || !reflect.DeepEqual(got.Colours, []int{7}) || !reflect.DeepEqual(got.Layers, []string{"0", "engrave", "inner-cut", "outer-cut", "notes"}) {
			t.Errorf("version %q, layers %q, colours %d", got.Version, got.Layers, got.Colours)
		}
		if want := [4]float64{-20 - h, -16, 20 + h, 10 + h}; math.Abs(got.Min[0]-want[0])+math.Abs(got.Min[1]-want[1])+math.Abs(got.Max[0]-want[2])+math.Abs(got.Max[1]-want[3]) > 1e-5 {
			t.Errorf("extents %v to %v, want %v", got.Min, got.Max, want)
		}
		want := map[string][]float64{
			"inner-cut": {math.Pi * (3 - h) * (3 - h), 7*(3-2*h) + math.Pi*(1.5-h)*(1.5-h)},
			"outer-cut": {(40+2*h)*(20+2*h) - (4-math.Pi)*(4+h)*(4+h)},
		}
		areas := map[string][]float64{}
		for _, e := range got.Entities {
			switch {
			case e.Type == "TEXT":
				if e.Layer != "notes" || e.Text != "1 unit = 1 mm" {
					t.Errorf("%q on layer %s", e.Text, e.Layer)
				}
			case e.Type == "POLYLINE" && e.Closed, e.Type == "CIRCLE":
				areas[e.Layer] = append(areas[e.Layer], math.Abs(e.Area))
			default:
				t.Errorf("%s on layer %s is not closed", e.Type, e.Layer)
			}
		}
		for on, list := range want {
			if len(areas[on]) != len(list) {
				t.Errorf("%s: areas %v, want %v", on, areas[on], list)
				continue
			}
			for i := range list {
				if math.Abs(areas[on][i]-list[i]) > c.tolerance {
					t.Errorf("kerf %g, %s: area %g, want %g", c.kerf, on, areas[on][i], list[i])
				}
			}
		}
		// the letter: its outside less its counter
		if mark := areas["engrave"]; len(mark) != 2 || math.Abs(mark[0]-mark[1]-plate(t).Engrave[0].Area()) > 1e-4 {
			t.Errorf("engraved %v", mark)
		}
	}
}

func ExampleEncode() {
	var file bytes.Buffer
	err := dxf.Encode(&file, outline.Drawing{Cut: []outline.Outline{outline.Plate(outline.Circle(5))}}, dxf.Options{})
	text, _ := io.ReadAll(&file)
	fmt.Println(strings.Contains(string(text), "CIRCLE"), err)
	// Output: true <nil>
}
