// Package form is the form that follows from the field table: a row for every question with its range, its unit inside the box, its
// error below it, and folds for what belongs together. The rows show a document and send intents; they hold nothing themselves.
package form

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"mastwright/design"
)

// Model takes the intents. The errors are design.Problems.
type Model interface {
	Set(path, text string) error
	Clear(path string)
	Dismiss(path string) // a text that was no answer is given up
	Insert(list string, at int) error
	Remove(list string, at int) error
}

// Options are what a window adds to its rows. The zero value adds nothing.
type Options struct {
	OnFocus func(path string)                // a field has the focus; "" when it was left
	Choices func(path string) []string       // what a text field may be, nil for any text
	Named   func(path, choice string) string // how a choice is called; nil for as it is written
	Refused func(sentence string)            // a list did not take an intent
	Post    func(func())                     // runs a function on the toolkit's goroutine; nil for the toolkit's own way
}

// Desk makes rows and keeps them showing one document.
type Desk struct {
	model   Model
	options Options

	doc   *design.Document
	wrong Wrong
	rows  map[string]*Row // by owner and path
}

// Wrong tells what is wrong with a field, as it was typed or as it stands in the document.
type Wrong func(path string) (sentence string, is bool)

// NewDesk returns a desk without a document.
func NewDesk(model Model, options Options) *Desk {
	if options.Post == nil {
		options.Post = fyne.Do
	}
	if options.Named == nil {
		options.Named = func(_, choice string) string { return choice }
	}
	return &Desk{model: model, options: options, doc: design.New(), wrong: func(string) (string, bool) { return "", false }, rows: map[string]*Row{}}
}

// Show makes every row show a document and what is wrong with it. A field that is being typed in keeps its text.
func (d *Desk) Show(doc *design.Document, wrong Wrong) {
	d.doc, d.wrong = doc, wrong
	for _, row := range d.rows {
		if row.inUse() {
			row.show()
		}
	}
}

// Rows returns the rows of some fields, in order: a leaf, a point or another group of leaves, or a pattern such as "leads[].spacing",
// which stands for every lead's. Rows with the same owner and path are the same rows.
func (d *Desk) Rows(owner string, paths []string) []*Row {
	var rows []*Row
	for _, path := range d.entries(paths) {
		if group := d.group(path); len(group) > 0 {
			rows = append(rows, d.row(owner, group...))
		}
	}
	return rows
}

// Stage returns the stage that asks a question: a leaf, a list, or a point or group of leaves.
func (d *Desk) Stage(path string) string {
	field, _ := design.FieldOf(d.leaf(path))
	return field.Stage
}

// Typing reports whether a field with the focus holds text that the design does not, and Revert brings back the good value.
func (d *Desk) Typing() bool { return d.typing() != nil }

// Revert gives up what is being typed.
func (d *Desk) Revert() {
	if cell := d.typing(); cell != nil {
		cell.revert()
	}
}

func (d *Desk) typing() *cell {
	for _, row := range d.rows {
		for _, cell := range row.cells {
			if cell.focused && cell.dirty() {
				return cell
			}
		}
	}
	return nil
}

// Settle commits what is being typed.
func (d *Desk) Settle() {
	if cell := d.typing(); cell != nil {
		cell.commit()
	}
}

// row returns the row of one leaf, or of the leaves of a group.
func (d *Desk) row(owner string, paths ...string) *Row {
	key := owner + " " + strings.Join(paths, " ")
	row, made := d.rows[key]
	if !made {
		row = newRow(d, paths)
		d.rows[key] = row
	}
	row.show()
	return row
}

// intend says why a list did not take an intent.
func (d *Desk) intend(err error) {
	if err != nil && d.options.Refused != nil {
		d.options.Refused(sentence(err))
	}
}

// entries writes out patterns over the entries that the document has.
func (d *Desk) entries(paths []string) []string {
	var all []string
	for _, path := range paths {
		list, rest, isPattern := strings.Cut(path, "[]")
		if !isPattern {
			all = append(all, path)
			continue
		}
		for i := range d.doc.Len(list) {
			if entry := entryPath(list, i) + rest; d.doc.Asked(d.leaf(entry)) {
				all = append(all, d.entries([]string{entry})...)
			}
		}
	}
	return all
}

// leaf returns a leaf of a group, or the path itself.
func (d *Desk) leaf(path string) string {
	if group := d.group(path); len(group) > 0 {
		return group[0]
	}
	return path
}

// group returns the leaves a path stands for: itself, or the leaves of the point, size or pair it names. A list has none.
func (d *Desk) group(path string) []string {
	if field, known := design.FieldOf(path); known {
		if field.Form == design.List {
			return nil
		}
		return []string{path}
	}
	var leaves []string
	for _, field := range design.Fields() {
		parent, last, _ := cutLast(field.Path)
		if parent == pattern(path) && field.Form != design.List && d.holds(path+"."+last, field) {
			leaves = append(leaves, path+"."+last)
		}
	}
	return leaves
}

// holds reports whether the conditions of a field hold.
func (d *Desk) holds(path string, field design.Field) bool {
	for _, c := range field.When {
		if !slices.Contains(c.Answers, d.doc.Get(inEntry(c.Path, path))) {
			return false
		}
	}
	return true
}

// shown reports whether a leaf or a list is a question at all for the document's choices, whatever place was chosen.
func (d *Desk) shown(path string) bool {
	field, known := design.FieldOf(path)
	return known && d.holds(path, field)
}
