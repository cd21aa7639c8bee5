package stl_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/stl"
)

func wedge() *mesh.Mesh {
	return &mesh.Mesh{
		Vertices:  []r3.Vec{{}, {X: 6}, {Y: 6.1}, {Z: 6.2}},
		Triangles: [][3]int32{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
}

func encode(t testing.TB, m *mesh.Mesh, o stl.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := stl.Encode(&b, m, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The layout byte by byte, from the 1989 interface specification.
func TestLayout(t *testing.T) {
	data := encode(t, wedge(), stl.Options{Name: "mast\x00é" + strings.Repeat("x", 100)})
	if len(data) != 84+50*4 {
		t.Fatalf("%d bytes, want 284", len(data))
	}
	if head := string(data[:80]); strings.HasPrefix(head, "solid") || !strings.Contains(head, "mast???x") {
		t.Errorf("header %q", head)
	}
	if n := binary.LittleEndian.Uint32(data[80:]); n != 4 {
		t.Errorf("count %d, want 4", n)
	}
	for i := range 4 {
		var record struct {
			Normal  [3]float32
			Corners [3][3]float32
			Bits    uint16
		}
		if err := binary.Read(bytes.NewReader(data[84+50*i:]), binary.LittleEndian, &record); err != nil {
			t.Fatal(err)
		}
		want := [4][3]float64{{0, 0, -1}, {0, -1, 0}, {-1, 0, 0}}[i]
		if i == 3 { // intercept form of the plane: (1/6, 1/6.1, 1/6.2), unit length
			n := math.Sqrt(1/36.0 + 1/37.21 + 1/38.44)
			want = [3]float64{1 / 6.0 / n, 1 / 6.1 / n, 1 / 6.2 / n}
		}
		for k := range 3 {
			if math.Abs(float64(record.Normal[k])-want[k]) > 1e-6 { // float32
				t.Errorf("normal %d %v, want %v", i, record.Normal, want)
			}
		}
		if record.Bits != 0 {
			t.Errorf("attribute %d, want 0", record.Bits)
		}
	}
}

func TestRoundTrip(t *testing.T) {
	m := wedge()
	data := encode(t, m, stl.Options{})
	got, err := stl.Decode(iotest.OneByteReader(bytes.NewReader(data)), stl.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if want := m.Rounded(); !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if again := encode(t, got, stl.Options{}); !bytes.Equal(again, data) {
		t.Error("the second writing differs")
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
	m := wedge()
	for range 6 { // beyond one buffer
		m.Append(m.Moved(mesh.Move(r3.Vec{X: 100})))
	}
	size := 84 + 50*len(m.Triangles)
	for n := range size {
		room := full(n)
		if err := stl.Encode(&room, m, stl.Options{}); !errors.Is(err, errFull) {
			t.Fatalf("room for %d of %d bytes: %v, want %v", n, size, err, errFull)
		}
	}
	room := full(size)
	if err := stl.Encode(&room, m, stl.Options{}); err != nil {
		t.Errorf("room for all: %v", err)
	}
}

func TestEncodeRefuses(t *testing.T) {
	nan, index, far, needle := wedge(), wedge(), wedge(), wedge()
	nan.Vertices[1].X = math.NaN()
	index.Triangles[1][2] = 4
	far.Vertices[1].X = 2e6
	// Apart by 1e-6 mm at 100 mm, where float32 steps by 7.6e-6 mm.
	needle.Vertices = []r3.Vec{{X: 100}, {X: 100.000001}, {X: 100, Y: 1}, {X: 100, Z: 1}}
	cases := []struct {
		name string
		mesh *mesh.Mesh
		want string
	}{
		{"empty", &mesh.Mesh{}, "0 triangles"},
		{"not a number", nan, "vertex 1 at (NaN, 0, 0) mm"},
		{"index", index, "triangle 1 names vertex 4 of 4"},
		{"far away", far, "vertex 1 at (2e+06, 0, 0) mm"},
		{"no area after rounding", needle, "triangle 0 at (100, 0, 0) mm has no area"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			err := stl.Encode(&b, c.mesh, stl.Options{})
			if err == nil || !strings.Contains(err.Error(), c.want) || b.Len() != 0 {
				t.Errorf("got %v and %d bytes, want %q and none", err, b.Len(), c.want)
			}
		})
	}
}

const text = `solid a part, solid indeed
  facet normal 0 0 1
    outer loop
      vertex 0 0 0
      vertex 1.5e0 0 0
      vertex 0 2 0
    endloop
  endfacet
endsolid a part
`

func TestDecode(t *testing.T) {
	good := encode(t, wedge(), stl.Options{})
	edit := func(at int, b ...byte) string {
		out := bytes.Clone(good)
		copy(out[at:], b)
		return string(out)
	}
	cases := []struct {
		name, data string
		limits     stl.Limits
		triangles  int
		want       string // part of the error
	}{
		{name: "binary", data: string(good), triangles: 4},
		{name: "binary that starts with solid", data: edit(0, []byte("solid")...), triangles: 4},
		{name: "readable", data: text, triangles: 1},
		{name: "readable with other line ends", data: strings.ReplaceAll(text, "\n", "\r\n"), triangles: 1},
		{name: "at the limit", data: string(good), limits: stl.Limits{Bytes: 284}, triangles: 4},
		{name: "beyond the limit", data: string(good), limits: stl.Limits{Bytes: 283}, want: "more than 283 bytes"},
		{name: "nothing", want: "ends after 0 of 84 bytes"},
		{name: "cut in the header", data: string(good[:70]), want: "ends after 70 of 84 bytes"},
		{name: "cut in a triangle", data: string(good[:200]), want: "ends after 2 of 4 triangles, 84 bytes short"},
		{name: "runs on", data: string(good) + "more", want: "4 bytes follow the last of 4 triangles"},
		{name: "count of billions", data: edit(80, 255, 255, 255, 255), want: "ends after 4 of 4294967295 triangles"},
		{name: "not a number", data: edit(84+12, 0, 0, 0xc0, 0x7f), want: "vertex 0 at (NaN, 0, 0) mm"},
		{name: "readable, cut", data: text[:strings.Index(text, "endsolid")], want: "ends without endsolid"},
		{name: "readable, two corners", data: strings.Replace(text, "vertex 0 0 0\n", "\n", 1), want: `line 7: "endloop" is out of place`},
		{name: "readable, four corners", data: strings.Replace(text, "    endloop", "vertex 1 1 1\nendloop", 1), want: `line 7: "vertex 1 1 1" is out of place`},
		{name: "readable, no number", data: strings.Replace(text, "1.5e0", "wide", 1), want: "line 5"},
		{name: "readable, infinite", data: strings.Replace(text, "1.5e0", "inf", 1), want: "vertex 1 at (+Inf, 0, 0) mm"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			m, err := stl.Decode(strings.NewReader(c.data), c.limits)
			if c.want != "" {
				if err == nil || !strings.Contains(err.Error(), c.want) {
					t.Errorf("got %v, want %q in it", err, c.want)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if len(m.Triangles) != c.triangles {
				t.Errorf("%d triangles, want %d", len(m.Triangles), c.triangles)
			}
		})
	}
	if _, err := stl.Decode(iotest.ErrReader(errFull), stl.Limits{}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want the reader's error", err)
	}
}

// Whatever is read is sound, and what can be written reads back the same.
func FuzzDecode(f *testing.F) {
	good := encode(f, wedge(), stl.Options{Name: "seed"})
	f.Add(good)
	f.Add(good[:150])
	f.Add([]byte(text))
	f.Add([]byte("solid\nfacet\nvertex 1 2\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := stl.Decode(bytes.NewReader(data), stl.Limits{Bytes: 1 << 16})
		if err != nil {
			return
		}
		if err := m.Check(); err != nil {
			t.Fatalf("read a bad mesh: %v", err)
		}
		var b bytes.Buffer
		if stl.Encode(&b, m, stl.Options{}) != nil {
			return // empty, or triangles without area
		}
		again, err := stl.Decode(&b, stl.Limits{})
		if err != nil || !reflect.DeepEqual(again, m) {
			t.Errorf("read back %v (%v), want %v", again, err, m)
		}
	})
}

func ExampleEncode() {
	part, err := mesh.Gate(wedge())
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	err = stl.Encode(&file, part, stl.Options{Name: "wedge"})
	fmt.Println(file.Len(), err)
	// Output: 284 <nil>
}

func ExampleDecode() {
	m, err := stl.Decode(strings.NewReader(text), stl.Limits{})
	fmt.Println(m.Area(), "mm²", err)
	// Output: 1.5 mm² <nil>
}

func BenchmarkEncode(b *testing.B) {
	m := wedge()
	for range 12 {
		m.Append(m.Moved(mesh.Move(r3.Vec{X: 7})))
	}
	b.SetBytes(int64(84 + 50*len(m.Triangles)))
	for b.Loop() {
		if err := stl.Encode(new(bytes.Buffer), m, stl.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
