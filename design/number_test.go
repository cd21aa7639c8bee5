package design_test

import (
	"fmt"
	"testing"

	"mastwright/design"
)

// Each of many small changes gives another number, and taking it back gives the first one again. Of 2^20 numbers some two of 200
// would be alike once in fifty such tests (the birthday rule); the test is deterministic.
func TestNumberTellsDesignsApart(t *testing.T) {
	d := design.New()
	first := d.Number()
	if len(first) != 4 {
		t.Fatalf("number %q; want four signs", first)
	}
	seen := map[string]string{first: "nothing"}
	for i := range 200 {
		height := fmt.Sprintf("%.1f mm", 80+0.1*float64(i))
		if err := d.Set("mast.height", height); err != nil {
			t.Fatal(err)
		}
		n := d.Number()
		if before, twice := seen[n]; twice {
			t.Errorf("%s has the number %s of %s", height, n, before)
		}
		seen[n] = height
	}
	d.Clear("mast.height")
	if n := d.Number(); n != first {
		t.Errorf("number %s; want %s again", n, first)
	}
}
