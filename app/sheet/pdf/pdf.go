// Package pdf renders a sheet as a PDF: A4 or Letter, fonts embedded, the same bytes for the same sheet.
package pdf

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
)

// Size is a size of paper.
type Size int

// The sizes.
const (
	A4     Size = iota // 210 mm by 297 mm, ISO 216
	Letter             // 8.5 in by 11 in, ANSI/ASME Y14.1
)

// Options steers Encode.
type Options struct {
	Size Size // 0 means A4
}

// Encode writes a sheet as a PDF. Letters that the fonts lack come out as question marks.
func Encode(w io.Writer, s paper.Sheet, o Options) error {
	ruler := face.NewRuler()
	counted := newWriter(ruler, s, o, 0) // a first round only counts the pages
	counted.sheet()
	if err := counted.pdf.Error(); err != nil {
		return fmt.Errorf("lay out the sheet: %w", err)
	}
	real := newWriter(ruler, s, o, counted.pdf.PageCount())
	real.sheet()
	if err := real.pdf.Output(w); err != nil {
		return fmt.Errorf("write the sheet: %w", err)
	}
	return nil
}

// The margins of a page in mm.
const (
	side   = 16.0
	head   = 20.0
	bottom = 17.0
)

// writer lays a sheet out from top to bottom.
type writer struct {
	pdf           *fpdf.Fpdf
	ruler         *face.Ruler
	content       paper.Sheet
	pages         int // 0 while they are counted
	width, height float64
	y             float64
	images        map[int]bool // widths in pixels of those that are in the file
}

func newWriter(ruler *face.Ruler, s paper.Sheet, o Options, pages int) *writer {
	name := "A4"
	if o.Size == Letter {
		name = "Letter"
	}
	f := fpdf.New("P", "mm", name, "")
	f.SetCatalogSort(true)
	f.SetCreationDate(stamp(s.Date))
	f.SetModificationDate(stamp(s.Date))
	f.SetProducer("Mastwright "+s.Version, true)
	f.SetTitle(ruler.Legible(s.Kind+": "+s.Title), true)
	f.SetLang("en")
	f.SetMargins(side, head, side)
	f.SetAutoPageBreak(false, 0)
	f.SetCellMargin(0)
	f.SetLineCapStyle("butt")
	f.SetLineJoinStyle("miter")
	for weight, family := range families {
		f.AddUTF8FontFromBytes(family, "", bytes.Clone(face.Data(paper.Weight(weight)))) // it writes into what it is given
	}
	w := &writer{pdf: f, ruler: ruler, content: s, pages: pages, images: map[int]bool{}}
	w.width, w.height = f.GetPageSize()
	return w
}

var families = [...]string{paper.Regular: "regular", paper.Medium: "medium", paper.Mono: "mono"}

// stamp is the moment that a PDF carries: the day the caller gives, or the first of the century.
func stamp(date string) time.Time {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return day
}

func (w *writer) sheet() {
	w.page()
	w.title()
	for i, s := range w.content.Sections {
		w.section(s, i == 0)
	}
}

// column is the width of what is written.
func (w *writer) column() float64 { return w.width - 2*side }

// room is the height left on the page.
func (w *writer) room() float64 { return w.height - bottom - w.y }

// page begins a page and writes its head and foot.
func (w *writer) page() {
	w.pdf.AddPage()
	n := w.pdf.PageNo()
	s := w.content
	right := w.width - side
	if n > 1 {
		title := s.Kind + ": " + s.Title
		if s.Revision != "" {
			title += ", revision " + s.Revision
		}
		space := w.column()
		if s.Alarm != "" {
			alarm := w.ruler.Shortened(s.Alarm, paper.Medium, 8.5*face.Point, 80)
			wide := w.ruler.Width(alarm, paper.Medium, 8.5*face.Point)
			w.words(alarm, right-wide, 11.9, paper.Medium, 8.5*face.Point, paper.Bad.Word())
			w.marks(paper.Bad.Mark(paper.Point{X: right - wide - 4.6, Y: 9}, 3.6), 0, 0, 1)
			space -= wide + 10
		}
		w.words(w.ruler.Shortened(title, paper.Regular, 8*face.Point, space), side, 11.9, paper.Regular, 8*face.Point, paper.Third)
		w.line(side, 14.2, right, 14.2, 0.2, paper.Seam)
	}
	foot := w.height - 9
	w.line(side, foot-4, right, foot-4, 0.2, paper.Seam)
	last := fmt.Sprintf("page %d of %d", n, w.pages)
	wide := w.ruler.Width(last, paper.Regular, 8*face.Point)
	w.words(last, right-wide, foot, paper.Regular, 8*face.Point, paper.Second)
	w.words(w.ruler.Shortened(s.Foot, paper.Regular, 8*face.Point, w.column()-wide-8), side, foot, paper.Regular, 8*face.Point, paper.Third)
	w.y = head
}

// title opens the first page.
func (w *writer) title() {
	s := w.content
	w.y = 13
	w.run(s.Kind, paper.Medium, 10*face.Point, paper.Second, 1.3)
	lines := w.ruler.Lines(s.Title, paper.Regular, 24*face.Point, w.column())
	if len(lines) > 3 {
		lines = append(lines[:2], w.ruler.Shortened(lines[2]+" "+lines[3], paper.Regular, 24*face.Point, w.column()))
	}
	for _, l := range lines {
		w.y += 9.4
		w.words(l, side, w.y, paper.Regular, 24*face.Point, paper.Ink)
	}
	w.y += 4.5
	said := ""
	for _, part := range [][2]string{{"Revision ", s.Revision}, {"", s.Date}, {"Mastwright ", s.Version}} {
		if part[1] == "" {
			continue
		}
		if said != "" {
			said += " · "
		}
		said += part[0] + part[1]
	}
	w.run(said, paper.Regular, 9*face.Point, paper.Second, 1.3)
	w.y += 1.5
	w.line(side, w.y, w.width-side, w.y, 0.35, paper.Ink)
	w.y += 4
}

// section writes a chapter. A title stays with what follows it.
func (w *writer) section(s paper.Section, first bool) {
	switch {
	case s.Fresh && !first:
		w.page()
	case !first:
		w.y += 3
	}
	if s.Title != "" {
		want := 40.0
		if len(s.Blocks) > 0 {
			want = 14 + w.least(s.Blocks[0])
		}
		w.keep(want)
		w.font(paper.Regular, bodySize)
		w.pdf.Bookmark(w.ruler.Legible(s.Title), 0, w.y)
		w.y += 5.2
		w.words(w.ruler.Shortened(s.Title, paper.Medium, 15*face.Point, w.column()), side, w.y, paper.Medium, 15*face.Point, paper.Ink)
		w.y += 4.6
	}
	for i, b := range s.Blocks {
		if h, ok := b.(paper.Heading); ok {
			want := 12.0
			if i+1 < len(s.Blocks) {
				want += w.least(s.Blocks[i+1])
			}
			w.keep(want)
			w.heading(h)
			continue
		}
		w.block(b)
	}
}

// keep begins a new page where less than a height is left on this one.
func (w *writer) keep(height float64) {
	if w.room() < min(height, w.height-head-bottom) {
		w.page()
	}
}

// words writes a line, its baseline at y.
func (w *writer) words(text string, x, y float64, weight paper.Weight, size float64, ink paper.Colour) {
	w.font(weight, size)
	w.ink(ink)
	w.pdf.Text(x, y, text)
}

func (w *writer) font(weight paper.Weight, size float64) {
	w.pdf.SetFont(families[weight], "", size/face.Point)
}

func (w *writer) ink(c paper.Colour) {
	r, g, b := c.RGB()
	w.pdf.SetTextColor(int(r), int(g), int(b))
}

func (w *writer) line(x1, y1, x2, y2, width float64, c paper.Colour) {
	r, g, b := c.RGB()
	w.pdf.SetDrawColor(int(r), int(g), int(b))
	w.pdf.SetLineWidth(width)
	w.pdf.Line(x1, y1, x2, y2)
}

func (w *writer) fill(c paper.Colour, x, y, wide, high float64) {
	r, g, b := c.RGB()
	w.pdf.SetFillColor(int(r), int(g), int(b))
	w.pdf.Rect(x, y, wide, high, "F")
}

// run writes a paragraph over the whole column, over pages where it must.
func (w *writer) run(text string, weight paper.Weight, size float64, ink paper.Colour, leading float64) {
	for _, l := range w.ruler.Lines(text, weight, size, w.column()) {
		w.keep(size * leading)
		w.y += size * leading
		w.words(l, side, w.y-size*(leading-0.95), weight, size, ink)
	}
}
