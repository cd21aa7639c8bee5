package look

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Words returns one line of text to be drawn by a widget's own renderer, which places it with Lay.
func Words(text string, font Font, role Role) *canvas.Text {
	return &canvas.Text{Text: text, TextSize: font.Size(), TextStyle: font.Style(), Color: Color(role)}
}

// Lay puts a line of text with its left end, its middle or its right end at x and its line box in the middle of a row, always on whole
// pixels: a text between pixels is blurred.
func Lay(text *canvas.Text, align fyne.TextAlign, x, top, height float32) {
	size := text.MinSize()
	switch align {
	case fyne.TextAlignCenter:
		x -= size.Width / 2
	case fyne.TextAlignTrailing:
		x -= size.Width
	}
	text.Alignment = fyne.TextAlignLeading
	text.Move(fyne.NewPos(Whole(text, x), Whole(text, top+(height-size.Height)/2)))
	text.Resize(size)
}

// Whole rounds a length to whole pixels of the canvas an object is on.
func Whole(object fyne.CanvasObject, length float32) float32 {
	scale := float32(1)
	if shown := fyne.CurrentApp().Driver().CanvasForObject(object); shown != nil {
		scale = shown.Scale()
	}
	return float32(math.Round(float64(length*scale))) / scale
}

// Label is one line of text. It is as wide as its text; where it is given less, the text is shortened with an ellipsis.
type Label struct {
	widget.BaseWidget

	Text  string
	Font  Font
	Role  Role // Ink when empty
	Align fyne.TextAlign
}

// NewLabel returns a line of text.
func NewLabel(text string, font Font, role Role) *Label {
	l := &Label{Text: text, Font: font, Role: role}
	l.ExtendBaseWidget(l)
	return l
}

// SetText changes what is written.
func (l *Label) SetText(text string) {
	if l.Text != text {
		l.Text = text
		l.Refresh()
	}
}

// MinSize is that of the whole text on a line of the font's pitch.
func (l *Label) MinSize() fyne.Size {
	return fyne.NewSize(ceil(l.Font.Width(l.Text)), l.Font.Pitch())
}

// CreateRenderer is the toolkit's.
func (l *Label) CreateRenderer() fyne.WidgetRenderer {
	text := Words("", l.Font, orInk(l.Role))
	r := &labelRenderer{label: l, text: text}
	r.Refresh()
	return r
}

type labelRenderer struct {
	still
	label *Label
	text  *canvas.Text
}

func (r *labelRenderer) Layout(size fyne.Size) {
	r.text.Text = Shortened(r.label.Text, r.label.Font, size.Width)
	x := float32(0)
	switch r.label.Align {
	case fyne.TextAlignCenter:
		x = size.Width / 2
	case fyne.TextAlignTrailing:
		x = size.Width
	}
	Lay(r.text, r.label.Align, x, 0, size.Height)
	r.text.Refresh()
}

func (r *labelRenderer) MinSize() fyne.Size { return r.label.MinSize() }
func (r *labelRenderer) Refresh() {
	r.text.TextSize, r.text.TextStyle = r.label.Font.Size(), r.label.Font.Style()
	r.text.Color = Color(orInk(r.label.Role))
	r.Layout(r.label.Size())
}
func (r *labelRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.text} }

// Shortened returns a text that fits a width, with an ellipsis where it had to be cut.
func Shortened(text string, font Font, width float32) string {
	if width <= 0 || font.Width(text) <= width+0.5 {
		return text
	}
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		if cut := strings.TrimRight(string(letters[:n]), " ,;") + "…"; font.Width(cut) <= width {
			return cut
		}
	}
	return "…"
}

// Wrapped breaks a text into lines no wider than a width: at spaces, and inside a word only where it is wider than a line by itself.
// Newlines in the text are kept.
func Wrapped(text string, font Font, width float32) []string {
	var lines []string
	for _, paragraph := range strings.Split(text, "\n") {
		lines = append(lines, wrapped(paragraph, font, width)...)
	}
	return lines
}

func wrapped(paragraph string, font Font, width float32) []string {
	var lines []string
	line := ""
	for _, word := range glued(strings.Split(paragraph, " ")) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		if font.Width(next) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for font.Width(word) > width && len([]rune(word)) > 1 {
			n := fitting(word, font, width)
			lines = append(lines, word[:n])
			word = word[n:]
		}
		line = word
	}
	return append(lines, line)
}

// glued puts a figure and its unit together, so that no line begins with "Hz".
func glued(words []string) []string {
	var out []string
	for _, word := range words {
		if n := len(out) - 1; n >= 0 && endsInDigit(out[n]) && len(word) > 0 && len([]rune(word)) <= 4 && !endsInDigit(word) {
			out[n] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

func endsInDigit(word string) bool {
	return word != "" && word[len(word)-1] >= '0' && word[len(word)-1] <= '9'
}

// fitting is how many bytes of a word fit a width, one letter at least; a path or a name in parts breaks behind a part where that leaves half
// of the line.
func fitting(word string, font Font, width float32) int {
	last := 0
	for n := range word {
		if n > 0 && font.Width(word[:n]) > width {
			break
		}
		last = n
	}
	if last == 0 {
		for n := range word {
			if n > 0 {
				return n
			}
		}
		return len(word)
	}
	if part := strings.LastIndexAny(word[:last], "/-_") + 1; part > last/2 {
		return part
	}
	return last
}

func orInk(role Role) Role {
	if role == "" {
		return Ink
	}
	return role
}

func ceil(v float32) float32 { return float32(math.Ceil(float64(v))) }

// still is the part of a renderer that has nothing to end.
type still struct{}

func (still) Destroy() {}
