package parts_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/materials/hardware"
)

// screwed is an invented receiver with ears on the invented mount.
func screwed(t tester, answers ...string) *design.Document {
	return mount(t, append([]string{"receiver.fixing", "screws", "receiver.holes.x", "24 mm", "receiver.holes.y", "24 mm", "receiver.screw", "M2"}, answers...)...)
}

var fixed = []struct {
	name    string
	build   func(tester, ...string) *design.Document
	answers []string
}{
	{"inserts in the foot", mount, []string{"foot.head", "insert", "foot.thickness", "7.2 mm"}},
	{"inserts in pads", stilts, []string{"foot.head", "insert", "mast.legs.pad", "7.2 mm"}},
	{"washers on the foot", mount, []string{"foot.washers", "under heads"}},
	{"washers in counterbores", tubed, []string{"foot.washers", "under heads", "foot.head", "counterbore", "foot.thickness", "6 mm", "foot.size.x", "56 mm", "foot.size.y", "48 mm"}},
	{"washers on plates", twin, []string{"mast.plates.washers", "under heads and nuts", "mast.plates.grip", "18 mm"}},
	{"pockets in the tray", screwed, []string{"tray.held", "nut pocket", "tray.thickness", "3 mm", "tray.washers", "under heads"}},
	{"inserts in the tray", screwed, []string{"tray.held", "insert", "tray.thickness", "5.4 mm"}},
}

func TestFixingMeshes(t *testing.T) {
	for _, v := range fixed {
		t.Run(v.name, func(t *testing.T) {
			d := v.build(t, v.answers...)
			meshesAgree(t, built(t, d), 0.02) // as of each style
			piecesSound(t, d)
		})
	}
}

// Every head, nut and insert has its room; what holds is bought in the right number.
func TestFixingsAreListed(t *testing.T) {
	want := map[string]struct {
		name  string
		count int
	}{
		"inserts in the foot": {"M3 heat-set insert", 4}, "inserts in pads": {"M3 heat-set insert", 4}, "washers on the foot": {"M3 plain washer, ISO 7089", 4},
		"washers in counterbores": {"M3 plain washer, ISO 7089", 4}, "washers on plates": {"M3 plain washer, ISO 7089", 20},
		"pockets in the tray": {"M2 plain washer, ISO 7089", 4}, "inserts in the tray": {"M2 heat-set insert", 4},
	}
	for _, v := range fixed {
		a := built(t, v.build(t, v.answers...))
		count := 0
		for _, f := range a.Fittings {
			if f.Name == want[v.name].name {
				count += f.Count
			}
		}
		if count != want[v.name].count {
			t.Errorf("%s: %d of %s; want %d", v.name, count, want[v.name].name, want[v.name].count)
		}
		for _, r := range a.Rooms() {
			if r.Clear < 0.1 {
				t.Errorf("%s: %+v", v.name, r)
			}
		}
	}
}

// By hand, mm: a foot of 7.2 less an insert of 5.7 and 0.3 leaves 1.2 to the frame's plate of 2; the screw passes both and takes the
// insert: 8.9, 10 of stock. A washer of 0.5 (ISO 7089) is clamped with 5 of foot and 2 of plate, and a nut of 2.4 with a pitch of 0.5: 10.4, 12 of stock.
func TestFixingLengths(t *testing.T) {
	for _, c := range []struct {
		name          string
		answers       []string
		grip, through float64
		length        float64
		head          float64 // level of the heads' undersides
		nut, insert   bool
	}{
		{"insert", []string{"foot.head", "insert", "foot.thickness", "7.2 mm"}, 1.2, 2, 10, -2, false, true},
		{"washer", []string{"foot.washers", "under heads"}, 5, 2.5, 12, 5.5, true, false},
	} {
		u := built(t, mount(t, c.answers...)).Screws[0]
		if math.Abs(u.Grip-c.grip) > 1e-9 || math.Abs(u.Through-c.through) > 1e-9 || u.Length.Millimetres() != c.length || math.Abs(u.At[0].Z-c.head) > 1e-9 || u.Nut != c.nut || u.Insert != c.insert {
			t.Errorf("%s: %+v", c.name, u)
		}
	}
}

func TestFixingProblems(t *testing.T) {
	for _, c := range []struct {
		name       string
		build      func(tester, ...string) *design.Document
		answers    []string
		path, text string
	}{
		{"foot too thin for an insert", mount, []string{"foot.head", "insert"}, "foot.thickness", "use at least 7.2 mm"},
		{"pad too thin for an insert", stilts, []string{"foot.head", "insert"}, "mast.legs.pad", "use at least 7.2 mm"},
		{"insert on a block", mount, []string{"foot.head", "insert", "foot.thickness", "8 mm", "airframe.places[0].plate.backing", "block"}, "foot.head", "use plain or counterbore"},
		{"floor too thin for an insert", screwed, []string{"tray.held", "insert"}, "tray.thickness", "use at least 5.3 mm"},
		{"floor too thin for a nut", screwed, []string{"tray.held", "nut pocket"}, "tray.thickness", "use at least 2.8 mm"},
	} {
		_, problems := parts.Build(c.build(t, c.answers...))
		if len(problems) == 0 || problems[0].Path != c.path || !strings.Contains(problems[0].Text, c.text) {
			t.Errorf("%s: %v; want %s: …%s", c.name, problems, c.path, c.text)
		}
	}
}

// Around an insert there is as much plastic as its row says, all the way.
func TestInsertsHaveTheirWall(t *testing.T) {
	a := built(t, mount(t, "foot.head", "insert", "foot.thickness", "7.2 mm"))
	i := hardware.M3.Insert()
	for _, at := range a.Foot.Screws {
		if got, want := -a.Foot.Outline.Outer.Distance(at), (i.Bore()/2 + i.Wall).Millimetres(); got < want {
			t.Errorf("hole at %v: %.2f mm to the edge; want %.2f", at, got, want)
		}
	}
}
