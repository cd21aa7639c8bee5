package review

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/strength"
	"mastwright/materials"
	hw "mastwright/materials/hardware"
)

// stressed is the worst of a set of sections.
type stressed struct {
	ratio  float64 // low strength over stress
	stress float64 // Pa, at that section, stress concentration included
	at     string
	height float64 // m
	under  string
	kt     float64
	allow  [3]float64 // strength, Pa
	form   materials.Form
}

// strength judges the stress in every section, the screws and the foot under the loads of flight and of a hand.
func (s *subject) strength() Verdict {
	if missing := s.lacksMount(); missing != nil {
		return lacking("what bears the loads depends on the receiver's mass and size", missing...)
	}
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return lacking(err.Error())
	}
	flight, hand := stressed{ratio: math.Inf(1)}, stressed{ratio: math.Inf(1)}
	screws := math.Inf(1)
	plate := math.Inf(1)
	foot := s.footing(l)
	joints := s.heldJoints(l)
	least := map[string]float64{}
	for _, c := range s.cases() {
		w := weigh(c)
		into := &flight
		if c.Hand != [3]float64{} {
			into = &hand
		}
		s.worstSection(l, w, c.Name, into)
		used, stress := foot(w)
		if used > 0 {
			screws = math.Min(screws, 1/used)
		}
		if stress > 0 {
			plate = math.Min(plate, s.footStrength().Low/stress)
		}
		for _, j := range joints {
			if used := j.used(w); used > 0 && (least[j.group] == 0 || 1/used < least[j.group]) {
				least[j.group] = 1 / used
			}
		}
	}
	limits := &Limit{AtLeast, s.doc.Limits.Strength.Pass.Fraction(), s.doc.Limits.Strength.Marginal.Fraction()}
	figure := func(name string, x stressed) Figure {
		return spread(name, x.ratio, x.ratio*x.allow[1]/x.allow[0], x.ratio*x.allow[2]/x.allow[0], "×", limits)
	}
	figures := []Figure{
		figure("strength over stress, hand", hand),
		figure("strength over stress, flight", flight),
		fixed("screws of the foot", screws, "×", limits),
		fixed(s.footWord()+" in bending", plate, "×", limits),
	}
	for _, j := range joints {
		if ratio := least[j.group]; ratio > 0 {
			figures = append(figures, fixed(j.group, ratio, "×", limits))
			delete(least, j.group)
		}
	}
	figures = slices.DeleteFunc(figures, func(f Figure) bool { return math.IsInf(f.Value, 1) }) // nothing loads it
	if s.lacksStructure() == nil && s.rotorsError == nil {
		if peak := s.worstShake(); peak > 0 {
			fatigue := stressed{ratio: math.Inf(1)}
			for d := range 2 {
				var w weights
				w[bodyX+d] = peak * gravity
				s.worstSection(l, w, "shake", &fatigue)
			}
			if share := strength.Fatigue * fatigue.ratio; !math.IsInf(share, 1) {
				figures = append(figures, fixed("fatigue strength over shake", share, "×", &Limit{AtLeast, 1, 0.5}))
			}
		}
	}
	if factor, err := s.buckling(pressedAxial); err == nil && !math.IsInf(factor, 1) {
		figures = append(figures, fixed("buckling load over axial load", factor, "×", limits))
	}
	v := judged(figures...)
	worst := hand
	if flight.ratio < hand.ratio {
		worst = flight
	}
	where := fmt.Sprintf("%s, %.0f mm up", worst.at, worst.height*1e3)
	v.Because = fmt.Sprintf("the highest stress is %.1f MPa at %s under %s; %s bears %.0f MPa there at the low end",
		worst.stress/1e6, where, worst.under, stuff(worst.form), worst.allow[0]/1e6)
	v.Formula = fmt.Sprintf("Kt %.2f × σ = %.2f MPa at %s; %.1f / %.2f = %.2f", worst.kt, worst.stress/1e6, where, worst.allow[0]/1e6, worst.stress/1e6, worst.ratio)
	return v
}

// stuff is what a part is made of, in a word.
func stuff(f materials.Form) string {
	switch f {
	case materials.Sheet:
		return "the sheet"
	case materials.Tube:
		return "the tube"
	}
	return "the plastic"
}

// tie is the share by which one section must be worse than another to be named before it: load cases that mirror each other differ by rounding.
const tie = 1e-9

// worstSection keeps the section of least strength over stress under a weighted load in into.
func (s *subject) worstSection(l *loaded, w weights, under string, into *stressed) {
	var at [unitCases]int
	var by [unitCases]float64
	n := 0
	for i, x := range w {
		if x != 0 {
			at[n], by[n] = i, x
			n++
		}
	}
	for i := range s.spine.spans {
		p := &s.spine.spans[i]
		r := s.strengthAlong(p)
		for k := range s.places(i) {
			place := &s.placed[i][k]
			if place.again {
				continue
			}
			var f strength.Resultants
			for j, x := range by[:n] {
				unit := &l.units[at[j]].Members[i][place.cut]
				f.N += x * unit.N
				f.My += x * unit.Mx
				f.Mz += x * unit.My
				f.T += x * unit.T
			}
			stress := place.section.Stress(f, place.kt)
			if stress <= 0 {
				continue
			}
			if ratio := r.Low / stress; ratio < into.ratio*(1-tie) {
				*into = stressed{ratio, stress, place.name, s.height(p, place.cut), under, place.kt, [3]float64{r.Low, r.Typical, r.High}, p.material.Form}
			}
		}
	}
}

// height returns a cut's height above the mounting face in m.
func (s *subject) height(p *span, cut int) float64 {
	from, to := s.spine.points[p.from].Z, s.spine.points[p.to].Z
	return from + (to-from)*p.stations[cut].At
}

// strengthAlong returns the strength along a span's axis, Pa.
func (s *subject) strengthAlong(p *span) strength.Spread {
	if r := p.material.StrengthInClamp(); p.clamped && r.Known() {
		return strength.Spread{Low: r.Low.Pascals(), Typical: r.Typical.Pascals(), High: r.High.Pascals()}
	}
	return spreadOf(p.material, p.along)
}

func spreadOf(m materials.Material, d materials.Direction) strength.Spread {
	r := m.Strength(d)
	return strength.Spread{Low: r.Low.Pascals(), Typical: r.Typical.Pascals(), High: r.High.Pascals()}
}

// footLoad returns what the mast does to the foot.
func (s *subject) footLoad(l *loaded, w weights) (f strength.FootLoad) {
	for i, x := range w {
		if x == 0 {
			continue
		}
		for _, r := range l.units[i].Reactions {
			// the reaction is the ground's on the vehicle's node: turn it round and carry it to the origin
			force, moment := r3.Scale(-x, r.Force), r3.Scale(-x, r.Moment)
			moment = r3.Add(moment, r3.Cross(s.aircraft.cg, force))
			f.Force[0] += force.X
			f.Force[1] += force.Y
			f.Force[2] += force.Z
			f.Moment[0] += moment.X
			f.Moment[1] += moment.Y
			f.Moment[2] += moment.Z
		}
	}
	return f
}

// footScrews returns the foot as its screws see it.
func (s *subject) footScrews() strength.Foot {
	var foot strength.Foot
	for _, at := range s.assembly.Foot.Screws {
		foot.Screws = append(foot.Screws, [2]float64{at.X / 1e3, at.Y / 1e3})
	}
	for _, v := range s.assembly.Foot.Outline.Outer.Flatten(0.05) {
		foot.Outline = append(foot.Outline, [2]float64{v.X / 1e3, v.Y / 1e3})
	}
	return foot
}

// footScrew returns the strength of one screwed point of the foot: the screw itself, or its head pulled through the plastic, or its
// insert out of it.
func (s *subject) footScrew() strength.Screw {
	use := s.screws("foot")
	material, err := hw.FindMaterial(use.Material)
	if err != nil {
		return strength.Screw{Tension: math.Inf(1), Shear: math.Inf(1)}
	}
	tension := use.Size.BreakingLoad(material).Newtons()
	through := strength.HeadPull(s.assembly.Foot.Head/1e3, use.Hole/1e3, s.assembly.Foot.Seat/1e3, s.footStrength().Low)
	if use.Insert { // its knurl shears the plastic around the bore
		through = strength.ThreadStrip(s.assembly.Foot.Head/1e3, use.Size.Insert().Length.Metres(), s.footStrength().Low)
	}
	return strength.Screw{Tension: math.Min(tension, through), Shear: strength.ScrewShear(tension)}
}

// footStrength returns the strength of the foot's plate in bending, Pa.
func (s *subject) footStrength() strength.Spread { return spreadOf(s.footMaterial, s.footDirection) }

// footBending returns the bending stress in Pa of the foot's plate beside the hub: a strip as wide as the foot between the hub and the
// screws on either side, which share the moment. The strip is own judgement, on the safe side of a plate that also bends the other way.
func (s *subject) footBending() func(strength.FootLoad) float64 {
	plate := s.assembly.Foot
	box, hub := plate.Outline.Outer.Box(), plate.Hub.Outer.Box()
	t := plate.Thickness / 1e3
	core := math.Max(0, 1-2*plate.Shell.Face/plate.Thickness)
	modulus := t * t / 6 * (1 - core*core*core*(1-materials.CoreStiffness(fraction(plate.Shell.Infill)).Fraction()))
	half, width := [2]float64{hub.Max.X, hub.Max.Y}, [2]float64{box.Max.Y - box.Min.Y, box.Max.X - box.Min.X}
	var reach [2]float64
	for _, at := range plate.Screws {
		reach[0], reach[1] = math.Max(reach[0], math.Abs(at.X)), math.Max(reach[1], math.Abs(at.Y))
	}
	return func(f strength.FootLoad) float64 {
		stress := 0.0
		for axis, moment := range [2]float64{math.Abs(f.Moment[1]), math.Abs(f.Moment[0])} {
			if reach[axis] > half[axis] {
				stress += moment / (2 * reach[axis]) * (reach[axis] - half[axis]) / (width[axis] / 1e3 * modulus)
			}
		}
		return stress
	}
}
