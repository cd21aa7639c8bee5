package design

import (
	"fmt"
	"maps"
	"reflect"
	"strings"
)

// Len is the number of entries of a list, 0 for anything else.
func (d *Document) Len(path string) int {
	f, list, ok := d.leaf(path)
	if !ok || f.Form != List {
		return 0
	}
	return list.Len()
}

// Insert puts a new entry, its leaves at their defaults, before the one that stands at the index; at the list's length it goes
// to the end. The error is a Problem.
func (d *Document) Insert(path string, at int) error {
	f, list, err := d.list(path)
	if err != nil {
		return err
	}
	n := list.Len()
	if at < 0 || at > n {
		return Problem{Path: path, Text: fmt.Sprintf("entry %d cannot be put into a list of %d; use 0 to %d", at, n, n)}
	}
	if float64(n) >= f.High {
		return Problem{Path: path, Text: fmt.Sprintf("%d entries are the most this list takes; remove one first", n)}
	}
	d.takeOver(path)
	longer := reflect.MakeSlice(list.Type(), n+1, n+1)
	reflect.Copy(longer, list.Slice(0, at))
	reflect.Copy(longer.Slice(at+1, n+1), list.Slice(at, n))
	fillEntry(longer.Index(at), path)
	list.Set(longer)
	d.shift(path, at, 1)
	d.origin[path] = Given
	return nil
}

// Remove takes an entry out of a list. The error is a Problem.
func (d *Document) Remove(path string, at int) error {
	_, list, err := d.list(path)
	if err != nil {
		return err
	}
	n := list.Len()
	if at < 0 || at >= n {
		return Problem{Path: path, Text: fmt.Sprintf("entry %d is not in a list of %d; use 0 to %d", at, n, n-1)}
	}
	d.takeOver(path)
	shorter := reflect.MakeSlice(list.Type(), n-1, n-1)
	reflect.Copy(shorter, list.Slice(0, at))
	reflect.Copy(shorter.Slice(at, n-1), list.Slice(at+1, n))
	list.Set(shorter)
	d.forget(entry(path, at))
	d.shift(path, at+1, -1)
	d.origin[path] = Given
	return nil
}

// Clear takes the design's own answer to a leaf, or its own list, back: what the shelf file or the default says holds again.
func (d *Document) Clear(path string) {
	f, leaf, ok := d.leaf(path)
	if !ok || d.origin[path] != Given {
		return
	}
	d.forget(path)
	if d.shelf != nil && !strings.Contains(path, "[") {
		_, kept, _ := d.shelf.Clone().leaf(path)
		leaf.Set(kept)
		for p, o := range d.shelf.origin {
			if p == path || strings.HasPrefix(p, path+"[") {
				d.origin[p] = o
			}
		}
		return
	}
	leaf.SetZero()
	if value, ok := table.defaults[f.Path]; ok {
		put(leaf, value)
	}
}

func (d *Document) list(path string) (Field, reflect.Value, error) {
	f, list, ok := d.leaf(path)
	if !ok || f.Form != List {
		return f, list, Problem{Path: path, Text: fmt.Sprintf("%q is not a list; %s", path, d.unknown(path))}
	}
	return f, list, nil
}

// fillEntry gives a new entry of a list its defaults.
func fillEntry(v reflect.Value, list string) { fill(v, pattern(list)+"[]") }

// takeOver makes the lists around a path, and the list at it, the design's own, with every answer in them.
func (d *Document) takeOver(path string) {
	outer, _, _ := strings.Cut(path, "[")
	for p, o := range d.origin {
		if o == Shelved && (p == outer || strings.HasPrefix(p, outer+"[")) {
			d.origin[p] = Given
		}
	}
}

// forget drops the origins of a path and of everything in it.
func (d *Document) forget(path string) {
	maps.DeleteFunc(d.origin, func(p string, _ Origin) bool {
		return p == path || strings.HasPrefix(p, path+"[") || strings.HasPrefix(p, path+".")
	})
}

// shift renumbers the origins of a list's entries from an index on.
func (d *Document) shift(list string, from, by int) {
	moved := map[string]Origin{}
	for p, o := range d.origin {
		rest, inside := strings.CutPrefix(p, list+"[")
		number, rest, _ := strings.Cut(rest, "]")
		var i int
		if inside {
			fmt.Sscan(number, &i)
		}
		if !inside || i < from {
			moved[p] = o
			continue
		}
		moved[entry(list, i+by)+rest] = o
	}
	d.origin = moved
}
