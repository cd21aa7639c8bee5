package desktop

import (
	"fmt"
	"strings"
	"time"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/app/session"
	"mastwright/design/review"
	"mastwright/design/sizing"
	"mastwright/design/sizing/certainty"
)

// reading is what the staff shows of a document.
func reading(n *session.Snapshot) verdicts.Reading {
	r := verdicts.Reading{Height: n.Document.Mast.Height.Millimetres()}
	if n.Heights == nil {
		return r
	}
	r.From, r.To, r.Stale = n.Heights.Window.From, n.Heights.Window.To, !n.Heights.Current
	for _, b := range n.Heights.Window.Staff {
		r.Bands = append(r.Bands, verdicts.Band{From: b.From, To: b.To, State: b.State, Label: b.Label})
	}
	return r
}

// idle is the place on the verdicts' scale up to which a pass is not worth a change.
const idle = 0.5

// story is what the account tells of a verdict.
func (w *Window) story(v review.Verdict, compass *review.Compass) verdicts.Story {
	n := w.shown
	s := verdicts.Story{Verdict: v, Answers: n.Missing, Doubt: doubtOf(n, v.ID)}
	if n.Heights != nil {
		s.Heights, s.Gone = over(n.Heights.Window, v.ID), !n.Heights.Current
	}
	switch a := n.Advice; {
	case v.State == review.NoData:
	case v.State == review.Pass:
		if v.Figure.Place() > idle { // far from its limit there is nothing to better
			s.Changes = verdicts.Levers(v, compass)
		}
	case a != nil && a.Check == v.ID:
		s.Past = a.Serial != n.Serial
		s.Advice, s.Changes = repairsOf(a.Advice)
		if len(s.Changes) == 0 {
			s.Changes = verdicts.Levers(v, compass)
		}
	}
	s.Seeking, s.Sought = w.seeking && n.Advising && v.State != review.NoData && v.State != review.Pass, n.Sought
	return s
}

// repairsOf words an advice: what is said first, and the changes to try.
func repairsOf(a sizing.Advice) (said string, changes []verdicts.Change) {
	said = a.Words
	for _, r := range a.Repairs {
		deed, outcome, _ := strings.Cut(r.Words, ": ")
		c := verdicts.Change{Title: deed, Detail: outcome}
		for _, edit := range r.Changes {
			c.Edits = append(c.Edits, verdicts.Edit{Path: edit.Path, Text: edit.Value})
		}
		if a.Pair {
			said = fmt.Sprintf("No single change repairs %s. The best pair:", a.Title)
		}
		changes = append(changes, c)
	}
	return said, changes
}

// over says where a check passes and where it does not, from the lowest height to the highest, and the heights that all checks leave.
func over(w sizing.Window, check string) string {
	for _, c := range w.Checks {
		if c.Check != check {
			continue
		}
		said := stretches(c.Bands)
		if words := w.Words(); len(words) > 0 {
			said += "\nAll checks together: " + strings.ToLower(words[0][:1]) + words[0][1:]
		}
		return said
	}
	return ""
}

// stretches words the bands of a check, the best state first.
func stretches(bands []sizing.Band) string {
	state := func(b sizing.Band) string {
		if b.Unbuildable != "" {
			return "cannot be built"
		}
		return map[review.State]string{review.Pass: "passes", review.Marginal: "is marginal", review.Fail: "fails", review.NoData: "has no data"}[b.State]
	}
	if len(bands) == 1 {
		return fmt.Sprintf("It %s at every height from %g to %g mm.", state(bands[0]), bands[0].From, bands[0].To)
	}
	var parts []string
	for _, word := range []string{"passes", "is marginal", "fails", "has no data", "cannot be built"} {
		var ranges []string
		for i, b := range bands {
			switch {
			case state(b) != word:
			case i == 0:
				ranges = append(ranges, fmt.Sprintf("up to %g mm", b.To))
			case i == len(bands)-1:
				ranges = append(ranges, fmt.Sprintf("from %g mm", b.From))
			case b.From == b.To:
				ranges = append(ranges, fmt.Sprintf("at %g mm", b.From))
			default:
				ranges = append(ranges, fmt.Sprintf("from %g to %g mm", b.From, b.To))
			}
		}
		if len(ranges) > 0 {
			parts = append(parts, word+" "+counted(ranges))
		}
	}
	return "It " + strings.Join(parts, ", ") + "."
}

// counted joins what a sentence counts up.
func counted(parts []string) string {
	last := len(parts) - 1
	if last == 0 {
		return parts[0]
	}
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}

// doubtOf is how sure a verdict of a snapshot is.
func doubtOf(n *session.Snapshot, check string) verdicts.Doubt {
	d := verdicts.Doubt{Busy: n.Doubting, Share: n.Doubted}
	if n.Chances == nil {
		return d
	}
	d.Samples = n.Chances.Samples
	for _, c := range n.Chances.Chances {
		if c.Check == check {
			d.Chance = new(certainty.Chance)
			*d.Chance = c
		}
	}
	return d
}

// doubt asks how sure the verdicts are, or gives that up.
func (w *Window) doubt(asked bool) {
	if asked {
		w.session.Doubt()
	} else {
		w.session.Trust()
	}
}

// study asks the session for what the stage shows: the heights beside the staff, the repairs of the check that is told of.
func (w *Window) study() {
	w.session.Heights(w.open == Measure || w.open == Shape || w.open == Check)
	check := ""
	if w.open == Check && !w.termed {
		check = w.picked()
	}
	w.session.Advise(check)
}

// seek notices, after a while, that repairs are being looked for.
func (w *Window) seek(n *session.Snapshot) {
	if !n.Advising {
		w.seeking = false
		return
	}
	serial, check := n.Serial, w.picked()
	time.AfterFunc(busyAfter, func() {
		w.options.Post(func() {
			if n := w.shown; n.Advising && !w.seeking && n.Serial == serial && w.picked() == check {
				w.seeking = true
				w.tell()
			}
		})
	})
}

// try makes a change that helps a check. Its button goes with it, so the keyboard goes to the verdicts.
func (w *Window) try(change verdicts.Change) {
	edits := make([]session.Change, len(change.Edits))
	for i, e := range change.Edits {
		edits[i] = session.Change{Path: e.Path, Text: e.Text}
	}
	if err := w.session.Apply(change.Title, edits...); err != nil {
		w.complain(err)
		return
	}
	if _, onButton := w.window.Canvas().Focused().(*look.Chip); onButton {
		w.window.Canvas().Focus(w.list)
	}
	w.hint.say(change.Title + ": " + verdicts.Sentence(change.Detail) + " Undo takes it back.")
}

// overHeights says at the foot what the staff says.
func (w *Window) overHeights() {
	if h := w.shown.Heights; h != nil && h.Current {
		if words := h.Window.Words(); len(words) > 0 {
			w.hint.say(words[0])
		}
	}
}
