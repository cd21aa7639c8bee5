package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/strength"
	"mastwright/materials"
)

// tipover judges the speed that breaks the mount against the speed at which the aircraft topples onto it.
func (s *subject) tipover() Verdict {
	if missing := s.lacksAircraft(); missing != nil {
		return lacking("the blow depends on the aircraft's mass and arms", missing...)
	}
	worst, err := s.falls()
	if err != nil {
		return lacking(err.Error())
	}
	if worst == nil {
		v := judged(fixed("break speed over topple speed", math.MaxFloat32, "×", nil))
		v.Figures = nil
		v.Because = "toppling over its arms, the aircraft never lands on the mast"
		v.Formula = "no fall over two neighbouring arms brings the mast top down first"
		return v
	}
	fall := *worst
	limits := s.doc.Limits.Tipover
	typ, lowEnd := fall.Outcome.Typical, fall.Outcome.Low
	held := &Limit{AtLeast, limits.Pass.Fraction(), limits.Marginal.Fraction()}
	sacrificed, isMeant := meant(typ)
	if isMeant {
		held = nil // it breaks so that nothing else does
	}
	fused, fuseNotes := s.fuseFigures(fall)
	v := judged(append([]Figure{
		spread("break speed over topple speed", fall.Ratio.Typical, fall.Ratio.Low, fall.Ratio.High, "×", held),
		fixed("topple speed of the mast top", fall.Speed, "m/s", nil),
		spread("damage speed", typ.DamageSpeed, lowEnd.DamageSpeed, fall.Outcome.High.DamageSpeed, "m/s", nil),
		spread("break speed", typ.BreakSpeed, lowEnd.BreakSpeed, fall.Outcome.High.BreakSpeed, "m/s", nil),
		fixed("peak force were nothing to give", fall.Force, "N", nil),
	}, fused...)...)
	if s.lot == nil { // it judges nothing and costs more than all the rest
		height, err := s.drop()
		if err != nil {
			return lacking(err.Error())
		}
		v.Figures = append(v.Figures, fixed("drop onto the mast top that breaks it", height, "m", nil))
	}
	v.Because = fmt.Sprintf("toppling onto %s it strikes at %.2g m/s; the weakest link, the %s, breaks at %.2g m/s (%.2g at the low end of its strength)",
		s.doc.Loads.Ground, fall.Speed, typ.Broken, typ.BreakSpeed, lowEnd.BreakSpeed)
	v.Formula = fmt.Sprintf("v_req %.3g m/s; m %.3g kg, C %.3g mm/N: break %.3g m/s; %.3g / %.3g = %.3g",
		fall.Speed, fall.Mass, fall.Compliance*1e3, typ.BreakSpeed, typ.BreakSpeed, fall.Speed, fall.Ratio.Typical)
	if isMeant {
		v.Because = fmt.Sprintf("toppling onto %s it strikes at %.2g m/s; %s breaks first, at %.2g m/s, and is replaced", s.doc.Loads.Ground, fall.Speed, sacrificed, typ.BreakSpeed)
	}
	v.Notes = append(v.Notes, fuseNotes...)
	if typ.Damaged != typ.Broken {
		v.Notes = append(v.Notes, fmt.Sprintf("the %s is damaged before anything breaks, at %.2g m/s", typ.Damaged, typ.DamageSpeed))
	}
	if s.direction == materials.Across && typ.Broken != "receiver case" {
		v.Notes = append(v.Notes, "toughness helps only when the layers run along the mast: a mast printed lying breaks later")
	}
	return v
}

// falls returns the worst topple, nil when none lands on the mast.
func (s *subject) falls() (*strength.Fall, error) {
	if !s.toppled {
		s.toppled = true
		s.fallen, s.fallenError = s.topple()
	}
	return s.fallen, s.fallenError
}

func (s *subject) topple() (*strength.Fall, error) {
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return nil, err
	}
	falls, worst, err := strength.TipOver(s.vehicle(l), s.links(l, asSpread), s.rule())
	if err != nil || worst < 0 {
		return nil, err
	}
	return &falls[worst], nil
}

// drop returns the height in m of a free drop onto the mast top that breaks it, the worst way.
func (s *subject) drop() (float64, error) {
	if s.dropped != nil {
		return *s.dropped, nil
	}
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return 0, err
	}
	drops, least, err := strength.Drops(s.vehicle(l), s.links(l, evenly), s.rule(), strength.Grid{Azimuth: 12})
	if err != nil {
		return 0, err
	}
	height := 0.0
	if least >= 0 {
		height = drops[least].Outcome.Typical.BreakHeight
	}
	s.dropped = &height
	return height, nil
}

// asSpread leaves a strength as it is.
func asSpread(s strength.Spread) strength.Spread { return s }

// evenly takes a strength's spread away: where only the typical is asked for.
func evenly(s strength.Spread) strength.Spread { return strength.Spread{Typical: s.Typical} }

func (s *subject) rule() strength.Rule {
	return strength.Rule{Factor: s.doc.Assume.HingeFactor.Fraction(), Share: s.doc.Assume.HingeStrain.Fraction()}
}

// vehicle is the whole aircraft with its mast on the ground that is asked about.
func (s *subject) vehicle(l *loaded) strength.Vehicle {
	whole := s.whole()
	v := strength.Vehicle{
		Mass: whole.mass, CentreOfGravity: triple(whole.cg), Inertia: whole.inertia,
		Top: triple(s.topAt()), Contact: s.doc.Assume.ContactTurf.MetresPerNewton(),
	}
	if s.doc.Loads.Ground == "hard" {
		v.Contact = s.doc.Assume.ContactHard.MetresPerNewton()
	}
	for _, arm := range s.aircraft.arms {
		v.ArmEnds = append(v.ArmEnds, triple(arm))
	}
	for c := range 3 {
		move := l.units[topX+c].Nodes[l.nodes.top].Move
		v.Compliance[0][c], v.Compliance[1][c], v.Compliance[2][c] = move.X, move.Y, move.Z
	}
	for r := range 3 { // rounding apart, it is symmetric
		for c := range r {
			mean := (v.Compliance[r][c] + v.Compliance[c][r]) / 2
			v.Compliance[r][c], v.Compliance[c][r] = mean, mean
		}
	}
	return v
}

// links returns what gives way between the mast top and the frame: every section, the foot's plate and screws, the tray's floor, the
// receiver's case. Strengths pass through spread.
func (s *subject) links(l *loaded, spread func(strength.Spread) strength.Spread) strength.Links {
	euler := s.euler()
	var members []strength.Member
	add := func(i int, at *place) {
		p := &s.spine.spans[i]
		m := strength.Member{
			Name: at.title, Kind: s.kindOf(p, at), Section: at.section, Kt: at.kt, Buckling: euler,
			Strength: spread(s.strengthAlong(p)), Modulus: stiffness(p.material, p.along, typical),
			Elongation: p.material.Elongation(p.along).Low.Fraction(),
		}
		for d := range 3 {
			var w weights
			w[topX+d] = 1
			m.Unit[d] = l.forces(i, at.cut, w)
		}
		members = append(members, m)
	}
	for i, p := range s.spine.spans {
		for k := range s.places(i) {
			at := &s.placed[i][k]
			if !at.again && (k == 0 || k >= len(p.stations)-1) { // between its ends a span is nowhere worse
				add(i, at)
			}
		}
	}
	foot, joints := s.footing(l), s.heldJoints(l)
	footStrength, trayStrength := spread(s.footStrength()), spread(spreadOf(s.trayMaterial, s.trayDirection))
	trayBending := s.trayBending()
	footHinge := strength.Hinge{
		Strength: footStrength, Modulus: stiffness(s.footMaterial, s.footDirection, typical),
		Elongation: s.footMaterial.Elongation(s.footDirection).Low.Fraction(), SectionModulus: s.footModulus(),
	}
	footKind, trayKind := s.kindOfPart("foot"), s.kindOfPart("tray")
	cased, force := s.doc.Has("receiver.case_force"), s.doc.Receiver.CaseForce.Newtons()
	links := make([]strength.Link, 0, len(members)+4)
	return func(direction [3]float64) []strength.Link { // used up before the next is asked for
		links = links[:0]
		for i := range members {
			links = append(links, members[i].Link(direction))
		}
		w := blow(direction)
		screws, bending := foot(w)
		links = append(links, strength.Link{Name: "foot screws", Capacity: certain(1 / screws)})
		if bending > 0 {
			links = append(links, strength.Link{Name: s.footWord(), Kind: footKind, Capacity: scaled(footStrength, 1/bending), Hinge: footHinge})
		}
		for _, j := range joints {
			if used := j.used(w); used > 0 {
				links = append(links, strength.Link{Name: j.name, Capacity: certain(1 / used)})
			}
		}
		if unit := trayBending(direction); unit > 0 {
			links = append(links, strength.Link{Name: "tray floor", Kind: trayKind, Capacity: scaled(trayStrength, 1/unit)})
		}
		if cased {
			links = append(links, strength.Link{Name: "receiver case", Capacity: certain(force)})
		}
		return links
	}
}

// certain is a strength without a spread.
func certain(x float64) strength.Spread { return strength.Spread{Low: x, Typical: x, High: x} }

func scaled(s strength.Spread, by float64) strength.Spread {
	return strength.Spread{Low: s.Low * by, Typical: s.Typical * by, High: s.High * by}
}

// footModulus returns the section modulus in m³ of the foot's plate beside the hub, the narrower way.
func (s *subject) footModulus() float64 {
	box := s.assembly.Foot.Outline.Outer.Box()
	width := math.Min(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y) / 1e3
	t := s.assembly.Foot.Thickness / 1e3
	return width * t * t / 6
}

// trayBending returns the bending stress in Pa of the tray's floor beside the mast's tip for a force of 1 N along a direction on the receiver's top.
func (s *subject) trayBending() func(direction [3]float64) float64 {
	tray := s.assembly.Tray
	box, hub := tray.Floor.Outer.Box(), tray.Hub.Outer.Box()
	arm := s.top() - tray.Level/1e3
	t := tray.Thickness / 1e3
	return func(direction [3]float64) float64 {
		stress := 0.0
		for axis := range 2 {
			reach, half, width := box.Max.X, hub.Max.X, box.Max.Y-box.Min.Y
			if axis == 1 {
				reach, half, width = box.Max.Y, hub.Max.Y, box.Max.X-box.Min.X
			}
			if reach <= half {
				continue
			}
			moment := math.Abs(direction[axis]) * arm
			stress += moment / (2 * reach) * (reach - half) / (width / 1e3 * t * t / 6)
		}
		return stress
	}
}

// bent returns how far a tip-over bends the mast's top sideways in m, elastically; 0 without data.
func (s *subject) bent() float64 {
	f, err := s.falls()
	if s.lacksAircraft() != nil || err != nil || f == nil {
		return 0
	}
	side := math.Hypot(f.Direction[0], f.Direction[1])
	return side * f.Force * (f.Compliance - s.doc.Assume.ContactTurf.MetresPerNewton())
}

func vector(v [3]float64) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

func triple(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }
