package sheet

import (
	"fmt"

	"mastwright/app/sheet/paper"
)

// afterCrash is what to look at after a knock, and when a part that looks whole is thrown away. Common practice, no source; the figures
// are the review's.
func (b *builder) afterCrash() paper.Section {
	return paper.Section{Title: "After a crash", Fresh: true, Blocks: []paper.Block{
		b.weakest(),
		paper.Heading{Text: "Look, in a good light, with a nail and a lens"},
		append(b.stemAfterCrash(), paper.Checks{
			{Do: "Screw heads and the plastic under them.", Expect: "Heads sit flat, nothing is drawn in, no whitened ring.", IfNot: "New screws; a new foot where the seat has sunk."},
			{Do: "Witness marks at foot and tray.", Expect: "The lines meet.", IfNot: "Turn it back, tighten, and do the pointing test before flying."},
			{Do: "Tray, rim and the receiver's case.", Expect: "The receiver sits tight and level.", IfNot: "A new tray; a cracked case means a new receiver."},
			{Do: "Wire and plug: pull gently at each end, look for bare copper at the foot and at the tray.", Expect: "Every wire holds.", IfNot: "Crimp anew. A wire that comes and goes in flight is worse than none."},
			{Do: "The frame's plate round the holes.", Expect: "No split between the layers of the plate, standoffs tight.", IfNot: "A split plate has lost its stiffness: replace it."},
		}...),
		paper.Heading{Text: "The two-minute check"},
		paper.Checks{
			{Do: "Tap.", Expect: b.ring(), Blanks: []paper.Blank{{Name: "when new", Unit: "Hz"}, {Name: "now", Unit: "Hz"}},
				IfNot: "More than 5 % lower: something is cracked or loose although nothing shows."},
			{Do: "Four headings, propellers off.", Expect: "Within 5° of what they were.",
				Blanks: []paper.Blank{{Name: "N", Unit: "°"}, {Name: "E", Unit: "°"}, {Name: "S", Unit: "°"}, {Name: "W", Unit: "°"}},
				IfNot:  "All off alike: the mount has turned. Unlike: calibrate; a screw or a motor may have been magnetised."},
		},
		paper.Heading{Text: "Discard a part that looks whole when"},
		paper.List{Items: []string{
			"it rings more than 5 % lower than when it was new and tight;",
			"it has whitened anywhere, has stayed bent, has lain in a hot car under load, or has been glued;",
			"it has broken a fellow part: what one has borne the other has borne too.",
		}},
		paper.Prose{Text: "After any repair: tighten plastic screws again after a day and after a week, and draw the witness marks anew."},
	}}
}

// stemAfterCrash is what to look at where the tray is carried.
func (b *builder) stemAfterCrash() paper.Checks {
	fillet := paper.Check{Do: fmt.Sprintf("Root fillet: all round the %s on the foot.", b.footing()), Expect: "No white or grey line, no step under the nail.", IfNot: "Discard the part. A crack does not stop."}
	switch b.Doc.Mast.Build {
	case "tube":
		return paper.Checks{fillet,
			{Do: "The tube: run a rag along it, look into both ends, press it between the fingers above each clamp.", Expect: "Nothing catches, nothing gives or crackles.", IfNot: "Discard it. Splinters are sharp: gloves. A tube split along its fibres has lost its twist and soon its strength."},
			{Do: "Clamp ears and slit.", Expect: "No whitened line at the slit's end; the tube does not turn by hand.", IfNot: "A new foot or tray; do not draw a cracked ear tighter."},
		}
	case "twin-plate":
		return paper.Checks{fillet,
			{Do: "Both plates: along the edges and round every hole, against the light.", Expect: "No crack, no layers that part, no hole drawn long.", IfNot: "Discard the plate and cut a new one."},
			{Do: "Spacers and blocks between the plates.", Expect: "None rocks, no screw turns by hand.", IfNot: "A spacer that rocks carries no moment: tighten, or a new one."},
		}
	case "legs":
		return paper.Checks{
			{Do: "Every leg: look along it, then bend it gently between the fingers.", Expect: "Straight; no line opens across it.", IfNot: "Discard all legs of that batch that had the blow, one has borne what the other has."},
			{Do: "Glue lines at the sockets' mouths.", Expect: "No gap, no leg that turns or clicks.", IfNot: "Glue is not mended with glue: new leg and new socket."},
		}
	}
	return paper.Checks{fillet,
		{Do: "Between the layers: bend the mast gently each way and look along it.", Expect: "No line opens.", IfNot: "Discard. Glue does not bring back the strength between layers."},
	}
}

// ring is what the tap after a crash should find.
func (b *builder) ring() string {
	text := "Within 5 % of what you wrote down when it was new; predicted: no data."
	if len(b.Result.Held) > 0 {
		text = fmt.Sprintf("Within 5 %% of what you wrote down when it was new; predicted: %s.", quantity(b.Result.Held[0].Hz, "Hz"))
	}
	return text
}

// weakest says which part is predicted to go first.
func (b *builder) weakest() paper.Block {
	t := b.Result.TipOver
	v, _ := b.Result.Verdict("tipover")
	if t == nil {
		because := "the review has no data for a topple"
		if v.Because != "" {
			because = v.Because
		}
		return paper.Notice{Tone: paper.Unknown, Title: "Predicted to go first: no data", Lines: []string{sentence(because)}}
	}
	lines := []string{}
	if t.Break > 0 {
		text := fmt.Sprintf("Toppling over its arms the mast top strikes at %s; it is damaged from %s on and breaks at %s", quantity(t.Required, "m/s"), quantity(t.Damage, "m/s"), quantity(t.Break, "m/s"))
		if t.BreakLow != t.Break {
			text += fmt.Sprintf(" (%s at the low end of its strength)", quantity(t.BreakLow, "m/s"))
		}
		lines = append(lines, text+fmt.Sprintf(". A free fall of %s onto the mast top breaks it.", quantity(t.DropHeight, "m")))
	} else {
		lines = append(lines, "No fall of this aircraft lands on the mast: "+sentence(v.Because))
	}
	name := t.Weakest
	if name == "" {
		name = "nothing of the mount"
	}
	return paper.Notice{Tone: paper.Caution, Title: "Predicted to go first: " + name, Lines: append(lines, "Look there before anywhere else. Keep a spare of that part.")}
}
