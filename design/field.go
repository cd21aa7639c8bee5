package design

import (
	"reflect"
	"regexp"
	"slices"
	"strings"

	"mastwright/design/units"
)

// Field is one row of the field table: a leaf of the document, or a list whose entries hold leaves.
type Field struct {
	Path  string // "mast.height"; an entry of a list is written "airframe.places[].turn"
	Title string // as a form shows it
	Group string // title of the point, size or pair this leaf is a part of; "" when it stands alone

	Form Form       // what sort of answer it takes
	Kind units.Kind // of a Quantity or a Count
	Unit string     // of a bare number, and the one it is written in; "" for the kind's file unit

	Low, High float64 // Quantity and Count: sensible range, in the kind's file unit; Text: runes; List: entries
	Choices   []string
	Default   string // "" for none
	Otherwise string // what stands in for it when it is not given and has no default; "" when the answer is needed

	Help    string   // one sentence
	Measure string   // one line: how the builder finds the answer; "" where nothing is measured
	Checks  []string // ids of the checks this answer completes
	Stage   string   // measure, shape, check, make
	When    []Condition
}

// Form is the sort of answer a field takes.
type Form uint8

// The forms.
const (
	Quantity Form = iota + 1 // a number with a unit
	Count                    // a whole number
	Text
	Choice // one of Choices
	Flag   // true or false
	List   // entries with fields of their own
)

// String is the form's name, "quantity".
func (f Form) String() string {
	return [...]string{"", "quantity", "count", "text", "choice", "flag", "list"}[f]
}

// Condition says that a field matters only while another holds one of some answers.
type Condition struct {
	Path    string // with the same [] as the field it belongs to
	Answers []string
}

// Required reports whether the builder must answer the field: nothing stands in for it.
func (f Field) Required() bool { return f.Default == "" && f.Otherwise == "" }

// Fields returns the table, in the order in which files are written.
func Fields() []Field { return slices.Clone(table.rows) }

// FieldOf returns the row of a path such as "airframe.places[2].turn".
func FieldOf(path string) (Field, bool) {
	i, ok := table.index[pattern(path)]
	if !ok {
		return Field{}, false
	}
	return table.rows[i], true
}

// Checks returns the ids of every check, in the order in which they are reported.
func Checks() []string { return slices.Clone(checks) }

var checks = []string{"clearance", "heading", "level", "sway", "modes", "shake", "strength", "tipover", "heat", "hardware", "sky",
	"bus", "printing", "balance"}

var entryIndex = regexp.MustCompile(`\[\d+\]`)

// pattern turns "leads[2].spacing" into "leads[].spacing".
func pattern(path string) string {
	if !strings.Contains(path, "[") {
		return path
	}
	return entryIndex.ReplaceAllString(path, "[]")
}

// table is the field table with its forms and kinds filled in from the document's types. It is never written.
var table = newTable(slices.Concat(headFields(), airframeFields(), placeFields(), neighbourFields(), motorFields(), leadFields(),
	cableFields(), receiverFields(), mastFields(), footFields(), trayFields(), printFields(), materialFields(), siteFields(),
	loadFields(), assumptionFields(), limitFields(), acceptedFields(),
	measuredFields()))

type fieldTable struct {
	rows     []Field
	index    map[string]int
	defaults map[string]any // by pattern: float64, int, string or bool
}

func newTable(rows []Field) fieldTable {
	t := fieldTable{rows: rows, index: map[string]int{}, defaults: map[string]any{}}
	for i := range rows {
		f := &rows[i]
		f.Form, f.Kind = formOf(reflect.TypeFor[Document](), f.Path)
		if f.Choices != nil {
			f.Form = Choice
		}
		t.index[f.Path] = i
		if f.Default == "" {
			continue
		}
		value, err := f.parse(f.Default)
		if err != nil {
			panic("design: default of " + f.Path + ": " + err.Error())
		}
		t.defaults[f.Path] = value
	}
	return t
}

// formOf finds a pattern's form and kind in the types; the zero Form means there is no such leaf.
func formOf(t reflect.Type, path string) (Form, units.Kind) {
	for path != "" {
		key, rest, _ := strings.Cut(path, ".")
		name, entry := strings.CutSuffix(key, "[]")
		m, ok := memberOf(t, name)
		if !ok {
			return 0, 0
		}
		t, path = m.Type, rest
		if entry {
			if t.Kind() != reflect.Slice {
				return 0, 0
			}
			t = t.Elem()
		}
	}
	return formOfType(t)
}

func formOfType(t reflect.Type) (Form, units.Kind) {
	switch t.Kind() {
	case reflect.Float64:
		return Quantity, reflect.Zero(t).Interface().(interface{ Kind() units.Kind }).Kind()
	case reflect.Int:
		return Count, units.CountKind
	case reflect.String:
		return Text, 0
	case reflect.Bool:
		return Flag, 0
	case reflect.Slice:
		return List, 0
	}
	return 0, 0
}

// member is a key of a section.
type member struct {
	key   string
	index int
	reflect.Type
}

// members lists a struct's keys in file order.
func members(t reflect.Type) []member { return sections[t] }

// sections are the keys of every struct of the document. It is never written.
var sections = sectionsBelow(reflect.TypeFor[Document](), map[reflect.Type][]member{})

func sectionsBelow(t reflect.Type, into map[reflect.Type][]member) map[reflect.Type][]member {
	for i := range t.NumField() {
		f := t.Field(i)
		key := f.Tag.Get("yaml")
		if !f.IsExported() || key == "" {
			continue
		}
		into[t] = append(into[t], member{key, i, f.Type})
		below := f.Type
		if below.Kind() == reflect.Slice {
			below = below.Elem()
		}
		if below.Kind() == reflect.Struct && into[below] == nil {
			sectionsBelow(below, into)
		}
	}
	return into
}

func memberOf(t reflect.Type, key string) (member, bool) {
	if t.Kind() != reflect.Struct {
		return member{}, false
	}
	list := members(t)
	i := slices.IndexFunc(list, func(m member) bool { return m.key == key })
	if i < 0 {
		return member{}, false
	}
	return list[i], true
}

// point makes the rows of a Point's or Size's three coordinates, or of the first two for a Spot or Rectangle, from one row.
// Defaults are for x, y and z in turn.
func point(f Field, axes string, defaults ...string) []Field {
	var rows []Field
	for i, axis := range strings.Split(axes, "") {
		row := f
		row.Path, row.Group, row.Title = f.Path+"."+axis, f.Title, f.Title+", "+axis
		if i < len(defaults) {
			row.Default = defaults[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// when is a single condition.
func when(path string, answers ...string) []Condition { return []Condition{{path, answers}} }

// rows gathers single rows and groups of rows.
func rows(parts ...any) []Field {
	var all []Field
	for _, p := range parts {
		switch p := p.(type) {
		case Field:
			all = append(all, p)
		case []Field:
			all = append(all, p...)
		}
	}
	return all
}
