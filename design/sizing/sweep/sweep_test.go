package sweep_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing/sweep"
)

func example(t testing.TB) *design.Document {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "assets", "examples", "river-survey.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	doc, problems := design.Decode(data, design.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return doc
}

func axis(t testing.TB, doc *design.Document, path string, r sweep.Range) sweep.Axis {
	t.Helper()
	a, err := sweep.NewAxis(doc, path, r)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func run(t testing.TB, doc *design.Document, o sweep.Options, axes ...sweep.Axis) sweep.Result {
	t.Helper()
	r, err := sweep.Run(context.Background(), doc, axes, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestAxes(t *testing.T) {
	doc := example(t)
	for _, c := range []struct {
		path string
		r    sweep.Range
		want []string
	}{
		{"mast.height", sweep.Range{From: "60", To: "18 cm", Step: "40"}, []string{"60 mm", "100 mm", "140 mm", "180 mm"}},
		{"mast.height", sweep.Range{From: "60", To: "61", Steps: 3}, []string{"60 mm", "60.3333333333 mm", "60.6666666667 mm", "61 mm"}},
		{"mast.height", sweep.Range{From: "60", To: "60"}, []string{"60 mm"}},
		{"leads[0].spacing", sweep.Range{From: "2", To: "4", Step: "1"}, []string{"2 mm", "3 mm", "4 mm"}},
		{"print.walls", sweep.Range{From: "3", To: "5"}, []string{"3", "4", "5"}},
		{"mast.section", sweep.Range{}, []string{"rectangular", "round"}},
	} {
		if got := axis(t, doc, c.path, c.r).Texts; !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s, %+v: got %q, want %q", c.path, c.r, got, c.want)
		}
	}
	if got := axis(t, doc, "materials.mast", sweep.Range{}).Texts; len(got) < 5 {
		t.Errorf("materials.mast takes %q, want every print material", got)
	}
	if got := axis(t, doc, "mast.height", sweep.Range{}).Texts; len(got) != 21 {
		t.Errorf("the whole range has %d values, want 20 steps", len(got))
	}
}

func TestRefusedAxes(t *testing.T) {
	doc := example(t)
	for _, c := range []struct {
		path string
		r    sweep.Range
		want string
	}{
		{"mast.hight", sweep.Range{}, `did you mean "mast.height"?`},
		{"leads[7].spacing", sweep.Range{}, "no such entry"},
		{"name", sweep.Range{}, "neither a number nor a choice"},
		{"leads", sweep.Range{}, "neither a number nor a choice"},
		{"mast.section", sweep.Range{From: "1"}, "takes choices"},
		{"mast.height", sweep.Range{From: "100", To: "60"}, "turn them round"},
		{"mast.height", sweep.Range{From: "60", To: "5 m"}, "mast.height, to: 5"},
		{"mast.height", sweep.Range{From: "tall"}, "mast.height, from: "},
		{"mast.height", sweep.Range{From: " "}, "mast.height, from: "},
		{"mast.height", sweep.Range{Step: "0"}, "does not go up"},
		{"mast.height", sweep.Range{Step: "0.00001"}, "write a larger one"},
		{"mast.height", sweep.Range{Steps: 1 << 40}, "write a larger one"},
		{"mast.height", sweep.Range{Steps: -1}, "1 or more"},
		{"mast.height", sweep.Range{Step: "5", Steps: 5}, "leave one out"},
	} {
		if _, err := sweep.NewAxis(doc, c.path, c.r); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s, %+v: got %v, want %q in it", c.path, c.r, err, c.want)
		}
	}
	height, wall := axis(t, doc, "mast.height", sweep.Range{}), axis(t, doc, "mast.wall", sweep.Range{})
	for _, c := range []struct {
		axes   []sweep.Axis
		checks []string
		want   string
	}{
		{nil, nil, "no field"},
		{[]sweep.Axis{height, wall, height}, nil, "3 fields"},
		{[]sweep.Axis{height, height}, nil, "swept twice"},
		{[]sweep.Axis{height}, []string{"colour"}, "no check"},
		{[]sweep.Axis{axis(t, doc, "mast.height", sweep.Range{Steps: 100}), axis(t, doc, "mast.wall", sweep.Range{Steps: 100})}, nil, "more than"},
	} {
		if _, err := sweep.Run(context.Background(), doc, c.axes, sweep.Options{Checks: c.checks}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want %q in it", err, c.want)
		}
	}
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := sweep.Run(stopped, doc, []sweep.Axis{height}, sweep.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: got %v", err)
	}
}

// The rise time of an I²C bus is 0.8473 R C (UM10204, I²C-bus specification, section on pull-up resistors); over its limit of 1000 ns at 100 kHz, with
// 80 pF/m over 0.21 m and 30 pF for each of two devices (common practice).
func TestCurveAgainstClosedForm(t *testing.T) {
	doc := example(t)
	a := axis(t, doc, "cable.pull_up", sweep.Range{From: "1 kohm", To: "4 kohm", Steps: 6})
	r := run(t, doc, sweep.Options{Checks: []string{"bus"}}, a)
	c, ok := r.Curve("bus", "rise time over the limit")
	for i, p := range r.Points {
		want := 0.8473 * a.Numbers[p.At[0]] * (0.21*80 + 2*30) * 1e-12 / 1000e-9
		if !ok || !c.Values[i].Known || math.Abs(c.Values[i].Value/want-1) > 1e-3 { // the capacitances are the table's, the factor has four digits
			t.Errorf("at %s: got %g, want %g", a.Texts[i], c.Values[i].Value, want)
		}
	}
}

// A point is the review of the changed design, in the order of a table read line by line.
func TestPointsAreReviews(t *testing.T) {
	doc := example(t)
	r := run(t, doc, sweep.Options{}, axis(t, doc, "mast.height", sweep.Range{From: "80", To: "120", Steps: 2}), axis(t, doc, "print.orientation", sweep.Range{}))
	if len(r.Points) != 6 {
		t.Fatalf("got %d points, want 3 heights times 2 orientations", len(r.Points))
	}
	for i, p := range r.Points {
		changed := doc.Clone()
		for k, a := range r.Axes {
			if err := changed.Set(a.Path, a.Texts[p.At[k]]); err != nil {
				t.Fatal(err)
			}
		}
		want, problems := review.Judge(changed)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if want := []int{i / 2, i % 2}; !reflect.DeepEqual(p.At, want) {
			t.Errorf("point %d is at %v, want %v", i, p.At, want)
		}
		if p.Mass != want.Mass || !reflect.DeepEqual(p.Verdicts, want.Verdicts) || !reflect.DeepEqual(p.Bands, want.Bands) {
			t.Errorf("point %v differs from the review of its design", p.At)
		}
	}
	if again := run(t, doc, sweep.Options{Workers: 1}, r.Axes...); !reflect.DeepEqual(again, r) {
		t.Error("one worker finds another result")
	}
}

// No point of the front is beaten by any point, and every other point is beaten or equalled by one of the front: the definition of
// Pareto's front, by trying all pairs.
func TestFront(t *testing.T) {
	doc := example(t)
	r := run(t, doc, sweep.Options{}, axis(t, doc, "mast.height", sweep.Range{From: "60", To: "160", Steps: 4}), axis(t, doc, "mast.wall", sweep.Range{From: "1.2", To: "3.6", Steps: 3}))
	beats := func(p, q sweep.Point) bool {
		return p.Mass <= q.Mass && p.Worst <= q.Worst && (p.Mass < q.Mass || p.Worst < q.Worst)
	}
	on := map[int]bool{}
	for _, i := range r.Front {
		on[i] = true
		for k, q := range r.Points {
			if len(q.Problems) == 0 && beats(q, r.Points[i]) {
				t.Errorf("point %d is on the front and point %d beats it", i, k)
			}
		}
	}
	for k, q := range r.Points {
		covered := on[k] || len(q.Problems) > 0
		for _, i := range r.Front {
			covered = covered || beats(r.Points[i], q) || r.Points[i].Mass == q.Mass && r.Points[i].Worst == q.Worst
		}
		if !covered {
			t.Errorf("point %d is off the front and nothing there beats it", k)
		}
	}
	if len(r.Front) == 0 || len(r.Front) == len(r.Points) {
		t.Errorf("the front has %d of %d points; the case tells nothing", len(r.Front), len(r.Points))
	}
}

// RFC 4180: lines end with CR LF, every line has the same number of fields. What is read back is what was found.
func TestCSV(t *testing.T) {
	doc := example(t)
	r := run(t, doc, sweep.Options{Checks: []string{"modes", "tipover"}}, axis(t, doc, "mast.wall", sweep.Range{From: "2", To: "10", Steps: 2}))
	var b bytes.Buffer
	if err := r.EncodeCSV(&b); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(b.Bytes(), []byte("\n")); n != bytes.Count(b.Bytes(), []byte("\r\n")) || n != 4 {
		t.Errorf("got %d lines, want 4 that end with CR LF", n)
	}
	table, err := csv.NewReader(&b).ReadAll() // refuses lines of different lengths
	if err != nil {
		t.Fatal(err)
	}
	column := func(name string) int {
		for i, h := range table[0] {
			if h == name {
				return i
			}
		}
		t.Fatalf("no column %q in %q", name, table[0])
		return 0
	}
	first, _ := r.Curve("modes", "lowest mode")
	if got, want := table[1][column("modes: lowest mode [Hz]")], fmt.Sprintf("%.6g", first.Values[0].Value); got != want {
		t.Errorf("lowest mode: got %s, want %s", got, want)
	}
	if got := table[3][column("problem")]; !strings.Contains(got, "mast.wall") || table[3][column("mass [g]")] != "" {
		t.Errorf("a wall of 10 mm: got problem %q, mass %q, want a problem and no mass", got, table[3][column("mass [g]")])
	}
	column("once-per-rev, hover, from [Hz]")
	column("modes: lowest mode over control bandwidth, pass limit")
}
