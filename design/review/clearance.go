package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
)

// The rule of the trade: 100 mm to whatever carries the motors' current, at the current of the aircraft it was made for; nearer
// for less, but not below 40 mm. 50 mm to whatever radiates. Common practice, the scaling by own choice.
const (
	ruleDistance  = 0.100 // m
	ruleCurrent   = 120.0 // A
	leastDistance = 0.040 // m
	quietDistance = 0.050 // m
)

// clearance measures from the compass to the nearest point of every neighbour, lead and motor, and from the mount to the
// propeller discs.
func (s *subject) clearance() Verdict {
	if missing := s.lacks("motors.propeller", "airframe.motor_diagonal", "airframe.neighbours", "leads[].currents.full"); missing != nil {
		return lacking("the distances that are needed follow from the current at full throttle", missing...)
	}
	full := 0.0
	for _, lead := range s.doc.Leads {
		full = math.Max(full, lead.Currents.Full.Amperes())
	}
	carrying := math.Max(leastDistance, ruleDistance*math.Sqrt(full/ruleCurrent))

	ratio := &Limit{AtLeast, s.doc.Limits.Clearance.Pass.Fraction(), s.doc.Limits.Clearance.Marginal.Fraction()}
	routed := *ratio
	routed.Marginal = math.Inf(-1) // heading judges a lead whose route is known
	var figures []Figure
	add := func(name string, distance, needed float64, limit *Limit) {
		figures = append(figures, fixed(fmt.Sprintf("%s, %.0f of %.0f mm", name, distance*1e3, needed*1e3), distance/needed, "", limit))
	}
	for _, n := range s.doc.Airframe.Neighbours {
		needed := 0.0
		switch n.Kind {
		case "controller":
			needed = carrying
		case "transmitter", "usb3", "camera":
			needed = quietDistance
		default:
			continue
		}
		add(n.Name, s.box(n).distance(s.compass), needed, ratio)
	}
	for i, motor := range s.aircraft.motors {
		add(fmt.Sprintf("motor %d", i+1), r3.Norm(r3.Sub(motor, s.compass)), carrying, ratio)
	}
	for i := range s.doc.Leads {
		route, ok := s.route(i)
		if !ok {
			continue
		}
		add(s.doc.Leads[i].Name, distanceToLine(s.compass, route), carrying, &routed)
	}
	if len(figures) == 0 {
		return lacking("no neighbour, motor or lead is described", "airframe.neighbours", "leads[].from")
	}
	worst := figures[0]
	for _, f := range figures {
		if f.Value < worst.Value {
			worst = f
		}
	}
	disc := &Limit{AtLeast, s.doc.Limits.Propeller.Pass.Millimetres(), s.doc.Limits.Propeller.Marginal.Millimetres()}
	if gap, ok := s.discGap(); ok {
		figures = append(figures, fixed("mount to propeller disc, leaning", gap*1e3, "mm", disc))
	}
	for _, n := range s.doc.Airframe.Neighbours {
		if n.Kind == "access" {
			room := &Limit{AtLeast, 1, 0}
			figures = append(figures, fixed("mount to "+n.Name+", kept free", s.mountGap(s.box(n))*1e3, "mm", room))
		}
	}
	v := judged(figures...)
	v.Because = fmt.Sprintf("the nearest is %s needed from the compass", worst.Name)
	if v.Figure.Unit == "mm" {
		v.Because = fmt.Sprintf("%s: %.0f mm", v.Figure.Name, v.Figure.Value)
	}
	v.Formula = fmt.Sprintf("needed = max(40, 100 mm × √(%.3g A / 120 A)) = %.0f mm", full, carrying*1e3)
	return v
}

// discGap returns the smallest distance in m between the mount, leaning as far as a tip-over bends it, and a propeller's disc.
func (s *subject) discGap() (float64, bool) {
	lean, top := s.bent(), s.top()
	radius := s.doc.Motors.Propeller.Metres() / 2
	gap := math.Inf(1)
	for _, hub := range s.aircraft.motors {
		for _, at := range s.silhouette() {
			share := math.Max(0, at.middle.Z/top)
			gap = math.Min(gap, distanceToDisc(at, hub, radius)-lean*share*share)
		}
	}
	return gap, !math.IsInf(gap, 1)
}

// distanceToDisc returns the distance in m from a ring to a level disc.
func distanceToDisc(r ring, hub r3.Vec, radius float64) float64 {
	side := math.Max(0, math.Hypot(hub.X-r.middle.X, hub.Y-r.middle.Y)-radius-r.radius)
	return math.Hypot(side, hub.Z-r.middle.Z)
}

// mountGap returns the smallest distance in m between the mount's silhouette and a box.
func (s *subject) mountGap(b box) float64 {
	gap := math.Inf(1)
	for _, r := range s.silhouette() {
		near := b.nearest(r.middle)
		side := math.Hypot(near.X-r.middle.X, near.Y-r.middle.Y) - r.radius
		gap = math.Min(gap, math.Hypot(math.Max(0, side), near.Z-r.middle.Z))
	}
	return gap
}

// box is an upright box in the axes of the place, m.
type box struct{ centre, half r3.Vec }

func (s *subject) box(n design.Neighbour) box {
	return box{
		centre: s.at(n.At),
		half:   r3.Vec{X: n.Size.X.Metres() / 2, Y: n.Size.Y.Metres() / 2, Z: n.Size.Z.Metres() / 2},
	}
}

// nearest returns the point of the box nearest to p.
func (b box) nearest(p r3.Vec) r3.Vec {
	d := r3.Sub(p, b.centre)
	return r3.Add(b.centre, r3.Vec{X: clamp(d.X, b.half.X), Y: clamp(d.Y, b.half.Y), Z: clamp(d.Z, b.half.Z)})
}

func (b box) distance(p r3.Vec) float64 { return r3.Norm(r3.Sub(b.nearest(p), p)) }

func clamp(x, half float64) float64 { return math.Max(-half, math.Min(half, x)) }

// distanceToLine returns the distance in m from p to a polyline.
func distanceToLine(p r3.Vec, line []r3.Vec) float64 {
	nearest := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, d := line[i-1], r3.Sub(line[i], line[i-1])
		share := 0.0
		if n := r3.Dot(d, d); n > 0 {
			share = math.Max(0, math.Min(1, r3.Dot(r3.Sub(p, a), d)/n))
		}
		nearest = math.Min(nearest, r3.Norm(r3.Sub(p, r3.Add(a, r3.Scale(share, d)))))
	}
	return nearest
}
