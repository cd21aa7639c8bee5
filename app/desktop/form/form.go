package form

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design"
)

// Form is the questions of one stage, in folds.
type Form struct {
	widget.BaseWidget

	desk   *Desk
	stage  string
	title  string
	column *look.Column
	tail   []fyne.CanvasObject
	open   map[string]bool // folds by path; what is not in it opens by itself
	built  string          // the structure that stands in the column
	rows   []*Row
}

// New returns the form of a stage of the field table.
func New(desk *Desk, stage, title string) *Form {
	f := &Form{desk: desk, stage: stage, title: title, column: look.NewColumn(), open: map[string]bool{}}
	f.ExtendBaseWidget(f)
	return f
}

// SetTail puts pieces below the questions.
func (f *Form) SetTail(pieces ...fyne.CanvasObject) { f.tail = pieces }

// Reflow lays the form out anew after a piece of its tail changed its height.
func (f *Form) Reflow() { f.column.Reflow() }

// Follow follows the desk's document: rows come and go with its choices.
func (f *Form) Follow() {
	b := &builder{form: f}
	b.build()
	structure := strings.Join(b.structure, "\n")
	if structure != f.built {
		f.built, f.rows = structure, b.rows
		f.column.SetPieces(append(b.pieces, f.tail...)...)
	}
}

// Lead opens the folds round a question, scrolls to it and gives it the keyboard. It reports whether the form asks it.
func (f *Form) Lead(path string) bool {
	section := sectionOf(path)
	f.open[section] = true
	for at, letter := range path {
		if letter == ']' {
			f.open[path[:at+1]] = true
		}
	}
	f.Follow()
	for _, row := range f.rows {
		focus := row.Focus(path)
		if focus == nil {
			continue
		}
		f.column.Reveal(row)
		if shown := fyne.CurrentApp().Driver().CanvasForObject(row); shown != nil {
			shown.Focus(focus)
		}
		return true
	}
	return false
}

// Rows returns the rows that are shown.
func (f *Form) Rows() []*Row { return slices.Clone(f.rows) }

// MinSize is that of the column.
func (f *Form) MinSize() fyne.Size { return f.column.MinSize() }

// CreateRenderer is the toolkit's.
func (f *Form) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(f.column) }

func (f *Form) toggle(path string, now bool) func() {
	return func() {
		f.open[path] = !now
		f.Follow()
	}
}

// isOpen is whether a fold is open: as the person left it, or else as it begins.
func (f *Form) isOpen(path string, begins bool) bool {
	if open, said := f.open[path]; said {
		return open
	}
	return begins
}

// builder makes the pieces of a form for the document as it is. Two documents with the same structure have the same pieces.
type builder struct {
	form      *Form
	pieces    []fyne.CanvasObject
	rows      []*Row
	structure []string
	missing   []string // what this stage still asks, the leaf or the group of each
}

func (b *builder) build() {
	for _, answer := range b.form.desk.doc.Missing() {
		if field, _ := design.FieldOf(b.form.desk.leaf(answer.Path)); field.Stage == b.form.stage {
			b.missing = append(b.missing, answer.Path)
		}
	}
	b.piece("title", look.NewLabel(b.form.title, look.Title, look.Ink))
	b.piece("", look.Space(8))
	for i, section := range sections(b.form.stage) {
		b.section(section, i == 0)
	}
}

func (b *builder) section(section string, first bool) {
	f := b.form
	waiting := b.waiting(section)
	begins := first || waiting > 0 || slices.Contains(beginOpen, section)
	open := f.isOpen(section, begins)
	note := ""
	if waiting > 0 {
		note = fmt.Sprintf("%d to answer", waiting)
	}
	field, isList := design.FieldOf(section)
	isList = isList && field.Form == design.List
	if isList && note == "" {
		note = fmt.Sprint(f.desk.doc.Len(section))
	}
	b.piece(fmt.Sprintf("fold %s %v %s", section, open, note),
		newFold(sectionTitle(section), note, open, false, f.toggle(section, open), nil))
	if !open {
		return
	}
	if isList {
		b.list(section)
	} else {
		b.leaves(section, prefixOf(section))
	}
	b.piece("", look.Space(8))
}

// list is the entries of a list, each in a fold of its own.
func (b *builder) list(list string) {
	f := b.form
	n := f.desk.doc.Len(list)
	for i := range n {
		entry := entryPath(list, i)
		name := f.desk.doc.Get(entry + ".name")
		if name == "" {
			name = fmt.Sprintf("%s %d", singular(list), i+1)
		}
		open := f.isOpen(entry, n == 1 || b.waiting(entry) > 0 || list == "airframe.places" && name == f.desk.doc.Mast.Place)
		b.piece(fmt.Sprintf("entry %s %v %s", entry, open, name), newFold(name, "", open, true, f.toggle(entry, open), func() {
			f.desk.intend(f.desk.model.Remove(list, i))
		}))
		if open {
			b.leaves(entry, entry+".")
		}
	}
	b.adding(list, n)
}

func (b *builder) adding(list string, n int) {
	f := b.form
	add := look.NewChip("add "+singular(list), func() {
		f.open[entryPath(list, n)] = true
		f.desk.intend(f.desk.model.Insert(list, n))
	})
	add.OnFocus = func() { f.column.Reveal(add) }
	b.piece(fmt.Sprintf("add %s %d", list, n), newLine(add))
}

// leaves are the rows of the questions below a prefix that are not in a list further down; those lists follow in their place.
func (b *builder) leaves(at, prefix string) {
	desk := b.form.desk
	var group []string
	flush := func() {
		if len(group) > 0 {
			b.row(group)
			group = nil
		}
	}
	for _, field := range design.Fields() {
		rest, inside := strings.CutPrefix(field.Path, pattern(prefix))
		if !inside || field.Stage != b.form.stage || strings.Contains(rest, "[]") || apart(field.Path) {
			continue
		}
		if sectionOf(prefix+rest) != sectionOf(at) {
			continue // a list that has a section of its own
		}
		path := prefix + rest
		if !desk.shown(path) {
			continue
		}
		if field.Form == design.List {
			flush()
			b.inner(path, field)
			continue
		}
		if len(group) > 0 {
			before, _ := design.FieldOf(group[0])
			parent, _, _ := cutLast(group[0])
			mine, _, _ := cutLast(path)
			if field.Group == "" || field.Group != before.Group || parent != mine {
				flush()
			}
		}
		group = append(group, path)
		if field.Group == "" {
			flush()
		}
	}
	flush()
}

// inner is a list inside a section or an entry: one row an entry.
func (b *builder) inner(list string, field design.Field) {
	desk := b.form.desk
	n := desk.doc.Len(list)
	title := field.Title
	if n == 0 && field.Otherwise != "" {
		title += ": " + field.Otherwise
	}
	b.piece("list "+list+" "+title, look.NewProse(title, look.Caption, look.Second))
	for i := range n {
		var leaves []string
		for _, below := range design.Fields() {
			if rest, inside := strings.CutPrefix(below.Path, pattern(list)+"[]."); inside && !strings.Contains(rest, "[]") {
				leaves = append(leaves, entryPath(list, i)+"."+rest)
			}
		}
		b.numbered(list, i, leaves)
	}
	b.adding(list, n)
}

func (b *builder) numbered(list string, i int, leaves []string) {
	desk := b.form.desk
	row := desk.row(b.form.stage, leaves...)
	row.number(i+1, func() { desk.intend(desk.model.Remove(list, i)) })
	b.keep(row)
}

func (b *builder) row(paths []string) {
	b.keep(b.form.desk.row(b.form.stage, paths...))
}

func (b *builder) keep(row *Row) {
	row.OnReflow = b.form.column.Reflow
	row.OnScroll = b.form.column.Scrolled
	row.OnReveal = func(row *Row) { b.form.column.Reveal(row) }
	b.rows = append(b.rows, row)
	b.piece("row "+row.Path(), row)
}

func (b *builder) piece(structure string, object fyne.CanvasObject) {
	if heading, is := object.(*fold); is {
		heading.onFocus = func() { b.form.column.Reveal(heading) }
	}
	b.structure = append(b.structure, structure)
	b.pieces = append(b.pieces, object)
}

// waiting counts the questions below a path that are still to be answered.
func (b *builder) waiting(path string) int {
	n := 0
	for _, missing := range b.missing {
		if sectionOf(missing) == path || strings.HasPrefix(missing, path+".") && sectionOf(missing) == sectionOf(path) {
			n++
		}
	}
	return n
}
