package sheet

import (
	"fmt"

	"mastwright/app/sheet/paper"
)

// wiring is the table of the cable. No order of pins is assumed: pins and colours are blanks.
func (b *builder) wiring() paper.Section {
	w := b.Wiring
	length := millimetres(w.Length) + " mm"
	if w.AtLeast {
		length = "at least " + length + " (no data: the cable's length is not answered)"
	}
	t := paper.Table{Columns: []paper.Column{
		{Title: "At the receiver", Share: 26}, {Title: "Pin", Share: 13}, {Title: "Colour", Share: 22}, {Title: "Length", Share: 16}, {Title: "Runs", Share: 18},
		{Title: "At the controller", Share: 26}, {Title: "Pin", Share: 13}, {Title: "Colour", Share: 22},
	}}
	crossing := false
	for _, wire := range w.Wires {
		runs := "straight"
		if wire.Receiver != wire.Controller {
			runs, crossing = "CROSSES", true
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{
			{Text: wire.Receiver, Strong: true}, {Text: "______"}, {Text: "__________"}, {Text: millimetres(w.Length) + " mm"},
			{Text: runs, Strong: crossing && runs == "CROSSES"}, {Text: wire.Controller, Strong: true}, {Text: "______"}, {Text: "__________"},
		}})
	}
	blocks := []paper.Block{
		paper.Prose{Text: fmt.Sprintf("Wires of %s, %s mm² (%d AWG) or thicker. %s are lost on the way at %s mA, so the controller must give %s to %s V.",
			length, number(w.Area), w.Gauge, quantity(w.Drop, "mV"), number(w.Current), number(w.SupplyLow), number(w.SupplyHigh))},
		t,
	}
	if crossing {
		blocks = append(blocks, paper.Prose{Text: "What one side sends the other receives: the two serial wires cross. Everything else runs straight."})
	}
	var advice []string
	for _, a := range w.Advice {
		advice = append(advice, sentence(a))
	}
	return paper.Section{Title: "Wiring and cutting", Blocks: append(blocks, paper.List{Items: advice}, paper.Heading{Text: "Cut to length; every other part of this build is printed"}, b.cuts())}
}
