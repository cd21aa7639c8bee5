package view

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

func survey(t *testing.T, edits ...[2]string) *Model {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name != "river-survey" {
			continue
		}
		doc, problems := design.Decode(e.Data, design.Options{})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		for _, edit := range edits {
			if err := doc.Set(edit[0], edit[1]); err != nil {
				t.Fatal(err)
			}
		}
		result, problems := review.Run(doc)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return Build(doc, result, nil, nil)
	}
	t.Fatal("no example")
	return nil
}

// TestDistances holds every dimension line against the number its field has: the line is as long as the figure says.
func TestDistances(t *testing.T) {
	m := survey(t, [2]string{"receiver.compass.x", "4 mm"})
	for _, c := range []struct {
		path string
		want float64 // mm
		text string
	}{
		{"mast.height", 100, "100.0 mm"},
		{"mast.root.x", 18, "18.0 mm"},
		{"mast.tip.x", 13, "13.0 mm"},
		{"mast.cable_way.bottom", 24, "24.0 mm"},
		{"mast.cable_way.length", 12, "12.0 mm"},
		{"airframe.places[0].holes.along", 30.5, "30.5 mm"},
		{"airframe.places[0].holes.across", 30.5, "30.5 mm"},
		{"airframe.places[0].holes.diameter", 3.2, "3.2 mm"},
		{"airframe.places[0].at.x", 82, "−82.0 mm"},
		{"airframe.places[0].at.z", 30, "30.0 mm"},
		{"airframe.places[1].at.x", 86, "86.0 mm"},
		{"airframe.places[0].plate.size.y", 56, "56.0 mm"},
		{"airframe.places[0].plate.thickness", 2, "2.0 mm"},
		{"airframe.neighbours[0].at.x", 26, "26.0 mm"},
		{"airframe.neighbours[0].at.z", 55, "55.0 mm"},
		{"airframe.neighbours[3].size.z", 28, "28.0 mm"},
		{"airframe.motor_diagonal", 302, "302.0 mm"},
		{"airframe.arm_height", 3, "3.0 mm"},
		{"motors.propeller", 177.8, "177.8 mm"},
		{"motors.propeller_height", 18, "18.0 mm"},
		{"leads[0].height", 26, "26.0 mm"},
		{"leads[0].spacing", 5, "5.0 mm"},
		{"receiver.size.x", 28, "28.0 mm"},
		{"receiver.size.z", 10, "10.0 mm"},
		{"receiver.compass.x", 4, "4.0 mm"},
		{"receiver.compass.z", 6, "6.0 mm"},
	} {
		d, ok := m.distance(c.path)
		if !ok {
			t.Errorf("%s: no dimension line", c.path)
			continue
		}
		// a twisted pair is measured between its conductors as they are sampled: within 5 %
		tol := 1e-6
		if c.path == "leads[0].spacing" {
			tol = 0.05 * c.want
		}
		if c.path == "leads[0].height" {
			tol = 0.5 * 5 // the pair's middle is half way from wherever the red wire is to the black
		}
		if got := r3.Norm(r3.Sub(d.b, d.a)); math.Abs(got-c.want) > tol {
			t.Errorf("%s: %.4f mm long, want %.4f", c.path, got, c.want)
		}
		if d.figure != c.text {
			t.Errorf("%s: %q, want %q", c.path, d.figure, c.text)
		}
	}
	for _, path := range []string{"", "mast", "mast.build", "airframe.places[7].at.x", "airframe.places[x].at.x", "leads[0]", "leads[-1].height", "print.layer", "leads["} {
		if _, ok := m.distance(path); ok {
			t.Errorf("%q has a dimension line", path)
		}
	}
}

// TestReadings: a spacing that was read between edges is drawn between edges.
func TestReadings(t *testing.T) {
	for read, want := range map[string]float64{"near edges": 30.5, "far edges": 30.5, "centres": 30.5} {
		m := survey(t, [2]string{"airframe.places[0].holes.read", read})
		d, ok := m.distance("airframe.places[0].holes.along")
		if got := r3.Norm(r3.Sub(d.b, d.a)); !ok || math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %.3f mm, want the reading, %.3f", read, got, want)
		}
	}
}

// TestDisplaced holds the movement of the mount's points against a rigid turn about y at the root: a point at height z and forward x goes by
// (θ z, 0, -θ x).
func TestDisplaced(t *testing.T) {
	const turn = 0.01
	var path []review.ShapePoint
	for _, z := range []float64{10, 40, 40, 100} {
		path = append(path, review.ShapePoint{Height: z, Move: r3.Vec{X: turn * z}, Turn: r3.Vec{Y: turn}})
	}
	for _, p := range []r3.Vec{{X: 5, Z: 10}, {X: -3, Y: 2, Z: 25}, {X: 1, Z: 40}, {X: 8, Y: -8, Z: 99}} {
		want := r3.Vec{X: turn * p.Z, Z: -turn * p.X}
		if got := displaced(path, p); r3.Norm(r3.Sub(got, want)) > 1e-12 {
			t.Errorf("at %v: %v, want %v", p, got, want)
		}
	}
	if got := displaced(path, r3.Vec{X: 9}); got != (r3.Vec{}) {
		t.Errorf("the mounting face moves by %v", got)
	}
}

// TestCaption: 110.4 Hz shown at 0.8 Hz is 138 times slower.
func TestCaption(t *testing.T) {
	if got, want := captionOf(review.Mode{Hz: 110.4}, 61, false), "110 Hz, shown 138 times slower, 61 times larger"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := captionOf(review.Mode{Hz: 110}, 0, true), "110 Hz, both ends of the swing"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestStressBand: the worst of the members that overlap counts, and a notch counts in its slice.
func TestStressBand(t *testing.T) {
	points := []review.StressPoint{
		{Member: "mast", Height: 0, Place: 0.8}, {Member: "collar", Height: 0, Place: 0.2}, {Member: "mast", Height: 10, Place: 1.6},
		{Member: "collar", Height: 20, Place: 0.4}, {Member: "mast", Height: 100, Place: 0.1},
	}
	for _, c := range []struct {
		low, high, want float64
	}{
		{4, 6, 1.2},      // half way up the mast's first stretch
		{9, 11, 1.6},     // the point itself
		{54, 56, 0.85},   // half way down the second
		{100.5, 101, -1}, // nothing is there
	} {
		got, ok := placeBetween(points, c.low, c.high)
		if !ok {
			got = -1
		}
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g to %g mm: %.3f, want %.3f", c.low, c.high, got, c.want)
		}
	}
}
