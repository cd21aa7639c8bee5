package prove_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/app/prove"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
)

// What cannot be measured is refused in sentences, whatever a form hands over.
func TestTypedNonsenseIsRefused(t *testing.T) {
	doc := quarry(t)
	nan, inf := math.NaN(), math.Inf(1)
	for name, run := range map[string]func(x float64) error{
		"weigh": func(x float64) error {
			_, err := prove.Weigh(doc, prove.WeighInput{Weights: []prove.Weight{{Part: "mast", Mass: x}}})
			return err
		},
		"caliper": func(x float64) error {
			_, err := prove.Caliper(doc, prove.CaliperInput{Dimensions: []bench.Dimension{{Name: "mast x", Measured: x}, {Name: "foot x", Measured: .04}, {Name: "foot hole", Measured: .0033}}})
			return err
		},
		"hang": func(x float64) error {
			in := prove.HangInput{}
			for i := range 6 {
				in.Loads = append(in.Loads, bench.Load{Mass: .2 * float64(i), Reading: 1e-4 * float64(i)})
			}
			in.Loads[3].Reading = x
			_, err := prove.Hang(doc, in)
			return err
		},
		"hung mass": func(x float64) error {
			in := prove.HangInput{}
			for i := range 6 {
				in.Loads = append(in.Loads, bench.Load{Mass: .2 * float64(i), Reading: 1e-4 * float64(i)})
			}
			in.Loads[3].Mass = x
			_, err := prove.Hang(doc, in)
			return err
		},
		"pointing": func(x float64) error {
			in := prove.PointingInput{Readings: compass.InventedPointing{}.Readings()}
			in.Readings[1].Shown = x
			_, err := prove.Point(doc, in)
			return err
		},
		"radio": func(x float64) error {
			in := prove.RadioInput{Rows: bench.InventedRadio{}.Rows()}
			in.Rows[2].Signal = x
			_, err := prove.Radio(in)
			return err
		},
	} {
		for _, x := range []float64{nan, inf, -inf} {
			err := run(x)
			var no prove.Refusal
			if !errors.As(err, &no) {
				t.Errorf("%s with %g: got %v, want a refusal", name, x, err)
			}
		}
	}
	for name, err := range map[string]error{
		"nothing weighed": second(prove.Weigh(doc, prove.WeighInput{})), "nothing measured": second(prove.Caliper(doc, prove.CaliperInput{})),
		"nothing hung": second(prove.Hang(doc, prove.HangInput{})), "no headings": second(prove.Point(doc, prove.PointingInput{})),
		"no readings":  second(prove.Radio(prove.RadioInput{})),
		"no such axis": second(prove.Tap(doc, example(t, doc, "tap"), prove.TapInput{TapOptions: vibration.TapOptions{Axis: 7}})),
		"empty record": second(prove.Hover(doc, strings.NewReader(""), prove.HoverInput{})),
	} {
		var no prove.Refusal
		if !errors.As(err, &no) {
			t.Errorf("%s: got %v, want a refusal", name, err)
		}
	}
}

func second(_ prove.Result, err error) error { return err }

// Every line that is wrong is told, not the first alone.
func TestTablesTellEveryWrongLine(t *testing.T) {
	var in prove.WeighInput
	err := in.ReadWeights(strings.NewReader("part,mass (g)\nfoot,9\nmast,heavy\ntray,light\n"), record.Options{Name: "scale.csv"})
	var no prove.Refusal
	if !errors.As(err, &no) || len(no.Sentences) != 2 || !strings.Contains(no.Sentences[0], "scale.csv:3") || !strings.Contains(no.Sentences[1], "scale.csv:4") {
		t.Errorf("got %v, want the lines 3 and 4 of scale.csv", err)
	}
}

// The support decides what a tap on the aircraft is held against, and a made-up record says so in what it finds.
func TestFindingsSayWhereTheyAreFrom(t *testing.T) {
	doc := quarry(t)
	got, err := prove.Tap(doc, example(t, doc, "tap"), prove.TapInput{About: prove.About{Date: "2026-05-02", Printer: "gantry"}})
	if err != nil {
		t.Fatal(err)
	}
	if source := got.Findings[0].Value.Source(); source != "measured 2026-05-02, tap test, on a block, invented record, gantry" {
		t.Errorf("got %q", source)
	}
}

func TestNotesAreSaidOnce(t *testing.T) {
	doc := quarry(t)
	for _, test := range []string{"tap", "hover"} {
		var got prove.Result
		var err error
		if test == "tap" {
			got, err = prove.Tap(doc, example(t, doc, test), prove.TapInput{})
		} else {
			got, err = prove.Hover(doc, example(t, doc, test), prove.HoverInput{})
		}
		if err != nil {
			t.Fatal(err)
		}
		said := map[string]bool{}
		for _, text := range append(append([]string{got.Headline}, got.Notes...), got.Words...) {
			if said[text] {
				t.Errorf("%s: %q is said twice", test, text)
			}
			said[text] = true
		}
	}
}

// A sound tells frequencies, not levels: it answers the rotors' speed and the modulus, and no vibration.
func TestSoundsServe(t *testing.T) {
	doc := quarry(t)
	predicted, err := prove.Predicted(doc, "tap", vibration.OnBlock)
	if err != nil {
		t.Fatal(err)
	}
	var tap, hover bytes.Buffer
	if err := (vibration.InventedTap{Hz: predicted[0].Value.Value, Sound: true, Rate: 8000}).Write(&tap); err != nil {
		t.Fatal(err)
	}
	got, err := prove.Tap(doc, &tap, prove.TapInput{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "modulus", got.Findings[0].Value.Modulus.Megapascals(), library(t, doc), .02) // twice the percent of a tapped frequency
	if !got.Compared[0].Agrees {
		t.Error("the predicted frequency does not agree with itself")
	}

	predicted, err = prove.Predicted(doc, "hover", 0)
	if err != nil {
		t.Fatal(err)
	}
	speed := predicted[0].Value.Value / 60
	if err := (vibration.InventedHover{Speeds: []float64{.97 * speed, .99 * speed, 1.01 * speed, 1.03 * speed}, Blades: 2, Sound: true}).Write(&hover); err != nil {
		t.Fatal(err)
	}
	got, err = prove.Hover(doc, &hover, prove.HoverInput{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "speed", got.Turning.Speed, speed, .01)
	if len(got.Findings) != 1 || got.Findings[0].Value.Of != "motors.hover_speed" {
		t.Errorf("got %+v", got.Findings)
	}
}

func ExampleRadio() {
	got, err := prove.Radio(prove.RadioInput{Rows: []bench.Reception{
		{Satellites: 18, Signal: 42}, {Device: "camera", On: true, Satellites: 12, Signal: 36},
		{Satellites: 18, Signal: 42.2}, {Device: "camera", On: true, Satellites: 11, Signal: 36.2},
	}})
	if err != nil {
		fmt.Println(err)
	}
	fmt.Println(got.Headline)
	// Output:
	// Move camera first: camera costs 6.0 ± 0.6 dB and 7 satellites: the receiver is nearly deaf beside it.
}
