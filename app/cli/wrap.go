package cli

import (
	"strings"
	"unicode/utf8"
)

// columns is the width of everything that is printed.
const columns = 80

// wrap breaks a text into lines of at most the columns, each after the first indented by so many spaces. The first line begins
// after the lead, which stands where the indent would.
func wrap(lead string, indent int, text string) string {
	var b strings.Builder
	b.WriteString(pad(lead, indent))
	used := max(indent, utf8.RuneCountInString(lead))
	fresh := true
	for _, word := range strings.Fields(text) {
		width := utf8.RuneCountInString(word)
		switch {
		case fresh:
			fresh = false
		case used+1+width > columns:
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

// pad fills a text with spaces to a width counted in letters.
func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
}

// padLeft puts the spaces before the text.
func padLeft(text string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text))) + text
}

// sentence ends a text with a full stop.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" || strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}
