package strength_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/strength"
)

// Roark and Shigley: .05 kg from 1 m on 5000 N/m.
func TestVerticalDrop(t *testing.T) {
	compression, force := strength.VerticalDrop(.05, 1, 5000)
	near(t, "compression", compression, .0141031590394, 1e-11)
	near(t, "force", force, 70.5157951972, 1e-11)
	_, sudden := strength.VerticalDrop(.05, 0, 5000)
	near(t, "suddenly applied load, twice the weight", sudden, 2*.05*9.80665, 1e-12)
}

func one(f float64) strength.Spread { return strength.Spread{Typical: f} }

// ductile is a hinge of strength 50 MPa, E 2000 MPa and 20 % elongation: ε_p = .1 - .025 = .075, θ = .15 rad;
// with W 800 mm³ and Kt 1.6, M_y = 25 N·m and the hinge takes 1.3 × 25 × .15 = 4.875 J.
func ductile() strength.Hinge {
	return strength.Hinge{Strength: one(50e6), Modulus: 2e9, Elongation: .20, SectionModulus: 800e-9, Kt: 1.6}
}

func TestHinge(t *testing.T) {
	h := ductile()
	near(t, "rotation", h.Rotation(50e6, strength.Rule{}), .15, 1e-12)
	near(t, "energy", h.Energy(50e6, strength.Rule{}), 4.875, 1e-12)
	near(t, "energy by another rule", h.Energy(50e6, strength.Rule{Factor: 1, Share: .25, Strain: .01}), 25*.02, 1e-12)
	h.Elongation = 1.3
	near(t, "rotation of a tough one, held at .15 strain", h.Rotation(50e6, strength.Rule{}), .30, 1e-12)
	h.Elongation = .05 // half of it is the elastic strain
	if got := h.Energy(50e6, strength.Rule{}); got != 0 {
		t.Errorf("energy of a brittle one: got %g, want 0", got)
	}
}

func TestWithstand(t *testing.T) {
	// C 1e-4 m/N and 1 kg: a link of F N is damaged at v = F/100 m/s, E = F²/20000 J.
	blow := strength.Blow{Mass: 1, Compliance: 1e-4}
	root := strength.Link{Name: "root", Capacity: one(200), Hinge: ductile()}
	small := strength.Hinge{Strength: one(50e6), Modulus: 2e9, Elongation: .052, SectionModulus: 800e-9, Kt: 1.6} // 1.3 × 25 × .002 = .065 J
	for _, c := range []struct {
		name            string
		links           []strength.Link
		damaged, broken string
		kind            strength.Kind
		ductile         bool
		damage, breaks  float64 // m/s, worked by hand
	}{
		{"brittle", []strength.Link{{Name: "mast", Capacity: one(150)}, {Name: "screws", Capacity: one(300)}}, "mast", "mast", strength.Structure, false, 1.5, 1.5},
		{"ductile: 2 J elastic and 4.875 J in the hinge", []strength.Link{root, {Name: "screws", Capacity: one(300)}}, "root", "root", strength.Structure, true, 2, math.Sqrt(2 * 6.875)},
		{"screws break while the hinge builds up", []strength.Link{root, {Name: "screws", Capacity: one(250)}}, "root", "screws", strength.Structure, false, 2, 2.5},
		{"a small hinge gives out before the screws", []strength.Link{{Name: "root", Capacity: one(200), Hinge: small}, {Name: "screws", Capacity: one(250)}}, "root", "root", strength.Structure, true, 2, math.Sqrt(2 * 2.065)},
		{"fuse first", []strength.Link{root, {Name: "pin", Kind: strength.Fuse, Capacity: one(90)}}, "pin", "pin", strength.Fuse, false, .9, .9},
		{"spare part first", []strength.Link{{Name: "mast", Kind: strength.Spare, Capacity: one(90)}, root}, "mast", "mast", strength.Spare, false, .9, .9},
		{"an idle link does not matter", []strength.Link{{Name: "idle", Capacity: one(math.Inf(1))}, {Name: "mast", Capacity: one(150)}}, "mast", "mast", strength.Structure, false, 1.5, 1.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			o, err := strength.Withstand(blow, c.links, strength.Rule{})
			if err != nil {
				t.Fatal(err)
			}
			got := o.Typical
			if got.Damaged != c.damaged || got.Broken != c.broken || got.Kind != c.kind || got.Ductile != c.ductile {
				t.Errorf("got %s damaged, %s (%s) broken, ductile %v; want %s, %s (%s), %v",
					got.Damaged, got.Broken, got.Kind, got.Ductile, c.damaged, c.broken, c.kind, c.ductile)
			}
			near(t, "damage speed", got.DamageSpeed, c.damage, 1e-12)
			near(t, "break speed", got.BreakSpeed, c.breaks, 1e-12)
			blow := blow
			blow.Speed = got.DamageSpeed
			near(t, "elastic force at damage speed", blow.Force(), got.DamageForce, 1e-12)
			_, force := strength.VerticalDrop(blow.Mass, got.DamageHeight, 1/blow.Compliance)
			near(t, "force of a drop from the damage height", force, got.DamageForce, 1e-9)
			if o.Low != o.Typical || o.High != o.Typical {
				t.Errorf("without a spread low %+v and high %+v differ from typical", o.Low, o.High)
			}
		})
	}
	spread, err := strength.Withstand(blow, []strength.Link{{Name: "mast", Capacity: strength.Spread{Low: 100, Typical: 150, High: 180}}}, strength.Rule{})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := spread.Break(), (strength.Spread{Low: 1, Typical: 1.5, High: 1.8}); math.Abs(got.Low-want.Low)+math.Abs(got.Typical-want.Typical)+math.Abs(got.High-want.High) > 1e-12 {
		t.Errorf("break speeds: got %v, want %v", got, want)
	}
	for _, c := range []struct {
		name  string
		blow  strength.Blow
		links []strength.Link
		want  string
	}{
		{"no links", blow, nil, "no link"},
		{"only idle links", blow, []strength.Link{{Capacity: one(math.Inf(1))}}, "no link"},
		{"not a number", blow, []strength.Link{{Name: "mast", Capacity: one(math.NaN())}}, `link "mast"`},
		{"no compliance", strength.Blow{Mass: 1}, []strength.Link{root}, "compliance"},
	} {
		if _, err := strength.Withstand(c.blow, c.links, strength.Rule{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want it to say %q", c.name, err, c.want)
		}
	}
}

// A break never comes before the damage, a softer ground never hurts, a heavier blow never helps.
func TestWithstandOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		var links []strength.Link
		for range rapid.IntRange(1, 6).Draw(t, "links") {
			l := strength.Link{Name: "link", Capacity: one(draw("capacity", 1, 500))}
			l.Hinge = ductile()
			l.Hinge.Elongation = draw("elongation", 0, .5)
			links = append(links, l)
		}
		b := strength.Blow{Mass: draw("mass", .01, 5), Compliance: draw("compliance", 1e-6, 1e-3)}
		rigid, err := strength.Withstand(b, links, strength.Rule{})
		if err != nil {
			t.Fatal(err)
		}
		b.Compliance *= 1.5
		soft, _ := strength.Withstand(b, links, strength.Rule{})
		b.Mass *= 1.5
		heavy, _ := strength.Withstand(b, links, strength.Rule{})
		for _, c := range []struct {
			name          string
			better, worse float64
		}{
			{"break over damage", rigid.Typical.BreakSpeed, rigid.Typical.DamageSpeed},
			{"soft over hard ground", soft.Typical.DamageSpeed, rigid.Typical.DamageSpeed},
			{"light over heavy", soft.Typical.BreakSpeed, heavy.Typical.BreakSpeed},
			{"break over damage height", rigid.Typical.BreakHeight, rigid.Typical.DamageHeight},
		} {
			if c.better < c.worse*(1-1e-12) {
				t.Errorf("%s: %g < %g", c.name, c.better, c.worse)
			}
		}
	})
}
