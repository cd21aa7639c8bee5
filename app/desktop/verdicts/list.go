// Package verdicts is how a design stands, as the desktop shows it: the list of the checks hung along one plumb line, the account of the
// check that is picked, the height staff, the comparison of the materials and the list of what is still to be answered. The widgets are
// given what they show and hold nothing else; what the person does goes out by their On... functions, on the toolkit's own goroutine.
package verdicts

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"mastwright/design/review"
)

// List is the verdicts of a design: a row each, in the order of the checks whatever their states, every bar on the same three lanes. A
// thin line (good) and a heavy plumb line (limit) hang through all rows; what crosses the plumb line fails.
type List struct {
	picker

	OnPick func(id string) // another row was picked, by key or by click
	OnOpen func(id string) // a picked row was entered, by Enter or by click

	verdicts []review.Verdict
	tally    string
	notice   string
	stale    bool
	bars     []bar // as they are drawn, perhaps on their way
	glide    *fyne.Animation
	lanes    *canvas.Raster
	place    rows
}

// NewList returns a list that shows every check as not yet known.
func NewList() *List {
	l := &List{picker: picker{at: -1}}
	l.verdicts = unknown()
	l.count, l.bars = len(l.verdicts), barsOf(l.verdicts)
	l.self, l.row, l.move, l.act = l, l.rowAt, l.picked, l.open
	l.lanes = newInk(l.drawLanes)
	l.ExtendBaseWidget(l)
	return l
}

// Set shows a review that follows something committed: the bars glide to their new places.
func (l *List) Set(r review.Result) {
	from := l.bars
	l.take(r)
	if len(from) != len(l.bars) || !fyne.CurrentApp().Settings().ShowAnimations() {
		return
	}
	to := l.bars
	l.bars = from
	l.glide = fyne.NewAnimation(glideTime, func(part float32) {
		on := make([]bar, len(to))
		for i := range to {
			on[i] = to[i].between(from[i], part)
		}
		l.bars = on
		l.lanes.Refresh()
	})
	l.glide.Curve = fyne.AnimationEaseOut
	l.glide.Start()
}

// Follow shows a review while something is dragged: the bars are where they belong at once.
func (l *List) Follow(r review.Result) { l.take(r) }

const glideTime = 120 * time.Millisecond

func (l *List) take(r review.Result) {
	if l.glide != nil {
		l.glide.Stop()
		l.glide = nil
	}
	id := l.Picked()
	l.verdicts, l.tally, l.stale = r.Verdicts, Tally(r), false
	if len(r.Verdicts) == 0 {
		l.verdicts = unknown()
	}
	l.bars, l.count, l.at = barsOf(l.verdicts), len(l.verdicts), l.index(id)
	l.Refresh()
}

// unknown is every check without data, for a design that was never reviewed.
func unknown() []review.Verdict {
	var list []review.Verdict
	for _, c := range review.Checks() {
		list = append(list, review.Verdict{ID: c.ID, Title: c.Title, State: review.NoData})
	}
	return list
}

func barsOf(verdicts []review.Verdict) []bar {
	bars := make([]bar, len(verdicts))
	for i, v := range verdicts {
		bars[i] = newBar(v)
	}
	return bars
}

// SetStale shows that a new review is on its way: the figures go to the third ink until the next Set or Follow.
func (l *List) SetStale(stale bool) {
	if l.stale != stale {
		l.stale = stale
		l.Refresh()
	}
}

// SetNotice writes a sentence over the verdicts, "1 field is not understood; showing Height 92.0 mm"; none when empty.
func (l *List) SetNotice(text string) {
	if l.notice != text {
		l.notice = text
		l.Refresh()
	}
}

// Notice returns the sentence over the verdicts.
func (l *List) Notice() string { return l.notice }

// Pick picks a row without telling OnPick; none when the id is not in the list.
func (l *List) Pick(id string) {
	if at := l.index(id); at != l.at {
		l.at = at
		l.Refresh()
	}
}

// Picked returns the id of the picked row; empty when none is.
func (l *List) Picked() string {
	if l.at < 0 || l.at >= len(l.verdicts) {
		return ""
	}
	return l.verdicts[l.at].ID
}

// Next picks the next verdict that is not pass and tells OnPick, going round at the end; a step of -1 goes to the last one before. It
// reports whether there is one.
func (l *List) Next(step int) bool {
	n := len(l.verdicts)
	from := l.at
	if from < 0 && step < 0 {
		from = n
	}
	for i := 1; i <= n; i++ {
		at := ((from+step*i)%n + n) % n
		if l.verdicts[at].State != review.Pass {
			l.goTo(at)
			return true
		}
	}
	return false
}

func (l *List) index(id string) int {
	for i, v := range l.verdicts {
		if v.ID == id {
			return i
		}
	}
	return -1
}

func (l *List) rowAt(y float32) int {
	if y < l.place.top {
		return -1
	}
	return int((y - l.place.top) / l.place.height)
}

func (l *List) picked() {
	if l.OnPick != nil {
		l.OnPick(l.Picked())
	}
}

func (l *List) open() {
	if l.OnOpen != nil {
		l.OnOpen(l.Picked())
	}
}

// Row is what one row says.
type Row struct {
	ID, Name, Figure, Word string
	State                  review.State
	Picked                 bool
}

// Rows returns what is written in the list.
func (l *List) Rows() []Row {
	list := make([]Row, len(l.verdicts))
	for i, v := range l.verdicts {
		figure := "–"
		if v.State != review.NoData {
			figure = Value(v.Figure)
		}
		list[i] = Row{ID: v.ID, Name: v.Title, Figure: figure, Word: v.State.String(), State: v.State, Picked: i == l.at}
	}
	return list
}

// MinSize is that of the narrowest column, with rows that a pointer can still hit.
func (l *List) MinSize() fyne.Size {
	l.ExtendBaseWidget(l)
	return fyne.NewSize(320, 32+rowLeast*float32(len(l.verdicts))+16)
}

// CreateRenderer is the toolkit's.
func (l *List) CreateRenderer() fyne.WidgetRenderer {
	l.ExtendBaseWidget(l)
	s := &sheet{widget: l, least: l.MinSize}
	s.draw = func(size fyne.Size) { l.draw(s, size) }
	return s
}
