package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
	"mastwright/mesh/view"
)

// printing shows how each part lies on the bed, and the settings.
func (b *builder) printing() paper.Section {
	blocks := []paper.Block{}
	var row paper.Beside
	printed := b.making(parts.Printed)
	for k, i := range printed {
		row = append(row, b.onBed(i, b.assembly.Parts[i]))
		if len(row) == 2 || k == len(printed)-1 {
			blocks = append(blocks, row)
			row = nil
		}
	}
	blocks = append(blocks, paper.Heading{Text: "Print settings"}, b.settings())
	for _, m := range b.plasticNotes() {
		blocks = append(blocks, paper.Prose{Quiet: true, Text: m})
	}
	return paper.Section{Title: "Printing", Fresh: true, Blocks: blocks}
}

// onBed draws a part in its print orientation: from the corner, and square to its longer side with its layers.
func (b *builder) onBed(i int, part parts.Part) paper.Figure {
	const w, h, wide = 86.0, 46.0, 48.0
	p := draft.New(w, h)
	m := b.meshes[i].OnBed(part.Turn)
	box := m.Box()
	s := scene()
	s.Ground = view.Ground{Centre: r3.Vec{X: box.Max.X / 2, Y: box.Max.Y / 2}}
	s.Things = []view.Thing{{Surface: view.Prepare(m), Colour: s.Palette.Print}}
	shaded(p, s, s.Fit(view.Camera{Size: pixels(wide, h)}.From(view.Corner), 4*density), 0, 0)

	s.Ground.Hidden = true
	from := view.Front // across its longer side
	if box.Max.X > box.Max.Y {
		from = view.Side
	}
	c := s.Fit(view.Camera{Size: pixels(w-wide-12, h-12)}.From(from), density)
	at := shaded(p, s, c, wide+4, 4)
	low, high := at(box.Min), at(box.Max)
	bed := low.Y
	p.Line(0.5, paper.Ink, paper.Point{X: wide + 2, Y: bed}, paper.Point{X: w - 7, Y: bed})
	p.Text(paper.Point{X: (wide + w - 5) / 2, Y: bed + 4}, paper.Middle, draft.Small, paper.Ink, "bed")
	left, right := min(low.X, high.X), max(low.X, high.X)
	if rise := bed - high.Y; rise > 2 { // a few layers as lines at the side
		n := int(max(3, min(9, rise/1.6)))
		for k := range n {
			y := bed - rise*(float64(k)+0.5)/float64(n)
			p.Line(draft.Thin, paper.Third, paper.Point{X: left - 2.6, Y: y}, paper.Point{X: left - 0.6, Y: y})
		}
	}
	p.Dimension(draft.Dimension{From: paper.Point{X: right, Y: bed}, To: paper.Point{X: right, Y: high.Y}, Away: paper.Point{X: 4}, Text: millimetres(box.Max.Z)})
	p.Balloon(paper.Point{X: 3.2, Y: 3.2}, paper.Point{X: 3.2, Y: 3.2}, b.numberOf(i))
	supports := "No supports."
	if part.Printing.Supports {
		supports = fmt.Sprintf("Supports: it reaches out %s mm beyond 45°.", millimetres(part.Printing.Overhang))
	}
	if !part.Printing.Fits {
		supports = "DOES NOT FIT THE BED. " + supports
	}
	caption := fmt.Sprintf("%d %s: %s, %s mm. %s", b.numberOf(i), worded(part.Name), part.Orientation, size(part.Box), supports)
	return paper.Figure{Drawing: p.Drawing, Caption: caption, Words: "How the part lies on the bed; its layers are level."}
}

// settings are the print settings in the words of the trade.
func (b *builder) settings() paper.Table {
	doc := b.Doc
	t := paper.Table{Columns: []paper.Column{{Title: "Setting", Share: 40}}}
	rows := [][]string{{"Material"}, {"Lies"}, {"Line width, mm"}, {"Layer height, mm"}, {"Wall lines (outlines)"}, {"Solid layers, bottom and top"}, {"Infill"},
		{"Supports"}, {"Speed of the outer wall, mm/s"}, {"Holes made wider by, mm"}, {"Volume, mm³"}, {"Mass of one"}, {"Copies"}}
	for _, i := range b.making(parts.Printed) {
		p := b.assembly.Parts[i]
		t.Columns = append(t.Columns, paper.Column{Title: fmt.Sprintf("%d %s", b.numberOf(i), worded(p.Name)), Share: 45})
		material := b.materialOf(p.Material)
		supports := "none"
		if p.Printing.Supports {
			supports = "from the bed, where it hangs over"
		}
		for k, text := range []string{
			material.Title, p.Orientation, millimetres2(doc.Print.LineWidth.Millimetres()), millimetres2(doc.Print.Layer.Millimetres()), b.walls(p),
			fmt.Sprint(doc.Print.Skins), fmt.Sprintf("%s %%", number(float64(doc.Print.Infill)*100)), supports, number(doc.Print.Speed.MetresPerSecond() * 1e3),
			millimetres2(doc.Print.HoleAdd.Millimetres()) + " already in the file", number(p.Body.Volume), b.massOf(p), fmt.Sprint(max(p.Copies, 1)),
		} {
			rows[k] = append(rows[k], text)
		}
	}
	for _, r := range rows {
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(r...)})
	}
	return t
}

// walls is how many lines go round a part: as many as fill the mast's wall, and no fewer than foot and tray want.
func (b *builder) walls(p parts.Part) string {
	lines := b.Doc.Print.Walls
	width := b.Doc.Print.LineWidth.Millimetres()
	if p.Name != "mast" || !(width > 0) {
		return fmt.Sprint(lines)
	}
	wall := b.Doc.Mast.Wall.Millimetres()
	fill := int(math.Ceil(wall/width/2 - 1e-9)) // outlines run along both faces of the wall
	return fmt.Sprintf("%d (the %s mm wall is solid with %d)", max(lines, fill), millimetres(wall), fill)
}

// millimetres2 writes a length to a hundredth.
func millimetres2(x float64) string { return number(math.Round(x*100) / 100) }

// plasticNotes are what the materials want of the builder.
func (b *builder) plasticNotes() []string {
	var out []string
	seen := map[string]bool{}
	for _, i := range b.making(parts.Printed) {
		m := b.materialOf(b.assembly.Parts[i].Material)
		if seen[m.ID] {
			continue
		}
		seen[m.ID] = true
		text := m.Title + ":"
		for _, n := range []string{m.Notes, m.Dust} {
			if n != "" {
				text += " " + sentence(n)
			}
		}
		if m.Conducts {
			text += " It conducts: keep bare boards and antennas off it."
		}
		if text != m.Title+":" {
			out = append(out, text)
		}
	}
	return append(out, "Dry the plastic as its maker says, and print parts that belong together from one spool: the figures hold for one spool's plastic. Temperatures are the maker's.")
}
