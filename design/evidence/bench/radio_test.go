package bench_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/design/evidence/bench"
)

func TestRadioRecovers(t *testing.T) {
	want := map[string]float64{"video transmitter": 2.2, "camera": 6.5, "storage card": .3}
	held := 0
	for seed := range uint64(100) {
		r, err := bench.Cost(bench.InventedRadio{Seed: seed}.Rows())
		if err != nil {
			t.Fatal(err)
		}
		if r.Devices[0].Name != "camera" || !r.Devices[0].Matters || r.Presumed {
			t.Errorf("seed %d: first %+v, want the camera", seed, r.Devices[0])
		}
		for _, d := range r.Devices {
			if is := want[d.Name]; d.Signal.Low <= is && is <= d.Signal.High {
				held++
			}
		}
	}
	// 95 % of 300 is 285; the three in a record share a spread, so some five standard deviations of a count, 19, are left.
	if held < 266 {
		t.Errorf("%d of 300 bounds hold the cost, want 285", held)
	}
}

func TestRadioWithSingleReadings(t *testing.T) {
	rows, err := bench.ReadRadio([]string{"all off", "camera on", "telemetry"}, []float64{18, 12, 18}, []float64{42, 35, 41.6})
	if err != nil {
		t.Fatal(err)
	}
	r, err := bench.Cost(rows)
	if err != nil {
		t.Fatal(err)
	}
	// Everything off stands in for each device off; the presumed spread of 1 dB makes 1.96·√2.
	if d := r.Devices[0]; d.Name != "camera" || d.Signal.Value != 7 || d.Satellites != 6 || math.Abs(d.Signal.Plus()-1.96*math.Sqrt2) > .01 {
		t.Errorf("got %+v, want camera, 7 ± 2.77 dB, 6 satellites", d)
	}
	if d := r.Devices[1]; d.Matters || !strings.Contains(d.Words, "costs nothing") {
		t.Errorf("got %+v, want nothing", d)
	}
	if said := strings.Join(r.Words, "\n"); !r.Presumed || !strings.Contains(said, "presumed") || !strings.Contains(said, "does not follow") {
		t.Errorf("got\n%s\nwant what is presumed, and that no distance follows", said)
	}
}

func TestRadioRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		rows []bench.Reception
		says string
	}{
		{"nothing", nil, "no device"},
		{"only off", []bench.Reception{{Signal: 40}}, "no device"},
		{"on without off", []bench.Reception{{Device: "camera", On: true, Signal: 40}}, "off and on"},
		{"a percentage", []bench.Reception{{Signal: 90}, {Device: "camera", On: true, Signal: 80}}, "no reading of a receiver"},
		{"not a number", []bench.Reception{{Signal: 40}, {Device: "camera", On: true, Signal: math.NaN()}}, "row 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := bench.Cost(c.rows)
			var r bench.Refusal
			if !errors.As(err, &r) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, want %q", err, c.says)
			}
		})
	}
	for _, state := range []string{"", "everything on"} {
		if _, err := bench.ReadRadio([]string{state}, []float64{1}, []float64{40}); err == nil {
			t.Errorf("state %q was not refused", state)
		}
	}
}

func ExampleCost() {
	r, err := bench.Cost(bench.InventedRadio{}.Rows())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range r.Words {
		fmt.Println(w)
	}
	// Output:
	// camera costs 6.4 ± 0.5 dB and 7 satellites: the receiver is nearly deaf beside it
	// video transmitter costs 2.3 ± 0.5 dB and 2 satellites
	// storage card costs little (1.0 ± 0.5 dB)
	// move camera first, or put copper foil joined to its ground between it and the receiver; then read again
	// how far to move it does not follow from this test
}
