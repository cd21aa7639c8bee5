package build

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"mastwright/design"
	"mastwright/design/review"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares text with a file under testdata/golden, or writes the file with -update.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
}

// invented is a result with every kind of verdict.
func invented() review.Result {
	swing := &review.Limit{Sense: review.AtMost, Pass: 5, Marginal: 15}
	ratio := &review.Limit{Sense: review.AtLeast, Pass: 3, Marginal: 1.5}
	rate := &review.Limit{Sense: review.AtMost, Pass: 10, Marginal: math.Inf(1)}
	shake := &review.Limit{Sense: review.AtMost, Pass: 3, Marginal: 6}
	plain := func(name string, value float64, unit string, limit *review.Limit) review.Figure {
		return review.Figure{Name: name, Value: value, Unit: unit, Low: value, High: value, Limit: limit}
	}
	fig := plain("swing in cruise", 16.1, "°", swing)
	modes := review.Figure{Name: "lowest mode over bandwidth", Value: 3.4, Low: 2.8, High: 4.1, Limit: ratio}
	shaken := review.Figure{Name: "peak at the compass", Value: 3.8, Unit: "g", Low: 1.9, High: 6.6, Limit: shake}
	hot := plain("softening over service", 500, "°", swing)
	return review.Result{
		Design: "Invented seven", Mass: 31.24,
		Verdicts: []review.Verdict{
			{ID: "clearance", Title: "Clearance", State: review.Pass, Figure: plain("distance over need", 4.2, "", ratio),
				Figures: []review.Figure{plain("distance over need", 4.2, "", ratio), plain("not finite", math.NaN(), "mm", nil)}, Source: "common practice"},
			{ID: "heading", Title: "Heading", State: review.Fail, Figure: fig, Figures: []review.Figure{fig, plain("share of the field", 13, "%", nil)},
				Because: "in cruise, 20 A, the loose battery lead swings the compass by 16.1° at its worst heading and placement",
				Formula: "asin(5.6 / 20.2)", Source: "Biot-Savart law", Notes: []string{"its field is computed from its route"}},
			{ID: "level", Title: "Level", State: review.Fail, Figure: hot, Figures: []review.Figure{hot}, Because: "the face slopes", Accepted: "it is levelled by hand"},
			{ID: "sway", Title: "Sway", State: review.Pass, Figure: plain("tilt", 0.8, "°", swing), Figures: []review.Figure{plain("tilt", 0.8, "°", swing)}, Accepted: "once it was more"},
			{ID: "modes", Title: "Modes", State: review.Pass, Figure: modes, Figures: []review.Figure{modes}, Because: "the first mode is 102 Hz and the bandwidth 30 Hz"},
			{ID: "shake", Title: "Shake", State: review.Marginal, Figure: shaken, Figures: []review.Figure{shaken}, Because: "once-per-rev meets the first mode at 6600 rpm"},
			{ID: "strength", Title: "Strength", State: review.Marginal, Figure: plain("rate", 12, "°/s", rate), Figures: []review.Figure{plain("rate", 12, "°/s", rate)}, Because: "the mast turns the controller"},
			{ID: "bus", Title: "Bus", State: review.NoData, Because: "it needs the cable's length", Missing: []string{"cable.length"}},
			{ID: "printing", Title: "Printing", State: review.Pass},
		},
		Held:   []review.Mode{{Shape: "bending, sideways", Hz: 110.234567, Low: 98, High: 121}},
		Flying: []review.Mode{{Shape: "bending, sideways", Hz: 102, Low: 90, High: 113}},
		Bands:  []review.Band{{Name: "once-per-rev, hover", From: 120, To: 160}},
		Tip:    review.Tip{Compliance: 0.0521, Deflection: 0.412, Tilt: 0.33},
		Compass: &review.Compass{Declination: 3.7, Dip: 63.5, Horizontal: 21.4, Total: 48.2, DeclinationUncertainty: 0.4,
			Field:   []review.FieldPoint{{Height: 30, Hover: 20, Cruise: 18, Full: 90, HoverChange: 7, FullChange: math.Inf(1)}},
			Heights: []review.HeightNeeded{{State: "hover", Limit: 5, At: []float64{96.5}}, {State: "full throttle", Limit: 15, Never: true}},
			Levers:  []review.Lever{{Lead: "battery lead", State: "cruise", Path: "leads[0].spacing", To: "5 mm", Before: 16.1, After: 3.6, Meets: true}}},
		Shares: []review.Share{{Name: "mast", Share: 0.71}, {Name: "foot", Share: 0.29}},
		Notes:  []string{"inertia of the aircraft assumed from its mass and motor diagonal"},
	}
}

func TestTableGolden(t *testing.T) {
	var b bytes.Buffer
	r := invented()
	PrintTable(&b, r)
	PrintAccounts(&b, r, []design.Problem{{Path: "mast.tip.x", Text: "the tip is wider than the root"}})
	PrintCount(&b, r)
	fits(t, b.String())
	golden(t, "table.txt", b.Bytes())
}

func TestSummaryGolden(t *testing.T) {
	doc := design.New()
	if err := doc.Set("cable.length", "240 mm"); err != nil {
		t.Fatal(err)
	}
	text := summary(invented(), doc, Made{})
	fits(t, string(text))
	golden(t, "summary.txt", text)
}

func TestRecordGolden(t *testing.T) {
	var b bytes.Buffer
	if err := EncodeJSON(&b, NewRecord(invented())); err != nil {
		t.Fatal(err)
	}
	golden(t, "check.json", b.Bytes())
}

// The keys are a contract with whoever reads the object; they are listed here by hand.
func TestRecordKeepsItsKeys(t *testing.T) {
	data, err := json.Marshal(NewRecord(invented()))
	if err != nil {
		t.Fatal(err)
	}
	var record any
	if err := json.Unmarshal(data, &record); err != nil {
		t.Fatal(err)
	}
	have := map[string]bool{}
	keys(record, "", have)
	for _, want := range strings.Fields(`
		schema design mass_g verdicts modes bands tip tipover compass shares notes
		verdicts.id verdicts.state verdicts.title verdicts.value verdicts.unit verdicts.pass_limit verdicts.marginal_limit
		verdicts.margin verdicts.low verdicts.high verdicts.place verdicts.place_low verdicts.place_high verdicts.accepted
		verdicts.because verdicts.formula verdicts.source verdicts.missing verdicts.figures
		verdicts.figures.name verdicts.figures.value verdicts.figures.pass_limit verdicts.figures.marginal_limit verdicts.figures.place
		modes.held.hz modes.held.shape modes.flying.hz modes.flying.shape bands.name bands.from_hz bands.to_hz
		tip.compliance_mm_per_n tip.deflection_mm tip.tilt_deg
		compass.field compass.heights compass.levers`) {
		if !have[want] {
			t.Errorf("key %s is gone", want)
		}
	}
}

func TestTipOverKeepsItsKeys(t *testing.T) {
	r := invented()
	r.TipOver = &review.TipOver{Required: 2.1, Damage: 1.7, Break: 3.4, BreakLow: 2.6, DropHeight: 0.4, Weakest: "mast at the root"}
	data, err := json.Marshal(NewRecord(r).TipOver)
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"required_speed_m_s":2.1,"damage_speed_m_s":1.7,"break_speed_m_s":3.4,"break_speed_low_m_s":2.6,"drop_height_m":0.4,"weakest":"mast at the root"}`
	if string(data) != want {
		t.Errorf("got %s, want %s", data, want)
	}
}

func keys(value any, path string, have map[string]bool) {
	switch v := value.(type) {
	case map[string]any:
		for key, inner := range v {
			at := strings.TrimPrefix(path+"."+key, ".")
			have[at] = true
			keys(inner, at, have)
		}
	case []any:
		for _, inner := range v {
			keys(inner, path, have)
		}
	}
}

// fits fails for a line that is wider than the columns or ends in a space.
func fits(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if utf8.RuneCountInString(line) > Columns || strings.HasSuffix(line, " ") {
			t.Errorf("%d Columns: %q", utf8.RuneCountInString(line), line)
		}
	}
}
