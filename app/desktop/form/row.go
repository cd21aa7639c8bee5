package form

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design"
)

// The row's measures, in pixels: a box of 118 by 26 on a pitch of 32.
const (
	boxWidth  = 118
	boxHeight = 26
	rowPitch  = 32
	errorLine = 18
)

// Row is a question with its box, or with the boxes of a point, a size or a pair.
type Row struct {
	widget.BaseWidget

	desk    *Desk
	cells   []*cell
	label   *look.Label
	caption *look.Label
	names   []*look.Label // of the boxes, "x", where there are several
	mark    *look.Mark
	problem *look.Prose
	remove  *look.Chip // of a list's entry, nil where it is no entry by itself

	OnReflow func()                        // the row has changed its height
	OnReveal func(row *Row)                // a box of the row has the keyboard: it must be seen
	OnScroll func(event *fyne.ScrollEvent) // the wheel was turned over a box
}

func newRow(desk *Desk, paths []string) *Row {
	r := &Row{desk: desk, label: look.NewLabel("", look.Body, look.Ink), caption: look.NewLabel("", look.Caption, look.Third),
		mark: look.NewMark(look.Fails, 12), problem: look.NewProse("", look.Caption, look.FailWord)}
	r.caption.Align = fyne.TextAlignTrailing
	for _, path := range paths {
		c := newCell(desk, path, r)
		r.cells = append(r.cells, c)
		if len(paths) > 1 {
			r.names = append(r.names, look.NewLabel(r.boxName(c.field), look.Caption, look.Second))
		}
	}
	r.ExtendBaseWidget(r)
	r.name()
	return r
}

// Path returns the path of the row's first box.
func (r *Row) Path() string { return r.cells[0].path }

// Focus returns what takes the keyboard for a path, nil when the row has no such box.
func (r *Row) Focus(path string) fyne.Focusable {
	for _, c := range r.cells {
		if c.path == path || strings.HasPrefix(c.path, path+".") {
			return c.focus()
		}
	}
	return nil
}

// Problem returns what stands below the boxes, "" for nothing.
func (r *Row) Problem() string {
	for _, c := range r.cells {
		if c.problem != "" {
			return c.problem
		}
	}
	return ""
}

// HeightFor is the pitch, and what the problem needs.
func (r *Row) HeightFor(width float32) float32 {
	height := float32(rowPitch * r.lines())
	if len(r.cells) > 1 && r.remove == nil {
		height += 20
	}
	if r.problem.Text != "" {
		height += errorLine + r.problem.HeightFor(width-18) - look.Caption.Pitch()
	}
	return height
}

// abreast is how many boxes stand beside each other: three axes, or two with a longer name.
func (r *Row) abreast() int {
	for _, name := range r.names {
		if len(name.Text) > 1 {
			return 2
		}
	}
	return max(1, len(r.cells))
}

func (r *Row) lines() int { return (len(r.cells) + r.abreast() - 1) / r.abreast() }

// MinSize is narrow enough for every column.
func (r *Row) MinSize() fyne.Size {
	return fyne.NewSize(boxWidth+100, r.HeightFor(max(r.Size().Width, boxWidth+100)))
}

// name writes what the row asks.
func (r *Row) name() {
	first := r.cells[0].field
	title := first.Title
	if len(r.cells) > 1 {
		title = first.Group
	}
	r.label.SetText(title)
}

// number makes the row an entry of a list: its number at the left, a button that takes it out at the right.
func (r *Row) number(n int, remove func()) {
	if r.remove == nil {
		r.remove = look.NewChip("−", nil)
	}
	r.remove.OnPress = remove
	r.label.Font, r.label.Role = look.Caption, look.Second
	r.label.SetText(fmt.Sprint(n))
}

// inUse reports whether the row stands in a window.
func (r *Row) inUse() bool { return fyne.CurrentApp().Driver().CanvasForObject(r) != nil }

// boxName is what stands before one of several boxes: the axis, "pass", "hover".
func (r *Row) boxName(f design.Field) string {
	_, last, _ := cutLast(f.Path)
	return strings.ReplaceAll(last, "_", " ")
}

// show shows the document in every box.
func (r *Row) show() {
	for _, c := range r.cells {
		c.show()
	}
	text, role := r.remark()
	if r.caption.Text != text || r.caption.Role != role {
		r.caption.Text, r.caption.Role = text, role
		r.caption.Refresh()
	}
}

// remark is the quiet caption: the range, or that the value is measured, assumed or lacking.
func (r *Row) remark() (string, look.Role) {
	field := r.cells[0].field
	origin := design.Unanswered // of the least known box that has no stand-in
	for i, c := range r.cells {
		o := r.desk.doc.Origin(c.path)
		if i == 0 || o != design.Unanswered && origin == design.Unanswered && field.Otherwise != "" ||
			o < origin && (o != design.Unanswered || c.field.Otherwise == "") {
			origin = o
		}
	}
	for _, c := range r.cells {
		if m, is := r.desk.doc.AnswerMeasured(c.path); is {
			return strings.TrimSpace("measured " + m.Date), look.Third
		}
	}
	switch {
	case origin == design.Unanswered && field.Required():
		return asked(len(field.Checks)), look.NoDataWord
	case origin == design.Unanswered && field.Form == design.Text:
		return strings.TrimPrefix(field.Otherwise, "none"), look.Third
	case origin == design.Unanswered && field.Otherwise != "none" && !standsInBox(field):
		return "computed", look.Third
	case origin == design.Shelved:
		return "from its file", look.Third
	case origin == design.Defaulted && field.Stage != "shape" && field.Stage != "make":
		return "assumed", look.Third
	}
	return span(field), look.Third
}

func asked(checks int) string {
	switch checks {
	case 0:
		return "not answered"
	case 1:
		return "1 check waits"
	}
	return fmt.Sprintf("%d checks wait", checks)
}

// span is a field's range, "40 to 180".
func span(f design.Field) string {
	if f.Form != design.Quantity && f.Form != design.Count || f.Path == "site.altitude" {
		return ""
	}
	low, high := f.Low, f.High
	if f.Form == design.Quantity && f.Unit != "" {
		zero, _ := f.Kind.Parse("0 " + f.Unit)
		one, err := f.Kind.Parse("1 " + f.Unit)
		if err == nil && one != zero {
			low, high = (low-zero)/(one-zero), (high-zero)/(one-zero)
		}
	}
	return fmt.Sprintf("%s to %s", brief(low), brief(high))
}

func brief(v float64) string {
	text := strconv.FormatFloat(v, 'f', -1, 64)
	if rounded := strconv.FormatFloat(v, 'g', 3, 64); !strings.Contains(rounded, "e") {
		text = rounded
	}
	return strings.Replace(text, "-", "−", 1)
}

// said is told by a cell whose problem has changed.
func (r *Row) said() {
	r.problem.SetText(written(r.Problem()))
	r.Refresh()
	if r.OnReflow != nil {
		r.OnReflow()
	}
}

// written is a problem as a sentence.
func written(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".?!") {
		return upper(text)
	}
	return upper(text) + "."
}

func (r *Row) reveal() {
	if r.OnReveal != nil {
		r.OnReveal(r)
	}
}

func (r *Row) scrolled(event *fyne.ScrollEvent) {
	if r.OnScroll != nil {
		r.OnScroll(event)
	}
}

// CreateRenderer is the toolkit's.
func (r *Row) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{r.label, r.caption, r.mark, r.problem}
	for _, name := range r.names {
		objects = append(objects, name)
	}
	for _, c := range r.cells {
		objects = append(objects, c.object(), c.rim, c.wheel)
	}
	if r.remove != nil {
		objects = append(objects, r.remove)
	}
	return &rowRenderer{row: r, objects: objects}
}

type rowRenderer struct {
	row     *Row
	objects []fyne.CanvasObject
}

func (r *rowRenderer) Layout(size fyne.Size) {
	row := r.row
	top := float32(3)
	if len(row.cells) == 1 {
		left := size.Width - r.boxWidth(size.Width)
		r.title(0, top, left-8, boxHeight)
		r.cell(row.cells[0], left, top, size.Width-left)
	} else if row.remove == nil {
		r.title(0, 2, size.Width, 20)
		top += 20
		r.boxes(0, top, size.Width)
	} else {
		row.label.Move(fyne.NewPos(0, top))
		row.label.Resize(fyne.NewSize(16, boxHeight))
		row.caption.Hide()
		row.remove.Move(fyne.NewPos(size.Width-24, top+1))
		row.remove.Resize(fyne.NewSize(24, 24))
		r.boxes(18, top, size.Width-18-30)
	}
	wrong := row.problem.Text != ""
	row.mark.Hidden = !wrong
	if wrong {
		top += float32(row.lines()-1) * rowPitch
		row.mark.Move(fyne.NewPos(0, top+boxHeight+5))
		row.mark.Resize(fyne.NewSquareSize(12))
		row.problem.Move(fyne.NewPos(18, top+boxHeight+3))
		row.problem.Resize(fyne.NewSize(size.Width-18, row.problem.HeightFor(size.Width-18)))
	}
}

// boxWidth is that of a single box: a text has what its label leaves, within reason.
func (r *rowRenderer) boxWidth(width float32) float32 {
	if c := r.row.cells[0]; c.box == nil || c.field.Form != design.Text {
		return boxWidth
	}
	return look.Whole(r.row, max(boxWidth, min(1.4*boxWidth, width-r.row.label.MinSize().Width-12)))
}

// title puts the label at the left and the caption at the right of a width; the caption gives way.
func (r *rowRenderer) title(x, y, width, height float32) {
	label, caption := r.row.label, r.row.caption
	need := label.MinSize().Width
	label.Move(fyne.NewPos(x, y))
	label.Resize(fyne.NewSize(min(need, width), height))
	room := width - need - 6
	caption.Hidden = room < caption.MinSize().Width
	caption.Move(fyne.NewPos(x+need+6, y))
	caption.Resize(fyne.NewSize(max(0, room), height))
}

// boxes lays several boxes out over the width.
func (r *rowRenderer) boxes(from, top, width float32) {
	cells, names, abreast := r.row.cells, r.row.names, r.row.abreast()
	const gap = 8
	share := (width - float32(abreast-1)*gap) / float32(abreast)
	longest := float32(0)
	for _, name := range names {
		longest = max(longest, name.MinSize().Width)
	}
	for i, c := range cells {
		left := from + float32(i%abreast)*(share+gap)
		x, end := look.Whole(r.row, left), look.Whole(r.row, left+share)
		y := top + float32(i/abreast)*rowPitch
		names[i].Move(fyne.NewPos(x, y))
		names[i].Resize(fyne.NewSize(longest, boxHeight))
		r.cell(c, x+longest+4, y, end-x-longest-4)
	}
}

func (r *rowRenderer) cell(c *cell, x, y, width float32) {
	for _, object := range []fyne.CanvasObject{c.object(), c.rim, c.wheel} {
		object.Move(fyne.NewPos(x, y))
		object.Resize(fyne.NewSize(width, boxHeight))
	}
}

func (r *rowRenderer) MinSize() fyne.Size           { return r.row.MinSize() }
func (r *rowRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *rowRenderer) Destroy()                     {}
func (r *rowRenderer) Refresh() {
	r.Layout(r.row.Size())
	r.row.label.Refresh()
	r.row.caption.Refresh()
	r.row.problem.Refresh()
	canvas.Refresh(r.row)
}
