package strength_test

import (
	"math"
	"testing"

	"mastwright/design/strength"
)

func TestTipOver(t *testing.T) {
	v := square7(.03)
	v.Contact = strength.Hard
	called := 0
	// The mast is weak against a blow that comes from behind, out of a fall over the front pair.
	links := func(way [3]float64) []strength.Link {
		called++
		if way[0] < -.1 {
			return []strength.Link{{Name: "weak", Kind: strength.Spare, Capacity: strength.Spread{Low: 50, Typical: 60}}}
		}
		return []strength.Link{{Name: "strong", Capacity: strength.Spread{Low: 100, Typical: 120}}}
	}
	falls, worst, err := strength.TipOver(v, links, strength.Rule{})
	if err != nil {
		t.Fatal(err)
	}
	if called != 4 || len(falls) != 4 {
		t.Errorf("got %d calls, %d falls, want 4", called, len(falls))
	}
	if got := falls[worst]; got.Outcome.Typical.Broken != "weak" || got.Outcome.Typical.Kind != strength.Spare {
		t.Errorf("worst: got %s (%s), want the weak spare", got.Outcome.Typical.Broken, got.Outcome.Typical.Kind)
	}
	for _, f := range falls {
		s := math.Sin(f.StrikeAngle)
		near(t, "compliance", f.Compliance, 1e-4*s*s+2e-6*(1-s*s)+1e-5, 1e-9)
		near(t, "force", f.Force, f.Speed*math.Sqrt(f.Mass/f.Compliance), 1e-12)
		// A brittle link breaks when the elastic blow reaches its capacity, so speeds compare as forces do.
		near(t, "ratio", f.Ratio.Typical, f.Outcome.Typical.DamageForce/f.Force, 1e-12)
		near(t, "low over typical", f.Ratio.Low/f.Ratio.Typical, 5./6, 1e-12)
	}
	v.Top = [3]float64{0, 0, -.01}
	falls, worst, err = strength.TipOver(v, links, strength.Rule{})
	if err != nil {
		t.Fatal(err)
	}
	if worst != -1 || falls[0].Ratio != (strength.Spread{}) {
		t.Errorf("a mast that does not strike: got worst %d, ratio %v, want -1 and none", worst, falls[0].Ratio)
	}
	if _, _, err := strength.TipOver(square7(.03), func([3]float64) []strength.Link { return nil }, strength.Rule{}); err == nil {
		t.Error("no links: got no error")
	}
}

func BenchmarkTipOver(b *testing.B) {
	v := square7(.03)
	members := make([]strength.Member, 40)
	for i := range members {
		members[i] = cantilever(bar(.012, .018), .1)
		members[i].Strength, members[i].Buckling = strength.Spread{Low: 25e6, Typical: 31e6, High: 43e6}, 500
	}
	links := func(way [3]float64) []strength.Link {
		var links []strength.Link
		for _, m := range members {
			links = append(links, m.Link(way))
		}
		return links
	}
	for b.Loop() {
		if _, _, err := strength.TipOver(v, links, strength.Rule{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(4*len(members)), "links")
}
