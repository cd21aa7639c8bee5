package design

// headFields are the rows of a design file's own first lines.
func headFields() []Field {
	return rows(
		Field{Path: "mastwright", Title: "Schema", Low: 1, High: schema, Otherwise: "the schema this version writes", Stage: "measure",
			Help: "The version of the file's form; it is the first line of every file."},
		Field{Path: "name", Title: "Name", Low: 1, High: 80, Stage: "measure", Otherwise: "the file's name",
			Help: "What the design is called on the sheet and in the results."},
		Field{Path: "revision", Title: "Revision", Low: 1, High: 40, Stage: "make", Otherwise: "none",
			Help: "A letter, number or date of your own that is printed on the sheet."},
	)
}

// acceptedFields are the rows of the verdicts the builder lives with.
func acceptedFields() []Field {
	return rows(
		Field{Path: "accepted", Title: "Accepted verdicts", Low: 0, High: 20, Stage: "check", Otherwise: "none",
			Help: "Checks that do not pass and that you have a reason to live with; their state stays as it is."},
		Field{Path: "accepted[].check", Title: "Check", Choices: Checks(), Stage: "check",
			Help: "The check that is accepted."},
		Field{Path: "accepted[].reason", Title: "Reason", Low: 3, High: 300, Stage: "check",
			Help: "Why it is accepted; every output repeats it."},
	)
}
