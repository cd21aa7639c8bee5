package desktop

import (
	"io"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot"
	"mastwright/app/prove"
	"mastwright/app/session"
	"mastwright/materials"
)

// records are the pictures of a record below each other.
type records struct {
	widget.BaseWidget

	plots []*plot.Plot
	seams []*look.Plain
}

func newRecords() *records {
	r := &records{}
	r.ExtendBaseWidget(r)
	return r
}

// set draws what was found, nothing for nil.
func (r *records) set(result *prove.Result) {
	r.plots, r.seams = nil, nil
	if result != nil {
		for _, p := range result.Plots {
			shown := plot.New()
			shown.SetChart(chartOf(result.Test, p))
			r.plots, r.seams = append(r.plots, shown), append(r.seams, look.Surface(look.Seam))
		}
	}
	r.Refresh()
}

func chartOf(test string, p prove.Plot) plot.Chart {
	switch test {
	case "pointing":
		return plot.Rose(p.Title, p.Plot)
	case "radio":
		return plot.Costs(p.Title, p.Plot)
	}
	return plot.Record(p.Title, p.Plot)
}

// CreateRenderer is the toolkit's.
func (r *records) CreateRenderer() fyne.WidgetRenderer {
	return &recordsRenderer{records: r, ground: look.Surface(look.Panel)}
}

type recordsRenderer struct {
	records *records
	ground  *look.Plain
}

func (r *recordsRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	n := float32(len(r.records.plots))
	for i, p := range r.records.plots {
		top, end := look.Whole(r.records, size.Height*float32(i)/n), look.Whole(r.records, size.Height*float32(i+1)/n)
		p.Move(fyne.NewPos(0, top))
		p.Resize(fyne.NewSize(size.Width, end-top-1))
		r.records.seams[i].Hidden = i == 0
		r.records.seams[i].Move(fyne.NewPos(0, top-1))
		r.records.seams[i].Resize(fyne.NewSize(size.Width, 1))
	}
}
func (r *recordsRenderer) MinSize() fyne.Size { return fyne.NewSize(160, 120) }
func (r *recordsRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.ground}
	for i, p := range r.records.plots {
		objects = append(objects, p, r.records.seams[i])
	}
	return objects
}
func (r *recordsRenderer) Destroy() {}
func (r *recordsRenderer) Refresh() {
	r.ground.Refresh()
	r.Layout(r.records.Size())
	for _, p := range r.records.plots {
		p.Refresh()
	}
	canvas.Refresh(r.records)
}

// caution is the strip over a test in which current flows.
type caution struct {
	widget.BaseWidget

	lines []*look.Prose
}

func newCaution(cautions []string) *caution {
	c := &caution{}
	for _, text := range cautions {
		c.lines = append(c.lines, look.NewProse(text, look.Strong, look.Ink))
	}
	c.ExtendBaseWidget(c)
	return c
}

const (
	cautionLeft = 16
	cautionAir  = 8
)

// HeightFor is that of its sentences.
func (c *caution) HeightFor(width float32) float32 {
	height := float32(2 * cautionAir)
	for i, line := range c.lines {
		if i > 0 {
			height += 4
		}
		height += line.HeightFor(width - cautionLeft - cautionAir)
	}
	return height
}

// MinSize is narrow enough for every column.
func (c *caution) MinSize() fyne.Size {
	return fyne.NewSize(200, c.HeightFor(max(200, c.Size().Width)))
}

// CreateRenderer is the toolkit's.
func (c *caution) CreateRenderer() fyne.WidgetRenderer {
	r := &cautionRenderer{c: c, ground: &canvas.Rectangle{CornerRadius: 3}, bar: &canvas.Rectangle{}}
	r.dress()
	return r
}

type cautionRenderer struct {
	c           *caution
	ground, bar *canvas.Rectangle
}

func (r *cautionRenderer) dress() {
	r.ground.FillColor, r.ground.StrokeColor, r.ground.StrokeWidth = look.Color(look.Field), look.Color(look.Ink), 1
	r.bar.FillColor = look.Color(look.Ink)
}

func (r *cautionRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.bar.Resize(fyne.NewSize(6, size.Height))
	y := float32(cautionAir)
	for _, line := range r.c.lines {
		width := size.Width - cautionLeft - cautionAir
		height := line.HeightFor(width)
		line.Move(fyne.NewPos(cautionLeft, y))
		line.Resize(fyne.NewSize(width, height))
		y += height + 4
	}
}
func (r *cautionRenderer) MinSize() fyne.Size { return r.c.MinSize() }
func (r *cautionRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.ground, r.bar}
	for _, line := range r.c.lines {
		objects = append(objects, line)
	}
	return objects
}
func (r *cautionRenderer) Destroy() {}
func (r *cautionRenderer) Refresh() {
	r.dress()
	r.Layout(r.c.Size())
	canvas.Refresh(r.c)
}

// marked is a line with a mark before it.
type marked struct {
	widget.BaseWidget

	mark *look.Mark
	text *look.Label
}

func newMarked(sign look.Sign, text string, role look.Role) *marked {
	m := &marked{mark: look.NewMark(sign, 14), text: look.NewLabel(text, look.Strong, role)}
	m.ExtendBaseWidget(m)
	return m
}

// MinSize is a line's.
func (m *marked) MinSize() fyne.Size { return fyne.NewSize(120, 20) }

// CreateRenderer is the toolkit's.
func (m *marked) CreateRenderer() fyne.WidgetRenderer { return &markedRenderer{m} }

type markedRenderer struct{ m *marked }

func (r *markedRenderer) Layout(size fyne.Size) {
	r.m.mark.Move(fyne.NewPos(0, 3))
	r.m.mark.Resize(fyne.NewSquareSize(14))
	r.m.text.Move(fyne.NewPos(20, 0))
	r.m.text.Resize(fyne.NewSize(size.Width-20, size.Height))
}
func (r *markedRenderer) MinSize() fyne.Size { return r.m.MinSize() }
func (r *markedRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.m.mark, r.m.text}
}
func (r *markedRenderer) Destroy() {}
func (r *markedRenderer) Refresh() {
	r.Layout(r.m.Size())
	canvas.Refresh(r.m)
}

// inUse lists the measured values that the design holds, each with its date and a button that withdraws it.
type inUse struct {
	widget.BaseWidget

	p      *prover
	stack  fyne.CanvasObject
	serial uint64
	said   bool
}

func newInUse(p *prover) *inUse {
	u := &inUse{p: p}
	u.ExtendBaseWidget(u)
	return u
}

func (u *inUse) set(n *session.Snapshot) {
	if u.said && u.serial == n.Serial {
		return
	}
	u.said, u.serial = true, n.Serial
	pieces := []fyne.CanvasObject{look.NewLabel("Measured values in use", look.Strong, look.Ink), look.Space(4)}
	if len(n.Document.Measured) == 0 {
		pieces = append(pieces, look.NewProse("None: every figure is computed, or the library's.", look.Body, look.Second))
	}
	for i, m := range n.Document.Measured {
		name, value := valueOf(n.Document, m, "")
		withdraw := look.NewChip("Withdraw", func() { u.p.w.complain(u.p.w.session.Withdraw(i)) })
		withdraw.OnFocus = func() { u.p.right.Reveal(withdraw) }
		pieces = append(pieces, look.NewProse(name, look.Body, look.Ink), look.NewProse(value, look.Strong, look.Ink),
			look.NewProse(capital(m.Source()), look.Caption, look.Second), newChipRow(withdraw), look.Space(6))
	}
	u.stack = look.Stack(pieces...)
	u.Refresh()
}

// HeightFor is that of its lines.
func (u *inUse) HeightFor(width float32) float32 {
	if u.stack == nil {
		return 0
	}
	return u.stack.(look.Tall).HeightFor(width)
}

// MinSize is narrow enough for every column.
func (u *inUse) MinSize() fyne.Size { return fyne.NewSize(200, u.HeightFor(max(200, u.Size().Width))) }

// CreateRenderer is the toolkit's.
func (u *inUse) CreateRenderer() fyne.WidgetRenderer { return &inUseRenderer{u} }

type inUseRenderer struct{ u *inUse }

func (r *inUseRenderer) Layout(size fyne.Size) {
	if r.u.stack != nil {
		r.u.stack.Resize(size)
	}
}
func (r *inUseRenderer) MinSize() fyne.Size { return r.u.MinSize() }
func (r *inUseRenderer) Objects() []fyne.CanvasObject {
	if r.u.stack == nil {
		return nil
	}
	return []fyne.CanvasObject{r.u.stack}
}
func (r *inUseRenderer) Destroy() {}
func (r *inUseRenderer) Refresh() {
	r.Layout(r.u.Size())
	canvas.Refresh(r.u)
}

// encoderOf writes a list of materials as a file of one's own.
func encoderOf(list materials.List) func(io.Writer) error {
	return func(w io.Writer) error { return materials.Encode(w, list) }
}
