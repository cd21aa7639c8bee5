package design

import "fmt"

// largestResidual is the misfit of measured holes above which it is said.
const largestResidual = 0.3

// Notes returns what is worth saying about a document though nothing is wrong with it. Files and lines are empty.
func (d *Document) Notes() []Problem {
	var notes []Problem
	say := func(path, format string, args ...any) {
		notes = append(notes, Problem{Path: path, Value: d.Get(path), Text: fmt.Sprintf(format, args...)})
	}
	for i, p := range d.Airframe.Places {
		if _, residual, err := p.Holes.Centres(); err == nil && residual > largestResidual {
			say(join(entry("airframe.places", i), "holes.distances"), "the distances disagree by up to %.2f mm; measure the longest again", float64(residual))
		}
	}
	if d.Mast.Build != "column" {
		return append(notes, d.styleNotes()...)
	}
	root, tip := d.Mast.Outline(d.Mast.Root), d.Mast.Outline(d.Mast.Tip)
	if tip.X > root.X || tip.Y > root.Y {
		say("mast.tip.x", "the tip is wider than the root, which costs mass where it swings most; a taper the other way is stiffer")
	}
	if d.Mast.Split == "one piece" && (d.Materials.Foot != d.Materials.Mast || d.Materials.Tray != d.Materials.Mast) {
		say("materials.mast", "a mount in one piece is all of the mast's material, %s", d.Materials.Mast)
	}
	return notes
}
