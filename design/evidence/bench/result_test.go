package bench_test

import (
	"encoding/json"
	"testing"

	"mastwright/design/evidence/bench"
)

// Encoding fails on NaN and infinity; here on the cases that come nearest to them.
func TestResultsAreNumbersInJSON(t *testing.T) {
	exact, err := bench.Hang(bench.InventedHang{Noise: -1}.Loads(), bench.HangOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if !near(exact.Stiffness.Value, 12000, 1e-9) || exact.TakeUp != 0 || exact.Drifts {
		t.Errorf("without noise: %+v, want 12000 N/m and nothing else", exact)
	}
	alone, err := bench.Weigh([]bench.Part{{Name: "mast", Designed: .03, Mass: .03}}, bench.WeighOptions{})
	if err != nil {
		t.Fatal(err)
	}
	holes, err := bench.Caliper([]bench.Dimension{{Name: "a", Designed: .004, Measured: .004, Hole: true}, {Name: "b", Designed: .004, Measured: .004, Hole: true}}, bench.CaliperOptions{})
	if err != nil {
		t.Fatal(err)
	}
	same, err := bench.Cost([]bench.Reception{{Signal: 40}, {Signal: 40}, {Device: "camera", On: true, Signal: 40}, {Device: "camera", On: true, Signal: 40}})
	if err != nil {
		t.Fatal(err)
	}
	for name, v := range map[string]any{"hang": exact, "weigh": alone, "caliper": holes, "radio": same} {
		if _, err := json.Marshal(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
