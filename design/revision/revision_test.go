package revision_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/revision"
	"mastwright/design/units"
)

func example(t testing.TB, name string) *design.Document {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "assets", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return decode(t, string(data), nil)
}

func decode(t testing.TB, text string, open func(string) ([]byte, error)) *design.Document {
	t.Helper()
	doc, problems := design.Decode([]byte(text), design.Options{Open: open})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return doc
}

func set(t testing.TB, doc *design.Document, path, text string) {
	t.Helper()
	if err := doc.Set(path, text); err != nil {
		t.Fatal(err)
	}
}

func TestDiff(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(t *testing.T, d *design.Document)
		want   []revision.Change
	}{
		{"nothing", func(t *testing.T, d *design.Document) {}, nil},
		{"the same in another unit", func(t *testing.T, d *design.Document) { set(t, d, "mast.height", "10 cm") }, nil},
		{"the default said out loud", func(t *testing.T, d *design.Document) { set(t, d, "loads.ground", d.Get("loads.ground")) }, nil},
		{"a number and a choice", func(t *testing.T, d *design.Document) {
			set(t, d, "print.orientation", "upright")
			set(t, d, "mast.height", "12 cm")
		}, []revision.Change{
			{Path: "mast.height", Title: "Height", From: "100 mm", To: "120 mm"},
			{Path: "print.orientation", Title: "Printed", From: "lying", To: "upright"},
		}},
		{"an entry of a list", func(t *testing.T, d *design.Document) { set(t, d, "leads[0].spacing", "3 mm") }, []revision.Change{
			{Path: "leads[0].spacing", Title: "pack lead: Wires apart", From: "5 mm", To: "3 mm"},
		}},
		{"an entry before another", func(t *testing.T, d *design.Document) {
			if err := d.Insert("airframe.neighbours", 0); err != nil {
				t.Fatal(err)
			}
			set(t, d, "airframe.neighbours[0].name", "lamp")
			set(t, d, "airframe.neighbours[0].kind", "other")
		}, []revision.Change{
			{Path: "airframe.neighbours[0].name", Title: "lamp: Neighbour", To: "lamp"},
			{Path: "airframe.neighbours[0].kind", Title: "lamp: Kind", To: "other"},
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := example(t, "river-survey")
			b := a.Clone()
			c.change(t, b)
			got := revision.Diff(a, b)
			if !reflect.DeepEqual(got, c.want) {
				t.Errorf("got %+v, want %+v", got, c.want)
			}
			// The other way round the same fields change back.
			back := revision.Diff(b, a)
			if len(back) != len(got) {
				t.Fatalf("back: got %d changes, want %d", len(back), len(got))
			}
			for i := range back {
				if back[i].From != got[i].To || back[i].To != got[i].From {
					t.Errorf("back: got %+v, want %+v turned round", back[i], got[i])
				}
			}
		})
	}
}

func TestCompare(t *testing.T) {
	a := example(t, "river-survey")
	b := a.Clone()
	set(t, b, "mast.height", "140 mm")
	c, err := revision.Compare(context.Background(), a, b)
	if err != nil {
		t.Fatal(err)
	}
	ra, _ := review.Judge(a)
	rb, _ := review.Judge(b)
	if c.Mass != ra.Mass || c.Added != rb.Mass-ra.Mass || c.Added <= 0 {
		t.Errorf("got %g g and %g g more, want %g g and more with the height", c.Mass, c.Added, ra.Mass)
	}
	seen := map[string]revision.Move{}
	for _, m := range c.Moved {
		seen[m.Check] = m
	}
	for _, id := range []string{"modes", "sway", "balance"} {
		was, _ := ra.Verdict(id)
		is, _ := rb.Verdict(id)
		if m := seen[id]; m.From != was.State || m.To != is.State || m.Before.Value != was.Figure.Value || m.After.Value != is.Figure.Value {
			t.Errorf("%s: got %+v, want the two reviews' verdicts", id, m)
		}
	}
	if _, moved := seen["bus"]; moved {
		t.Error("the bus moved, though its cable did not change")
	}
	same, err := revision.Compare(context.Background(), a, a)
	if err != nil || len(same.Moved)+len(same.Changes) > 0 || same.Added != 0 {
		t.Errorf("a design and itself: got %+v, %v", same, err)
	}

	set(t, b, "mast.wall", "20 mm")
	var wrong revision.Unbuildable
	if _, err := revision.Compare(context.Background(), a, b); !errors.As(err, &wrong) || !wrong.Second {
		t.Errorf("an unbuildable second design: got %v", err)
	}
}

func TestCarry(t *testing.T) {
	old, aircraft := example(t, "river-survey"), example(t, "quarry-survey")
	set(t, old, "mast.height", "93 mm")
	set(t, old, "receiver.mass", "15 g")
	for _, m := range []design.Measured{
		{What: design.MeasuredModulus, Of: "copolyester", Layers: "along", Modulus: 1700 * units.Stress(1), Date: "2026-05-02", Method: "hang test"},
		{What: design.MeasuredStiffness, Factor: 0.9, Date: "2026-05-03", Method: "tap test"},
	} {
		if err := old.Use(m, ""); err != nil {
			t.Fatal(err)
		}
	}
	c, problems := revision.Carry(old, aircraft, design.Options{})
	if c.Document == nil {
		t.Fatal(problems)
	}
	for _, kept := range []string{"mast.height", "mast.root.x", "receiver.mass", "receiver.size.x", "print.orientation", "materials.mast"} {
		if got, want := c.Document.Get(kept), old.Get(kept); got != want {
			t.Errorf("%s: got %q, want the mount's %q", kept, got, want)
		}
	}
	for _, path := range aircraft.Paths() {
		f, _ := design.FieldOf(path)
		section, _, _ := strings.Cut(strings.ReplaceAll(path, "[", "."), ".")
		switch section {
		case "airframe", "motors", "leads", "site", "cable":
			if got, want := c.Document.Get(path), aircraft.Get(path); f.Form != design.List && got != want {
				t.Errorf("%s: got %q, want the aircraft's %q", path, got, want)
			}
		}
	}
	if got, want := c.Document.Mast.Place, aircraft.Mast.Place; got != want {
		t.Errorf("place: got %q, want %q", got, want)
	}
	if len(c.Document.Measured) != 1 || c.Document.Measured[0].What != design.MeasuredModulus {
		t.Errorf("measured: got %+v, want the modulus alone", c.Document.Measured)
	}
	if len(c.Dropped) == 0 || !strings.Contains(c.Dropped[0], "stiffness") {
		t.Errorf("got %q, want the stiffness named", c.Dropped)
	}
	var b bytes.Buffer
	if err := design.Encode(&b, c.Document); err != nil {
		t.Fatal(err)
	}
	if again := decode(t, b.String(), nil); len(revision.Diff(again, c.Document)) > 0 {
		t.Error("what is written does not read back the same")
	}
}

// What the other design does not say must be asked; the old aircraft's answer must not stand in for it.
func TestCarryAsksAgain(t *testing.T) {
	old := example(t, "river-survey")
	bare := decode(t, "mastwright: 1\nname: bare\nairframe: {name: new frame, mass: 900 g}\n", nil)
	c, problems := revision.Carry(old, bare, design.Options{})
	if c.Document == nil {
		t.Fatal(problems)
	}
	asked := map[string]bool{}
	for _, a := range c.Measure {
		asked[a.Path] = true
	}
	for _, path := range []string{"airframe.motor_diagonal", "airframe.places", "motors.kv", "site"} {
		if !asked[path] {
			t.Errorf("%s is not asked; got %v", path, c.Measure)
		}
	}
	if asked["receiver.mass"] || asked["airframe.mass"] {
		t.Errorf("what is known is asked: %v", c.Measure)
	}
}

// Shelf files of the mount stay named, the aircraft's are written out.
func TestCarryShelves(t *testing.T) {
	open := func(name string) ([]byte, error) {
		switch name {
		case "printer.yaml":
			return []byte("mastwright: 1\nwalls: 5\n"), nil
		case "frame.yaml":
			return []byte("mastwright: 1\nname: long frame\nmass: 2 kg\n"), nil
		}
		return nil, fmt.Errorf("no %s", name)
	}
	old := decode(t, "mastwright: 1\nname: a\nairframe: {from: frame.yaml}\nprint: {from: printer.yaml, orientation: lying}\n", open)
	aircraft := decode(t, "mastwright: 1\nname: b\nairframe: {from: frame.yaml}\nprint: {walls: 2}\n", open)
	c, problems := revision.Carry(old, aircraft, design.Options{Open: open})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for path, want := range map[string]design.Origin{"print.from": design.Given, "print.walls": design.Shelved, "print.orientation": design.Given,
		"airframe.from": design.Unanswered, "airframe.mass": design.Given} {
		if got := c.Document.Origin(path); got != want {
			t.Errorf("%s is %v, want %v", path, got, want)
		}
	}
	if got := c.Document.Print.Walls; got != 5 {
		t.Errorf("walls: got %d, want the printer's 5", got)
	}
}

func ExampleDiff() {
	a := design.New()
	b := a.Clone()
	if err := b.Set("mast.height", "12 cm"); err != nil {
		fmt.Println(err)
	}
	for _, c := range revision.Diff(a, b) {
		fmt.Printf("%s: %q -> %q\n", c.Path, c.From, c.To)
	}
	// Output: mast.height: "100 mm" -> "120 mm"
}

// A carried mount's file speaks of each section as the file it comes from.
func TestCarriedText(t *testing.T) {
	const mount = `# the old one
mastwright: 1
name: Mine

airframe:
  mass: 1180 g # weighed
motors: {count: 4} # as bought
# tall
mast:
  height: 3 in # it folds
accepted:
  - {check: sky, reason: trees} # here
`
	const aircraft = `mastwright: 1
name: Other
# in flying order
airframe: {name: X, mass: 2 kg}
# by map
site: {latitude: 49}
mast: {height: 9 cm} # not this one
`
	const want = `# the old one
mastwright: 1
name: Mine, X

# in flying order
airframe: {name: X, mass: 2 kg}
# tall
mast:
  height: 3 in # it folds
# by map
site: {latitude: 49}
`
	c, problems := revision.Carry(decode(t, mount, nil), decode(t, aircraft, nil), design.Options{})
	if c.Document == nil {
		t.Fatal(problems)
	}
	got, err := c.Text([]byte(mount), []byte(aircraft))
	if err != nil || string(got) != want {
		t.Errorf("got %v\n%s\nwant\n%s", err, got, want)
	}
}
