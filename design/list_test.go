package design_test

import (
	"strings"
	"testing"

	"mastwright/design"
)

func TestEntriesKeepTheirAnswersWhenOthersComeAndGo(t *testing.T) {
	d := design.New()
	for i, name := range []string{"first", "second"} {
		if err := d.Insert("leads", i); err != nil {
			t.Fatal(err)
		}
		if err := d.Set([]string{"leads[0].name", "leads[1].name"}[i], name); err != nil {
			t.Fatal(err)
		}
	}
	if err := d.Insert("leads", 1); err != nil {
		t.Fatal(err)
	}
	if d.Get("leads[2].name") != "second" || d.Has("leads[1].name") || d.Get("leads[1].given") != "words" {
		t.Errorf("after inserting: %q, %q, %q", d.Get("leads[2].name"), d.Get("leads[1].name"), d.Get("leads[1].given"))
	}
	if err := d.Remove("leads", 0); err != nil {
		t.Fatal(err)
	}
	if d.Len("leads") != 2 || d.Get("leads[1].name") != "second" || d.Has("leads[2].name") || d.Has("leads[0].name") {
		t.Errorf("after removing: %d entries, %q", d.Len("leads"), d.Get("leads[1].name"))
	}
}

func TestWhatCannotBeDoneToADocument(t *testing.T) {
	d := design.New()
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"insert beyond the end", d.Insert("leads", 1), "use 0 to 0"},
		{"insert into what is no list", d.Insert("mast", 0), "is not a list"},
		{"remove from an empty list", d.Remove("leads", 0), "is not in a list of 0"},
		{"set an unknown field", d.Set("mast.hight", "1"), `did you mean "mast.height"?`},
		{"set a field of no entry", d.Set("leads[0].spacing", "5 mm"), "the list has no such entry"},
		{"set a huge entry", d.Set("leads[99999999999999999999].spacing", "5 mm"), "the list has no such entry"},
		{"set a list", d.Set("leads", "none"), "insert entries"},
		{"set a section", d.Set("mast", "tall"), "there is no such field"},
		{"set nothing", d.Set("mast.height", ""), "is empty"},
		{"set what is no text", d.Set("name", "\xff"), "not UTF-8"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", c.name, c.err, c.want)
		}
	}
	if got := string(encode(t, d)); got != "mastwright: 1\n" {
		t.Errorf("the document changed: %s", got)
	}
}

func TestClearBringsTheDefaultBack(t *testing.T) {
	d := design.New()
	if err := d.Set("mast.height", "92 mm"); err != nil {
		t.Fatal(err)
	}
	if err := d.Set("mast.root.y", "20 mm"); err != nil {
		t.Fatal(err)
	}
	d.Clear("mast.height")
	d.Clear("mast.root.y")
	d.Clear("nothing")
	if d.Get("mast.height") != "100 mm" || d.Get("mast.root.y") != "" || d.Mast.Root.Y != 0 || d.Has("mast.height") {
		t.Errorf("got %q, %q", d.Get("mast.height"), d.Get("mast.root.y"))
	}
}
