package form

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"mastwright/app/desktop/look"
	"mastwright/design"
)

// cell is one box of a row: an entry with its unit inside, a list to pick from, or a tick.
type cell struct {
	desk  *Desk
	path  string
	field design.Field
	row   *Row

	box    *box
	bed    fyne.CanvasObject // what the box lies in
	list   *picker
	tick   *ticker
	rim    *look.Rim
	wheel  *wheel
	choice []string
	unit   string // inside the box, "mm"

	focused bool
	shown   string // the document's text that is shown
	problem string // what is wrong with the text that stands there, "" for nothing
	pause   *time.Timer
	silent  bool // while the document is shown, nothing is an intent
}

// commitAfter is how long a field waits after a keystroke before what was typed becomes the design's.
const commitAfter = 300 * time.Millisecond

func newCell(desk *Desk, path string, row *Row) *cell {
	field, _ := design.FieldOf(path)
	c := &cell{desk: desk, path: path, field: field, row: row, rim: look.NewRim(look.Bare), wheel: newWheel(row.scrolled)}
	c.choice = field.Choices
	if field.Form == design.Text && desk.options.Choices != nil {
		c.choice = desk.options.Choices(path)
	}
	switch {
	case field.Form == design.Flag:
		c.tick = newTicker(c)
	case c.choice != nil:
		c.list = newPicker(c)
		c.rim.Set(look.Quiet)
	default:
		c.unit = unitOf(field)
		c.box = newBox(c)
		c.bed = c.box
		if field.Form == design.Text {
			c.bed = container.NewThemeOverride(c.box, barless{})
		}
	}
	return c
}

// object is the cell's widget.
func (c *cell) object() fyne.CanvasObject {
	switch {
	case c.tick != nil:
		return c.tick
	case c.list != nil:
		return c.list
	}
	return c.bed
}

// focus is where the keyboard goes.
func (c *cell) focus() fyne.Focusable {
	switch {
	case c.tick != nil:
		return c.tick
	case c.list != nil:
		return c.list
	}
	return c.box
}

// show shows the document's answer, unless the person is typing another.
func (c *cell) show() {
	text := c.desk.doc.Get(c.path)
	problem, _ := c.desk.wrong(c.path)
	problem = strings.TrimPrefix(problem, c.field.Title+": ")
	if c.box == nil {
		c.shown = text
		c.showChoice(text)
		c.say(problem)
		return
	}
	if italic := c.desk.doc.Origin(c.path) == design.Defaulted; c.box.TextStyle.Italic != italic {
		c.box.TextStyle.Italic = italic
		c.box.Refresh()
	}
	c.hint()
	typing := c.dirty() && (c.focused || c.problem != "" && problem != "")
	c.shown = text
	if !typing {
		c.write(c.bare(text))
	}
	c.say(problem)
}

// hint writes into an empty box what stands in for the answer, where there is room for it: "as x".
func (c *cell) hint() {
	stands := ""
	if c.desk.doc.Origin(c.path) == design.Unanswered && standsInBox(c.field) {
		stands = c.field.Otherwise
	}
	if c.box.PlaceHolder != stands {
		c.box.SetPlaceHolder(stands)
	}
}

// standsInBox reports whether what stands in for an answer is short enough for the box.
func standsInBox(f design.Field) bool {
	return f.Otherwise != "" && f.Otherwise != "none" && look.Body.Width(f.Otherwise) < 60
}

// write puts a text into the box without its being an intent.
func (c *cell) write(text string) {
	if c.box.Text == text {
		return
	}
	c.silent = true
	c.box.SetText(text)
	c.silent = false
}

func (c *cell) showChoice(text string) {
	c.silent = true
	defer func() { c.silent = false }()
	switch {
	case c.tick != nil && c.tick.Checked != (text == "true"):
		c.tick.SetChecked(text == "true")
	case c.list != nil:
		if c.field.Form == design.Text {
			if now := c.desk.options.Choices(c.path); !slices.Equal(now, c.choice) {
				c.choice = now
				c.list.SetOptions(c.names())
			}
		}
		if name := c.named(text); name != c.list.Selected {
			c.list.Selected = name
			c.list.Refresh()
		}
	}
}

func (c *cell) named(choice string) string {
	if choice == "" {
		return ""
	}
	return c.desk.options.Named(c.path, choice)
}

// names are the choices as they are called.
func (c *cell) names() []string {
	names := make([]string, len(c.choice))
	for i, choice := range c.choice {
		names[i] = c.named(choice)
	}
	return names
}

// bare is the document's text without the unit that stands in the box.
func (c *cell) bare(text string) string {
	number, unit, _ := strings.Cut(text, " ")
	if c.field.Form == design.Quantity && unit == plainUnit(c.field) {
		return number
	}
	return text
}

// typed is what stands in the box, with the unit that a bare number has.
func (c *cell) typed() string { return strings.TrimSpace(c.box.Text) }

// dirty reports whether the box holds something else than the document.
func (c *cell) dirty() bool { return c.box != nil && c.typed() != c.bare(c.shown) }

// pick sends the choice of a list or a tick.
func (c *cell) pick(text string) {
	if !c.silent && text != c.shown {
		c.refused(c.desk.model.Set(c.path, text))
	}
}

// changed is told of every keystroke.
func (c *cell) changed(string) {
	if c.silent {
		return
	}
	c.stop()
	if c.dirty() && c.field.Check(c.typed()) == nil {
		c.pause = time.AfterFunc(commitAfter, func() { c.desk.options.Post(c.commitQuietly) })
	}
}

// commitQuietly commits a text that parses while the person may go on typing.
func (c *cell) commitQuietly() {
	if c.dirty() && c.field.Check(c.typed()) == nil {
		c.send()
	}
}

// commit makes what was typed the design's, or says why it cannot be.
func (c *cell) commit() {
	c.stop()
	switch {
	case !c.dirty():
	case c.typed() != "":
		if c.send() {
			c.settle()
		}
	case c.desk.doc.Origin(c.path) == design.Given:
		c.desk.model.Clear(c.path)
		c.settle()
	default:
		c.revert()
	}
}

// send reports whether the design took what was typed.
func (c *cell) send() bool { return !c.refused(c.desk.model.Set(c.path, c.typed())) }

// refused says an error at the field.
func (c *cell) refused(err error) bool {
	if err == nil {
		c.say("")
		return false
	}
	c.say(sentence(err))
	return true
}

// settle writes the document's own form of the answer: "0.3" for "0,3 mm".
func (c *cell) settle() {
	c.shown = c.desk.doc.Get(c.path)
	c.write(c.bare(c.shown))
}

// revert brings back the last good value.
func (c *cell) revert() {
	c.stop()
	c.desk.model.Dismiss(c.path)
	c.say("")
	c.settle()
}

func (c *cell) stop() {
	if c.pause != nil {
		c.pause.Stop()
		c.pause = nil
	}
}

// say shows a problem at the field, or none.
func (c *cell) say(problem string) {
	if c.problem == problem {
		return
	}
	c.problem = problem
	c.edge()
	c.row.said()
}

func (c *cell) edge() {
	switch {
	case c.problem != "":
		c.rim.Set(look.Wrong)
	case c.focused:
		c.rim.Set(look.Focused)
	case c.list != nil:
		c.rim.Set(look.Quiet)
	default:
		c.rim.Set(look.Bare)
	}
}

// focusChanged follows the keyboard.
func (c *cell) focusChanged(has bool) {
	c.focused = has
	if !has && c.box != nil {
		c.commit()
	}
	c.edge()
	if has {
		c.row.reveal()
	}
	if tell := c.desk.options.OnFocus; tell != nil {
		if has {
			tell(c.path)
		} else {
			tell("")
		}
	}
}

// step moves a number by some of its steps and commits at once.
func (c *cell) step(by float64) {
	if c.field.Form != design.Quantity && c.field.Form != design.Count {
		return
	}
	value, err := strconv.ParseFloat(strings.Replace(c.bare(c.typed()), ",", ".", 1), 64)
	if err != nil {
		return
	}
	stride := stride(c.field, value) * by
	if c.field.Form == design.Count {
		stride = math.Copysign(max(1, math.Abs(stride)), stride)
	}
	text := decimal(value+stride, stride)
	if c.field.Check(text) != nil {
		return
	}
	c.write(text)
	c.commit()
}

// stride is a power of ten that a field is stepped by: about a hundredth of its range, but no more than a tenth of its value.
func stride(f design.Field, value float64) float64 {
	if f.Form == design.Count {
		return 1
	}
	one := 1.0
	if f.Unit != "" {
		zero, _ := f.Kind.Parse("0 " + f.Unit)
		unit, err := f.Kind.Parse("1 " + f.Unit)
		if err == nil && unit != zero {
			one = unit - zero
		}
	}
	step := math.Pow(10, math.Floor(math.Log10((f.High-f.Low)/one/100)+1e-9))
	if value != 0 {
		step = min(step, math.Pow(10, math.Floor(math.Log10(math.Abs(value))+1e-9)-1))
	}
	return step
}

// decimal writes a number with the decimals of its step.
func decimal(value, step float64) string {
	digits := max(0, int(math.Ceil(-math.Log10(math.Abs(step))-1e-9)))
	text := strconv.FormatFloat(value, 'f', digits, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// plainUnit is the unit a field's answer is written in.
func plainUnit(f design.Field) string {
	if f.Form != design.Quantity {
		return ""
	}
	if f.Unit != "" {
		return f.Unit
	}
	return f.Kind.Unit()
}

// unitOf is that unit as print sets it.
func unitOf(f design.Field) string {
	unit := plainUnit(f)
	if f.Form == design.Quantity && unit == f.Kind.Unit() {
		return f.Kind.Symbol()
	}
	return strings.NewReplacer("kohm", "kΩ", "ohm", "Ω", "deg", "°").Replace(unit)
}

// sentence is a problem as it stands below its field.
func sentence(err error) string {
	if problem, ok := err.(design.Problem); ok {
		return upper(problem.Text)
	}
	return upper(err.Error())
}

func upper(text string) string {
	letters := []rune(text)
	if len(letters) == 0 {
		return text
	}
	return strings.ToUpper(string(letters[:1])) + string(letters[1:])
}
