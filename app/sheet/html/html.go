// Package html renders a sheet as one HTML file that needs no other: pictures are data, drawings are inline SVG in millimetres, and
// every element is closed, so that a reader of XML reads it too.
package html

import (
	"bufio"
	"encoding/base64"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"mastwright/app/sheet/paper"
)

// Encode writes a sheet as HTML.
func Encode(w io.Writer, s paper.Sheet) error {
	out := &writer{Writer: bufio.NewWriter(w)}
	out.sheet(s)
	if err := out.Flush(); err != nil {
		return fmt.Errorf("write the sheet: %w", err)
	}
	return nil
}

// writer keeps the first error until Flush, as bufio does.
type writer struct{ *bufio.Writer }

func (w *writer) say(format string, args ...any) { fmt.Fprintf(w, format, args...) }

// text is words as they may stand in an element or in a quoted attribute; letters that XML does not allow are left out.
func text(s string) string {
	s = strings.Map(func(c rune) rune {
		if c < ' ' && c != '\t' && c != '\n' || c == 0xFFFE || c == 0xFFFF {
			return -1
		}
		return c
	}, strings.ToValidUTF8(s, "?"))
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;").Replace(s)
}

// style is the look: that of the paper, within a column that a screen of any width can hold.
const style = `
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0 auto;padding:24px 20px 40px;max-width:190mm;background:#fff;color:#1b2322;font:15px/1.45 Go,"Segoe UI","Helvetica Neue",Arial,"DejaVu Sans",sans-serif}
h1{font-weight:400;font-size:34px;line-height:1.15;margin:0 0 6px;overflow-wrap:anywhere}
h2{font-weight:600;font-size:22px;margin:40px 0 10px}
h3{font-weight:600;font-size:16px;margin:22px 0 6px}h3.marked{display:flex;gap:8px;align-items:center;background:none}
p{margin:0 0 10px}.kind{font-weight:600;color:#48534f;margin:0}.issue{color:#48534f;border-bottom:1px solid #1b2322;padding-bottom:8px}
.quiet{color:#48534f;font-size:13.5px}.mono{font:13px/1.45 "Go Mono","DejaVu Sans Mono",Consolas,monospace;overflow-wrap:anywhere}
ul,ol{margin:0 0 12px;padding-left:24px}li{margin:0 0 4px}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:13.5px;margin:0 0 14px}
th{font-weight:600;color:#48534f;text-align:left;vertical-align:bottom;border-bottom:1px solid #1b2322;padding:4px 10px 4px 0}
td{vertical-align:top;border-bottom:1px solid #c8cfc9;padding:4px 10px 4px 0}.long{overflow-wrap:anywhere}
.right{text-align:right}.strong{font-weight:600}
figure{margin:0 0 14px;flex:0 1 auto;min-width:0}figcaption{color:#48534f;font-size:13.5px;margin-top:4px}
svg{display:block;max-width:100%;height:auto}svg.exact{max-width:none}
.beside{display:flex;gap:4mm;flex-wrap:wrap;align-items:flex-end}
.notice{border-left:5px solid #48534f;background:#f5f6f3;padding:10px 14px;margin:0 0 14px;overflow-wrap:anywhere}
.notice p{margin:0 0 4px}.notice .head{font-weight:600;font-size:17px;display:flex;gap:8px;align-items:center}
.good{background:#eef5f2}.good .strong,.notice.good .head{color:#17695a}.notice.good{border-color:#2f8d79}
.marginal{background:#f8f1e3}.marginal .strong,.notice.marginal .head{color:#7e5200}.notice.marginal{border-color:#af730b}
.bad{background:#faecee}.bad .strong,.notice.bad .head{color:#99182f}.notice.bad{border-color:#a11d33}
.unknown{background:#f5f6f3}.unknown .strong,.notice.unknown .head{color:#59655f}.notice.unknown{border-color:#77827c}
.notice.caution{border-color:#1b2322}
.checks{list-style:none;padding:0}.checks li{display:grid;grid-template-columns:26px 1fr;margin:0 0 14px;break-inside:avoid}
.checks input[type=checkbox]{width:18px;height:18px;margin:2px 0 0}.checks p{margin:0 0 3px}.do{font-weight:600}
.blank{display:inline-block;margin:2px 18px 4px 0;color:#48534f;font-size:13.5px}
.blank input{border:0;border-bottom:1px solid #1b2322;width:26mm;font:inherit;color:#1b2322;background:none}
input:focus-visible{outline:2px solid #4d3f94;outline-offset:2px}
.alarm{position:sticky;top:0;background:#a11d33;color:#fff;font-weight:600;padding:6px 14px;margin:0 0 14px}
footer{border-top:1px solid #c8cfc9;color:#66716c;font-size:13px;margin-top:32px;padding-top:8px}
@media print{body{padding:0;max-width:none;font-size:9.5pt}.fresh{break-before:page}h2,h3{break-after:avoid}figure,.notice,tr{break-inside:avoid}.alarm{position:static}table{font-size:8.5pt}}
`

func (w *writer) sheet(s paper.Sheet) {
	w.say("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n")
	w.say("<title>%s</title>\n<style>%s</style>\n</head>\n<body>\n", text(s.Kind+": "+s.Title), style)
	if s.Alarm != "" {
		w.say("<div class=\"alarm\">%s</div>\n", text(s.Alarm))
	}
	w.say("<header>\n<p class=\"kind\">%s</p>\n<h1>%s</h1>\n", text(s.Kind), text(s.Title))
	var issue []string
	for _, part := range [][2]string{{"Revision ", s.Revision}, {"", s.Date}, {"Mastwright ", s.Version}} {
		if part[1] != "" {
			issue = append(issue, text(part[0]+part[1]))
		}
	}
	w.say("<p class=\"issue\">%s</p>\n</header>\n<main>\n", strings.Join(issue, " &#160; "))
	for i, section := range s.Sections {
		class := ""
		if section.Fresh && i > 0 {
			class = ` class="fresh"`
		}
		w.say("<section%s>\n", class)
		if section.Title != "" {
			w.say("<h2>%s</h2>\n", text(section.Title))
		}
		for _, b := range section.Blocks {
			w.block(b)
		}
		w.say("</section>\n")
	}
	w.say("</main>\n<footer>%s</footer>\n</body>\n</html>\n", text(s.Foot))
}

func (w *writer) block(b paper.Block) {
	switch b := b.(type) {
	case paper.Heading:
		if marks := b.Tone.Mark(paper.Point{}, 4); marks != nil {
			w.say("<h3 class=\"marked %s\">", classes[b.Tone])
			w.drawing(paper.Drawing{Width: 4, Height: 4, Marks: marks}, "")
			w.say("<span class=\"strong\">%s</span></h3>\n", text(b.Text))
			return
		}
		w.say("<h3>%s</h3>\n", text(b.Text))
	case paper.Prose:
		class := ""
		if b.Mono {
			class = ` class="mono"`
		} else if b.Quiet {
			class = ` class="quiet"`
		}
		w.say("<p%s>%s</p>\n", class, text(b.Text))
	case paper.List:
		tag := "ul"
		if b.Numbered {
			tag = "ol"
		}
		w.say("<%s>\n", tag)
		for _, item := range b.Items {
			w.say("<li>%s</li>\n", text(item))
		}
		w.say("</%s>\n", tag)
	case paper.Table:
		w.table(b)
	case paper.Figure:
		w.figure(b)
	case paper.Beside:
		w.say("<div class=\"beside\">\n")
		for _, f := range b {
			w.figure(f)
		}
		w.say("</div>\n")
	case paper.Notice:
		w.say("<div class=\"notice %s\">\n<p class=\"head\">", classes[b.Tone])
		if marks := b.Tone.Mark(paper.Point{}, 4.6); marks != nil {
			w.drawing(paper.Drawing{Width: 4.6, Height: 4.6, Marks: marks}, "")
		}
		w.say("<span>%s</span></p>\n", text(b.Title))
		for _, line := range b.Lines {
			w.say("<p>%s</p>\n", text(line))
		}
		w.say("</div>\n")
	case paper.Checks:
		w.checks(b)
	}
}

var classes = [...]string{paper.Plain: "plain", paper.Good: "good", paper.Marginal: "marginal", paper.Bad: "bad", paper.Unknown: "unknown", paper.Caution: "caution"}

// longWord is how many letters of a word a column of a table must hold; longer ones may break anywhere.
const longWord = 22

func (w *writer) table(t paper.Table) {
	w.say("<div class=\"wide\">\n<table>\n")
	total := 0.0
	for _, c := range t.Columns {
		total += c.Share
	}
	if total > 0 {
		w.say("<colgroup>")
		for _, c := range t.Columns {
			w.say("<col style=\"width:%.1f%%\"/>", 100*c.Share/total)
		}
		w.say("</colgroup>\n")
	}
	w.say("<thead><tr>")
	for _, c := range t.Columns {
		w.say("<th scope=\"col\"%s>%s</th>", align(c), text(c.Title))
	}
	w.say("</tr></thead>\n<tbody>\n")
	for _, r := range t.Rows {
		class := ""
		if r.Tone != paper.Plain {
			class = fmt.Sprintf(" class=%q", classes[r.Tone])
		}
		w.say("<tr%s>", class)
		for i, c := range r.Cells {
			if i >= len(t.Columns) {
				break
			}
			words := text(c.Text)
			if slices.ContainsFunc(strings.Fields(c.Text), func(word string) bool { return utf8.RuneCountInString(word) > longWord }) {
				words = `<span class="long">` + words + `</span>`
			}
			if c.Strong {
				words = `<span class="strong">` + words + `</span>`
			}
			w.say("<td%s>%s</td>", align(t.Columns[i]), words)
		}
		w.say("</tr>\n")
	}
	w.say("</tbody>\n</table>\n</div>\n")
}

func align(c paper.Column) string {
	if c.Right {
		return ` class="right"`
	}
	return ""
}

func (w *writer) figure(f paper.Figure) {
	w.say("<figure>\n")
	w.drawing(f.Drawing, f.Words)
	if f.Caption != "" {
		w.say("<figcaption>%s</figcaption>\n", text(f.Caption))
	}
	w.say("</figure>\n")
}

func (w *writer) checks(items paper.Checks) {
	w.say("<ul class=\"checks\">\n")
	for _, c := range items {
		w.say("<li><input type=\"checkbox\" aria-label=\"%s\"/><div>\n<p class=\"do\">%s</p>\n", text(c.Do), text(c.Do))
		if c.Expect != "" {
			w.say("<p>%s</p>\n", text(c.Expect))
		}
		for _, b := range c.Blanks {
			w.say("<label class=\"blank\">%s <input type=\"text\"/> %s</label>\n", text(b.Name), text(b.Unit))
		}
		if c.Enter != "" {
			w.say("<p class=\"mono\">%s</p>\n", text(c.Enter))
		}
		if c.IfNot != "" {
			w.say("<p class=\"quiet\">If not: %s</p>\n", text(c.IfNot))
		}
		w.say("</div></li>\n")
	}
	w.say("</ul>\n")
}

// drawing writes a drawing as SVG. Words describe it; without them it is an ornament.
func (w *writer) drawing(d paper.Drawing, words string) {
	exact, role := "", ` aria-hidden="true"`
	if d.Exact {
		exact = ` class="exact"`
	}
	if words != "" {
		role = fmt.Sprintf(` role="img" aria-label="%s"`, text(words))
	}
	w.say("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\"%s%s>\n",
		number(d.Width), number(d.Height), number(d.Width), number(d.Height), exact, role)
	for _, m := range d.Marks {
		switch m := m.(type) {
		case paper.Stroke:
			w.stroke(m)
		case paper.Label:
			w.label(m)
		case paper.Image:
			w.say("<image x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\" href=\"data:image/png;base64,%s\"/>\n",
				number(m.At.X), number(m.At.Y), number(m.Width), number(m.Height), base64.StdEncoding.EncodeToString(m.PNG))
		}
	}
	w.say("</svg>\n")
}

func (w *writer) stroke(s paper.Stroke) {
	if len(s.Points) < 2 {
		return
	}
	w.say("<path d=\"")
	for i, p := range s.Points {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		w.say("%s%s %s", letter, number(p.X), number(p.Y))
	}
	if s.Closed {
		w.say("Z")
	}
	fill := "none"
	if s.Filled {
		fill = s.Fill.String()
	}
	w.say("\" fill=\"%s\"", fill)
	if s.Width > 0 {
		w.say(" stroke=\"%s\" stroke-width=\"%s\"", s.Line, number(s.Width))
	}
	if s.Dash > 0 {
		w.say(" stroke-dasharray=\"%s\"", number(s.Dash))
	}
	w.say("/>\n")
}

func (w *writer) label(l paper.Label) {
	font := [...]string{paper.Regular: "", paper.Medium: ` font-weight="600"`, paper.Mono: ` font-family="Go Mono, DejaVu Sans Mono, monospace"`}[l.Weight]
	anchor := [...]string{paper.Start: "", paper.Middle: ` text-anchor="middle"`, paper.End: ` text-anchor="end"`}[l.Anchor]
	turn := ""
	if l.Turn != 0 {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, number(-l.Turn), number(l.At.X), number(l.At.Y))
	}
	w.say("<text x=\"%s\" y=\"%s\" font-size=\"%s\" fill=\"%s\"%s%s%s>%s</text>\n",
		number(l.At.X), number(l.At.Y), number(l.Size), l.Ink, font, anchor, turn, text(l.Text))
}

// number is a length to a thousandth.
func number(x float64) string {
	s := strconv.FormatFloat(x, 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
