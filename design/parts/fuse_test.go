package parts_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/parts"
	"mastwright/mesh/solid"
)

var fused = []string{"mast.fuse.fitted", "true"}

// A mount with a ring that breaks first is one closed solid that weighs what the outlines say.
func TestFuseMeshes(t *testing.T) {
	for _, v := range []struct {
		name    string
		answers []string
	}{
		{"column", []string{"mast.cable_way.bottom", "24 mm"}},
		{"above the cable way", []string{"mast.cable_way.side", "left"}},
		{"high up", []string{"mast.fuse.height", "70 mm"}},
		{"sharp corners", []string{"mast.corner", "0 mm", "mast.cable_way.side", "none"}},
		{"round", []string{"mast.section", "round", "mast.cable_way.side", "none", "mast.fuse.wall", "1 mm"}},
		{"three pieces, lying", []string{"mast.split", "three pieces", "mast.section", "round", "mast.cable_way.side", "none", "print.orientation", "lying"}},
		{"three pieces", []string{"mast.split", "three pieces", "mast.cable_way.bottom", "40 mm"}},
		{"tube", []string{"mast.build", "tube"}},
		{"tube, high neck", []string{"mast.build", "tube", "mast.fuse.height", "16 mm", "mast.fuse.wall", "1.6 mm"}},
		{"rod", []string{"mast.build", "tube", "mast.tube.bore", "0 mm", "mast.fuse.wall", "3 mm"}},
	} {
		t.Run(v.name, func(t *testing.T) {
			a := built(t, mount(t, append(v.answers, fused...)...))
			if a.Fuse == nil {
				t.Fatal("no fuse")
			}
			for _, p := range a.Parts {
				m, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.05})
				if err != nil || r.Pieces != 1 || r.Coarse || r.Tolerance > 0.05 {
					t.Fatalf("%s: %d pieces, strays %g mm, coarse %v, %v", p.Name, r.Pieces, r.Tolerance, r.Coarse, err)
				}
				b := m.Body()
				t.Logf("%s: mesh %.1f, outlines %.1f (%+.2f %%)", p.Name, b.Volume, p.Body.Volume, 100*(p.Body.Volume/b.Volume-1))
				if !near(p.Body.Volume, b.Volume, 0.007) {
					t.Errorf("%s: outlines enclose %.1f mm³, the mesh %.1f", p.Name, p.Body.Volume, b.Volume)
				}
				onBed(t, p, m)
			}
		})
	}
}

// At the ring the section is what its wall leaves: by hand, a square of 2 (bore/2 + 1.2) less its bore.
func TestFuseSection(t *testing.T) {
	a := built(t, mount(t, append([]string{"mast.corner", "0 mm", "mast.cable_way.side", "none", "mast.tip.x", "18 mm"}, fused...)...))
	mast := a.Members[0]
	o := mast.Outline(a.Fuse.At)
	// A straight mast of 18 mm with a wall of 2.4: bore 13.2, 1.2 left around it: 15.6.
	if got, want := o.Area(), 15.6*15.6-13.2*13.2; math.Abs(got-want) > 0.01 { // a trace of a corner radius
		t.Errorf("%.3f mm² at the fuse; want %.3f", got, want)
	}
	// As low as it can be: foot 5, fillet 4, 0.5 clear, a bevel of 1.2 and half of 3.
	if got, want := mast.From.Z+a.Fuse.At*mast.Length(), 5+4+0.5+1.2+1.5; math.Abs(got-want) > 1e-9 {
		t.Errorf("at %.3f mm; want %.3f", got, want)
	}
	n := a.Parts[0].Solid()
	for _, c := range []struct {
		x, z  float64
		solid bool
	}{{7.7, 12.2, true}, {7.9, 12.2, false}, {8.9, 9.2, true}, {8.1, 10.3, true}, {8.4, 10.3, false}, {8.9, 15.2, true}} {
		if got := n.Value(r3.Vec{X: c.x, Z: c.z}) < 0; got != c.solid {
			t.Errorf("plastic at x %g, z %g: %v; want %v", c.x, c.z, got, c.solid)
		}
	}
	found := false
	for _, k := range mast.Notches {
		found = found || k.Name == "fuse" && math.Abs(k.At-a.Fuse.At) < 1e-9 && k.Small.X < k.Wide.X
	}
	if !found {
		t.Errorf("no notch at the fuse: %+v", mast.Notches)
	}
	if plain := built(t, mount(t)); plain.Fuse != nil {
		t.Error("a fuse that nobody asked for")
	}
}

func TestFuseProblems(t *testing.T) {
	for _, c := range []struct {
		name    string
		answers []string
		path    string
		says    string
	}{
		{"nothing weakened", []string{"mast.fuse.wall", "2.3 mm"}, "mast.fuse.wall", "use at most 2.1 mm"},
		{"in the fillet", []string{"mast.fuse.height", "8 mm"}, "mast.fuse.height", "use 12.2 mm to"},
		{"in the cable way", []string{"mast.fuse.height", "20 mm"}, "mast.fuse.height", "clear of the cable way"},
		{"wide", []string{"mast.fuse.width", "0.2 mm"}, "mast.fuse.width", "use 0.5"},
		{"tube: thicker than the clamp", []string{"mast.build", "tube", "mast.fuse.wall", "6 mm"}, "mast.fuse.wall", "use at most"},
		{"tube: no height left", []string{"mast.build", "tube", "mast.height", "55 mm"}, "mast.height", "use at least"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := mount(t, fused...)
			for i := 0; i < len(c.answers); i += 2 {
				if err := d.Set(c.answers[i], c.answers[i+1]); err != nil && c.name != "wide" {
					t.Fatal(err)
				}
			}
			if c.name == "wide" {
				d.Mast.Fuse.Width = 0.2 // as a search might try
			}
			_, problems := parts.Build(d)
			for _, p := range problems {
				if p.Path == c.path && strings.Contains(p.Text, c.says) {
					return
				}
			}
			t.Errorf("got %v; want %s: ... %s", problems, c.path, c.says)
		})
	}
}
