package parts_test

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh"
	"mastwright/mesh/solid"
)

// variations are mounts of every kind that a column can be. In each the mesh, made from the solids alone, must weigh what the
// outlines that the checks use weigh.
var variations = []struct {
	name    string
	answers []string
}{
	{"plain", nil},
	{"round mast", []string{"mast.section", "round"}},
	{"sharp mast, no fillets", []string{"mast.corner", "0 mm", "mast.root_fillet", "0 mm", "mast.tip_fillet", "0 mm"}},
	{"straight mast, cable to the left", []string{"mast.tip.x", "18 mm", "mast.cable_way.side", "left"}},
	{"oblong mast, no cable way", []string{"mast.root.y", "24 mm", "mast.tip.y", "14 mm", "mast.cable_way.side", "none", "tray.opening.x", "4 mm", "tray.opening.y", "10 mm"}},
	{"counterbored foot", []string{"foot.head", "counterbore"}},
	{"nut pockets", []string{"foot.head", "nut pocket"}},
	{"screws at the receiver", []string{"receiver.fixing", "screws", "receiver.screw", "M2", "receiver.holes.x", "22 mm", "receiver.holes.y", "22 mm"}},
	{"strap", []string{"receiver.fixing", "strap", "receiver.connector", "left"}},
	{"tape", []string{"receiver.fixing", "tape", "tray.opening.x", "0 mm"}},
	{"round receiver", []string{"receiver.shape", "round", "receiver.size.x", "36 mm"}},
	{"round receiver, strap", []string{"receiver.shape", "round", "receiver.size.x", "40 mm", "receiver.fixing", "strap", "mast.section", "round"}},
	{"connector to the front", []string{"receiver.connector", "front"}},
	{"flare", []string{"tray.flare", "8 mm"}},
	{"heads in the fillet", []string{"mast.root.x", "24 mm", "mast.tip.x", "16 mm", "mast.wall", "2.8 mm", "mast.height", "150 mm"}},
	{"small stack", []string{"airframe.places[0].holes.along", "20 mm", "airframe.places[0].screw", "M2", "airframe.places[0].holes.diameter", "2.2 mm",
		"mast.root.x", "11 mm", "mast.tip.x", "8 mm", "mast.wall", "1.6 mm", "mast.corner", "2 mm", "mast.height", "55 mm", "mast.root_fillet", "3 mm",
		"mast.tip_fillet", "2 mm", "tray.opening.x", "4 mm", "tray.opening.y", "4 mm", "receiver.size.x", "20 mm", "receiver.size.y", "18 mm"}},
	{"wedge", []string{"foot.wedge", "level", "airframe.places[0].slope_forward", "6 deg", "airframe.places[0].slope_left", "-3 deg", "foot.head", "counterbore", "mast.cable_way.bottom", "14 mm"}},
	{"wedge without relief", []string{"foot.relief", "0 mm", "foot.wedge", "level", "airframe.places[0].slope_forward", "6 deg", "airframe.places[0].slope_left", "-3 deg", "foot.head", "counterbore", "mast.cable_way.bottom", "14 mm"}},
	{"turned pattern", []string{"airframe.places[0].turn", "45 deg"}},
	{"ring of three", []string{"airframe.places[0].holes.as", "ring", "airframe.places[0].holes.ring", "40 mm", "airframe.places[0].holes.count", "3"}},
	{"three pieces", []string{"mast.split", "three pieces", "mast.cable_way.bottom", "22 mm"}},
	{"three pieces, round, flare, lying", []string{"mast.split", "three pieces", "mast.cable_way.bottom", "22 mm", "mast.section", "round", "print.orientation", "lying", "tray.flare", "7 mm", "mast.cable_way.side", "right"}},
	{"three pieces, wedge", []string{"mast.split", "three pieces", "mast.cable_way.bottom", "28 mm", "foot.wedge", "level", "airframe.places[0].slope_forward", "5 deg"}},
	{"one piece lying", []string{"print.orientation", "lying", "foot.thickness", "6 mm"}},
}

func TestMeshAgainstOutlines(t *testing.T) {
	for _, v := range variations {
		t.Run(v.name, func(t *testing.T) {
			meshesAgree(t, built(t, mount(t, v.answers...)), 0.005)
		})
	}
}

// meshesAgree polygonises every part, which passes the gate for defects or fails, and compares the mesh with what the outlines say.
func meshesAgree(t *testing.T, a parts.Assembly, rel float64) {
	t.Helper()
	for _, p := range a.Parts {
		m, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.05})
		if err != nil {
			t.Fatalf("%s: %v", p.Name, err)
		}
		if r.Pieces != 1 {
			t.Errorf("%s: %d surfaces; want one", p.Name, r.Pieces)
		}
		if r.Coarse || r.Tolerance > 0.05 {
			t.Errorf("%s: strays %g mm (coarse %v); want 0.05", p.Name, r.Tolerance, r.Coarse)
		}
		b := m.Body()
		t.Logf("%s: mesh %.1f mm3, outlines %.1f (%+.2f %%), centre %.3f / %.3f, %d triangles, genus %d", p.Name, b.Volume, p.Body.Volume,
			100*(p.Body.Volume/b.Volume-1), b.Centroid, p.Body.Centre, r.Triangles, r.Genus)
		// 0.5 % for a column: fillets at corners and cut by heads, the joint screws' holes.
		if !near(p.Body.Volume, b.Volume, rel) {
			t.Errorf("%s: outlines enclose %.1f mm³, the mesh %.1f", p.Name, p.Body.Volume, b.Volume)
		}
		box := m.Box()
		if d := r3.Norm(r3.Sub(p.Body.Centre, b.Centroid)); d > rel*(box.Max.Z-box.Min.Z) {
			t.Errorf("%s: centre of gravity %v by outlines, %v by mesh", p.Name, p.Body.Centre, b.Centroid)
		}
		for _, i := range [][2]float64{{p.Body.Inertia.XX, b.Inertia.XX}, {p.Body.Inertia.YY, b.Inertia.YY}, {p.Body.Inertia.ZZ, b.Inertia.ZZ}} {
			if !near(i[0], i[1], 4*rel) {
				t.Errorf("%s: inertia %v by outlines, %v by mesh", p.Name, p.Body.Inertia, b.Inertia)
				break
			}
		}
		if p.Making == parts.Printed {
			onBed(t, p, m)
		}
	}
}

// onBed compares the box that a part claims in print orientation with its mesh's there.
func onBed(t *testing.T, p parts.Part, m *mesh.Mesh) {
	t.Helper()
	box := m.OnBed(p.Turn).Box()
	// Upright and lying boxes are exact to the mesh; a tilted one is taken around sharp corners.
	for _, s := range [][2]float64{{p.Box.X, box.Max.X}, {p.Box.Y, box.Max.Y}, {p.Box.Z, box.Max.Z}} {
		if s[0] < s[1]-0.05 || s[0] > s[1]+0.6 {
			t.Errorf("%s: box %v, mesh %v", p.Name, p.Box, box.Max)
			return
		}
	}
}

func built(t tester, d *design.Document) parts.Assembly {
	t.Helper()
	a, problems := parts.Build(d)
	for _, p := range problems {
		t.Fatal(p)
	}
	return a
}

func near(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

func vec2(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

// nearScrew reports whether a joint's screw crosses the mast near a level.
func nearScrew(all []parts.ScrewUse, z float64) bool {
	for _, s := range all {
		if s.Pilot > 0 && math.Abs(s.At[0].Z-z) < 3 {
			return true
		}
	}
	return false
}
