package record

import (
	"bytes"
	"io"
	"slices"
	"strings"
)

// headSize is how much of a table is looked at to learn its form.
const headSize = 1 << 18

// InventedMark begins the first comment of a file that was made up, not measured.
const InventedMark = "invented"

// layout is the form of a table.
type layout struct {
	mark         byte // between fields
	fields       int
	header       []string // names of the columns; nil when there is no header
	line         int      // last line before the numbers, from 0
	decimalComma bool
	invented     bool
}

// textLine is a line and its number from 1.
type textLine struct {
	text []byte
	n    int
}

// look learns the form of a table from its beginning. Most of its later lines tell the mark and the number of fields; the
// first line of that many fields without a number in it is the header.
func look(head []byte, whole bool) layout {
	l := newLines(bytes.NewReader(head))
	var all, comments []textLine
	for {
		text, err := l.next()
		if err == io.EOF || err == nil && l.cut && !whole && len(all) > 0 {
			break
		}
		if err != nil || len(bytes.TrimSpace(text)) == 0 {
			continue
		}
		if isComment(text) {
			comments = append(comments, textLine{bytes.Clone(text), l.n})
			continue
		}
		all = append(all, textLine{bytes.Clone(text), l.n})
	}
	f := layout{mark: ',', fields: 1}
	if len(comments) > 0 {
		words := strings.TrimLeft(string(comments[0].text), "#\" \t")
		f.invented = len(words) >= len(InventedMark) && strings.EqualFold(words[:len(InventedMark)], InventedMark)
	}
	late := all[len(all)/2:]
	for _, mark := range []byte{'\t', ';', ','} {
		with := 0
		for _, x := range late {
			if p, _ := split(nil, x.text, mark); len(p) > 1 {
				with++
			}
		}
		if with > 0 && with*5 >= len(late)*4 {
			f.mark = mark
			break
		}
	}
	f.decimalComma = f.mark != ','
	counts := map[int]int{}
	for _, x := range late {
		p, _ := split(nil, x.text, f.mark)
		counts[len(p)]++
	}
	for n, c := range counts {
		if c > counts[f.fields] || c == counts[f.fields] && n > f.fields {
			f.fields = n
		}
	}
	for _, x := range all {
		p, _ := split(nil, x.text, f.mark)
		if d := len(p) - f.fields; d < -1 || d > 1 {
			continue
		}
		if slices.ContainsFunc(p, func(b []byte) bool { _, ok := number(b, f.decimalComma); return ok }) {
			if len(p) != f.fields {
				continue
			}
			f.header, f.line = headerAbove(x.n, f, comments), x.n-1
			return f
		}
		f.header, f.line = names(p), x.n
		return f
	}
	return f
}

// headerAbove is the comment just before a line when it names as many columns as the table has.
func headerAbove(n int, f layout, comments []textLine) []string {
	for _, c := range comments {
		p, _ := split(nil, bytes.TrimLeft(c.text, "# \t"), f.mark)
		if c.n == n-1 && len(p) == f.fields && f.fields > 1 {
			return names(p)
		}
	}
	return nil
}

func names(fields [][]byte) []string {
	s := make([]string, len(fields))
	for i, b := range fields {
		s[i] = strings.ReplaceAll(string(b), `""`, `"`)
	}
	return s
}
