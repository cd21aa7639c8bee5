package build

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/parts"
	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/threemf"
)

// cutParts are a plate made twice and a smaller one from the same sheet, one of another thickness, and a tube.
func cutParts(t *testing.T, kerf float64) []parts.Part {
	t.Helper()
	plate := func(name string, thickness float64, copies int, o outline.Outline) parts.Part {
		drawn, err := o.Kerf(kerf)
		if err != nil {
			t.Fatal(err)
		}
		return parts.Part{Name: name, Making: parts.Cut, Material: "petg", Copies: copies, Outline: o, Drawing: drawn, Thickness: thickness,
			Body: parts.Body{Plastic: o.Area() * thickness}, Notes: []string{"sand its edges wet"}}
	}
	return []parts.Part{
		plate("plate", 2, 2, outline.Plate(outline.RoundedRectangle(100, 30, 4), outline.Circle(1.6).Translate(-40, 0))),
		plate("tab", 2, 1, outline.Plate(outline.Rectangle(20, 10))),
		plate("leg", 2.5, 4, outline.Plate(outline.Rectangle(12, 80))),
		{Name: "tube", Making: parts.Stock, Material: "petg", Copies: 1, Size: "10/8 mm tube", Length: 84.5, Body: parts.Body{Plastic: 1000}},
	}
}

func TestDrawings(t *testing.T) {
	doc := firstExample(t)
	sheets := blanks(cutParts(t, 0.2))
	if len(sheets) != 2 {
		t.Fatalf("%d sheets, want 2", len(sheets))
	}
	for i, want := range []struct {
		names  []string
		pieces int
		area   float64 // of what is cut out, with half the kerf around: Steiner's formula
	}{
		{[]string{"sheet_petg_2mm.dxf", "sheet_petg_2mm.svg"}, 3,
			2*(3000-(4-math.Pi)*16+0.1*(260-8*4+2*math.Pi*4)+math.Pi*0.01-math.Pi*1.5*1.5) + 200 + 0.1*60 + math.Pi*0.01},
		{[]string{"sheet_petg_2.5mm.dxf", "sheet_petg_2.5mm.svg"}, 4, 4 * (960 + 0.1*184 + math.Pi*0.01)},
	} {
		files, err := sheets[i].outputs(doc, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for k, f := range files {
			if f.Name != want.names[k] {
				t.Errorf("file %s, want %s", f.Name, want.names[k])
			}
			if !strings.Contains(string(f.Data), "1 unit = 1 mm; a kerf of 0.2 mm is in the lines") {
				t.Errorf("%s says neither its unit nor its kerf", f.Name)
			}
		}
		flat, err := sheets[i].outputs(doc, Options{Flatten: true})
		if err != nil || strings.Contains(string(flat[0].Data), "CIRCLE") {
			t.Errorf("a flattened file has circles (%v)", err)
		}
		d, err := sheets[i].drawing(doc)
		if err != nil {
			t.Fatal(err)
		}
		area := 0.0
		for _, o := range d.Cut {
			area += o.Area()
		}
		if len(d.Cut) != want.pieces || math.Abs(area-want.area) > 1e-6 {
			t.Errorf("%d pieces of %g mm², want %d of %g", len(d.Cut), area, want.pieces, want.area)
		}
	}
}

func TestCutList(t *testing.T) {
	list, err := cutRecords(firstExample(t), cutParts(t, 0.2))
	if err != nil {
		t.Fatal(err)
	}
	data, err := cutList(list)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range rows {
		got = append(got, strings.Join(append(r[:6:6], r[7]), "|"))
	}
	want := []string{
		"part|copies|material|from|length_mm|width_mm|files",
		"plate|2|petg|2 mm sheet|100|30|sheet_petg_2mm.dxf sheet_petg_2mm.svg",
		"tab|1|petg|2 mm sheet|20|10|sheet_petg_2mm.dxf sheet_petg_2mm.svg",
		"leg|4|petg|2.5 mm sheet|80|12|sheet_petg_2.5mm.dxf sheet_petg_2.5mm.svg",
		"tube|1|petg|10/8 mm tube|84.5||",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	var said strings.Builder
	printCuts(&said, list)
	for _, want := range []string{"4 of petg, 2.5 mm sheet, 80 x 12 mm", "10/8 mm tube, 84.5 mm long", "sand its edges wet."} {
		if !strings.Contains(strings.Join(strings.Fields(said.String()), " "), want) {
			t.Errorf("no %q in\n%s", want, &said)
		}
	}
}

// Wherever the disk fills up in the files of beds, sheets and the cut list, the folder stays as it was: without a file of them, new
// or half written.
func TestFullDiskAtEveryByte(t *testing.T) {
	doc := firstExample(t)
	shape := block("foot", "petg", 50, 40, 8, 2)
	var bed bytes.Buffer // without its thumbnail, which is most of it
	if err := threemf.Encode(&bed, threemf.Model{Objects: []threemf.Object{{Name: "foot", Mesh: shape.mesh}}, Items: []threemf.Item{{Pose: mesh.Move(r3.Vec{})}}}); err != nil {
		t.Fatal(err)
	}
	files := []output{{"parts.3mf", bed.Bytes()}}
	for _, b := range blanks(cutParts(t, 0)[1:2]) {
		drawn, err := b.outputs(doc, Options{})
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, drawn...)
	}
	list, err := cutRecords(doc, cutParts(t, 0))
	if err != nil {
		t.Fatal(err)
	}
	table, err := cutList(list)
	if err != nil {
		t.Fatal(err)
	}
	files = run(t, append(files, output{CutListName, table})...)
	size := 0
	for _, f := range files {
		size += len(f.Data)
	}
	dir := t.TempDir()
	old := run(t, text("parts.3mf", "old"))
	if _, err := (Folder{Path: dir}).replace(old); err != nil {
		t.Fatal(err)
	}
	before := names(t, dir)
	for at := range size {
		room := at
		f := Folder{Path: dir, create: func(name string) (io.WriteCloser, error) {
			file, err := createNew(name)
			return full{file, &room}, err
		}}
		if _, err := f.replace(files); err == nil || !strings.Contains(err.Error(), "nothing in the folder was changed") {
			t.Fatalf("room for %d of %d bytes: said %v", at, size, err)
		}
		if got := names(t, dir); !slices.Equal(got, before) {
			t.Fatalf("room for %d of %d bytes: folder holds %q, want %q as before", at, size, got, before)
		}
	}
	holds(t, filepath.Join(dir, "parts.3mf"), "old")
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 2 {
		t.Errorf("%d files are left (%v)", len(entries), err)
	}
}
