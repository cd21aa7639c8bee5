package design_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/units"
)

func TestAMeasuredModulusGoesBeforeTheLibrary(t *testing.T) {
	d := design.New()
	library, err := d.Library().Find("pa12") // one that loses stiffness in humid air
	if err != nil {
		t.Fatal(err)
	}
	wet := library.Conditioning.Typical.Fraction()
	if wet >= 1 {
		t.Fatalf("the material keeps %g of its modulus; the test needs one that does not keep all", wet)
	}
	m := design.Measured{What: design.MeasuredModulus, Of: "pa12", Layers: "across", Modulus: units.Megapascals(900),
		Spread: units.Fraction(0.05), Date: "2026-05-02", Method: "tap test on a block", Spool: "spool 3"}
	if err := d.Use(m, ""); err != nil {
		t.Fatal(err)
	}
	got, _ := d.Library().Find("pa12")
	in := got.ModulusAcross
	for name, pair := range map[string][2]float64{
		"low":     {in.Low.Megapascals() * wet, 855},
		"typical": {in.Typical.Megapascals() * wet, 900},
		"high":    {in.High.Megapascals() * wet, 945},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-9*pair[1] {
			t.Errorf("%s in use: got %g MPa, want %g", name, pair[0], pair[1])
		}
	}
	if want := "measured 2026-05-02, tap test on a block, spool 3"; in.Source != want {
		t.Errorf("source %q, want %q", in.Source, want)
	}
	if got.ModulusInLayer != library.ModulusInLayer {
		t.Error("the other direction changed too")
	}
	m.Modulus = units.Megapascals(950)
	if err := d.Use(m, ""); err != nil || len(d.Measured) != 1 {
		t.Errorf("measured again: %v, %d entries", err, len(d.Measured))
	}
	if err := d.Withdraw(0); err != nil {
		t.Fatal(err)
	}
	if back, _ := d.Library().Find("pa12"); back.ModulusAcross != library.ModulusAcross || len(d.Measured) != 0 {
		t.Error("withdrawn, and still there")
	}
}

func TestAMeasuredDensity(t *testing.T) {
	d := design.New()
	before, _ := d.Library().Find("petg")
	if err := d.Use(design.Measured{What: design.MeasuredDensity, Of: "petg", Factor: units.Fraction(0.92)}, ""); err != nil {
		t.Fatal(err)
	}
	after, _ := d.Library().Find("petg")
	if got, want := after.Density.Typical, before.Density.Typical*0.92; math.Abs(float64(got-want)) > 1e-12*float64(want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestAMeasuredAnswerIsWithdrawn(t *testing.T) {
	for _, c := range []struct{ name, path, held, answer string }{
		{"nothing before", "motors.hover_speed", "", "6000 rpm"},
		{"an answer before", "motors.hover_speed", "5500 rpm", "6000 rpm"},
		{"a default before", "print.hole_add", "", "0.22 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := design.New()
			if c.held != "" {
				if err := d.Set(c.path, c.held); err != nil {
					t.Fatal(err)
				}
			}
			was, origin := d.Get(c.path), d.Origin(c.path)
			if err := d.Use(design.Measured{What: design.MeasuredAnswer, Of: c.path, Method: "hover record"}, c.answer); err != nil {
				t.Fatal(err)
			}
			if err := d.Use(design.Measured{What: design.MeasuredAnswer, Of: c.path, Method: "second record"}, c.answer); err != nil {
				t.Fatal(err)
			}
			if m, ok := d.AnswerMeasured(c.path); d.Get(c.path) != c.answer || !ok || m.Method != "second record" {
				t.Errorf("in use: %q, %+v", d.Get(c.path), m)
			}
			if err := d.Withdraw(0); err != nil {
				t.Fatal(err)
			}
			if d.Get(c.path) != was || d.Origin(c.path) != origin {
				t.Errorf("withdrawn: %q %v, want %q %v", d.Get(c.path), d.Origin(c.path), was, origin)
			}
		})
	}
}

func TestMeasuredValuesComeBackFromTheFile(t *testing.T) {
	d := design.New()
	for _, m := range []design.Measured{
		{What: design.MeasuredStiffness, Factor: units.Fraction(0.87), Frequency: units.Hertz(103.5), Spread: units.Fraction(0.03), Walls: 4},
		{What: design.MeasuredLead, Factor: units.Fraction(1.4)},
	} {
		if err := d.Use(m, ""); err != nil {
			t.Fatal(err)
		}
	}
	var file bytes.Buffer
	if err := design.Encode(&file, d); err != nil {
		t.Fatal(err)
	}
	back, problems := design.Decode(file.Bytes(), design.Options{})
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, file.String())
	}
	if m, ok := back.Stiffness(); !ok || m != d.Measured[0] {
		t.Errorf("got %+v, want %+v", m, d.Measured[0])
	}
	if m, ok := back.LeadField("any lead"); !ok || m.Factor != units.Fraction(1.4) {
		t.Errorf("the factor of every lead: %+v, %v", m, ok)
	}
}

func TestMeasuredValuesThatCannotBe(t *testing.T) {
	for _, c := range []struct{ name, entry, want string }{
		{"no kind", "of: petg", "does not say what was measured"},
		{"unknown material", "what: density\n    of: petgg\n    factor: 0.9", `did you mean "petg"?`},
		{"no modulus", "what: modulus\n    of: petg\n    layers: across", "it is needed for a measured modulus"},
		{"no layers", "what: modulus\n    of: petg\n    modulus: 1600 MPa", "it is needed for a measured modulus"},
		{"unknown lead", "what: lead field\n    of: battery\n    factor: 1.2", "is no lead"},
		{"unknown field", "what: answer\n    of: motors.hover_sped", `did you mean "motors.hover_speed"?`},
		{"what it held", "what: answer\n    of: motors.hover_speed\n    before: fast", "before"},
		{"stiffness of a part", "what: stiffness\n    of: petg\n    factor: 0.9", "the whole mount's"},
		{"twice", "what: stiffness\n    factor: 0.9\n  - what: stiffness\n    factor: 0.8", "measured twice"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, problems := design.Decode([]byte("mastwright: 1\nmeasured:\n  - "+c.entry+"\n"), design.Options{})
			if len(problems) == 0 {
				t.Fatal("it is taken")
			}
			if said := problems[0].String(); !strings.Contains(said, c.want) {
				t.Errorf("%q does not say %q", said, c.want)
			}
		})
	}
	d := design.New()
	if err := d.Withdraw(0); err == nil {
		t.Error("what is not there is withdrawn")
	}
	if err := d.Use(design.Measured{What: design.MeasuredAnswer, Of: "motors.hover_speed"}, "fast"); err == nil || len(d.Measured) != 0 {
		t.Errorf("an answer that is none is used: %v, %+v", err, d.Measured)
	}
}
