package parts_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/parts"
	"mastwright/design/units"
)

func TestStyleProblems(t *testing.T) {
	cases := []struct {
		name    string
		build   string
		answers []string
		path    string
		says    string
	}{
		{"plates across the receiver", "twin-plate", []string{"mast.height", "44 mm"}, "mast.height", "cross the receiver"},
		{"plates beside the tray", "twin-plate", []string{"mast.plates.gap", "28 mm", "mast.tip_fillet", "0 mm", "airframe.places[0].holes.across", "60 mm", "tray.size.x", "32 mm", "tray.size.y", "32 mm"}, "mast.plates.gap", "cross the receiver's plug"},
		{"plates wider than the tray", "twin-plate", []string{"mast.plates.tip", "40 mm", "tray.size.x", "32 mm", "tray.size.y", "32 mm", "mast.tip_fillet", "0 mm"}, "mast.plates.tip", "wider than"},
		{"holes outside the plate", "twin-plate", []string{"mast.plates.lightening.count", "2", "mast.plates.lightening.diameter", "26 mm", "mast.plates.spacers", "0", "mast.height", "140 mm"}, "mast.plates.lightening.diameter", "outside the plate"},
		{"lightening without a web", "twin-plate", []string{"mast.plates.lightening.count", "9"}, "mast.plates.lightening.count", "use at most"},
		{"opening outside every bay", "twin-plate", []string{"mast.cable_way.side", "left", "mast.cable_way.bottom", "12 mm"}, "mast.cable_way.bottom", "outside every free stretch"},
		{"opening over the plate's edge", "twin-plate", []string{"mast.cable_way.side", "left", "mast.cable_way.bottom", "40 mm", "mast.cable_way.width", "20 mm", "mast.cable_way.length", "20 mm", "mast.plates.spacers", "0"}, "mast.cable_way.width", "no web"},
		{"kerf as wide as a slot", "twin-plate", []string{"mast.plates.spacer", "tabs", "mast.plates.screw", "M4", "mast.plates.root", "26 mm", "mast.plates.grip", "20 mm", "mast.plates.kerf", "4 mm", "mast.height", "120 mm"}, "mast.plates.kerf", "cannot be cut"},
		{"kerf as wide as a screw hole", "twin-plate", []string{"mast.plates.screw", "M2", "mast.plates.kerf", "2.6 mm"}, "mast.plates.kerf", "screw holes"},
		{"too many spacers", "twin-plate", []string{"mast.plates.spacers", "5"}, "mast.plates.spacers", "use at most"},
		{"low blocks", "twin-plate", []string{"mast.plates.grip", "10 mm"}, "mast.plates.grip", "use at least 13 mm"},
		{"narrow plates", "twin-plate", []string{"mast.plates.root", "8 mm", "mast.plates.tip", "8 mm", "mast.plates.corner", "1 mm"}, "mast.plates.root", "no edge"},
		{"screws longer than stock", "twin-plate", []string{"mast.plates.gap", "44 mm", "foot.size.y", "60 mm", "tray.size.y", "60 mm", "airframe.places[0].holes.across", "60 mm", "foot.size.y", "70 mm"}, "mast.plates.gap", "stock"},
		{"legs that cannot reach", "legs", []string{"mast.legs.pattern", "rectangle", "mast.legs.spread.x", "200 mm"}, "mast.legs.spread.x", "cannot reach"},
		{"legs that cannot reach from a ring", "legs", []string{"mast.legs.pattern", "ring", "mast.legs.ring", "300 mm"}, "mast.legs.ring", "cannot reach"},
		{"short legs", "legs", []string{"mast.height", "30 mm"}, "mast.height", "use at least"},
		{"sockets out of the tray", "legs", []string{"mast.legs.top.x", "28 mm", "mast.legs.top.y", "28 mm"}, "mast.legs.top.x", "stands out of"},
		{"legs on each other", "legs", []string{"mast.legs.top.x", "6 mm", "mast.legs.top.y", "6 mm"}, "mast.legs.top.x", "no wall"},
		{"pads on each other", "legs", []string{"airframe.places[0].holes.along", "40 mm", "airframe.places[0].holes.across", "10 mm", "airframe.places[0].screw", "M2"}, "mast.legs.pattern", "overlap"},
		{"six holes", "legs", []string{"airframe.places[0].holes.as", "ring", "airframe.places[0].holes.ring", "40 mm", "airframe.places[0].holes.count", "6"}, "mast.legs.pattern", "three or four"},
		{"thick legs under a small tray", "legs", []string{"mast.legs.section.x", "20 mm", "mast.legs.pattern", "rectangle", "mast.legs.spread.x", "90 mm"}, "mast.legs.top.x", "no room"},
		{"legs over their screws on a wedge", "legs", []string{"mast.legs.stand", "over the screws", "foot.head", "insert", "mast.legs.pad", "8 mm", "foot.wedge", "level", "airframe.places[0].slope_forward", "4 deg"}, "mast.legs.stand", "stand on no wedge"},
		{"legs over heads", "legs", []string{"mast.legs.stand", "over the screws"}, "mast.legs.stand", "use foot.head insert"},
		{"kerf wider than a leg", "legs", []string{"mast.legs.made", "cut", "materials.legs", "carbon-sheet", "mast.legs.section.y", "2 mm", "mast.legs.kerf", "2 mm"}, "mast.legs.kerf", "narrower than a leg"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			a, problems := parts.Build(mount(t, append([]string{"mast.build", c.build}, c.answers...)...))
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

// Numbers that no file holds give problems and no panic, and what is built is sound.
func TestAbsurdStyles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := mount(t, "mast.build", rapid.SampledFrom([]string{"twin-plate", "legs"}).Draw(t, "build"))
		p, l := &d.Mast.Plates, &d.Mast.Legs
		f := []*units.Length{
			&d.Mast.Height, &p.Thickness, &p.Root, &p.Tip, &p.Gap, &p.Corner, &p.Grip, &p.Lightening.Diameter, &p.Lightening.Web, &p.Kerf,
			&l.Spread.X, &l.Spread.Y, &l.Ring, &l.Top.X, &l.Top.Y, &l.Section.X, &l.Section.Y, &l.Grip, &l.Socket, &l.Pad,
			&d.Mast.RootFillet, &d.Mast.TipFillet, &d.Tray.Thickness, &d.Tray.Flare, &d.Receiver.Size.X, &d.Foot.Relief, &d.Print.HoleAdd,
			&d.Mast.CableWay.Width, &d.Mast.CableWay.Length, &d.Mast.CableWay.Bottom,
		}
		d.Mast.CableWay.Side = rapid.SampledFrom([]string{"rear", "left", "right"}).Draw(t, "side")
		p.Spacer = rapid.SampledFrom([]string{"two screws", "tabs", "single screw"}).Draw(t, "spacer")
		p.Spacers = rapid.IntRange(-1, 9).Draw(t, "spacers")
		p.Lightening.Count = rapid.IntRange(-1, 9).Draw(t, "holes")
		l.Pattern = rapid.SampledFrom([]string{"stack holes", "rectangle", "ring"}).Draw(t, "pattern")
		l.Count = rapid.IntRange(-1, 6).Draw(t, "count")
		l.Made = rapid.SampledFrom([]string{"printed lying", "cut"}).Draw(t, "made")
		for range rapid.IntRange(0, 3).Draw(t, "changes") {
			at := rapid.IntRange(0, len(f)-1).Draw(t, "leaf")
			*f[at] = units.Length(rapid.OneOf(rapid.Float64Range(0, 60), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -3, 0, 1e9})).Draw(t, "value"))
		}
		a, problems := parts.Build(d)
		for _, p := range problems {
			if p.Path == "" || p.Text == "" {
				t.Fatalf("a problem without place or text: %+v", p)
			}
		}
		for _, p := range a.Parts {
			if err := p.Solid().Err(); err != nil {
				t.Fatalf("%s: no problem, but %v", p.Name, err)
			}
			if b := p.Body; !(b.Volume > 0 && b.Plastic > 0 && b.Plastic <= b.Volume*(1+1e-9) && !math.IsInf(b.Volume, 0)) {
				t.Fatalf("%s: %+v", p.Name, b)
			}
			if p.Making == parts.Cut {
				for _, o := range []error{p.Outline.Check(), p.Drawing.Check()} {
					if o != nil {
						t.Fatalf("%s: %v", p.Name, o)
					}
				}
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
