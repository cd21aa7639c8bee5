package design_test

import (
	"bytes"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design"
)

// answer draws a text that a field takes.
func answer(t *rapid.T, f design.Field) string {
	switch f.Form {
	case design.Count:
		return strconv.Itoa(rapid.IntRange(int(f.Low), int(f.High)).Draw(t, f.Path))
	case design.Flag:
		return strconv.FormatBool(rapid.Bool().Draw(t, f.Path))
	case design.Choice:
		return rapid.SampledFrom(f.Choices).Draw(t, f.Path)
	case design.Text:
		low := max(int(f.Low), 1)
		return rapid.StringOfN(rapid.RuneFrom([]rune("abz019 -:#'\"{}[],&*!|>%@`~?=_.éµ°→漢𝄞")), low, min(low+20, int(f.High)), -1).
			Filter(func(s string) bool { return strings.TrimSpace(s) != "" }).Draw(t, f.Path)
	}
	value := rapid.Float64Range(f.Low, f.High).Draw(t, f.Path)
	if math.Abs(value) < 1e-12 { // units refuses sizes that only a slip can be
		value = 0
	}
	return f.Kind.Format(value)
}

// loose is a document with any answers, sensible together or not. From lines stay out: there is nothing to read.
func loose(t *rapid.T) *design.Document {
	d := design.New()
	for _, list := range []string{"airframe.places", "airframe.neighbours", "motors.at", "leads", "accepted"} {
		for range rapid.IntRange(0, 2).Draw(t, list) {
			if err := d.Insert(list, rapid.IntRange(0, d.Len(list)).Draw(t, "at")); err != nil {
				t.Fatal(err)
			}
		}
	}
	for i := range d.Len("leads") {
		if err := d.Insert("leads["+strconv.Itoa(i)+"].points", 0); err != nil {
			t.Fatal(err)
		}
	}
	for _, path := range d.Paths() {
		f, _ := design.FieldOf(path)
		if f.Form == design.List || path == "mastwright" || strings.HasSuffix(path, ".from") && !strings.Contains(path, "leads") || rapid.IntRange(0, 3).Draw(t, "answer") > 0 {
			continue
		}
		if text := answer(t, f); d.Set(path, text) != nil {
			t.Fatalf("%s does not take %q: %v", path, text, d.Set(path, text))
		}
	}
	return d
}

// sensible is a document with any answers that make no problem together.
func sensible(t *rapid.T) *design.Document {
	d, problems := design.Decode([]byte(sound), design.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, list := range []string{"airframe.places", "airframe.neighbours", "airframe.places[0].plate.supports", "leads"} {
		if rapid.Bool().Draw(t, list) {
			if err := d.Insert(list, rapid.IntRange(0, d.Len(list)).Draw(t, "at")); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, path := range d.Paths() {
		f, _ := design.FieldOf(path)
		if f.Form == design.List || path == "mastwright" || strings.HasSuffix(path, ".from") || rapid.IntRange(0, 9).Draw(t, "answer") > 0 {
			continue
		}
		if before := d.Clone(); d.Set(path, answer(t, f)) != nil || len(d.Problems()) > 0 {
			d = before
		}
	}
	return d
}

// What Set takes, Get gives back, and Set takes that again without a change.
func TestGetIsWhatSetTook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := loose(t)
		for _, path := range d.Paths() {
			text := d.Get(path)
			if f, _ := design.FieldOf(path); !d.Has(path) || f.Form == design.List {
				continue
			}
			before := d.Clone()
			if err := d.Set(path, text); err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(d, before) || d.Get(path) != text {
				t.Fatalf("%s: %q became %q", path, text, d.Get(path))
			}
		}
	})
}

// Any document, with problems or without, is the same after writing and reading.
func TestEncodeThenDecodeOfAnyDocument(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.OneOf(rapid.Custom(loose), rapid.Custom(sensible)).Draw(t, "document")
		var b bytes.Buffer
		if err := design.Encode(&b, d); err != nil {
			t.Fatal(err)
		}
		got, problems := design.Decode(b.Bytes(), design.Options{})
		want := d.Problems()
		if len(problems) != len(want) {
			t.Fatalf("got problems %v\nwant %v\n%s", problems, want, b.Bytes())
		}
		if !reflect.DeepEqual(got, d) {
			t.Fatalf("the document changed\n%s", b.Bytes())
		}
	})
}

// A failed Set changes nothing; a Clone shares nothing.
func TestWhatDoesNotChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := loose(t)
		before := d.Clone()
		path := rapid.SampledFrom(d.Paths()).Draw(t, "path")
		if d.Set(path, "\x00") == nil {
			t.Fatalf("%s took a control character", path)
		}
		if !reflect.DeepEqual(d, before) {
			t.Fatalf("%s: a failed Set changed the document", path)
		}
		copied := d.Clone()
		for _, path := range copied.Paths() {
			if f, _ := design.FieldOf(path); f.Form == design.List && copied.Len(path) > 0 {
				if err := copied.Remove(path, 0); err != nil {
					t.Fatal(err)
				}
				break
			}
		}
		if !reflect.DeepEqual(d, before) {
			t.Fatal("a change of a clone changed the original")
		}
	})
}

// Putting an entry into a list and taking it out again leaves the list as it was.
func TestInsertThenRemove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := loose(t)
		if d.Len("leads") == 0 {
			return
		}
		before := d.Clone()
		at := rapid.IntRange(0, d.Len("leads")).Draw(t, "at")
		if err := d.Insert("leads", at); err != nil {
			t.Fatal(err)
		}
		if err := d.Remove("leads", at); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(d, before) {
			t.Fatal("the list changed")
		}
	})
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(sound))
	f.Add([]byte(shelved))
	for _, name := range []string{"river-survey.yaml", "survey-seven.yaml"} {
		data, err := shelf(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, c := range brokenDesigns {
		if c.old == "" && len(c.new) < 10000 {
			f.Add([]byte(c.new))
		} else if c.old != "" {
			f.Add([]byte(strings.Replace(sound, c.old, c.new, 1)))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, problems := design.Decode(data, design.Options{Name: "f.yaml", Open: shelf})
		if d == nil {
			if len(problems) == 0 {
				t.Fatal("neither a document nor a problem")
			}
			return
		}
		d.Missing()
		d.Notes()
		again, found := design.Decode(encode(t, d), design.Options{Open: shelf})
		if len(found) != len(problems) || !reflect.DeepEqual(again, d) {
			t.Fatalf("the document changed: %v, was %v\n%s", found, problems, encode(t, d))
		}
		if same, err := design.Revise(data, d); err != nil || !bytes.Equal(same, data) {
			t.Fatalf("nothing changed, and the text did: %v\n%s", err, same)
		}
		if d.Set("mast.height", "71.5 mm") != nil {
			t.Fatal("the height is not set")
		}
		revised, err := design.Revise(data, d)
		if again, found := design.Decode(revised, design.Options{Open: shelf}); err != nil || !reflect.DeepEqual(again, d) {
			t.Fatalf("revised, the document changed: %v, %v\n%s", err, found, revised)
		}
	})
}
