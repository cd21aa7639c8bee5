package mesh_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"mastwright/mesh"
)

func TestInspectSound(t *testing.T) {
	void := cube(2, 2, 2, 1)
	turnOver(void)
	cases := []struct {
		name              string
		mesh              *mesh.Mesh
		components, genus int
	}{
		{"box", cube(0, 0, 0, 1), 1, 0},
		{"sphere", sphere(10, 12), 1, 0},
		{"torus", torus(10, 3, 24), 1, 1},
		{"cylinder with hole", tube(5, 2, 7, 30), 1, 1},
		{"two boxes apart", join(cube(0, 0, 0, 1), cube(2, 0, 0, 1)), 2, 0},
		{"two rings", join(torus(10, 3, 24), torus(40, 3, 24)), 2, 2},
		{"box with a void", join(cube(0, 0, 0, 5), void), 2, 0},
		{"box in a void in a box", join(cube(0, 0, 0, 5), void, cube(2.25, 2.25, 2.25, 0.5)), 3, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := c.mesh.Inspect(mesh.Options{})
			want := mesh.Defects{Components: c.components, Genus: c.genus}
			if !reflect.DeepEqual(got, want) || !got.None() {
				t.Errorf("got %+v, want %+v", got, want)
			}
			if _, err := mesh.Gate(c.mesh); err != nil {
				t.Errorf("gate: %v", err)
			}
		})
	}
}

func TestInspectFaults(t *testing.T) {
	open := cube(0, 0, 0, 1)
	open.Triangles = append(open.Triangles[:2:2], open.Triangles[4:]...) // without its top, 4 5 7 6

	flipped := cube(0, 0, 0, 1)
	flipped.Triangles[0] = [3]int32{0, 3, 2} // was 0 2 3

	insideOut := cube(0, 0, 0, 1)
	turnOver(insideOut)

	twice := cube(0, 0, 0, 1)
	twice.Triangles = append(twice.Triangles, [3]int32{2, 3, 0})

	pillow := &mesh.Mesh{Vertices: []r3.Vec{{}, {X: 1}, {Y: 1}}, Triangles: [][3]int32{{0, 1, 2}, {0, 2, 1}}}

	broken := cube(0, 0, 0, 1)
	broken.Triangles = append(broken.Triangles, [3]int32{0, 1, 99})

	// A needle from 0 over the middle of the edge to 1: closed, but without area,
	// and its middle touches the face beyond.
	needle := cube(0, 0, 0, 2)
	needle.Vertices = append(needle.Vertices, r3.Vec{X: 1})
	needle.Triangles[1] = [3]int32{0, 3, 8} // was 0 3 1
	needle.Triangles = append(needle.Triangles, [3]int32{8, 3, 1}, [3]int32{0, 8, 1})

	// A fin: the sheet 0 1 2 doubled back along 0 2 over itself.
	fold := &mesh.Mesh{Vertices: []r3.Vec{{}, {X: 4}, {Y: 4}, {X: 1, Y: 1}}, Triangles: [][3]int32{{0, 1, 2}, {0, 2, 3}}}

	cases := []struct {
		name string
		mesh *mesh.Mesh
		want mesh.Defects
	}{
		{"open box", open, mesh.Defects{Boundary: []mesh.Edge{{4, 5}, {4, 6}, {5, 7}, {6, 7}}, Components: 1}},
		{"flipped triangle", flipped, mesh.Defects{Misoriented: []mesh.Edge{{0, 2}, {0, 3}, {2, 3}}, Components: 1}},
		{"inside out", insideOut, mesh.Defects{InsideOut: []int{0}, Components: 1}},
		{"two boxes sharing an edge", join(cube(0, 0, 0, 1), cube(1, 1, 0, 1)).Weld(),
			mesh.Defects{NonManifold: []mesh.Edge{{1, 5}}, Components: 1}},
		{"two boxes sharing a corner", join(cube(0, 0, 0, 1), cube(1, 1, 1, 1)).Weld(),
			mesh.Defects{Pinched: []int{4}, Components: 2}},
		{"same triangle twice", twice, mesh.Defects{Duplicate: []int{12}, NonManifold: []mesh.Edge{{0, 2}, {0, 3}, {2, 3}}, Components: 1}},
		{"two-sided triangle", pillow, mesh.Defects{Duplicate: []int{1}, Components: 1}},
		{"missing corner", broken, mesh.Defects{Broken: []int{12}, Components: 1}},
		{"needle", needle, mesh.Defects{Flat: []int{13}, Crossing: [][2]int{{1, 4}, {4, 12}}, Components: 1}},
		{"fold", fold, mesh.Defects{Folded: [][2]int{{0, 1}}, Boundary: []mesh.Edge{{0, 1}, {0, 3}, {1, 2}, {2, 3}}, Components: 1}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := c.mesh.Inspect(mesh.Options{})
			if c.name == "two boxes sharing an edge" || c.name == "two boxes sharing a corner" {
				// Indices after welding follow the first use: compare by place.
				if len(got.NonManifold) != len(c.want.NonManifold) || len(got.Pinched) != len(c.want.Pinched) || len(got.Crossing) != 0 {
					t.Fatalf("got %+v, want %+v", got, c.want)
				}
				for _, e := range got.NonManifold {
					if a, b := c.mesh.Vertices[e[0]], c.mesh.Vertices[e[1]]; a.X != 1 || a.Y != 1 || b.X != 1 || b.Y != 1 {
						t.Errorf("edge %v %v, want x = y = 1", a, b)
					}
				}
				for _, v := range got.Pinched {
					if at := c.mesh.Vertices[v]; at != (r3.Vec{X: 1, Y: 1, Z: 1}) {
						t.Errorf("pinched at %v, want (1, 1, 1)", at)
					}
				}
				got.NonManifold, got.Pinched = c.want.NonManifold, c.want.Pinched
			}
			if !reflect.DeepEqual(got, c.want) || got.None() {
				t.Errorf("got %+v, want %+v", got, c.want)
			}
			if _, err := mesh.Gate(c.mesh); err == nil {
				t.Error("the gate let it pass")
			}
		})
	}
}

// Two unit boxes shifted by (a, b, c) cross where faces cut faces. The count
// is that of an exact separating-axis test on every pair.
func TestInspectCrossings(t *testing.T) {
	cases := []struct {
		name string
		mesh *mesh.Mesh
	}{
		{"boxes one in another", join(cube(0, 0, 0, 4), cube(2, 1, 3, 4))},
		{"boxes on one another", join(cube(0, 0, 0, 4), cube(1, 1, 4, 2))},
		{"boxes face to face", join(cube(0, 0, 0, 4), cube(0, 0, 4, 4))},
		{"same box twice", join(cube(0, 0, 0, 4), cube(0, 0, 0, 4))},
		{"corner touching a face", join(cube(0, 0, 0, 4), &mesh.Mesh{
			Vertices:  []r3.Vec{{X: 1, Y: 1, Z: 4}, {X: 1, Y: 2, Z: 6}, {X: 2, Y: 1, Z: 6}},
			Triangles: [][3]int32{{0, 1, 2}},
		})},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var want [][2]int
			for i := range 12 {
				for j := 12; j < len(c.mesh.Triangles); j++ {
					if !separated(corners(c.mesh, i), corners(c.mesh, j)) {
						want = append(want, [2]int{i, j})
					}
				}
			}
			got := c.mesh.Inspect(mesh.Options{})
			if len(want) == 0 || !reflect.DeepEqual(got.Crossing, want) {
				t.Errorf("got %v, want %v", got.Crossing, want)
			}
			if _, err := mesh.Gate(c.mesh); err == nil {
				t.Error("the gate let it pass")
			}
		})
	}
}

// Random triangles on a small integer grid, where touching, coplanar and
// collinear cases are common, against the separating-axis test in integers.
func TestCrossingAgainstSeparatingAxes(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, common := range []int{0, 1} {
		outcomes := map[bool]int{}
		for range 20000 {
			v := make([]r3.Vec, 6-common)
			for i := range v {
				v[i] = r3.Vec{X: float64(random.IntN(4)), Y: float64(random.IntN(4)), Z: float64(random.IntN(3))}
			}
			m := &mesh.Mesh{Vertices: v, Triangles: [][3]int32{{0, 1, 2}, {3, 4, 5}}}
			if common == 1 {
				m.Triangles[1] = [3]int32{3, 0, 4}
			}
			d := m.Inspect(mesh.Options{})
			if len(d.Flat) > 0 {
				continue
			}
			first, second := corners(m, 0), corners(m, 1)
			if common == 1 { // the first triangle cut off close to the common corner
				const near = 1000 // parts of an edge; whole numbers throughout
				first = []r3.Vec{r3.Add(r3.Scale(near-1, v[0]), v[1]), r3.Scale(near, v[1]), r3.Scale(near, v[2]), r3.Add(r3.Scale(near-1, v[0]), v[2])}
				for i := range second {
					second[i] = r3.Scale(near, second[i])
				}
			}
			want := !separated(first, second)
			if got := len(d.Crossing) > 0; got != want {
				t.Errorf("%v, %d common: crossing %v, want %v", v, common, got, want)
			}
			outcomes[want]++
		}
		if outcomes[true] < 1000 || outcomes[false] < 1000 {
			t.Errorf("%d common: outcomes %v are one-sided", common, outcomes)
		}
	}
}

func corners(m *mesh.Mesh, i int) []r3.Vec {
	t := m.Triangles[i]
	return []r3.Vec{m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]}
}

// separated reports whether a plane lies strictly between two convex plane
// polygons: its normal is a face normal, a cross product of two edges, or
// lies in a face across an edge. Exact for small whole coordinates.
// Source: S. Gottschalk, M. Lin, D. Manocha, "OBBTree", SIGGRAPH 1996.
func separated(p, q []r3.Vec) bool {
	edges := func(p []r3.Vec) (out []r3.Vec) {
		for i := range p {
			out = append(out, r3.Sub(p[(i+1)%len(p)], p[i]))
		}
		return out
	}
	ep, eq := edges(p), edges(q)
	np, nq := r3.Cross(ep[0], ep[1]), r3.Cross(eq[0], eq[1])
	axes := []r3.Vec{np, nq}
	for _, a := range ep {
		axes = append(axes, r3.Cross(np, a))
		for _, b := range eq {
			axes = append(axes, r3.Cross(a, b))
		}
	}
	for _, b := range eq {
		axes = append(axes, r3.Cross(nq, b))
	}
	span := func(p []r3.Vec, axis r3.Vec) (low, high float64) {
		low, high = math.Inf(1), math.Inf(-1)
		for _, v := range p {
			low, high = min(low, r3.Dot(v, axis)), max(high, r3.Dot(v, axis))
		}
		return low, high
	}
	for _, axis := range axes {
		lp, hp := span(p, axis)
		lq, hq := span(q, axis)
		if hp < lq || hq < lp {
			return true
		}
	}
	return false
}

func turnOver(m *mesh.Mesh) {
	for i, t := range m.Triangles {
		m.Triangles[i] = [3]int32{t[0], t[2], t[1]}
	}
}

func TestInspectUnderRigidMotion(t *testing.T) {
	m := join(cube(0, 0, 0, 4), cube(1.9, 1.3, 2.7, 4)) // nothing merely touches
	want := m.Inspect(mesh.Options{})
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-3, 3).Draw(rt, name) }
		p := mesh.Turn(r3.Vec{X: f("x"), Y: f("y"), Z: 4}, f("angle")).Then(mesh.Move(r3.Vec{X: f("dx"), Y: f("dy")}))
		if got := m.Moved(p).Inspect(mesh.Options{}); !reflect.DeepEqual(got, want) {
			rt.Errorf("got %+v, want %+v", got, want)
		}
	})
}

func TestInspectSameOnAnyCores(t *testing.T) {
	m := join(torus(10, 3, 60), torus(11, 3, 60))
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	want := m.Inspect(mesh.Options{MostCrossings: 50})
	if len(want.Crossing)+len(want.Folded) != 50 || !want.CrossingsCut {
		t.Errorf("got %d crossings, cut %v; want 50, true", len(want.Crossing), want.CrossingsCut)
	}
	runtime.GOMAXPROCS(8)
	if got := m.Inspect(mesh.Options{MostCrossings: 50}); !reflect.DeepEqual(got, want) {
		t.Errorf("8 cores: %+v, want %+v", got, want)
	}
}

func TestGateNamesThePlace(t *testing.T) {
	open := cube(10, 20, 30, 8)
	open.Triangles = open.Triangles[1:]
	far := cube(0, 0, 0, 1)
	far.Vertices[3].Y = math.NaN()
	// Two boxes 1e-7 apart at 100 mm: float32 resolves 7.6e-6 there.
	close := join(cube(0, 0, 0, 100), box(r3.Vec{X: 100.0000001, Y: 20, Z: 20}, r3.Vec{X: 120, Y: 40, Z: 40}))
	cases := []struct {
		name string
		mesh *mesh.Mesh
		want []string
	}{
		{"open", open, []string{"3 open edges at (14, 24, 30) mm, (10, 24, 30) mm, (14, 28, 30) mm", "smaller cells"}},
		{"not a number", far, []string{"vertex 3 at (1, NaN, 0) mm"}},
		{"empty", &mesh.Mesh{}, []string{"empty"}},
		{"touching once rounded", close, []string{"pairs of crossing triangles at (100, "}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := mesh.Gate(c.mesh)
			for _, w := range c.want {
				if err == nil || !strings.Contains(err.Error(), w) {
					t.Errorf("got %v, want %q in it", err, w)
				}
			}
		})
	}
	if d := close.Inspect(mesh.Options{}); !d.None() {
		t.Errorf("before rounding: %+v, want none", d)
	}
}

func BenchmarkInspect(b *testing.B) {
	for _, c := range []struct {
		name string
		mesh *mesh.Mesh
	}{{"torus 10k", torus(30, 8, 71)}, {"torus 250k", torus(30, 8, 354)}, {"tube 10k needles", tube(30, 20, 40, 1250)}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				c.mesh.Inspect(mesh.Options{})
			}
			b.ReportMetric(float64(len(c.mesh.Triangles)), "triangles")
		})
	}
}

func BenchmarkGate(b *testing.B) {
	m := torus(30, 8, 71)
	for b.Loop() {
		if _, err := mesh.Gate(m); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBody(b *testing.B) {
	m := torus(30, 8, 71)
	for b.Loop() {
		m.Body()
	}
}
