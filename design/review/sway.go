package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// sway judges the tilt of the tray under a sideways manoeuvre with drag at top speed.
func (s *subject) sway() Verdict {
	if missing := s.lacksMount(); missing != nil {
		return lacking("what leans depends on the receiver's mass and size", missing...)
	}
	var worst [3]float64
	var move float64
	for i, v := range []variant{{middle, typical}, {soft, low}, {stiff, high}} {
		l, err := s.lean(v)
		if err != nil {
			return lacking(err.Error())
		}
		for _, c := range s.cases() {
			if c.Pressure == [3]float64{} {
				continue
			}
			d := l.at(l.nodes.tray, weigh(c))
			if t := tilt(d); t > worst[i] {
				worst[i] = t
				if i == 0 {
					move = r3.Norm(l.at(l.nodes.compass, weigh(c)).Move)
				}
			}
		}
	}
	limits := s.doc.Limits.Sway
	compliance := s.tipCompliance()
	hand := s.doc.Loads.Hand.Newtons()
	v := judged(
		spread("tilt of the tray", degrees(worst[0]), degrees(worst[1]), degrees(worst[2]), "°", &Limit{AtMost, limits.Pass.Degrees(), limits.Marginal.Degrees()}),
		fixed("movement of the compass", move*1e3, "mm", nil),
		fixed(fmt.Sprintf("under %.3g N by hand", hand), compliance*hand, "mm", nil),
	)
	if s.heatedParts() {
		if l, err := s.lean(variant{middle, hot}); err == nil {
			t := 0.0
			for _, c := range s.cases() {
				if c.Pressure != [3]float64{} {
					t = math.Max(t, tilt(l.at(l.nodes.tray, weigh(c))))
				}
			}
			v.Figures = append(v.Figures, fixed(fmt.Sprintf("tilt at %.0f °C", s.doc.Site.Service.Celsius()), degrees(t), "°", nil))
		}
	}
	v.Because = fmt.Sprintf("at %.3g g sideways and %.0f m/s the tray leans by %.2g° and the compass moves by %.2g mm",
		s.doc.Loads.Sideways.StandardGravities(), s.doc.Airframe.TopSpeed.MetresPerSecond(), degrees(worst[0]), move*1e3)
	v.Formula = fmt.Sprintf("K u = f with E %.0f MPa of the %s: %.3g° typical, %.3g to %.3g° over foot, frame and plastic",
		stiffness(s.mastMaterial, s.direction, typical)/1e6, s.doc.Bearer(), degrees(worst[0]), degrees(worst[2]), degrees(worst[1]))
	if note := s.pivots(); note != "" {
		v.Notes = append(v.Notes, note)
	}
	return v
}

// tipCompliance returns the sideways movement of the receiver's middle per force at the tray in mm/N, the softer way.
func (s *subject) tipCompliance() float64 {
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return 0
	}
	x := l.units[handX].Nodes[l.nodes.tray].Move.X
	y := l.units[handY].Nodes[l.nodes.tray].Move.Y
	return math.Max(x, y) * 1e3
}

// shares returns each spring's and the members' part in the tip's compliance, the softer way: strain energy under a force at the tray.
func (s *subject) shares() []Share {
	l, err := s.solve(variant{middle, typical}, held)
	if err != nil || len(l.modes) == 0 {
		return nil
	}
	first := l.modes[0]
	var shares []Share
	add := func(name string, share float64) {
		for i := range shares {
			if shares[i].Name == name {
				shares[i].Share += share
				return
			}
		}
		shares = append(shares, Share{name, share})
	}
	for i := range s.spine.spans {
		add(s.groupOfMember(s.spine.spans[i]), first.Members[i])
	}
	for i, e := range first.Springs {
		add(s.groupOfSpring(l.springs[i].Name), e)
	}
	return shares
}

// leanAtRest returns the tilt of the tray in rad under the mount's own weight in hover.
func (s *subject) leanAtRest() float64 {
	if s.lacksMount() != nil {
		return 0
	}
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return 0
	}
	var w weights
	w[bodyZ] = -gravity
	return tilt(l.at(l.nodes.tray, w))
}
