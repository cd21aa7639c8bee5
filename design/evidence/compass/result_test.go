package compass_test

import (
	"encoding/json"
	"strings"
	"testing"

	"mastwright/design/evidence/compass"
)

// Encoding fails on NaN and infinity; here on the cases that come nearest to them.
func TestResultsAreNumbersInJSON(t *testing.T) {
	still := compass.InventedThrottle{Slope: [3]float64{1e-30, 1e-30, 1e-30}, Noise: 1e-30}.Log()
	quiet, err := compass.Throttle(still, site)
	if err != nil {
		t.Fatal(err)
	}
	exact, err := compass.Turn(compass.InventedTurn{Noise: 1e-30, Scale: [3]float64{1, 1, 1}}.Axes(), compass.TurnOptions{Total: 48e-6, Horizontal: 1e-9})
	if err != nil {
		t.Fatal(err)
	}
	point, err := compass.Point(compass.InventedPointing{Noise: 1e-30, UpsideDown: true}.Readings(), compass.PointingOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for name, v := range map[string]any{"throttle": quiet, "turn": exact, "pointing": point} {
		b, err := json.Marshal(v)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if name == "pointing" && !strings.HasPrefix(string(b), `{"turn_deg":0,"right_way_up":false,`) {
			t.Errorf("pointing: %s, want turn_deg and right_way_up first", b)
		}
	}
}
