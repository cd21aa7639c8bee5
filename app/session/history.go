package session

import (
	"bytes"
	"time"

	"mastwright/design"
)

// mostSteps is how many steps are kept for undo.
const mostSteps = 300

// state is one version of the document. It is never changed.
type state struct {
	doc  *design.Document
	text string // as a file
}

func stateOf(doc *design.Document) state {
	var b bytes.Buffer
	if err := design.Encode(&b, doc); err != nil {
		panic(err) // a buffer takes everything, and every document has a text
	}
	return state{doc, b.String()}
}

// step is what one undo takes back.
type step struct {
	title         string // "Height"
	path          string // of the one field it edits; "" for anything else
	before, after state
	at            time.Time // of its last edit
}

// history is the document with the steps that led to it.
type history struct {
	now          state
	done, undone []step // the next to take back, or to bring again, is the last
	sealed       bool   // the next edit begins a step of its own
	depth        int    // groups that are open
	group        step   // the outermost
}

// change makes another state the present one. Edits of one path within the pause are one step, and a step that changes nothing
// in the end is none. It reports whether anything changed.
func (h *history) change(to state, title, path string, at time.Time, pause time.Duration) bool {
	if to.text == h.now.text {
		return false
	}
	before := h.now
	h.now = to
	if h.depth > 0 {
		return true
	}
	n := len(h.done) - 1
	if h.sealed || path == "" || n < 0 || h.done[n].path != path || at.Sub(h.done[n].at) >= pause {
		h.push(step{title, path, before, to, at})
		return true
	}
	h.undone = nil
	h.done[n].after, h.done[n].at = to, at
	if h.done[n].before.text == to.text {
		h.done, h.sealed = h.done[:n], true
	}
	return true
}

func (h *history) push(s step) {
	h.done, h.undone, h.sealed = append(h.done, s), nil, false
	if len(h.done) > mostSteps {
		h.done = append([]step(nil), h.done[len(h.done)-mostSteps:]...)
	}
}

// begin opens a group: all that follows until its end is one step.
func (h *history) begin(title string) {
	if h.depth == 0 {
		h.group = step{title: title, before: h.now}
	}
	h.depth++
}

// end closes the innermost group.
func (h *history) end() {
	if h.depth == 0 {
		return
	}
	h.depth--
	if h.depth == 0 && h.group.before.text != h.now.text {
		h.group.after = h.now
		h.push(h.group)
	}
	h.sealed = true
}

// abandon takes back everything in the open groups and closes them.
func (h *history) abandon() {
	if h.depth > 0 {
		h.now, h.depth, h.sealed = h.group.before, 0, true
	}
}

func (h *history) endAll() {
	for h.depth > 0 {
		h.end()
	}
}

// undo takes the last step back.
func (h *history) undo() (step, bool) {
	h.endAll()
	n := len(h.done) - 1
	if n < 0 {
		return step{}, false
	}
	s := h.done[n]
	h.done, h.undone, h.now, h.sealed = h.done[:n], append(h.undone, s), s.before, true
	return s, true
}

// redo brings the last step that was taken back again.
func (h *history) redo() (step, bool) {
	h.endAll()
	n := len(h.undone) - 1
	if n < 0 {
		return step{}, false
	}
	s := h.undone[n]
	h.undone, h.done, h.now, h.sealed = h.undone[:n], append(h.done, s), s.after, true
	return s, true
}

// titles are those of the steps that undo and redo would take.
func (h *history) titles() (undo, redo string) {
	if n := len(h.done); n > 0 {
		undo = h.done[n-1].title
	}
	if h.depth > 0 && h.group.before.text != h.now.text {
		return h.group.title, ""
	}
	if n := len(h.undone); n > 0 {
		redo = h.undone[n-1].title
	}
	return undo, redo
}
