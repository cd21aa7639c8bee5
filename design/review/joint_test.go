package review

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
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

// The model of every style weighs what its parts, its screws but those of the foot, and its receiver do.
func TestStylesWeighTheirParts(t *testing.T) {
	for _, build := range []string{"column", "tube", "twin-plate", "legs"} {
		s := subjectOf(t, "river-survey", "mast.build", build)
		l, err := s.model(variant{middle, typical}, held)
		if err != nil {
			t.Fatal(err)
		}
		want := s.doc.Receiver.Mass.Kilograms()
		for _, p := range s.assembly.Parts {
			m, err := s.library.Find(p.Material)
			if err != nil {
				t.Fatal(err)
			}
			want += float64(p.Count) * p.Mass(m.Density.Typical).Kilograms()
		}
		if build != "column" {
			for _, f := range s.fasteners() {
				if !strings.HasPrefix(f.name, "foot screw") {
					want += f.mass
				}
			}
		}
		// 3 %: clamps are modelled as closed rings, and holes of screws are left in.
		if got := l.system.Mass(); math.Abs(got/want-1) > 0.03 {
			t.Errorf("%s: the model weighs %.2f g, its parts %.2f", build, got*1e3, want*1e3)
		}
	}
}

// Two plates with nothing between them are posts held at the blocks' inner screws, where each turns by M c/(3 E I) as it runs on to the
// outer ones, c away: sideways they give L³/(24 E I) (1 + 2 c/L). Source: a portal frame of a rigid beam, and slope deflection; any
// structural handbook. The rest of the tip's movement is in blocks, screws and what is below.
func TestPlatesGiveAsPosts(t *testing.T) {
	s := subjectOf(t, "river-survey", "mast.build", "twin-plate", "mast.plates.spacers", "0", "mast.height", "140 mm")
	const low, high, c = 5 + 4 + 12.0, 140 - 2.4 - 3 - 12.0, 8 // foot, root fillet, three quarters of the block; floor, tip fillet, as much
	const long = high - low
	const want = long * long * long / (24 * 2800 * 24 * 3 * 3 * 3 / 12) * (1 + 2*c/long) // mm/N
	plates := 0.0
	for _, share := range s.shares() {
		if share.Name == "plates" {
			plates = share.Share
		}
	}
	// 5 %: the share is that of the first mode, which moves the tray nearly as a push on it does; the plates shear too.
	if got := s.tipCompliance() * plates; math.Abs(got/want-1) > 0.05 {
		t.Errorf("the plates give %.4f mm/N; want %.4f", got, want)
	}
	if plates < 0.8 {
		t.Errorf("the plates give %.2f of the whole; want most of it", plates)
	}
}

// Designs of every style, drawn at random, are judged without a figure that is no number and without a frame that cannot be solved.
func TestStylesAreJudged(t *testing.T) {
	survey := subjectOf(t, "river-survey").doc
	random := rand.New(rand.NewPCG(4, 7))
	judged := 0
	for range 40 {
		changes := []string{"mast.build", []string{"tube", "twin-plate", "legs"}[random.IntN(3)]}
		number := func(path string, low, high float64) {
			changes = append(changes, path, fmt.Sprintf("%.2f mm", low+random.Float64()*(high-low)))
		}
		choice := func(path string, of ...string) { changes = append(changes, path, of[random.IntN(len(of))]) }
		number("mast.height", 70, 180)
		number("mast.root_fillet", 0, 5)
		number("mast.tube.outside", 6, 14)
		number("mast.tube.clamp.grip", 10, 24)
		number("mast.plates.thickness", 1, 5)
		number("mast.plates.root", 16, 32)
		number("mast.plates.gap", 8, 18)
		number("mast.legs.section.x", 2, 8)
		number("mast.legs.spread.x", 40, 100)
		choice("mast.plates.spacer", "two screws", "tabs", "single screw")
		choice("mast.plates.spacers", "0", "1", "2", "3")
		choice("mast.plates.lightening.count", "0", "1", "3")
		choice("mast.legs.pattern", "stack holes", "rectangle", "ring")
		choice("mast.legs.count", "3", "4")
		choice("receiver.fixing", "rim", "strap")
		doc := survey.Clone()
		for i := 0; i < len(changes); i += 2 {
			if err := doc.Set(changes[i], changes[i+1]); err != nil {
				t.Fatal(err)
			}
		}
		r, problems := Judge(doc)
		if len(problems) > 0 {
			continue
		}
		judged++
		for _, v := range r.Verdicts {
			if v.State == NoData {
				t.Errorf("%v: %s has no data: %s", changes, v.ID, v.Because)
			}
			for _, f := range v.Figures {
				if math.IsNaN(f.Value) || math.IsNaN(f.Low) || math.IsNaN(f.High) {
					t.Errorf("%v: %s: %+v", changes, v.ID, f)
				}
			}
		}
	}
	if judged < 15 {
		t.Errorf("only %d of the designs can be built", judged)
	}
}

// Four legs that lean towards a point O on the axis let the tray turn about it without stretching: their tops move square to the legs. A
// leg of length L whose top is r from O, its foot fixed, resists the turn with E I (12 r²/L³ + 12 r/L² + 4/L) (slope deflection, any
// structural handbook), less by what of the turn is about the leg itself; a push through O only stretches them, 2 sin²θ E A/L. So a push d
// below O gives d²/K + 1/(2 sin²θ E A/L). Derived here.
func TestLegsGiveAsTheyLean(t *testing.T) {
	for _, spread := range []string{"50 mm", "80 mm"} {
		s := subjectOf(t, "river-survey", "mast.build", "legs", "mast.height", "140 mm", "mast.legs.pattern", "rectangle", "mast.legs.spread.x", spread)
		m := s.assembly.Members[0]
		axis := r3.Unit(r3.Sub(m.To, m.From))
		const grip = 10.0
		top := r3.Sub(m.To, r3.Scale(grip, axis))
		long, sin := m.Length()-2*grip, math.Sqrt(1-axis.Z*axis.Z)
		r := math.Hypot(top.X, top.Y) / sin
		apex := top.Z + r*axis.Z
		e := stiffness(s.mastMaterial, s.direction, typical) / 1e6 // N/mm²
		const area, inertia = 36.0, 6 * 6 * 6 * 6 / 12.0
		about := 4 * e * inertia * (1 - sin*sin/2) * (12*r*r/long/long/long + 12*r/long/long + 4/long)
		arm := apex - s.assembly.Seat.Z
		want := arm*arm/about + long/(2*sin*sin*e*area)
		legs := 0.0
		for _, share := range s.shares() {
			if share.Name == "legs" {
				legs = share.Share
			}
		}
		got := s.tipCompliance() * legs
		// 10 %: the legs bend in their sockets too, and twist; the share is that of the first mode.
		if math.Abs(got/want-1) > 0.1 {
			t.Errorf("legs on %s give %.4f mm/N; want %.4f", spread, got, want)
		}
	}
}
