package revision

import (
	"regexp"
	"strconv"
	"strings"

	"mastwright/design"
)

// Change is a field that two designs answer differently.
type Change struct {
	Path     string // in the second design, or in the first where the second has no such entry
	Title    string // with the entry's name where it stands in a list: "pack lead: Wires apart"
	From, To string // as files hold them, "100 mm"; "" where there is neither an answer nor a default, or no such entry
}

// Diff lists the fields that differ, in the order of a file. Entries of a list belong together by their names where both have one,
// else by their places; of an entry that only one design has, its answers are listed. An answer that equals the default does not differ
// from none.
func Diff(a, b *design.Document) []Change {
	first, second := keyed(a), keyed(b)
	var changes []Change
	for _, l := range merged(first, second) {
		inA, inB := first.at[l], second.at[l]
		c := Change{Path: inB}
		doc, other := b, a
		if inB == "" {
			c.Path, doc, other = inA, a, b
		}
		if inA != "" {
			c.From = a.Get(inA)
		}
		if inB != "" {
			c.To = b.Get(inB)
		}
		entryGone := (inA == "" || inB == "") && strings.Contains(l, "[")
		if c.From == c.To || entryGone && !doc.Has(c.Path) || !doc.Asked(c.Path) && (inA == "" || inB == "" || !other.Asked(inA)) {
			continue
		}
		c.Title = title(doc, c.Path)
		changes = append(changes, c)
	}
	return changes
}

// leaves are a document's leaves under names that do not depend on where an entry stands in its list.
type leaves struct {
	keys []string
	at   map[string]string // the path of a key
}

func keyed(d *design.Document) leaves {
	l := leaves{at: map[string]string{}}
	for _, path := range d.Paths() {
		if f, ok := design.FieldOf(path); !ok || f.Form == design.List {
			continue
		}
		key := key(d, path)
		if _, taken := l.at[key]; taken { // two entries of one name
			key = path
		}
		l.keys, l.at[key] = append(l.keys, key), path
	}
	return l
}

var entries = regexp.MustCompile(`\[\d+\]`)

// key puts the names of a path's entries in the place of their numbers.
func key(d *design.Document, path string) string {
	var out strings.Builder
	from := 0
	for _, span := range entries.FindAllStringIndex(path, -1) {
		out.WriteString(path[from:span[0]])
		if name := d.Get(path[:span[1]] + ".name"); name != "" {
			out.WriteString("[" + strconv.Quote(name) + "]")
		} else {
			out.WriteString(path[span[0]:span[1]])
		}
		from = span[1]
	}
	return out.String() + path[from:]
}

// merged is the keys of both in their order, those that only the first has before the next that both have.
func merged(a, b leaves) []string {
	var keys []string
	rest := a.keys
	for _, k := range b.keys {
		if _, both := a.at[k]; both {
			for len(rest) > 0 {
				next := rest[0]
				if _, later := b.at[next]; later && next != k {
					break
				}
				rest = rest[1:]
				if next == k {
					break
				}
				keys = append(keys, next)
			}
		}
		keys = append(keys, k)
	}
	listed := map[string]bool{}
	for _, k := range keys {
		listed[k] = true
	}
	for _, k := range rest {
		if !listed[k] {
			keys = append(keys, k)
		}
	}
	return keys
}

// title is a field's, with the group and the list entry it belongs to.
func title(d *design.Document, path string) string {
	f, _ := design.FieldOf(path)
	text := f.Title
	if f.Group != "" && !strings.HasPrefix(f.Title, f.Group) {
		text = f.Group + ", " + strings.ToLower(f.Title)
	}
	if spans := entries.FindAllStringIndex(path, -1); len(spans) > 0 {
		if name := d.Get(path[:spans[0][1]] + ".name"); name != "" {
			return name + ": " + text
		}
	}
	return text
}
