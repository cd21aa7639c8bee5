package paper_test

import (
	"math"
	"testing"

	"mastwright/app/sheet/paper"
)

// luminance is the relative luminance of WCAG 2.2.
func luminance(c paper.Colour) float64 {
	linear := func(x uint8) float64 {
		s := float64(x) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	r, g, b := c.RGB()
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

func contrast(a, b paper.Colour) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Words have a contrast of 4.5 at least on whatever ground they stand (WCAG 2.2, 1.4.3), marks and bars 3 (1.4.11).
func TestContrast(t *testing.T) {
	if got := contrast(0x000000, 0xFFFFFF); math.Abs(got-21) > 1e-9 { // the definition's largest
		t.Fatalf("black on white has %g, want 21", got)
	}
	for _, ink := range []paper.Colour{paper.Ink, paper.Second, paper.Third, paper.Act} {
		if got := contrast(ink, paper.White); got < 4.5 {
			t.Errorf("ink %v has a contrast of %.2f", ink, got)
		}
	}
	for tone := paper.Plain; tone <= paper.Caution; tone++ {
		for _, ink := range []paper.Colour{tone.Word(), paper.Ink} {
			if got := contrast(ink, tone.Ground()); got < 4.5 {
				t.Errorf("tone %d: %v on its ground has a contrast of %.2f", tone, ink, got)
			}
		}
		if got := contrast(tone.Bar(), paper.White); got < 3 {
			t.Errorf("tone %d: its mark has a contrast of %.2f", tone, got)
		}
	}
	for tone, lane := range map[paper.Tone]paper.Colour{paper.Good: paper.PassLane, paper.Marginal: paper.MarginalLane, paper.Bad: paper.FailLane} {
		if got := contrast(tone.Bar(), lane); got < 3 {
			t.Errorf("the bar of tone %d has a contrast of %.2f on its lane", tone, got)
		}
	}
}

// Every state has a mark of its own, so that it is told without colour.
func TestMarksDiffer(t *testing.T) {
	seen := map[int]paper.Tone{}
	for _, tone := range []paper.Tone{paper.Good, paper.Marginal, paper.Bad, paper.Unknown} {
		marks := tone.Mark(paper.Point{}, 4)
		shape := len(marks[0].(paper.Stroke).Points)
		if !marks[0].(paper.Stroke).Filled {
			shape = -shape
		}
		if other, known := seen[shape]; known {
			t.Errorf("tones %d and %d have the same shape", other, tone)
		}
		seen[shape] = tone
	}
}

func TestRound(t *testing.T) {
	for _, radius := range []float64{0.001, 0.5, 3, 200} {
		points := paper.Round(paper.Point{X: 1, Y: 2}, radius)
		for i, a := range points {
			b := points[(i+1)%len(points)]
			if stray := radius - math.Hypot((a.X+b.X)/2-1, (a.Y+b.Y)/2-2); stray > 0.01 {
				t.Errorf("radius %g: a chord strays by %g mm", radius, stray)
			}
		}
	}
}
