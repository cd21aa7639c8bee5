package pdf

import (
	"strings"

	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
)

const (
	cellSize  = 8.5 * face.Point
	titleSize = 8 * face.Point
	cellPad   = 1.1  // above and below
	cellGap   = 2.4  // between columns
	cellLines = 1.30 // how far lines stand apart, as a share of the size
)

// table writes a table; its titles come again on every page it goes on to.
func (w *writer) table(t paper.Table) {
	widths := w.columns(t, w.column())
	if len(t.Rows) <= togetherRows {
		w.keep(w.tableHeight(t, widths))
	}
	w.titles(t, widths)
	for _, r := range t.Rows {
		w.row(t, widths, r)
	}
	w.y += after + 0.6
}

// togetherRows is how many rows a table may have that is kept on one page.
const togetherRows = 6

// tableHeight is the height of a table on one page.
func (w *writer) tableHeight(t paper.Table, widths []float64) float64 {
	pitch := cellSize * cellLines
	titles := 0
	for i, c := range t.Columns {
		titles = max(titles, len(w.ruler.Lines(c.Title, paper.Medium, titleSize, widths[i]-cellGap)))
	}
	high := float64(titles)*titleSize*cellLines + 2*cellPad
	for _, r := range t.Rows {
		most := 0
		for i, c := range r.Cells {
			if i < len(widths) {
				most = max(most, len(w.ruler.Lines(c.Text, weightOf(c), cellSize, widths[i]-cellGap)))
			}
		}
		high += float64(most)*pitch + 2*cellPad
	}
	return high
}

// columns are the widths of a table's columns: their shares, but no narrower than the longest word of their titles where all of those
// have room.
func (w *writer) columns(t paper.Table, width float64) []float64 {
	out, least := make([]float64, len(t.Columns)), make([]float64, len(t.Columns))
	fixed := make([]bool, len(t.Columns))
	sum, needed := 0.0, 0.0
	for i, c := range t.Columns {
		for _, word := range strings.Fields(w.ruler.Legible(c.Title)) {
			least[i] = max(least[i], w.ruler.Width(word, paper.Medium, titleSize)+cellGap+0.1)
		}
		sum += c.Share
		needed += least[i]
	}
	for again := true; again; {
		again = false
		for i, c := range t.Columns {
			if fixed[i] {
				continue
			}
			out[i] = width * c.Share / sum
			if out[i] < least[i] && needed <= width {
				out[i], fixed[i], again = least[i], true, true
				width -= least[i]
				needed -= least[i]
				sum -= c.Share
				break
			}
		}
	}
	return out
}

func (w *writer) titles(t paper.Table, widths []float64) {
	var cells [][]string
	most := 0
	for i, c := range t.Columns {
		lines := w.ruler.Lines(c.Title, paper.Medium, titleSize, widths[i]-cellGap)
		most = max(most, len(lines))
		cells = append(cells, lines)
	}
	high := float64(most)*titleSize*cellLines + 2*cellPad
	w.keep(high + 8)
	x := side
	for i, lines := range cells {
		y := w.y + cellPad + float64(most-len(lines))*titleSize*cellLines
		for _, l := range lines {
			y += titleSize * cellLines
			w.words(l, w.start(x, widths[i], l, t.Columns[i].Right, paper.Medium, titleSize), y-titleSize*(cellLines-0.95), paper.Medium, titleSize, paper.Second)
		}
		x += widths[i]
	}
	w.y += high
	w.line(side, w.y, w.width-side, w.y, 0.3, paper.Ink)
}

// start is where a line of a cell begins.
func (w *writer) start(x, width float64, text string, right bool, weight paper.Weight, size float64) float64 {
	if right {
		return x + width - cellGap - w.ruler.Width(text, weight, size)
	}
	return x
}

// row writes a row on one page; one that is higher than a page goes on to the next.
func (w *writer) row(t paper.Table, widths []float64, r paper.Row) {
	cells := make([][]string, len(t.Columns))
	most := 0
	for i, c := range r.Cells {
		if i < len(cells) {
			cells[i] = w.ruler.Lines(c.Text, weightOf(c), cellSize, widths[i]-cellGap)
			most = max(most, len(cells[i]))
		}
	}
	pitch := cellSize * cellLines
	high := float64(most)*pitch + 2*cellPad
	if w.room() < high {
		w.page()
		w.titles(t, widths)
	}
	for from := 0; from < max(most, 1); {
		fit := max(1, int((w.room()-2*cellPad)/pitch))
		to := min(most, from+fit)
		part := float64(to-from)*pitch + 2*cellPad
		if r.Tone != paper.Plain {
			w.fill(r.Tone.Ground(), side, w.y, w.column(), part)
		}
		x := side
		for i, c := range r.Cells {
			if i >= len(cells) {
				break
			}
			y := w.y + cellPad
			for _, l := range cells[i][min(from, len(cells[i])):min(to, len(cells[i]))] {
				y += pitch
				ink := paper.Ink
				if c.Strong {
					ink = r.Tone.Word()
				}
				w.words(l, w.start(x, widths[i], l, t.Columns[i].Right, weightOf(c), cellSize), y-cellSize*(cellLines-0.95), weightOf(c), cellSize, ink)
			}
			x += widths[i]
		}
		w.y += part
		from = max(to, from+1)
		if from < most {
			w.page()
			w.titles(t, widths)
		}
	}
	w.line(side, w.y, w.width-side, w.y, 0.15, paper.Seam)
}

func weightOf(c paper.Cell) paper.Weight {
	if c.Strong {
		return paper.Medium
	}
	return paper.Regular
}
