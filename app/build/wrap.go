package build

import (
	"strings"
	"unicode/utf8"
)

// Columns is the width of everything that is printed.
const Columns = 80

// Wrap breaks a text into lines of at most the Columns, each after the first indented by so many spaces. The first line begins
// after the lead, which stands where the indent would.
func Wrap(lead string, indent int, text string) string {
	var b strings.Builder
	b.WriteString(Pad(lead, indent))
	used := max(indent, utf8.RuneCountInString(lead))
	fresh := true
	for _, word := range strings.Fields(text) {
		width := utf8.RuneCountInString(word)
		switch {
		case fresh:
			fresh = false
		case used+1+width > Columns:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			used = indent
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += width
	}
	return strings.TrimRight(b.String(), " ") + "\n"
}

// Pad fills a text with spaces to a width counted in letters.
func Pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
}

// PadLeft puts the spaces before the text.
func PadLeft(text string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text))) + text
}

// Sentence ends a text with a full stop.
func Sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" || strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}
