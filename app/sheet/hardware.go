package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
	"mastwright/materials/hardware"
)

// hardwareTable lists screws, nuts and fittings with their exact lengths, and whether each lies in the zone where nothing may be steel.
func (b *builder) hardwareTable() paper.Table {
	t := paper.Table{Columns: []paper.Column{
		{Title: "No.", Share: 5}, {Title: "Pieces", Share: 7, Right: true}, {Title: "What", Share: 53}, {Title: "Of", Share: 17}, {Title: "For", Share: 18},
		{Title: "Goes through", Share: 14, Right: true}, {Title: "From the compass", Share: 40},
	}}
	for _, it := range b.items {
		if it.fitting >= 0 {
			t.Rows = append(t.Rows, b.fittingRow(it))
		}
		if it.screw < 0 {
			continue
		}
		u := b.assembly.Screws[it.screw]
		what, through := nutName(u), ""
		if !it.nut {
			what, through = screwName(u), millimetres(u.Grip+u.Through)+" mm"
		}
		zone, tone := b.zone(u)
		t.Rows = append(t.Rows, paper.Row{Tone: tone, Cells: []paper.Cell{
			{Text: fmt.Sprint(it.number), Strong: true}, {Text: fmt.Sprint(u.Count)}, {Text: what}, {Text: fastener(u.Material).Title},
			{Text: u.For}, {Text: through}, {Text: zone, Strong: tone != paper.Plain},
		}})
	}
	return t
}

// fittingRow is a line of what is bought and is no screw.
func (b *builder) fittingRow(it item) paper.Row {
	f := b.assembly.Fittings[it.fitting]
	what := f.Name
	if f.Length > 0 {
		what += ", " + millimetres(f.Length.Millimetres()) + " mm long"
	}
	return paper.Row{Cells: []paper.Cell{{Text: fmt.Sprint(it.number), Strong: true}, {Text: fmt.Sprint(f.Count)}, {Text: capital(what)},
		{Text: f.Material}, {Text: worded(f.For)}, {}, {Text: sentence(f.Note)}}}
}

func screwName(u parts.ScrewUse) string {
	form := "socket head, ISO 4762"
	if u.Head == hardware.Button {
		form = "button head, ISO 7380-1"
	}
	if u.Length <= 0 {
		return fmt.Sprintf("%s screw, %s: NO STOCK LENGTH is long enough; at least %s mm under the head", u.Size, form, millimetres(u.Grip+u.Through+u.Engagement))
	}
	return fmt.Sprintf("%s × %s screw, %s", u.Size, millimetres(u.Length.Millimetres()), form)
}

func nutName(u parts.ScrewUse) string {
	text := fmt.Sprintf("%s hexagon nut, ISO 4032", u.Size)
	if u.Pocket {
		text += ", in its pocket"
	}
	return text
}

func fastener(id string) hardware.Material {
	m, err := hardware.FindMaterial(id)
	if err != nil {
		return hardware.Material{ID: id, Title: id}
	}
	return m
}

// zone says how near a group of screws comes to the compass and whether that allows steel.
func (b *builder) zone(u parts.ScrewUse) (string, paper.Tone) {
	if !b.located {
		return "no data: where the compass sits in the receiver is not answered", paper.Unknown
	}
	nearest := -1.0
	for _, at := range u.At {
		if d := r3.Norm(r3.Sub(at, b.compass)); nearest < 0 || d < nearest {
			nearest = d
		}
	}
	text := millimetres(nearest) + " mm: "
	if nearest >= b.Doc.Limits.SteelFree.Millimetres() {
		return text + "outside the zone", paper.Plain
	}
	if fastener(u.Material).Ferrous() {
		return text + "IN THE ZONE AND STEEL", paper.Bad
	}
	return text + "IN THE ZONE, never steel", paper.Marginal
}

func (b *builder) steelFree() paper.Block {
	return paper.Prose{Quiet: true, Text: fmt.Sprintf("The zone is %s mm around the compass: no steel in it, washers too, no magnetised driver left lying. Try every screw with a magnet before it goes in; "+
		"some stainless steel is magnetic. Lengths are measured under the head.", millimetres(b.Doc.Limits.SteelFree.Millimetres()))}
}
