package design_test

import (
	"fmt"
	"io/fs"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design"
)

func revise(t fataler, text string, d *design.Document) string {
	t.Helper()
	out, err := design.Revise([]byte(text), d)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

type fataler interface {
	Helper()
	Fatal(...any)
}

const remarked = `# My seven-inch.

mastwright: 1
name: "Mine"   # to be changed
airframe:
    # weighed with the pack
    mass: 1.18 kg

    places:
    - name: plate   # on top
      at: { x: 0 mm, y: 0 mm,
            z: 0 mm }
      slope_left: 0 deg
    # what may be in the way
    neighbours:
    # the pack
    - name: pack
      kind: pack # the big one
    - # nothing known
      name: camera
      kind: camera # looks down
mast:
    # as tall as it folds
    height: 3 in # not more

    wall: 2.4 mm
# the end
`

func TestRevise(t *testing.T) {
	set := func(path, text string) func(*design.Document) error {
		return func(d *design.Document) error { return d.Set(path, text) }
	}
	clear := func(path string) func(*design.Document) error {
		return func(d *design.Document) error { d.Clear(path); return nil }
	}
	for _, c := range []struct {
		name     string
		change   func(*design.Document) error
		old, new string // what becomes what in the text
	}{
		{"nothing", func(*design.Document) error { return nil }, "", ""},
		{"the same in another unit", set("mast.height", "76.2 mm"), "", ""},
		{"a number", set("mast.height", "80 mm"), "3 in # not", "80 mm # not"},
		{"a text stays quoted", set("name", "Yours"), `"Mine" `, `"Yours" `},
		{"between brackets", set("airframe.places[0].at.x", "-4.5 mm"), "x: 0 mm", "x: -4.5 mm"},
		{"a new answer after its neighbour in the table", set("mast.root_fillet", "5 mm"), "wall: 2.4 mm\n", "wall: 2.4 mm\n    root_fillet: 5 mm\n"},
		{"a new answer before all others goes before their comment", set("mast.build", "legs"), "    # as tall", "    build: legs\n    # as tall"},
		{"a new section", set("motors.count", "4"), "mast:\n", "motors:\n  count: 4\nmast:\n"},
		{"withdrawn", clear("mast.wall"), "    wall: 2.4 mm\n", ""},
		{"a comment above what is withdrawn stays", clear("airframe.mass"), "    mass: 1.18 kg\n", ""},
		{"withdrawn behind a dash", clear("airframe.places[0].name"), "name: plate   # on top\n      at: { x", "at: { x"},
		{"withdrawn between brackets", clear("airframe.places[0].at.y"), "y: 0 mm,\n            ", ""},
		{"the last one between brackets", clear("airframe.places[0].at.z"), ",\n            z: 0 mm }", " }"},
		{"an entry goes with its comment", func(d *design.Document) error { return d.Remove("airframe.neighbours", 0) },
			"    # the pack\n    - name: pack\n      kind: pack # the big one\n", ""},
		{"the last entries", func(d *design.Document) error { d.Clear("airframe.neighbours"); return nil },
			"    neighbours:\n    # the pack\n    - name: pack\n      kind: pack # the big one\n    - # nothing known\n      name: camera\n      kind: camera # looks down\n", ""},
		{"an empty list", func(d *design.Document) error { return d.Remove("airframe.places", 0) },
			"places:\n    - name: plate   # on top\n      at: { x: 0 mm, y: 0 mm,\n            z: 0 mm }\n      slope_left: 0 deg\n", "places: []\n"},
		{"an entry between", func(d *design.Document) error {
			if err := d.Insert("airframe.neighbours", 1); err != nil {
				return err
			}
			return d.Set("airframe.neighbours[1].name", "radio, of 1 W")
		}, "    - # nothing", "    - name: radio, of 1 W\n    - # nothing"},
		{"an entry before", func(d *design.Document) error { return d.Insert("airframe.neighbours", 0) }, "    # the pack\n", "    - {}\n    # the pack\n"},
		{"a measured value", func(d *design.Document) error {
			return d.Use(design.Measured{What: design.MeasuredStiffness, Factor: 0.9, Date: "2026-05-02"}, "")
		}, "wall: 2.4 mm\n", "wall: 2.4 mm\nmeasured:\n  - what: stiffness\n    factor: 0.9\n    date: \"2026-05-02\"\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, eol := range []string{"\n", "\r\n"} {
				written := func(text string) string { return strings.ReplaceAll(text, "\n", eol) }
				doc, problems := design.Decode([]byte(written(remarked)), design.Options{})
				if doc == nil {
					t.Fatal(problems)
				}
				if err := c.change(doc); err != nil {
					t.Fatal(err)
				}
				if c.old != "" && strings.Count(remarked, c.old) != 1 {
					t.Fatalf("%q stands %d times in the text", c.old, strings.Count(remarked, c.old))
				}
				want := written(strings.Replace(remarked, c.old, c.new, 1))
				if got := revise(t, written(remarked), doc); got != want {
					t.Fatalf("got\n%s\nwant\n%s", got, want)
				}
			}
		})
	}
}

func TestReviseOfWhatIsNoDesign(t *testing.T) {
	doc, _ := design.Decode([]byte(remarked), design.Options{})
	for _, text := range []string{"", "no design", "a: [", "mastwright: 1\nname: &a x\n"} {
		if got, want := revise(t, text, doc), string(encode(t, doc)); got != want {
			t.Errorf("%q became\n%s\nwant\n%s", text, got, want)
		}
	}
}

var commentMark = regexp.MustCompile(`# note \d+`)

// annotated is a text with a comment above some of its lines and behind others.
func annotated(t *rapid.T, text string) string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	var out []string
	for i, line := range lines {
		switch indent := line[:len(line)-len(strings.TrimLeft(line, " "))]; rapid.IntRange(0, 12).Draw(t, "comment") {
		case 0:
			out = append(out, fmt.Sprintf("%s# note %d", indent, i), line)
		case 1:
			out = append(out, fmt.Sprintf("%s # note %d", line, i))
		case 2:
			out = append(out, "", line)
		default:
			out = append(out, line)
		}
	}
	return strings.Join(out, "\n") + "\n"
}

// A design file that is revised reads as the document that it is revised to, and all its comments are there but those of lines and
// entries that are gone; without a change not a byte differs.
func TestReviseAnyChange(t *testing.T) {
	examples := os.DirFS("../assets/examples")
	names, err := fs.Glob(examples, "*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		data, err := fs.ReadFile(examples, rapid.SampledFrom(names).Draw(t, "example"))
		if err != nil {
			t.Fatal(err)
		}
		text := annotated(t, string(data))
		doc, problems := design.Decode([]byte(text), design.Options{})
		if doc == nil {
			t.Fatal(problems)
		}
		if got := revise(t, text, doc); got != text {
			t.Fatalf("nothing changed, and the text did:\n%s", got)
		}
		comments := commentMark.FindAllString(text, -1)
		mayGo := map[string]bool{}
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			path := rapid.SampledFrom(doc.Paths()).Draw(t, "path")
			f, _ := design.FieldOf(path)
			switch n := doc.Len(path); {
			case path == "mastwright" || strings.HasSuffix(path, ".from") && !strings.Contains(path, "leads"):
			case f.Form == design.List && n > 0 && rapid.Bool().Draw(t, "remove"):
				err = doc.Remove(path, rapid.IntRange(0, n-1).Draw(t, "entry"))
				for _, c := range comments { // which of them stand in the entry is the table test's
					mayGo[c] = true
				}
			case f.Form == design.List:
				if float64(n) < f.High {
					err = doc.Insert(path, rapid.IntRange(0, n).Draw(t, "entry"))
				}
			case rapid.IntRange(0, 4).Draw(t, "clear") == 0:
				doc.Clear(path)
				for _, line := range strings.Split(text, "\n") {
					key := path[strings.LastIndex(path, ".")+1:]
					if c := commentMark.FindString(line); c != "" && (strings.Contains(line, key+":") || strings.HasSuffix(strings.TrimSpace(strings.Split(line, "#")[0]), ":")) {
						mayGo[c] = true // behind a key of this name, or of a section that may be empty now
					}
				}
			default:
				err = doc.Set(path, answer(t, f))
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		got := revise(t, text, doc)
		again, problems := design.Decode([]byte(got), design.Options{})
		if again == nil || !reflect.DeepEqual(again, doc) {
			t.Fatalf("reads as another document: %v\n%s", problems, got)
		}
		kept := commentMark.FindAllString(got, -1)
		for _, c := range comments {
			if !mayGo[c] && !slices.Contains(kept, c) {
				t.Fatalf("%s is lost:\n%s", c, got)
			}
		}
	})
}
