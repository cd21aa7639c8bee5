package outline_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"mastwright/mesh/outline"
)

// segment is what the arc of half angle a and radius r cuts off, about the
// arc's centre on the x axis, chord and arc symmetric to x.
func segment(r, a float64) outline.Loop {
	s, c := math.Sincos(a)
	return outline.Loop{{X: r * c, Y: -r * s, Bulge: math.Tan(a / 2)}, {X: r * c, Y: r * s}}
}

func TestSection(t *testing.T) {
	// Circular segment of half angle a, closed forms from any handbook of
	// plane sections: A = r²(a - sc), x = 2r³s³/3A, and about the centre
	// Ixx = r⁴(3a - 3sc - 2s³c)/12, Iyy = r⁴(a - sc + 2s³c)/4.
	const r, a = 7.0, 2.0
	s, c := math.Sincos(a)
	area := r * r * (a - s*c)
	x := 2 * r * r * r * s * s * s / 3 / area

	// Rounded rectangle: the cross of two rectangles and four quarter circles,
	// centroid 4k/3π from their straight sides, I = k⁴(π/16 - 4/9π) about it.
	const w, h, k = 18.0, 12.0, 2.0
	quarter, off := math.Pi*k*k/4, 4*k/3/math.Pi
	own := k * k * k * k * (math.Pi/16 - 4/math.Pi/9)
	rounded := func(w, h float64) float64 {
		return (w-2*k)*h*h*h/12 + 2*(k*math.Pow(h-2*k, 3)/12) + 4*(own+quarter*math.Pow(h/2-k+off, 2))
	}
	hexagon := 10.0 / math.Sqrt(3) // side of a hexagon 10 across flats
	cases := []struct {
		name   string
		got    outline.Section
		want   outline.Section
		length [2]float64 // got and want
	}{
		{"rectangle", outline.Rectangle(3, 4).Translate(50, -20).Section(),
			outline.Section{Area: 12, Centroid: r2.Vec{X: 50, Y: -20}, Ixx: 16, Iyy: 9},
			[2]float64{outline.Rectangle(3, 4).Length(), 14}},
		{"circle", outline.Circle(5).Section(),
			outline.Section{Area: 25 * math.Pi, Ixx: 625 * math.Pi / 4, Iyy: 625 * math.Pi / 4},
			[2]float64{outline.Circle(5).Length(), 10 * math.Pi}},
		{"circular segment", segment(r, a).Section(),
			outline.Section{Area: area, Centroid: r2.Vec{X: x},
				Ixx: r * r * r * r * (3*a - 3*s*c - 2*s*s*s*c) / 12,
				Iyy: r*r*r*r*(a-s*c+2*s*s*s*c)/4 - area*x*x},
			[2]float64{segment(r, a).Length(), 2*r*a + 2*r*s}},
		{"rounded rectangle", outline.RoundedRectangle(w, h, k).Section(),
			outline.Section{Area: w*h - (4-math.Pi)*k*k, Ixx: rounded(w, h), Iyy: rounded(h, w)},
			[2]float64{outline.RoundedRectangle(w, h, k).Length(), 2*(w+h) - (8-2*math.Pi)*k}},
		{"slot", outline.Slot(14, 6).Section(),
			outline.Section{Area: 48 + 9*math.Pi,
				Ixx: 8.0*216/12 + math.Pi*81/4,
				Iyy: 6.0*512/12 + 2*(81*(math.Pi/8-8/math.Pi/9)+4.5*math.Pi*math.Pow(4+4/math.Pi, 2))},
			[2]float64{outline.Slot(14, 6).Length(), 16 + 6*math.Pi}},
		{"hexagon", outline.Polygon(6, 10).Section(), // I = 5√3 a⁴/16
			outline.Section{Area: 150 / math.Sqrt(3), Ixx: 5 * math.Sqrt(3) / 16 * math.Pow(hexagon, 4), Iyy: 5 * math.Sqrt(3) / 16 * math.Pow(hexagon, 4)},
			[2]float64{outline.Polygon(6, 10).Length(), 6 * hexagon}},
		{"right triangle", outline.Loop{{X: 0}, {X: 6}, {Y: 3}}.Section(), // b h³/36, b³h/36, -b²h²/72
			outline.Section{Area: 9, Centroid: r2.Vec{X: 2, Y: 1}, Ixx: 6 * 27 / 36., Iyy: 216 * 3 / 36., Ixy: -36 * 9 / 72.}, [2]float64{}},
		{"ring", outline.Plate(outline.Circle(5), outline.Circle(3)).Section(),
			outline.Section{Area: 16 * math.Pi, Ixx: (625 - 81) * math.Pi / 4, Iyy: (625 - 81) * math.Pi / 4}, [2]float64{}},
		{"there and back", outline.Loop{{X: -5, Bulge: 1}, {X: 5, Bulge: -1}}.Section(), outline.Section{}, [2]float64{}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			const tol = 1e-12 // of values up to 1e4: rounding of some hundred terms
			for i, v := range [][2]float64{
				{c.got.Area, c.want.Area}, {c.got.Centroid.X, c.want.Centroid.X}, {c.got.Centroid.Y, c.want.Centroid.Y},
				{c.got.Ixx, c.want.Ixx}, {c.got.Iyy, c.want.Iyy}, {c.got.Ixy, c.want.Ixy}, c.length,
			} {
				if !(math.Abs(v[0]-v[1]) <= tol*(100+math.Abs(v[1]))) {
					t.Errorf("value %d: %.15g, want %.15g", i, v[0], v[1])
				}
			}
		})
	}
}

// Flat arcs have radii of up to 1e9 mm; a bulge b over a chord L cuts off
// 2/3 L · bL/2 to first order.
func TestFlatArc(t *testing.T) {
	for _, b := range []float64{1e-3, 1e-6, 1e-9} {
		l := outline.Loop{{X: 0, Bulge: b}, {X: 30}, {X: 30, Y: 10}, {X: 0, Y: 10}}
		if got, want := l.Area(), 300+300*b; math.Abs(got-want) > 1e-6*300*b+1e-12 {
			t.Errorf("bulge %g: area %.15g, want %.15g", b, got, want)
		}
		if got, want := l.Distance(r2.Vec{X: 15, Y: -2}), 2-15*b; math.Abs(got-want) > 1e-12 {
			t.Errorf("bulge %g: distance %.15g, want %.15g", b, got, want)
		}
	}
}

func TestDistance(t *testing.T) {
	// q = |p| - b, the distance to a box with corners r: handbook of implicit
	// solids; here for a rounded rectangle, both sides.
	const w, h, r = 18.0, 12.0, 2.0
	l := outline.RoundedRectangle(w, h, r)
	want := func(x, y float64) float64 {
		qx, qy := math.Abs(x)-w/2+r, math.Abs(y)-h/2+r
		return math.Hypot(max(qx, 0), max(qy, 0)) + min(max(qx, qy), 0) - r
	}
	rapid.Check(t, func(rt *rapid.T) {
		x, y := rapid.Float64Range(-12, 12).Draw(rt, "x"), rapid.Float64Range(-9, 9).Draw(rt, "y")
		angle := rapid.Float64Range(-4, 4).Draw(rt, "angle")
		s, c := math.Sincos(angle)
		p := r2.Vec{X: c*x - s*y + 30, Y: s*x + c*y - 7}
		moved := l.Rotate(angle).Translate(30, -7)
		if got := moved.Distance(p); math.Abs(got-want(x, y)) > 1e-12 {
			rt.Errorf("(%g, %g): %.15g, want %.15g", x, y, got, want(x, y))
		}
		if err := moved.Check(); err != nil { // tangent corners, rounded anyhow
			rt.Error(err)
		}
	})
	plate := outline.Plate(outline.Rectangle(20, 20), outline.Circle(4))
	for _, c := range []struct{ x, want float64 }{{0, 4}, {3, 1}, {5, -1}, {9, -1}, {12, 2}} {
		if got := plate.Distance(r2.Vec{X: c.x}); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("plate at x = %g: %g, want %g", c.x, got, c.want)
		}
	}
}

// Points at whole heights meet corners and horizontal edges of the ray test.
func TestContains(t *testing.T) {
	l := outline.Loop{
		{X: -4, Y: -2, Bulge: 1}, {X: 0, Y: -2, Bulge: -1}, {X: 4, Y: -2},
		{X: 4, Y: 2, Bulge: 0.5}, {X: -4, Y: 2},
	}
	if err := l.Check(); err != nil {
		t.Fatal(err)
	}
	in := func(x, y float64) bool { // the same region, put together from its parts
		// bulge 0.5 over a chord of 8: sagitta 2, radius 5, centre (0, -1)
		box := math.Abs(x) < 4 && y > -2 && y <= 2
		roof := y > 2 && x*x+(y+1)*(y+1) < 25
		belly := y <= -2 && (x+2)*(x+2)+(y+2)*(y+2) < 4
		dent := y >= -2 && (x-2)*(x-2)+(y+2)*(y+2) < 4
		return (box || roof || belly) && !dent
	}
	for i := -24; i <= 24; i++ {
		for j := -24; j <= 24; j++ {
			x, y := float64(i)/4, float64(j)/4
			if math.Abs(l.Distance(r2.Vec{X: x, Y: y})) < 1e-9 {
				continue
			}
			for _, loop := range []outline.Loop{l, l.Reverse()} {
				if got, want := loop.Contains(r2.Vec{X: x, Y: y}), in(x, y); got != want {
					t.Errorf("(%g, %g): %v, want %v", x, y, got, want)
				}
			}
		}
	}
}

func TestBox(t *testing.T) {
	cases := []struct {
		name string
		loop outline.Loop
		want r2.Box
	}{
		{"circle", outline.Circle(5), r2.Box{Min: r2.Vec{X: -5, Y: -5}, Max: r2.Vec{X: 5, Y: 5}}},
		{"slot", outline.Slot(14, 6), r2.Box{Min: r2.Vec{X: -7, Y: -3}, Max: r2.Vec{X: 7, Y: 3}}},
		{"major segment", segment(5, math.Pi-math.Acos(0.6)), r2.Box{Min: r2.Vec{X: -3, Y: -5}, Max: r2.Vec{X: 5, Y: 5}}},
		{"arrow", outline.Arrow(12, 6), r2.Box{Min: r2.Vec{X: -6, Y: -3}, Max: r2.Vec{X: 6, Y: 3}}},
		{"none", nil, r2.Box{}},
	}
	for _, c := range cases {
		got := c.loop.Box()
		if r2.Norm(r2.Sub(got.Min, c.want.Min))+r2.Norm(r2.Sub(got.Max, c.want.Max)) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// The error of chords in area shrinks with their tolerance and stays below it.
func TestFlatten(t *testing.T) {
	for _, tolerance := range []float64{1, 0.1, 0.01, 1e-4} {
		for _, l := range []outline.Loop{outline.Circle(5), outline.RoundedRectangle(18, 12, 2), segment(7, 2).Reverse()} {
			flat := l.Flatten(tolerance)
			if err := flat.Check(); err != nil {
				t.Fatal(err)
			}
			worst := 0.0
			for i, v := range flat {
				w := flat[(i+1)%len(flat)]
				worst = max(worst, math.Abs(l.Distance(r2.Vec{X: (v.X + w.X) / 2, Y: (v.Y + w.Y) / 2})))
				if d := math.Abs(l.Distance(r2.Vec{X: v.X, Y: v.Y})); d > 1e-12 {
					t.Errorf("vertex %d is %g mm off the loop", i, d)
				}
			}
			if worst > tolerance*(1+1e-9) {
				t.Errorf("tolerance %g: off by %g", tolerance, worst)
			}
		}
	}
	// cos(π/n) = 1 - 0.01/5: n = 49.66 chords, in two halves of 25.
	if got := len(outline.Circle(5).Flatten(0)); got != 50 {
		t.Errorf("%d chords at 0.01 mm, want 50", got)
	}
}

func TestTurningKeepsSections(t *testing.T) {
	l := outline.Loop{{X: -4, Y: -2, Bulge: 0.3}, {X: 3, Y: -2, Bulge: -0.2}, {X: 4, Y: 2}, {X: -1, Y: 5, Bulge: 0.6}}
	want := l.Section()
	rapid.Check(t, func(rt *rapid.T) {
		angle := rapid.Float64Range(-7, 7).Draw(rt, "angle")
		dx, dy := rapid.Float64Range(-90, 90).Draw(rt, "dx"), rapid.Float64Range(-90, 90).Draw(rt, "dy")
		got := l.Rotate(angle).Translate(dx, dy).Section()
		// invariants: area, polar moment and the determinant of the tensor
		for i, v := range [][2]float64{
			{got.Area, want.Area}, {got.Ixx + got.Iyy, want.Ixx + want.Iyy},
			{got.Ixx*got.Iyy - got.Ixy*got.Ixy, want.Ixx*want.Iyy - want.Ixy*want.Ixy},
		} {
			if math.Abs(v[0]-v[1]) > 1e-10*math.Abs(v[1]) {
				rt.Errorf("invariant %d: %.15g, want %.15g", i, v[0], v[1])
			}
		}
	})
	if got := l.Mirror().Section(); math.Abs(got.Area-want.Area) > 1e-12 || math.Abs(got.Ixy+want.Ixy) > 1e-10 || math.Abs(got.Centroid.X+want.Centroid.X) > 1e-12 {
		t.Errorf("mirrored %+v of %+v", got, want)
	}
	if got := l.Reverse().Section(); math.Abs(got.Area+want.Area) > 1e-12 {
		t.Errorf("reversed area %g, want %g", got.Area, -want.Area)
	}
}

func TestCheck(t *testing.T) {
	nan := outline.Rectangle(4, 4)
	nan[2].Y = math.NaN()
	wild := outline.Rectangle(4, 4)
	wild[1].Bulge = math.Inf(1)
	sheet := outline.Rectangle(20, 20)
	cases := []struct {
		name string
		o    outline.Outline
		want []string // parts of the error; none where it is sound
	}{
		{"plate with holes", outline.Plate(sheet, outline.Circle(2), outline.Circle(2).Translate(5, 0)), nil},
		{"bow tie", outline.Outline{Outer: outline.Loop{{}, {X: 4, Y: 4}, {X: 4}, {Y: 4}}}, []string{"outer loop", "edges 0 and 2 meet at (2, 2) mm"}},
		{"clockwise", outline.Outline{Outer: sheet.Reverse()}, []string{"runs clockwise"}},
		{"hole the wrong way", outline.Outline{Outer: sheet, Holes: []outline.Loop{outline.Circle(1)}}, []string{"hole 1 at (1, 0) mm runs counter-clockwise"}},
		{"hole outside", outline.Plate(sheet, outline.Circle(1).Translate(30, 0)), []string{"hole 1 at (", "outside the outer loop"}},
		{"hole across the rim", outline.Plate(sheet, outline.Circle(1).Translate(10, 0)), []string{"outer loop and hole 1 meet at (10, "}},
		{"hole touching the rim", outline.Plate(sheet, outline.Circle(2).Translate(8, 0)), []string{"outer loop and hole 1 meet at (10, 0) mm"}},
		{"hole in a hole", outline.Plate(sheet, outline.Circle(3), outline.Circle(1)), []string{"hole 1 and hole 2 lie one in the other"}},
		{"not a number", outline.Outline{Outer: nan}, []string{"vertex 2 at (2, NaN) mm"}},
		{"endless bulge", outline.Outline{Outer: wild}, []string{"vertex 1", "bulge of +Inf"}},
		{"nothing", outline.Outline{}, []string{"a loop of 0 vertices"}},
		{"two lines", outline.Outline{Outer: outline.Loop{{}, {X: 3}}}, []string{"meet at"}},
		{"edge without length", outline.Outline{Outer: outline.Loop{{}, {X: 3}, {X: 3}, {Y: 3}}}, []string{"edge 1 at (3, 0) mm has no length"}},
		{"spike", outline.Outline{Outer: outline.Loop{{}, {X: 3}, {X: 3, Y: 3}, {X: 3, Y: 1}, {Y: 1}}}, []string{"edges 1 and 2 meet at"}},
		{"arc through its base", outline.Outline{Outer: outline.Loop{{}, {X: 3}, {X: 3, Y: 1, Bulge: -1}, {Y: 1}}}, []string{"meet at"}},
		{"two faults", outline.Outline{Outer: sheet.Reverse(), Holes: []outline.Loop{outline.Circle(1)}}, []string{"runs clockwise", "counter-clockwise"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			err := c.o.Check()
			if (err == nil) != (c.want == nil) {
				t.Fatalf("got %v, want %q", err, c.want)
			}
			for _, w := range c.want {
				if !strings.Contains(err.Error(), w) {
					t.Errorf("got %v, want %q in it", err, w)
				}
			}
		})
	}
}

func TestOffset(t *testing.T) {
	octagon := outline.Polygon(8, 20)
	cut := outline.Loop{{X: -5, Y: -5}, {X: 4, Y: -5}, {X: 5, Y: -4}, {X: 5, Y: 5}, {X: -5, Y: 5}} // one small chamfer
	cases := []struct {
		name string
		loop outline.Loop
		d    float64
		area float64 // closed form
		size int     // vertices
	}{
		{"rounded rectangle inward", outline.RoundedRectangle(18, 12, 4), -2.4, 13.2*7.2 - (4-math.Pi)*1.6*1.6, 8},
		{"rounded rectangle inward past its corners", outline.RoundedRectangle(18, 12, 2), -2.4, 13.2 * 7.2, 4},
		{"rounded rectangle inward to its corners", outline.RoundedRectangle(18, 12, 2), -2, 14 * 8, 4},
		{"rounded rectangle outward", outline.RoundedRectangle(18, 12, 2), 1, 20*14 - (4-math.Pi)*9, 8},
		{"rectangle outward", outline.Rectangle(10, 6), 1, 60 + 32 + math.Pi, 8}, // Steiner: A + L d + π d²
		{"rectangle inward", outline.Rectangle(10, 6), -1, 32, 4},
		{"circle", outline.Circle(5), -2, 9 * math.Pi, 2},
		{"slot", outline.Slot(14, 6), -1, 8*4 + 4*math.Pi, 4},
		{"octagon", octagon, -3, 8 * math.Tan(math.Pi/8) * 49, 8},
		{"hexagon outward", outline.Polygon(6, 10), 2, 150/math.Sqrt(3) + 2*60/math.Sqrt(3) + 4*math.Pi, 12},
		{"chamfer that vanishes", cut, -3, 16, 4},
		{"reflex corner outward", outline.Loop{{}, {X: 6}, {X: 6, Y: 3}, {X: 3, Y: 3}, {X: 3, Y: 6}, {Y: 6}}, 1, 27 + 24 + 5*math.Pi/4 - 1, 11},
		{"reflex corner inward", outline.Loop{{}, {X: 6}, {X: 6, Y: 3}, {X: 3, Y: 3}, {X: 3, Y: 6}, {Y: 6}}, -1, 8 - 1 + 1 - math.Pi/4 + 0, 7},
		{"clockwise", outline.Circle(5).Reverse(), 1, -36 * math.Pi, 2},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.loop.Offset(c.d)
			if err != nil {
				t.Fatal(err)
			}
			if a := got.Area(); math.Abs(a-c.area) > 1e-9 || len(got) != c.size {
				t.Errorf("area %.12g of %d vertices, want %.12g of %d: %v", a, len(got), c.area, c.size, got)
			}
		})
	}
	for _, c := range []struct {
		name string
		loop outline.Loop
		d    float64
	}{
		{"nothing left", outline.Rectangle(10, 6), -3.5},
		{"circle gone", outline.Circle(5), -5},
		{"not a number", outline.Circle(5), math.NaN()},
		{"not simple", outline.Loop{{}, {X: 4, Y: 4}, {X: 4}, {Y: 4}}, 1},
	} {
		if got, err := c.loop.Offset(c.d); err == nil {
			t.Errorf("%s: got %v, want an error", c.name, got)
		}
	}
}

func TestTextIsSound(t *testing.T) {
	const all = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-."
	text, err := outline.Text(all, 7)
	if err != nil || len(text) != len(all) {
		t.Fatalf("%d letters, %v", len(text), err)
	}
	holes := map[rune]int{'A': 1, 'B': 2, 'D': 1, 'O': 1, 'P': 1, 'Q': 1, 'R': 1, '0': 1, '6': 1, '8': 2, '9': 1}
	seen := map[string]bool{}
	for i, r := range all {
		if err := text[i].Check(); err != nil {
			t.Errorf("%c: %v", r, err)
		}
		if len(text[i].Holes) != holes[r] {
			t.Errorf("%c has %d holes, want %d", r, len(text[i].Holes), holes[r])
		}
		b := text[i].Outer.Box()
		if r >= '0' && (b.Max.Y != 3.5 || b.Min.Y != -3.5) {
			t.Errorf("%c stands from %g to %g, want -3.5 to 3.5", r, b.Min.Y, b.Max.Y)
		}
		s := text[i].Section()
		seen[fmt.Sprintf("%.6f %.6f %.6f %.6f", s.Area, s.Ixx, s.Iyy, s.Ixy)] = true
	}
	if len(seen) < len(all)-2 { // mirror images may share moments, copies share all
		t.Errorf("%d letters of %d differ", len(seen), len(all))
	}
	for _, bad := range []struct {
		text   string
		height float64
	}{{"a", 5}, {"É", 5}, {"A", 0}, {"A", math.NaN()}} {
		if _, err := outline.Text(bad.text, bad.height); err == nil {
			t.Errorf("%q at %g: no error", bad.text, bad.height)
		}
	}
}

func BenchmarkSection(b *testing.B) {
	l := outline.RoundedRectangle(18, 12, 2)
	for b.Loop() {
		l.Section()
	}
}

func BenchmarkOffset(b *testing.B) {
	l := outline.RoundedRectangle(18, 12, 2)
	for b.Loop() {
		if _, err := l.Offset(-1.2); err != nil {
			b.Fatal(err)
		}
	}
}
