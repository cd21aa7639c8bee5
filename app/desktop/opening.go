package desktop

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/app/session"
	"mastwright/design/sizing"
)

// stand holds the staff. Where no height passes it says at the foot which checks exclude each other, and offers to look for what opens a
// window.
type stand struct {
	widget.BaseWidget

	staff *verdicts.Staff
	said  *look.Prose
	open  *look.Chip
	shut  bool
}

func newStand(staff *verdicts.Staff, open func()) *stand {
	s := &stand{staff: staff, said: look.NewProse("", look.Caption, look.Ink), open: look.NewChip("What opens it", open)}
	s.ExtendBaseWidget(s)
	s.follow(nil)
	return s
}

// follow shows whether a height passes. While another design is looked at, what is said of the last one stands, and cannot be asked.
func (s *stand) follow(h *session.Heights) {
	said := ""
	if h != nil {
		said, _, _ = strings.Cut(exclusion(h.Window), ":")
	}
	s.open.SetOff(h == nil || !h.Current)
	if said = strings.TrimSuffix(said, "."); said != s.said.Text || s.shut != (said != "") {
		s.shut = said != ""
		s.said.SetText(said)
		s.Refresh()
	}
}

// exclusion is which checks keep every height from passing; "" where one passes.
func exclusion(w sizing.Window) string {
	if words := w.Words(); len(w.Exclude) > 0 && len(words) > 1 {
		return words[1]
	}
	return ""
}

// MinSize is the staff's.
func (s *stand) MinSize() fyne.Size { return s.staff.MinSize() }

// CreateRenderer is the toolkit's.
func (s *stand) CreateRenderer() fyne.WidgetRenderer { return &standRenderer{s} }

type standRenderer struct{ s *stand }

func (r *standRenderer) Layout(size fyne.Size) {
	const side, air, chip = 6, 8, 26
	s, foot := r.s, float32(0)
	s.said.Hidden, s.open.Hidden = !s.shut, !s.shut
	if s.shut {
		width := size.Width - 2*side
		text := s.said.HeightFor(width)
		foot = text + chip + 2*air
		s.said.Move(fyne.NewPos(side, size.Height-foot))
		s.said.Resize(fyne.NewSize(width, text))
		s.open.Move(fyne.NewPos(side, size.Height-chip-air))
		s.open.Resize(fyne.NewSize(width, chip))
	}
	s.staff.Resize(fyne.NewSize(size.Width, max(0, size.Height-foot)))
}
func (r *standRenderer) MinSize() fyne.Size { return r.s.MinSize() }
func (r *standRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.staff, r.s.said, r.s.open}
}
func (r *standRenderer) Destroy() {}
func (r *standRenderer) Refresh() {
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
}

// unshut looks for the smallest change besides the height after which a height passes.
func (w *Window) unshut() {
	w.desk.Settle()
	h := w.shown.Heights
	if said := notice(w.shown); said != "" || h == nil || !h.Current || exclusion(h.Window) == "" {
		if said == "" {
			said = "There is a height that passes, or it is still being looked for: see the staff."
		}
		w.hint.say(said)
		return
	}
	serial := w.shown.Serial
	w.search("Looking for what opens a height", exclusion(h.Window)+" Every other field is tried at heights that it helps. It takes some seconds to a minute.",
		func(ctx context.Context, progress func(done, total int)) func() {
			found, err := w.session.Opening(ctx, progress)
			return func() { w.unshutBy(serial, found, err) }
		})
}

// unshutBy says what opens a window for a document, and offers it.
func (w *Window) unshutBy(serial uint64, found sizing.Window, err error) {
	switch {
	case err != nil:
		w.tellPerson("Nothing was found", capital(err.Error()))
	case w.session.Snapshot().Serial != serial:
		w.hint.say("The design was changed meanwhile: nothing was applied. Look again.")
	case found.Opening == nil:
		w.put("No single change opens a height", exclusion(found)+" No other field does it alone. Repair the checks one by one, or let everything be moved at once.", 460, nil,
			answer{"Find the lightest that passes", w.lighten}, answer{label: "Close"})
	default:
		words := found.Opening.Words
		q := w.put("What opens a height", words, 460, w.changes(found.Opening.Changes, nil),
			answer{"Apply", func() { w.take("Window opened", words, found.Opening.Changes) }}, answer{label: "Leave it as it is"})
		w.window.Canvas().Focus(q.chips[0])
	}
}
