package sizing_test

import (
	"context"
	"testing"

	"mastwright/design/review"
)

// What one design costs a search: the quick checks that rule most of them out, and all of them.
func BenchmarkLook(b *testing.B) {
	for _, c := range []struct {
		name string
		ids  []string
	}{
		{"mass", []string{"balance"}},
		{"quick", []string{"heading", "heat", "bus", "printing", "balance"}},
		{"distances", []string{"clearance", "sky", "level", "hardware"}},
		{"structural", []string{"sway", "modes", "shake", "strength", "tipover"}},
	} {
		b.Run(c.name, func(b *testing.B) {
			doc := example(b, "river-survey")
			shop := &review.Workshop{}
			i := 0
			for b.Loop() {
				i++
				d := changed(b, doc, "mast.root.x", []string{"17 mm", "17.5 mm", "18 mm", "18.5 mm", "19 mm", "19.5 mm", "20 mm"}[i%7])
				if _, wrong, err := shop.Judge(context.Background(), d, c.ids...); err != nil || len(wrong) > 0 {
					b.Fatal(err, wrong)
				}
			}
		})
	}
}
