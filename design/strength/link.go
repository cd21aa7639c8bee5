package strength

import (
	"errors"
	"fmt"
	"math"
)

// Kind is what a link is to the builder.
type Kind int

// The kinds of link.
const (
	Structure Kind = iota // its breaking is a loss
	Spare                 // a part meant to be replaced
	Fuse                  // made to break or let go first
)

// String returns the kind's name.
func (k Kind) String() string { return [...]string{"structure", "spare", "fuse"}[k] }

// Link is one thing in the load path that gives way at a force.
type Link struct {
	Name     string
	Kind     Kind
	Capacity Spread // force along the blow on the mast top at which the link reaches its strength, N
	Hinge    Hinge  // zero: the link is brittle
}

// Hinge is a ductile section that turns plastically before it breaks.
type Hinge struct {
	Strength       Spread  // σ in the loaded direction, Pa
	Modulus        float64 // E in the loaded direction, Pa
	Elongation     float64 // at break in the loaded direction, low end, as a fraction
	SectionModulus float64 // W about the axis it bends on, m³
	Kt             float64 // 0 means 1
}

// Rule is how a hinge is reckoned. Every figure is a judgement.
type Rule struct {
	Factor float64 // plastic over yield moment; 0 means 1.3
	Share  float64 // of the elongation that rate and notch leave; 0 means .5
	Strain float64 // most plastic strain counted on; 0 means .15
}

func (r Rule) filled() Rule {
	if r.Factor == 0 {
		r.Factor = 1.3
	}
	if r.Share == 0 {
		r.Share = .5
	}
	if r.Strain == 0 {
		r.Strain = .15
	}
	return r
}

// Rotation returns the angle in rad a hinge turns plastically at a strength in Pa,
//
//	θ = ε_p L_h/c, ε_p = min(share × elongation - σ/E, strain),
//
// with hinge length L_h = section depth = 2c, so θ = 2 ε_p; 0 when it is brittle.
func (h Hinge) Rotation(strength float64, rule Rule) float64 {
	rule = rule.filled()
	if h.Modulus <= 0 || h.Elongation <= 0 {
		return 0
	}
	return 2 * math.Max(0, math.Min(rule.Share*h.Elongation-strength/h.Modulus, rule.Strain))
}

// Energy returns the energy in J a hinge takes at a strength in Pa,
// factor × M_y θ with M_y = σ W/Kt.
func (h Hinge) Energy(strength float64, rule Rule) float64 {
	kt := h.Kt
	if kt == 0 {
		kt = 1
	}
	return rule.filled().Factor * strength * h.SectionModulus / kt * h.Rotation(strength, rule)
}

// Blow is a mass that strikes a spring.
type Blow struct {
	Speed      float64 // m/s
	Mass       float64 // effective at the mast top along the blow, kg
	Compliance float64 // of everything between that mass and the ground, m/N
}

// Force returns the blow's peak force in N while everything stays elastic, v √(m/C).
func (b Blow) Force() float64 { return b.Speed * math.Sqrt(b.Mass/b.Compliance) }

// VerticalDrop returns the peak compression in m and force in N of a mass in kg
// that falls from a height in m on a spring of stiffness k in N/m,
//
//	δ = d_st (1 + √(1 + 2h/d_st)), d_st = m g/k, F = k δ.
//
// Source: Roark's Formulas for Stress and Strain, chapter on dynamic stresses; Shigley,
// Mechanical Engineering Design, shock and impact.
func VerticalDrop(mass, height, stiffness float64) (compression, force float64) {
	static := mass * gravity / stiffness
	compression = static * (1 + math.Sqrt(1+2*height/static))
	return compression, compression * stiffness
}

// Level is what a load path takes at one level of strength.
type Level struct {
	Damaged      string  // first link at its strength
	DamageForce  float64 // N
	DamageSpeed  float64 // m/s
	DamageHeight float64 // of a vertical drop with gravity, m

	Broken      string // link that breaks
	Kind        Kind   // of that link
	Ductile     bool   // a hinge turned before it broke
	BreakSpeed  float64
	BreakHeight float64
}

// Outcome is what a load path takes at low, typical and high strength.
type Outcome struct{ Low, Typical, High Level }

// Damage returns the speeds in m/s at which the first link reaches its strength.
func (o Outcome) Damage() Spread {
	return Spread{o.Low.DamageSpeed, o.Typical.DamageSpeed, o.High.DamageSpeed}
}

// Break returns the speeds in m/s at which the first link breaks.
func (o Outcome) Break() Spread {
	return Spread{o.Low.BreakSpeed, o.Typical.BreakSpeed, o.High.BreakSpeed}
}

// Withstand returns the speeds and heights that damage and break a load path of
// links; the blow's speed is not used. The first link at its strength F sets the
// damage energy F² C/2. A brittle link breaks there. A ductile one adds its hinge's
// energy, unless a brittle link of a capacity below factor × F breaks while the
// hinge's moment builds up: then that link's own F² C/2 is all there is. Links
// stronger than that never see their strength, as the hinge caps the force.
func Withstand(b Blow, links []Link, rule Rule) (Outcome, error) {
	if !(b.Mass > 0 && b.Compliance > 0) {
		return Outcome{}, fmt.Errorf("blow: effective mass %g kg and compliance %g m/N must both be above zero", b.Mass, b.Compliance)
	}
	rule = rule.filled()
	typical, err := withstand(b, links, rule, func(s Spread) float64 { return s.filled().Typical })
	if err != nil || !spreads(links) {
		return Outcome{typical, typical, typical}, err
	}
	low, err := withstand(b, links, rule, func(s Spread) float64 { return s.filled().Low })
	if err != nil {
		return Outcome{}, err
	}
	high, err := withstand(b, links, rule, func(s Spread) float64 { return s.filled().High })
	if err != nil {
		return Outcome{}, err
	}
	return Outcome{low, typical, high}, nil
}

// spreads reports whether any figure of the links has a spread.
func spreads(links []Link) bool {
	for i := range links {
		for _, s := range [2]Spread{links[i].Capacity.filled(), links[i].Hinge.Strength.filled()} {
			if s.Low != s.Typical || s.High != s.Typical {
				return true
			}
		}
	}
	return false
}

func withstand(b Blow, links []Link, rule Rule, at func(Spread) float64) (Level, error) {
	hinge := func(l *Link) float64 { return l.Hinge.Energy(at(l.Hinge.Strength), rule) }
	first, brittle := -1, -1 // weakest of all links, weakest of the brittle ones
	for i := range links {
		l := &links[i]
		F := at(l.Capacity)
		if !(F >= 0) {
			return Level{}, fmt.Errorf("link %q: capacity %g N is not a force; give one of at least 0", l.Name, F)
		}
		if first < 0 || F < at(links[first].Capacity) {
			first = i
		}
		if hinge(l) == 0 && (brittle < 0 || F < at(links[brittle].Capacity)) {
			brittle = i
		}
	}
	if first < 0 || math.IsInf(at(links[first].Capacity), 1) {
		return Level{}, errors.New("no link bears the blow; give at least one link a capacity")
	}
	elastic := func(F float64) float64 { return F * F * b.Compliance / 2 }
	speed := func(energy float64) float64 { return math.Sqrt(2 * energy / b.Mass) }
	height := func(energy, F float64) float64 {
		return math.Max(0, energy/(b.Mass*gravity)-F*b.Compliance)
	}
	F := at(links[first].Capacity)
	broken, peak, energy := first, F, elastic(F)+hinge(&links[first])
	if first != brittle && brittle >= 0 {
		other := at(links[brittle].Capacity)
		if other < rule.Factor*F && elastic(other) < energy {
			broken, peak, energy = brittle, other, elastic(other)
		}
	}
	return Level{
		Damaged: links[first].Name, DamageForce: F, DamageSpeed: speed(elastic(F)), DamageHeight: height(elastic(F), F),
		Broken: links[broken].Name, Kind: links[broken].Kind, Ductile: hinge(&links[broken]) > 0,
		BreakSpeed: speed(energy), BreakHeight: height(energy, peak),
	}, nil
}
