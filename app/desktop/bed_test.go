package desktop

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// The bed holds every copy of what is printed, each inside of it and none over another, and nothing that is cut; the elevation holds one of each.
func TestBedHoldsWhatIsPrinted(t *testing.T) {
	for _, c := range []struct {
		example     string
		beds, parts int
		cut         int
		printed     map[string]int
	}{
		{example: "marsh-census", beds: 1, parts: 3, printed: map[string]int{"pad": 4, "leg": 4, "tray": 1}},
		{example: "vineyard-rows", beds: 1, parts: 4, cut: 1, printed: map[string]int{"foot": 1, "tray": 1, "spacer": 1}},
		{example: "lake-soundings", beds: 1, parts: 3, cut: 1, printed: map[string]int{"foot": 2, "tray": 1}}, // the foot breaks first: a spare
	} {
		t.Run(c.example, func(t *testing.T) {
			h := opened(t)
			h.example(c.example)
			h.Stage(Make)
			sheet := h.maker.sheet
			h.until("the parts are drawn", func() bool { return len(sheet.parts) > 0 && !h.shown.Previewing })
			got, cut := map[string]int{}, 0
			for i, p := range sheet.laid {
				got[p.name]++
				for _, q := range sheet.laid[:i] {
					if p.at.X < q.at.X+q.box.X && q.at.X < p.at.X+p.box.X && p.at.Y < q.at.Y+q.box.Y && q.at.Y < p.at.Y+p.box.Y {
						t.Errorf("%s lies over %s", p.name, q.name)
					}
				}
				box := p.mesh.Box()
				if off := r3.Norm(r3.Sub(box.Min, p.at)); off > 1e-9 || box.Max.X > sheet.bed.X || box.Max.Y > sheet.bed.Y {
					t.Errorf("%s lies from %v to %v, at %v of a bed of %v", p.name, box.Min, box.Max, p.at, sheet.bed)
				}
			}
			for _, p := range sheet.parts {
				if p.cut {
					cut++
				}
			}
			if len(got) != len(c.printed) || sheet.beds != c.beds || len(sheet.parts) != c.parts || cut != c.cut {
				t.Errorf("%d beds, the first with %v; %d parts, %d of them cut", sheet.beds, got, len(sheet.parts), cut)
			}
			for name, want := range c.printed {
				if got[name] != want {
					t.Errorf("%d × %s, want %d", got[name], name, want)
				}
			}
		})
	}
}
