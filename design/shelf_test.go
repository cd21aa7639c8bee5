package design_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"mastwright/design"
)

func TestAllProblemsAreFoundAtOnceInFileOrder(t *testing.T) {
	text := strings.NewReplacer("mass: 1150 g", "mass: 1.15", "along: 30.5 mm", "along: 305", "height: 100 mm", "hight: 100 mm").Replace(sound)
	_, problems := design.Decode([]byte(text), design.Options{Name: "d.yaml"})
	var got []string
	for _, p := range problems {
		got = append(got, p.String())
	}
	want := []string{
		"d.yaml:4: airframe.mass: 1.15 g is outside 50 to 25000 g. Did you mean 1150 g?",
		"d.yaml:11: airframe.places[0].holes.along: 305 mm is outside 10 to 120 mm. Did you mean 30.5 mm?",
		`d.yaml:34: mast.hight: "hight" is not a key here; did you mean "height"?`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// files opens the files of a map.
func files(m map[string]string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		text, ok := m[name]
		if !ok {
			return nil, errors.New("no such file")
		}
		return []byte(text), nil
	}
}

const shelved = `mastwright: 1
airframe:
  from: frame.yaml
  mass: 1200 g
`

const frame = `mastwright: 1
mass: 1150 g
motor_diagonal: 302 mm
places:
  - {name: stack, screw: M3}
  - {name: tail}
`

func TestTheDesignGoesBeforeItsShelf(t *testing.T) {
	d, problems := design.Decode([]byte(shelved), design.Options{Open: files(map[string]string{"frame.yaml": frame})})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, c := range []struct {
		path, text string
		origin     design.Origin
	}{
		{"airframe.mass", "1200 g", design.Given},
		{"airframe.motor_diagonal", "302 mm", design.Shelved},
		{"airframe.places", "", design.Shelved},
		{"airframe.places[0].screw", "M3", design.Shelved},
		{"airframe.places[0].turn", "0 deg", design.Defaulted},
		{"airframe.places[1].screw", "", design.Unanswered},
		{"airframe.top_speed", "25 m/s", design.Defaulted},
		{"motors.kv", "", design.Unanswered},
	} {
		if got := d.Get(c.path); got != c.text || d.Origin(c.path) != c.origin {
			t.Errorf("%s: got %q %v, want %q %v", c.path, got, d.Origin(c.path), c.text, c.origin)
		}
	}
	if got := string(encode(t, d)); got != shelved {
		t.Errorf("got\n%s", got)
	}

	d.Clear("airframe.mass")
	if got := d.Get("airframe.mass"); got != "1150 g" || d.Origin("airframe.mass") != design.Shelved {
		t.Errorf("cleared: got %q %v, want the shelf's 1150 g", got, d.Origin("airframe.mass"))
	}

	if err := d.Set("airframe.places[1].screw", "M2"); err != nil {
		t.Fatal(err)
	}
	written := string(encode(t, d))
	want := "  places:\n    - name: stack\n      screw: M3\n    - name: tail\n      screw: M2\n"
	if !strings.Contains(written, want) {
		t.Errorf("a changed entry makes the list the design's own: got\n%s", written)
	}
	d.Clear("airframe.places")
	if got := d.Get("airframe.places[1].screw"); got != "" || d.Origin("airframe.places[0].screw") != design.Shelved {
		t.Errorf("cleared list: got %q %v", got, d.Origin("airframe.places[0].screw"))
	}
}

func TestAListOfTheDesignReplacesTheShelfs(t *testing.T) {
	text := shelved + "  places:\n    - {name: nose}\n"
	d, problems := design.Decode([]byte(text), design.Options{Open: files(map[string]string{"frame.yaml": frame})})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if got := d.Len("airframe.places"); got != 1 || d.Has("airframe.places[0].screw") || d.Has("airframe.places[1].name") {
		t.Errorf("got %d places, screw %q", got, d.Get("airframe.places[0].screw"))
	}
}

func TestBrokenShelfFiles(t *testing.T) {
	for _, c := range []struct{ name, design, frame, want string }{
		{"a wrong value", shelved, strings.Replace(frame, "302 mm", "3020 mm", 1),
			"frame.yaml:3: airframe.motor_diagonal: 3020 mm is outside 60 to 1500 mm. Did you mean 302 mm?"},
		{"an unknown key", shelved, frame + "wheel: 1\n", `frame.yaml:7: airframe.wheel: "wheel" is not a key here; write from,`},
		{"nested", shelved, frame + "from: other.yaml\n", "frame.yaml:7: airframe.from: a shelf file cannot name another one"},
		{"no schema", shelved, strings.TrimPrefix(frame, "mastwright: 1\n"), "frame.yaml: mastwright: the file has no schema"},
		{"newer", shelved, strings.Replace(frame, "mastwright: 1", "mastwright: 2", 1), "frame.yaml:1: mastwright: This design is from a newer Mastwright"},
		{"empty", shelved, "", "frame.yaml: the file is empty"},
		{"a name twice, known only together", shelved, strings.Replace(frame, "name: tail", "name: stack", 1),
			`frame.yaml:6: airframe.places[1].name: "stack" names two entries`},
		{"broken materials", "mastwright: 1\nmaterials: {from: own.yaml}\n", "", "own.yaml:1: materials.x"},
	} {
		t.Run(c.name, func(t *testing.T) {
			open := files(map[string]string{"frame.yaml": c.frame, "own.yaml": "- id: x\n"})
			_, problems := design.Decode([]byte(c.design), design.Options{Name: "d.yaml", Open: open})
			if len(problems) == 0 || !strings.HasPrefix(problems[0].String(), c.want) {
				t.Errorf("got  %v\nwant %s", problems, c.want)
			}
		})
	}
}

func TestShelfFilesNeedSomethingToReadThem(t *testing.T) {
	_, problems := design.Decode([]byte(shelved), design.Options{})
	if len(problems) != 1 || problems[0].Line != 3 || !strings.Contains(problems[0].Text, "cannot be read here") {
		t.Error(problems)
	}
}

func TestOwnMaterialsJoinTheLibrary(t *testing.T) {
	d := survey(t)
	m, err := d.Library().Find("spool-3")
	if err != nil || m.ModulusInLayer.Typical.Megapascals() != 1620 {
		t.Errorf("got %v, %v", m.ModulusInLayer, err)
	}
	if _, err := d.Library().Find("petg"); err != nil {
		t.Error(err)
	}
}
