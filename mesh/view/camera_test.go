package view_test

import (
	"image"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/view"
)

// near allows for a few roundings of figures up to 1000.
const near = 1e-9

func TestProjectStandardViews(t *testing.T) {
	base := view.Camera{Scale: 2, Size: image.Pt(200, 100), Target: r3.Vec{X: 1, Y: 2, Z: 3}}
	p := r3.Vec{X: 1 + 10, Y: 2 + 20, Z: 3 + 5} // 10 forward, 20 left, 5 up of the target
	for _, c := range []struct {
		name string
		view view.Standard
		want view.Pixel
	}{
		// By hand: two pixels a millimetre from the middle (100, 50).
		{"front: left is to the right", view.Front, view.Pixel{X: 140, Y: 40, Depth: -10}},
		{"side: forward is to the right", view.Side, view.Pixel{X: 120, Y: 40, Depth: 20}},
		{"top: forward is up, left to the left", view.Top, view.Pixel{X: 60, Y: 30, Depth: -5}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := base.From(c.view).Project(p)
			if math.Abs(got.X-c.want.X) > near || math.Abs(got.Y-c.want.Y) > near || math.Abs(got.Depth-c.want.Depth) > near {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

// TestProjectIsometric checks the isometric view: the three axes 120° apart
// and each shortened to sqrt(2/3). Source: ISO 5456-3, axonometric
// representations, isometric axonometry; elevation arctan(1/sqrt 2).
func TestProjectIsometric(t *testing.T) {
	c := view.Camera{Scale: 1, Size: image.Pt(0, 0), Azimuth: math.Pi / 4, Elevation: math.Atan(1 / math.Sqrt2)}
	var angle [3]float64
	for i, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		p := c.Project(axis)
		if got, want := math.Hypot(p.X, p.Y), math.Sqrt(2.0/3); math.Abs(got-want) > near {
			t.Errorf("axis %d: length %.6f, want %.6f", i, got, want)
		}
		angle[i] = math.Atan2(-p.Y, p.X) * 180 / math.Pi
	}
	for i, want := range [3]float64{-150, -30, 90} {
		if math.Abs(angle[i]-want) > near {
			t.Errorf("axis %d lies at %.4f°, want %.0f°", i, angle[i], want)
		}
	}
}

// TestProjectCube checks the eight corners of a cube of edge 2 against the
// product of two rotation matrices, written out: first about z by 90° minus
// the azimuth, then about the picture's x by the elevation.
func TestProjectCube(t *testing.T) {
	const az, el = 0.7, 0.3
	c := view.Camera{Scale: 10, Size: image.Pt(100, 80), Azimuth: az, Elevation: el}
	for _, x := range []float64{-1, 1} {
		for _, y := range []float64{-1, 1} {
			for _, z := range []float64{-1, 1} {
				turn := -math.Pi/2 - az // brings the viewer's direction onto -y
				u := x*math.Cos(turn) - y*math.Sin(turn)
				v := x*math.Sin(turn) + y*math.Cos(turn)
				want := view.Pixel{X: 50 + 10*u, Y: 40 - 10*(v*math.Sin(el)+z*math.Cos(el)), Depth: v*math.Cos(el) - z*math.Sin(el)}
				got := c.Project(r3.Vec{X: x, Y: y, Z: z})
				if math.Abs(got.X-want.X) > near || math.Abs(got.Y-want.Y) > near || math.Abs(got.Depth-want.Depth) > near {
					t.Errorf("(%g %g %g): got %v, want %v", x, y, z, got, want)
				}
			}
		}
	}
}

func TestCameraMoves(t *testing.T) {
	c := view.Camera{Scale: 3, Size: image.Pt(300, 200), Target: r3.Vec{X: 4, Y: 5, Z: 6}}.From(view.Corner)
	p := c.Unproject(view.Pixel{X: 70, Y: 60, Depth: 12})
	for _, k := range []struct {
		name string
		got  view.Camera
		want view.Pixel // of p
	}{
		{"unproject and back", c, view.Pixel{X: 70, Y: 60, Depth: 12}},
		{"pan", c.Pan(13, -7), view.Pixel{X: 83, Y: 53, Depth: 12}},
		{"zoom about the point", c.Zoom(1.7, 70, 60), view.Pixel{X: 70, Y: 60, Depth: 12}},
		{"zoom about the middle", c.Zoom(2, 150, 100), view.Pixel{X: -10, Y: 20, Depth: 12}},
		{"a whole turn", c.Orbit(2*math.Pi, 0), view.Pixel{X: 70, Y: 60, Depth: 12}},
	} {
		t.Run(k.name, func(t *testing.T) {
			got := k.got.Project(p)
			if math.Abs(got.X-k.want.X) > near || math.Abs(got.Y-k.want.Y) > near || math.Abs(got.Depth-k.want.Depth) > near {
				t.Errorf("got %v, want %v", got, k.want)
			}
		})
	}
	if got := c.Orbit(0, 9).Elevation; got != math.Pi/2 {
		t.Errorf("orbit over the top: elevation %g, want π/2", got)
	}
	if d := c.Drag(10, 0); d.Azimuth >= c.Azimuth {
		t.Error("dragging to the right should carry the viewer to the left of what is seen")
	}
}

func TestFit(t *testing.T) {
	b := r3.Box{Min: r3.Vec{X: -20, Y: 5, Z: 0}, Max: r3.Vec{X: 30, Y: 15, Z: 100}}
	for _, s := range []view.Standard{view.Corner, view.Front, view.Side, view.Top} {
		c := view.Camera{Size: image.Pt(400, 300)}.From(s).Fit(b, 20)
		lo, hi := r3.Vec{X: 1e9, Y: 1e9}, r3.Vec{X: -1e9, Y: -1e9}
		for i := range 8 {
			p := b.Min
			if i&1 != 0 {
				p.X = b.Max.X
			}
			if i&2 != 0 {
				p.Y = b.Max.Y
			}
			if i&4 != 0 {
				p.Z = b.Max.Z
			}
			q := c.Project(p)
			lo = r3.Vec{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
			hi = r3.Vec{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
		}
		tightX, tightY := math.Abs(lo.X-20) < 1e-6, math.Abs(lo.Y-20) < 1e-6
		if lo.X < 20-1e-6 || lo.Y < 20-1e-6 || hi.X > 380+1e-6 || hi.Y > 280+1e-6 || !tightX && !tightY {
			t.Errorf("view %d: the box fills %.2f..%.2f by %.2f..%.2f of 400 by 300 with margin 20", s, lo.X, hi.X, lo.Y, hi.Y)
		}
	}
}

func TestCameraBadInput(t *testing.T) {
	nan := math.NaN()
	c := view.Camera{Scale: 2, Size: image.Pt(100, 100)}.From(view.Corner)
	for name, got := range map[string]view.Camera{
		"orbit":  c.Orbit(nan, 0),
		"drag":   c.Drag(0, nan),
		"pan":    c.Pan(nan, math.Inf(1)),
		"zoom":   c.Zoom(nan, 1, 1),
		"fit":    c.Fit(r3.Box{Min: r3.Vec{X: nan}}, 3),
		"margin": c.Fit(r3.Box{Max: r3.Vec{X: 1}}, nan),
	} {
		if got != c {
			t.Errorf("%s with a number that is none changed the camera to %+v", name, got)
		}
	}
	if got := c.Fit(r3.Box{}, 500); !(got.Scale > 0) {
		t.Errorf("fit to nothing, with more margin than picture: scale %g", got.Scale)
	}
}

func TestDimension(t *testing.T) {
	// From the right: x to the right, z up, one pixel a millimetre.
	c := view.Camera{Scale: 1, Size: image.Pt(200, 200)}.From(view.Side)
	d, ok := c.Dimension(r3.Vec{}, r3.Vec{Z: 60}, r3.Vec{X: 20}, view.DimensionOptions{})
	if !ok || d.Outside {
		t.Fatalf("ok %v, outside %v; want a line with its arrows inside", ok, d.Outside)
	}
	spot := func(what string, got view.Spot, x, y float64) {
		t.Helper()
		if math.Hypot(got.X-x, got.Y-y) > near {
			t.Errorf("%s at (%.3f, %.3f), want (%g, %g)", what, got.X, got.Y, x, y)
		}
	}
	spot("lower tip", d.Line[0], 120, 100)
	spot("upper tip", d.Line[1], 120, 40)
	spot("figure", d.Text, 120, 70)
	spot("extension from", d.Extensions[0][0], 103, 100) // gap 3
	spot("extension to", d.Extensions[0][1], 124, 100)   // overshoot 4
	spot("arrow tip", d.Arrows[0][0], 120, 100)
	spot("arrow base", d.Arrows[0][1], 123, 90) // 10 long, 6 wide
	spot("arrow base", d.Arrows[0][2], 117, 90)
	spot("other arrow", d.Arrows[1][1], 123, 50)

	d, ok = c.Dimension(r3.Vec{}, r3.Vec{Z: 12}, r3.Vec{X: 20}, view.DimensionOptions{Scale: 2})
	if !ok || !d.Outside {
		t.Fatalf("ok %v, outside %v; want arrows outside a line of 12 px", ok, d.Outside)
	}
	spot("outer arrow base", d.Arrows[0][1], 126, 120)
	if d.Text.Y > 88-40 {
		t.Errorf("figure at y %.1f lies among the arrows", d.Text.Y)
	}
	for name, b := range map[string]r3.Vec{"end on": {Y: 9}, "no length": {}, "no number": {X: math.NaN()}} {
		if _, ok := c.Dimension(r3.Vec{}, b, r3.Vec{X: 5}, view.DimensionOptions{}); ok {
			t.Errorf("%s: a dimension line that cannot be seen", name)
		}
	}
}
