package frame_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

func TestModelErrors(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*frame.Model)
		want   string
	}{
		{"no length", func(m *frame.Model) { m.Nodes[2].At = m.Nodes[1].At }, `member "mast": no length between node "root" and node "tray"`},
		{"not finite", func(m *frame.Model) { m.Nodes[2].At.X = math.NaN() }, `node "tray": place`},
		{"no section", func(m *frame.Model) { m.Members[0].Stations = nil }, `member "mast": no section`},
		{"stations", func(m *frame.Model) { m.Members[0].Stations[4].At = 0.9 }, "station 4 at 0.9"},
		{"no area", func(m *frame.Model) { m.Members[0].Stations[1].Section.A = 0 }, "station 1: A 0 m²"},
		{"modulus", func(m *frame.Model) { m.Members[0].Material.G = -1 }, "G -1 Pa"},
		{"section x", func(m *frame.Model) { m.Members[0].SectionX = r3.Vec{Z: 1} }, "lies along the member"},
		{"mass", func(m *frame.Model) { m.Bodies[0].Mass = -1 }, `body 0 at node "tray": mass -1 kg`},
		{"spring", func(m *frame.Model) { m.Springs[0].K[0][1] = 5e8 }, `spring "foot": stiffness is not symmetric`},
		{"hinge", func(m *frame.Model) { m.Springs[0].K[4][4] = 0 }, "free to move in rotation about y"},
		{"loose node", func(m *frame.Model) { m.Nodes = append(m.Nodes, frame.Node{Name: "lost"}) }, `node "lost" is free to move in`},
		{"ring of links", func(m *frame.Model) {
			m.Links = []frame.Link{{Master: 0, Slave: 1}, {Master: 1, Slave: 0}}
		}, "run in a ring"},
		{"supported follower", func(m *frame.Model) { m.Links = []frame.Link{{Master: 1, Slave: 0}} }, `node "deck" follows node "root"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := mast(t, 4)
			c.change(&m)
			if _, err := frame.Assemble(m); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q in it", err, c.want)
			}
		})
	}
	if _, err := frame.Statics(flying(t, 4), nil); err == nil || !strings.Contains(err.Error(), "free to move in 6 ways") {
		t.Errorf("statics of a free model: got %v", err)
	}
}

func TestMisusePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a member on node 9 of 3 must panic")
		}
	}()
	m := mast(t, 4)
	m.Members[0].B = 9
	frame.Assemble(m)
}

// Weight, and the root moment of a pull sideways, by hand.
func TestField(t *testing.T) {
	m := mast(t, 10)
	m.Members[0].Stations = []frame.Station{{Section: m.Members[0].Stations[0].Section, Mass: 0.2}} // 20 g of mast
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "mass", s.Mass(), 0.041, 1e-12)
	r, err := s.Statics([]frame.Case{{Field: r3.Vec{X: 30, Z: -10}}})
	if err != nil {
		t.Fatal(err)
	}
	root := r[0].Members[0][0]
	closeTo(t, "axial", root.N, -0.41, 1e-9)
	closeTo(t, "shear", root.Vx, 1.23, 1e-9)
	closeTo(t, "moment", root.My, 30*(0.02*0.05+0.021*0.106), 1e-9)
	closeTo(t, "reaction", r[0].Reactions[0].Moment.Y, -root.My, 1e-9)
}

// Rigid offsets and links: a beam on an arm is the beam between the ends of the arm.
func TestOffsets(t *testing.T) {
	plain := rod(t)
	offset := rod(t)
	offset.Nodes[0].At, offset.Nodes[1].At = r3.Vec{X: 0.02}, r3.Vec{Y: 0.03, Z: 0.05}
	offset.Members[0].OffsetA, offset.Members[0].OffsetB = r3.Vec{X: -0.02}, r3.Vec{Y: -0.03, Z: 0.05}
	offset.Nodes = append(offset.Nodes, frame.Node{At: r3.Vec{Z: 0.1}})
	offset.Links = []frame.Link{{Master: 1, Slave: 2}}
	F := r3.Vec{X: 3, Y: -2, Z: 1}
	a, err := frame.Statics(plain, []frame.Case{{Loads: []frame.Load{{Node: 1, Force: F}}}})
	if err != nil {
		t.Fatal(err)
	}
	b, err := frame.Statics(offset, []frame.Case{{Loads: []frame.Load{{Node: 2, Force: F}}}})
	if err != nil {
		t.Fatal(err)
	}
	want, got := a[0].Nodes[1], b[0].Nodes[2]
	if r3.Norm(r3.Sub(want.Move, got.Move)) > 1e-9*r3.Norm(want.Move) || r3.Norm(r3.Sub(want.Turn, got.Turn)) > 1e-9*r3.Norm(want.Turn) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	for i := range a[0].Members[0] {
		closeTo(t, "My", b[0].Members[0][i].My+1, a[0].Members[0][i].My+1, 1e-8)
	}
}

// Same input, same bytes.
func TestDeterminism(t *testing.T) {
	a, err := frame.Modes(flying(t, 20), frame.Options{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := frame.Modes(flying(t, 20), frame.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range a {
		if a[i].Frequency != b[i].Frequency || a[i].Label != b[i].Label || a[i].Nodes[2] != b[i].Nodes[2] {
			t.Errorf("mode %d differs: %+v, %+v", i, a[i], b[i])
		}
	}
}
