package sheet

import (
	"fmt"
	"strings"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
	"mastwright/design"
)

// CardOptions says what a measuring card carries besides its measures.
type CardOptions struct {
	Date    string // as printed; "" for none
	Version string // of the program; "" for none
}

// measure is a box of the card: a sketch, blanks for some fields, and how to take them. Names, units and the way to take them are
// the field table's.
type measure struct {
	title  string
	group  string // what the fields' paths begin with
	rows   []reading
	how    string // path of the field whose way of measuring is told
	also   string // said besides
	sketch func(p *draft.Pen, x, y float64)
}

// reading is a line of blanks.
type reading struct {
	path  string   // of the field after the group's path; of a point, without the last letter
	parts []string // the last letters of a point's or a size's paths: a blank each
	name  string   // shorter than the field's title; "" for that
	times int      // blanks for as many readings of the same; 0 for one
}

// Card makes the measuring card: one page to take to an aircraft that has no design yet.
func Card(o CardOptions) paper.Sheet {
	p := draft.New(paper.RoomWidth, 214)
	p.Exact = true
	list := measures()
	var words strings.Builder
	for i, m := range list {
		const columns, wide, high, gap = 3, 57.6, 49.8, 2.6
		x, y := float64(i%columns)*(wide+gap), float64(i/columns)*(high+1.6)
		m.draw(p, i+1, x, y, wide, high)
		fmt.Fprintf(&words, "%d %s: %s. ", i+1, m.title, strings.Join(m.Paths(), ", "))
	}
	p.CheckBar(0, 206.4)
	p.Text(paper.Point{X: 90, Y: 208.4}, paper.Start, draft.Small, paper.Ink, "All lengths in mm: forward plus, left plus, up plus, from the middle")
	p.Text(paper.Point{X: 90, Y: 211.8}, paper.Start, draft.Small, paper.Ink, "of the motors on the main plate's top face. What is not known stays empty.")
	return paper.Sheet{
		Kind: "Measuring card", Title: "What to measure on the aircraft", Date: o.Date, Version: o.Version,
		Foot: "Pack disconnected and propellers off while you measure.",
		Sections: []paper.Section{{Blocks: []paper.Block{
			paper.Figure{Drawing: p.Drawing, Words: words.String()},
		}}},
	}
}

// CardPaths are the fields of the document that the card asks for.
func CardPaths() []string {
	var out []string
	for _, m := range measures() {
		out = append(out, m.Paths()...)
	}
	return out
}

// Paths are the fields of a measure.
func (m measure) Paths() []string {
	var out []string
	for _, r := range m.rows {
		if len(r.parts) == 0 {
			out = append(out, m.group+r.path)
		}
		for _, part := range r.parts {
			out = append(out, m.group+r.path+part)
		}
	}
	return out
}

func (m measure) draw(p *draft.Pen, number int, x, y, wide, high float64) {
	const size, small, pitch = 2.55, 2.35, 5.0
	ruler := face.NewRuler()
	p.Box(draft.Thin, paper.Third, x, y, wide, high)
	p.Strong(paper.Point{X: x + 1.6, Y: y + 4}, paper.Start, draft.Normal, paper.Act, fmt.Sprint(number))
	p.Strong(paper.Point{X: x + 6.4, Y: y + 4}, paper.Start, draft.Normal, paper.Ink, m.title)
	if m.group != "" {
		p.Add(paper.Label{At: paper.Point{X: x + 6.4, Y: y + 6.9}, Text: strings.TrimSuffix(m.group, "."), Size: 2.2, Weight: paper.Mono, Ink: paper.Third})
	}
	m.sketch(p, x+1.5, y+8)
	var how []string
	if f, ok := design.FieldOf(m.how); ok && f.Measure != "" {
		how = ruler.Lines(f.Measure, paper.Regular, small, wide-3.2)
	}
	if m.also != "" {
		how = append(how, ruler.Lines(m.also, paper.Regular, small, wide-3.2)...)
	}
	base := y + high - 1.6 - float64(len(how)-1)*small*1.25
	for i, line := range how {
		p.Text(paper.Point{X: x + 1.6, Y: base + float64(i)*small*1.25}, paper.Start, small, paper.Second, line)
	}
	at := base - small*1.3 - float64(len(m.rows)-1)*pitch - 0.6
	for _, r := range m.rows {
		m.row(p, ruler, r, x+1.6, at, wide-3.2, size)
		at += pitch
	}
}

// row draws a field's name, its blanks and its unit.
func (m measure) row(p *draft.Pen, ruler *face.Ruler, r reading, x, y, wide, size float64) {
	path := m.group + r.path
	if len(r.parts) > 0 {
		path += r.parts[0]
	}
	f, _ := design.FieldOf(path)
	name := f.Title
	if r.name != "" {
		name = r.name
	}
	unit := f.Unit
	if unit == "" {
		unit = map[bool]string{true: f.Kind.Symbol()}[f.Form == design.Quantity]
	}
	right := x + wide
	if unit != "" {
		p.Text(paper.Point{X: right, Y: y}, paper.End, size, paper.Second, unit)
		right -= max(ruler.Width(unit, paper.Regular, size)+1, 6)
	}
	blanks := max(len(r.parts), r.times, 1)
	each := map[bool]float64{true: 15, false: 10.6}[blanks == 1]
	from := right - each*float64(blanks)
	if len(f.Choices) > 0 && f.Form == design.Choice {
		p.Text(paper.Point{X: x, Y: y}, paper.Start, size, paper.Ink, name+": "+strings.Join(f.Choices, " / "))
		return
	}
	name = ruler.Shortened(name, paper.Regular, size, from-x-1)
	p.Text(paper.Point{X: x, Y: y}, paper.Start, size, paper.Ink, name)
	after := x + ruler.Width(name, paper.Regular, size) + 1.2
	if leaf := strings.TrimSuffix(r.path, "."); after+ruler.Width(leaf, paper.Mono, 2.2) < from-0.5 {
		p.Add(paper.Label{At: paper.Point{X: after, Y: y}, Text: leaf, Size: 2.2, Weight: paper.Mono, Ink: paper.Third})
	}
	for i := range blanks {
		left := from + each*float64(i) + 0.8
		if len(r.parts) > 0 {
			p.Text(paper.Point{X: left, Y: y}, paper.Start, size, paper.Second, r.parts[i])
			left += 2.2
		}
		p.Line(0.25, paper.Ink, paper.Point{X: left, Y: y + 0.6}, paper.Point{X: from + each*float64(i+1) - 0.4, Y: y + 0.6})
	}
}
