package design_test

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"mastwright/design"
)

// shelf opens the files beside the example design.
func shelf(name string) ([]byte, error) { return os.ReadFile(filepath.Join("testdata", name)) }

// survey is the example design, which answers every field.
func survey(t testing.TB) *design.Document {
	t.Helper()
	data, err := shelf("river-survey.yaml")
	if err != nil {
		t.Fatal(err)
	}
	d, problems := design.Decode(data, design.Options{Name: "river-survey.yaml", Open: shelf})
	for _, p := range problems {
		t.Error(p)
	}
	if d == nil {
		t.FailNow()
	}
	return d
}

func encode(t testing.TB, d *design.Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := design.Encode(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestEncodeThenDecodeIsTheIdentity(t *testing.T) {
	want := survey(t)
	written := encode(t, want)
	got, problems := design.Decode(written, design.Options{Open: shelf})
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, written)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("the document changed\n%s", written)
	}
}

// The example is written as Encode writes, so that nothing changes when it is opened and saved.
func TestSavingWhatWasOpenedChangesNothing(t *testing.T) {
	want, _ := shelf("river-survey.yaml")
	if got := encode(t, survey(t)); string(got) != string(want) {
		t.Errorf("got\n%s", got)
	}
}

// Editors of other systems put a byte order mark before the first line and end lines in CR LF.
func TestByteOrderMarkAndCarriageReturns(t *testing.T) {
	want := decoded(t, sound)
	for name, text := range map[string]string{
		"byte order mark": "\ufeff" + sound,
		"CR LF":           strings.ReplaceAll(sound, "\n", "\r\n"),
		"both":            "\ufeff" + strings.ReplaceAll(sound, "\n", "\r\n"),
		"comments":        "# mine\n" + strings.ReplaceAll(sound, "\n", " # so\n"),
		"end marker":      sound + "...\n",
	} {
		if got := decoded(t, text); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: the document differs", name)
		}
	}
}

// A large hostile file is refused without a large answer.
func TestProblemsStayShort(t *testing.T) {
	long := strings.Repeat("a", 900_000)
	for _, text := range []string{"mastwright: 1\nname: " + long, "mastwright: 1\n" + long + ": 1", "mastwright: 1\nfoot: {fit: " + long + "}",
		"mastwright: 1\nname: &" + long + " x", "mastwright: 1\nname: *" + long, "mastwright: 1\nmast: {height: " + long + "}",
		"mastwright: 1\nairframe: {from: " + long + "}", "mastwright: 1\nmast: " + long} {
		_, problems := design.Decode([]byte(text), design.Options{Open: shelf})
		for _, p := range problems {
			if len(p.String())+len(p.Value) > 1000 {
				t.Errorf("%.40s: a problem of %d bytes: %.200s", text, len(p.String()), p)
			}
		}
		if len(problems) == 0 {
			t.Errorf("%.40s: no problem", text)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	data, err := shelf("river-survey.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		design.Decode(data, design.Options{Open: shelf})
	}
}

func BenchmarkProblems(b *testing.B) {
	d := survey(b)
	for b.Loop() {
		d.Problems()
	}
}

// The example answers every field but those of other choices than its own: its receiver lies on tape.
func TestTheExampleAnswersEveryField(t *testing.T) {
	d := survey(t)
	answered := map[string]bool{"mastwright": true, "receiver.holes.x": true, "receiver.holes.y": true, "receiver.screw": true, "receiver.lug": true}
	number := regexp.MustCompile(`\[\d+\]`)
	for _, path := range d.Paths() {
		if d.Has(path) {
			answered[number.ReplaceAllString(path, "[]")] = true
		}
	}
	for _, f := range design.Fields() {
		if !answered[f.Path] {
			t.Errorf("%s is not answered", f.Path)
		}
	}
}
