package threemf_test

import (
	"archive/zip"
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
	"strings"
	"testing"
	"testing/iotest"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/threemf"
)

// box is a box with a corner at the origin.
func box(x, y, z float64) *mesh.Mesh {
	m := &mesh.Mesh{Triangles: [][3]int32{
		{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
		{2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5},
	}}
	for k := range 8 {
		m.Vertices = append(m.Vertices, r3.Vec{X: x * float64(k&1), Y: y * float64(k>>1&1), Z: z * float64(k>>2)})
	}
	return m
}

func wedge() *mesh.Mesh {
	return &mesh.Mesh{
		Vertices:  []r3.Vec{{}, {X: 6.123456}, {Y: 6.1}, {Z: 6.2}},
		Triangles: [][3]int32{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
}

// bed holds a wedge and two boxes, the second turned by a quarter.
func bed() threemf.Model {
	return threemf.Model{
		Title: "Seven <inch> & o'more", Application: "Mastwright",
		Objects: []threemf.Object{{Name: `tray "A"`, Number: "A7-2", Mesh: box(40, 20, 3)}, {Name: "foot", Number: "A7-1", Mesh: wedge()}},
		Items: []threemf.Item{
			{Object: 0, Pose: mesh.Move(r3.Vec{})},
			{Object: 0, Pose: mesh.Turn(r3.Vec{Z: 1}, math.Pi/2).Then(mesh.Move(r3.Vec{X: 70, Y: 5.00004}))},
			{Object: 1, Pose: mesh.Move(r3.Vec{X: 80, Y: 1.5})},
		},
		Thumbnail: []byte("\x89PNG\r\n\x1a\nand so on"),
	}
}

func encode(t testing.TB, m threemf.Model) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := threemf.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func entries(t testing.TB, data []byte) (names []string, text map[string]string) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	text = map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		names, text[f.Name] = append(names, f.Name), string(b)
		if got := f.Modified.UTC().Format("2006-01-02 15:04:05"); got != "1980-01-01 00:00:00" {
			t.Errorf("%s is of %s", f.Name, got)
		}
	}
	return names, text
}

// The package and its model as the 3MF core specification 1.3 (chapters 2 to 4, relationships and content types in its
// appendix C) says, written down by hand.
func TestLayout(t *testing.T) {
	m := bed()
	m.Objects[0].Mesh = wedge()
	m.Objects, m.Items = m.Objects[:1], m.Items[:2]
	names, text := entries(t, encode(t, m))
	if want := []string{"[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model", "Metadata/thumbnail.png"}; !reflect.DeepEqual(names, want) {
		t.Errorf("entries %q, want %q", names, want)
	}
	for _, want := range []string{
		`Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"`,
		`Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"`,
		`Extension="png" ContentType="image/png"`,
	} {
		if !strings.Contains(text[names[0]], want) {
			t.Errorf("no %s in %s", want, text[names[0]])
		}
	}
	for _, want := range []string{
		`Target="/3D/3dmodel.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"`,
		`Target="/Metadata/thumbnail.png" Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail"`,
	} {
		if !strings.Contains(text[names[1]], want) {
			t.Errorf("no %s in %s", want, text[names[1]])
		}
	}
	// a quarter turn takes x to y and y to -x
	want := `<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
 <metadata name="Title">Seven &lt;inch&gt; &amp; o'more</metadata>
 <metadata name="Application">Mastwright</metadata>
 <resources>
  <object id="1" type="model" name="tray &quot;A&quot;" partnumber="A7-2">
   <mesh>
    <vertices>
     <vertex x="0" y="0" z="0"/>
     <vertex x="0" y="6.1" z="0"/>
     <vertex x="6.1235" y="0" z="0"/>
     <vertex x="0" y="0" z="6.2"/>
    </vertices>
    <triangles>
     <triangle v1="0" v2="1" v3="2"/>
     <triangle v1="0" v2="2" v3="3"/>
     <triangle v1="0" v2="3" v3="1"/>
     <triangle v1="2" v2="1" v3="3"/>
    </triangles>
   </mesh>
  </object>
 </resources>
 <build>
  <item objectid="1"/>
  <item objectid="1" transform="0 1 0 -1 0 0 0 0 1 70 5 0"/>
 </build>
</model>
`
	if got := text["3D/3dmodel.model"]; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestRoundTrip(t *testing.T) {
	m := bed()
	m.Created = "2026-01-31"
	data := encode(t, m)
	got, err := threemf.Decode(iotest.OneByteReader(bytes.NewReader(data)), threemf.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if got.Title != m.Title || got.Application != m.Application || got.Created != m.Created || !bytes.Equal(got.Thumbnail, m.Thumbnail) {
		t.Errorf("got %q, %q, %q", got.Title, got.Application, got.Created)
	}
	for i, o := range got.Objects {
		want := m.Objects[i]
		if o.Name != want.Name || o.Number != want.Number || len(o.Mesh.Triangles) != len(want.Mesh.Triangles) {
			t.Errorf("object %d: got %q, %q", i, o.Name, o.Number)
		}
		// half of the fourth decimal in every direction
		if d := math.Abs(o.Mesh.Volume() - want.Mesh.Volume()); d > 0.5e-4*want.Mesh.Area() {
			t.Errorf("object %d: volume off by %g mm³", i, d)
		}
	}
	for i, item := range got.Items {
		want := m.Items[i].Pose.Apply(r3.Vec{X: 1, Y: 2, Z: 3})
		if d := r3.Norm(r3.Sub(item.Pose.Apply(r3.Vec{X: 1, Y: 2, Z: 3}), want)); d > 1e-4 || item.Object != m.Items[i].Object {
			t.Errorf("item %d: a point is %g mm off", i, d)
		}
	}
	if again := encode(t, got); !bytes.Equal(again, data) {
		t.Error("the second writing differs")
	}
}

// A part that is flat in four decimals has as many more as it needs.
func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		height float64
		want   string
	}{{6.20004, "6.2"}, {0.0001, "0.0001"}, {0.00004, "0.00004"}, {0.00001234, "0.00001"}, {0.0000031234, "0.000003"}} {
		m := bed()
		m.Objects[1].Mesh.Vertices[3].Z = c.height
		data := encode(t, m)
		_, text := entries(t, data)
		if !strings.Contains(text["3D/3dmodel.model"], `z="`+c.want+`"/>`) {
			t.Errorf("a height of %g mm is not written as %s", c.height, c.want)
		}
		got, err := threemf.Decode(bytes.NewReader(data), threemf.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		if d := got.Objects[1].Mesh.Inspect(mesh.Options{}); !d.None() {
			t.Errorf("a height of %g mm: %q", c.height, d.Describe(got.Objects[1].Mesh))
		}
	}
}

func TestEncodeRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		spoil  func(m *threemf.Model)
		saying string
	}{
		{"nothing", func(m *threemf.Model) { *m = threemf.Model{} }, "0 parts and 0 copies"},
		{"no items", func(m *threemf.Model) { m.Items = nil }, "2 parts and 0 copies"},
		{"no name", func(m *threemf.Model) { m.Objects[0].Name = "" }, `part 0 is named ""`},
		{"a bell in the name", func(m *threemf.Model) { m.Objects[0].Name = "tray\a" }, `part 0 is named "tray\a"`},
		{"a broken letter", func(m *threemf.Model) { m.Title = "\xff" }, "title"},
		{"two of a name", func(m *threemf.Model) { m.Objects[0].Name = "foot" }, `two parts named "foot"`},
		{"two of a number", func(m *threemf.Model) { m.Objects[0].Number = "A7-1" }, `the number "A7-1"`},
		{"no mesh", func(m *threemf.Model) { m.Objects[0].Mesh = nil }, `part "tray \"A\"": it has no mesh`},
		{"open", func(m *threemf.Model) { m.Objects[1].Mesh.Triangles = m.Objects[1].Mesh.Triangles[1:] }, `part "foot": it does not bound a solid: 3 open edges`},
		{"inside out", func(m *threemf.Model) {
			for i, t := range m.Objects[1].Mesh.Triangles {
				m.Objects[1].Mesh.Triangles[i] = [3]int32{t[0], t[2], t[1]}
			}
		}, "turned inside out"},
		{"not a number", func(m *threemf.Model) { m.Objects[1].Mesh.Vertices[0].X = math.NaN() }, "vertex 0 at (NaN"},
		{"too thin for any decimal", func(m *threemf.Model) { m.Objects[1].Mesh.Vertices[3].Z = 1e-9 }, "it does not bound a solid"},
		{"an item of nothing", func(m *threemf.Model) { m.Items[0].Object = 2 }, "copy 0 is of part 2 of 2"},
		{"an item that is flat", func(m *threemf.Model) { m.Items[0].Pose = mesh.Pose{} }, "copy 0 of part \"tray \\\"A\\\"\" is stretched"},
		{"an item that is mirrored", func(m *threemf.Model) { m.Items[0].Pose.X.X = -1 }, "mirrored"},
		{"an item that is nowhere", func(m *threemf.Model) { m.Items[0].Pose.At.X = math.NaN() }, "out of reach"},
		{"a thumbnail of another kind", func(m *threemf.Model) { m.Thumbnail = []byte("GIF89a") }, "no PNG"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := bed()
			c.spoil(&m)
			var b bytes.Buffer
			err := threemf.Encode(&b, m)
			if err == nil || !strings.Contains(err.Error(), c.saying) || b.Len() != 0 {
				t.Errorf("got %v and %d bytes, want %q and none", err, b.Len(), c.saying)
			}
		})
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
	size := len(encode(t, bed()))
	for n := range size {
		room := full(n)
		if err := threemf.Encode(&room, bed()); !errors.Is(err, errFull) {
			t.Fatalf("room for %d of %d bytes: %v, want %v", n, size, err, errFull)
		}
	}
}

// around puts a model's text into a package.
func around(t testing.TB, model string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, e := range [][2]string{
		{"3D/a.model", model},
		{"_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Target="/3D/a.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`},
	} {
		w, err := z.Create(e[0])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, e[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

const small = `<model xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02" xmlns:e="urn:e"><resources>
<basematerials id="9"><base name="x" displaycolor="#000000"/></basematerials><e:more/>
<object id="7"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1e1" y="0" z="0"/><vertex x="0" y="2.5" z="0"/><vertex x="0" y="0" z="1"/></vertices>
<triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles></mesh></object>
</resources><build><item objectid="7" transform="1 0 0 0 1 0 0 0 1 5 6 7"/></build></model>`

func TestDecode(t *testing.T) {
	m, err := threemf.Decode(bytes.NewReader(around(t, small)), threemf.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	// a sixth of 10 · 2.5 · 1
	if v := m.Objects[0].Mesh.Volume(); math.Abs(v-25.0/6) > 1e-12 || m.Items[0].Pose.At != (r3.Vec{X: 5, Y: 6, Z: 7}) {
		t.Errorf("volume %g, at %v", v, m.Items[0].Pose.At)
	}
	good := string(encode(t, bed()))
	edit := func(old, new string) string { return string(around(t, strings.Replace(small, old, new, 1))) }
	for _, c := range []struct {
		name, data string
		limits     threemf.Limits
		want       string
	}{
		{name: "nothing", want: "zip"},
		{name: "cut", data: good[:len(good)/2], want: "zip"},
		{name: "a package too large", data: good, limits: threemf.Limits{Bytes: int64(len(good)) - 1}, want: "more than"},
		{name: "a model too large", data: good, limits: threemf.Limits{Model: 500}, want: "more than 500 bytes"},
		{name: "a bomb", data: string(around(t, strings.Repeat(" ", 1<<20))), limits: threemf.Limits{Model: 1 << 19}, want: "3D/a.model: more than 524288 bytes"},
		{name: "not a model", data: string(around(t, "<svg/>")), want: `"svg" in "" is no model`},
		{name: "XML that ends", data: edit("</build></model>", ""), want: "line 5"},
		{name: "a document type", data: string(around(t, "<!DOCTYPE x>"+small)), want: "document type"},
		{name: "inches", data: edit("<model ", `<model unit="inch" `), want: `the unit is "inch"`},
		{name: "an extension", data: edit("<model ", `<model requiredextensions="e" `), want: `requires the extension "e"`},
		{name: "no object", data: string(around(t, strings.NewReplacer("<object", "<e:object", "</object", "</e:object").Replace(small))), want: `an item is of object "7", which is not there`},
		{name: "id 0", data: edit(`<object id="7"`, `<object id="0"`), want: `an object's id is "0"`},
		{name: "components", data: edit("<mesh>", "<components/><mesh>"), want: "components"},
		{name: "an item of nothing", data: edit(`objectid="7"`, `objectid="9"`), want: `an item is of object "9"`},
		{name: "short transform", data: edit(" 5 6 7", " 5 6"), want: "11 numbers"},
		{name: "wild transform", data: edit(" 5 6 7", " 5 6 nan"), want: `"nan"`},
		{name: "an index beyond", data: edit(`v3="1"`, `v3="4"`), want: `v3 is "4" of 4 vertices`},
		{name: "a negative index", data: edit(`v3="1"`, `v3="-1"`), want: `v3 is "-1"`},
		{name: "a vertex twice", data: edit(`v3="1"`, `v3="2"`), want: "triangle 0 names a vertex twice"},
		{name: "no number", data: edit(`x="1e1"`, `x="ten"`), want: `vertex 1: x is "ten"`},
		{name: "not finite", data: edit(`x="1e1"`, `x="inf"`), want: "vertex 1 at (+Inf"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := threemf.Decode(strings.NewReader(c.data), c.limits)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q in it", err, c.want)
			}
		})
	}
	if _, err := threemf.Decode(iotest.ErrReader(errFull), threemf.Limits{}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want the reader's error", err)
	}
}

// sound checks that what was read is sound, and that what can be written reads back the same.
func sound(t *testing.T, data []byte) {
	m, err := threemf.Decode(bytes.NewReader(data), threemf.Limits{Bytes: 1 << 16, Model: 1 << 20})
	if err != nil {
		return
	}
	for _, o := range m.Objects {
		if err := o.Mesh.Check(); err != nil {
			t.Fatalf("read a bad mesh: %v", err)
		}
	}
	var first, second bytes.Buffer
	if threemf.Encode(&first, m) != nil {
		return // names missing, surfaces open
	}
	again, err := threemf.Decode(bytes.NewReader(first.Bytes()), threemf.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if err := threemf.Encode(&second, again); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Errorf("the second writing differs: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	good := encode(f, bed())
	f.Add(good)
	f.Add(good[:len(good)-30])
	f.Add(around(f, small))
	f.Fuzz(sound)
}

func FuzzReadModel(f *testing.F) {
	_, text := entries(f, encode(f, bed()))
	f.Add(text["3D/3dmodel.model"])
	f.Add(small)
	f.Add(small[:300])
	f.Fuzz(func(t *testing.T, model string) { sound(t, around(t, model)) })
}

// TestAgainstLoader has a loader, an XML parser and a mesh library from outside this project read a package.
func TestAgainstLoader(t *testing.T) {
	if os.Getenv("MASTWRIGHT_NODE_MODULES") == "" {
		t.Skip("no loader to read with: install the npm packages three, linkedom and manifold-3d and name their node_modules folder in MASTWRIGHT_NODE_MODULES")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node to run the loader with: ", err)
	}
	m := bed()
	m.Thumbnail = nil
	name := filepath.Join(t.TempDir(), "bed.3mf")
	if err := os.WriteFile(name, encode(t, m), 0o666); err != nil {
		t.Fatal(err)
	}
	command := exec.Command(node, "testdata/read.mjs", name)
	command.Stderr = os.Stderr
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	type seen struct {
		Name             string
		Min, Max         [3]float64
		Triangles, Genus int
		Volume           float64
	}
	var got []seen
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	want := []seen{ // by hand; the turned box lies left of x = 70
		{`tray "A"`, [3]float64{0, 0, 0}, [3]float64{40, 20, 3}, 12, 0, 2400},
		{`tray "A"`, [3]float64{50, 5, 0}, [3]float64{70, 45, 3}, 12, 0, 2400},
		{"foot", [3]float64{80, 1.5, 0}, [3]float64{86.1235, 7.6, 6.2}, 4, 0, 6.1235 * 6.1 * 6.2 / 6},
	}
	if len(got) != len(want) {
		t.Fatalf("%d items, want %d: %s", len(got), len(want), out)
	}
	for i, w := range want {
		g := got[i]
		if g.Name != w.Name || g.Triangles != w.Triangles || g.Genus != w.Genus || math.Abs(g.Volume-w.Volume) > 1e-5*w.Volume { // float32
			t.Errorf("item %d: got %+v, want %+v", i, g, w)
		}
		for k := range 3 {
			if math.Abs(g.Min[k]-w.Min[k]) > 1e-4 || math.Abs(g.Max[k]-w.Max[k]) > 1e-4 { // the fourth decimal
				t.Errorf("item %d: from %v to %v, want %v to %v", i, g.Min, g.Max, w.Min, w.Max)
				break
			}
		}
	}
}

// TestAgainstConsortium has the 3MF Consortium's own library read a package in its strict mode.
func TestAgainstConsortium(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil || exec.Command(python, "-c", "import ctypes; ctypes.CDLL('lib3MF.so.1')").Run() != nil {
		t.Skip("no reference library to read with: install python3 and the Debian package lib3mf1")
	}
	m := bed()
	m.Thumbnail = nil
	name := filepath.Join(t.TempDir(), "bed.3mf")
	if err := os.WriteFile(name, encode(t, m), 0o666); err != nil {
		t.Fatal(err)
	}
	command := exec.Command(python, "testdata/read.py", name)
	command.Stderr = os.Stderr
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	type seen struct {
		Name, Number        string
		Solid               bool // two-manifold, and oriented
		Vertices, Triangles int
		Transform           [12]float64 // by columns of the specification's matrix
	}
	var got struct {
		Warnings, Unit int // 1: millimetre
		Items          []seen
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	want := []seen{
		{`tray "A"`, "A7-2", true, 8, 12, [12]float64{1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0}},
		{`tray "A"`, "A7-2", true, 8, 12, [12]float64{0, -1, 0, 70, 1, 0, 0, 5, 0, 0, 1, 0}},
		{"foot", "A7-1", true, 4, 4, [12]float64{1, 0, 0, 80, 0, 1, 0, 1.5, 0, 0, 1, 0}},
	}
	if got.Warnings != 0 || got.Unit != 1 || !reflect.DeepEqual(got.Items, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func ExampleEncode() {
	var file bytes.Buffer
	err := threemf.Encode(&file, threemf.Model{
		Title:   "two boxes",
		Objects: []threemf.Object{{Name: "box", Mesh: box(10, 20, 30)}},
		Items:   []threemf.Item{{Object: 0, Pose: mesh.Move(r3.Vec{})}, {Object: 0, Pose: mesh.Move(r3.Vec{X: 15})}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := threemf.Decode(&file, threemf.Limits{})
	fmt.Println(len(m.Objects), len(m.Items), m.Objects[0].Mesh.Volume(), "mm³", err)
	// Output: 1 2 6000 mm³ <nil>
}

func BenchmarkEncode(b *testing.B) {
	shape := box(4, 5, 6)
	for range 12 {
		shape.Append(shape.Moved(mesh.Move(r3.Vec{X: shape.Box().Max.X + 1})))
	}
	m := threemf.Model{Objects: []threemf.Object{{Name: "boxes", Mesh: shape}}, Items: []threemf.Item{{Pose: mesh.Move(r3.Vec{})}}}
	b.ReportMetric(float64(len(shape.Triangles)), "triangles")
	for b.Loop() {
		if err := threemf.Encode(io.Discard, m); err != nil {
			b.Fatal(err)
		}
	}
}
