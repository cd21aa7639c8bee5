package desktop

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// fact is a line of a table: what, its figure, and where it is from.
type fact struct{ what, value, origin string }

// facts is a small table under a heading.
type facts struct {
	widget.BaseWidget

	heading string
	list    []fact
}

const (
	factsTop   = 26
	factsPitch = 22
)

func newFacts(heading string) *facts {
	f := &facts{heading: heading}
	f.ExtendBaseWidget(f)
	return f
}

func (f *facts) set(list []fact) {
	f.list = list
	f.Refresh()
}

// MinSize is that of its rows; without any there is no heading either.
func (f *facts) MinSize() fyne.Size {
	if len(f.list) == 0 {
		return fyne.NewSize(200, 0)
	}
	return fyne.NewSize(200, factsTop+factsPitch*float32(len(f.list)))
}

// CreateRenderer is the toolkit's.
func (f *facts) CreateRenderer() fyne.WidgetRenderer { return &factsRenderer{facts: f} }

type factsRenderer struct {
	facts   *facts
	objects []fyne.CanvasObject
}

func (r *factsRenderer) Layout(size fyne.Size) {
	r.objects = nil
	if size.Width <= 0 || len(r.facts.list) == 0 {
		return
	}
	words := func(text string, font look.Font, role look.Role, align fyne.TextAlign, x, y, width, height float32) {
		line := look.Words(look.Shortened(text, font, width), font, role)
		look.Lay(line, align, x, y, height)
		r.objects = append(r.objects, line)
	}
	words(r.facts.heading, look.Strong, look.Ink, fyne.TextAlignLeading, 0, 0, size.Width, 20)
	originWidth := float32(0)
	for _, f := range r.facts.list {
		originWidth = max(originWidth, look.Caption.Width(f.origin)+1)
	}
	for i, f := range r.facts.list {
		y := factsTop + factsPitch*float32(i)
		right := size.Width
		if originWidth > 1 {
			right -= originWidth + 10
		}
		what, value := look.Body.Width(f.what)+1, look.Body.Width(f.value)+1
		if over := what + value + 10 - right; over > 0 {
			if figure := strings.ContainsAny(f.value, "0123456789"); figure {
				what -= over
			} else {
				value -= over
			}
		}
		words(f.what, look.Body, look.Ink, fyne.TextAlignLeading, 0, y, what, factsPitch)
		words(f.value, look.Body, look.Ink, fyne.TextAlignTrailing, right, y, value, factsPitch)
		role := look.Second
		if f.origin == "not answered" {
			role = look.NoDataWord
		}
		words(f.origin, look.Caption, role, fyne.TextAlignLeading, right+10, y, originWidth, factsPitch)
	}
}

func (r *factsRenderer) MinSize() fyne.Size           { return r.facts.MinSize() }
func (r *factsRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *factsRenderer) Destroy()                     {}
func (r *factsRenderer) Refresh() {
	r.Layout(r.facts.Size())
	canvas.Refresh(r.facts)
}

// capital begins a sentence.
func capital(text string) string {
	for i, letter := range text {
		return strings.ToUpper(string(unicode.ToUpper(letter))) + text[i+len(string(letter)):]
	}
	return text
}
