package plot_test

import (
	"bytes"
	"image/color"
	"image/png"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot"
	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

// example returns a reviewed example.
func example(t testing.TB, name string) (*design.Document, review.Result) {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name == name {
			doc, problems := design.Decode(e.Data, design.Options{Name: name})
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			result, problems := review.Run(doc)
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			return doc, result
		}
	}
	t.Fatalf("no example %q", name)
	return nil, review.Result{}
}

// candidates are invented: three materials.
func candidates() []review.Candidate {
	return []review.Candidate{
		{Name: "petg", Title: "PETG", Break: 2, BreakLow: 1.6, BreakHigh: 2.4, Required: 1.25},
		{Name: "copolyester", Title: "Copolyester", Break: 1.4, BreakLow: 1.4, BreakHigh: 1.4, Required: 0.5},
		{Name: "pla", Title: "PLA", Break: 1.2, BreakLow: 0.8, BreakHigh: 1.5, Required: 1.25},
	}
}

func svg(t *testing.T, c plot.Chart) string {
	t.Helper()
	var file bytes.Buffer
	if err := c.SVG(&file, 446, 196); err != nil {
		t.Fatal(err)
	}
	return file.String()
}

var written = regexp.MustCompile(`<text [^>]*>([^<]*)</text>`)

func texts(file string) []string {
	var list []string
	for _, m := range written.FindAllStringSubmatch(file, -1) {
		list = append(list, m[1])
	}
	return list
}

// TestCharts: what stands in every chart, in words.
func TestCharts(t *testing.T) {
	doc, result := example(t, "river-survey")
	for _, c := range []struct {
		check   string
		want    []string // texts
		summary string
	}{
		{"heading", []string{"Heading swing against height, worst heading", "height mm", "full throttle, 120 A", "15°", "100"}, "fails above 45°"},
		{"modes", []string{"Hz", "once-per-rev", "blade-pass", "bending fore-aft", "torsion"}, "The lowest mode, bending fore-aft"},
		{"shake", []string{"rpm", "working", "typical", "spread", "1 g"}, "In hover"},
		{"tipover", []string{"PETG", "2.0 of 1.2 m/s", "Copolyester", "of topple speed", "1 ×"}, "2 of 3 materials pass"},
	} {
		t.Run(c.check, func(t *testing.T) {
			chart, ok := plot.For(c.check, doc, result, candidates())
			if !ok || chart.Empty() {
				t.Fatal("no chart")
			}
			got := strings.Join(texts(svg(t, chart)), "|") + "|"
			for _, want := range c.want {
				if !strings.Contains("|"+got, "|"+want+"|") {
					t.Errorf("%q is not written: %s", want, got)
				}
			}
			if !strings.Contains(chart.Summary(), c.summary) {
				t.Errorf("summary %q misses %q", chart.Summary(), c.summary)
			}
			if first, second := svg(t, chart), svg(t, chart); first != second {
				t.Error("two drawings differ")
			}
		})
	}
	if _, ok := plot.For("bus", doc, result, nil); ok {
		t.Error("the bus has a chart")
	}
}

// TestPresent: the plot's violet words are the figures of the verdict.
func TestPresent(t *testing.T) {
	doc, result := example(t, "orchard-mapper")
	v, _ := result.Verdict("heading")
	want := "120.0 mm, " + strconv.FormatFloat(v.Figure.Value, 'g', 3, 64) + "°"
	if got := strings.Join(texts(svg(t, plot.Heading(doc, result))), "|"); !strings.Contains(got, want) {
		t.Errorf("%q is not in %s", want, got)
	}
}

// TestReadable: no text under 12 px, none outside the sheet, and names of lines no nearer than 14 px, in every example.
func TestReadable(t *testing.T) {
	placed := regexp.MustCompile(`<text x="([-0-9.]+)" y="([-0-9.]+)"[^>]* font-size="([0-9.]+)"[^>]* text-anchor="start"[^>]*>([^<]*)<`)
	for _, e := range assets.Examples() {
		doc, result := example(t, e.Name)
		for _, check := range []string{"heading", "modes", "shake", "tipover"} {
			chart, _ := plot.For(check, doc, result, candidates())
			var ys []float64
			for _, m := range placed.FindAllStringSubmatch(svg(t, chart), -1) {
				x, _ := strconv.ParseFloat(m[1], 64)
				y, _ := strconv.ParseFloat(m[2], 64)
				size, _ := strconv.ParseFloat(m[3], 64)
				if size < 12 {
					t.Errorf("%s, %s: %q is %g px", e.Name, check, m[4], size)
				}
				if end := x + float64(look.Caption.Width(m[4])); x < 0 || end > 447 || y > 196 {
					t.Errorf("%s, %s: %q runs from %g to %.0f, %g down", e.Name, check, m[4], x, end, y)
				}
				if check == "shake" && (m[4] == "typical" || m[4] == "spread") {
					ys = append(ys, y)
				}
			}
			if len(ys) == 2 && (ys[1]-ys[0])*(ys[1]-ys[0]) < 13*13 { // whole pixels
				t.Errorf("%s: names %g px apart", e.Name, ys[1]-ys[0])
			}
		}
	}
}

// TestWithoutData: a chart without data is a hollow lane and says what it needs.
func TestWithoutData(t *testing.T) {
	doc := design.New()
	for _, check := range []string{"heading", "modes", "shake", "tipover"} {
		chart, ok := plot.For(check, doc, review.Result{}, nil)
		if !ok || !chart.Empty() {
			t.Fatalf("%s: a chart of nothing", check)
		}
		if !strings.HasPrefix(chart.Summary(), "no data: it needs") {
			t.Errorf("%s: %q", check, chart.Summary())
		}
		if got := texts(svg(t, chart)); len(got) != 2 || !strings.HasPrefix(got[1], "no data: it needs") {
			t.Errorf("%s: texts %q", check, got)
		}
	}
}

// TestPNG: the exported picture is of its size, on white.
func TestPNG(t *testing.T) {
	doc, result := example(t, "river-survey")
	var file bytes.Buffer
	if err := plot.Response(doc, result).PNG(&file, 400, 200, 2); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	if got := img.Bounds().Size(); got.X != 800 || got.Y != 400 {
		t.Errorf("%v, want 800 by 400", got)
	}
	if r, g, b, a := img.At(3, 3).RGBA(); r != 0xFFFF || g != 0xFFFF || b != 0xFFFF || a != 0xFFFF {
		t.Errorf("the corner is %v", img.At(3, 3))
	}
}

// TestPlot: the widget draws in the screen's pixels and follows the palette.
func TestPlot(t *testing.T) {
	app := test.NewTempApp(t)
	doc, result := example(t, "river-survey")
	p := plot.New()
	w := test.NewTempWindow(t, p)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(446, 196))
	p.SetChart(plot.Heading(doc, result))
	if got := p.Chart().Title(); got != "Heading swing against height, worst heading" {
		t.Errorf("shows %q", got)
	}
	for _, c := range []struct {
		choice look.Choice
		want   color.NRGBA
	}{{look.Light, look.Shade(look.Panel, 1)}, {look.Night, look.Shade(look.Panel, 0)}} {
		app.Settings().SetTheme(look.Theme{Choice: c.choice})
		p.Refresh()
		r, g, b, _ := w.Canvas().Capture().At(2, 2).RGBA()
		if got := (color.NRGBA{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8), A: 0xFF}); got != c.want {
			t.Errorf("%s: ground %v, want %v", c.choice, got, c.want)
		}
	}
	if min := p.MinSize(); min.Width > 276 || min.Height > 196 {
		t.Errorf("needs %v, more than the narrowest window gives", min)
	}
}
