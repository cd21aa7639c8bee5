package materials

import (
	"bytes"
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

//go:embed library.yaml
var libraryFile []byte

// List is materials in the order they are offered.
type List []Material

// Library returns the built-in materials: plastics from the plainest on, then
// sheet, then tube. The caller owns the list.
func Library() List { return slices.Clone(library()) }

var library = sync.OnceValue(func() List {
	list, err := Decode(bytes.NewReader(libraryFile))
	if err != nil {
		panic("materials: library.yaml: " + err.Error())
	}
	return list
})

// With is the list with the user's materials: one with an ID of the list takes
// that place, the others follow.
func (l List) With(user List) List {
	merged := slices.Clone(l)
	for _, m := range user {
		if at := slices.IndexFunc(merged, func(old Material) bool { return old.ID == m.ID }); at >= 0 {
			merged[at] = m
		} else {
			merged = append(merged, m)
		}
	}
	return merged
}

// Of is the materials of a form.
func (l List) Of(form Form) List {
	return slices.DeleteFunc(slices.Clone(l), func(m Material) bool { return m.Form != form })
}

// IDs lists the IDs in order.
func (l List) IDs() []string {
	ids := make([]string, len(l))
	for i, m := range l {
		ids[i] = m.ID
	}
	return ids
}

// Find returns the material with an ID; the error lists those with similar names.
func (l List) Find(id string) (Material, error) {
	for _, m := range l {
		if m.ID == id {
			return m, nil
		}
	}
	near := l.near(id)
	if len(near) == 0 {
		return Material{}, fmt.Errorf("no material %q; choose one of %s", id, strings.Join(l.IDs(), ", "))
	}
	return Material{}, fmt.Errorf("no material %q; did you mean %s?", id, strings.Join(near, " or "))
}

// near lists the IDs that a name may have meant, in the list's order.
func (l List) near(name string) []string {
	name = strings.ToLower(strings.TrimSpace(name))
	var ids []string
	for _, m := range l {
		title := " " + strings.ReplaceAll(strings.ToLower(m.Title), "(", "")
		switch {
		case name == "":
		case len(name) > 1 && (strings.Contains(m.ID, name) || strings.Contains(title, " "+name)),
			len(m.ID) > 2 && strings.Contains(name, m.ID),
			edits(name, m.ID) <= min(2, len(m.ID)/3):
			ids = append(ids, m.ID)
		}
	}
	return ids
}

// edits is the Levenshtein distance in bytes.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			swap := diagonal
			if a[i] != b[j] {
				swap++
			}
			diagonal = row[j+1]
			row[j+1] = min(swap, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(b)]
}
