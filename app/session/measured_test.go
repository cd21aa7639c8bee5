package session_test

import (
	"testing"

	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/units"
)

// What a test gave is one step of undo, and withdrawing it is another.
func TestMeasuredValuesAreEdits(t *testing.T) {
	s := open(t, session.Options{})
	was := s.Snapshot().Document.Get("motors.hover_speed")
	rotor := design.Measured{What: design.MeasuredAnswer, Of: "motors.hover_speed", Method: "hover record"}
	stiff := design.Measured{What: design.MeasuredStiffness, Factor: units.Fraction(0.9), Method: "tap test"}
	if err := s.Use("Hover record", design.Finding{Value: rotor, Answer: "6100 rpm"}, design.Finding{Value: stiff}); err != nil {
		t.Fatal(err)
	}
	n := s.Snapshot()
	if n.Document.Get("motors.hover_speed") != "6100 rpm" || len(n.Document.Measured) != 2 {
		t.Fatalf("in use: %q, %+v", n.Document.Get("motors.hover_speed"), n.Document.Measured)
	}
	if got := n.Stages[4].Text; got != "2 values measured" {
		t.Errorf("the road says %q", got)
	}
	if err := s.Withdraw(0); err != nil {
		t.Fatal(err)
	}
	n = s.Snapshot()
	if got := n.Document.Get("motors.hover_speed"); got != was || len(n.Document.Measured) != 1 {
		t.Errorf("withdrawn: %q, want %q", got, was)
	}
	s.Undo()
	s.Undo()
	if n = s.Snapshot(); len(n.Document.Measured) != 0 || n.Document.Get("motors.hover_speed") != was || n.Stages[4].Text != "nothing measured yet" {
		t.Errorf("undone: %+v", n.Document.Measured)
	}
	if err := s.Use("Hover record", design.Finding{Value: stiff}, design.Finding{Value: rotor, Answer: "fast"}); err == nil || len(s.Snapshot().Document.Measured) != 0 {
		t.Errorf("half of it is used: %v", err)
	}
	if err := s.Withdraw(3); err == nil {
		t.Error("what is not there is withdrawn")
	}
}
