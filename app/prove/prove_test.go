package prove_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
	"mastwright/design/units"
)

// quarry is an example design in three pieces, complete.
func quarry(t *testing.T) *design.Document {
	t.Helper()
	folder := filepath.Join("..", "..", "assets", "examples")
	data, err := os.ReadFile(filepath.Join(folder, "quarry-survey.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	doc, wrong := design.Decode(data, design.Options{Open: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }})
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	return doc
}

func example(t *testing.T, doc *design.Document, test string) *bytes.Buffer {
	t.Helper()
	var b bytes.Buffer
	if err := prove.Example(&b, doc, test, prove.ExampleOptions{}); err != nil {
		t.Fatal(err)
	}
	return &b
}

func near(t *testing.T, what string, got, want, part float64) {
	t.Helper()
	if math.Abs(got/want-1) > part {
		t.Errorf("%s: got %.5g, want %.5g within %.2g", what, got, want, part)
	}
}

// A sound is the same mount heard: its file is a WAV, comes out the same twice, says that it is made up, and tells what the table tells.
func TestMadeUpSounds(t *testing.T) {
	doc := quarry(t)
	sound := func(test string) []byte {
		t.Helper()
		var b bytes.Buffer
		if err := prove.Example(&b, doc, test, prove.ExampleOptions{Sound: true}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	tap := sound("tap")
	if !bytes.HasPrefix(tap, []byte("RIFF")) || !bytes.Equal(tap, sound("tap")) {
		t.Errorf("the sound begins %q, or is not the same twice", tap[:4])
	}
	heard, err := prove.Tap(doc, bytes.NewReader(tap), prove.TapInput{})
	if err != nil {
		t.Fatal(err)
	}
	felt, err := prove.Tap(doc, example(t, doc, "tap"), prove.TapInput{})
	if err != nil {
		t.Fatal(err)
	}
	if !heard.Invented {
		t.Error("a made-up sound does not say so")
	}
	near(t, "frequency heard", heard.Ringing.Hz, felt.Ringing.Hz, .005) // both are known to some tenths of a percent
	hover, err := prove.Hover(doc, bytes.NewReader(sound("hover")), prove.HoverInput{})
	if err != nil {
		t.Fatal(err)
	}
	if !hover.Invented || len(hover.Compared) == 0 || !hover.Compared[0].Agrees {
		t.Errorf("the sound of a hover: made up %v, %+v", hover.Invented, hover.Compared)
	}
	if err := prove.Example(&bytes.Buffer{}, doc, "weigh", prove.ExampleOptions{Sound: true}); err == nil {
		t.Error("a scale has a sound")
	}
}

// library is the modulus in humid air that the mast has in the library, MPa.
func library(t *testing.T, doc *design.Document) float64 {
	t.Helper()
	m, err := doc.Library().Find(doc.Materials.Mast)
	if err != nil {
		t.Fatal(err)
	}
	return m.ModulusInLayer.Typical.Megapascals() * m.Conditioning.Typical.Fraction()
}

// The example's mount has .9 of the library's modulus. A tap of 4 strikes tells a frequency to some tenths of a percent, and
// the modulus goes with its square and more, since the foot gives way too: 3 %.
func TestTapOnABlockGivesTheModulus(t *testing.T) {
	doc := quarry(t)
	got, err := prove.Tap(doc, example(t, doc, "tap"), prove.TapInput{About: prove.About{Date: "2026-05-02", Spool: "spool 3"}})
	if err != nil {
		t.Fatal(err)
	}
	if !got.Invented || len(got.Findings) != 1 || len(got.Moves) == 0 || len(got.Plots) != 2 {
		t.Fatalf("got invented %t, %d findings, %d moves, %d plots", got.Invented, len(got.Findings), len(got.Moves), len(got.Plots))
	}
	m := got.Findings[0].Value
	if m.What != design.MeasuredModulus || m.Of != doc.Materials.Mast || m.Layers != "along" || m.Date != "2026-05-02" || m.Spool != "spool 3" {
		t.Errorf("got %+v", m)
	}
	near(t, "modulus", m.Modulus.Megapascals(), .9*library(t, doc), .03)

	// entered and measured again, it gives the same: the prediction is the library's, not the measured one's
	if err := doc.Use(m, ""); err != nil {
		t.Fatal(err)
	}
	again, err := prove.Tap(doc, example(t, quarry(t), "tap"), prove.TapInput{})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := again.Findings[0].Value.Modulus, m.Modulus; a != b {
		t.Errorf("again: got %v, want %v", a, b)
	}
}

// On foam the frequency is held against the flying modes, and the factor is the square of the ratio.
func TestTapOnFoamGivesTheStiffness(t *testing.T) {
	doc := quarry(t)
	result, _ := review.Judge(doc)
	hz := .95 * result.Flying[0].Hz
	var b bytes.Buffer
	if err := (vibration.InventedTap{Hz: hz, Rate: 2000}).Write(&b); err != nil {
		t.Fatal(err)
	}
	tap := prove.TapInput{TapOptions: vibration.TapOptions{Support: vibration.OnFoam}}
	got, err := prove.Tap(doc, &b, tap)
	if err != nil {
		t.Fatal(err)
	}
	stiffness := got.Findings[0].Value
	if stiffness.What != design.MeasuredStiffness || len(got.Findings) != 1 {
		t.Fatalf("got %+v", got.Findings)
	}
	near(t, "factor", stiffness.Factor.Fraction(), .95*.95, .02) // twice the frequency's half percent, and the damping's shift

	// the pair: a modulus after a stiffness reads the stiffness again from its frequency, against modes that have the modulus
	if err := doc.Use(stiffness, ""); err != nil {
		t.Fatal(err)
	}
	pair, err := prove.Tap(doc, example(t, quarry(t), "tap"), prove.TapInput{})
	if err != nil {
		t.Fatal(err)
	}
	if len(pair.Findings) != 2 || pair.Findings[1].Value.What != design.MeasuredStiffness {
		t.Fatalf("got %+v", pair.Findings)
	}
	with := quarry(t)
	if err := with.Use(pair.Findings[0].Value, ""); err != nil {
		t.Fatal(err)
	}
	result, _ = review.Judge(with)
	near(t, "factor with the modulus", pair.Findings[1].Value.Factor.Fraction(), math.Pow(stiffness.Frequency.Hertz()/result.Flying[0].Hz, 2), .001)
	if pair.Findings[1].Value.Factor <= stiffness.Factor {
		t.Error("a softer plastic explains part of the softness: the factor has to rise")
	}
}

func TestHangOnABlockGivesTheModulus(t *testing.T) {
	doc := quarry(t)
	var in prove.HangInput
	if err := in.ReadLoads(example(t, doc, "hang"), record.Options{}); err != nil {
		t.Fatal(err)
	}
	got, err := prove.Hang(doc, in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "modulus", got.Findings[0].Value.Modulus.Megapascals(), .9*library(t, doc), .06) // reading noise of 4 um on half a millimetre

	in.Support = vibration.OnFoam
	if _, err := prove.Hang(doc, in); err == nil {
		t.Error("a mount on foam cannot hang masses")
	}
	in.Support, in.Gauge = vibration.OnBlock, bench.Ruler
	if _, err := prove.Hang(doc, in); err == nil || !strings.Contains(err.Error(), "divisions") {
		t.Errorf("a ruler reads half a millimetre: got %v", err)
	}
}

// A pointer's spot tells the movement through the turn of the tray, which the design knows; legs move otherwise.
func TestHangByAPointer(t *testing.T) {
	doc := quarry(t)
	predicted, err := prove.Predicted(doc, "hang", vibration.HeldDown)
	if err != nil {
		t.Fatal(err)
	}
	result, _ := review.Judge(doc)
	pointer := bench.InventedHang{Stiffness: predicted[0].Value.Value * 1e3, Gauge: bench.Pointer, Distance: 3, Rotation: result.Tip.Tilt * math.Pi / 180 / (result.Tip.Deflection / 1e3), Noise: .5e-3}
	in := prove.HangInput{Support: vibration.HeldDown, Gauge: bench.Pointer, Distance: 3, Loads: pointer.Loads()}
	got, err := prove.Hang(doc, in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "stiffness", got.Findings[0].Value.Factor.Fraction(), 1, .05) // half a millimetre on a spot that moves by 19
	if _, err := prove.Hang(open("marsh-census.yaml"), in); err == nil || !strings.Contains(err.Error(), "read a dial") {
		t.Errorf("legs by a pointer: got %v", err)
	}
}

func TestWeighGivesTheDensity(t *testing.T) {
	doc := quarry(t)
	var in prove.WeighInput
	if err := in.ReadWeights(example(t, doc, "weigh"), record.Options{}); err != nil {
		t.Fatal(err)
	}
	in.Division = 1e-4
	got, err := prove.Weigh(doc, in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "density", got.Findings[0].Value.Factor.Fraction(), .94, .01) // rounded to .1 g on parts of some 5 g
	in.Weights = []prove.Weight{{Part: "keel", Mass: .01}, {Part: "mast", Mass: -1}}
	_, err = prove.Weigh(doc, in)
	var no prove.Refusal
	if !errors.As(err, &no) || len(no.Sentences) != 2 {
		t.Errorf("two wrong weights: got %v", err)
	}
}

func TestCaliperGivesHoleAdd(t *testing.T) {
	doc := quarry(t)
	var in prove.CaliperInput
	if err := in.ReadDimensions(example(t, doc, "caliper"), record.Options{}); err != nil {
		t.Fatal(err)
	}
	got, err := prove.Caliper(doc, in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "scale", got.Measured.Scale.Value, .997, .001)
	if f := got.Findings; len(f) != 1 || f[0].Value.Of != "print.hole_add" {
		t.Fatalf("got %+v", f)
	}
	next := doc.Clone()
	if err := next.Use(got.Findings[0].Value, got.Findings[0].Answer); err != nil {
		t.Fatal(err)
	}
	near(t, "hole_add", next.Print.HoleAdd.Millimetres(), .25, .08)
}

func TestHoverGivesSpeedAndLevel(t *testing.T) {
	doc := quarry(t)
	result, _ := review.Judge(doc)
	band := result.Bands[2]
	got, err := prove.Hover(doc, example(t, doc, "hover"), prove.HoverInput{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "speed", got.Turning.Speed, .995*(band.From+band.To)/2, .01)
	if len(got.Findings) != 2 {
		t.Fatalf("got %+v", got.Findings)
	}
	next := doc.Clone()
	for _, f := range got.Findings {
		if err := next.Use(f.Value, f.Answer); err != nil {
			t.Fatal(err)
		}
	}
	near(t, "hover_speed", next.Motors.HoverSpeed.RevolutionsPerSecond(), got.Turning.Speed, .001)
	near(t, "vibration", next.Airframe.Vibration.MetresPerSecondSquared(), got.Turning.Level, .005)
}

// The example's log has 1.3 of the predicted field along level axes of .8 and .6: their root of squares is 1.
func TestThrottleGivesTheLeadField(t *testing.T) {
	doc := quarry(t)
	got, err := prove.Throttle(doc, example(t, doc, "throttle"), prove.ThrottleInput{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "factor", got.Findings[0].Value.Factor.Fraction(), 1.3, .02)
	next := doc.Clone()
	if err := next.Use(got.Findings[0].Value, ""); err != nil {
		t.Fatal(err)
	}
	before, _ := review.Judge(doc)
	after, _ := review.Judge(next)
	a, _ := before.Verdict("heading")
	b, _ := after.Verdict("heading")
	near(t, "sine of the swing", math.Sin(b.Figures[0].Low*math.Pi/180)/math.Sin(a.Figures[0].Low*math.Pi/180), 1.3, .03)
	if _, err := prove.Throttle(doc, example(t, doc, "throttle"), prove.ThrottleInput{Lead: "keel"}); err == nil {
		t.Error("a lead that is not there was taken")
	}
}

func TestPointingGivesTheArrow(t *testing.T) {
	doc := quarry(t)
	var in prove.PointingInput
	if err := in.ReadReadings(example(t, doc, "pointing"), record.Options{}); err != nil {
		t.Fatal(err)
	}
	got, err := prove.Point(doc, in)
	if err != nil {
		t.Fatal(err)
	}
	if got.Pointing.TurnDeg != 90 || !got.Pointing.RightWayUp {
		t.Errorf("got %+v", got.Pointing)
	}
	if len(got.Findings) != 1 || got.Findings[0].Answer != "right" {
		t.Errorf("got %+v", got.Findings)
	}
	in.Readings = compass.InventedPointing{UpsideDown: true, Dip: 1.1}.Readings()
	got, err = prove.Point(doc, in)
	if err != nil || got.Pointing.RightWayUp || len(got.Findings) != 0 {
		t.Errorf("upside down: got %+v, %v", got.Pointing, err)
	}
}

func TestTurnAndRadioOnlySay(t *testing.T) {
	doc := quarry(t)
	got, err := prove.Turn(doc, example(t, doc, "turn"), prove.TurnInput{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "offset", got.Turned.Away, math.Sqrt(36+81+16)*1e-6, .03)
	if len(got.Findings) != 0 {
		t.Error("a turn test changes no design")
	}
	var in prove.RadioInput
	if err := in.ReadRows(example(t, doc, "radio"), record.Options{}); err != nil {
		t.Fatal(err)
	}
	radio, err := prove.Radio(in)
	if err != nil {
		t.Fatal(err)
	}
	if d := radio.Radio.Devices[0]; d.Name != "camera" || len(radio.Findings) != 0 {
		t.Errorf("got %+v", d)
	}
}

func TestRefusals(t *testing.T) {
	doc := quarry(t)
	for _, c := range []struct {
		name, record, want string
		run                func(r *strings.Reader) error
	}{
		{"no sound", "time (s),ax\n", "", func(r *strings.Reader) error { _, err := prove.Tap(doc, r, prove.TapInput{}); return err }},
		{"words in numbers", "time (s),mag x,mag y,mag z,current\n" + strings.Repeat("1,2,x,4,5\n", 20), "x", func(r *strings.Reader) error {
			_, err := prove.Throttle(doc, r, prove.ThrottleInput{})
			return err
		}},
		{"no axes", "time (s),current\n1,2\n2,3\n3,4\n", "mag", func(r *strings.Reader) error {
			_, err := prove.Turn(doc, r, prove.TurnInput{})
			return err
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := c.run(strings.NewReader(c.record))
			var no prove.Refusal
			if !errors.As(err, &no) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want a refusal with %q", err, c.want)
			}
		})
	}
	empty := design.New()
	if _, err := prove.Tap(empty, strings.NewReader(""), prove.TapInput{}); err == nil {
		t.Error("an empty design predicts nothing")
	}
	if err := prove.Example(&bytes.Buffer{}, doc, "sing", prove.ExampleOptions{}); err == nil {
		t.Error("no such test")
	}
}

func TestMoves(t *testing.T) {
	doc := quarry(t)
	if err := doc.Use(design.Measured{What: design.MeasuredModulus, Of: "copolyester", Layers: "along", Modulus: units.Megapascals(700)}, ""); err != nil {
		t.Fatal(err)
	}
	got, err := prove.Tap(doc, example(t, quarry(t), "tap"), prove.TapInput{})
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range got.Moves {
		if m.ID == "modes" && m.From.Value < m.To.Value {
			return
		}
	}
	t.Errorf("from 700 MPa the modes rise: got %+v", got.Moves)
}
