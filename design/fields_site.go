package design

// siteFields are the rows of where and when the aircraft flies.
func siteFields() []Field {
	field := []string{"heading", "level", "hardware"}
	return rows(
		Field{Path: "site.latitude", Title: "Latitude", Group: "Place on earth", Low: -90, High: 90, Stage: "measure",
			Help: "Latitude, north positive.", Measure: "Any map; a tenth of a degree is near enough.", Checks: field},
		Field{Path: "site.longitude", Title: "Longitude", Group: "Place on earth", Low: -180, High: 180, Stage: "measure",
			Help: "Longitude, east positive.", Measure: "Any map; a tenth of a degree is near enough.", Checks: field},
		Field{Path: "site.altitude", Title: "Altitude", Unit: "m", Low: -500e3, High: 7000e3, Default: "0 m", Stage: "measure",
			Help: "Height of the field above the sea; thin air makes propellers turn faster.", Measure: "Any map."},
		Field{Path: "site.year", Title: "Year", Low: 2020, High: 2040, Stage: "measure",
			Help: "Year of the flight, with its decimals if you like; the earth's field drifts.", Measure: "The calendar: 2026.5 is the middle of 2026.",
			Checks: field},
		Field{Path: "site.extrapolated", Title: "Beyond the model's years", Default: "false", Stage: "measure",
			Help: "Allows a year outside the span of the earth's field model, at the cost of accuracy."},
		Field{Path: "site.mask", Title: "Elevation mask", Low: 0, High: 45, Default: "10 deg", Stage: "measure",
			Help: "Elevation below which satellites are not used."},
		Field{Path: "site.service", Title: "Hottest", Low: -20, High: 150, Default: "60 degC", Stage: "measure",
			Help: "Hottest the mount gets; a closed car in the sun reaches 60 degC."},
	)
}

// loadFields are the rows of what the mount must bear.
func loadFields() []Field {
	return rows(
		Field{Path: "loads.sideways", Title: "Sideways load", Unit: "g", Low: 0.1 * gravity, High: 50 * gravity, Default: "3 g", Stage: "check",
			Help: "Sideways acceleration of a hard manoeuvre."},
		Field{Path: "loads.axial", Title: "Load along the mast", Unit: "g", Low: 0.1 * gravity, High: 50 * gravity, Default: "5 g", Stage: "check",
			Help: "Acceleration along the mast at full thrust: thrust over weight."},
		Field{Path: "loads.hand", Title: "Load by hand", Low: 0.1, High: 500, Default: "20 N", Stage: "check",
			Help: "Force of a hand on the tray, in any direction."},
		Field{Path: "loads.drag", Title: "Drag coefficient", Low: 0.1, High: 3, Default: "1.2", Stage: "check",
			Help: "Drag coefficient of mast and receiver."},
		Field{Path: "loads.ground", Title: "Ground", Choices: []string{"turf", "hard"}, Default: "turf", Stage: "check",
			Help: "What the mast strikes when the aircraft tips over."},
	)
}

// assumptionFields are the rows of the judgements.
func assumptionFields() []Field {
	return rows(
		Field{Path: "assume.thrust_coefficient", Title: "Thrust coefficient", Low: 0.03, High: 0.4, Stage: "check", Otherwise: "by number of blades",
			Help: "Thrust over air density, speed in turns a second squared and diameter to the fourth."},
		Field{Path: "assume.thrust_ripple", Title: "Thrust ripple", Low: 0.001, High: 0.3, Default: "0.03", Stage: "check",
			Help: "Share of the hover thrust that pulses at blade-pass; .01 to .10, a judgement."},
		Field{Path: "assume.joint_loss", Title: "Damping of joints", Low: 0, High: 0.2, Default: "0.01", Stage: "check",
			Help: "Damping ratio that screws and joints add; common practice."},
		Field{Path: "assume.contact_hard", Title: "Give of hard ground", Low: 1e-4, High: 1, Default: "0.01 mm/N", Stage: "check",
			Help: "Give of case, tray and tape against hard ground; a judgement within a factor of 3."},
		Field{Path: "assume.contact_turf", Title: "Give of turf", Low: 1e-4, High: 1, Default: "0.04 mm/N", Stage: "check",
			Help: "Give of case, tray, tape and turf; a judgement within a factor of 3."},
		Field{Path: "assume.hinge_factor", Title: "Plastic hinge", Low: 1, High: 2, Default: "1.3", Stage: "check",
			Help: "Moment of the plastic hinge over the moment at yield; a judgement."},
		Field{Path: "assume.hinge_strain", Title: "Strain in a blow", Low: 0.05, High: 1, Default: "0.5", Stage: "check",
			Help: "Share of the low elongation that is left in a blow at a notch; a judgement."},
		Field{Path: "assume.clamp_bed", Title: "Bed of a clamp", Low: 0.1, High: 5, Default: "1", Stage: "check", When: built("tube"),
			Help: "Stiffness of the bed a clamp makes for its tube over the modulus of its plastic; 0.5 to 2, a judgement."},
		Field{Path: "assume.clamp_friction", Title: "Friction in a clamp", Low: 0.02, High: 1, Default: "0.2", Stage: "check", When: built("tube"),
			Help: "Friction between a clamp and its tube; common practice."},
		Field{Path: "assume.preload", Title: "Screws tightened to", Low: 0.05, High: 0.9, Default: "0.4", Stage: "check", When: built("tube", "twin-plate", "legs"),
			Help: "Pull in a tightened screw over its breaking load; a judgement, plastic creeps."},
		Field{Path: "assume.placement_side", Title: "Lead off its place", Low: 0, High: 60, Default: "10 mm", Stage: "check",
			Help: "How far the lead's middle may lie off its place sideways."},
		Field{Path: "assume.placement_roll", Title: "Lead rolled", Low: 0, High: 90, Default: "15 deg", Stage: "check",
			Help: "How far the pair may be rolled about its run."},
		Field{Path: "assume.placement_gap", Title: "Gap varies", Low: 0, High: 1, Default: "0.3", Stage: "check",
			Help: "Share by which the gap between the wires may vary."},
	)
}
