package sheet

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
)

// item is a line of the parts list: a number in a circle and what it stands for.
type item struct {
	number  int
	part    int // index of a part, or -1
	screw   int // index of a group of screws, or -1
	fitting int // index of a fitting, or -1
	nut     bool
	name    string
}

// list numbers what the mount is put together from: parts, then screws with their nuts, what else is bought, and the receiver.
func (b *builder) list() []item {
	var out []item
	add := func(part, screw, fitting int, nut bool, name string) {
		out = append(out, item{len(out) + 1, part, screw, fitting, nut, name})
	}
	for i, p := range b.assembly.Parts {
		add(i, -1, -1, false, p.Name)
	}
	for i, u := range b.assembly.Screws {
		add(-1, i, -1, false, u.For+" screw")
		if u.Nut {
			add(-1, i, -1, true, u.For+" nut")
		}
	}
	for i, f := range b.assembly.Fittings {
		add(-1, -1, i, false, f.Name)
	}
	add(-1, -1, -1, false, "receiver")
	return out
}

// numberOf is the number of a part.
func (b *builder) numberOf(part int) int { return part + 1 }

// making are the parts that come about in one of some ways.
func (b *builder) making(ways ...parts.Making) []int {
	var out []int
	for i, p := range b.assembly.Parts {
		if slices.Contains(ways, p.Making) {
			out = append(out, i)
		}
	}
	return out
}

// partsTable lists what is printed.
func (b *builder) partsTable() paper.Table {
	t := paper.Table{Columns: []paper.Column{
		{Title: "No.", Share: 5}, {Title: "Part", Share: 11}, {Title: "Make", Share: 7, Right: true}, {Title: "Material", Share: 19}, {Title: "Mass each", Share: 11, Right: true},
		{Title: "Lies", Share: 11}, {Title: "Box as printed, mm", Share: 26}, {Title: "Notes", Share: 58},
	}}
	for _, i := range b.making(parts.Printed) {
		p := b.assembly.Parts[i]
		notes := b.notes(p)
		if !p.Printing.Fits {
			notes = fmt.Sprintf("DOES NOT FIT THE BED: it needs %s. ", size(p.Printing.Bed)) + notes
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{
			{Text: fmt.Sprint(b.numberOf(i)), Strong: true}, {Text: worded(p.Name)}, {Text: fmt.Sprint(max(p.Copies, 1))}, {Text: b.materialOf(p.Material).Title},
			{Text: b.massOf(p)}, {Text: p.Orientation}, {Text: size(p.Box)}, {Text: notes},
		}})
	}
	return t
}

// cutTable lists what is cut from sheet, and from stock to length.
func (b *builder) cutTable() paper.Table {
	t := paper.Table{Columns: []paper.Column{
		{Title: "No.", Share: 5}, {Title: "Part", Share: 11}, {Title: "Make", Share: 7, Right: true}, {Title: "Material", Share: 19}, {Title: "Mass each", Share: 11, Right: true},
		{Title: "From", Share: 15}, {Title: "Cut to, mm", Share: 22}, {Title: "Notes", Share: 58},
	}}
	for _, i := range b.making(parts.Cut, parts.Stock) {
		p := b.assembly.Parts[i]
		from, to := p.Size, millimetres(p.Length)+" long"
		if p.Making == parts.Cut {
			box := p.Outline.Outer.Box()
			x, y := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
			from, to = millimetres2(p.Thickness)+" mm sheet", millimetres(max(x, y))+" × "+millimetres(min(x, y))
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{
			{Text: fmt.Sprint(b.numberOf(i)), Strong: true}, {Text: worded(p.Name)}, {Text: fmt.Sprint(max(p.Copies, 1))}, {Text: b.materialOf(p.Material).Title},
			{Text: b.massOf(p)}, {Text: from}, {Text: to, Strong: true}, {Text: b.notes(p)},
		}})
	}
	return t
}

// notes are a part's, and how many of its copies are spares.
func (b *builder) notes(p parts.Part) string {
	text := ""
	if spare := p.Copies - p.Count; spare > 0 {
		text = fmt.Sprintf("%d in the mount, %s. ", p.Count, counted(spare, "spare", "spares"))
	}
	for _, n := range p.Notes {
		text += sentence(n) + " "
	}
	return text
}

// massOf is the mass of one such part, and that it rests on a measured density.
func (b *builder) massOf(p parts.Part) string {
	text := quantity(p.Mass(b.materialOf(p.Material).Density.Typical).Grams(), "g")
	if b.measuredOf(p.Material, "density") {
		text += " (measured density)"
	}
	return text
}

func size(v r3.Vec) string {
	return millimetres(v.X) + " × " + millimetres(v.Y) + " × " + millimetres(v.Z)
}
