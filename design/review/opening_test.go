package review

import (
	"math"
	"testing"

	"mastwright/design/frame"
)

// A wall without an opening bears shear as it is; with a notch of no length it bears by its strips alone; a longer opening leaves less, at last
// with the cube of the length, as bending strips do.
func TestLadderLimits(t *testing.T) {
	if got := ladder(0.016, 0, 0, 0.38); math.Abs(got-1) > 1e-12 {
		t.Errorf("no opening leaves %g", got)
	}
	if got, want := ladder(0.016, 0.007, 0, 0.38), 9.0/16; math.Abs(got-want) > 1e-12 {
		t.Errorf("a cut without length leaves %g, want the strips' share %g", got, want)
	}
	long, longer := ladder(0.016, 0.007, 0.2, 0.38), ladder(0.016, 0.007, 0.4, 0.38)
	if ratio := long / longer; math.Abs(ratio-4) > 0.05 {
		t.Errorf("twice the length leaves 1/%.3f, want 1/4", ratio)
	}
}

// The opening's torsion lies between that of the closed mast and that of a long open section of the same outline, found by the stress
// function; its area and second moments are the outline's own.
func TestOpenedSectionLiesBetweenClosedAndOpen(t *testing.T) {
	s := subjectOf(t, "river-survey")
	found := 0
	for _, m := range s.assembly.Members {
		var closed frame.Section
		for _, piece := range m.Spans() {
			section, err := s.sectionOf(piece.Outline(0.5), s.mastMaterial, frame.SectionOptions{})
			if err != nil {
				t.Fatal(err)
			}
			if len(piece.Outline(0.5).Holes) > 0 {
				closed = section
				continue
			}
			found++
			got := opened(closed, piece.Outline(0.5), s.doc.Mast.CableWay, s.doc.Mast.Wall.Metres(), 0.38)
			if got.J >= closed.J || got.J <= section.J {
				t.Errorf("J %.3g, not between open %.3g and closed %.3g", got.J, section.J, closed.J)
			}
			for _, c := range []struct {
				name      string
				got, want float64
			}{{"A", got.A, section.A}, {"Ix", got.Ix, section.Ix}, {"Iy", got.Iy, section.Iy}, {"left", got.Left, section.Left}, {"top", got.Top, section.Top}} {
				if math.Abs(c.got/c.want-1) > 1e-9 {
					t.Errorf("%s %.6g, the section integral says %.6g", c.name, c.got, c.want)
				}
			}
		}
	}
	if found == 0 {
		t.Error("no opening was found")
	}
}
