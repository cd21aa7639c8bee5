package build

import (
	"bytes"
	"image/png"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh"
	"mastwright/mesh/threemf"
)

// firstExample is the first design that is shown.
func firstExample(t *testing.T) *design.Document {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name == assets.FirstStart {
			doc, _ := design.Decode(e.Data, design.Options{})
			return doc
		}
	}
	t.Fatal("there is no first example")
	return nil
}

// block is a printed part in the shape of a box on the bed.
func block(name, material string, x, y, z float64, copies int) Piece {
	shape := &mesh.Mesh{Triangles: [][3]int32{
		{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
		{2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5},
	}}
	for k := range 8 {
		shape.Vertices = append(shape.Vertices, r3.Vec{X: x * float64(k&1), Y: y * float64(k>>1&1), Z: z * float64(k>>2)})
	}
	p := parts.Part{Name: name, Making: parts.Printed, Material: material, Copies: copies, Box: r3.Vec{X: x, Y: y, Z: z}}
	p.Printing.Fits, p.Printing.Bed = true, p.Box
	return Piece{Part: p, mesh: shape}
}

func partsOf(pieces []Piece) []parts.Part {
	var out []parts.Part
	for _, p := range pieces {
		out = append(out, p.Part)
	}
	return out
}

// A bed of 220 by 220 mm: what lies on it, read back.
func TestBeds(t *testing.T) {
	doc := firstExample(t)
	large := block("mast", "petg", 210, 190, 20, 2)
	outside := block("pole", "petg", 300, 20, 20, 1)
	outside.Part.Printing.Fits = false
	cut := block("plate", "petg", 10, 10, 1, 1)
	cut.Part.Making = parts.Cut
	for _, c := range []struct {
		name   string
		pieces []Piece
		want   map[string][]string // names of the copies in each file
	}{
		{"one bed", []Piece{block("mast", "petg", 200, 30, 20, 1), block("foot", "petg", 50, 40, 8, 1), block("tray", "petg", 30, 60, 8, 3)},
			map[string][]string{"parts.3mf": {"mast", "foot", "tray", "tray", "tray"}}},
		{"a material a bed", []Piece{block("mast", "petg", 200, 30, 20, 1), block("foot", "tpu", 50, 40, 8, 1), block("tray", "petg", 30, 60, 8, 1)},
			map[string][]string{"parts_bed1.3mf": {"mast", "tray"}, "parts_bed2.3mf": {"foot"}}},
		{"more than fit one bed", []Piece{large}, map[string][]string{"parts_bed1.3mf": {"mast"}, "parts_bed2.3mf": {"mast"}}},
		{"neither what fits no bed nor what is cut", []Piece{outside, cut, block("foot", "petg", 50, 40, 8, 1)}, map[string][]string{"parts.3mf": {"foot"}}},
		{"nothing", []Piece{outside}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			beds, err := plan(partsStem, doc, partsOf(c.pieces))
			if err != nil {
				t.Fatal(err)
			}
			files, records, err := bedOutputs(beds, doc, c.pieces, Options{Sheet: Sheet{Date: "2026-07-14"}})
			if err != nil {
				t.Fatal(err)
			}
			if len(files) != len(c.want) || len(records) != len(c.want) {
				t.Errorf("%d files, want %d", len(files), len(c.want))
			}
			for k, f := range files {
				m, err := threemf.Decode(bytes.NewReader(f.Data), threemf.Limits{})
				if err != nil {
					t.Fatal(err)
				}
				if picture, err := png.Decode(bytes.NewReader(m.Thumbnail)); err != nil || picture.Bounds().Dx() != 256 {
					t.Errorf("thumbnail: %v", err)
				}
				if m.Title != title(doc) || m.Application != "Mastwright" || m.Created != "2026-07-14" {
					t.Errorf("of %q by %q, %q", m.Title, m.Application, m.Created)
				}
				var names []string
				var boxes []r3.Box
				for i, item := range m.Items {
					o := m.Objects[item.Object]
					names = append(names, o.Name)
					if want := doc.Number() + "-" + o.Name; o.Number != want {
						t.Errorf("number %q, want %q", o.Number, want)
					}
					shape := o.Mesh.Moved(item.Pose)
					box := shape.Box()
					if at := records[k].Parts[i].At; math.Abs(box.Min.X-at[0]) > 1e-3 || math.Abs(box.Min.Y-at[1]) > 1e-3 {
						t.Errorf("%s lies at %v, results say %v", o.Name, box.Min, at)
					}
					if math.Abs(box.Min.Z) > 1e-9 || box.Min.X < -1e-4 || box.Min.Y < -1e-4 || box.Max.X > 220.0001 || box.Max.Y > 220.0001 {
						t.Errorf("%s lies beside the bed: %v", o.Name, box)
					}
					for _, other := range boxes {
						if gap := max(box.Min.X-other.Max.X, other.Min.X-box.Max.X, box.Min.Y-other.Max.Y, other.Min.Y-box.Max.Y); gap < 4.999 {
							t.Errorf("%s is %g mm from another part", o.Name, gap)
						}
					}
					boxes = append(boxes, box)
				}
				if !slices.Equal(names, c.want[f.Name]) {
					t.Errorf("%s holds %q, want %q", f.Name, names, c.want[f.Name])
				}
			}
			again, _, err := bedOutputs(beds, doc, c.pieces, Options{Sheet: Sheet{Date: "2026-07-14"}})
			if err != nil {
				t.Fatal(err)
			}
			for k := range again {
				if !bytes.Equal(again[k].Data, files[k].Data) {
					t.Errorf("%s differs the second time", files[k].Name)
				}
			}
			var said strings.Builder
			printBeds(&said, records, c.pieces)
			if want := "pole lies on no bed: it needs one of 300 x 20 mm and 20 mm of height."; slices.ContainsFunc(c.pieces, func(p Piece) bool { return p.Part.Name == "pole" }) != strings.Contains(strings.Join(strings.Fields(said.String()), " "), strings.ReplaceAll(capital(want), "Pole", "pole")) {
				t.Errorf("said %s", &said)
			}
		})
	}
}
