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
	return paper.Section{Title: "Wiring", Blocks: append(blocks, paper.List{Items: advice}, paper.Heading{Text: "Cut to length"}, b.lengths())}
}

// lengths lists what is cut to length besides the parts: wires, pad and strap.
func (b *builder) lengths() paper.Block {
	t := paper.Table{Columns: []paper.Column{{Title: "Pieces", Share: 8, Right: true}, {Title: "What", Share: 60}, {Title: "Cut to", Share: 40}, {Title: "Remarks", Share: 60}}}
	length := millimetres(b.Wiring.Length) + " mm"
	remark := "as answered in the design"
	if b.Wiring.AtLeast {
		length, remark = "at least "+length, "no data: the cable's length is not answered; this is the mast and its slack"
	}
	if n := len(b.Wiring.Wires); n > 0 {
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(fmt.Sprint(n), fmt.Sprintf("wires of %s mm² (%d AWG) or thicker", number(b.Wiring.Area), b.Wiring.Gauge), length, remark)})
	}
	switch r := b.Doc.Receiver; r.Fixing {
	case "tape":
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words("1", "foam pad, "+millimetres(r.Tape.Thickness.Millimetres())+" mm thick", millimetres(r.Tape.Size.X.Millimetres())+" × "+
			millimetres(r.Tape.Size.Y.Millimetres())+" mm", "sticks on both sides; between tray and receiver")})
	case "strap":
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words("1", "strap without steel in its buckle", "to suit", "through the tray's slots, over the receiver")})
	}
	if len(t.Rows) == 0 {
		return paper.Prose{Text: "Nothing is cut to length."}
	}
	return t
}
