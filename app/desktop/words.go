package desktop

import (
	"fmt"
	"slices"

	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/review"
)

// questions are the builder's, one a stage; they stand at the foot while no field has the focus.
var questions = [...]string{
	"Measure: what have I got? A row at the right leads to its field.",
	"Shape: what shall I make? The mark on the staff can be dragged; a material at the right applies it.",
	"Check: will it do? Pick a verdict to see why, what moves it and how it was computed.",
	"Make: how do I build it?",
	"Prove: does it really? Pick a test, do it and read its record; what was measured goes before what was computed.",
}

// help is what the line at the foot says of a field.
func help(n *session.Snapshot, path string) string {
	field, known := design.FieldOf(path)
	if !known {
		return ""
	}
	said := field.Title + ": " + field.Help
	if field.Measure != "" && !n.Document.Has(path) {
		said += " " + field.Measure
	}
	if field.Otherwise != "" && field.Otherwise != "none" && !n.Document.Has(path) {
		said += " Left empty: " + field.Otherwise + "."
	}
	return said
}

// title is what stands on the window's frame.
func title(n *session.Snapshot) string {
	mark := ""
	if n.Dirty {
		mark = "• "
	}
	return mark + n.Name + " - Mastwright"
}

// notice is what stands over the verdicts when they are not those of the fields as they stand.
func notice(n *session.Snapshot) string {
	height := ""
	if n.Review != nil {
		height = "; showing Height " + n.Review.Document.Get("mast.height")
	}
	switch {
	case len(n.Errors) == 1:
		return "1 field is not understood" + height
	case len(n.Errors) > 1:
		return fmt.Sprintf("%d fields are not understood%s", len(n.Errors), height)
	case len(n.Problems) > 0:
		return "Cannot be built: " + dotted(n.Problems[0].Sentence())
	}
	return ""
}

// ofOneMaterial is the material of a mount that is all of one, or "".
func ofOneMaterial(doc *design.Document) string {
	m := doc.Materials
	if m.Foot == m.Mast && m.Mast == m.Tray {
		return m.Mast
	}
	return ""
}

// unchecked is what the checks say of a design that cannot be checked: what each of them lacks.
func unchecked(n *session.Snapshot) review.Result {
	var r review.Result
	for _, check := range review.Checks() {
		v := review.Verdict{ID: check.ID, Title: check.Title, State: review.NoData, Formula: check.Formula, Source: check.Source}
		for _, answer := range n.Missing {
			if slices.Contains(answer.Checks, check.ID) {
				v.Missing = append(v.Missing, answer.Path)
			}
		}
		r.Verdicts = append(r.Verdicts, v)
	}
	return r
}

// resultOf is what the checks say of a snapshot.
func resultOf(n *session.Snapshot) review.Result {
	if n.Review == nil {
		return unchecked(n)
	}
	return n.Review.Result
}
