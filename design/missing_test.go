package design_test

import (
	"slices"
	"testing"

	"mastwright/design"
)

func missingPaths(d *design.Document) []string {
	var paths []string
	for _, a := range d.Missing() {
		paths = append(paths, a.Path)
	}
	return paths
}

func decoded(t *testing.T, text string) *design.Document {
	t.Helper()
	d, problems := design.Decode([]byte(text), design.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return d
}

func TestMissingOfASmallDesign(t *testing.T) {
	want := []string{"motors.propeller", "site", "site.year", "motors.kv", "motors.cells", "motors.blades", "cable.length"}
	if got := missingPaths(decoded(t, sound)); !slices.Equal(got, want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
}

func TestNothingIsMissingInTheSurvey(t *testing.T) {
	if got := missingPaths(survey(t)); len(got) > 0 {
		t.Error(got)
	}
}

func TestMissingFollowsChoices(t *testing.T) {
	for _, c := range []struct {
		name    string
		set     [][2]string
		path    string
		missing bool
	}{
		{"tape is not asked of a rim", nil, "receiver.tape.thickness", false},
		{"tape", [][2]string{{"receiver.fixing", "tape"}}, "receiver.tape.thickness", true},
		{"screws", [][2]string{{"receiver.fixing", "screws"}}, "receiver.holes", true},
		{"a twist needs its pitch", [][2]string{{"leads[0].run", "twisted"}}, "leads[0].pitch", true},
		{"a measured lead needs no spacing", [][2]string{{"leads[0].given", "measured"}}, "leads[0].spacing", false},
		{"a measured lead needs its field", [][2]string{{"leads[0].given", "measured"}}, "leads[0].flux", true},
		{"a ring needs its diameter", [][2]string{{"airframe.places[0].holes.as", "ring"}}, "airframe.places[0].holes.ring", true},
		{"and no spacing", [][2]string{{"airframe.places[0].holes.as", "ring"}}, "airframe.places[0].holes.along", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decoded(t, sound)
			for _, s := range c.set {
				if err := d.Set(s[0], s[1]); err != nil {
					t.Fatal(err)
				}
			}
			if got := slices.Contains(missingPaths(d), c.path); got != c.missing {
				t.Errorf("%s missing: got %v, want %v; %v", c.path, got, c.missing, missingPaths(d))
			}
		})
	}
}

func TestOnlyTheChosenPlaceIsAskedAbout(t *testing.T) {
	d := decoded(t, sound)
	if err := d.Insert("airframe.places", 1); err != nil {
		t.Fatal(err)
	}
	if got := missingPaths(d); !slices.Contains(got, "mast.place") || !slices.Contains(got, "airframe.places[1].holes.diameter") {
		t.Errorf("with two places: %v", got)
	}
	if err := d.Set("mast.place", "stack"); err != nil {
		t.Fatal(err)
	}
	if got := missingPaths(d); slices.Contains(got, "mast.place") || slices.Contains(got, "airframe.places[1].holes.diameter") {
		t.Errorf("with one chosen: %v", got)
	}
}

// An empty list is an answer: there are none.
func TestAnEmptyListIsAnAnswer(t *testing.T) {
	if got := missingPaths(decoded(t, "mastwright: 1\nleads: []\n")); slices.Contains(got, "leads") {
		t.Error(got)
	}
	if got := missingPaths(decoded(t, "mastwright: 1\nairframe: {places: []}\n")); !slices.Contains(got, "airframe.places") {
		t.Errorf("but a mount must stand somewhere: %v", got)
	}
}
