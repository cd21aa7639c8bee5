package strength

import "math"

// Foot is a plate held on the frame by screws.
type Foot struct {
	Outline [][2]float64 // corners, in any order, m
	Screws  [][2]float64 // m
}

// FootLoad is what the mast does to the foot at the origin: N and N·m.
type FootLoad struct{ Force, Moment [3]float64 }

// LoadAt returns the load on the foot of a force in N at a point in m.
func LoadAt(point, force [3]float64) FootLoad {
	return FootLoad{Force: force, Moment: cross(point, force)}
}

// ScrewLoad is the pull and the shear of one screw in N.
type ScrewLoad struct{ Tension, Shear float64 }

// Loads returns each screw's load. The foot is rigid and turns about its own edge
// on the pressed side (prying): the moment about that edge is shared as the screws'
// distances from it,
//
//	T_i = M_e r_i/Σ r².
//
// A pull that lifts the whole foot off is shared evenly, its moment by the
// distances from the screws' middle. Shear is shared evenly and torque by
// the distances from the middle; friction under the foot is left out. Preload does
// not change what breaks a screw and is left out as well.
//
// Source: Shigley, Mechanical Engineering Design, bolted joints loaded in moment and shear.
func (f Foot) Loads(l FootLoad) []ScrewLoad {
	loads := make([]ScrewLoad, len(f.Screws))
	n := float64(len(f.Screws))
	if n == 0 {
		return loads
	}
	var middle [3]float64
	for _, s := range f.Screws {
		middle[0] += s[0] / n
		middle[1] += s[1] / n
	}
	l.Moment = along(l.Moment, -1, cross(middle, l.Force))
	polar := 0.0
	for _, s := range f.Screws {
		x, y := s[0]-middle[0], s[1]-middle[1]
		polar += x*x + y*y
	}
	f.tensions(l, middle, loads)
	torque := l.Moment[2]
	for i := range loads {
		s := [2]float64{f.Screws[i][0] - middle[0], f.Screws[i][1] - middle[1]}
		loads[i].Shear = math.Hypot(l.Force[0]/n-quotient(torque*s[1], polar), l.Force[1]/n+quotient(torque*s[0], polar))
	}
	return loads
}

// tensions sets the screws' pull; l has its origin at the screws' middle.
func (f Foot) tensions(l FootLoad, middle [3]float64, loads []ScrewLoad) {
	moment, lift := math.Hypot(l.Moment[0], l.Moment[1]), l.Force[2]
	pressed := [2]float64{quotient(l.Moment[1], moment), -quotient(l.Moment[0], moment)} // the side the moment presses down
	reach := func(p [2]float64) float64 { return (p[0]-middle[0])*pressed[0] + (p[1]-middle[1])*pressed[1] }
	edge := math.Inf(-1)
	for _, points := range [2][][2]float64{f.Outline, f.Screws} {
		for _, p := range points {
			edge = math.Max(edge, reach(p))
		}
	}
	sum, squares, spread := 0.0, 0.0, 0.0
	for _, s := range f.Screws {
		r := edge - reach(s)
		sum += r
		squares += r * r
		spread += reach(s) * reach(s)
	}
	about := math.Max(0, moment+lift*edge)
	presses := moment > 0 && quotient(about*sum, squares) >= lift // else the edge would have to pull
	for i, s := range f.Screws {
		switch {
		case presses:
			loads[i].Tension = quotient(about*(edge-reach(s)), squares)
		case lift > 0:
			loads[i].Tension = math.Max(0, lift/float64(len(f.Screws))-quotient(moment*reach(s), spread))
		}
	}
}

// Utilisation returns the greatest share of its strength any screw bears.
func (f Foot) Utilisation(l FootLoad, s Screw) float64 {
	worst := 0.0
	for _, load := range f.Loads(l) {
		worst = math.Max(worst, s.Utilisation(load))
	}
	return worst
}

// Capacity returns the force in N along a unit direction at a point of the mast that
// brings the worst screw to its strength, +Inf when no screw is loaded.
func (f Foot) Capacity(point, direction [3]float64, s Screw) float64 {
	return 1 / f.Utilisation(LoadAt(point, direction), s)
}
