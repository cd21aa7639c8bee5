package desktop

import (
	"context"
	"fmt"
)

// search does what takes long beside the toolkit's goroutine and tells how far it is; then it does what was found. Cancel gives it up, and
// so does another question.
func (w *Window) search(title, text string, find func(ctx context.Context, progress func(done, total int)) (then func())) {
	ctx, cancel := context.WithCancel(context.Background())
	g := newGauge()
	g.chip.Hide()
	q := w.put(title, text, 460, g, answer{"Cancel", func() { cancel(); w.hint.say("Given up: nothing was changed.") }})
	w.window.Canvas().Focus(q.chips[0])
	progress := func(done, total int) {
		w.options.Post(func() {
			if w.asked != q { // another question has taken its place
				cancel()
			}
			g.say(fmt.Sprintf("%d of %d", done, total), float64(done)/float64(max(1, total)))
		})
	}
	go func() {
		then := find(ctx, progress)
		w.options.Post(func() {
			cancel()
			if w.asked == q {
				q.leave()
				w.asked = nil
				then()
			}
		})
	}()
}
