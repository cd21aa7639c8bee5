package certainty_test

import (
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/sizing/certainty"
	"mastwright/design/units"
)

// example is an example design.
func example(t testing.TB, name string) *design.Document {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "assets", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	doc, problems := design.Decode(data, design.Options{Name: name})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return doc
}

func set(t testing.TB, doc *design.Document, path, text string) {
	t.Helper()
	if err := doc.Set(path, text); err != nil {
		t.Fatal(err)
	}
}

func study(t testing.TB, doc *design.Document, o certainty.Options) certainty.Result {
	t.Helper()
	r, err := certainty.Study(context.Background(), doc, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func chance(t testing.TB, r certainty.Result, id string) certainty.Chance {
	t.Helper()
	for _, c := range r.Chances {
		if c.Check == id {
			return c
		}
	}
	t.Fatalf("there is no %s", id)
	return certainty.Chance{}
}

// above is the probability that a triangular variable exceeds x, by the areas of its triangle: computed here from the density.
func above(a, c, b, x float64) float64 {
	switch {
	case x <= a:
		return 1
	case x >= b:
		return 0
	case x <= c:
		return 1 - (x-a)*(x-a)/((b-a)*(c-a))
	}
	return (b - x) * (b - x) / ((b - a) * (b - c))
}

// A design's heat passes where the plastic softens far enough above the service temperature, so that its probability is the
// softening's alone.
func TestHeatAgainstClosedForm(t *testing.T) {
	doc := example(t, "river-survey")
	for _, part := range []string{"foot", "mast", "tray"} {
		set(t, doc, "materials."+part, "pc")
	}
	m, err := doc.Library().Find("pc")
	if err != nil {
		t.Fatal(err)
	}
	a, c, b := m.Softening.Low.Celsius(), m.Softening.Typical.Celsius(), m.Softening.High.Celsius()
	service := c - 15
	set(t, doc, "site.service", units.TemperatureKind.Format(service))
	set(t, doc, "limits.heat.pass", "10 K")
	set(t, doc, "limits.heat.marginal", "0 K")
	const n = 100
	got := chance(t, study(t, doc, certainty.Options{Samples: n}), "heat")
	pass, noFail := above(a, c, b, service+10), above(a, c, b, service)
	if tol := 1.0 / n; math.Abs(got.Pass.Value-pass) > tol || math.Abs(got.Pass.Value+got.Marginal.Value-noFail) > tol {
		t.Errorf("got %.3f pass, %.3f marginal; want %.3f, %.3f within one stratum", got.Pass.Value, got.Marginal.Value, pass, noFail-pass)
	}
	if len(got.Influences) != 1 || got.Influences[0].Name != "softening, "+m.Title || got.Influences[0].Rank > -0.999 {
		t.Errorf("got influences %+v, want the softening alone, and more of it better", got.Influences)
	}
}

// A measured modulus goes before the library's and narrows what hangs on it; a modulus measured without a spread is known.
func TestMeasuredModulusNarrows(t *testing.T) {
	doc := example(t, "river-survey")
	m, err := doc.Library().Find("copolyester")
	if err != nil {
		t.Fatal(err)
	}
	wide := chance(t, study(t, doc, certainty.Options{Samples: 60}), "sway")
	dry := m.ModulusInLayer.Typical * units.Stress(m.Conditioning.Typical.Fraction())
	measured := design.Measured{What: design.MeasuredModulus, Of: "copolyester", Layers: "along", Modulus: dry, Spread: 0.01, Date: "2026-05-02", Method: "hang test"}
	if err := doc.Use(measured, ""); err != nil {
		t.Fatal(err)
	}
	r := study(t, doc, certainty.Options{Samples: 60})
	narrow := chance(t, r, "sway")
	if was, is := wide.High-wide.Low, narrow.High-narrow.Low; is > was*0.8 {
		t.Errorf("sway spreads over %.4f after measuring, %.4f before; want less than 0.8 of it", is, was)
	}
	found := false
	for _, p := range r.Properties {
		if p.Name == "modulus, "+m.Title {
			found = p.Source == measured.Source() && math.Abs(p.Law.High/p.Law.Typical-1.01) < 1e-9
		}
	}
	if !found {
		t.Error("the modulus drawn is not the measured one")
	}
}

// The same answers from a shelf file are the same design.
func TestShelvedAnswersAreKept(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "assets", "examples", "river-survey.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	const own, shelf = "print:\n  orientation: lying\n  line_width: 0.4 mm\n", "mastwright: 1\norientation: lying\nline_width: 0.4 mm\nwalls: 5\n"
	if !strings.Contains(string(data), own) {
		t.Fatal("the example has lost the lines that are edited here")
	}
	doc, problems := design.Decode([]byte(strings.Replace(string(data), own, "print: {from: printer.yaml}\n", 1)),
		design.Options{Open: func(string) ([]byte, error) { return []byte(shelf), nil }})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	flat := example(t, "river-survey")
	set(t, flat, "print.walls", "5")
	got, want := study(t, doc, certainty.Options{Samples: 10}), study(t, flat, certainty.Options{Samples: 10})
	if !reflect.DeepEqual(got.Chances, want.Chances) {
		t.Error("the chances differ with where the answers stand")
	}
}

// Workers change nothing, the seed does.
func TestDeterminism(t *testing.T) {
	doc := example(t, "river-survey")
	one := study(t, doc, certainty.Options{Samples: 20, Workers: 1})
	last := 0
	three := study(t, doc, certainty.Options{Samples: 20, Workers: 3, Progress: func(done, total int) { last = done }})
	if !reflect.DeepEqual(one.Chances, three.Chances) {
		t.Error("three workers find other chances than one")
	}
	if last != 20 {
		t.Errorf("progress ended at %d of 20", last)
	}
	if other := study(t, doc, certainty.Options{Samples: 20, Seed: 1}); reflect.DeepEqual(one.Chances, other.Chances) {
		t.Error("another seed draws the same")
	}
}

// Where nothing is drawn away from typical the study says what the review says, and shares of a check are all of it.
func TestSharesAreWhole(t *testing.T) {
	r := study(t, example(t, "river-survey"), certainty.Options{Samples: 40})
	for _, c := range r.Chances {
		if sum := c.Pass.Value + c.Marginal.Value + c.Fail.Value; c.Known && math.Abs(sum-1) > 1e-12 {
			t.Errorf("%s: the shares add up to %g", c.Check, sum)
		}
		for _, s := range []certainty.Share{c.Pass, c.Marginal, c.Fail} {
			if c.Known && (s.Low > s.Value || s.High < s.Value) {
				t.Errorf("%s: %v is outside its own interval", c.Check, s)
			}
		}
		if c.Low > c.Middle || c.Middle > c.High {
			t.Errorf("%s: places %g, %g, %g are not in order", c.Check, c.Low, c.Middle, c.High)
		}
	}
}

func TestRefusals(t *testing.T) {
	doc := example(t, "river-survey")
	if _, err := certainty.Study(context.Background(), doc, certainty.Options{Samples: 3}); err == nil {
		t.Error("3 samples: got no error")
	}
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := certainty.Study(stopped, doc, certainty.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: got %v, want %v", err, context.Canceled)
	}
	set(t, doc, "mast.wall", "8 mm")
	set(t, doc, "mast.tip.x", "4 mm")
	if _, err := certainty.Study(context.Background(), doc, certainty.Options{}); err == nil {
		t.Error("a wall without a bore: got no error")
	}
}

func BenchmarkStudy(b *testing.B) {
	doc := example(b, "river-survey")
	for b.Loop() {
		study(b, doc, certainty.Options{})
	}
	b.ReportMetric(200*float64(b.N)/b.Elapsed().Seconds(), "samples/s")
}
