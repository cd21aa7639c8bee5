package desktop

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// tickHeight is the pitch of ticks.
const tickHeight = 26

// tickList is a tick for each of some parts; all are ticked until one is taken off.
type tickList struct {
	widget.BaseWidget

	names []string
	ticks []*tick
}

func newTickList() *tickList {
	l := &tickList{}
	l.ExtendBaseWidget(l)
	return l
}

func (l *tickList) set(names []string) {
	if slices.Equal(names, l.names) {
		return
	}
	l.names, l.ticks = names, nil
	for _, name := range names {
		check := widget.NewCheck(name, nil)
		check.Checked = true
		l.ticks = append(l.ticks, newTick(check))
	}
	l.Refresh()
}

// picked are the names that are ticked; nil for all of them.
func (l *tickList) picked() []string {
	picked := []string{}
	for i, t := range l.ticks {
		if t.check.Checked {
			picked = append(picked, l.names[i])
		}
	}
	if len(picked) == len(l.names) {
		return nil
	}
	return picked
}

// MinSize is that of a tick a line.
func (l *tickList) MinSize() fyne.Size { return fyne.NewSize(100, tickHeight*float32(len(l.ticks))) }

// CreateRenderer is the toolkit's.
func (l *tickList) CreateRenderer() fyne.WidgetRenderer { return &tickListRenderer{l} }

type tickListRenderer struct{ list *tickList }

func (r *tickListRenderer) Layout(size fyne.Size) {
	for i, t := range r.list.ticks {
		t.Move(fyne.NewPos(0, tickHeight*float32(i)))
		t.Resize(fyne.NewSize(size.Width, tickHeight))
	}
}
func (r *tickListRenderer) MinSize() fyne.Size { return r.list.MinSize() }
func (r *tickListRenderer) Objects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(r.list.ticks))
	for i, t := range r.list.ticks {
		objects[i] = t
	}
	return objects
}
func (r *tickListRenderer) Destroy() {}
func (r *tickListRenderer) Refresh() {
	r.Layout(r.list.Size())
	canvas.Refresh(r.list)
}

// tick puts the toolkit's tick flush with the column's edge: it keeps a padding of its own.
type tick struct {
	widget.BaseWidget
	check *widget.Check
}

func newTick(check *widget.Check) *tick {
	t := &tick{check: check}
	t.ExtendBaseWidget(t)
	return t
}

// MinSize is a line's.
func (t *tick) MinSize() fyne.Size { return fyne.NewSize(100, tickHeight) }

// CreateRenderer is the toolkit's.
func (t *tick) CreateRenderer() fyne.WidgetRenderer { return &tickRenderer{t} }

type tickRenderer struct{ tick *tick }

func (r *tickRenderer) Layout(size fyne.Size) {
	const padding = 4
	r.tick.check.Move(fyne.NewPos(-padding, 0))
	r.tick.check.Resize(fyne.NewSize(size.Width+padding, size.Height))
}
func (r *tickRenderer) MinSize() fyne.Size           { return r.tick.MinSize() }
func (r *tickRenderer) Refresh()                     { r.tick.check.Refresh() }
func (r *tickRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.tick.check} }
func (r *tickRenderer) Destroy()                     {}

// gauge is how far writing has come: the part's name, a bar, and Cancel.
type gauge struct {
	widget.BaseWidget

	name     *look.Label
	track    *look.Plain
	bar      *look.Plain
	chip     *look.Chip
	share    float64
	onCancel func()
}

func newGauge() *gauge {
	g := &gauge{name: look.NewLabel("", look.Caption, look.Second), track: look.Surface(look.FailLane), bar: look.Surface(look.Act)}
	g.chip = look.NewChip("Cancel", func() { g.onCancel() })
	g.ExtendBaseWidget(g)
	return g
}

func (g *gauge) say(part string, share float64) {
	g.share = min(max(share, 0), 1)
	g.name.SetText(part)
	g.Refresh()
}

// MinSize is that of two lines.
func (g *gauge) MinSize() fyne.Size { return fyne.NewSize(160, 40) }

// CreateRenderer is the toolkit's.
func (g *gauge) CreateRenderer() fyne.WidgetRenderer { return &gaugeRenderer{g} }

type gaugeRenderer struct{ g *gauge }

func (r *gaugeRenderer) Layout(size fyne.Size) {
	g := r.g
	chip := g.chip.MinSize()
	g.chip.Move(fyne.NewPos(size.Width-chip.Width, 8))
	g.chip.Resize(chip)
	room := size.Width - chip.Width - 12
	if !g.chip.Visible() {
		room = size.Width
	}
	g.name.Move(fyne.NewPos(0, 4))
	g.name.Resize(fyne.NewSize(room, look.Caption.Pitch()))
	g.track.Move(fyne.NewPos(0, 24))
	g.track.Resize(fyne.NewSize(room, 7))
	g.bar.Move(fyne.NewPos(0, 24))
	g.bar.Resize(fyne.NewSize(look.Whole(g, room*float32(g.share)), 7))
}
func (r *gaugeRenderer) MinSize() fyne.Size { return r.g.MinSize() }
func (r *gaugeRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.g.name, r.g.track, r.g.bar, r.g.chip}
}
func (r *gaugeRenderer) Destroy() {}
func (r *gaugeRenderer) Refresh() {
	r.Layout(r.g.Size())
	canvas.Refresh(r.g)
}
