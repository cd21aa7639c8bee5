package parts_test

import (
	"fmt"
	"math"
	"testing"

	"mastwright/design/parts"
)

// By hand: an M3 head is 5.5 mm wide and 3 mm high (ISO 4762); its nut 5.5 mm across flats, 6.35 over corners (ISO 4032).
func TestRooms(t *testing.T) {
	room := func(nut bool, use string, answers ...string) float64 {
		t.Helper()
		for _, r := range built(t, mount(t, answers...)).Rooms() {
			if r.For == use && r.Nut == nut {
				return r.Clear
			}
		}
		t.Fatalf("no %s", use)
		return 0
	}
	// A head sunk 3 mm in a bore of 6.5 mm has 0.5 mm around it.
	sunk := []string{"foot.head", "counterbore", "foot.thickness", "6 mm", "mast.cable_way.bottom", "14 mm"}
	if got := room(false, "foot", sunk...); math.Abs(got-0.5) > 0.05 { // a bound from below, at points around
		t.Errorf("sunk head: %.3f mm; want 0.5", got)
	}
	// A plain head at 15.25 mm beside a fillet of 4 mm round a root of 18 mm: free.
	if got := room(false, "foot"); got < 0.3 {
		t.Errorf("plain head: %.3f mm", got)
	}
	// Two clamp screws in one row: ears leave their heads half a millimetre to the sleeve.
	if got := room(false, "foot clamp", "mast.build", "tube"); got < 0.3 {
		t.Errorf("clamp's head: %.3f mm", got)
	}
	if got := room(true, "foot clamp", "mast.build", "tube"); got < 0 {
		t.Errorf("clamp's nut: %.3f mm", got)
	}
	screwed := []string{"receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm"}
	if got := room(false, "receiver", screwed...); got < 0.2 {
		t.Errorf("receiver's head: %.3f mm", got)
	}
	// A fillet as wide as the tray swallows the heads under its holes, which the outlines alone do not show.
	if got := room(false, "receiver", append(screwed, "mast.tip_fillet", "9 mm")...); got >= 0 {
		t.Errorf("receiver's head in a fillet: %.3f mm; want less than nothing", got)
	}
}

func BenchmarkRooms(b *testing.B) {
	a := built(b, mount(b))
	for b.Loop() {
		if len(a.Rooms()) == 0 {
			b.Fatal("no rooms")
		}
	}
}

func ExampleAssembly_Rooms() {
	a, problems := parts.Build(mount(&testing.T{}, "mast.build", "tube"))
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	for _, r := range a.Rooms() {
		what := "head"
		if r.Nut {
			what = "nut"
		}
		fmt.Printf("%s, %s: %.1f mm\n", r.For, what, r.Clear)
	}
	// Output:
	// foot, head: 1.0 mm
	// foot, nut: 1.0 mm
	// foot clamp, head: 1.0 mm
	// foot clamp, nut: 1.0 mm
	// foot key, head: 0.5 mm
	// tray clamp, head: 1.0 mm
	// tray clamp, nut: 1.0 mm
	// tray key, head: 0.5 mm
}
