package sheet

import (
	"fmt"
	"strings"

	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
)

// steps are what is done at the bench, in order.
func (b *builder) steps() paper.Section {
	list := func(items ...[]string) paper.Checks {
		var out paper.Checks
		for _, i := range items {
			c := paper.Check{Do: i[0]}
			if len(i) > 1 {
				c.Expect = i[1]
			}
			if len(i) > 2 {
				c.IfNot = i[2]
			}
			out = append(out, c)
		}
		return out
	}
	return paper.Section{Title: "Steps", Fresh: true, Blocks: []paper.Block{
		paper.Heading{Text: "Print"},
		append(append(paper.Checks{}, list(
			[]string{"Print the fit pieces first, if this printer and plastic have not made a part for this frame before.",
				"The foot's fit piece drops over the frame's holes; the receiver slides into the rim without force.", "Change the holes' allowance or the tray's play in the design and make the files again."},
			[]string{"Print " + b.printedNames() + " as shown under Printing.", "Each lies as in its picture; the layers do their work only in that direction."},
		)...), b.weighing()),
		paper.Heading{Text: "Clean"},
		list(b.cleaning()...),
		paper.Heading{Text: "Assemble"},
		list(b.joining()...),
		paper.Heading{Text: "Mount"},
		list(b.mounting()...),
		paper.Heading{Text: "Wire"},
		list(
			[]string{"Pack disconnected, propellers off.", ""},
			[]string{"Read the pin order from the two boards and write it into the wiring table before you crimp.", "Every row of the table has a pin and a colour at both ends.", "Find the boards' drawings first; a crossed power wire destroys the receiver."},
			[]string{fmt.Sprintf("Cut the wires to %s mm, crimp them, and twist them as the wiring table says.", millimetres(b.Wiring.Length)), "A turn every 20 mm; clock with ground, data with power."},
			[]string{"Lead the cable through the mast or along it and tie it at the tray and at the foot.", "The tray can be lifted off without pulling at the plug; nothing hangs into a propeller.", "Give it more slack at the foot, not at the tray."},
			[]string{"Ohmmeter between power and ground at the controller's plug, receiver connected, pack disconnected.", "Not a short: more than some hundred ohms.", "Take the plug apart and look for a crossed or touching wire. Do not power it."},
		),
	}}
}

func (b *builder) printedNames() string {
	var names []string
	for i, p := range b.assembly.Parts {
		names = append(names, fmt.Sprintf("%d %s", b.numberOf(i), p.Name))
	}
	return strings.Join(names, ", ")
}

// weighing compares the prints with what they should weigh: the cheapest test of walls and infill.
func (b *builder) weighing() paper.Check {
	c := paper.Check{Do: "Weigh each print.", Expect: "Within 5 % of:", IfNot: "Lighter means fewer wall lines, less infill or too little flow: the stiffness is not the computed one. Print again, or enter what was printed and check again."}
	for i, p := range b.assembly.Parts {
		mass := quantity(p.Mass(b.materialOf(p.Material).Density.Typical).Grams(), "g")
		c.Expect += fmt.Sprintf(" %d %s %s,", b.numberOf(i), p.Name, mass)
		c.Blanks = append(c.Blanks, paper.Blank{Name: p.Name, Unit: "g"})
	}
	c.Expect = strings.TrimSuffix(c.Expect, ",") + "."
	return c
}

func (b *builder) cleaning() [][]string {
	out := [][]string{
		{"Take off supports, threads and the first layer's lip. Do not file the fillet at the foot of the mast: scratches across it start cracks.", ""},
		{"Run each screw through its hole by hand.", "It slides without play to be felt; screws into the mast's wall stay tight.", "Ream the hole with a drill bit turned by hand. Never melt a screw in."},
	}
	if b.Doc.Mast.CableWay.Side != "none" {
		out = append(out, []string{"Pull a thread through the mast from the cable's opening to the tray.", "It runs freely.", "Clear the bore with a rod; look for fallen layers."})
	}
	for _, p := range b.assembly.Parts {
		if dust := b.materialOf(p.Material).Dust; dust != "" {
			return append(out, []string{sentence(dust), ""})
		}
	}
	return out
}

// joining is how the mount goes together, after the way it is split.
func (b *builder) joining() [][]string {
	var out [][]string
	number := map[string]int{}
	for i, p := range b.assembly.Parts {
		number[p.Name] = b.numberOf(i)
	}
	screw := func(use string) (parts.ScrewUse, int, bool) {
		for _, it := range b.items {
			if it.screw >= 0 && !it.nut && b.assembly.Screws[it.screw].For == use {
				return b.assembly.Screws[it.screw], it.number, true
			}
		}
		return parts.ScrewUse{}, 0, false
	}
	if len(b.assembly.Parts) > 1 {
		out = append(out, []string{fmt.Sprintf("Push the mast (%d) up into the foot (%d) from below, its thin end first, the cable's opening to the %s.", number["mast"], number["foot"], b.wayOut()),
			"Its wide end is flush with the foot's underside.", "Scrape the socket; do not hammer."})
		if u, n, ok := screw("foot joint"); ok {
			out = append(out, []string{fmt.Sprintf("Put the joint's screw (%d, %s) through the foot's collar into the mast.", n, screwShort(u)), "Hand-tight with a short driver: it cuts its own thread in plastic.", "A thread that has turned round once holds nothing: drill through and use a nut."})
		}
		out = append(out, []string{fmt.Sprintf("Slide the tray (%d) down over the mast's tip, its arrow forward.", number["tray"]), "The floor rests on the mast's end.", "Look for a support left in the collar."})
		if u, n, ok := screw("tray joint"); ok {
			out = append(out, []string{fmt.Sprintf("Put the joint's screw (%d, %s) through the tray's collar.", n, screwShort(u)), "Hand-tight."})
		}
	} else {
		out = append(out, []string{"The mount is one piece: there is nothing to join.", ""})
	}
	fix := map[string]string{
		"rim":    "Press the receiver into the tray's rim.",
		"screws": "Screw the receiver to the tray",
		"strap":  "Strap the receiver to the tray: no steel in the buckle.",
		"tape":   "Stick the foam pad to the clean tray, then the receiver to the pad; press for a minute, load it after a day.",
	}[b.Doc.Receiver.Fixing]
	if u, n, ok := screw("receiver"); ok && b.Doc.Receiver.Fixing == "screws" {
		fix += fmt.Sprintf(" (%d, %s, %s).", n, screwShort(u), fastener(u.Material).Title)
	}
	if fix == "" {
		fix = "Fix the receiver on the tray."
	}
	return append(out, []string{fix, fmt.Sprintf("Its arrow points %s, its plug is on the %s.", towards(b.Doc.Receiver.Arrow), side(b.Doc.Receiver.Connector)), "Turn it now: a turned receiver is the commonest reason for a compass that is wrong by a fixed angle."})
}

// wayOut is the side on which the cable leaves the mast.
func (b *builder) wayOut() string {
	if b.Doc.Mast.CableWay.Side == "none" || b.Doc.Mast.CableWay.Side == "" {
		return "rear"
	}
	return b.Doc.Mast.CableWay.Side
}

func towards(arrow string) string {
	switch arrow {
	case "":
		return "forward"
	case "left", "right":
		return "to the " + arrow
	case "rear":
		return "to the rear"
	}
	return arrow
}

func side(s string) string {
	if s == "" {
		return "rear"
	}
	return s
}

func screwShort(u parts.ScrewUse) string {
	if u.Length <= 0 {
		return u.Size.String() + ", no stock length"
	}
	return fmt.Sprintf("%s × %s", u.Size, millimetres(u.Length.Millimetres()))
}

func (b *builder) mounting() [][]string {
	out := [][]string{{"Clean the frame's face and lay the foot on it, the tray's arrow to the nose.", "The foot lies flat; every hole of the frame shows in a hole of the foot.", "Compare with the template at 1:1; do not draw the foot down with the screws."}}
	for _, it := range b.items {
		if it.screw < 0 || it.nut || b.assembly.Screws[it.screw].For != "foot" {
			continue
		}
		u := b.assembly.Screws[it.screw]
		text := fmt.Sprintf("Put in the %d screws (%d, %s, %s)", u.Count, it.number, screwShort(u), fastener(u.Material).Title)
		switch {
		case u.Pocket:
			text += " from below, nuts in the foot's pockets"
		case u.Nut:
			text += " from above, nuts under the plate"
		default:
			text += " into the frame's threads"
		}
		out = append(out, []string{text + "; tighten them crosswise.", "Hand-tight. Plastic screws: until the head just touches, then an eighth of a turn.", "A screw that turns on has stripped: a new one, and its nut."})
	}
	if play, ok := b.figure("level", "yaw play of the foot's holes"); ok {
		out = append(out, []string{fmt.Sprintf("Turn the foot so that the arrow points along the aircraft's middle line before the last turn of the screws: its holes let it turn by %s either way.", quantity(play, "°")),
			"A long straight edge laid along the tray's side runs parallel to the middle line.", "Loosen, turn, tighten again."})
	}
	return append(out,
		[]string{"Draw the witness mark: one fine line across foot and frame, one across mast and tray.", "After a knock the lines show at once whether anything has turned."},
		[]string{"Plastic screws creep: tighten them again after a day, and again after a week.", "Each takes a little the first time and hardly anything the second.", "A screw that loosens every time is stripped or too short."},
	)
}

// figure is a figure of a check by its name.
func (b *builder) figure(check, name string) (float64, bool) {
	v, ok := b.Result.Verdict(check)
	if !ok {
		return 0, false
	}
	for _, f := range v.Figures {
		if f.Name == name {
			return f.Value, true
		}
	}
	return 0, false
}
