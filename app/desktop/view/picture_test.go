package view_test

import (
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/view"
	"mastwright/design"
	"mastwright/design/review"
	raster "mastwright/mesh/view"
)

// window shows a picture of a model at a size.
func window(t *testing.T, size fyne.Size, o view.Options, m *view.Model) (*view.Picture, fyne.Window) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.Theme{Choice: look.Light})
	p := view.New(o)
	w := test.NewTempWindow(t, p)
	w.SetPadded(false)
	w.Resize(size)
	p.SetModel(m)
	w.Canvas().Capture()
	return p, w
}

var middling = fyne.NewSize(446, 498)

func TestChips(t *testing.T) {
	p, _ := window(t, middling, view.Options{AtOnce: true}, built(t, example(t, "river-survey")))
	if got, want := view.ChipTexts(p), []string{"corner*", "front", "side", "top", "fit", "heading", "mode shape", "stress", "tip-over"}; !slices.Equal(got, want) {
		t.Errorf("chips %q, want %q", got, want)
	}
	p.Turn(raster.Side)
	p.SetOverlay(view.Stress, true)
	if got, want := view.ChipTexts(p), []string{"corner", "front", "side*", "top", "fit", "heading", "mode shape", "stress*", "tip-over"}; !slices.Equal(got, want) {
		t.Errorf("chips %q, want %q", got, want)
	}
	p.Resize(fyne.NewSize(276, 398)) // the narrowest window
	if got, want := view.ChipTexts(p)[5:], []string{"heading", "mode", "stress*", "tip"}; !slices.Equal(got, want) {
		t.Errorf("chips in a narrow picture %q, want %q", got, want)
	}
	if right := view.ChipsRight(p); right > 276-6 {
		t.Errorf("chips end at %.0f of 276 px", right)
	}
}

func TestOverlaysFollowTheCheck(t *testing.T) {
	p, _ := window(t, middling, view.Options{AtOnce: true}, built(t, example(t, "river-survey")))
	for _, c := range []struct {
		name string
		do   func()
		want []view.Overlay
	}{
		{"heading", func() { p.SetChecked("heading") }, []view.Overlay{view.Heading}},
		{"shake", func() { p.SetChecked("shake") }, []view.Overlay{view.Shape}},
		{"modes share the shape", func() { p.SetChecked("modes") }, []view.Overlay{view.Shape}},
		{"by hand beside it", func() { p.SetOverlay(view.Stress, true) }, []view.Overlay{view.Shape, view.Stress}},
		{"a check without one", func() { p.SetChecked("bus") }, []view.Overlay{view.Stress}},
		{"one that is on by hand stays", func() { p.SetChecked("strength"); p.SetChecked("") }, []view.Overlay{view.Stress}},
		{"tip-over", func() { p.SetOverlay(view.Stress, false); p.SetChecked("tipover") }, []view.Overlay{view.TipOver}},
		{"none", func() { p.SetChecked("") }, nil},
	} {
		c.do()
		if got := p.Overlays(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestWithoutData(t *testing.T) {
	for name, m := range map[string]*view.Model{
		"new design":   view.Build(design.New(), review.Result{}, nil, nil),
		"not reviewed": view.Build(example(t, "river-survey"), review.Result{}, nil, nil),
	} {
		t.Run(name, func(t *testing.T) {
			p, w := window(t, middling, view.Options{AtOnce: true}, m)
			p.SetChecked("heading")
			p.SetFocus("leads[0].height")
			if got := p.Overlays(); len(got) > 0 {
				t.Errorf("overlays %v without data", got)
			}
			w.Canvas().Capture()
		})
	}
}

func TestHand(t *testing.T) {
	p, _ := window(t, middling, view.Options{AtOnce: true}, built(t, example(t, "river-survey")))
	start := view.CameraOf(p)

	p.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	p.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(40, 0)})
	if c := view.CameraOf(p); c.Azimuth == start.Azimuth || c.Target != start.Target {
		t.Error("a drag does not turn, or moves the target")
	}
	if view.ChipTexts(p)[0] != "corner" {
		t.Error("the corner chip stays picked after a turn by hand")
	}

	before := view.CameraOf(p)
	p.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: fyne.KeyModifierShift})
	p.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(30, -20)})
	if dx, dy := shifted(before, view.CameraOf(p)); math.Abs(dx-30) > 1e-6 || math.Abs(dy+20) > 1e-6 {
		t.Errorf("drag with Shift moves the scene %.3f, %.3f px, want 30, -20", dx, dy)
	}

	before = view.CameraOf(p)
	p.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 100)}})
	p.MouseMoved(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(88, 109)}})
	p.MouseUp(&desktop.MouseEvent{})
	p.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, 300)}})
	if dx, dy := shifted(before, view.CameraOf(p)); math.Abs(dx+12) > 1e-6 || math.Abs(dy-9) > 1e-6 {
		t.Errorf("drag with the right button moves the scene %.3f, %.3f px, want -12, 9", dx, dy)
	}

	before = view.CameraOf(p)
	at := raster.Pixel{X: 120, Y: 300}
	p.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(120, 300)}, Scrolled: fyne.NewDelta(0, 25)})
	after := view.CameraOf(p)
	if after.Scale <= before.Scale {
		t.Error("the wheel does not come nearer")
	}
	if q := after.Project(before.Unproject(at)); math.Hypot(q.X-at.X, q.Y-at.Y) > 1e-6 {
		t.Errorf("what was under the pointer went to %.3f, %.3f", q.X, q.Y)
	}
}

// shifted returns by how many pixels the scene moved from one camera to another.
func shifted(a, b raster.Camera) (dx, dy float64) {
	p, q := a.Project(a.Target), b.Project(a.Target)
	return q.X - p.X, q.Y - p.Y
}

func TestKeys(t *testing.T) {
	p, w := window(t, middling, view.Options{AtOnce: true}, built(t, example(t, "river-survey")))
	w.Canvas().Focus(p)
	for _, c := range []struct {
		name  string
		press func()
		want  func(before, after raster.Camera) bool
	}{
		{"right", func() { p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) }, func(a, b raster.Camera) bool { return b.Azimuth > a.Azimuth }},
		{"up", func() { p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp}) }, func(a, b raster.Camera) bool { return b.Elevation > a.Elevation }},
		{"plus", func() { test.Type(p, "+") }, func(a, b raster.Camera) bool { return b.Scale > a.Scale }},
		{"minus", func() { test.Type(p, "-") }, func(a, b raster.Camera) bool { return b.Scale < a.Scale }},
		{"t", func() { test.Type(p, "t") }, func(_, b raster.Camera) bool { return b.Elevation == math.Pi/2 }},
		{"f", func() { test.Type(p, "f") }, func(_, b raster.Camera) bool { return b.Elevation == 0 && b.Azimuth == 0 }},
		{"s", func() { test.Type(p, "S") }, func(_, b raster.Camera) bool { return b.Azimuth == -math.Pi/2 }},
		{"c", func() { test.Type(p, "c") }, func(_, b raster.Camera) bool { return b.Elevation > 0 }},
		{"0 again: the whole aircraft", func() { test.Type(p, "0") }, func(a, b raster.Camera) bool { return b.Scale < a.Scale }},
		{"0: the mount", func() { test.Type(p, "0") }, func(a, b raster.Camera) bool { return b.Scale > a.Scale }},
	} {
		before := view.CameraOf(p)
		c.press()
		if after := view.CameraOf(p); !c.want(before, after) {
			t.Errorf("%s: from %+v to %+v", c.name, before, after)
		}
	}
}

func TestPick(t *testing.T) {
	picked := "?"
	doc := example(t, "river-survey")
	p, _ := window(t, middling, view.Options{AtOnce: true, OnPick: func(path string) { picked = path }}, built(t, doc))
	p.Turn(raster.Side)
	c := view.CameraOf(p)
	tap := func(x, z float64) string {
		q := c.Project(vec(x, 0, z))
		p.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(q.X), float32(q.Y))})
		return picked
	}
	h := doc.Mast.Height.Millimetres()
	for _, pick := range []struct {
		x, z float64
		want string
	}{
		{0, h / 2, "mast"},
		{0, h + 0.7*doc.Receiver.Size.Z.Millimetres(), "receiver"},
		{0, h + 3*doc.Receiver.Size.Z.Millimetres(), ""},
	} {
		if got := tap(pick.x, pick.z); got != pick.want {
			t.Errorf("at x %.0f, z %.0f mm: picked %q, want %q", pick.x, pick.z, got, pick.want)
		}
	}
}

// TestSwing: the mode shape moves only while it is shown and can be seen.
func TestSwing(t *testing.T) {
	p, _ := window(t, middling, view.Options{AtOnce: true}, built(t, example(t, "river-survey")))
	for _, c := range []struct {
		name string
		do   func()
		want bool
	}{
		{"at first", func() {}, false},
		{"switched on", func() { p.SetOverlay(view.Shape, true) }, true},
		{"the window goes out of sight", func() { p.SetAwake(false) }, false},
		{"and comes back", func() { p.SetAwake(true) }, true},
		{"hidden", p.Hide, false},
		{"shown again", p.Show, true},
		{"a design without a mount", func() { p.SetModel(view.Build(design.New(), review.Result{}, nil, nil)) }, false},
		{"switched off", func() { p.SetOverlay(view.Shape, false) }, false},
	} {
		c.do()
		if got := view.Swings(p); got != c.want {
			t.Errorf("%s: swings %t, want %t", c.name, got, c.want)
		}
	}
}

// TestPull: a picked neighbour follows the pointer along the frame, from whichever side it is seen.
func TestPull(t *testing.T) {
	doc := example(t, "river-survey")
	n := doc.Airframe.Neighbours[0]
	place, _ := doc.PlaceChosen()
	at := vec((n.At.X - place.At.X).Millimetres(), (n.At.Y - place.At.Y).Millimetres(), (n.At.Z+n.Size.Z/2-place.At.Z).Millimetres()-0.1)
	var path string
	var x, y float64
	let := false
	o := view.Options{AtOnce: true, OnMove: func(p string, dx, dy float64, done bool) { path, x, y, let = p, dx, dy, done }}
	p, _ := window(t, fyne.NewSize(900, 700), o, built(t, doc))
	for _, from := range []raster.Standard{raster.Corner, raster.Top} {
		p.Turn(from)
		p.Fit() // again: the whole aircraft
		path, let = "", false
		c := view.CameraOf(p)
		a, b := c.Project(at), c.Project(vec(at.X+20, at.Y-7, at.Z))
		start := fyne.NewPos(float32(a.X), float32(a.Y))
		down := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: start}}
		p.SetPicked("")
		p.MouseDown(down)
		p.DragEnd()
		if path != "" {
			t.Errorf("%q is pulled without being picked", path)
		}
		p.SetPicked("airframe.neighbours[0]")
		p.MouseDown(down)
		p.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(float32(b.X-a.X), float32(b.Y-a.Y))})
		if let {
			t.Error("let go while it is pulled")
		}
		p.DragEnd()
		if path != "airframe.neighbours[0]" || math.Abs(x-20) > 0.01 || math.Abs(y+7) > 0.01 || !let {
			t.Errorf("view %d: %q went %.3f, %.3f mm, let go %t; want 20, -7", from, path, x, y, let)
		}
		if view.CameraOf(p) != c {
			t.Error("the scene turned")
		}
	}
}

// TestDrawnBehind turns a picture that is drawn beside the window: what comes is the last wish, finely once it stands still.
func TestDrawnBehind(t *testing.T) {
	p, w := window(t, fyne.NewSize(240, 200), view.Options{}, built(t, example(t, "river-survey")))
	landed := view.Landings(p)
	for range 5 {
		p.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(10, 2)})
	}
	fine := false
	for !fine {
		fine = <-landed
	}
	got := w.Canvas().Capture()
	want := p.Image(240, 200, 1, look.Variant())
	if share := differing(got, want, 40); share > 0.16 { // the chips lie over the picture
		t.Errorf("%.0f %% of the pixels differ from the picture drawn at once", 100*share)
	}
}
