package verdicts_test

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/design/review"
)

// invented is a review with a verdict of every check: one marginal, one that fails, one without data, the others passing halfway.
func invented() review.Result {
	var r review.Result
	for _, c := range review.Checks() {
		value := 0.5
		switch c.ID {
		case "shake":
			value = 1.5
		case "heading":
			value = 4 // half as much again over a marginal limit of 2: the middle of the fail lane
		}
		f := review.Figure{Name: "share", Value: value, Unit: "g", Low: value, High: value, Limit: &review.Limit{Pass: 1, Marginal: 2}}
		v := review.Verdict{ID: c.ID, Title: c.Title, State: f.Limit.State(value), Figure: f, Figures: []review.Figure{f}, Because: "it is so", Formula: "a = b", Source: "a book"}
		if c.ID == "bus" {
			v = review.Verdict{ID: c.ID, Title: c.Title, State: review.NoData, Because: "it needs the cable's length", Missing: []string{"cable.length"}}
		}
		r.Verdicts = append(r.Verdicts, v)
	}
	return r
}

func TestListRows(t *testing.T) {
	dressed(t, look.Light)
	l := verdicts.NewList()
	l.Set(review.Result{}) // of a design that cannot be built
	for _, row := range l.Rows() {
		if row.Word != "no data" || row.Figure != "–" {
			t.Errorf("before the first review %s says %q %q", row.Name, row.Figure, row.Word)
		}
	}
	l.Set(invented())
	w := shown(t, l, 336, 598)
	rows := l.Rows()
	if len(rows) != 14 {
		t.Fatalf("got %d rows, want 14", len(rows))
	}
	want := map[string][2]string{"heading": {"4 g", "fail"}, "shake": {"1.5 g", "marginal"}, "bus": {"–", "no data"}, "sky": {"0.5 g", "pass"}}
	written := texts(w)
	for _, row := range rows {
		if x, asked := want[row.ID]; asked && (row.Figure != x[0] || row.Word != x[1]) {
			t.Errorf("%s: got %q %q, want %q", row.ID, row.Figure, row.Word, x)
		}
		for _, word := range []string{row.Name, row.Figure, row.Word} {
			if !slices.Contains(written, word) {
				t.Errorf("%s: %q is not written", row.ID, word)
			}
		}
	}
	for _, sentence := range []string{"14 checks", "11 pass, 1 marginal, 1 fail, 1 no data", "figure",
		"Left of the thin line is good; right of the plumb line fails.", "The whisker is the spread of the material and the leads.",
		"Estimates for model aircraft; no proof of airworthiness."} {
		if !slices.Contains(written, sentence) {
			t.Errorf("%q is not written", sentence)
		}
	}
}

func TestLanesAreNamedWhereThereIsRoom(t *testing.T) {
	dressed(t, look.Light)
	for _, c := range []struct {
		width, height float32
		named, footed bool
	}{{336, 598, false, true}, {404, 698, true, true}, {460, 900, true, true}, {336, 390, false, false}} {
		l := verdicts.NewList()
		l.Set(passing()) // so that "marginal" is the lane's name and no row's word
		written := texts(shown(t, l, c.width, c.height))
		if got := slices.Contains(written, "marginal"); got != c.named {
			t.Errorf("%v wide: lanes named %v, want %v", c.width, got, c.named)
		}
		if got := slices.Contains(written, "Estimates for model aircraft; no proof of airworthiness."); got != c.footed {
			t.Errorf("%v high: footer %v, want %v", c.height, got, c.footed)
		}
	}
}

// passing is a review where everything passes.
func passing() review.Result {
	r := invented()
	for i := range r.Verdicts {
		f := &r.Verdicts[i].Figure
		*f = review.Figure{Name: "share", Value: 0.5, Unit: "g", Low: 0.5, High: 0.5, Limit: &review.Limit{Pass: 1, Marginal: 2}}
		r.Verdicts[i].State = review.Pass
	}
	return r
}

// Every row is at least 24 px high, the least that WCAG 2.2 asks of a pointer's target (success criterion 2.5.8), and all fit.
func TestEveryRowCanBeHit(t *testing.T) {
	dressed(t, look.Light)
	for _, height := range []float32{390, 480, 598, 698, 870} {
		l := verdicts.NewList()
		l.Set(invented())
		var picked []string
		l.OnPick = func(id string) { picked = append(picked, id) }
		w := shown(t, l, 336, height)
		tops := map[string]float32{}
		for y := float32(0); y < height; y++ {
			picked = nil
			test.TapCanvas(w.Canvas(), fyne.NewPos(200, y))
			if len(picked) > 0 {
				tops[picked[0]] = y
			}
		}
		if len(tops) != 14 {
			t.Errorf("%v high: only %d rows can be hit", height, len(tops))
		}
		if pitch := tops["balance"] - tops["printing"]; height >= 598 && (pitch < 27 || pitch > 36) || pitch < 24 {
			t.Errorf("%v high: rows %v apart", height, pitch)
		}
	}
}

func TestListKeys(t *testing.T) {
	dressed(t, look.Light)
	l := verdicts.NewList()
	l.Set(invented())
	w := shown(t, l, 336, 598)
	var picked, opened []string
	l.OnPick = func(id string) { picked = append(picked, id) }
	l.OnOpen = func(id string) { opened = append(opened, id) }
	test.FocusNext(w.Canvas())
	if w.Canvas().Focused() != l {
		t.Fatal("Tab does not reach the list")
	}
	press(l, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn, fyne.KeyUp, fyne.KeyUp, fyne.KeyEnd, fyne.KeyDown, fyne.KeySpace, fyne.KeyHome)
	if want := []string{"clearance", "heading", "clearance", "balance", "clearance"}; !slices.Equal(picked, want) {
		t.Errorf("picked %v, want %v", picked, want)
	}
	if want := []string{"heading", "balance"}; !slices.Equal(opened, want) {
		t.Errorf("opened %v, want %v", opened, want)
	}
	if rims(w) != 1 {
		t.Errorf("%d rims show the focus, want 1", rims(w))
	}
	w.Canvas().Unfocus()
	if rims(w) != 0 {
		t.Error("the rim stays without the focus")
	}
}

func TestNextThatIsNotPass(t *testing.T) {
	dressed(t, look.Light)
	l := verdicts.NewList()
	l.Set(invented())
	var picked []string
	l.OnPick = func(id string) { picked = append(picked, id) }
	for _, step := range []int{1, 1, 1, 1, -1, -1} {
		if !l.Next(step) {
			t.Fatal("there is none")
		}
	}
	if want := []string{"heading", "shake", "bus", "heading", "bus", "shake"}; !slices.Equal(picked, want) {
		t.Errorf("got %v, want %v", picked, want)
	}
	l.Set(passing())
	if l.Next(1) {
		t.Error("found one where all pass")
	}
	if l.Picked() != "shake" {
		t.Errorf("the pick moved to %q", l.Picked())
	}
}

func TestPickIsQuietAndStays(t *testing.T) {
	dressed(t, look.Light)
	l := verdicts.NewList()
	l.OnPick = func(id string) { t.Errorf("told of %s", id) }
	l.Pick("tipover")
	l.Set(invented())
	l.Follow(passing())
	if l.Picked() != "tipover" {
		t.Errorf("got %q", l.Picked())
	}
	l.Pick("nothing of the kind")
	if l.Picked() != "" {
		t.Errorf("got %q", l.Picked())
	}
}

func TestStaleFiguresAreGrey(t *testing.T) {
	dressed(t, look.Light)
	l := verdicts.NewList()
	l.Set(invented())
	w := shown(t, l, 336, 598)
	of := func(text string) color.Color {
		for _, o := range objects(w) {
			if x, is := o.(*canvas.Text); is && x.Text == text {
				return x.Color
			}
		}
		t.Fatalf("%q is not written", text)
		return nil
	}
	for _, c := range []struct {
		stale              bool
		figure, word, name look.Role
	}{{false, look.Ink, look.FailWord, look.Ink}, {true, look.Third, look.Third, look.Ink}} {
		l.SetStale(c.stale)
		for text, role := range map[string]look.Role{"4 g": c.figure, "fail": c.word, "Heading": c.name} {
			if got, want := of(text), color.Color(look.Color(role)); got != want {
				t.Errorf("stale %v, %q: got %v, want %v", c.stale, text, got, want)
			}
		}
	}
	l.Set(invented())
	if got := of("4 g"); got != color.Color(look.Color(look.Ink)) {
		t.Error("a new review is still shown as old")
	}
	l.SetNotice("1 field is not understood; showing Height 92.0 mm")
	if !slices.Contains(texts(w), "1 field is not understood; showing Height 92.0 mm") {
		t.Error("the notice is not written")
	}
}

// The plumb line hangs at 80 % of the zone, ink in every row of pixels; the thin line at 52 %; bars end where their place is.
func TestPlumbLineHangsThroughAllRows(t *testing.T) {
	for _, choice := range []look.Choice{look.Light, look.Night} {
		dressed(t, choice)
		l := verdicts.NewList()
		l.Set(invented())
		img := shown(t, l, 336, 598).Canvas().Capture()
		left, zone := 112, float64(336-112-132)
		plumb, thin := left+int(math.Round(zone*0.80)), left+int(math.Round(zone*0.52))
		like := func(x, y int, role look.Role) bool { return like(img.At(x, y), role) }
		const top, pitch = 52, 33 // 598 high: 14 rows of 33
		for y := top; y < top+14*pitch; y++ {
			if !like(plumb, y, look.Ink) {
				t.Fatalf("%s: the plumb line is broken at %d", choice, y)
			}
			if !like(thin, y, look.Third) {
				t.Fatalf("%s: the thin line is broken at %d", choice, y)
			}
		}
		for i, r := range l.Rows() {
			y := top + i*pitch + pitch/2 - 2 // in the bar, above the whisker's middle
			share := map[review.State]float64{review.Pass: .26, review.Marginal: .66, review.Fail: .90}[r.State]
			if r.State == review.NoData {
				if !like(left+20, y, look.Panel) {
					t.Errorf("%s: %s has no data but a bar", choice, r.Name)
				}
				continue
			}
			end := left + int(share*zone)
			if x := end - 4; !like(x, y, look.BarRole(r.State)) {
				t.Errorf("%s: %s: no bar at %d", choice, r.Name, x)
			}
			if x := end + 4; x != plumb && like(x, y, look.BarRole(r.State)) {
				t.Errorf("%s: %s: bar still at %d", choice, r.Name, x)
			}
		}
	}
}

// like reports whether a pixel has a role's colour, to a twentieth of the range: the toolkit rounds where it blends.
func like(pixel color.Color, role look.Role) bool {
	r, g, b, _ := pixel.RGBA()
	c := look.Color(role)
	return near(r>>8, c.R) && near(g>>8, c.G) && near(b>>8, c.B)
}

func near(a uint32, b uint8) bool {
	d := int(a) - int(b)
	return d > -13 && d < 13
}

func BenchmarkListFollows(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.Theme{Choice: look.Light})
	l := verdicts.NewList()
	w := test.NewTempWindow(b, l)
	w.Resize(fyne.NewSize(404, 698))
	r := invented()
	for b.Loop() {
		l.Follow(r)
	}
}
