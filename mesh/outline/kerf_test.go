package outline_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	. "mastwright/mesh/outline"
)

// The piece comes out as drawn when the beam's middle runs half a kerf outside of it. Areas by Steiner's formula for a parallel
// curve: A + L d + π d² outside a convex loop, and circles and slots of another radius.
func TestKerf(t *testing.T) {
	const kerf, d = 0.3, 0.15
	got, err := washer().Kerf(kerf)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		loop Loop
		want float64
	}{
		{"outer", got.Outer, 800 + 120*d + math.Pi*d*d},
		{"bore", got.Holes[0], -math.Pi * (3 - d) * (3 - d)},
		{"slot", got.Holes[1], -(7*(3-2*d) + math.Pi*(1.5-d)*(1.5-d))},
	} {
		if a := c.loop.Area(); math.Abs(a-c.want) > 1e-9 { // rounding
			t.Errorf("%s: %g mm², want %g", c.name, a, c.want)
		}
	}
	if centre, radius, ok := got.Holes[0].Round(); !ok || math.Abs(radius-2.85) > 1e-9 || r2.Norm(r2.Sub(centre, r2.Vec{X: -10})) > 1e-9 {
		t.Errorf("the bore is a circle of %g about %v: %t", radius, centre, ok)
	}
	for _, l := range []Loop{got.Holes[1], got.Outer, nil} {
		if _, _, ok := l.Round(); ok {
			t.Errorf("%v is a circle", l)
		}
	}
}

func TestKerfRefuses(t *testing.T) {
	notched := Plate(Loop{{X: 0, Y: 0}, {X: 20, Y: 0}, {X: 20, Y: 10}, {X: 10.5, Y: 10}, {X: 10.5, Y: 4}, {X: 9.5, Y: 4}, {X: 9.5, Y: 10}, {X: 0, Y: 10}})
	for _, c := range []struct {
		name string
		o    Outline
		kerf float64
		want string
	}{
		{"as wide as the slot", washer(), 3.1, "a kerf of 3.1 mm is wider than hole 2 at (8, "},
		{"as wide as the bore", washer(), 6.5, "a kerf of 6.5 mm is wider than hole 1 at (-10, "},
		{"as wide as a notch", notched, 1.1, "does not pass through the narrowest notch"},
		{"negative", washer(), -1, "a kerf of -1 mm"},
		{"not a number", washer(), math.NaN(), "a kerf of NaN mm"},
		{"a hole outside", Plate(Rectangle(4, 4), Circle(1).Translate(9, 0)), 0.1, "hole 1 at"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := c.o.Kerf(c.kerf); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q in it", err, c.want)
			}
		})
	}
	if _, err := notched.Kerf(0.9); err != nil {
		t.Error(err)
	}
}
