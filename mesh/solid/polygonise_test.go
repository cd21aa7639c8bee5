package solid_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	. "mastwright/mesh/solid"
)

// TestParts holds every part to the tolerance, on the first and on 2 and 8
// workers the same bytes, and to the genus counted by hand.
func TestParts(t *testing.T) {
	genus := map[string]int{ // holes that go through, counted on the drawing
		"reference": 10, "wedge foot": 5, "clamp": 2, "lettered tray": 2, "plate": 3,
		"tilted original": 10, "tilted wedge": 5, "tilted clamp": 2, "tilted tray": 2, "tilted plate": 3,
	}
	for name, n := range parts() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			m, r, err := Polygonise(context.Background(), n, Options{Workers: 1})
			if err != nil {
				t.Fatal(err)
			}
			if r.Genus != genus[name] || r.Pieces != 1 {
				t.Errorf("genus %d in %d pieces, want %d in 1", r.Genus, r.Pieces, genus[name])
			}
			if r.Coarse || r.Tolerance > 0.01 {
				t.Errorf("tolerance reached %g mm (coarse %v), want 0.01", r.Tolerance, r.Coarse)
			}
			if _, err := mesh.Gate(m); err != nil {
				t.Error(err)
			}
			for _, workers := range []int{2, 8} {
				again, _, err := Polygonise(context.Background(), n, Options{Workers: workers})
				if err != nil || !slices.Equal(again.Vertices, m.Vertices) || !slices.Equal(again.Triangles, m.Triangles) {
					t.Errorf("%d workers give another mesh (%v)", workers, err)
				}
			}
		})
	}
}

// TestReferencePart holds the reference part to its targets. Its volume,
// 24372.702 mm³, is the drawing author's figure; the drawing leaves the bore's
// corner radius open, worth 1 mm³ or so.
func TestReferencePart(t *testing.T) {
	m, r, err := Polygonise(context.Background(), referencePart(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Triangles > 7000 {
		t.Errorf("%d triangles, want at most 7000", r.Triangles)
	}
	const want = 24372.702
	if got := m.Volume(); math.Abs(got-want) > 3e-4*want {
		t.Errorf("volume %.3f, want %.3f to 0.03 %%", got, want)
	}
	// Straight edges: every vertex of the foot's underside rim lies on it.
	for _, v := range m.Vertices {
		if v.Z > 1e-6 || math.Abs(v.X) < 21.5 {
			continue
		}
		if math.Abs(v.Y) <= 18 && math.Abs(math.Abs(v.X)-22) > 1e-6 {
			t.Errorf("vertex (%g, %g) is off the straight edge at 22", v.X, v.Y)
		}
	}
	// Holes: their vertices lie on the circle, their chords 0.008 inside at most.
	for _, e := range edges(m) {
		a, b := m.Vertices[e[0]], m.Vertices[e[1]]
		if a.Z > 1e-6 || b.Z > 1e-6 {
			continue
		}
		ra, rb := math.Hypot(a.X-15.25, a.Y-15.25), math.Hypot(b.X-15.25, b.Y-15.25)
		if ra > 1.7 || rb > 1.7 {
			continue
		}
		// Coordinates near 17 mm are rounded to 32 bits: 0.95e-6 each way.
		if math.Abs(ra-1.6) > 1.4e-6 || math.Abs(rb-1.6) > 1.4e-6 {
			t.Errorf("hole vertex at radius %g or %g, want 1.6", ra, rb)
		}
		if c := math.Hypot((a.X+b.X)/2-15.25, (a.Y+b.Y)/2-15.25); 1.6-c > 0.004 {
			t.Errorf("hole chord %g inside, want at most half of 0.008", 1.6-c)
		}
	}
}

func edges(m *mesh.Mesh) [][2]int32 {
	var all [][2]int32
	for _, t := range m.Triangles {
		for k := range 3 {
			if a, b := t[k], t[(k+1)%3]; a < b {
				all = append(all, [2]int32{a, b})
			}
		}
	}
	return all
}

// TestFullHoles holds every chord of a hole between its circle and one wider
// by the tolerance: a chord reaches nearest to the axis in its middle.
func TestFullHoles(t *testing.T) {
	const r, tolerance = 3, 0.05
	n := Difference(Box(20, 20, 6), Move(Cylinder(r, 20), at(1, 2, -5)))
	for _, full := range []bool{false, true} {
		m, _, err := Polygonise(context.Background(), n, Options{Tolerance: tolerance, FullHoles: full})
		if err != nil {
			t.Fatal(err)
		}
		nearest, farthest := math.Inf(1), 0.0
		for _, e := range edges(m) {
			a, b := m.Vertices[e[0]], m.Vertices[e[1]]
			if max(math.Hypot(a.X-1, a.Y-2), math.Hypot(b.X-1, b.Y-2)) > r+1 {
				continue
			}
			nearest = min(nearest, math.Hypot((a.X+b.X)/2-1, (a.Y+b.Y)/2-2))
			farthest = max(farthest, math.Hypot(a.X-1, a.Y-2))
		}
		if farthest > r+tolerance || (nearest >= r) != full {
			t.Errorf("full %v: chords from %g to %g mm from the axis of a hole of %d mm", full, nearest, farthest, r)
		}
	}
}

// TestClosedForms compares volume, area and one moment of inertia with the
// closed forms (any table of solids; the torus from Pappus), and wants the
// volume's error to fall in proportion to the tolerance.
func TestClosedForms(t *testing.T) {
	const pi = math.Pi
	cases := []struct {
		name                 string
		n                    Node
		volume, area, aboutZ float64
	}{
		{"box", Box(10, 6, 4), 240, 2 * (60 + 40 + 24), 240 * (100 + 36) / 12.0},
		{"sphere", Sphere(5), 4.0 / 3 * pi * 125, 4 * pi * 25, 0.4 * 4.0 / 3 * pi * 125 * 25},
		{"torus", Torus(8, 3), 2 * pi * 8 * pi * 9, 4 * pi * pi * 24, 2 * pi * pi * 8 * 9 * (64 + 0.75*9)},
		{"cylinder with hole", Difference(Cylinder(6, 9), Move(Cylinder(2.5, 20), at(0, 0, -5))),
			pi * (36 - 6.25) * 9, 2*pi*(36-6.25) + 2*pi*8.5*9, pi * (36 - 6.25) * 9 * (36 + 6.25) / 2},
		{"cone", Cone(5, 0, 12), pi * 25 * 4, pi*25 + pi*5*13, 0.3 * pi * 25 * 4 * 25},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var last float64
			for _, tolerance := range []float64{0.08, 0.02, 0.005} {
				m, _, err := Polygonise(context.Background(), c.n, Options{Tolerance: tolerance})
				if err != nil {
					t.Fatal(err)
				}
				b := m.Body()
				// A surface off by at most the tolerance; areas of chords and
				// moments follow with the same first-order bound.
				relative := 1.5 * tolerance * c.area / c.volume
				if math.Abs(b.Volume-c.volume) > tolerance*c.area+1e-3 {
					t.Errorf("tolerance %g: volume %g, want %g", tolerance, b.Volume, c.volume)
				}
				if math.Abs(b.Area-c.area) > relative*c.area+1e-3 {
					t.Errorf("tolerance %g: area %g, want %g", tolerance, b.Area, c.area)
				}
				if math.Abs(b.Inertia.ZZ-c.aboutZ) > 2*relative*c.aboutZ+1e-3 {
					t.Errorf("tolerance %g: inertia %g, want %g", tolerance, b.Inertia.ZZ, c.aboutZ)
				}
				miss := math.Abs(b.Volume-c.volume) / c.volume
				if last > 1e-5 && miss > last/2 { // a quarter of the tolerance
					t.Errorf("tolerance %g: volume off by %g, before by %g", tolerance, miss, last)
				}
				last = miss
			}
		})
	}
}

func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	cases := []struct {
		name string
		n    Node
		want string // in the error
	}{
		{"zero node", Node{}, "empty"},
		{"NaN size", Named("tray", Box(nan, 1, 1)), "tray"},
		{"infinite height", Cylinder(2, inf), "height"},
		{"NaN shift", Move(Box(1, 1, 1), at(nan, 0, 0)), "rigid"},
		{"radius too large", RoundedPrism(10, 6, 2, 4), "at most 3 mm"},
		{"no end", HalfSpace(at(0, 0, 0), axisZ), "no end"},
		{"apart", Intersection(Box(1, 1, 1), Move(Box(1, 1, 1), at(5, 0, 0))), "empty"},
		{"cut away", Difference(Named("foot", Box(4, 4, 4)), Move(Box(8, 8, 8), at(0, 0, -2))), "empty"},
		{"too large", Box(1e4, 1, 1), "unit"},
		{"too small", Box(0.05, 0.05, 0.05), "unit"},
		{"too thin", Named("skin", Box(30, 30, 0.0004)), "skin"},
		{"thin wall", Difference(Named("tube", Cylinder(10, 20)), Move(Cylinder(9.9995, 40), at(0, 0, -10))), "thin"},
		{"wall of the finest cell", Difference(Named("tube", Cylinder(10, 20)), Move(Cylinder(9.995, 40), at(0, 0, -10))), "thin"},
		{"fillet off the stem", Fillet(Cylinder(5, 3), 0, Above, 4), "longer stem"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := Polygonise(context.Background(), c.n, Options{})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
	for _, tolerance := range []float64{nan, inf, -1, 1e-9} {
		if _, _, err := Polygonise(context.Background(), Box(1, 1, 1), Options{Tolerance: tolerance}); err == nil {
			t.Errorf("tolerance %g is taken", tolerance)
		}
	}
}

// TestEndlessFaces meshes a block with a step between two faces that have no
// end of their own: only the part ends the search for where they show.
func TestEndlessFaces(t *testing.T) {
	for _, turn := range []float64{0, 0.7} {
		above := func(z float64) Node { return Rotate(HalfSpace(at(0, 0, z), at(0, 0, -1)), turn, axisZ) }
		low := Difference(Move(Box(10, 10, 8), at(-5, 0, 0)), above(4))
		high := Difference(Move(Box(10, 10, 8), at(5, 0, 0)), above(4.2))
		_, r, err := Polygonise(context.Background(), Union(low, high), Options{Tolerance: 0.01})
		if err != nil || math.Abs(r.Volume-820) > 0.01 { // mm³: two boxes
			t.Errorf("turned %g: %+v, %v", turn, r, err)
		}
	}
}

// TestSizes meshes parts of a metre and of a tenth of a millimetre.
func TestSizes(t *testing.T) {
	for _, n := range []Node{Difference(Box(1000, 20, 8), Move(Cylinder(3, 20), at(400, 0, -4))), Cylinder(0.06, 0.1)} {
		_, r, err := Polygonise(context.Background(), n, Options{Tolerance: 0.01})
		if err != nil || r.Tolerance > 0.01 {
			t.Errorf("%+v, %v", r, err)
		}
	}
}

func TestThinWall(t *testing.T) {
	// Neither body shows its wall of 0.3 mm: only their difference does.
	n := Difference(Box(30, 30, 30), Move(Box(29.4, 29.4, 29.4), at(0, 0, 0.3)))
	m, r, err := Polygonise(context.Background(), n, Options{})
	if err != nil {
		t.Fatal(err)
	}
	// 30 - 0.3 - 29.4 leaves 0.3 above: a closed cavity, so two pieces.
	want := 27000 - 29.4*29.4*29.4
	if math.Abs(m.Volume()-want) > 0.01 || r.Pieces != 2 {
		t.Errorf("volume %g in %d pieces, want %g in 2", m.Volume(), r.Pieces, want)
	}
}

func TestCancel(t *testing.T) {
	for stop := time.Duration(1); stop < 300*time.Millisecond; stop = stop*2 + time.Millisecond { // at any stage
		ctx, cancel := context.WithTimeout(context.Background(), stop)
		var back atomic.Bool
		m, _, err := Polygonise(ctx, referencePart(), Options{Progress: func(done, total int) {
			if back.Load() {
				t.Error("progress after the return")
			}
		}})
		back.Store(true)
		if m == nil && !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("error %v, want %v", err, context.DeadlineExceeded)
		}
		cancel()
	}
}

// TestProgress wants the count to rise, to the total, and to stop nowhere for
// more than a quarter of the way on a part that takes one grid.
func TestProgress(t *testing.T) {
	last := 0
	_, r, err := Polygonise(context.Background(), referencePart(), Options{Workers: 4, Progress: func(done, total int) {
		if done <= last || done > total || done-last > total/4+total/20 {
			t.Errorf("progress %d of %d after %d", done, total, last)
		}
		last = done
	}})
	if err != nil || r.Rounds != 1 || last != 1000 {
		t.Errorf("%v, %d grids, progress to %d", err, r.Rounds, last)
	}
}

// TestWork keeps the reference part's preview to one grid and to what it has
// been brought down to: 197 thousand evaluations, after 209.
func TestWork(t *testing.T) {
	_, r, err := Polygonise(context.Background(), referencePart(), Options{Tolerance: 0.1})
	if err != nil || r.Rounds != 1 || r.Evaluations > 205_000 {
		t.Errorf("%d evaluations on %d grids, %v; want 205000 on one at most", r.Evaluations, r.Rounds, err)
	}
}

func ExamplePolygonise() {
	plate := Named("plate", RoundedPrism(40, 30, 3, 4))
	hole := Named("hole", Counterbore(3.2, 4, 6, 1.5))
	part := Difference(plate, Move(hole, r3.Vec{X: 12, Z: 3}), Move(hole, r3.Vec{X: -12, Z: 3}))
	m, report, err := Polygonise(context.Background(), part, Options{Tolerance: 0.05})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(report.Genus, "holes,", report.Tolerance < 0.05, math.Round(m.Volume()/10)*10, "mm³")
	// Output: 2 holes, true 3450 mm³
}

func BenchmarkReferencePart(b *testing.B) { bench(b, referencePart(), 0.01) }
func BenchmarkPreview(b *testing.B)       { bench(b, referencePart(), 0.1) }
func BenchmarkWedgeFoot(b *testing.B)     { bench(b, wedgeFoot(), 0.01) }
func BenchmarkLetteredTray(b *testing.B)  { bench(b, letteredTray(), 0.01) }

// BenchmarkCancel ends the work at every tick of its progress and reports the
// longest wait for the return.
func BenchmarkCancel(b *testing.B) {
	longest := time.Duration(0)
	for b.Loop() {
		for tick := 1; ; tick++ {
			ctx, cancel := context.WithCancel(context.Background())
			n, at := 0, time.Time{}
			_, _, err := Polygonise(ctx, referencePart(), Options{Progress: func(done, total int) {
				if n++; n == tick {
					at = time.Now()
					cancel()
				}
			}})
			if wait := time.Since(at); n >= tick {
				longest = max(longest, wait)
			}
			cancel()
			if err == nil {
				break
			}
		}
	}
	b.ReportMetric(longest.Seconds()*1e3, "ms-to-return")
}

func bench(b *testing.B, n Node, tolerance float64) {
	b.ReportAllocs()
	var r Report
	for b.Loop() {
		var err error
		if _, r, err = Polygonise(context.Background(), n, Options{Tolerance: tolerance}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(r.Triangles), "triangles")
	b.ReportMetric(float64(r.Evaluations), "evaluations")
}
