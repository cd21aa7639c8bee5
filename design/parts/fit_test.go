package parts_test

import (
	"context"
	"testing"

	"mastwright/design/parts"
	"mastwright/mesh/solid"
)

// A foot with nut pockets has a piece to try one: its volume by hand, a hexagon of 5.7 mm (ISO 4032 M3: 5.5, and 0.2 of room).
func TestNutPiece(t *testing.T) {
	all, problems := parts.FitPieces(mount(t, "foot.head", "nut pocket"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := all[len(all)-1]
	if p.Name != "fit_nut" {
		t.Fatalf("last piece %q", p.Name)
	}
	m, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.02})
	if err != nil || r.Pieces != 1 || r.Genus != 1 {
		t.Fatalf("%d pieces, genus %d, %v", r.Pieces, r.Genus, err)
	}
	if got := m.Volume(); !near(p.Body.Volume, got, 0.002) {
		t.Errorf("outlines %.2f mm³, mesh %.2f", p.Body.Volume, got)
	}
	without, _ := parts.FitPieces(mount(t))
	for _, p := range without {
		if p.Name == "fit_nut" {
			t.Error("a nut's piece without pockets")
		}
	}
}
