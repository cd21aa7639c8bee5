package parts_test

import (
	"math"
	"testing"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/units"
	"mastwright/materials/hardware"
)

// By hand, mm. M3: nut 2.4 (ISO 4032), stock of 10 and 12; M2: nut 1.6; what the thread is in and how far the tip comes out of it.
func TestHolds(t *testing.T) {
	for _, c := range []struct {
		name                        string
		doc                         func(tester, ...string) *design.Document
		answers                     []string
		use                         string
		standard                    string
		end                         hardware.End
		grip, thread, least, beyond float64
	}{
		// Foot 5, plate 2, nut 2.4: 10 leaves 0.6.
		{"foot on nuts", mount, nil, "foot", "ISO 4762", hardware.InNut, 7, 2.4, 2.4, 0.6},
		// What the foot's 7.2 leave under the insert of 5.7 and its 0.3, and the plate; 10 leaves 1.1.
		{"insert", mount, []string{"foot.head", "insert", "foot.thickness", "7.2 mm"}, "foot", "ISO 4762", hardware.InInsert, 3.2, 5.7, 5.7, 1.1},
		// A block takes what is left of 8: 8 - 5 is 1 d, which is what it needs.
		{"block", mount, []string{"airframe.places[0].plate.backing", "block"}, "foot", "ISO 4762", hardware.InMetal, 5, 3, 3, 0},
		// Two ears of 4, a slit of 1.5, a nut: 16 leaves 4.1.
		{"clamp", tubed, nil, "foot clamp", "ISO 4762", hardware.InNut, 9.5, 2.4, 2.4, 4.1},
		// Two plates of 3, 14 between, and four times 0.5 of washers halved on each side: 25 leaves 1.6.
		{"plates with washers", twin, []string{"mast.plates.washers", "under heads and nuts", "mast.plates.grip", "18 mm"}, "spacers", "ISO 4762", hardware.InNut, 21, 2.4, 2.4, 1.6},
		// Floor 2.4 and lug 2; 8 leaves 2.
		{"receiver on nuts", screwed, nil, "receiver", "ISO 4762", hardware.InNut, 4.4, 1.6, 1.6, 2},
		{"receiver of M3", screwed, []string{"receiver.screw", "M3", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm", "mast.tip_fillet", "1 mm", "mast.tip.x", "10 mm"}, "receiver", "ISO 7380-1", hardware.InNut, 4.4, 2.4, 2.4, 1.2},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := holdOf(t, built(t, c.doc(t, c.answers...)), c.use)
			if h.Standard != c.standard || h.End != c.end || h.Across {
				t.Errorf("%s in %s, across %v", h.Standard, h.End, h.Across)
			}
			got, want := [4]float64{h.Grip, h.Thread, h.Least, h.Beyond}, [4]float64{c.grip, c.thread, c.least, c.beyond}
			for i := range got {
				if math.Abs(got[i]-want[i]) > 1e-9 {
					t.Errorf("grip, thread, least, beyond %v; want %v", got, want)
					break
				}
			}
		})
	}
}

func holdOf(t *testing.T, a parts.Assembly, use string) parts.Hold {
	t.Helper()
	for _, h := range a.Holds() {
		if h.Use.For == use {
			return h
		}
	}
	t.Fatalf("no screws for %s", use)
	return parts.Hold{}
}

// What is ahead of a tip: a clamp's cross screw of 5 stands 0.73 in a bore of 8, with the tube's other wall 7.27 - within play - before it;
// looked for up to 5. A screw of 8 there would leave less, one of 12 would run into it.
func TestAheadOfTips(t *testing.T) {
	a := built(t, tubed(t))
	for i, u := range a.Screws {
		if u.For != "foot key" {
			continue
		}
		for _, c := range []struct {
			long, least, most float64
		}{{5, 5, 5}, {8, 4, 4.4}, {12, 0, 0.4}, {16, -4.2, -3.5}} {
			a.Screws[i].Length = units.Millimetres(c.long)
			if h := holdOf(t, a, "foot key"); h.Ahead < c.least || h.Ahead > c.most || !h.Across {
				t.Errorf("%g mm: %.2f mm ahead; want %g to %g", c.long, h.Ahead, c.least, c.most)
			}
		}
	}
	if h := holdOf(t, built(t, mount(t)), "foot"); !h.Unseen {
		t.Error("what is under the frame's plate cannot be seen")
	}
}
