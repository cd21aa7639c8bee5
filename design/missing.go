package design

import (
	"cmp"
	"slices"
	"strings"
)

// Answer is a question that is still open.
type Answer struct {
	Path    string   // of the leaf, or of the point, size or group of leaves that are asked together
	Title   string   // with the entry's name where it stands in a list
	Checks  []string // ids of the checks it completes
	Measure string   // one line: how to find it
}

// Missing lists the unanswered fields that matter for the present choices, those that complete the most checks first. Of the
// places only the chosen one is asked about.
func (d *Document) Missing() []Answer {
	var answers []Answer
	for _, path := range d.Paths() {
		f, _ := FieldOf(path)
		if !d.Asked(path) || d.answered(f, path) {
			continue
		}
		a := Answer{Path: path, Title: d.entryTitle(path, f.Title), Checks: slices.Clone(f.Checks), Measure: f.Measure}
		if f.Group != "" {
			a.Path, a.Title = path[:strings.LastIndex(path, ".")], d.entryTitle(path, f.Group)
			if n := len(answers) - 1; n >= 0 && answers[n].Path == a.Path && answers[n].Title == a.Title {
				continue
			}
		}
		answers = append(answers, a)
	}
	slices.SortStableFunc(answers, func(a, b Answer) int { return cmp.Compare(len(b.Checks), len(a.Checks)) })
	return answers
}

func (d *Document) answered(f Field, path string) bool {
	if path == "mast.place" {
		return d.Mast.Place != "" || len(d.Airframe.Places) < 2
	}
	if path == "airframe.places" {
		return len(d.Airframe.Places) > 0
	}
	return !f.Required() || d.Has(path)
}

// Asked reports whether a leaf matters for the present choices: its conditions hold and it does not belong to a place that was
// not chosen.
func (d *Document) Asked(path string) bool {
	f, ok := FieldOf(path)
	if !ok {
		return false
	}
	if chosen := d.placeIndex(); chosen >= 0 && strings.HasPrefix(path, "airframe.places[") &&
		!strings.HasPrefix(path, entry("airframe.places", chosen)+".") {
		return false
	}
	for _, c := range f.When {
		if !slices.Contains(c.Answers, d.Get(withEntries(c.Path, path))) {
			return false
		}
	}
	return true
}

// withEntries puts the entry numbers of a path into a pattern.
func withEntries(pattern, path string) string {
	for _, number := range entryIndex.FindAllString(path, -1) {
		pattern = strings.Replace(pattern, "[]", number, 1)
	}
	return pattern
}

// entryTitle puts the name of the list entry that a leaf belongs to before its title: "front stack: Hole diameter".
func (d *Document) entryTitle(path, title string) string {
	end := strings.Index(path, "]")
	if end < 0 {
		return title
	}
	if name := d.Get(path[:end+1] + ".name"); name != "" {
		return name + ": " + title
	}
	return title
}
