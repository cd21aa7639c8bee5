package parts_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/parts"
	"mastwright/mesh/solid"
)

// Trays with what may be switched on stay one closed solid that weighs what the outlines say.
func TestTrayMeshes(t *testing.T) {
	round := []string{"receiver.shape", "round", "receiver.size.x", "36 mm"}
	for _, v := range []struct {
		name    string
		answers []string
	}{
		{"letters", []string{"tray.letters", "sides"}},
		{"letters, plug to the front", []string{"tray.letters", "sides", "receiver.connector", "front", "receiver.plug", "8 mm"}},
		{"letters, round, plug", append([]string{"tray.letters", "sides", "receiver.plug", "7 mm"}, round...)},
		{"letters, tape", []string{"tray.letters", "sides", "receiver.fixing", "tape"}},
		{"opening a hair off the tie's slot", []string{"tray.opening.y", "6.01 mm"}},
		{"arrow a hair off the tie's slot", []string{"receiver.connector", "left", "tray.opening.x", "3.01 mm"}},
		{"round ends to the opening", []string{"tray.opening.x", "7 mm", "tray.opening.y", "5 mm", "tray.opening_corner", "2.5 mm"}},
		{"round ends the other way", []string{"tray.opening.x", "4 mm", "tray.opening.y", "7.4 mm", "tray.opening_corner", "3 mm"}},
		{"round opening as wide as the tie's slots stand apart", []string{"tray.opening.x", "6 mm", "tray.opening.y", "6 mm", "tray.opening_corner", "3.08 mm"}},
		{"round opening over a tube", []string{"mast.build", "tube", "tray.opening_corner", "3 mm"}},
		{"corners into the cable's gap", []string{"tray.corner", "11.4 mm"}},
		{"tongues from the corners", []string{"receiver.fixing", "strap", "tray.corner", "12 mm"}},
		{"tongues from the corners of a tray without rim", []string{"receiver.fixing", "tape", "tray.corner", "14.25 mm"}},
		{"rounded opening", []string{"tray.opening_corner", "1 mm", "mast.split", "three pieces", "mast.cable_way.bottom", "22 mm"}},
		{"rounded opening over a tube", []string{"mast.build", "tube", "tray.opening_corner", "2 mm", "tray.letters", "sides"}},
	} {
		t.Run(v.name, func(t *testing.T) {
			for _, p := range built(t, mount(t, v.answers...)).Parts {
				m, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.05})
				if err != nil || r.Pieces != 1 || r.Coarse || r.Tolerance > 0.05 {
					t.Fatalf("%s: %d pieces, strays %g mm, coarse %v, %v", p.Name, r.Pieces, r.Tolerance, r.Coarse, err)
				}
				if b := m.Body(); !near(p.Body.Volume, b.Volume, 0.007) {
					t.Errorf("%s: outlines enclose %.1f mm³, the mesh %.1f", p.Name, p.Body.Volume, b.Volume)
				}
			}
		})
	}
}

// Letters, gap and ears by hand. Block letters F, L, B and R have 14, 11, 24 and 22 squares, counted, of a seventh of
// their height.
func TestTrayByHand(t *testing.T) {
	plain, lettered := built(t, mount(t)), built(t, mount(t, "tray.letters", "sides"))
	cell := 4.2 / 7
	taken := plain.Tray.Body.Volume - lettered.Tray.Body.Volume
	if want := (14 + 11 + 24 + 22) * cell * cell * 0.6; math.Abs(taken-want) > 1e-6 {
		t.Errorf("letters take %.3f mm³; want %.3f", taken, want)
	}
	gap := built(t, mount(t, "receiver.plug", "8 mm"))
	// The rim is 1.6 mm thick and 3 mm high; the usual gap is 12 mm, this one 8.5.
	if got, want := gap.Tray.Body.Volume-plain.Tray.Body.Volume, (12-8.5)*1.6*3; math.Abs(got-want) > 1e-6 {
		t.Errorf("a narrower gap leaves %.4f mm³ more; want %.4f", got, want)
	}
	screwed := []string{"receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm"}
	// M2: floor 2.4, ear 2 or 6, nut 1.6 and a pitch of 0.4: 6.4 and 10.4 mm, so 8 and 12 mm of stock.
	for _, c := range []struct {
		answers []string
		want    float64
	}{{screwed, 8}, {append([]string{"receiver.lug", "6 mm"}, screwed...), 12}} {
		a := built(t, mount(t, c.answers...))
		u := a.Screws[len(a.Screws)-1]
		if u.For != "receiver" || u.Length.Millimetres() != c.want {
			t.Errorf("%v: %+v; want %g mm", c.answers, u, c.want)
		}
		if _, err := u.Size.Head(u.Head); err != nil {
			t.Errorf("a screw that is not made: %v", err)
		}
	}
	opened := built(t, mount(t, "tray.opening_corner", "2 mm"))
	if got, want := opened.Tray.Floor.Area()-plain.Tray.Floor.Area(), (4-math.Pi)*4; math.Abs(got-want) > 1e-9 {
		t.Errorf("round corners leave %.5f mm² more; want %.5f", got, want)
	}
	n := opened.Parts[0].Solid()
	if n.Value(r3.Vec{X: 2.8, Y: 2.8, Z: 99}) > 0 || n.Value(r3.Vec{X: 2.8, Y: 0, Z: 99}) < 0 {
		t.Error("the opening's corners are not round, or its sides are not open")
	}
}

func TestTrayProblems(t *testing.T) {
	for _, c := range []struct {
		name    string
		answers []string
		path    string
		says    string
	}{
		{"plug wider than the rim", []string{"receiver.plug", "27 mm"}, "receiver.plug", "wider than the rim's side lets through"},
		{"corners that leave no gap for the cable", []string{"tray.corner", "15 mm"}, "tray.corner", "of the rim's side straight and the cable's gap wants"},
		{"tongues that meet", []string{"receiver.shape", "round", "receiver.size.x", "12 mm", "receiver.fixing", "strap"}, "tray.size.x", "leaves no edge between the tongues"},
		{"screws beyond stock", []string{"foot.thickness", "25 mm", "mast.cable_way.bottom", "40 mm", "airframe.places[0].plate.thickness", "10 mm", "foot.wedge", "none", "receiver.fixing", "screws",
			"receiver.screw", "M3", "receiver.holes.x", "24 mm", "receiver.holes.y", "24 mm", "receiver.lug", "40 mm", "tray.thickness", "10 mm"}, "receiver.lug", "the longest in stock is 50 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, problems := parts.Build(mount(t, c.answers...))
			for _, p := range problems {
				if p.Path == c.path && strings.Contains(p.Text, c.says) {
					return
				}
			}
			t.Errorf("got %v; want %s: ... %s", problems, c.path, c.says)
		})
	}
}

// A round body with a plug of known width turns only as far as the gap is wider: 0.25 mm at 18.25 mm is 0.8 degrees.
func TestRoundBodyIsKeyed(t *testing.T) {
	a := built(t, mount(t, "receiver.shape", "round", "receiver.size.x", "36 mm", "receiver.plug", "7 mm"))
	if notes := strings.Join(a.Parts[0].Notes, " "); !strings.Contains(notes, "within 0.8 degrees either way") {
		t.Errorf("notes: %s", notes)
	}
	a = built(t, mount(t, "receiver.shape", "round", "receiver.size.x", "36 mm", "receiver.fixing", "tape"))
	if notes := strings.Join(a.Parts[0].Notes, " "); !strings.Contains(notes, "draw a line") {
		t.Errorf("notes: %s", notes)
	}
}
