package session

import (
	"mastwright/design"
	"mastwright/design/review"
)

// Use enters measured values as one step, each with the text that its field takes where it is an answer. The error is a
// design.Problem, and then nothing is changed.
func (s *Session) Use(title string, values ...design.Finding) error {
	var changes []Change
	for _, v := range values {
		changes = append(changes, Change{v.Value.Of, v.Answer})
	}
	return s.edit(title, append(changes, Change{Path: "measured"}), "", func(d *design.Document) error {
		for _, v := range values {
			if err := d.Use(v.Value, v.Answer); err != nil {
				return err
			}
		}
		return nil
	})
}

// Withdraw takes the measured value at the index out again; the field that it answered holds what it held before. The error is
// a design.Problem.
func (s *Session) Withdraw(at int) error {
	return s.edit("Measured value withdrawn", []Change{{Path: "measured"}}, "", func(d *design.Document) error { return d.Withdraw(at) })
}

// proveStage counts the measured values in use.
func (s *Snapshot) proveStage() Stage {
	if n := len(s.Document.Measured); n > 0 {
		return Stage{"Prove", review.Pass, plural(n, "value measured", "values measured")}
	}
	return Stage{"Prove", review.NoData, "nothing measured yet"}
}
