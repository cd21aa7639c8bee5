package face_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
)

// In a monospaced font every letter has one width, in Go Mono 1229 of 2048 units (from memory); in Go Regular all digits have one.
func TestWidth(t *testing.T) {
	r := face.NewRuler()
	if got, want := r.Width("iW", paper.Mono, 10), 2*10*1229.0/2048; math.Abs(got-want) > 0.01 {
		t.Errorf("two letters of the monospaced font are %g wide, want %g", got, want)
	}
	for _, digit := range "123456789" {
		if got, want := r.Width(string(digit), paper.Regular, 1), r.Width("0", paper.Regular, 1); got != want {
			t.Errorf("%c is %g wide, 0 is %g", digit, got, want)
		}
	}
}

func TestLines(t *testing.T) {
	r := face.NewRuler()
	const width = 40
	for _, c := range []struct{ name, text string }{
		{"nothing", ""}, {"one word", "mast"}, {"many", strings.Repeat("a mast on a foot ", 30)},
		{"a word wider than a line", strings.Repeat("ü", 200)}, {"mixed", "a " + strings.Repeat("b", 99) + " c"},
	} {
		t.Run(c.name, func(t *testing.T) {
			lines := r.Lines(c.text, paper.Regular, 3, width)
			if len(lines) == 0 {
				t.Fatal("no line")
			}
			for _, l := range lines {
				if w := r.Width(l, paper.Regular, 3); w > width {
					t.Errorf("%q is %g wide", l, w)
				}
			}
			if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""), strings.ReplaceAll(c.text, " ", ""); got != want {
				t.Errorf("letters are lost or new: %q, want %q", got, want)
			}
		})
	}
	if lines := r.Lines("wide", paper.Regular, 3, 0); len(lines) != 4 {
		t.Errorf("without room there are %d lines, want one for each letter", len(lines))
	}
}

func TestShortened(t *testing.T) {
	r := face.NewRuler()
	long := strings.Repeat("very long ", 20)
	got := r.Shortened(long, paper.Medium, 3, 30)
	if w := r.Width(got, paper.Medium, 3); w > 30 || !strings.HasSuffix(got, "…") || !strings.HasPrefix(long, strings.TrimSuffix(got, "…")) {
		t.Errorf("got %q, %g wide", got, w)
	}
	if got := r.Shortened("short", paper.Medium, 3, 30); got != "short" {
		t.Errorf("got %q", got)
	}
}

func TestLegible(t *testing.T) {
	r := face.NewRuler()
	for text, want := range map[string]string{
		"µ ° Ø × ± ≤ ≥ √ ≈ → − ∞ ² Δ": "µ ° Ø × ± ≤ ≥ √ ≈ → − ∞ ² Δ", "漢字": "??", "a\tb\nc": "a b c", "a\x00b": "ab", "😀": "?",
	} {
		if got := r.Legible(text); got != want {
			t.Errorf("Legible(%q) = %q, want %q", text, got, want)
		}
	}
}
