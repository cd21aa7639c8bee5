package parts_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/parts"
	"mastwright/design/units"
)

func TestProblems(t *testing.T) {
	cases := []struct {
		name    string
		answers []string
		path    string
		says    string // the remedy, or the heart of it
	}{
		{"wall thicker than half the section", []string{"mast.wall", "6.2 mm"}, "mast.wall", "use at most 5.5 mm"},
		{"corner", []string{"mast.corner", "7 mm"}, "mast.corner", "use at most 5.75 mm"},
		{"height", []string{"mast.height", "14 mm"}, "mast.height", "use at least"},
		{"holes outside the foot", []string{"foot.size.x", "34 mm"}, "foot.size.x", "use at least 38.6 mm"},
		{"holes outside the foot's corner", []string{"foot.corner", "14 mm"}, "foot.corner", "smaller corner"},
		{"root over the screws", []string{"mast.root.x", "30 mm", "mast.root_fillet", "0 mm"}, "mast.root.x", "screw head"},
		{"root fillet", []string{"mast.root_fillet", "12 mm", "foot.size.x", "40 mm", "foot.size.y", "40 mm"}, "mast.root_fillet", "use at most 11 mm"},
		{"tray smaller than its screws", []string{"receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "34 mm", "receiver.holes.y", "34 mm", "tray.size.x", "34 mm", "tray.size.y", "34 mm"}, "tray.size.x", "smaller than its screws"},
		{"tray smaller than the receiver", []string{"tray.size.x", "26 mm"}, "tray.size.x", "use at least 31.7 mm"},
		{"tip wider than the tray", []string{"mast.tip.x", "34 mm", "tray.size.x", "32 mm"}, "mast.tip.x", "wider than"},
		{"tip fillet", []string{"mast.tip_fillet", "11 mm", "tray.size.x", "32 mm"}, "mast.tip_fillet", "use at most"},
		{"flare", []string{"tray.flare", "14 mm", "tray.size.x", "32 mm"}, "tray.flare", "use at most"},
		{"opening", []string{"tray.opening.x", "11 mm"}, "tray.opening.x", "use at most 10.4 mm"},
		{"cable way wide", []string{"mast.cable_way.width", "12 mm"}, "mast.cable_way.width", "use at most"},
		{"cable way short", []string{"mast.cable_way.length", "4 mm"}, "mast.cable_way.length", "use at least 5 mm"},
		{"cable way low", []string{"mast.cable_way.bottom", "6 mm"}, "mast.cable_way.bottom", "use at least 9 mm"},
		{"cable way high", []string{"mast.cable_way.bottom", "90 mm"}, "mast.cable_way.length", "beyond the mast"},
		{"cable way in the collar", []string{"mast.split", "three pieces"}, "mast.cable_way.bottom", "use at least 20 mm"},
		{"short column in three pieces", []string{"mast.split", "three pieces", "mast.height", "30 mm", "mast.cable_way.side", "none"}, "mast.height", "one piece"},
		{"thin foot, sunk heads", []string{"foot.thickness", "2 mm", "foot.head", "counterbore"}, "foot.thickness", "2.5 mm"},
		{"relief", []string{"foot.relief", "2 mm", "foot.thickness", "3 mm"}, "foot.relief", "less than 1.5 mm"},
		{"steep wedge", []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "40 deg"}, "foot.wedge", "at most 25"},
		{"no screw", []string{"airframe.places[0].screw", ""}, "airframe.places[0].screw", "write one of"},
		{"no holes", []string{"airframe.places[0].holes.along", ""}, "airframe.places[0].holes.as", "measure"},
		{"holes on each other", []string{"airframe.places[0].holes.as", "ring", "airframe.places[0].holes.ring", "12 mm", "airframe.places[0].holes.count", "8"}, "airframe.places[0].holes.as", "holes 1 and 2"},
		{"no receiver", []string{"receiver.size.x", ""}, "receiver.size.x", "measure it"},
		{"no such place", []string{"mast.place", "tail"}, "mast.place", "name one"},
		{"no hole spacing at the receiver", []string{"receiver.fixing", "screws", "receiver.screw", "M2"}, "receiver.holes.x", "measure it"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d := mount(t)
			for i := 0; i < len(c.answers); i += 2 {
				if c.answers[i+1] == "" {
					d.Clear(c.answers[i])
				} else if err := d.Set(c.answers[i], c.answers[i+1]); err != nil {
					t.Fatal(err)
				}
			}
			a, problems := parts.Build(d)
			if len(a.Parts) != 0 {
				t.Error("parts all the same")
			}
			for _, p := range problems {
				if p.Path == c.path && strings.Contains(p.Text, c.says) {
					return
				}
			}
			t.Errorf("got %v; want %s: ... %s", problems, c.path, c.says)
		})
	}
}

// Numbers that no file holds, as a search might try them, give problems and no panic.
func TestAbsurdNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := mount(t)
		f := []*units.Length{
			&d.Mast.Height, &d.Mast.Root.X, &d.Mast.Root.Y, &d.Mast.Tip.X, &d.Mast.Tip.Y, &d.Mast.Corner, &d.Mast.Wall, &d.Mast.RootFillet,
			&d.Mast.TipFillet, &d.Mast.CableWay.Width, &d.Mast.CableWay.Length, &d.Mast.CableWay.Bottom, &d.Foot.Size.X, &d.Foot.Size.Y,
			&d.Foot.Thickness, &d.Foot.Corner, &d.Foot.Relief, &d.Tray.Size.X, &d.Tray.Size.Y, &d.Tray.Thickness, &d.Tray.Corner,
			&d.Tray.RimHeight, &d.Tray.RimWall, &d.Tray.Clearance, &d.Tray.Opening.X, &d.Tray.Flare, &d.Print.HoleAdd, &d.Receiver.Size.X,
		}
		d.Mast.Split = rapid.SampledFrom([]string{"one piece", "three pieces"}).Draw(t, "split")
		d.Mast.Section = rapid.SampledFrom([]string{"rectangular", "round"}).Draw(t, "section")
		d.Receiver.Shape = rapid.SampledFrom([]string{"rectangular", "round"}).Draw(t, "shape")
		d.Receiver.Fixing = rapid.SampledFrom([]string{"rim", "screws", "strap", "tape"}).Draw(t, "fixing")
		d.Foot.Wedge = rapid.SampledFrom([]string{"none", "level"}).Draw(t, "wedge")
		d.Airframe.Places[0].SlopeForward = units.Degrees(rapid.Float64Range(-30, 30).Draw(t, "slope"))
		for range rapid.IntRange(0, 4).Draw(t, "changes") {
			at := rapid.IntRange(0, len(f)-1).Draw(t, "leaf")
			*f[at] = units.Length(rapid.OneOf(rapid.Float64Range(0, 60), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -3, 0, 1e9})).Draw(t, "value"))
		}
		a, problems := parts.Build(d)
		if len(problems) > 0 {
			for _, p := range problems {
				if p.Path == "" || p.Text == "" {
					t.Fatalf("a problem without place or text: %+v", p)
				}
			}
			return
		}
		for _, p := range a.Parts {
			if err := p.Solid().Err(); err != nil {
				t.Fatalf("%s: no problem, but %v", p.Name, err)
			}
			b := p.Body
			if !(b.Volume > 0 && b.Plastic > 0 && b.Plastic <= b.Volume*(1+1e-12) && !math.IsInf(b.Volume, 0)) {
				t.Fatalf("%s: %+v", p.Name, b)
			}
		}
		for _, m := range a.Members {
			for i, s := range m.Spans() {
				if err := s.Outline(0.5).Check(); err != nil {
					t.Fatalf("%s span %d: %v", m.Name, i, err)
				}
			}
		}
	})
}
