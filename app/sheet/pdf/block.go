package pdf

import (
	"strconv"

	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
)

// The sizes of letters in mm, and how far lines stand apart as a share of them.
const (
	bodySize  = 9.5 * face.Point
	quietSize = 8.5 * face.Point
	monoSize  = 8 * face.Point
	leading   = 1.34
	after     = 2.0 // mm below a block
)

func (w *writer) block(b paper.Block) {
	switch b := b.(type) {
	case paper.Heading:
		w.heading(b)
	case paper.Prose:
		weight, size, ink := prose(b)
		w.run(b.Text, weight, size, ink, leading)
		w.y += after
	case paper.List:
		w.list(b)
	case paper.Table:
		w.table(b)
	case paper.Figure:
		w.beside(paper.Beside{b})
	case paper.Beside:
		w.beside(b)
	case paper.Notice:
		w.notice(b)
	case paper.Checks:
		w.checks(b)
	}
}

// least is the height of a block that a title above it must have on its page.
func (w *writer) least(b paper.Block) float64 {
	switch b := b.(type) {
	case paper.Figure:
		return w.figureHeight(b, w.column())
	case paper.Beside:
		return w.besideHeight(b)
	case paper.Table:
		if len(b.Rows) <= togetherRows {
			return w.tableHeight(b, w.columns(b, w.column()))
		}
		return 18
	case paper.Checks:
		return 30
	case paper.Heading:
		return 20
	}
	return 12
}

func prose(b paper.Prose) (paper.Weight, float64, paper.Colour) {
	switch {
	case b.Mono:
		return paper.Mono, monoSize, paper.Ink
	case b.Quiet:
		return paper.Regular, quietSize, paper.Second
	}
	return paper.Regular, bodySize, paper.Ink
}

func (w *writer) heading(h paper.Heading) {
	const size, mark = 10.5 * face.Point, 4.0
	w.y += 1.8
	indent := 0.0
	if marks := h.Tone.Mark(paper.Point{X: side, Y: w.y + 0.3}, mark); marks != nil {
		w.marks(marks, 0, 0, 1)
		indent = mark + 2
	}
	for _, l := range w.ruler.Lines(h.Text, paper.Medium, size, w.column()-indent) {
		w.y += size * 1.3
		w.words(l, side+indent, w.y-size*0.35, paper.Medium, size, h.Tone.Word())
	}
	w.y += 1.2
}

func (w *writer) list(l paper.List) {
	const indent = 6.0
	for i, item := range l.Items {
		lines := w.ruler.Lines(item, paper.Regular, bodySize, w.column()-indent)
		w.keep(min(3, float64(len(lines))) * bodySize * leading)
		for j, line := range lines {
			w.keep(bodySize * leading)
			w.y += bodySize * leading
			base := w.y - bodySize*(leading-0.95)
			switch {
			case j > 0:
			case l.Numbered:
				w.words(strconv.Itoa(i+1), side, base, paper.Medium, bodySize, paper.Second)
			default:
				w.fill(paper.Second, side+1.4, base-1.35, 1.1, 0.4)
			}
			w.words(line, side+indent, base, paper.Regular, bodySize, paper.Ink)
		}
		w.y += 0.9
	}
	w.y += after - 0.9
}

// notice writes a strip with a bar at its edge; it goes on over pages.
func (w *writer) notice(n paper.Notice) {
	const indent = 10.0
	type line struct {
		text   string
		weight paper.Weight
		size   float64
		ink    paper.Colour
	}
	lines := []line{}
	for _, t := range w.ruler.Lines(n.Title, paper.Medium, 11*face.Point, w.column()-indent-3) {
		lines = append(lines, line{t, paper.Medium, 11 * face.Point, n.Tone.Word()})
	}
	for _, text := range n.Lines {
		for i, t := range w.ruler.Lines(text, paper.Regular, bodySize, w.column()-indent-3) {
			if i == 0 {
				lines = append(lines, line{size: 1.1})
			}
			lines = append(lines, line{t, paper.Regular, bodySize, paper.Ink})
		}
	}
	const pad = 2.0
	w.keep(16)
	strip := func(high float64) {
		w.fill(n.Tone.Ground(), side, w.y, w.column(), high)
		w.fill(n.Tone.Bar(), side, w.y, 1.4, high)
	}
	strip(pad)
	w.y += pad
	for i, l := range lines {
		high := l.size * leading
		if w.room() < high+pad {
			w.page()
			strip(pad)
			w.y += pad
		}
		strip(high + 0.05) // a little over, so that no seam shows
		if i == 0 {
			w.marks(n.Tone.Mark(paper.Point{X: side + 3.6, Y: w.y + 0.2}, 4.6), 0, 0, 1)
		}
		if l.text != "" {
			w.words(l.text, side+indent, w.y+0.95*l.size, l.weight, l.size, l.ink)
		}
		w.y += high
	}
	strip(pad)
	w.y += pad + after + 0.6
}

// checks writes a list with boxes to tick and blanks to fill. An item stays on one page.
func (w *writer) checks(items paper.Checks) {
	const (
		indent = 7.0
		box    = 3.8
	)
	width := w.column() - indent
	type line struct {
		text   string
		weight paper.Weight
		size   float64
		ink    paper.Colour
	}
	for _, c := range items {
		var lines []line
		add := func(text string, weight paper.Weight, size float64, ink paper.Colour) {
			if text == "" {
				return
			}
			for _, t := range w.ruler.Lines(text, weight, size, width) {
				lines = append(lines, line{t, weight, size, ink})
			}
		}
		add(c.Do, paper.Medium, bodySize, paper.Ink)
		add(c.Expect, paper.Regular, bodySize, paper.Ink)
		rows := w.blankRows(c.Blanks, width)
		count := len(lines)
		add(c.Enter, paper.Mono, quietSize, paper.Second)
		if c.IfNot != "" {
			add("If not: "+c.IfNot, paper.Regular, quietSize, paper.Second)
		}
		high := float64(len(rows)) * blankHeight
		for _, l := range lines {
			high += l.size * leading
		}
		w.keep(high + 2.4)
		top := w.y
		w.frame(side, top+0.5, box, box, 0.35, paper.Ink)
		for i, l := range lines {
			if i == count {
				w.blanks(rows, side+indent)
			}
			if w.room() < l.size*leading {
				w.page()
			}
			w.y += l.size * leading
			w.words(l.text, side+indent, w.y-l.size*(leading-0.95), l.weight, l.size, l.ink)
		}
		if count == len(lines) {
			w.blanks(rows, side+indent)
		}
		w.y += 2.6
	}
	w.y += after - 1
}

const blankHeight = 7.0

// blankRows puts blanks side by side as many as go into a width.
func (w *writer) blankRows(blanks []paper.Blank, width float64) [][]paper.Blank {
	var rows [][]paper.Blank
	used := width + 1
	for _, b := range blanks {
		wide := w.blankWidth(b)
		if used+wide > width || len(rows) == 0 {
			rows = append(rows, nil)
			used = 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], b)
		used += wide
	}
	return rows
}

const blankLine = 22.0

func (w *writer) blankWidth(b paper.Blank) float64 {
	return w.ruler.Width(w.ruler.Legible(b.Name), paper.Regular, quietSize) + blankLine + w.ruler.Width(b.Unit, paper.Regular, quietSize) + 8
}

func (w *writer) blanks(rows [][]paper.Blank, left float64) {
	for _, row := range rows {
		w.y += blankHeight
		x, base := left, w.y-1.8
		for _, b := range row {
			name := w.ruler.Shortened(b.Name, paper.Regular, quietSize, w.column()/2)
			w.words(name, x, base, paper.Regular, quietSize, paper.Second)
			x += w.ruler.Width(name, paper.Regular, quietSize) + 1.5
			w.line(x, base+0.5, x+blankLine, base+0.5, 0.25, paper.Ink)
			x += blankLine + 1.2
			w.words(b.Unit, x, base, paper.Regular, quietSize, paper.Second)
			x += w.ruler.Width(b.Unit, paper.Regular, quietSize) + 5.3
		}
	}
}

func (w *writer) frame(x, y, wide, high, width float64, c paper.Colour) {
	r, g, b := c.RGB()
	w.pdf.SetDrawColor(int(r), int(g), int(b))
	w.pdf.SetLineWidth(width)
	w.pdf.Rect(x, y, wide, high, "D")
}
