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
	blocks := []paper.Block{
		paper.Heading{Text: "Print"},
		append(list(
			[]string{"Print the fit pieces first, if this printer and plastic have not made a part for this frame before.",
				"The foot's fit piece drops over the frame's holes; the receiver slides into the rim without force" + b.otherFits() + ".", "Change the holes' allowance or the tray's play in the design and make the files again."},
			[]string{"Print " + b.names(parts.Printed) + " as shown under Printing.", "Each lies as in its picture; the layers do their work only in that direction."},
		), b.weighing()),
	}
	if cut := b.making(parts.Cut, parts.Stock); len(cut) > 0 {
		blocks = append(blocks, paper.Heading{Text: "Cut"})
		if dust := b.dust(cut); len(dust) > 0 {
			blocks = append(blocks, paper.Notice{Tone: paper.Caution, Title: "Dust", Lines: dust})
		}
		blocks = append(blocks, list(b.cuts()...))
	}
	return paper.Section{Title: "Steps", Fresh: true, Blocks: append(blocks,
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
			[]string{b.leading(), "The tray can be lifted off without pulling at the plug; nothing hangs into a propeller.", "Give it more slack at the foot, not at the tray."},
			[]string{"Ohmmeter between power and ground at the controller's plug, receiver connected, pack disconnected.", "Not a short: more than some hundred ohms.", "Take the plug apart and look for a crossed or touching wire. Do not power it."},
		),
	)}
}

// names are the parts that come about in some ways, with their numbers and how many of each.
func (b *builder) names(ways ...parts.Making) string {
	var names []string
	for _, i := range b.making(ways...) {
		p := b.assembly.Parts[i]
		name := fmt.Sprintf("%d %s", b.numberOf(i), worded(p.Name))
		if p.Copies > 1 {
			name += fmt.Sprintf(" (%d of it)", p.Copies)
		}
		names = append(names, name)
	}
	return strings.Join(names, ", ")
}

// otherFits says what else the fit pieces try.
func (b *builder) otherFits() string {
	switch b.Doc.Mast.Build {
	case "tube":
		return "; the tube slides through the clamp's fit piece and its screw draws it tight"
	case "twin-plate":
		return "; the plate sits in its fit piece without play to be felt"
	case "legs":
		return "; a leg slides into its socket by hand"
	}
	return ""
}

// cuts is how the parts come about that are not printed.
func (b *builder) cuts() [][]string {
	var out [][]string
	for _, i := range b.making(parts.Cut, parts.Stock) {
		p := b.assembly.Parts[i]
		text := fmt.Sprintf("Cut %d of %d %s from %s, as drawn under Cutting.", max(p.Copies, 1), b.numberOf(i), worded(p.Name), b.from(p))
		if p.Making == parts.Stock {
			out = append(out, []string{text, "It is " + millimetres(p.Length) + " mm long, its ends are square and smooth to the finger.", "A little long is filed down; too short is cut anew: the clamps want their whole grip."})
			continue
		}
		out = append(out, []string{text, "Laid on the drawing at 1:1 its edge and every hole agree.", "Check that the paper's bar is 50 mm before you blame the cut; then the kerf in the design."})
	}
	return append(out, []string{"Break every edge that a finger or the cable touches; wipe the parts clean outside, not on the bench of the electronics.", "No splinter, no burr."})
}

// leading is the way of the cable.
func (b *builder) leading() string {
	switch b.Doc.Mast.Build {
	case "tube":
		if b.Doc.Mast.Tube.Bore > 0 {
			return "Lead the cable through the tube and tie it at the tray and at the foot" + b.guarded()
		}
		return "Lead the cable along the rod and tie it at the tray, midway and at the foot."
	case "twin-plate":
		return "Lead the cable between the plates and tie it at the tray and at the foot" + b.guarded()
	case "legs":
		return "Lead the cable down one leg, tie it at the tray, midway and at the pad" + b.guarded()
	}
	return "Lead the cable through the mast or along it and tie it at the tray and at the foot" + b.guarded()
}

// guarded says where the cable wants an edge guard.
func (b *builder) guarded() string {
	var over []string
	for _, it := range b.items {
		if it.fitting >= 0 && b.assembly.Fittings[it.fitting].Name == "edge guard" {
			over = append(over, fmt.Sprintf("%d on the %s", it.number, worded(b.assembly.Fittings[it.fitting].For)))
		}
	}
	if len(over) == 0 {
		return "."
	}
	return ". The edge guards come first (" + strings.Join(over, ", ") + "): a wire chafed on a part that conducts meets the whole mount."
}

// weighing compares the parts with what they should weigh: the cheapest test of walls and infill.
func (b *builder) weighing() paper.Check {
	c := paper.Check{Do: "Weigh each print.", Expect: "Within 5 % of:", Enter: prove("weigh", "WEIGHTS.csv"),
		IfNot: "Lighter means fewer wall lines, less infill or too little flow: the stiffness is not the computed one. Print again, or enter what was printed and check again."}
	for _, i := range b.making(parts.Printed) {
		p := b.assembly.Parts[i]
		c.Expect += fmt.Sprintf(" %d %s %s,", b.numberOf(i), worded(p.Name), b.massOf(p))
		c.Blanks = append(c.Blanks, paper.Blank{Name: worded(p.Name), Unit: "g"})
	}
	c.Expect = strings.TrimSuffix(c.Expect, ",") + "."
	return c
}

func (b *builder) cleaning() [][]string {
	out := [][]string{
		{"Take off supports, threads and the first layer's lip. Do not file the fillet where the " + b.footing() + " meets the foot: scratches across it start cracks.", ""},
		{"Run each screw through its hole by hand.", "It slides without play to be felt; screws that cut their own thread stay tight.", "Ream the hole with a drill bit turned by hand. Never melt a screw in."},
	}
	if b.Doc.Mast.Build == "column" && b.Doc.Mast.CableWay.Side != "none" {
		out = append(out, []string{"Pull a thread through the mast from the cable's opening to the tray.", "It runs freely.", "Clear the bore with a rod; look for fallen layers."})
	}
	for _, dust := range b.dust(b.making(parts.Printed)) {
		out = append(out, []string{dust, ""})
	}
	return out
}

// footing is what stands on the foot.
func (b *builder) footing() string {
	switch b.Doc.Mast.Build {
	case "tube":
		return "clamp"
	case "twin-plate":
		return "block"
	case "legs":
		return "socket"
	}
	return "mast"
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
	if len(b.assembly.Pads) > 0 {
		out = [][]string{{"The pads stand on the frame already. Clean the face under them, the tray's arrow to the nose.", "Every pad lies flat before its screw is tight.", "A pad that stands off is not drawn down: warm the glue or glue that leg anew."}}
	}
	for _, it := range b.items {
		if it.screw < 0 || it.nut || b.assembly.Screws[it.screw].For != "foot" {
			continue
		}
		u := b.assembly.Screws[it.screw]
		text := fmt.Sprintf("Put in the %d screws (%d, %s, %s)", u.Count, it.number, screwShort(u), fastener(u.Material).Title)
		switch {
		case u.Pocket:
			text += " from below, nuts in the foot's pockets"
		case u.Insert:
			text += " from below, into the foot's inserts"
		case u.Nut:
			text += " from above, nuts under the plate"
		default:
			text += " into the frame's threads"
		}
		if u.Washers > 0 {
			text += ", a washer under each head"
		}
		tight := "Hand-tight."
		if t := b.torque("foot"); t > 0 {
			tight = fmt.Sprintf("Hand-tight: no more than %s on a torque driver.", quantity(t, "N·m"))
		}
		out = append(out, []string{text + "; tighten them crosswise.", tight + " Plastic screws: until the head just touches, then an eighth of a turn.", "A screw that turns on has stripped: a new one, and its nut."})
	}
	if play, ok := b.figure("level", "yaw play of the foot's holes"); ok {
		out = append(out, []string{fmt.Sprintf("Turn it so that the arrow points along the aircraft's middle line before the last turn of the screws: the holes let it turn by %s either way.", quantity(play, "°")),
			"A long straight edge laid along the tray's side runs parallel to the middle line.", "Loosen, turn, tighten again."})
	}
	return append(out,
		[]string{fmt.Sprintf("Draw the witness mark: one fine line across foot and frame, one across %s and tray.", b.Doc.Bearer()), "After a knock the lines show at once whether anything has turned."},
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
