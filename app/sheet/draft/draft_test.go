package draft_test

import (
	"math"
	"testing"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/mesh/outline"
)

// A view of the aircraft from above, nose up: forward (x) is up on the paper, left (y) is to the left.
func TestViewNoseUp(t *testing.T) {
	v := draft.View{Origin: paper.Point{X: 100, Y: 50}, Scale: 1, Turn: math.Pi / 2}
	for _, c := range []struct {
		name         string
		x, y         float64
		wantX, wantY float64
	}{{"middle", 0, 0, 100, 50}, {"forward", 10, 0, 100, 40}, {"left", 0, 10, 90, 50}} {
		got := v.At(c.x, c.y)
		if math.Hypot(got.X-c.wantX, got.Y-c.wantY) > 1e-12 {
			t.Errorf("%s is at %v, want %g, %g", c.name, got, c.wantX, c.wantY)
		}
	}
}

// A circle of an outline strays from the true one by no more than 0.01 mm on paper, at any scale.
func TestLoopIsTrue(t *testing.T) {
	for _, scale := range []float64{0.1, 1, 5} {
		p := draft.New(100, 100)
		p.Loop(draft.View{Scale: scale}, draft.Thin, paper.Ink, outline.Circle(8))
		points := p.Marks[0].(paper.Stroke).Points
		for i, a := range points {
			b := points[(i+1)%len(points)]
			if sag := 8*scale - math.Hypot(a.X+b.X, a.Y+b.Y)/2; math.Abs(sag) > 0.0101 {
				t.Errorf("scale %g: a chord strays by %g mm", scale, sag)
			}
		}
	}
}

// A dimension's arrows stand as far apart as what is measured, and its words can be read from below or from the right (ISO 129-1).
func TestDimension(t *testing.T) {
	for _, c := range []struct {
		name     string
		d        draft.Dimension
		want     float64
		wantTurn float64
	}{
		{"level", draft.Dimension{From: paper.Point{X: 10, Y: 20}, To: paper.Point{X: 40, Y: 20}, Away: paper.Point{Y: 8}, Text: "30"}, 30, 0},
		{"level, from the right", draft.Dimension{From: paper.Point{X: 40, Y: 20}, To: paper.Point{X: 10, Y: 20}, Away: paper.Point{Y: 8}, Text: "30"}, 30, 0},
		{"upright", draft.Dimension{From: paper.Point{X: 10, Y: 50}, To: paper.Point{X: 10, Y: 20}, Away: paper.Point{X: 8}, Text: "30"}, 30, 90},
		{"upright, from above", draft.Dimension{From: paper.Point{X: 10, Y: 20}, To: paper.Point{X: 10, Y: 50}, Away: paper.Point{X: -8}, Text: "30"}, 30, 90},
		{"only the level part", draft.Dimension{From: paper.Point{X: 10, Y: 20}, To: paper.Point{X: 40, Y: 26}, Away: paper.Point{Y: 8}, Text: "30", Along: true}, 30, 0},
		{"no room for the figure", draft.Dimension{From: paper.Point{X: 10, Y: 20}, To: paper.Point{X: 12, Y: 20}, Away: paper.Point{Y: 8}, Text: "2"}, 2, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := draft.New(100, 100)
			p.Dimension(c.d)
			var tips []paper.Point
			for _, m := range p.Marks {
				switch m := m.(type) {
				case paper.Stroke:
					if m.Filled && len(m.Points) == 3 {
						tips = append(tips, m.Points[0])
					}
				case paper.Label:
					if math.Abs(m.Turn-c.wantTurn) > 1e-9 {
						t.Errorf("the figure is turned by %g, want %g", m.Turn, c.wantTurn)
					}
				}
			}
			if len(tips) != 2 {
				t.Fatalf("%d arrows, want 2", len(tips))
			}
			if got := math.Hypot(tips[0].X-tips[1].X, tips[0].Y-tips[1].Y); math.Abs(got-c.want) > 1e-9 {
				t.Errorf("the arrows are %g apart, want %g", got, c.want)
			}
		})
	}
	p := draft.New(10, 10)
	p.Dimension(draft.Dimension{}) // nothing measured: nothing drawn, no panic
}
