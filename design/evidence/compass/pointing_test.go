package compass_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
)

const degree = math.Pi / 180

// matrix holds in its columns where the compass's x (arrow), y and z point on the aircraft: x north with the nose, y east, z
// down at heading 0.
type matrix [3][3]float64

// cube lists the 24 rotations along the axes as products of quarter turns, closed under them: the rotation group of the cube.
func cube() []matrix {
	x := matrix{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}}
	z := matrix{{0, -1, 0}, {1, 0, 0}, {0, 0, 1}}
	all := []matrix{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}
	for i := 0; i < len(all); i++ {
		for _, quarter := range []matrix{x, z} {
			next, known := quarter.times(all[i]), false
			for _, m := range all {
				known = known || m == next
			}
			if !known {
				all = append(all, next)
			}
		}
	}
	return all
}

func (a matrix) times(b matrix) (c matrix) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				c[i][j] += a[i][k] * b[k][j]
			}
			c[i][j] += 0 // no negative zero
		}
	}
	return c
}

func (a matrix) transposed() (t matrix) {
	for i := range 3 {
		for j := range 3 {
			t[i][j] = a[j][i]
		}
	}
	return t
}

func about(axis int, angle float64) matrix {
	s, c := math.Sincos(angle)
	switch axis {
	case 0:
		return matrix{{1, 0, 0}, {0, c, -s}, {0, s, c}}
	case 1:
		return matrix{{c, 0, s}, {0, 1, 0}, {-s, 0, c}}
	}
	return matrix{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}
}

// shows is the oracle: the earth's field (north, east, down) is turned into the aircraft, into the compass, back to level as a
// flight controller does that takes the compass for straight and knows its pitch, and read as a heading.
func shows(mounted matrix, nose, down, dip float64) float64 {
	earth := matrix{{math.Cos(dip)}, {0}, {math.Sin(dip)}}
	attitude := about(2, nose).times(about(1, -down))
	read := mounted.transposed().times(attitude.transposed()).times(earth)
	level := about(1, -down).times(read)
	return math.Atan2(-level[1][0], level[0][0])
}

func round(mounted matrix, dip float64, noses ...float64) []compass.Reading {
	var out []compass.Reading
	for _, n := range noses {
		out = append(out, compass.Reading{Nose: n * degree, Shown: shows(mounted, n*degree, 0, dip)})
	}
	return out
}

func TestPointOverAllTwentyFour(t *testing.T) {
	all := cube()
	if len(all) != 24 {
		t.Fatalf("%d rotations, want 24", len(all))
	}
	random := rand.New(rand.NewPCG(5, 6))
	flat := 0
	for _, dip := range []float64{65 * degree, -60 * degree, 35 * degree} {
		for i, m := range all {
			// The arrow's direction on the aircraft and whether the underside is down, straight from the matrix.
			lies, up := math.Abs(m[2][2]) > .5, m[2][2] > .5
			want := int(math.Round(math.Atan2(m[1][0], m[0][0]) / degree))
			if want == -180 {
				want = 180
			}
			for noise := range 12 {
				readings := round(m, dip, 0, 90, 180, 270)
				if noise > 0 { // of a hand and a needle, 4 degrees
					for k := range readings {
						readings[k].Shown += 4 * degree * random.NormFloat64()
					}
				}
				p, err := compass.Point(readings, compass.PointingOptions{Dip: dip})
				name := fmt.Sprintf("dip %.0f, rotation %d, noise %d", dip/degree, i, noise)
				switch {
				case lies && err != nil:
					t.Errorf("%s: %v, want %d, right way up %v", name, err, want, up)
				case lies && (p.TurnDeg != want || p.RightWayUp != up):
					t.Errorf("%s: %d, right way up %v; want %d, %v", name, p.TurnDeg, p.RightWayUp, want, up)
				case !lies && err == nil:
					t.Errorf("%s: taken for %s, it stands on its side", name, p.Mounting)
				case !lies && !strings.Contains(err.Error(), "stands on its side"):
					t.Errorf("%s: %v, want to be told that it stands on its side", name, err)
				}
				if lies {
					flat++
				}
			}
		}
	}
	if flat != 3*8*12 {
		t.Errorf("%d of %d stood flat, want 8 of 24", flat, 3*24*12)
	}
}

func TestTwoReadingsSolveEveryTurn(t *testing.T) {
	const dip = 65 * degree
	for turn := -170; turn <= 180; turn += 5 {
		for _, up := range []bool{true, false} {
			m := about(2, float64(turn)*degree)
			if !up {
				m = m.times(about(0, math.Pi)) // turned over about its arrow first
			}
			p, err := compass.Point(round(m, dip, 0, 90), compass.PointingOptions{Dip: dip})
			if err != nil {
				t.Errorf("%d, right way up %v: %v", turn, up, err)
				continue
			}
			if off := math.Remainder(p.Angle.Value-float64(turn)*degree, 2*math.Pi); p.RightWayUp != up || math.Abs(off) > 1e-9 {
				t.Errorf("%d, right way up %v: got %.3f, %v", turn, up, p.Angle.Value/degree, p.RightWayUp)
			}
			if p.TurnDeg%45 != 0 || math.Abs(math.Remainder(float64(p.TurnDeg-turn), 360)) > 22.5 {
				t.Errorf("%d: nearest step %d", turn, p.TurnDeg)
			}
		}
	}
}

// TestSettingsCompose feeds back what was found: with the flight controller set to the mounting nothing is left to correct.
// The oracle turns the compass's readings back by the setting before it reads them.
func TestSettingsCompose(t *testing.T) {
	const dip = 65 * degree
	for _, m := range cube() {
		for _, set := range cube() {
			if math.Abs(m[2][2]) < .5 || math.Abs(set[2][2]) < .5 {
				continue
			}
			seen := m.times(set.transposed())
			turn := math.Atan2(set[1][0], set[0][0])
			p, err := compass.Point(round(seen, dip, 0, 90, 180, 270), compass.PointingOptions{Dip: dip, SetTurn: turn, SetUpsideDown: set[2][2] < 0})
			if err != nil {
				t.Fatal(err)
			}
			want := math.Atan2(m[1][0], m[0][0])
			if math.Abs(math.Remainder(float64(p.TurnDeg)*degree-want, 2*math.Pi)) > 1e-9 || p.RightWayUp != (m[2][2] > 0) {
				t.Errorf("mounted %v, set %v: got %s", m, set, p.Mounting)
			}
			if still := strings.HasPrefix(p.Correction, "nothing"); still != (m == set) {
				t.Errorf("mounted %v, set %v: %q", m, set, p.Correction)
			}
		}
	}
}

func TestNoseDownTellsMirroredAxes(t *testing.T) {
	mirror := matrix{{1, 0, 0}, {0, -1, 0}, {0, 0, 1}} // one axis with the wrong sign
	for _, dip := range []float64{65 * degree, -65 * degree} {
		for turn := -135.; turn <= 180; turn += 45 {
			over := about(2, turn*degree).times(about(0, math.Pi))
			wrong := about(2, turn*degree).times(mirror)
			for name, m := range map[string]matrix{"upside down": over, "mirrored": wrong} {
				readings := round(m, dip, 0, 90)
				o := compass.PointingOptions{Dip: dip}
				p, err := compass.Point(readings, o)
				if err != nil || p.RightWayUp || p.Proved || !strings.Contains(strings.Join(p.Words, "\n"), "mirrored axes would look the same") {
					t.Errorf("%s, level: %v %+v", name, err, p)
				}
				readings = append(readings, compass.Reading{Nose: 90 * degree, Down: 45 * degree, Shown: shows(m, 90*degree, 45*degree, dip)})
				p, err = compass.Point(readings, o)
				if name == "mirrored" && (err == nil || !strings.Contains(err.Error(), "mirrored")) {
					t.Errorf("dip %.0f turn %.0f, mirrored: %v, want a refusal", dip/degree, turn, err)
				}
				if name == "upside down" && (err != nil || !p.Proved) {
					t.Errorf("dip %.0f turn %.0f, upside down: %v, proved %v", dip/degree, turn, err, p.Proved)
				}
			}
		}
	}
}

// TestRoseExpectsWhatIsShown pitches the nose at headings all round: the rose has to expect what the oracle shows.
func TestRoseExpectsWhatIsShown(t *testing.T) {
	for _, dip := range []float64{65 * degree, -40 * degree} {
		for turn := -120.; turn <= 180; turn += 60 {
			for _, m := range []matrix{about(2, turn*degree), about(2, turn*degree).times(about(0, math.Pi))} {
				readings := round(m, dip, 0, 90, 180, 270)
				for nose := 15.; nose < 360; nose += 50 {
					readings = append(readings, compass.Reading{Nose: nose * degree, Down: 30 * degree, Shown: shows(m, nose*degree, 30*degree, dip)})
				}
				p, err := compass.Point(readings, compass.PointingOptions{Dip: dip})
				if err != nil {
					t.Fatal(err)
				}
				for _, e := range p.Rose {
					if math.Abs(e.Rest) > 1e-9 {
						t.Errorf("dip %.0f turn %.0f, nose %.0f down %.0f: expects %.2f, shown %.2f", dip/degree, turn, e.Nose/degree, e.Down/degree, e.Expected/degree, e.Shown/degree)
					}
				}
			}
		}
	}
}

func TestDeclination(t *testing.T) {
	straight := about(2, 0)
	at := func(o compass.PointingOptions) (compass.Pointing, error) {
		o.Declination, o.Dip = 40*degree, 65*degree // of the far north, so that leaving it out shows
		return compass.Point(round(straight, o.Dip, 0, 90, 180, 270), o)
	}
	for _, c := range []struct {
		name string
		o    compass.PointingOptions
		want float64
	}{
		// A straight compass that shows 0 with the nose at 0: magnetic by magnetic, or both by a map, is straight. Turned by the
		// map it stands 40° short of magnetic north, so its needle should show -40: it is turned by 40.
		{"both magnetic", compass.PointingOptions{}, 0},
		{"both true", compass.PointingOptions{NoseNorth: compass.True, ShownNorth: compass.True}, 0},
		{"nose by the map", compass.PointingOptions{NoseNorth: compass.True}, 40},
		{"nose by a compass", compass.PointingOptions{ShownNorth: compass.True}, -40},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := at(c.o)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(p.Angle.Value/degree-c.want) > 1e-9 {
				t.Errorf("%.3f, want %.3f", p.Angle.Value/degree, c.want)
			}
		})
	}
}

func TestPointRefuses(t *testing.T) {
	level := func(pairs ...float64) []compass.Reading {
		var out []compass.Reading
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, compass.Reading{Nose: pairs[i] * degree, Shown: pairs[i+1] * degree})
		}
		return out
	}
	for _, c := range []struct {
		name     string
		readings []compass.Reading
		o        compass.PointingOptions
		says     string
	}{
		{"one", level(0, 90), compass.PointingOptions{}, "north and at east"},
		{"two opposite", level(0, 90, 180, 270), compass.PointingOptions{}, "look the same"},
		{"a heading that stands", level(0, 80, 90, 95, 180, 90, 270, 78), compass.PointingOptions{}, "moves by 17° only"},
		{"a bad calibration", level(0, 0, 90, 45, 180, 180, 270, 315), compass.PointingOptions{}, "unevenly, off by up to 45°"},
		{"two that fit nothing", level(0, 0, 90, 170), compass.PointingOptions{}, "the heading by 170°"},
		{"not a number", level(0, 0, 90, math.NaN()), compass.PointingOptions{}, "reading 2"},
		{"beyond a circle", level(0, 0, 90, 5000), compass.PointingOptions{}, "0 to 360"},
		// Near the magnetic equator two readings of a compass on its side look like one that lies flat.
		{"on its side or flat", level(0, 90, 90, 12), compass.PointingOptions{Dip: 10 * degree}, "south and to west as well"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := compass.Point(c.readings, c.o)
			var r bench.Refusal
			if !errors.As(err, &r) || r.Remedy == "" || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v %v, want a refusal with %q", p.Mounting, err, c.says)
			}
		})
	}
}

func TestConfidenceOfTheTurn(t *testing.T) {
	held := 0
	const runs = 500
	for seed := range uint64(runs) {
		v := compass.InventedPointing{Turn: 93 * degree, UpsideDown: seed%2 == 1, Noise: 5 * degree, Seed: seed}
		p, err := compass.Point(v.Readings(), compass.PointingOptions{Dip: 65 * degree})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		if p.Angle.Low <= v.Turn && v.Turn <= p.Angle.High {
			held++
		}
	}
	// The bounds have a floor, so they hold at least 95 %: less three standard deviations of the count.
	if held < runs*95/100-15 {
		t.Errorf("%d of %d bounds hold the turn", held, runs)
	}
}

func ExamplePoint() {
	p, err := compass.Point([]compass.Reading{
		{Nose: 0, Shown: 92 * degree}, {Nose: 90 * degree, Shown: 179 * degree},
	}, compass.PointingOptions{Dip: 65 * degree})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.TurnDeg, p.RightWayUp)
	for _, w := range p.Words {
		fmt.Println(w)
	}
	// Output:
	// 90 true
	// the compass is turned by 90 degrees clockwise seen from above; right way up
	// tell the flight controller that the compass is turned by 90 degrees clockwise seen from above; right way up; or turn it by 90 degrees anticlockwise seen from above and set nothing
	// nose and shown headings both count from magnetic north
}

func ExamplePoint_refused() {
	_, err := compass.Point([]compass.Reading{
		{Nose: 0, Shown: 200 * degree}, {Nose: 90 * degree, Shown: 215 * degree},
	}, compass.PointingOptions{})
	fmt.Println(err)
	// Output:
	// these readings fit no mounting: the heading moves by 15° only, so a strong field that turns with the aircraft drowns the earth's (a magnetised screw, a loudspeaker, a bad calibration); take magnets and steel away from the compass, calibrate it anew and repeat
}
