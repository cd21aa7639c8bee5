package desktop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/form"
	"mastwright/app/desktop/look"
)

// termsColumn is the left column of Check when it shows the limits and assumptions that the checks judge by.
type termsColumn struct {
	widget.BaseWidget

	form *form.Form
	back *look.Chip
}

const backBar = 36

func newTermsColumn(terms *form.Form, back func()) *termsColumn {
	c := &termsColumn{form: terms, back: look.NewChip("Back to the account", back)}
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer is the toolkit's.
func (c *termsColumn) CreateRenderer() fyne.WidgetRenderer { return &termsRenderer{c} }

type termsRenderer struct{ c *termsColumn }

func (r *termsRenderer) Layout(size fyne.Size) {
	r.c.back.Resize(r.c.back.MinSize())
	r.c.back.Move(fyne.NewPos(look.ColumnMargin, 10))
	r.c.form.Move(fyne.NewPos(0, backBar))
	r.c.form.Resize(fyne.NewSize(size.Width, size.Height-backBar))
}
func (r *termsRenderer) MinSize() fyne.Size { return r.c.form.MinSize().AddWidthHeight(0, backBar) }
func (r *termsRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.c.back, r.c.form}
}
func (r *termsRenderer) Destroy() {}
func (r *termsRenderer) Refresh() { r.Layout(r.c.Size()) }

// chipRow puts small buttons beside each other in a row of a column.
type chipRow struct {
	widget.BaseWidget
	chips []fyne.CanvasObject
}

func newChipRow(chips ...fyne.CanvasObject) *chipRow {
	r := &chipRow{chips: chips}
	r.ExtendBaseWidget(r)
	return r
}

// HeightFor is that of as many lines as the buttons need.
func (r *chipRow) HeightFor(width float32) float32 { return r.lay(width, false) }

// MinSize is a row's.
func (r *chipRow) MinSize() fyne.Size { return fyne.NewSize(100, 32) }

func (r *chipRow) lay(width float32, move bool) float32 {
	const pitch, gap = 32, 8
	x, y, shown := float32(0), float32(0), false
	for _, chip := range r.chips {
		if !chip.Visible() {
			continue
		}
		shown = true
		size := chip.MinSize()
		if x > 0 && x+size.Width > width {
			x, y = 0, y+pitch
		}
		if move {
			chip.Move(fyne.NewPos(x, y+(pitch-size.Height)/2))
			chip.Resize(size)
		}
		x += size.Width + gap
	}
	if !shown {
		return 0
	}
	return y + pitch
}

// CreateRenderer is the toolkit's.
func (r *chipRow) CreateRenderer() fyne.WidgetRenderer { return &chipRowRenderer{r} }

type chipRowRenderer struct{ row *chipRow }

func (r *chipRowRenderer) Layout(size fyne.Size)        { r.row.lay(size.Width, true) }
func (r *chipRowRenderer) MinSize() fyne.Size           { return r.row.MinSize() }
func (r *chipRowRenderer) Objects() []fyne.CanvasObject { return r.row.chips }
func (r *chipRowRenderer) Destroy()                     {}
func (r *chipRowRenderer) Refresh() {
	r.row.lay(r.row.Size().Width, true)
	for _, chip := range r.row.chips {
		chip.Refresh()
	}
}
