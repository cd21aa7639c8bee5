package sheet

import (
	"fmt"

	"mastwright/design/parts"
)

// joining is how the mount goes together.
func (b *builder) joining() [][]string {
	var out [][]string
	switch {
	case len(b.assembly.Parts) == 1:
		out = [][]string{{"The mount is one piece: there is nothing to join.", ""}}
	case b.Doc.Mast.Build == "tube":
		out = b.joinTube()
	case b.Doc.Mast.Build == "twin-plate":
		out = b.joinPlates()
	case b.Doc.Mast.Build == "legs":
		out = b.joinLegs()
	default:
		out = b.joinColumn()
	}
	return append(out, b.seating())
}

// numbered is a part's name with its number, "tube (2)".
func (b *builder) numbered(name string) string {
	if i, ok := b.partNamed(name); ok {
		return fmt.Sprintf("%s (%d)", worded(name), b.numberOf(i))
	}
	return worded(name)
}

// screw is a group of screws by what it is for, with its number in the list.
func (b *builder) screw(use string) (parts.ScrewUse, int, bool) {
	for _, it := range b.items {
		if it.screw >= 0 && !it.nut && b.assembly.Screws[it.screw].For == use {
			return b.assembly.Screws[it.screw], it.number, true
		}
	}
	return parts.ScrewUse{}, 0, false
}

func (b *builder) joinColumn() [][]string {
	out := [][]string{{fmt.Sprintf("Push the %s up into the %s from below, its thin end first, the cable's opening to the %s.", b.numbered("mast"), b.numbered("foot"), b.wayOut()),
		"Its wide end is flush with the foot's underside.", "Scrape the socket; do not hammer."}}
	if u, n, ok := b.screw("foot joint"); ok {
		out = append(out, []string{fmt.Sprintf("Put the joint's screw (%d, %s) through the foot's collar into the mast.", n, screwShort(u)), "Hand-tight with a short driver: it cuts its own thread in plastic.", "A thread that has turned round once holds nothing: drill through and use a nut."})
	}
	out = append(out, []string{fmt.Sprintf("Slide the %s down over the mast's tip, its arrow forward.", b.numbered("tray")), "The floor rests on the mast's end.", "Look for a support left in the collar."})
	if u, n, ok := b.screw("tray joint"); ok {
		out = append(out, []string{fmt.Sprintf("Put the joint's screw (%d, %s) through the tray's collar.", n, screwShort(u)), "Hand-tight."})
	}
	return out
}

func (b *builder) joinTube() [][]string {
	const tight = "It no longer turns by hand, and the slit has not closed: then stop. Printed ears creep, and a drawn tube splits along its fibres."
	out := [][]string{{fmt.Sprintf("Slide the %s into the clamp of the %s down to its seat.", b.numbered("tube"), b.numbered("foot")), "It goes in by hand and touches the bottom.", "Tight: ream the clamp, do not open the slit with a blade. Loose: print the clamp anew with less allowance; the screw cannot make up for it."}}
	if u, n, ok := b.screw("foot clamp"); ok {
		out = append(out, []string{fmt.Sprintf("Close the foot's clamp with %s (%d, %s) and its nut.", counted(u.Count, "screw", "screws"), n, screwShort(u)), tight, "The slit closes before it grips: the tube is too thin or the bore too wide."})
	}
	out = append(out, []string{fmt.Sprintf("Slide the clamp of the %s over the tube's upper end, its arrow forward in line with the foot's.", b.numbered("tray")), "The tube touches the tray's floor. Sight along the tube: the tray's sides run parallel to the foot's.", "Turn it now; after the cross screws it stays as it is."})
	if u, n, ok := b.screw("tray clamp"); ok {
		out = append(out, []string{fmt.Sprintf("Close the tray's clamp with %s (%d, %s) and its nut.", counted(u.Count, "screw", "screws"), n, screwShort(u)), tight})
	}
	foot, n, ok := b.screw("foot key")
	tray, m, too := b.screw("tray key")
	if ok && too {
		out = append(out, []string{fmt.Sprintf("Drill through one wall of the tube at each cross screw, the clamps as they are, and put in the screws (%d, %s; %d, %s).", n, screwShort(foot), m, screwShort(tray)),
			"They cut their thread in the clamp and stand in the tube's hole: the tray cannot turn.", "A hole beside its place: turn the tube by a quarter and drill anew, no nearer than 5 mm."})
	} else {
		out = append(out, []string{"Nothing but friction keeps the tray from turning: draw a line across tube and clamps.", "The lines meet before every flight."})
	}
	return out
}

func (b *builder) joinPlates() [][]string {
	out := [][]string{}
	if u, n, ok := b.screw("foot block"); ok {
		out = append(out, []string{fmt.Sprintf("Set a plate on each side of the foot's block and put the %d screws (%d, %s) through all three, nuts outside.", u.Count, n, screwShort(u)), "Finger-tight only: the plates can still settle.", "A screw that binds: ream both plates together, clamped on the block."})
	}
	if i, ok := b.partNamed("spacer"); ok {
		text := fmt.Sprintf("Put %s (%d) between the plates", counted(b.assembly.Parts[i].Count, "spacer", "spacers"), b.numberOf(i))
		if u, n, ok := b.screw("spacers"); ok {
			text += fmt.Sprintf(" with their screws (%d, %s)", n, screwShort(u))
		}
		held := "Two screws in line with the plate let it carry moment: both go in, none may be left out."
		switch b.Doc.Mast.Plates.Spacer {
		case "tabs":
			held = "The tabs sit in their slots without play: they carry moment only as long as they do not rock."
		case "single screw":
			held = "One screw is a hinge: this spacer keeps the plates apart and adds no sideways stiffness."
		}
		out = append(out, []string{text + ".", held})
	}
	if u, n, ok := b.screw("tray block"); ok {
		out = append(out, []string{fmt.Sprintf("Set the block of the %s between the plates' upper ends, its arrow forward, and put in its %d screws (%d, %s) with their nuts.", b.numbered("tray"), u.Count, n, screwShort(u)), "Both plates reach the same mark on the block; the tray lies level."})
	}
	return append(out, []string{"Stand it on a flat table and tighten from the foot upwards, crosswise.", "The foot does not rock; plates and tray are square to it.", "It rocks: loosen all, press it down on the table, tighten again."})
}

func (b *builder) joinLegs() [][]string {
	out := [][]string{}
	if u, n, ok := b.screw("foot"); ok {
		out = append(out, []string{fmt.Sprintf("Stand the %d pads (%s) on the frame, their sockets leaning inwards, with their screws (%d, %s) finger-tight.", len(b.assembly.Pads), b.numbered("pad"), n, screwShort(u)), "Each can still turn a little. The driver reaches every screw head past its socket.", "Put the screws in before the legs: some heads are not reached afterwards."})
	}
	return append(out,
		[]string{fmt.Sprintf("Try it dry: each %s into its pad, then the %s over all of them, its arrow forward.", b.numbered("leg"), b.numbered("tray")), "Every leg reaches the bottom of both sockets; the tray lies level.", "A leg that is long is shortened at the pad's end; supports left in a socket hold the tray up."},
		[]string{"Mark each leg and its socket, take it apart, roughen the ends, and glue it: pads first, then the tray, weighted flat until the glue has set.", "A glue that holds on both materials in a peel test on scrap; a bead all round each socket's mouth.", "A joint that cracks when bent by hand: clean, roughen, another glue. It must not be left to friction."},
		[]string{"Tighten the pads' screws crosswise when the glue has set.", "No leg is bent: each still sounds alike when flicked."},
	)
}

// seating is how the receiver is fixed.
func (b *builder) seating() []string {
	fix := map[string]string{
		"rim":    "Press the receiver into the tray's rim.",
		"screws": "Screw the receiver to the tray",
		"strap":  "Strap the receiver to the tray: no steel in the buckle.",
		"tape":   "Stick the foam pad to the clean tray, then the receiver to the pad; press for a minute, load it after a day.",
	}[b.Doc.Receiver.Fixing]
	if u, n, ok := b.screw("receiver"); ok && b.Doc.Receiver.Fixing == "screws" {
		fix += fmt.Sprintf(" (%d, %s, %s).", n, screwShort(u), fastener(u.Material).Title)
	}
	if fix == "" {
		fix = "Fix the receiver on the tray."
	}
	return []string{fix, fmt.Sprintf("Its arrow points %s, its plug is on the %s.", towards(b.Doc.Receiver.Arrow), side(b.Doc.Receiver.Connector)), "Turn it now: a turned receiver is the commonest reason for a compass that is wrong by a fixed angle."}
}
