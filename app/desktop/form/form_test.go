package form_test

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/form"
	"mastwright/app/desktop/look"
	"mastwright/design"
)

// model is a document that takes every intent at once.
type model struct {
	doc   *design.Document
	desk  *form.Desk
	form  *form.Form
	wrong map[string]string
}

func (m *model) Set(path, text string) error {
	err := m.doc.Set(path, text)
	if err != nil {
		m.wrong[path] = err.(design.Problem).Sentence()
	} else {
		delete(m.wrong, path)
	}
	m.follow()
	return err
}
func (m *model) Clear(path string)   { m.doc.Clear(path); m.follow() }
func (m *model) Dismiss(path string) { delete(m.wrong, path); m.follow() }
func (m *model) Insert(list string, at int) error {
	err := m.doc.Insert(list, at)
	m.follow()
	return err
}
func (m *model) Remove(list string, at int) error {
	err := m.doc.Remove(list, at)
	m.follow()
	return err
}
func (m *model) follow() {
	m.desk.Show(m.doc, func(path string) (string, bool) { text, is := m.wrong[path]; return text, is })
	m.form.Follow()
}

// shown puts the form of a stage into a window; what timers post comes through the channel.
func shown(t *testing.T, stage string, doc *design.Document) (*model, fyne.Window, chan func()) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Choice: look.Light})
	posted := make(chan func(), 16)
	m := &model{doc: doc, wrong: map[string]string{}}
	m.desk = form.NewDesk(m, form.Options{Post: func(f func()) { posted <- f }})
	m.desk.Show(doc, func(string) (string, bool) { return "", false })
	m.form = form.New(m.desk, stage, "Title")
	window := test.NewTempWindow(t, m.form)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(304, 600))
	m.follow()
	return m, window, posted
}

type box interface {
	fyne.Focusable
	desktop.Keyable
	Inner() *widget.Entry
}

func focus(t *testing.T, m *model, window fyne.Window, path string) box {
	t.Helper()
	if !m.form.Lead(path) {
		t.Fatalf("the form does not ask %s", path)
	}
	b, is := window.Canvas().Focused().(box)
	if !is {
		t.Fatalf("%s: the keyboard is at %T", path, window.Canvas().Focused())
	}
	return b
}

// row returns the row of a path.
func row(t *testing.T, m *model, path string) *form.Row {
	t.Helper()
	for _, r := range m.form.Rows() {
		if r.Focus(path) != nil {
			return r
		}
	}
	t.Fatalf("no row of %s", path)
	return nil
}

func TestTypedAnswers(t *testing.T) {
	for _, c := range []struct{ path, typed, want, left string }{
		{"mast.height", "92", "92 mm", "92"},
		{"mast.height", "96,5", "96.5 mm", "96.5"},
		{"mast.height", "3.6 in", "91.44 mm", "91.44"},
		{"mast.height", "9,65 cm", "96.5 mm", "96.5"},
		{"mast.wall", "0,8 mm", "0.8 mm", "0.8"},
		{"print.infill", "40 %", "0.4", "0.4"},
		{"print.walls", "3", "3", "3"},
	} {
		t.Run(c.path+" "+c.typed, func(t *testing.T) {
			m, window, _ := shown(t, "shape", design.New())
			b := focus(t, m, window, c.path)
			b.Inner().SetText(c.typed)
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			if got := m.doc.Get(c.path); got != c.want {
				t.Errorf("%q became %q, want %q", c.typed, got, c.want)
			}
			if b.Inner().Text != c.left {
				t.Errorf("the box shows %q, want %q with its unit inside", b.Inner().Text, c.left)
			}
		})
	}
}

func TestKeystrokesCommitByThemselves(t *testing.T) {
	m, window, posted := shown(t, "shape", design.New())
	b := focus(t, m, window, "mast.height")
	b.Inner().SetText("88")
	(<-posted)()
	if got := m.doc.Get("mast.height"); got != "88 mm" {
		t.Errorf("after the pause the height is %q", got)
	}
}

func TestErrorsStandAtTheField(t *testing.T) {
	for _, c := range []struct{ path, typed, want string }{
		{"mast.height", "1,000", "can be read two ways"},
		{"mast.height", "3000", "is outside 10 to 400 mm"},
		{"mast.wall", "thick", ""},
	} {
		m, window, _ := shown(t, "shape", design.New())
		good := m.doc.Get(c.path)
		r := row(t, m, c.path)
		height := r.HeightFor(276)
		b := focus(t, m, window, c.path)
		b.Inner().SetText(c.typed)
		b.FocusLost()
		if got := r.Problem(); got == "" || !strings.Contains(got, c.want) {
			t.Errorf("%s %q: %q stands at the field, want something with %q", c.path, c.typed, got, c.want)
		}
		if grown := r.HeightFor(276) - height; grown < 18 {
			t.Errorf("%s: the row grew by %v, the sentence needs 18", c.path, grown)
		}
		if got := m.doc.Get(c.path); got != good {
			t.Errorf("%s: the document holds %q, want the last good %q", c.path, got, good)
		}
		b.FocusGained()
		b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if r.Problem() != "" || m.doc.Get(c.path) != good {
			t.Errorf("%s: after Escape %q stands at the field", c.path, r.Problem())
		}
	}
}

func TestStepping(t *testing.T) {
	for _, c := range []struct {
		path  string
		key   fyne.KeyName
		shift bool
		want  string
	}{
		{"mast.height", fyne.KeyUp, false, "101 mm"},
		{"mast.height", fyne.KeyDown, false, "99 mm"},
		{"mast.height", fyne.KeyUp, true, "100.1 mm"},
		{"mast.height", fyne.KeyPageUp, false, "110 mm"},
		{"mast.height", fyne.KeyPageDown, false, "90 mm"},
		{"mast.wall", fyne.KeyUp, false, "2.5 mm"},
		{"print.walls", fyne.KeyUp, false, "5"},
	} {
		m, window, _ := shown(t, "shape", design.New())
		b := focus(t, m, window, c.path)
		if c.shift {
			b.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
		}
		b.TypedKey(&fyne.KeyEvent{Name: c.key})
		if got := m.doc.Get(c.path); got != c.want {
			t.Errorf("%s, %s, shift %v: %q, want %q", c.path, c.key, c.shift, got, c.want)
		}
	}
}

func TestAnEmptiedFieldGoesBackToItsDefault(t *testing.T) {
	doc := design.New()
	if err := doc.Set("mast.height", "77 mm"); err != nil {
		t.Fatal(err)
	}
	m, window, _ := shown(t, "shape", doc)
	b := focus(t, m, window, "mast.height")
	b.Inner().SetText("")
	b.FocusLost()
	if got := m.doc.Get("mast.height"); got != "100 mm" || m.doc.Has("mast.height") {
		t.Errorf("the emptied field holds %q", got)
	}
	if !b.Inner().TextStyle.Italic {
		t.Error("a value nobody entered does not stand in italics")
	}
}

// full is a document with an entry in every list that has a fold of its own.
func full(t *testing.T) *design.Document {
	t.Helper()
	doc := design.New()
	for _, list := range []string{"airframe.places", "airframe.neighbours", "leads", "accepted", "motors.at", "print.copies", "measured"} {
		if err := doc.Insert(list, 0); err != nil {
			t.Fatal(err)
		}
	}
	return doc
}

// unfolded opens every fold of a stage's form.
func unfolded(t *testing.T, stage string) *model {
	t.Helper()
	m, _, _ := shown(t, stage, full(t))
	led := map[string]bool{}
	for _, field := range design.Fields() {
		path := strings.ReplaceAll(field.Path, "[]", "[0]")
		section, _, _ := strings.Cut(path, ".")
		if at := strings.Index(path, "]"); at >= 0 {
			section = path[:at]
		}
		if field.Stage == stage && !led[section] {
			led[section] = m.form.Lead(path)
		}
	}
	return m
}

// Every field of the table is asked by its stage's form, but for the schema and the shelf files.
func TestEveryFieldHasARow(t *testing.T) {
	for _, stage := range []string{"measure", "shape", "check", "make"} {
		rows := unfolded(t, stage).form.Rows()
		for _, field := range design.Fields() {
			nested := strings.Contains(strings.Replace(field.Path, "[]", "", 1), "[]")
			if field.Stage != stage || field.Form == design.List || len(field.When) > 0 || nested ||
				field.Path == "mastwright" || strings.HasSuffix(field.Path, ".from") {
				continue
			}
			path := strings.ReplaceAll(field.Path, "[]", "[0]")
			if !slices.ContainsFunc(rows, func(r *form.Row) bool { return r.Focus(path) != nil }) {
				t.Errorf("the form of %s does not ask %s", stage, path)
			}
		}
	}
}

// The narrowest left column leaves 276; a column silently cuts off what is wider.
func TestEveryRowFitsTheNarrowestColumn(t *testing.T) {
	for _, stage := range []string{"measure", "shape", "check", "make"} {
		for _, r := range unfolded(t, stage).form.Rows() {
			if got := r.MinSize().Width; got > 276 {
				t.Errorf("%s needs %v", r.Path(), got)
			}
		}
	}
}

// The toolkit gives the wheel to the deepest thing that takes it, which in a box is the entry's own text.
func TestTheWheelTurnsTheFormOverABoxToo(t *testing.T) {
	m, window, _ := shown(t, "shape", design.New())
	r := row(t, m, "mast.wall")
	before := fyne.CurrentApp().Driver().AbsolutePositionForObject(r)
	test.Scroll(window.Canvas(), fyne.NewPos(230, before.Y+16), 0, -60)
	if after := fyne.CurrentApp().Driver().AbsolutePositionForObject(r); after.Y != before.Y-60 {
		t.Errorf("the row went from %v to %v, want 60 higher", before.Y, after.Y)
	}
}

func TestListsGrowAndShrink(t *testing.T) {
	m, window, _ := shown(t, "measure", design.New())
	if err := m.Insert("leads", 0); err != nil {
		t.Fatal(err)
	}
	b := focus(t, m, window, "leads[0].name")
	b.Inner().SetText("pack lead")
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := m.doc.Get("leads[0].name"); got != "pack lead" {
		t.Errorf("the lead is called %q", got)
	}
	if err := m.Set("leads[0].given", "route"); err != nil {
		t.Fatal(err)
	}
	if m.form.Lead("leads[0].side") {
		t.Error("a lead with a route is asked on which side it passes")
	}
	if err := m.Insert("leads[0].points", 0); err != nil {
		t.Fatal(err)
	}
	if !m.form.Lead("leads[0].points[0].z") {
		t.Error("a point of the route has no box")
	}
	if err := m.Remove("leads", 0); err != nil {
		t.Fatal(err)
	}
	if m.form.Lead("leads[0].name") {
		t.Error("a lead that is gone still has a row")
	}
}

func TestRowsOfAPatternAndAPoint(t *testing.T) {
	doc := design.New()
	for i := range 2 {
		if err := doc.Insert("leads", i); err != nil {
			t.Fatal(err)
		}
	}
	m, _, _ := shown(t, "measure", doc)
	for _, c := range []struct {
		paths []string
		want  int
	}{
		{[]string{"mast.height"}, 1},
		{[]string{"leads[].spacing"}, 2},
		{[]string{"leads[].currents"}, 2},
		{[]string{"print.bed", "limits.sway"}, 2},
		{[]string{"airframe.neighbours"}, 0},
	} {
		if got := len(m.desk.Rows("test", c.paths)); got != c.want {
			t.Errorf("%v: %d rows, want %d", c.paths, got, c.want)
		}
	}
}
