package sheet

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
	"mastwright/mesh/view"
)

// item is a line of the parts list: a number in a circle and what it stands for.
type item struct {
	number int
	part   int // index of a printed part, or -1
	screw  int // index of a group of screws, or -1
	nut    bool
	name   string
}

// list numbers what the mount is put together from: printed parts, then screws with their nuts, then the receiver.
func (b *builder) list() []item {
	var out []item
	add := func(i item) {
		i.number = len(out) + 1
		out = append(out, i)
	}
	for i, p := range b.assembly.Parts {
		add(item{part: i, screw: -1, name: p.Name})
	}
	for i, u := range b.assembly.Screws {
		add(item{part: -1, screw: i, name: u.For + " screw"})
		if u.Nut {
			add(item{part: -1, screw: i, nut: true, name: u.For + " nut"})
		}
	}
	add(item{part: -1, screw: -1, name: "receiver"})
	return out
}

// numberOf is the number of a printed part.
func (b *builder) numberOf(part int) int { return part + 1 }

// explosion is the assembly pulled apart, the list of parts and the hardware.
func (b *builder) explosion() paper.Section {
	return paper.Section{Title: "Parts and assembly", Fresh: true, Blocks: []paper.Block{
		b.exploded(),
		paper.Heading{Text: "Printed parts"},
		b.partsTable(),
		paper.Heading{Text: "Hardware"},
		b.steelFree(),
		b.hardwareTable(),
	}}
}

// exploded draws the parts apart along the mast, with the numbers of the list.
func (b *builder) exploded() paper.Figure {
	const w, gap = 130.0, 14.0
	h := 97 - 4*float64(min(max(len(b.items)-8, 0), 5)) // a longer list leaves less room
	apart := len(b.assembly.Parts) > 1
	s := scene()
	anchors := map[int]r3.Vec{} // by the item's number
	moves := b.moves(gap)
	b.printed(s, func(part int) r3.Vec { return moves[part] })
	for i := range b.assembly.Parts {
		box := b.meshes[i].Box()
		at := r3.Vec{X: box.Max.X, Z: b.assembly.Foot.Rise / 2} // on a face that is seen
		switch b.assembly.Parts[i].Name {
		case "mast":
			m := b.assembly.Members[0]
			at.X = b.Doc.Mast.Outline(b.Doc.Mast.Root).X.Millimetres() / 2 * 0.85
			at.Z = (m.From.Z + m.To.Z) / 2
		case "tray":
			at.Z = b.assembly.Tray.Level - b.assembly.Tray.Thickness/2
		}
		anchors[b.numberOf(i)] = r3.Add(at, moves[i])
	}
	lift := r3.Vec{}
	if apart {
		lift = moves[len(moves)-1]
	}
	for _, it := range b.items {
		if it.screw < 0 {
			continue
		}
		u := b.assembly.Screws[it.screw]
		moved := b.carried(u, moves)
		if it.nut {
			away := gap * 0.5
			if apart && u.For == "foot" {
				away = gap * 0.25
			}
			anchors[it.number] = nuts(s, u, away, moved)
			continue
		}
		anchors[it.number] = screws(s, u, screwOut(u, gap), moved)
	}
	up := r3.Add(lift, r3.Vec{Z: gap * 1.4})
	b.receiver(s, up)
	last := b.items[len(b.items)-1]
	anchors[last.number] = r3.Add(r3.Add(b.assembly.Seat, up), r3.Vec{Z: b.Doc.Receiver.Size.Z.Millimetres() / 2})

	p := draft.New(w, h)
	c := s.Fit(view.Camera{Size: pixels(w-40, h)}.From(view.Corner), 2*density)
	at := shaded(p, s, c, 20, 0)
	balloons(p, w, h, b.items, func(n int) paper.Point { return at(anchors[n]) })
	words := "From below to above:"
	for _, it := range b.items {
		words += fmt.Sprintf(" %d %s,", it.number, it.name)
	}
	return paper.Figure{Drawing: p.Drawing, Caption: "The assembly pulled apart. The numbers are those of the lists below.", Words: words[:len(words)-1] + "."}
}

// moves are how far each printed part is moved. Of three, the mast goes up into the foot from below and the tray comes down on it.
func (b *builder) moves(gap float64) []r3.Vec {
	out := make([]r3.Vec, len(b.assembly.Parts))
	if len(out) == 1 {
		return out
	}
	for i, p := range b.assembly.Parts {
		switch p.Name {
		case "mast":
			out[i].Z = -(b.meshes[i].Box().Max.Z + gap)
		case "tray":
			out[i].Z = -b.meshes[i].Box().Min.Z + b.collarTop() + gap
		}
	}
	return out
}

// carried is how far a group of screws is moved with the part it goes into.
func (b *builder) carried(u parts.ScrewUse, moves []r3.Vec) r3.Vec {
	name := map[string]string{"foot": "foot", "foot joint": "foot", "tray joint": "tray", "receiver": "tray"}[u.For]
	for i, p := range b.assembly.Parts {
		if p.Name == name {
			return moves[i]
		}
	}
	return r3.Vec{}
}

// screwOut is how far a screw stands out of its seat.
func screwOut(u parts.ScrewUse, gap float64) float64 {
	long := max(u.Length.Millimetres(), u.Grip)
	if u.Pilot > 0 {
		return long + gap*0.6
	}
	if u.For == "receiver" {
		return long + gap*2.2
	}
	return long + gap*0.4
}

// balloons writes the numbers beside a picture, in two columns, each as high as what it names as far as the others leave room.
func balloons(p *draft.Pen, w, h float64, items []item, at func(number int) paper.Point) {
	const pitch = 7.4
	var columns [2][]item
	for _, it := range items {
		side := 0
		if at(it.number).X > w/2 || it.nut && at(it.number).X > w/2-6 {
			side = 1
		}
		columns[side] = append(columns[side], it)
	}
	for len(columns[0]) > len(columns[1])+1 {
		columns[1], columns[0] = append(columns[1], columns[0][len(columns[0])-1]), columns[0][:len(columns[0])-1]
	}
	for len(columns[1]) > len(columns[0])+1 {
		columns[0], columns[1] = append(columns[0], columns[1][len(columns[1])-1]), columns[1][:len(columns[1])-1]
	}
	for side, list := range columns {
		slices.SortStableFunc(list, func(a, b item) int {
			switch ya, yb := at(a.number).Y, at(b.number).Y; {
			case ya < yb:
				return -1
			case ya > yb:
				return 1
			}
			return 0
		})
		y := make([]float64, len(list))
		low := 4.0
		for i, it := range list {
			y[i] = max(at(it.number).Y, low)
			low = y[i] + pitch
		}
		if over := low - pitch - (h - 4); over > 0 {
			for i := len(y) - 1; i >= 0; i-- {
				y[i] -= over
				if i == 0 || y[i-1]+pitch <= y[i] {
					break
				}
				over = y[i-1] + pitch - y[i]
			}
		}
		x := []float64{6, w - 6}[side]
		for i, it := range list {
			p.Balloon(paper.Point{X: x, Y: y[i]}, at(it.number), it.number)
		}
	}
}

// partsTable lists what is printed.
func (b *builder) partsTable() paper.Table {
	t := paper.Table{Columns: []paper.Column{
		{Title: "No.", Share: 5}, {Title: "Part", Share: 9}, {Title: "Copies", Share: 7, Right: true}, {Title: "Material", Share: 19}, {Title: "Mass", Share: 11, Right: true},
		{Title: "Lies", Share: 11}, {Title: "Box as printed, mm", Share: 26}, {Title: "Notes", Share: 60},
	}}
	for i, p := range b.assembly.Parts {
		material := b.materialOf(p.Material)
		notes := ""
		for _, n := range p.Notes {
			notes += sentence(n) + " "
		}
		if !p.Printing.Fits {
			notes = fmt.Sprintf("DOES NOT FIT THE BED: it needs %s. ", size(p.Printing.Bed)) + notes
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{
			{Text: fmt.Sprint(b.numberOf(i)), Strong: true}, {Text: p.Name}, {Text: fmt.Sprint(max(p.Copies, 1))}, {Text: material.Title},
			{Text: quantity(p.Mass(material.Density.Typical).Grams(), "g")}, {Text: p.Orientation}, {Text: size(p.Box)}, {Text: notes},
		}})
	}
	return t
}

func size(v r3.Vec) string {
	return millimetres(v.X) + " × " + millimetres(v.Y) + " × " + millimetres(v.Z)
}
