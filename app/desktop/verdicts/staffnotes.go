package verdicts

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// staffNote is a word or a height beside the staff's strip.
type staffNote struct {
	text  string
	font  look.Font
	y     float32 // of the change it belongs to
	above bool    // it stands over the change, otherwise under it
	room  float32 // beside the strip
}

// noteLine is the pitch of notes.
const noteLine = 15

// drawChanges writes at each change the check that binds on its worse side, on both where neither is worse, and on the better one the
// height where the window of heights ends; where no height passes, also what keeps the best ones from it. What has no room between its
// neighbours is left out, names first.
func (s *Staff) drawChanges(sh *sheet, size fyne.Size) {
	room := func(b Band) float32 { return size.Width - stripLeft - stripWidths[b.State] - 4 }
	best := s.best()
	var ends, names []staffNote
	var lines []float32
	for i := 1; i < len(s.reading.Bands); i++ {
		below, above := s.reading.Bands[i-1], s.reading.Bands[i]
		if below.State == above.State && below.Label == above.Label {
			continue
		}
		y, long := look.Whole(s, s.at(above.From)), size.Width-stripLeft
		if below.State == above.State {
			long = stripMost + 3
		} else {
			lines = append(lines, y)
		}
		sh.box(s.noteRole(), stripLeft, y, long, 1)
		overIsBetter, underIsBetter := worseThan(below.State, above.State), worseThan(above.State, below.State)
		if !underIsBetter {
			names = append(names, staffNote{below.Label, look.Caption, y, false, room(below)})
		}
		if !overIsBetter {
			names = append(names, staffNote{above.Label, look.Caption, y, true, room(above)})
		}
		if min(below.State, above.State) == best && below.State != above.State {
			ends = append(ends, staffNote{strconv.FormatFloat(above.From, 'f', -1, 64), look.Strong, y, overIsBetter, room(above)})
		}
	}
	for _, b := range s.reading.Bands {
		if b.State == best && best != review.Pass && !slices.ContainsFunc(names, func(n staffNote) bool { return n.text == b.Label }) {
			names = append(names, staffNote{b.Label, look.Caption, look.Whole(s, (s.at(b.From)+s.at(b.To)-noteLine)/2), false, room(b)})
		}
	}
	s.writeNotes(sh, append(ends, names...), lines, size.Width)
}

// writeNotes writes the notes that meet no line and no note before them.
func (s *Staff) writeNotes(sh *sheet, notes []staffNote, lines []float32, width float32) {
	var taken []span
	for _, n := range notes {
		text := look.Wrapped(n.text, n.font, n.room)
		high := noteLine * float32(len(text))
		at := span{n.y + 1, n.y + 1 + high}
		if n.above {
			at = span{n.y - high, n.y}
		}
		cut := func(y float32) bool { return at.top < y+1 && y < at.bottom }
		if at.top < s.scale.top-staffAir || at.bottom > s.scale.bottom+staffAir || slices.ContainsFunc(taken, at.meets) || slices.ContainsFunc(lines, cut) {
			continue
		}
		taken = append(taken, at)
		role := s.noteRole()
		if n.font == look.Strong && !s.reading.Stale {
			role = look.Ink
		}
		for i, line := range text {
			sh.words(look.Shortened(line, n.font, n.room), n.font, role, fyne.TextAlignTrailing, width-2, at.top+noteLine*float32(i), noteLine)
		}
	}
}

func (s *Staff) noteRole() look.Role {
	if s.reading.Stale {
		return look.Third
	}
	return look.Second
}

func (s span) meets(other span) bool { return s.top < other.bottom && other.top < s.bottom }

// worseThan orders states as a height does: one that cannot be judged is as bad as one that fails.
func worseThan(a, b review.State) bool { return b != review.Fail && a > b }

// best is the state of the heights that are offered: where everything passes, or else where nothing fails.
func (s *Staff) best() review.State {
	best := review.Fail
	for _, b := range s.reading.Bands {
		best = min(best, b.State)
	}
	return best
}
