package view_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/view"
)

func TestSameOnAnyCores(t *testing.T) {
	s := frame(view.Light(), 6)
	ghost := s.Things[0]
	ghost.Style, ghost.Colour.A = view.Ghost, 60
	ghost.Pose = mesh.Move(r3.Vec{X: 12})
	s.Things = append(s.Things, ghost)
	for _, o := range []view.Options{{}, {Fine: true, Scale: 1.5}} {
		c := corner(s, 230, 170)
		o.Workers = 1
		want := draw(s, c, o)
		var r view.Renderer // keeps its buffers from another picture
		r.Draw(image.NewRGBA(image.Rect(0, 0, 301, 97)), s, c.Orbit(1, 1), view.Options{Fine: true})
		for _, workers := range []int{2, 8} {
			o.Workers = workers
			got := image.NewRGBA(want.Rect)
			r.Draw(got, s, c, o)
			if !bytes.Equal(got.Pix, want.Pix) {
				t.Errorf("%+v: the picture differs from that of one worker", o)
			}
		}
	}
}

// TestDrawAllocates checks that drawing again takes no memory. Helpers start
// goroutines, which the runtime may grow, so one worker draws.
func TestDrawAllocates(t *testing.T) {
	s := frame(view.Dark(), 4)
	c := corner(s, 160, 120)
	dst := image.NewRGBA(image.Rectangle{Max: c.Size})
	var r view.Renderer
	if n := testing.AllocsPerRun(5, func() { r.Draw(dst, s, c, view.Options{Workers: 1}) }); n != 0 {
		t.Errorf("%g allocations a picture", n)
	}
}

// TestCoverage counts the pixels of a sphere against π r²: the rows of a
// closed surface leave no gap and overlap nothing outside.
func TestCoverage(t *testing.T) {
	s := plain(ball(1, 48))
	s.Palette.Ink.A = 0
	const r = 80.0
	c := view.Camera{Scale: r, Size: image.Pt(200, 200), Elevation: 0.4}
	img := draw(s, c, view.Options{})
	n := 0
	for y := range 200 {
		for x := range 200 {
			inside := math.Hypot(float64(x)-99.5, float64(y)-99.5)
			covered := img.RGBAAt(x, y) != color.RGBA{255, 255, 255, 255}
			if covered {
				n++
			}
			// 1 px for the circle drawn as a polygon of 96 corners.
			if covered != (inside < r) && math.Abs(inside-r) > 1 {
				t.Fatalf("pixel (%d, %d), %.1f px from the middle: covered %v", x, y, inside, covered)
			}
		}
	}
	// A polygon of 96 corners has 0.07 % less than the circle; rows of pixels add noise.
	if want := math.Pi * r * r; math.Abs(float64(n)-want) > 0.005*want {
		t.Errorf("%d pixels, want %.0f", n, want)
	}
}

// TestLight compares a sphere's shades with Lambert's law: ambient .42, a key
// of .50 from the upper left behind the viewer and a fill of .20.
func TestLight(t *testing.T) {
	s := plain(ball(1, 64))
	const r = 90.0
	img := draw(s, view.Camera{Scale: r, Size: image.Pt(200, 200), Azimuth: 1, Elevation: 0.3}, view.Options{})
	key, fill := r3.Unit(r3.Vec{X: -0.55, Y: 0.60, Z: 0.58}), r3.Unit(r3.Vec{X: 0.30, Y: 0.20, Z: 0.93})
	for _, at := range []r3.Vec{{}, {X: -0.6, Y: 0.6}, {X: 0.7, Y: -0.5}, {X: 0.2, Y: 0.8}, {X: -0.5, Y: -0.6}} {
		x, y := int(100+r*at.X), int(100-r*at.Y)
		n := r3.Vec{X: (float64(x) + 0.5 - 100) / r, Y: (100 - float64(y) - 0.5) / r}
		n.Z = math.Sqrt(1 - n.X*n.X - n.Y*n.Y)
		want := 200 * (0.42 + 0.5*max(r3.Dot(n, key), 0) + 0.2*max(r3.Dot(n, fill), 0))
		// 2 for rounding to the ramp's steps and to a byte, 1 for the facets of 2.8°.
		if got := float64(img.RGBAAt(x, y).R); math.Abs(got-want) > 3 {
			t.Errorf("at (%g, %g): shade %.0f, want %.1f", at.X, at.Y, got, want)
		}
	}
	if img.RGBAAt(50, 50).R <= img.RGBAAt(150, 150).R {
		t.Error("the light does not come from over the left shoulder")
	}
}

func TestFlatIsFlat(t *testing.T) {
	// The broad sides of a bar with round edges are planes, whatever meets them.
	s := plain(loft(6, ring{-30, 60, 6}, ring{30, 60, 6}))
	img := draw(s, view.Camera{Scale: 2, Size: image.Pt(200, 200), Azimuth: 0.2, Elevation: 0.3}, view.Options{})
	want := img.RGBAAt(100, 100)
	for y := 70; y < 130; y++ {
		for x := 70; x < 130; x++ {
			if got := img.RGBAAt(x, y); got != want {
				t.Fatalf("pixel (%d, %d) of a plane is %v, elsewhere %v", x, y, got, want)
			}
		}
	}
}

// roof is a ridge along x whose slopes of 9 mm meet at an angle in degrees.
func roof(degrees float64) *mesh.Mesh {
	drop := 9 * math.Tan(degrees/2*math.Pi/180)
	return &mesh.Mesh{
		Vertices: []r3.Vec{{X: -9}, {X: 9}, {X: -9, Y: 9, Z: -drop}, {X: 9, Y: 9, Z: -drop},
			{X: -9, Y: -9, Z: -drop}, {X: 9, Y: -9, Z: -drop}},
		Triangles: [][3]int32{{0, 1, 3}, {0, 3, 2}, {0, 4, 5}, {0, 5, 1}},
	}
}

// TestWideFacesStayFlat looks at two wide faces that meet at less than the
// angle of an edge: each keeps one shade up to the ridge.
func TestWideFacesStayFlat(t *testing.T) {
	img := draw(plain(roof(16)), view.Camera{Scale: 10, Size: image.Pt(200, 200)}.From(view.Top), view.Options{})
	for _, c := range []struct {
		name       string
		far, close int
	}{{"left", 30, 97}, {"right", 170, 102}} {
		if far, close := img.RGBAAt(c.far, 100), img.RGBAAt(c.close, 100); far != close {
			t.Errorf("%s slope: %v at its foot, %v at the ridge", c.name, far, close)
		}
	}
}

// TestGhostGivesWay lays a ghost and an outline where a solid is: nothing of
// them shows.
func TestGhostGivesWay(t *testing.T) {
	s := plain(mast(4))
	c := s.Fit(view.Camera{Size: image.Pt(150, 150)}.From(view.Corner), 10)
	for _, o := range []view.Options{{}, {Fine: true}} {
		s.Things = s.Things[:1]
		want := draw(s, c, o)
		for _, style := range []view.Style{view.Ghost, view.Outline} {
			same := s.Things[0]
			same.Style, same.Colour, same.Ink = style, color.NRGBA{R: 255, A: 99}, color.NRGBA{R: 255, A: 255}
			s.Things = append(s.Things[:1], same)
			if got := draw(s, c, o); !bytes.Equal(got.Pix, want.Pix) {
				t.Errorf("style %d, fine %v: the picture changed", style, o.Fine)
			}
		}
	}
}

// TestFeatureEdges looks for ink along the ridge of a roof whose slopes meet
// at an angle: from 28° on it is an edge.
func TestFeatureEdges(t *testing.T) {
	for _, c := range []struct {
		degrees float64
		want    bool
	}{{20, false}, {27, false}, {29, true}, {90, true}} {
		img := draw(plain(roof(c.degrees)), view.Camera{Scale: 10, Size: image.Pt(100, 100)}.From(view.Top), view.Options{})
		// Forward is up, so the ridge runs down the middle between columns 49 and 50.
		if got := img.RGBAAt(49, 50).R < 120; got != c.want {
			t.Errorf("%g°: an edge drawn %v, want %v (shade %d)", c.degrees, got, c.want, img.RGBAAt(49, 50).R)
		}
	}
}

func TestHiddenEdgesAreHidden(t *testing.T) {
	s := plain(box(20, 40, 40))
	back := view.Thing{Surface: view.Prepare(box(10, 10, 10)), Pose: mesh.Move(r3.Vec{X: -30})}
	front := view.Thing{Surface: view.Prepare(box(10, 10, 10)), Pose: mesh.Move(r3.Vec{X: 30})}
	c := view.Camera{Scale: 2, Size: image.Pt(100, 100)}.From(view.Front)
	ink := func(img *image.RGBA) (n int) {
		for y := 20; y < 80; y++ {
			for x := 20; x < 80; x++ {
				if img.RGBAAt(x, y).R < 90 {
					n++
				}
			}
		}
		return n
	}
	for _, fine := range []bool{false, true} {
		s.Things = append(s.Things[:1], back)
		if n := ink(draw(s, c, view.Options{Fine: fine})); n != 0 {
			t.Errorf("fine %v: %d pixels of ink from the box behind", fine, n)
		}
		s.Things = append(s.Things[:1], front)
		if n := ink(draw(s, c, view.Options{Fine: fine})); n == 0 {
			t.Errorf("fine %v: no ink from the box in front", fine)
		}
	}
	var r view.Renderer
	r.Draw(image.NewRGBA(image.Rectangle{Max: c.Size}), s, c, view.Options{})
	if !r.Hidden(c.Project(r3.Vec{X: -30})) || r.Hidden(c.Project(r3.Vec{X: 36})) {
		t.Error("a point behind the box should be hidden, one in front not")
	}
}

func TestBackground(t *testing.T) {
	img := draw(&view.Scene{Palette: view.Light(), Ground: view.Ground{Hidden: true}}, view.Camera{Scale: 1, Size: image.Pt(7, 400)}, view.Options{})
	for _, c := range []struct {
		y    int
		want color.RGBA
	}{
		{0, color.RGBA{0xDD, 0xE1, 0xDD, 0xFF}},
		{399, color.RGBA{0xC9, 0xD0, 0xCB, 0xFF}},
	} {
		got := img.RGBAAt(3, c.y)
		if d := max(gap(got.R, c.want.R), gap(got.G, c.want.G), gap(got.B, c.want.B)); d > 1 { // half a row from the end
			t.Errorf("row %d is %v, want %v", c.y, got, c.want)
		}
	}
}

func TestBandAndColours(t *testing.T) {
	red, green := color.NRGBA{R: 200, A: 0xFF}, color.NRGBA{G: 200, A: 0xFF}
	c := view.Camera{Scale: 2, Size: image.Pt(100, 100)}.From(view.Front)
	s := plain(box(10, 30, 40))
	s.Things[0].Band = view.Band{From: r3.Vec{Z: -20}, To: r3.Vec{Z: 20}, Colours: []color.NRGBA{red, green}}
	img := draw(s, c, view.Options{})
	// The border lies at z = 0, between rows 49 and 50.
	if p := img.RGBAAt(50, 49); p.G == 0 || p.R != 0 {
		t.Errorf("above the border: %v, want green", p)
	}
	if p := img.RGBAAt(50, 50); p.R == 0 || p.G != 0 {
		t.Errorf("below the border: %v, want red", p)
	}
	s.Things[0].Band = view.Band{}
	s.Things[0].Colours = make([]color.NRGBA, 8)
	for i := range 8 {
		s.Things[0].Colours[i] = red
		if i&4 != 0 { // the upper corners of Box
			s.Things[0].Colours[i] = green
		}
	}
	img = draw(s, c, view.Options{})
	if low, mid, high := img.RGBAAt(50, 80), img.RGBAAt(50, 50), img.RGBAAt(50, 20); !(low.R > mid.R && mid.R > high.R && low.G < mid.G && mid.G < high.G) {
		t.Errorf("colours do not blend upwards: %v %v %v", low, mid, high)
	}
}

func TestShift(t *testing.T) {
	s := plain(box(10, 10, 10))
	th := &s.Things[0]
	th.Shift = th.Surface.Displace(func(r3.Vec) r3.Vec { return r3.Vec{Y: 4, Z: 2} })
	th.Amount = 2.5
	c := view.Camera{Scale: 2, Size: image.Pt(100, 100)}.From(view.Front)
	b := s.Box()
	if got, want := b.Min, (r3.Vec{X: -5, Y: 5, Z: 0}); r3.Norm(r3.Sub(got, want)) > near {
		t.Errorf("box from %v, want %v", got, want)
	}
	img := draw(s, c, view.Options{})
	if img.RGBAAt(70, 40).R == 255 || img.RGBAAt(50, 50).R != 255 {
		t.Error("the box is not where its shift takes it, 10 to the left and 5 up")
	}
}

func TestPick(t *testing.T) {
	s := frame(view.Light(), 6)
	c := corner(s, 400, 300)
	at := func(p r3.Vec) (x, y float64) { q := c.Project(p); return q.X, q.Y }
	x, y := at(r3.Vec{Z: 105}) // the receiver's top
	h, ok := s.Pick(c, x, y, 0)
	if !ok || h.Thing != 1 || r3.Norm(r3.Sub(h.At, r3.Vec{Z: 105})) > 1e-3 {
		t.Errorf("receiver: got %+v %v", h, ok)
	}
	x, y = at(r3.Vec{X: -10, Y: -26, Z: 14 + 2.9}) // beside the lower lead
	s.Things = append([]view.Thing(nil), s.Things...)
	for i := range s.Things {
		s.Things[i].Inert = i != 9
	}
	if h, ok = s.Pick(c, x, y, 0); ok {
		t.Errorf("inert things were picked: %+v", h)
	}
	if h, ok = s.Pick(c, x, y, 4); !ok || h.Thing != 9 {
		t.Errorf("lead within reach: got %+v %v", h, ok)
	}
	if h, ok = s.Pick(c, 1, 1, 0); ok {
		t.Errorf("empty corner: got %+v", h)
	}
}

func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := frame(view.Light(), 2)
	c := corner(good, 60, 40)
	bad := &mesh.Mesh{
		Vertices:  []r3.Vec{{}, {X: 1}, {Y: 1}, {X: nan}, {Z: inf}, {X: 1e300}},
		Triangles: [][3]int32{{0, 1, 2}, {0, 1, 3}, {0, 4, 1}, {0, 1, 5}, {0, 0, 1}, {0, 1, 99}, {-1, 0, 1}},
	}
	broken := &view.Scene{
		Things: []view.Thing{
			{}, {Surface: view.Prepare(nil)}, {Surface: view.Prepare(&mesh.Mesh{})}, {Surface: view.Prepare(bad)},
			{Surface: view.Prepare(box(1, 1, 1)), Pose: mesh.Move(r3.Vec{X: nan})},
			{Surface: view.Prepare(box(1, 1, 1)), Pose: mesh.Move(r3.Vec{X: 1e30})},
			{Surface: view.Prepare(box(1, 1, 1)), Shift: make([]r3.Vec, 3), Amount: 1, Colours: make([]color.NRGBA, 2)},
			{Surface: view.Prepare(box(1, 1, 1)), Shift: []r3.Vec{{X: nan}, {Y: inf}, {}, {}, {}, {}, {}, {Z: 1e300}}, Amount: inf},
			{Surface: view.Prepare(box(9, 9, 9)), Band: view.Band{To: r3.Vec{Z: nan}, Colours: make([]color.NRGBA, 1)}},
			{Surface: view.Prepare(box(9, 9, 9)), Band: view.Band{To: r3.Vec{Z: 1e-300}, Colours: make([]color.NRGBA, 1)}},
			{Surface: view.Prepare(box(9, 9, 9)), Style: 77},
		},
		Lines: []view.Line{
			{}, {Points: []r3.Vec{{X: nan}, {}, {X: 1e300}, {X: inf}}, Width: nan, Dash: inf, Colour: color.NRGBA{A: 9}},
			{Points: []r3.Vec{{}, {X: 1e9}}, Width: 1e9, Dash: 1e-9, Colour: color.NRGBA{A: 9}},
			{Points: []r3.Vec{{}, {X: 1e9}}, Dash: 1, Colour: color.NRGBA{A: 9}},
		},
		Ground: view.Ground{Centre: r3.Vec{Z: nan}},
	}
	var r view.Renderer
	for _, s := range []*view.Scene{nil, {}, good, broken} {
		for _, size := range []image.Point{{}, {1, 1}, {1, 40}, {60, 1}, {60, 40}, {0, 9}} {
			for _, camera := range []view.Camera{
				{}, c, {Scale: nan}, {Scale: inf}, {Scale: -1}, {Scale: 1e300}, {Scale: 1e-300}, {Scale: 1, Azimuth: nan},
				{Scale: 1, Elevation: inf}, {Scale: 1, Target: r3.Vec{X: nan}}, {Scale: 1, Target: r3.Vec{X: 1e300}},
			} {
				for _, o := range []view.Options{{}, {Scale: nan, Workers: -3}, {Fine: true, Scale: inf}, {Scale: 1e-9}} {
					r.Draw(image.NewRGBA(image.Rectangle{Max: size}), s, camera, o)
					r.Hidden(view.Pixel{X: nan, Y: 1e30, Depth: nan})
					if s != nil {
						s.Pick(camera, nan, 3, 2)
						s.Pick(camera, 2, 3, 2)
						s.Fit(camera, nan)
					}
				}
			}
		}
	}
	r.Draw(nil, good, c, view.Options{})
	part := image.NewRGBA(image.Rect(-5, -5, 80, 60)).SubImage(image.Rect(3, 4, 63, 44)).(*image.RGBA)
	r.Draw(part, good, c, view.Options{})
	whole := draw(good, c, view.Options{})
	for y := range 40 {
		for x := range 60 {
			if part.RGBAAt(3+x, 4+y) != whole.RGBAAt(x, y) {
				t.Fatalf("part of an image differs at (%d, %d)", x, y)
			}
		}
	}
}

// TestBuilders checks that the ready shapes are closed solids of the right
// volume: that of the prism over the polygon the circle is drawn as.
func TestBuilders(t *testing.T) {
	polygon := func(sides int, r float64) float64 {
		return float64(sides) / 2 * r * r * math.Sin(2*math.Pi/float64(sides))
	}
	bend := []r3.Vec{{}, {X: 30}, {X: 30, Y: 20}, {X: 30, Y: 20, Z: 40}}
	for _, c := range []struct {
		name string
		m    *mesh.Mesh
		want float64
	}{
		{"box", view.Box(r3.Box{Min: r3.Vec{X: 3, Y: 1, Z: 9}, Max: r3.Vec{X: 1, Y: 4, Z: 4}}), 30},
		{"cylinder", view.Cylinder(r3.Vec{Z: 2}, r3.Vec{Z: 12}, 14), 10 * polygon(36, 14)},
		// A mitred pipe has the volume of its straight middle line.
		{"wire", view.Wire(bend, 3), 90 * polygon(12, 1.5)},
		{"no wire", view.Wire(bend[:1], 3), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := c.m.Inspect(mesh.Options{}); !d.None() {
				t.Errorf("defects %+v", d)
			}
			if got := c.m.Volume(); math.Abs(got-c.want) > 1e-9*(1+c.want) {
				t.Errorf("volume %.6f, want %.6f", got, c.want)
			}
		})
	}
	if m := view.Wire([]r3.Vec{{}, {X: 10}, {X: 0.5, Y: 0}}, 2); m.Check() != nil {
		t.Error("a wire that turns back on itself is not a number")
	}
}

func gap(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }
