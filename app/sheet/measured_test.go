package sheet_test

import (
	"context"
	"strings"
	"testing"

	"mastwright/app/sheet"
	"mastwright/design"
	"mastwright/design/units"
)

// Measured values are listed with all that is known of them, and the predictions that rest on them say so.
func TestMeasured(t *testing.T) {
	doc := example(t, "river-survey")
	for _, m := range []design.Measured{
		{What: design.MeasuredModulus, Of: doc.Materials.Mast, Layers: "along", Modulus: units.Megapascals(1650), Spread: units.Fraction(0.06), Date: "2026-05-02", Method: "tap test on a block", Spool: "spool 3", Printer: "the small one", Walls: 4},
		{What: design.MeasuredDensity, Of: doc.Materials.Mast, Factor: units.Fraction(0.97)},
		{What: design.MeasuredStiffness, Factor: units.Fraction(0.9), Frequency: units.Hertz(181)},
		{What: design.MeasuredLead, Factor: units.Fraction(1.2), Date: "2026-05-03"},
	} {
		if err := doc.Use(m, ""); err != nil {
			t.Fatal(err)
		}
	}
	if err := doc.Use(design.Measured{What: design.MeasuredAnswer, Of: "motors.hover_speed", Method: "hover record"}, "9100 rpm"); err != nil {
		t.Fatal(err)
	}
	s, err := sheet.Build(context.Background(), job(t, doc))
	if err != nil {
		t.Fatal(err)
	}
	text := whole(s)
	for _, want := range []string{
		"1650 MPa", "± 6 %", "2026-05-02", "tap test on a block", "spool 3, the small one, 4 wall lines", "0.97 × predicted", "0.9 × predicted, heard 181 Hz",
		"Field of every lead", "1.2 × predicted", "9100 rpm", "hover record", "(with the measured stiffness and modulus)", "(measured density)", "(with the measured field of the leads)", "5 values, see under Measured",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	if plain, _ := passing(t); strings.Contains(whole(plain), "with the measured") {
		t.Error("a design without measurements claims some")
	}
}

// Every test of the commissioning names the command that reads its record.
func TestCommandsOfTheTests(t *testing.T) {
	s, _ := passing(t)
	text := whole(s)
	for _, test := range []string{"weigh", "tap", "hang", "turn", "pointing", "throttle", "hover", "radio"} {
		if !strings.Contains(text, "mastwright prove "+test+" DESIGN.yaml") {
			t.Errorf("no command reads the %s test", test)
		}
	}
}
