package parts_test

import (
	"context"
	"math"
	"testing"

	"mastwright/mesh/solid"
)

// Reference part P has 24372.702 mm³ and genus 10, worked out independently of this code. The column adds to it a tongue with two slots for a cable tie and
// takes from it the rim's gap, the floor's arrow and the rim's mark, all of them prisms:
//
//	tongue  (12 x 5.8 - 2 (1-π/4) 1.5²) 3        slots  2 x 3 x 1.6 x 3
//	gap     12 x 1.6 x 4 (it is 12 mm at most)   mark   3 x 1.1/2 x 0.6
//	arrow   long 7.4: head 3.7 x 5/2, shaft 3.7 x 5/3; 0.6 deep
func TestReferenceP(t *testing.T) {
	const p = 24372.702
	want := p + (12*5.8-2*(1-math.Pi/4)*1.5*1.5)*3 - 2*3*1.6*3 - 12*1.6*4 - 3*1.1/2*0.6 - (3.7*5/2+3.7*5/3)*0.6
	part := built(t, referenceP(t)).Parts[0]
	if !near(part.Body.Volume, want, 0.0005) { // the fillet's corners are taken as offsets
		t.Errorf("by outlines %.3f mm³; want %.3f", part.Body.Volume, want)
	}
	m, r, err := solid.Polygonise(context.Background(), part.Solid(), solid.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if v := m.Volume(); !near(v, want, 0.0005) {
		t.Errorf("by mesh %.3f mm³; want %.3f", v, want)
	}
	if r.Genus != 12 { // and the tie's two slots
		t.Errorf("genus %d; want 12", r.Genus)
	}
}

// The pieces of P by hand.
func TestClosedForms(t *testing.T) {
	a := built(t, referenceP(t, "mast.root_fillet", "0 mm", "mast.cable_way.side", "none"))
	square := func(side, radius float64) float64 { return side*side - (4-math.Pi)*radius*radius }
	frustum := func(a, b, h float64) float64 { return h / 3 * (a*a + a*b + b*b) }
	foot := square(44, 4)*4 - frustum(13.4, 13.2, 4) - 4*math.Pi/4*(3.2*3.2*2+6.5*6.5*2)
	if got := a.Foot.Body.Volume; !near(got, foot, 1e-5) { // the bore's taper within the foot is taken at its middle
		t.Errorf("foot %.6f mm³; want %.6f", got, foot)
	}
	mast := frustum(18, 12, 120) - (4-math.Pi)*4*120 - frustum(13.2, 7.2, 120)
	if got := a.Members[0].Body().Volume; !near(got, mast, 1e-9) {
		t.Errorf("mast %.6f mm³; want %.6f", got, mast)
	}
	// First moments of the two frusta and the round edges, from the root: a square going from a to b over h has
	// h² (a² + 2ab + 3b²)/12.
	first := func(a, b, h float64) float64 { return h * h * (a*a + 2*a*b + 3*b*b) / 12 }
	middle := 4 + (first(18, 12, 120)-first(13.2, 7.2, 120)-(4-math.Pi)*4*120*60)/mast
	if z := a.Members[0].Body().Centre.Z; !near(z, middle, 1e-9) {
		t.Errorf("the mast's middle is at %.6f mm; want %.6f", z, middle)
	}
}

// A hollow foot, by hand: 44 x 44 x 10 mm, sharp; skins 5 x 0.2 and walls 2 x 0.45 mm, the rest a fifth filled.
func TestInfill(t *testing.T) {
	answers := []string{
		"foot.thickness", "10 mm", "foot.corner", "0 mm", "foot.head", "plain", "mast.cable_way.side", "none",
		"print.walls", "2", "print.skins", "5", "print.infill", "20 %",
	}
	a := built(t, referenceP(t, answers...))
	b := a.Foot.Body
	bore := func(z float64) float64 { s := 18.0 - 6.0/114*(z-10) - 4.8; return s * s }
	core := (44-1.8)*(44-1.8) - math.Pow(math.Sqrt(bore(5))+1.8, 2) - 4*math.Pi/4*5*5
	want := b.Volume - 0.8*core*8
	if !near(b.Plastic, want, 0.005) { // 0.5 %: corners of the core
		t.Errorf("plastic %.1f mm³ of %.1f; want %.1f", b.Plastic, b.Volume, want)
	}
	whole := built(t, referenceP(t, append(answers, "print.infill", "1")...)).Foot.Body
	if whole.Plastic != whole.Volume {
		t.Errorf("solid foot: plastic %g of %g mm³", whole.Plastic, whole.Volume)
	}
	// Six lines of 0.45 mm fill a wall of 2.4 mm from both sides.
	for _, s := range built(t, referenceP(t, append(answers, "print.walls", "3", "mast.root_fillet", "0 mm")...)).Members[0].Stations {
		if s.Fill != 1 {
			t.Errorf("station %.3f: filled %.3f; want 1", s.At, s.Fill)
		}
	}
	// Two lines a side leave 2.4 - 4 x 0.45 = 0.6 mm of 2.4 to infill: at mid-length 1 - 0.8 x 0.25, less at the round edges.
	for _, s := range built(t, referenceP(t, append(answers, "mast.root_fillet", "0 mm")...)).Members[0].Stations {
		if math.Abs(s.Fill-0.8) > 0.02 {
			t.Errorf("station %.3f: filled %.3f; want about 0.8", s.At, s.Fill)
		}
	}
}
