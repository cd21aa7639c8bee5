package form

import (
	"slices"
	"strings"

	"mastwright/design"
)

// sections lists the folds of a stage in the table's order: each first part of a path, and each list that stands at the top.
func sections(stage string) []string {
	var all []string
	for _, field := range design.Fields() {
		if field.Stage != stage || apart(field.Path) {
			continue
		}
		if section := sectionOf(field.Path); !slices.Contains(all, section) {
			all = append(all, section)
		}
	}
	return all
}

// sectionOf is the fold a path belongs to: a list of named entries is one by itself, any other path goes by its first part.
func sectionOf(path string) string {
	for _, list := range ownLists {
		if p := pattern(path); p == list || strings.HasPrefix(p, list+"[]") {
			return list
		}
	}
	first, _, nested := strings.Cut(path, ".")
	if _, leaf := design.FieldOf(path); leaf && !nested {
		return headSection
	}
	return first
}

// headSection is the fold of what stands at the top of a file by itself.
const headSection = "design"

// prefixOf is what the paths of a section begin with.
func prefixOf(section string) string {
	if section == headSection {
		return ""
	}
	return section + "."
}

// beginOpen are the folds that are open from the start, besides a stage's first and those with something to answer.
var beginOpen = []string{"airframe", "airframe.places", "materials"}

// ownLists are the lists whose entries have names or reasons of their own.
var ownLists = []string{"airframe.places", "airframe.neighbours", "leads", "accepted"}

// apart reports whether a field is not for the form: the schema, and the shelf files, which are named in the design file by hand.
func apart(path string) bool {
	return path == "mastwright" || strings.HasSuffix(path, ".from") && path != "leads[].from" && !strings.HasSuffix(path, "distances[].from")
}

// sectionTitle is what a fold is called.
func sectionTitle(section string) string {
	titles := map[string]string{headSection: "Design", "airframe": "Aircraft", "cable": "Cable", "motors": "Motors", "receiver": "Receiver",
		"site": "Place on earth", "mast": "Mast", "foot": "Foot", "tray": "Tray", "print": "Printing", "materials": "Materials",
		"loads": "Loads", "assume": "Assumptions", "limits": "Limits"}
	if title, known := titles[section]; known {
		return title
	}
	if field, known := design.FieldOf(section); known {
		return field.Title
	}
	return upper(section)
}

// singular is what one entry of a list is called, in small letters.
func singular(list string) string {
	_, last, _ := cutLast(pattern(list))
	words := map[string]string{"places": "place", "neighbours": "neighbour", "leads": "lead", "accepted": "accepted verdict", "points": "point",
		"distances": "distance", "supports": "support", "at": "shaft"}
	if word, known := words[last]; known {
		return word
	}
	return strings.TrimSuffix(last, "s")
}
