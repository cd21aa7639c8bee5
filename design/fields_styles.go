package design

// styles are the ways to build a mount.
var styles = []string{"column", "tube", "twin-plate", "legs"}

// built is the condition of some styles.
func built(as ...string) []Condition { return when("mast.build", as...) }

// and puts conditions together.
func and(all ...[]Condition) []Condition {
	var out []Condition
	for _, c := range all {
		out = append(out, c...)
	}
	return out
}

// tubeFields are the rows of a mast of stock tube.
func tubeFields() []Field {
	tube := built("tube")
	return rows(
		Field{Path: "mast.tube.outside", Title: "Tube's outside", Low: 3, High: 40, Default: "10 mm", Stage: "shape", When: tube,
			Help: "Outside diameter of the tube as it is bought.", Measure: "Caliper, turned once."},
		Field{Path: "mast.tube.bore", Title: "Tube's bore", Low: 0, High: 39, Default: "8 mm", Stage: "shape", When: tube,
			Help: "Inside diameter of the tube; 0 for a rod.", Measure: "Caliper's inside jaws."},
		Field{Path: "mast.tube.clamp.grip", Title: "Clamp's grip", Low: 6, High: 80, Default: "20 mm", Stage: "shape", When: tube,
			Help: "Length along the tube that each clamp holds."},
		Field{Path: "mast.tube.clamp.wall", Title: "Clamp's wall", Low: 1.6, High: 12, Default: "4 mm", Stage: "shape", When: tube,
			Help: "Thickness of the clamps around the tube."},
		Field{Path: "mast.tube.clamp.slit", Title: "Clamp's slit", Low: 0.4, High: 5, Default: "1.5 mm", Stage: "shape", When: tube,
			Help: "Width of the split in each clamp before its screw closes it."},
		Field{Path: "mast.tube.clamp.screw", Title: "Clamp's screw", Choices: screwSizes, Default: "M3", Stage: "shape", When: tube,
			Help: "Thread of the screws that close the clamps."},
		Field{Path: "mast.tube.clamp.key", Title: "Key against twist", Choices: []string{"cross screw", "none"}, Default: "cross screw", Stage: "shape", When: tube,
			Help: "What keeps the tube from turning in its clamps besides their grip."},
		Field{Path: "mast.tube.clamp.washers", Title: "Clamp's washers", Choices: []string{"none", "under heads and nuts"}, Default: "none", Stage: "shape", When: tube,
			Help: "Plain washers on the clamps' ears, of the screws' material: printed ears bear little under a bare head, and the grip is no more than they bear."},
	)
}

// plateFields are the rows of a mast of two cut sheets.
func plateFields() []Field {
	plates := built("twin-plate")
	return rows(
		Field{Path: "mast.plates.thickness", Title: "Plate thickness", Low: 0.5, High: 12, Default: "3 mm", Stage: "shape", When: plates,
			Help: "Thickness of the sheet.", Measure: "Caliper on the sheet itself; cast and extruded sheet is off by a tenth."},
		Field{Path: "mast.plates.root", Title: "Plates at the foot", Low: 6, High: 120, Default: "24 mm", Stage: "shape", When: plates,
			Help: "Width of the plates at the foot, fore and aft."},
		Field{Path: "mast.plates.tip", Title: "Plates at the tray", Low: 6, High: 120, Default: "24 mm", Stage: "shape", When: plates,
			Help: "Width of the plates at the tray, fore and aft."},
		Field{Path: "mast.plates.gap", Title: "Gap between the plates", Low: 4, High: 120, Default: "14 mm", Stage: "shape", When: plates,
			Help: "Clear width between the two plates; the cable runs there."},
		Field{Path: "mast.plates.corner", Title: "Plates' corner radius", Low: 0, High: 30, Default: "3 mm", Stage: "shape", When: plates,
			Help: "Radius of the plates' outer corners."},
		Field{Path: "mast.plates.grip", Title: "Blocks' height", Low: 8, High: 60, Default: "16 mm", Stage: "shape", When: plates,
			Help: "Height of the blocks on the foot and under the tray that the plates are screwed to."},
		Field{Path: "mast.plates.spacers", Title: "Spacers", Low: 0, High: 6, Default: "1", Stage: "shape", When: plates,
			Help: "Spacers between the plates, evenly between foot and tray."},
		Field{Path: "mast.plates.spacer", Title: "Spacers held by", Choices: []string{"two screws", "tabs", "single screw"}, Default: "two screws", Stage: "shape", When: plates,
			Help: "Two screws in line with the plate, or tabs through it, carry moment and stiffen the mast sideways; a single screw is a pivot."},
		Field{Path: "mast.plates.screw", Title: "Plates' screws", Choices: screwSizes, Default: "M3", Stage: "shape", When: plates,
			Help: "Thread of the screws through the plates."},
		Field{Path: "mast.plates.washers", Title: "Plates' washers", Choices: []string{"none", "under heads and nuts"}, Default: "none", Stage: "shape", When: plates,
			Help: "Plain washers on the sheet under the heads and nuts of the plates' screws, of the screws' material."},
		Field{Path: "mast.plates.lightening.count", Title: "Lightening holes", Low: 0, High: 40, Default: "0", Stage: "shape", When: plates,
			Help: "Holes up the middle of each plate that save mass."},
		Field{Path: "mast.plates.lightening.diameter", Title: "Lightening hole", Low: 2, High: 100, Default: "8 mm", Stage: "shape", When: plates,
			Help: "Diameter of the lightening holes."},
		Field{Path: "mast.plates.lightening.web", Title: "Least web", Low: 1, High: 40, Default: "4 mm", Stage: "shape", When: plates,
			Help: "Least width of material between a lightening hole and any other edge."},
		Field{Path: "mast.plates.kerf", Title: "Kerf", Low: 0, High: 4, Default: "0 mm", Stage: "make", When: plates,
			Help:    "Width that the cut takes away; the drawings to cut are wider by half of it outside and narrower in holes.",
			Measure: "Cut a square of 20 mm along its line; what it lacks is the kerf."},
	)
}

// legFields are the rows of a mast of legs.
func legFields() []Field {
	legs := built("legs")
	own := and(legs, when("mast.legs.pattern", "rectangle", "ring"))
	rectangle, ring := and(legs, when("mast.legs.pattern", "rectangle")), and(legs, when("mast.legs.pattern", "ring"))
	return rows(
		Field{Path: "mast.legs.pattern", Title: "Legs stand on", Choices: []string{"stack holes", "rectangle", "ring"}, Default: "stack holes", Stage: "shape", When: legs,
			Help: "The place's own holes, or a wider pattern of arm or standoff screws around the same middle."},
		Field{Path: "mast.legs.count", Title: "Legs", Low: 3, High: 4, Default: "4", Stage: "shape", When: ring,
			Help: "Number of legs on the ring, the first two on either side of forward."},
		Field{Path: "mast.legs.spread.x", Title: "Legs' spread, x", Group: "Legs' spread", Low: 20, High: 400, Default: "60 mm", Stage: "shape", When: rectangle,
			Help: "Spacing of the pads' screws fore and aft.", Measure: "Caliper from hole to hole, as for the stack."},
		Field{Path: "mast.legs.spread.y", Title: "Legs' spread, y", Group: "Legs' spread", Low: 20, High: 400, Stage: "shape", When: rectangle, Otherwise: "as x",
			Help: "Spacing of the pads' screws across."},
		Field{Path: "mast.legs.ring", Title: "Legs' ring", Low: 20, High: 400, Default: "80 mm", Stage: "shape", When: ring,
			Help: "Diameter of the circle through the pads' screws.", Measure: "Caliper across two opposite holes."},
		Field{Path: "mast.legs.screw", Title: "Pads' screws", Choices: screwSizes, Default: "M3", Stage: "shape", When: own,
			Help: "Thread of the arm or standoff screws that hold the pads."},
		point(Field{Path: "mast.legs.top", Title: "Legs' spacing at the tray", Low: 4, High: 150, Stage: "shape", When: legs, Otherwise: "to the tray's edge",
			Help: "Spacing of the legs' axes under the tray; the diameter of their circle on a ring."}, "xy"),
		Field{Path: "mast.legs.section.x", Title: "Leg, x", Group: "Leg's section", Low: 1.5, High: 30, Default: "6 mm", Stage: "shape", When: legs,
			Help: "Width of a leg in the direction it leans."},
		Field{Path: "mast.legs.section.y", Title: "Leg, y", Group: "Leg's section", Low: 1.5, High: 30, Stage: "shape", When: legs, Otherwise: "as x",
			Help: "Width of a leg across; the sheet's thickness where it is cut."},
		Field{Path: "mast.legs.made", Title: "Legs are", Choices: []string{"printed lying", "cut"}, Default: "printed lying", Stage: "shape", When: legs,
			Help: "Printed lying, with the layers along them, or cut from a sheet."},
		Field{Path: "mast.legs.grip", Title: "Sockets' depth", Low: 4, High: 40, Default: "10 mm", Stage: "shape", When: legs,
			Help: "How deep a leg sits in its pad and under the tray."},
		Field{Path: "mast.legs.socket", Title: "Sockets' wall", Low: 1.2, High: 8, Default: "2.4 mm", Stage: "shape", When: legs,
			Help: "Thickness of the sockets around a leg."},
		Field{Path: "mast.legs.pad", Title: "Pads' thickness", Low: 1.6, High: 15, Default: "4 mm", Stage: "shape", When: legs,
			Help: "Thickness of the pads under the screws."},
		Field{Path: "mast.legs.kerf", Title: "Legs' kerf", Low: 0, High: 4, Default: "0 mm", Stage: "make", When: and(legs, when("mast.legs.made", "cut")),
			Help:    "Width that the cut of the legs takes away; their drawing is wider by half of it on every side.",
			Measure: "Cut a square of 20 mm along its line; what it lacks is the kerf."},
		Field{Path: "mast.legs.stand", Title: "Legs stand", Choices: []string{"beside the screws", "over the screws"}, Default: "beside the screws", Stage: "shape", When: legs,
			Help: "Beside the screws, outwards, where legs lean and stiffen each other; or over them, where screws come from below into inserts in the pads: upright legs, narrow pads, softer."},
	)
}

// fuseFields are the rows of the ring that breaks first.
func fuseFields() []Field {
	mast := built("column", "tube")
	fitted := and(mast, when("mast.fuse.fitted", "true"))
	return rows(
		Field{Path: "mast.fuse.fitted", Title: "Fuse", Default: "false", Stage: "shape", When: mast,
			Help: "Whether a weakened ring breaks before the receiver's tray and the frame's plate do."},
		Field{Path: "mast.fuse.height", Title: "Fuse's height", Low: 4, High: 390, Stage: "shape", When: fitted, Otherwise: "as low as it can be",
			Help: "Middle of the ring above the mounting face."},
		Field{Path: "mast.fuse.width", Title: "Fuse's width", Low: 1, High: 30, Default: "3 mm", Stage: "shape", When: fitted,
			Help: "Extent of the ring along the mast."},
		Field{Path: "mast.fuse.wall", Title: "Fuse's wall", Low: 0.4, High: 10, Default: "1.2 mm", Stage: "shape", When: fitted,
			Help: "What the ring leaves of the wall."},
	)
}

// partNames are the parts of all styles.
var partNames = []string{"mast", "foot", "tray", "fuse", "spacer", "plate", "pad", "leg"}

// copyFields are the rows of spare parts.
func copyFields() []Field {
	return rows(
		Field{Path: "print.copies", Title: "Spares", Low: 0, High: 12, Stage: "make", Otherwise: "one of each",
			Help: "Parts that are made more than once."},
		Field{Path: "print.copies[].part", Title: "Part", Choices: partNames, Stage: "make",
			Help: "The part; a design that has no such part leaves the line out."},
		Field{Path: "print.copies[].count", Title: "Sets", Low: 1, High: 20, Default: "2", Stage: "make",
			Help: "How many sets of it are made, the one in use included."},
	)
}
