package design

// washers says where washers lie.
var washers = []string{"none", "under heads"}

var fastenerMaterials = []string{"nylon", "brass", "titanium", "aluminium", "stainless", "steel"}

// mastFields are the rows of the mast.
func mastFields() []Field {
	column := built("column")
	rectangular := and(column, when("mast.section", "rectangular"))
	opening := and(built("column", "twin-plate"), when("mast.cable_way.side", sides...))
	return rows(
		Field{Path: "mast.build", Title: "Build", Choices: styles, Default: "column", Stage: "shape",
			Help: "A printed column, a stock tube in printed clamps, two cut plates with spacers, or slender legs."},
		Field{Path: "mast.place", Title: "Place", Low: 1, High: 60, Stage: "shape", Otherwise: "the only place there is",
			Help:   "Name of the place on the frame where it stands.",
			Checks: []string{"clearance", "heading", "sway", "modes", "shake", "strength", "tipover", "printing", "balance", "sky"}},
		Field{Path: "mast.height", Title: "Height", Low: 10, High: 400, Default: "100 mm", Stage: "shape",
			Help: "Height of the tray's seat above the frame's mounting face."},
		Field{Path: "mast.section", Title: "Section", Choices: []string{"rectangular", "round"}, Default: "rectangular", Stage: "shape",
			When: column, Help: "Outline of the mast seen along it."},
		Field{Path: "mast.root.x", Title: "Root, x", Group: "Root", Low: 3, High: 80, Default: "18 mm", Stage: "shape",
			When: column, Help: "Outside of the mast at the foot, fore and aft; the diameter of a round one."},
		Field{Path: "mast.root.y", Title: "Root, y", Group: "Root", Low: 3, High: 80, Stage: "shape", Otherwise: "as x",
			When: rectangular, Help: "Outside of the mast at the foot, across."},
		Field{Path: "mast.tip.x", Title: "Tip, x", Group: "Tip", Low: 3, High: 80, Default: "12 mm", Stage: "shape",
			When: column, Help: "Outside of the mast at the tray, fore and aft; the diameter of a round one."},
		Field{Path: "mast.tip.y", Title: "Tip, y", Group: "Tip", Low: 3, High: 80, Stage: "shape", Otherwise: "as x",
			When: rectangular, Help: "Outside of the mast at the tray, across."},
		Field{Path: "mast.corner", Title: "Corner radius", Low: 0, High: 40, Default: "3 mm", Stage: "shape",
			When: rectangular, Help: "Radius of the mast's upright edges."},
		Field{Path: "mast.wall", Title: "Wall", Low: 0.4, High: 20, Default: "2.4 mm", Stage: "shape",
			When: column, Help: "Thickness of the mast's wall; a multiple of the line width prints best."},
		Field{Path: "mast.root_fillet", Title: "Root fillet", Low: 0, High: 30, Default: "4 mm", Stage: "shape",
			Help: "Radius between mast and foot; it takes the worst stress."},
		Field{Path: "mast.tip_fillet", Title: "Tip fillet", Low: 0, High: 30, Default: "3 mm", Stage: "shape",
			Help: "Radius between mast and tray."},
		Field{Path: "mast.cable_way.side", Title: "Cable leaves", Choices: append([]string{"none"}, sides...), Default: "rear", Stage: "shape",
			When: built("column", "twin-plate"), Help: "Side of the mast through which the cable leaves its bore; between plates it leaves to the front or the rear unhindered."},
		Field{Path: "mast.cable_way.width", Title: "Opening width", Low: 2, High: 40, Default: "5 mm", Stage: "shape", When: opening,
			Help: "Width of the cable's opening; the plug must pass or be fitted afterwards."},
		Field{Path: "mast.cable_way.length", Title: "Opening length", Low: 2, High: 120, Default: "12 mm", Stage: "shape", When: opening,
			Help: "Length of the cable's opening along the mast."},
		Field{Path: "mast.cable_way.bottom", Title: "Opening starts", Low: 2, High: 350, Default: "12 mm", Stage: "shape", When: opening,
			Help: "Height of the opening's lower edge above the mounting face."},
		Field{Path: "mast.split", Title: "Printed as", Choices: []string{"one piece", "three pieces"}, Default: "one piece", Stage: "shape",
			When: column, Help: "Whether the tray is printed with the mast or apart and screwed on."},
		tubeFields(), plateFields(), legFields(), fuseFields(),
	)
}

// footFields are the rows of the foot.
func footFields() []Field {
	return rows(
		point(Field{Path: "foot.size", Title: "Foot", Low: 12, High: 200, Stage: "shape", Otherwise: "from the holes and the mast's root",
			Help: "Outside of the foot, fore and aft and across."}, "xy"),
		Field{Path: "foot.thickness", Title: "Foot thickness", Low: 1.2, High: 25, Default: "5 mm", Stage: "shape",
			Help: "Thickness of the foot."},
		Field{Path: "foot.corner", Title: "Foot corner radius", Low: 0, High: 60, Default: "4 mm", Stage: "shape",
			Help: "Radius of the foot's corners."},
		Field{Path: "foot.head", Title: "Screw heads", Choices: []string{"counterbore", "plain", "nut pocket", "insert"}, Default: "plain", Stage: "shape",
			Help: "What the foot has around its holes: sunk heads, nothing, pockets for nuts, or bores for heat-set inserts; into the last two the screws come from below."},
		Field{Path: "foot.fit", Title: "Hole fit", Choices: []string{"fine", "medium", "coarse"}, Default: "medium", Stage: "shape",
			Help: "Clearance of the foot's holes, ISO 273."},
		Field{Path: "foot.wedge", Title: "Underside", Choices: []string{"none", "level"}, Default: "none", Stage: "shape",
			Help: "Level makes the foot's underside take up the slope of the frame's face."},
		Field{Path: "foot.screws", Title: "Foot screws of", Choices: fastenerMaterials, Default: "nylon", Stage: "shape",
			Help: "Material of the screws that hold the foot."},
		Field{Path: "foot.washers", Title: "Foot washers", Choices: washers, Default: "none", Stage: "shape",
			Help: "Plain washers under the heads of the foot's screws, of the screws' material, where a head would press too hard."},
		Field{Path: "foot.relief", Title: "Edge relief", Low: 0, High: 2, Default: "0.3 mm", Stage: "shape",
			Help: "Chamfer around the lowest edge that makes room for the first layers' spread."},
		Field{Path: "foot.mark", Title: "Underside marked", Choices: []string{"none", "number"}, Default: "none", Stage: "make",
			Help: "Number cuts the revision and the design's short number into the foot's underside, so that a part can be told from an older one."},
	)
}

// trayFields are the rows of the tray.
func trayFields() []Field {
	rim, screwed := when("receiver.fixing", "rim"), when("receiver.fixing", "screws")
	return rows(
		point(Field{Path: "tray.size", Title: "Tray", Low: 8, High: 150, Stage: "shape", Otherwise: "from the receiver",
			Help: "Outside of the tray, fore and aft and across."}, "xy"),
		Field{Path: "tray.thickness", Title: "Tray thickness", Low: 1, High: 15, Default: "2.4 mm", Stage: "shape",
			Help: "Thickness of the tray's floor."},
		Field{Path: "tray.corner", Title: "Tray corner radius", Low: 0, High: 60, Default: "3 mm", Stage: "shape",
			Help: "Radius of the tray's corners."},
		Field{Path: "tray.rim_height", Title: "Rim height", Low: 0.6, High: 40, Default: "3 mm", Stage: "shape", When: rim,
			Help: "Height of the rim above the seat."},
		Field{Path: "tray.rim_wall", Title: "Rim wall", Low: 0.4, High: 10, Default: "1.6 mm", Stage: "shape", When: rim,
			Help: "Thickness of the rim."},
		Field{Path: "tray.clearance", Title: "Play around the receiver", Low: 0, High: 3, Default: "0.25 mm", Stage: "shape",
			Help: "Gap between receiver and rim on each side; the fit piece settles it."},
		point(Field{Path: "tray.opening", Title: "Opening in the floor", Low: 0, High: 100, Stage: "shape",
			Help: "Opening through the tray's floor for cable and drain; 0 for none."}, "xy", "6 mm", "6 mm"),
		Field{Path: "tray.flare", Title: "Flare under the tray", Low: 0, High: 60, Default: "0 mm", Stage: "shape",
			Help: "Height of a 45-degree flare under the tray, in place of the tip fillet, that prints without supports; 0 for none."},
		Field{Path: "tray.screws", Title: "Tray screws of", Choices: fastenerMaterials, Default: "nylon", Stage: "shape",
			Help: "Material of the screws at the tray."},
		Field{Path: "tray.held", Title: "Receiver's screws held by", Choices: []string{"nuts", "nut pocket", "insert"}, Default: "nuts", Stage: "shape", When: screwed,
			Help: "Nuts on the receiver with the heads under the floor; nuts in pockets of the floor's underside, or heat-set inserts there, with the heads on the receiver."},
		Field{Path: "tray.washers", Title: "Receiver's washers", Choices: washers, Default: "none", Stage: "shape", When: screwed,
			Help: "Plain washers under the heads of the receiver's screws, of the screws' material."},
		Field{Path: "tray.opening_corner", Title: "Opening's corner radius", Low: 0, High: 50, Default: "0 mm", Stage: "shape",
			Help: "Radius of the corners of the opening in the floor; half of its smaller side makes round ends."},
		Field{Path: "tray.letters", Title: "Letters of the sides", Choices: []string{"none", "sides"}, Default: "none", Stage: "shape",
			Help: "Sides cuts F, L, R and B into the floor beside front, left, right and back, where they find room."},
	)
}
