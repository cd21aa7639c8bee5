package desktop

import "testing"

// A picked neighbour or lead follows the pointer along the frame; one pull is one step of undo.
func TestPullMovesLeadsAndNeighbours(t *testing.T) {
	h := opened(t)
	h.Stage(Measure)
	get := func(path string) string { return h.shown.Document.Get(path) }
	for _, c := range []struct {
		path   string
		ways   [][2]float64 // mm forward and left since it was taken
		fields [][2]string
	}{
		{"airframe.neighbours[0]", [][2]float64{{3, -1}, {10.2, -4}}, [][2]string{{"airframe.neighbours[0].at.x", "36 mm"}, {"airframe.neighbours[0].at.y", "-4 mm"}}},
		{"leads[0]", [][2]float64{{50, 3}, {0, 5}}, [][2]string{{"leads[0].side", "left"}, {"leads[0].offset", "17 mm"}}},
		{"leads[0]", [][2]float64{{0, -20}}, [][2]string{{"leads[0].side", "right"}, {"leads[0].offset", "8 mm"}}},
	} {
		var before []string
		for _, f := range c.fields {
			before = append(before, get(f[0]))
		}
		for i, way := range c.ways {
			h.pulled(c.path, way[0], way[1], i == len(c.ways)-1)
		}
		h.settle()
		for _, f := range c.fields {
			if got := get(f[0]); got != f[1] {
				t.Errorf("%s pulled by %v: %s is %s, want %s", c.path, c.ways, f[0], got, f[1])
			}
		}
		h.session.Undo()
		h.settle()
		for i, f := range c.fields {
			if got := get(f[0]); got != before[i] {
				t.Errorf("after one undo %s is %s, want %s", f[0], got, before[i])
			}
		}
	}
}
