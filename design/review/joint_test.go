package review

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
)

// A spring at the end of a rigid arm resists a turn with its force times the arm, and a push through its own place with no turn.
func TestMovedSpring(t *testing.T) {
	k := moved(pinned(1000, 5, r3.Vec{Y: 1}), r3.Vec{X: 0.02, Z: 0.01})
	for _, c := range []struct {
		name string
		r, c int
		want float64
	}{
		{"push", 0, 0, 1000},
		{"turn about y, by the arm and the pin's own", 4, 4, 1000*(0.02*0.02+0.01*0.01) + 5},
		{"turn about z, by the arm alone", 5, 5, 1000 * 0.02 * 0.02},
		{"force along x for a turn about y", 0, 4, 1000 * 0.01},
		{"force along z for a turn about y", 2, 4, -1000 * 0.02},
		{"no moment about its own line", 3, 4, 0},
	} {
		if got := k[c.r][c.c]; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g; want %g", c.name, got, c.want)
		}
	}
}

// What the legs do to their pads adds up to what the mast does to the frame, and what the screws of the plates carry to what is above them.
func TestJointsBalance(t *testing.T) {
	s := subjectOf(t, "river-survey", "mast.build", "legs")
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		t.Fatal(err)
	}
	w := blow([3]float64{0.6, 0.3, -0.5})
	want := s.footLoad(l, w)
	var force, moment r3.Vec
	for i := range s.assembly.Pads {
		f := s.padLoad(l, i, w)
		force, moment = r3.Add(force, vector(f.Force)), r3.Add(moment, vector(f.Moment))
	}
	if d := r3.Norm(r3.Sub(force, vector(want.Force))); d > 1e-6 {
		t.Errorf("pads bear %v N; want %v", force, want.Force)
	}
	if d := r3.Norm(r3.Sub(moment, vector(want.Moment))); d > 1e-6 {
		t.Errorf("pads bear %v N·m; want %v", moment, want.Moment)
	}

	s = subjectOf(t, "river-survey", "mast.build", "twin-plate")
	if l, err = s.stand(variant{middle, typical}); err != nil {
		t.Fatal(err)
	}
	force = r3.Vec{}
	for _, j := range s.spine.joints {
		if one := s.member("foot block"); j.a < len(s.spine.points) && onMember(s, j, one.Name) {
			f, _ := s.carried(l, j, w)
			force = r3.Sub(force, f) // b, the block, is pushed back by what it puts on the plate
		}
	}
	if d := r3.Norm(r3.Sub(force, r3.Vec{X: 0.6, Y: 0.3, Z: -0.5})); d > 1e-5 {
		t.Errorf("the foot's block bears %v N; want the blow on the top", force)
	}
}

// onMember says whether a joint's far side is on a member.
func onMember(s *subject, j spineJoint, member string) bool {
	for _, p := range s.spine.spans {
		if p.name == member && (p.from == j.b || p.to == j.b) {
			return true
		}
	}
	return false
}

// Only spacers that carry moment raise the sideways frequency; the more of them the more. Own figures of a mount of this sort, two plates
// of 3 x 24 mm acetal on a 7-inch aircraft: 54 Hz on pivots whatever their number; held by two screws 54, 92, 115, 127 Hz for none to three.
func TestOnlyMomentStiffens(t *testing.T) {
	sideways := func(spacer, count string) float64 {
		s := subjectOf(t, "river-survey", "mast.build", "twin-plate", "mast.plates.spacer", spacer, "mast.plates.spacers", count, "mast.plates.screw", "M2", "mast.plates.grip", "10 mm",
			"receiver.mass", "24 g", "materials.foot", "petg", "materials.tray", "petg", "materials.spacer", "petg", "mast.plates.gap", "14 mm")
		e, err := s.solve(variant{middle, typical}, flying)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range e.modes {
			if m.Label == "bending sideways" {
				return m.Frequency
			}
		}
		t.Fatal("no sideways mode")
		return 0
	}
	bare := sideways("single screw", "0")
	t.Logf("no spacers %.1f Hz", bare)
	if bare < 40 || bare > 80 {
		t.Errorf("without spacers %.1f Hz; want it near 54", bare)
	}
	before := bare
	for _, count := range []string{"1", "2", "3"} {
		pivots := sideways("single screw", count)
		t.Logf("%s pivots %.1f Hz", count, pivots)
		if pivots > bare*1.005 || pivots < bare*0.95 { // their mass lowers it
			t.Errorf("%s pivots: %.1f Hz; want them to stiffen nothing (%.1f)", count, pivots, bare)
		}
		for _, spacer := range []string{"two screws", "tabs"} {
			held := sideways(spacer, count)
			t.Logf("%s held by %s %.1f Hz", count, spacer, held)
			if held < 1.05*before || held < 1.4*bare {
				t.Errorf("%s spacers held by %s: %.1f Hz; want more than %.1f with fewer, and than %.1f with none", count, spacer, held, before, bare)
			}
		}
		before = sideways("two screws", count)
	}
}

// Legs buckle one by one: fixed at both ends a leg bears π² E I/L² where the tray sways with it, and four times that where it does not
// (Euler, effective lengths 1 and 1/2; any handbook). Legs that lean hold the tray somewhat.
func TestLegsBuckle(t *testing.T) {
	s := subjectOf(t, "river-survey", "mast.build", "legs", "mast.legs.pattern", "rectangle", "mast.legs.spread.x", "60 mm", "mast.legs.section.x", "3 mm")
	leg := s.assembly.Members[0]
	const i = 3.0 * 3 * 3 * 3 / 12 * 1e-12
	long := (leg.Length() - 20) * 1e-3 // between its sockets
	sways := 4 * frame.Euler(stiffness(s.mastMaterial, s.direction, typical)*i, long, 1) * (leg.To.Z - leg.From.Z) / leg.Length()
	if got := s.euler(); got < 0.9*sways || got > 4*sways {
		t.Errorf("four legs buckle under %.0f N; want %.0f to %.0f", got, sways, 4*sways)
	}
}
