package design

// measuredFields are the rows of the values that tests gave.
func measuredFields() []Field {
	what := func(as ...string) []Condition { return when("measured[].what", as...) }
	return rows(
		Field{Path: "measured", Title: "Measured values", Low: 0, High: 40, Stage: "prove",
			Help: "What tests gave; each goes before the library's or the model's figure until it is taken out.", Otherwise: "none"},
		Field{Path: "measured[].what", Title: "Measured", Choices: []string{MeasuredModulus, MeasuredDensity, MeasuredStiffness, MeasuredLead, MeasuredAnswer},
			Stage: "prove", Help: "What was measured: a material's modulus or density, the whole mount's stiffness, the leads' field, or a field's answer."},
		Field{Path: "measured[].of", Title: "Of", Low: 1, High: 120, Stage: "prove", Otherwise: "the whole mount, or every lead",
			Help: "The material, the lead, or the field's path."},
		Field{Path: "measured[].layers", Title: "Layers lay", Choices: []string{"across", "along"}, Stage: "prove", When: what(MeasuredModulus),
			Help: "How the layers of the tested print lay: across the mast's axis or along it."},
		Field{Path: "measured[].modulus", Title: "Modulus", Low: 1, High: 400000, Stage: "prove", When: what(MeasuredModulus),
			Help: "Modulus of elasticity as tested."},
		Field{Path: "measured[].factor", Title: "Over predicted", Low: 0.02, High: 50, Stage: "prove",
			When: what(MeasuredDensity, MeasuredStiffness, MeasuredLead), Help: "Measured value over the predicted one."},
		Field{Path: "measured[].frequency", Title: "Frequency", Low: 0.5, High: 20000, Stage: "prove", Otherwise: "not kept",
			When: what(MeasuredModulus, MeasuredStiffness), Help: "Frequency that the tap test gave."},
		Field{Path: "measured[].before", Title: "Before", Low: 1, High: 200, Stage: "prove", When: what(MeasuredAnswer), Otherwise: "nothing",
			Help: "What the field held before, for taking the value back."},
		Field{Path: "measured[].spread", Title: "Spread", Low: 0, High: 1, Stage: "prove", Otherwise: "not known",
			Help: "Share of the value that it may be off to either side, with 95 % confidence."},
		Field{Path: "measured[].date", Title: "Date", Low: 4, High: 30, Stage: "prove", Otherwise: "not kept", Help: "Day of the test, year-month-day."},
		Field{Path: "measured[].method", Title: "Method", Low: 1, High: 120, Stage: "prove", Otherwise: "not kept", Help: "How it was measured."},
		Field{Path: "measured[].spool", Title: "Spool", Low: 1, High: 60, Stage: "prove", Otherwise: "not kept", Help: "Spool that was printed from."},
		Field{Path: "measured[].printer", Title: "Printer", Low: 1, High: 60, Stage: "prove", Otherwise: "not kept", Help: "Printer that printed it."},
		Field{Path: "measured[].walls", Title: "Walls", Low: 1, High: 40, Stage: "prove", Otherwise: "not kept", Help: "Lines of wall in the tested print."},
	)
}
