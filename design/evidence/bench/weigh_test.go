package bench_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"mastwright/design/evidence/bench"
)

// Masses are products of designed mass and what is said to be wrong, so the factors are known. The words' bounds are common
// practice, no source.
func TestWeigh(t *testing.T) {
	at := func(foot, mast, tray float64) []bench.Part {
		return []bench.Part{{Name: "foot", Designed: .022, Mass: .022 * foot}, {Name: "mast", Designed: .031, Mass: .031 * mast}, {Name: "tray", Designed: .018, Mass: .018 * tray}}
	}
	for _, c := range []struct {
		name    string
		parts   []bench.Part
		o       bench.WeighOptions
		density float64
		agrees  bool
		says    string
	}{
		{"as designed", at(1, 1.01, .99), bench.WeighOptions{}, 1, true, "as designed"},
		{"too little plastic", at(.88, .88, .88), bench.WeighOptions{Division: 1e-4}, .88, false, "too little plastic"},
		{"hollow", at(.5, .5, .5), bench.WeighOptions{}, .5, false, "hollow"},
		{"another spool", at(.82, .82, .82), bench.WeighOptions{Division: 1e-4, Others: []bench.Plastic{{Name: "ABS", Density: .82}, {Name: "nylon", Density: .9}}}, .82, false, "ABS would weigh that much"},
		{"supports left on one", at(1, 1.02, 1.4), bench.WeighOptions{Division: 1e-4}, 1.013, true, "tray does not go with the others: 140 % of the designed mass: supports"},
		{"filled through", []bench.Part{{Name: "foot", Designed: .02, Mass: .0301, Solid: .03}, {Name: "mast", Designed: .03, Mass: .045, Solid: .045}}, bench.WeighOptions{}, 1.5, false, "filled through"},
		{"ten together", []bench.Part{{Name: "spacer", Designed: .0012, Mass: .0114, Count: 10}}, bench.WeighOptions{}, .95, true, "spacer: 95 %"},
		{"one too light", append(at(1, 1, 1), bench.Part{Name: "clip", Designed: .0008, Mass: .001}), bench.WeighOptions{}, 1, true, "clip is too light"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, err := bench.Weigh(c.parts, c.o)
			if err != nil {
				t.Fatal(err)
			}
			if !near(w.Density.Value, c.density, .004) { // weights of the three parts against their mean
				t.Errorf("density %.4f, want %.4f", w.Density.Value, c.density)
			}
			if w.Agreement.Agrees != c.agrees {
				t.Errorf("agrees %v, want %v: %+v", w.Agreement.Agrees, c.agrees, w.Density)
			}
			var all []string
			for _, p := range w.Parts {
				all = append(all, p.Words)
			}
			if said := strings.Join(append(all, w.Words...), "\n"); !strings.Contains(said, c.says) {
				t.Errorf("got\n%s\nwant %q", said, c.says)
			}
		})
	}
}

func TestTheScalesToleranceIsInTheDensity(t *testing.T) {
	w, err := bench.Weigh([]bench.Part{{Name: "mast", Designed: .025, Mass: .024}}, bench.WeighOptions{Division: .001})
	if err != nil {
		t.Fatal(err)
	}
	// 1 g in 25 g.
	if !near(w.Density.Low, .92, 1e-12) || !near(w.Density.High, 1, 1e-12) {
		t.Errorf("got %+v, want .92 to 1", w.Density)
	}
}

func TestWeighRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		part bench.Part
		says string
	}{
		{"grams for kilograms", bench.Part{Name: "mast", Designed: .031, Mass: 31}, "check unit"},
		{"too light for the scale", bench.Part{Name: "clip", Designed: .004, Mass: .004}, "finer scale"},
		{"no design", bench.Part{Name: "mast", Mass: .03}, "no mass"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := bench.Weigh([]bench.Part{c.part}, bench.WeighOptions{})
			var r bench.Refusal
			if !errors.As(err, &r) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, want %q", err, c.says)
			}
		})
	}
	if _, err := bench.Weigh(nil, bench.WeighOptions{}); err == nil {
		t.Error("nothing on the scale was not refused")
	}
}

func ExampleWeigh() {
	w, err := bench.Weigh(bench.InventedWeigh{}.Parts(), bench.WeighOptions{Division: 1e-4})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range w.Parts {
		fmt.Println(p.Words)
	}
	for _, s := range w.Words {
		fmt.Println(s)
	}
	// Output:
	// foot: 94 % of the designed mass: too little plastic was laid down, or there is a wall or some infill less than designed
	// mast: 94 % of the designed mass: too little plastic was laid down, or there is a wall or some infill less than designed
	// tray: 94 % of the designed mass: too little plastic was laid down, or there is a wall or some infill less than designed
	// effective density 93.9 % ± 0.2 % of the design's
	// the measured mass is below the design: 94 % of the predicted, which is more than the spread of both
}
