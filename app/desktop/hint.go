package desktop

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/session"
)

// hintHeight is that of the line at the foot of the window.
const hintHeight = 26

// hint is the line at the foot of the window: help of the field with the focus at the left, what was done last at the right.
type hint struct {
	widget.BaseWidget

	help, state *look.Label
}

func newHint() *hint {
	h := &hint{help: look.NewLabel("", look.Caption, look.Second), state: look.NewLabel("", look.Caption, look.Second)}
	h.state.Align = fyne.TextAlignTrailing
	h.ExtendBaseWidget(h)
	return h
}

func (h *hint) say(help string) { h.help.SetText(help) }

// tell writes how the session stands; busy is whether the wait has been noticed.
func (h *hint) tell(n *session.Snapshot, busy bool) {
	var said []string
	if n.Unkept != "" {
		said = append(said, "unsaved work is not kept: "+n.Unkept)
	}
	switch {
	case busy:
		said = append(said, "checking")
	case n.Current():
		said = append(said, "checked in "+took(n.Review.Took))
	}
	switch {
	case n.Dirty:
		said = append(said, "not saved")
	case !n.Saved.IsZero():
		said = append(said, "saved "+n.Saved.Format("15:04"))
	}
	h.state.SetText(strings.Join(said, "   "))
	h.Refresh()
}

func took(d time.Duration) string {
	if d < time.Second {
		return fmt.Sprintf("%d ms", max(1, d.Milliseconds()))
	}
	return fmt.Sprintf("%.1f s", d.Seconds())
}

// MinSize is the line's height.
func (h *hint) MinSize() fyne.Size { return fyne.NewSize(200, hintHeight) }

// CreateRenderer is the toolkit's.
func (h *hint) CreateRenderer() fyne.WidgetRenderer {
	return &hintRenderer{hint: h, ground: look.Surface(look.Ground), seam: look.Surface(look.Seam)}
}

type hintRenderer struct {
	hint         *hint
	ground, seam *look.Plain
}

func (r *hintRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.seam.Resize(fyne.NewSize(size.Width, 1))
	state := r.hint.state.MinSize().Width
	r.hint.state.Move(fyne.NewPos(size.Width-12-state, 1))
	r.hint.state.Resize(fyne.NewSize(state, size.Height-1))
	r.hint.help.Move(fyne.NewPos(12, 1))
	r.hint.help.Resize(fyne.NewSize(max(0, size.Width-36-state), size.Height-1))
}
func (r *hintRenderer) MinSize() fyne.Size { return r.hint.MinSize() }
func (r *hintRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.seam, r.hint.help, r.hint.state}
}
func (r *hintRenderer) Destroy() {}
func (r *hintRenderer) Refresh() { r.Layout(r.hint.Size()) }
