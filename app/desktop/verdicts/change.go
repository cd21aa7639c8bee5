package verdicts

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/design/review"
)

// Edit is a field and what it becomes, as the document writes it.
type Edit struct{ Path, Text string }

// Change is a small change of the design that helps a check.
type Change struct {
	Title  string // "Pack lead: wires run twisted"
	Detail string // "3.6° instead of 16.1°"
	Edits  []Edit
}

// Levers are the changes of single leads that the review solved for to help the heading, those that meet the limit first, then by what
// they leave; none for any other check.
func Levers(v review.Verdict, compass *review.Compass) []Change {
	if v.ID != "heading" || compass == nil {
		return nil
	}
	list := slices.Clone(compass.Levers)
	slices.SortStableFunc(list, func(a, b review.Lever) int {
		switch {
		case a.Meets && !b.Meets:
			return -1
		case b.Meets && !a.Meets:
			return 1
		case a.After < b.After:
			return -1
		case b.After < a.After:
			return 1
		}
		return 0
	})
	changes := make([]Change, len(list))
	for i, l := range list {
		what := l.Path
		if f, known := design.FieldOf(l.Path); known {
			what = lower(f.Title)
		}
		c := Change{
			Title:  capital(l.Lead + ": " + what + " " + l.To),
			Detail: Number(l.After, "°") + " instead of " + Number(l.Before, "°") + " in " + l.State,
			Edits:  []Edit{{l.Path, l.To}},
		}
		if lead, twist := strings.CutSuffix(l.Path, ".pitch"); twist { // a pitch says nothing of wires that are not twisted
			c.Title = capital(l.Lead + ": wires twisted, a turn every " + l.To)
			c.Edits = []Edit{{lead + ".run", "twisted"}, {l.Path, l.To}}
		}
		if !l.Meets {
			c.Detail += ", still over the limit"
		}
		changes[i] = c
	}
	return changes
}

// changeRow is a change with its button.
type changeRow struct {
	widget.BaseWidget

	change Change
	past   bool // it is for an earlier design
	try    *look.Chip
}

func newChangeRow(c Change, try func(Change)) *changeRow {
	r := &changeRow{change: c}
	r.try = look.NewChip("Try", func() { try(c) })
	r.ExtendBaseWidget(r)
	return r
}

func (r *changeRow) setPast(past bool) {
	if r.past != past {
		r.past = past
		r.try.SetOff(past)
		r.Refresh()
	}
}

const (
	tryWidth  = 52
	tryHeight = 26
)

// HeightFor is that of the title, wrapped, over the detail.
func (r *changeRow) HeightFor(width float32) float32 {
	lines := r.lines(width)
	return max(float32(lines)*17, tryHeight) + 6
}

func (r *changeRow) lines(width float32) int {
	room := width - tryWidth - 10
	return len(look.Wrapped(r.change.Title, look.Strong, room)) + len(look.Wrapped(r.change.Detail, look.Caption, room))
}

func (r *changeRow) MinSize() fyne.Size {
	return fyne.NewSize(160, r.HeightFor(max(r.Size().Width, 160)))
}

// CreateRenderer is the toolkit's.
func (r *changeRow) CreateRenderer() fyne.WidgetRenderer {
	s := &sheet{widget: r, least: r.MinSize}
	s.draw = func(size fyne.Size) {
		room, y := size.Width-tryWidth-10, float32(0)
		title, detail := look.Ink, look.Second
		if r.past {
			title, detail = look.Third, look.Third
		}
		for _, line := range look.Wrapped(r.change.Title, look.Strong, room) {
			s.words(line, look.Strong, title, fyne.TextAlignLeading, 0, y, 17)
			y += 17
		}
		for _, line := range look.Wrapped(r.change.Detail, look.Caption, room) {
			s.words(line, look.Caption, detail, fyne.TextAlignLeading, 0, y, 16)
			y += 17
		}
		s.put(r.try, size.Width-tryWidth, 3, tryWidth, tryHeight)
	}
	return s
}
