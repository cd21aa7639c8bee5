package design_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/units"
)

// square is a 30.5 mm pattern, its corners numbered counter-clockwise from the rear right.
var square = []design.Spot{{X: -15.25, Y: -15.25}, {X: 15.25, Y: -15.25}, {X: 15.25, Y: 15.25}, {X: -15.25, Y: 15.25}}

func distances(between ...[3]float64) []design.Distance {
	var list []design.Distance
	for _, b := range between {
		list = append(list, design.Distance{From: int(b[0]), To: int(b[1]), Length: units.Length(b[2])})
	}
	return list
}

// The wanted places are plain geometry: squares, rectangles, equilateral triangles, Pythagoras.
func TestCentres(t *testing.T) {
	diagonal := 30.5 * math.Sqrt2
	half, height := 10.0, 20*math.Sqrt(3)/2
	for _, c := range []struct {
		name     string
		holes    design.Holes
		want     []design.Spot
		residual units.Length
	}{
		{"square between centres", design.Holes{As: "rectangle", Read: "centres", Diameter: 3.2, Along: 30.5}, square, 0},
		{"square between near edges", design.Holes{As: "rectangle", Read: "near edges", Diameter: 3.2, Along: 27.3}, square, 0},
		{"square between far edges", design.Holes{As: "rectangle", Read: "far edges", Diameter: 3.2, Along: 33.7}, square, 0},
		{"rectangle", design.Holes{As: "rectangle", Along: 20, Across: 30},
			[]design.Spot{{X: -10, Y: -15}, {X: 10, Y: -15}, {X: 10, Y: 15}, {X: -10, Y: 15}}, 0},
		{"ring of four turned 45 degrees", design.Holes{As: "ring", Ring: units.Length(diagonal), Count: 4, First: -135}, square, 0},
		{"ring between near edges", design.Holes{As: "ring", Read: "near edges", Diameter: 3, Ring: 17, Count: 2},
			[]design.Spot{{X: 10}, {X: -10}}, 0},
		{"ring of three", design.Holes{As: "ring", Ring: 20, Count: 3},
			[]design.Spot{{X: 10}, {X: -5, Y: units.Length(5 * math.Sqrt(3))}, {X: -5, Y: units.Length(-5 * math.Sqrt(3))}}, 0},
		{"listed", design.Holes{As: "listed", Points: square[:3]}, square[:3], 0},
		{"distances of a square, sides and a diagonal", design.Holes{As: "distances",
			Distances: distances([3]float64{1, 2, 30.5}, [3]float64{2, 3, 30.5}, [3]float64{3, 4, 30.5}, [3]float64{4, 1, 30.5}, [3]float64{1, 3, diagonal})}, square, 0},
		{"distances between far edges", design.Holes{As: "distances", Read: "far edges", Diameter: 3.2,
			Distances: distances([3]float64{1, 2, 33.7}, [3]float64{2, 3, 33.7}, [3]float64{3, 4, 33.7}, [3]float64{4, 1, 33.7}, [3]float64{1, 3, diagonal + 3.2}, [3]float64{2, 4, diagonal + 3.2})}, square, 0},
		{"distances of a triangle", design.Holes{As: "distances",
			Distances: distances([3]float64{1, 2, 20}, [3]float64{2, 3, 20}, [3]float64{3, 1, 20})},
			[]design.Spot{{X: units.Length(-half), Y: units.Length(-height / 3)}, {X: units.Length(half), Y: units.Length(-height / 3)}, {X: 0, Y: units.Length(2 * height / 3)}}, 0},
		{"two holes", design.Holes{As: "distances", Distances: distances([3]float64{1, 2, 40})}, []design.Spot{{X: -20}, {X: 20}}, 0},
		{"a long rectangle, 10 by 60", design.Holes{As: "distances",
			Distances: distances([3]float64{1, 2, 10}, [3]float64{2, 3, 60}, [3]float64{3, 4, 10}, [3]float64{1, 4, 60}, [3]float64{1, 3, math.Hypot(10, 60)})},
			[]design.Spot{{X: -5, Y: -30}, {X: 5, Y: -30}, {X: 5, Y: 30}, {X: -5, Y: 30}}, 0},
		// Two readings of one length differ by 1 mm: the least squares lie in the middle, half a millimetre from each.
		{"one distance read twice", design.Holes{As: "distances", Distances: distances([3]float64{1, 2, 40}, [3]float64{2, 1, 41})},
			[]design.Spot{{X: -20.25}, {X: 20.25}}, 0.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, residual, err := c.holes.Centres()
			if err != nil {
				t.Fatal(err)
			}
			const tolerance = 1e-6 // mm; the least-squares steps end far below
			if len(got) != len(c.want) || math.Abs(float64(residual-c.residual)) > tolerance {
				t.Fatalf("got %v, residual %v; want %v, %v", got, residual, c.want, c.residual)
			}
			for i := range got {
				if math.Hypot(float64(got[i].X-c.want[i].X), float64(got[i].Y-c.want[i].Y)) > tolerance {
					t.Errorf("hole %d: got %v, want %v", i+1, got[i], c.want[i])
				}
			}
		})
	}
}

func TestDistancesThatAreNotEnough(t *testing.T) {
	for _, c := range []struct {
		name  string
		known []design.Distance
		want  string
	}{
		{"none", nil, "no distance between two holes is known"},
		{"a chain", distances([3]float64{1, 2, 20}, [3]float64{2, 3, 20}), "add the distance between holes 1 and 3"},
		{"four sides without a diagonal", distances([3]float64{1, 2, 20}, [3]float64{2, 3, 20}, [3]float64{3, 4, 20}, [3]float64{1, 4, 20}),
			"add the distance between holes 1 and 3"},
		{"a hole left out", distances([3]float64{1, 2, 20}, [3]float64{2, 4, 20}, [3]float64{1, 4, 20}), "add the distance between holes 1 and 3"},
		{"a slip of 5 mm", distances([3]float64{1, 2, 20}, [3]float64{2, 3, 20}, [3]float64{3, 4, 20}, [3]float64{1, 4, 20}, [3]float64{1, 3, 28.28}, [3]float64{2, 4, 38.28}),
			"the distances fit no pattern"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := design.Holes{As: "distances", Distances: c.known}.Centres()
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

func TestAResidualOverThreeTenthsIsSaid(t *testing.T) {
	d := survey(t)
	if notes := d.Notes(); len(notes) != 0 {
		t.Errorf("of readings within a tenth: %v", notes)
	}
	if err := d.Set("airframe.places[1].holes.distances[4].length", "26.8 mm"); err != nil {
		t.Fatal(err)
	}
	notes := d.Notes()
	if len(notes) != 1 || notes[0].Path != "airframe.places[1].holes.distances" || !strings.Contains(notes[0].Text, "disagree by up to 0.") {
		t.Error(notes)
	}
}

func TestMotorSpots(t *testing.T) {
	d := design.New()
	if got := d.MotorSpots(); got != nil {
		t.Errorf("without a diagonal: %v", got)
	}
	d.Airframe.MotorDiagonal = 300
	want := []float64{45, 135, -135, -45} // a quadrotor's arms stand between its axes
	for i, s := range d.MotorSpots() {
		angle := math.Atan2(float64(s.Y), float64(s.X)) * 180 / math.Pi
		if r := math.Hypot(float64(s.X), float64(s.Y)); math.Abs(r-150) > 1e-9 || math.Abs(angle-want[i]) > 1e-9 {
			t.Errorf("motor %d: got %.1f mm at %.1f deg, want 150 at %v", i, r, angle, want[i])
		}
	}
}
