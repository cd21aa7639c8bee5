package design

// printFields are the rows of the printer and its settings.
func printFields() []Field {
	return rows(
		Field{Path: "print.from", Title: "Printer file", Low: 1, High: 200, Stage: "shape", Otherwise: "none",
			Help: "A file beside the design that holds this printer's answers; what the design says itself goes before it."},
		Field{Path: "print.orientation", Title: "Printed", Choices: []string{"upright", "lying"}, Default: "upright", Stage: "shape",
			Help: "Upright puts the layers across the mast, which is easy and weak; lying puts them along it."},
		Field{Path: "print.line_width", Title: "Line width", Low: 0.1, High: 2, Default: "0.45 mm", Stage: "shape",
			Help: "Width of one printed line.", Measure: "From the print settings."},
		Field{Path: "print.layer", Title: "Layer height", Low: 0.04, High: 1.2, Default: "0.2 mm", Stage: "shape",
			Help: "Height of one layer.", Measure: "From the print settings."},
		Field{Path: "print.walls", Title: "Walls", Low: 1, High: 40, Default: "4", Stage: "shape",
			Help: "Lines around the outside of foot and tray."},
		Field{Path: "print.skins", Title: "Skins", Low: 1, High: 60, Default: "5", Stage: "shape",
			Help: "Solid layers under and over foot and tray."},
		Field{Path: "print.infill", Title: "Infill", Low: 0.05, High: 1, Default: "1", Stage: "shape",
			Help: "Share of the inside that is filled."},
		point(Field{Path: "print.bed", Title: "Bed", Low: 60, High: 1000, Stage: "make",
			Help: "Room on the printer's bed, and above it.", Measure: "From the printer's card."}, "xyz", "220 mm", "220 mm", "250 mm"),
		Field{Path: "print.hole_add", Title: "Holes wider by", Low: -0.2, High: 0.8, Default: "0.15 mm", Stage: "shape",
			Help:    "Added to the diameter of every printed hole against shrinkage.",
			Measure: "Print the comb of holes; take the one in which the screw just slides."},
		Field{Path: "print.speed", Title: "Print speed", Unit: "mm/s", Low: 0.005, High: 1, Default: "60 mm/s", Stage: "shape",
			Help: "Speed of the nozzle along its lines.", Measure: "From the print settings, the outer wall's."},
		copyFields(),
	)
}

// materialFields are the rows of what each part is made of.
func materialFields() []Field {
	return rows(
		Field{Path: "materials.from", Title: "Materials file", Low: 1, High: 200, Stage: "shape", Otherwise: "none",
			Help: "A file beside the design with materials of your own."},
		Field{Path: "materials.foot", Title: "Foot of", Low: 1, High: 60, Default: "petg", Stage: "shape",
			Help: "Material of the foot; a column in one piece has the mast's."},
		Field{Path: "materials.mast", Title: "Mast of", Low: 1, High: 60, Default: "petg", Stage: "shape",
			When: built("column"), Help: "Material of the mast."},
		Field{Path: "materials.tray", Title: "Tray of", Low: 1, High: 60, Default: "petg", Stage: "shape",
			Help: "Material of the tray; a column in one piece has the mast's."},
		Field{Path: "materials.tube", Title: "Tube of", Low: 1, High: 60, Default: "carbon-tube", Stage: "shape",
			When: built("tube"), Help: "Material of the stock tube."},
		Field{Path: "materials.sheet", Title: "Plates of", Low: 1, High: 60, Default: "acetal-sheet", Stage: "shape",
			When: built("twin-plate"), Help: "Material of the cut plates."},
		Field{Path: "materials.spacer", Title: "Spacers of", Low: 1, High: 60, Default: "petg", Stage: "shape",
			When: built("twin-plate"), Help: "Material of the printed spacers between the plates."},
		Field{Path: "materials.legs", Title: "Legs of", Low: 1, High: 60, Default: "petg", Stage: "shape",
			When: built("legs"), Help: "Material of the legs: a plastic where they are printed, a sheet where they are cut."},
	)
}
