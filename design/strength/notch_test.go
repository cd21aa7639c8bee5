package strength_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/strength"
)

func near(t *testing.T, name string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: got %.12g, want %.12g within %g", name, got, want, rel)
	}
}

func TestShoulders(t *testing.T) {
	for _, c := range []struct {
		name   string
		notch  strength.Notch
		want   float64
		relTol float64
	}{
		// Roark, table 17.1, its coefficients worked outside this package to five digits.
		{"flat, D/d 2, r/d .1", strength.ShoulderFillet(.02, .01, .001), 1.9175, 3e-5},
		{"flat, D/d 1.2, r/d .1", strength.ShoulderFillet(.012, .01, .001), 1.6805, 3e-5},
		// Power-law fits to Peterson's chart of the round shaft in bending, A (r/d)^b, as in
		// machine-design textbooks: D/d 2 A .90879 b -.28598, D/d 1.2 A .97098 b -.21796.
		// Handbooks differ by 5 %, by 7 % at a fillet as large as r/d .2.
		{"round, D/d 2, r/d .1", strength.ShaftShoulder(.02, .01, .001), .90879 * math.Pow(.1, -.28598), .05},
		{"round, D/d 1.2, r/d .1", strength.ShaftShoulder(.012, .01, .001), .97098 * math.Pow(.1, -.21796), .05},
		{"round, D/d 1.2, r/d .2", strength.ShaftShoulder(.012, .01, .002), .97098 * math.Pow(.2, -.21796), .07},
		// Heywood, 2 + .8³.
		{"hole, x .2", strength.StripHole(.002, .01), 2.512, 1e-12},
		{"small hole in a wide strip", strength.StripHole(1e-9, 1), 3, 1e-8}, // Kirsch
	} {
		t.Run(c.name, func(t *testing.T) {
			near(t, "Kt", c.notch.Kt, c.want, c.relTol)
			if c.notch.Note != "" {
				t.Errorf("note: got %q, want none", c.notch.Note)
			}
		})
	}
}

func TestShouldersBeyondTheTable(t *testing.T) {
	for _, c := range []struct {
		name  string
		notch strength.Notch
		as    strength.Notch
		note  string
	}{
		{"sharp corner", strength.ShoulderFillet(.02, .01, 0), strength.ShoulderFillet(.02, .01, .005/20), "fillet"},
		{"sharper than the table", strength.ShoulderFillet(.02, .01, .0001), strength.ShoulderFillet(.02, .01, .005/20), "sharper"},
		{"rounder than the table", strength.ShaftShoulder(.0101, .01, .002), strength.ShaftShoulder(.0101, .01, .0005), "safe side"},
		{"hole as wide as the strip", strength.StripHole(.01, .01), strength.Notch{Kt: 2}, "leaves nothing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			near(t, "Kt", c.notch.Kt, c.as.Kt, 1e-9)
			if !strings.Contains(c.notch.Note, c.note) {
				t.Errorf("note: got %q, want it to say %q", c.notch.Note, c.note)
			}
		})
	}
	if got := strength.ShoulderFillet(.01, .01, .001); got != (strength.Notch{Kt: 1}) {
		t.Errorf("no shoulder: got %v, want Kt 1", got)
	}
}

// The two halves of the table meet at h/r 2, to the rounding of its coefficients, and a larger fillet never
// concentrates more.
func TestShouldersAreSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, D := .01, .01*rapid.Float64Range(1.05, 3).Draw(t, "D/d")
		h := (D - d) / 2
		for name, kt := range map[string]func(D, d, r float64) strength.Notch{"flat": strength.ShoulderFillet, "round": strength.ShaftShoulder} {
			below, above := kt(D, d, h/1.9999).Kt, kt(D, d, h/2.0001).Kt
			if math.Abs(below/above-1) > .03 {
				t.Errorf("%s: Kt jumps from %g to %g at h/r 2, D/d %g", name, below, above, D/d)
			}
			sharp, round := kt(D, d, h/6).Kt, kt(D, d, h/5).Kt
			if !(sharp >= round && round >= 1) {
				t.Errorf("%s: Kt %g at h/r 6 below %g at h/r 5, D/d %g", name, sharp, round, D/d)
			}
		}
	})
}
