package sheet

import (
	"fmt"

	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
	"mastwright/design/review"
)

// holding says how every group of screws holds and how hard it may be tightened.
func (b *builder) holding() []paper.Block {
	if len(b.Result.Screws) == 0 {
		return nil
	}
	t := paper.Table{Columns: []paper.Column{
		{Title: "No.", Share: 5}, {Title: "Screws", Share: 26}, {Title: "For", Share: 14}, {Title: "Grip, mm", Share: 11, Right: true}, {Title: "Held by", Share: 11},
		{Title: "Thread, mm", Share: 13, Right: true}, {Title: "In d", Share: 8, Right: true}, {Title: "Needs, mm", Share: 12, Right: true}, {Title: "Tip beyond", Share: 12, Right: true},
		{Title: "Before tip", Share: 12, Right: true}, {Title: "Head", Share: 8, Right: true}, {Title: "Nut", Share: 8, Right: true}, {Title: "Tighten to", Share: 16, Right: true},
	}}
	for i, g := range b.Result.Screws {
		u := g.Use
		number := ""
		for _, it := range b.items {
			if it.screw == i && !it.nut {
				number = fmt.Sprint(it.number)
			}
		}
		needs, torque := quantity(g.Least, ""), "hand-tight"
		if g.Across {
			needs = "a pin"
		}
		if g.Torque > 0 {
			torque = quantity(g.Torque, "N·m")
		}
		row := paper.Row{Cells: []paper.Cell{
			{Text: number, Strong: true}, {Text: fmt.Sprintf("%d %s × %s, %s", u.Count, u.Size, millimetres(u.Length.Millimetres()), g.Standard)}, {Text: u.For},
			{Text: fmt.Sprintf("%.2f", g.Grip)}, {Text: string(g.End)}, {Text: fmt.Sprintf("%.2f", g.Thread)}, {Text: fmt.Sprintf("%.2f", g.Thread/u.Size.Diameter().Millimetres())},
			{Text: needs}, {Text: fmt.Sprintf("%.2f", g.Beyond)}, {Text: before(g)}, {Text: around(g, false)}, {Text: around(g, true)}, {Text: torque},
		}}
		if g.Ahead < 0 || g.Thread < g.Least-1e-9 {
			row.Tone = paper.Bad
		}
		t.Rows = append(t.Rows, row)
	}
	const told = "Needs: a whole nut (ISO 898-2), a whole insert, 1 d in metal; a pin works across its thread. Before the tip, and around head and nut: free room in mm; " +
		"a dash where only you can look, under the frame's plate or in its thread. Torque: 0.2 F d (Shigley), F the pull that was assumed or what head, washer or nut may press, " +
		"whichever is less; dry threads. Plastic creeps: tighten again after a day."
	return []paper.Block{paper.Heading{Text: "How the screws hold"}, t, paper.Prose{Quiet: true, Text: told}}
}

// torque is the most that a use's screws are tightened to, N·m; 0 where nothing is said.
func (b *builder) torque(use string) float64 {
	for _, g := range b.Result.Screws {
		if g.Use.For == use {
			return g.Torque
		}
	}
	return 0
}

// before is the room before a tip.
func before(g review.Grip) string {
	switch {
	case g.Unseen:
		return "–"
	case g.Ahead >= parts.AheadSought:
		return "> 5"
	}
	return fmt.Sprintf("%.2f", g.Ahead)
}

// around is the room around a head or a nut.
func around(g review.Grip, nut bool) string {
	for _, r := range g.Rooms {
		switch {
		case r.Nut != nut:
		case r.Clear >= 1:
			return "> 1"
		default:
			return fmt.Sprintf("%.2f", r.Clear)
		}
	}
	return "–"
}

// shares says what gives at the tip, and how much of it.
func (b *builder) shares() []paper.Block {
	if len(b.Result.Shares) == 0 {
		return nil
	}
	t := paper.Table{Columns: []paper.Column{{Title: "Link", Share: 40}, {Title: "Share", Share: 16, Right: true}, {Title: "", Share: 100}}}
	for _, s := range b.Result.Shares {
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(capital(s.Name), fmt.Sprintf("%.1f %%", 100*s.Share), "")})
	}
	return []paper.Block{paper.Heading{Text: "What gives at the tip"}, t, paper.Prose{Quiet: true, Text: "Shares of the strain energy of the lowest held mode, typical plastic: stiffening what has the largest share helps most."}}
}
