package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/strength"
)

// The unit cases of a standing mount, in the order in which they are solved.
const (
	bodyX = iota // 1 m/s² on every mass
	bodyY
	bodyZ
	pressureX // 1 Pa on what is seen along x, drag coefficient included
	pressureY
	handX // 1 N at the tray
	handY
	handZ
	topX // 1 N at the top of the receiver
	topY
	topZ
	unitCases
)

// loaded is a standing model with its answers to the unit cases.
type loaded struct {
	*solved
	units []frame.Result
}

// weights is a load case as multiples of the unit cases.
type weights [unitCases]float64

// weigh turns a load case into weights.
func weigh(c strength.Case) (w weights) {
	copy(w[bodyX:], c.Body[:])
	w[pressureX], w[pressureY] = c.Pressure[0], c.Pressure[1]
	copy(w[handX:], c.Hand[:])
	return w
}

// stand solves the unit cases of a variant held on the ground; once for each.
func (s *subject) stand(v variant) (*loaded, error) {
	v = s.of(v)
	if l, ok := s.standing[v]; ok && l.units[topZ].Members != nil {
		return l, nil
	}
	e, err := s.model(v, held)
	if err != nil {
		return nil, err
	}
	s.work.Statics++
	l := &loaded{solved: e}
	if e.kin == nil {
		l.units, err = e.system.Statics(s.unitCases(e.nodes))
	} else if cases, wrong := s.casesOf(e.kin); wrong != nil {
		err = wrong
	} else {
		l.units = e.own.Statics(cases)
	}
	if err != nil {
		return nil, err
	}
	s.standing[v] = l
	return l, nil
}

// lean is stand for displacements under body forces and wind alone, which cost less.
func (s *subject) lean(v variant) (*loaded, error) {
	v = s.of(v)
	if v == (variant{middle, typical}) {
		return s.stand(v) // every other check wants the rest of it
	}
	if l, ok := s.standing[v]; ok {
		return l, nil
	}
	e, err := s.model(v, held)
	if err != nil {
		return nil, err
	}
	s.work.Statics++
	var moved [][]frame.Displacement
	if e.kin == nil {
		moved, err = e.system.Deflections(s.unitCases(e.nodes)[:handX])
	} else if cases, wrong := s.casesOf(e.kin); wrong != nil {
		err = wrong
	} else {
		moved = e.own.Deflections(cases.First(handX))
	}
	if err != nil {
		return nil, err
	}
	l := &loaded{e, make([]frame.Result, unitCases)}
	for i := range moved {
		l.units[i].Nodes = moved[i]
	}
	s.standing[v] = l
	return l, nil
}

// unitCases lays out the unit cases of a model.
func (s *subject) unitCases(n nodes) []frame.Case {
	axes := [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	cases := make([]frame.Case, unitCases)
	for d, axis := range axes {
		cases[bodyX+d].Field = axis
		cases[handX+d].Loads = []frame.Load{{Node: n.tray, Force: axis}}
		cases[topX+d].Loads = []frame.Load{{Node: n.top, Force: axis}}
	}
	for d := range 2 {
		c := &cases[pressureX+d]
		for i, p := range s.spine.spans {
			c.Lines = append(c.Lines, frame.LineLoad{Member: i, PerMetre: r3.Scale(p.width(d)*s.spine.facing(p, d), axes[d])})
		}
		c.Loads = []frame.Load{{Node: n.receiver, Force: r3.Scale(s.receiverArea(d), axes[d])}}
	}
	return cases
}

// facing returns how square a span stands to the wind along x (0) or y (1): 1 upright, 0 along it.
func (sp spine) facing(p span, along int) float64 {
	way := r3.Sub(sp.points[p.to], sp.points[p.from])
	into := way.X
	if along == 1 {
		into = way.Y
	}
	if into == 0 {
		return 1
	}
	return math.Sqrt(math.Max(0, 1-into*into/r3.Norm2(way)))
}

// width returns the mean width in m of a span as the wind along x (0) or y (1) sees it.
func (p span) width(along int) float64 {
	sum := 0.0
	for _, st := range p.stations {
		if along == 0 {
			sum += st.Section.Bottom + st.Section.Top
		} else {
			sum += st.Section.Left + st.Section.Right
		}
	}
	return sum / float64(len(p.stations))
}

// receiverArea returns the area in m² of receiver and tray that the wind along x (0) or y (1) sees.
func (s *subject) receiverArea(along int) float64 {
	r := s.doc.Receiver.Size
	width := r.Y
	if along == 1 || s.doc.Receiver.Shape == "round" {
		width = r.X
	}
	tray, _ := s.doc.TraySize()
	edge := tray.Y
	if along == 1 {
		edge = tray.X
	}
	return width.Metres()*r.Z.Metres() + edge.Metres()*s.doc.Tray.Thickness.Metres()
}

// at returns the displacement of a node under a weighted sum of the unit cases.
func (l *loaded) at(node int, w weights) (d frame.Displacement) {
	for i, x := range w {
		if x != 0 {
			d.Move = r3.Add(d.Move, r3.Scale(x, l.units[i].Nodes[node].Move))
			d.Turn = r3.Add(d.Turn, r3.Scale(x, l.units[i].Nodes[node].Turn))
		}
	}
	return d
}

// forces returns what a cut of a span bears under a weighted sum of the unit cases, in the axes of package strength: y and z across are the
// section's x and y.
func (l *loaded) forces(span, cut int, w weights) (r strength.Resultants) {
	for i, x := range w {
		if x == 0 {
			continue
		}
		f := &l.units[i].Members[span][cut]
		r.N += x * f.N
		r.My += x * f.Mx
		r.Mz += x * f.My
		r.T += x * f.T
	}
	return r
}

// section turns a section of the frame engine into one of the strength engine, principal axes along the section's own.
func section(f frame.Section) strength.Section {
	y, z := math.Max(f.Left, f.Right), math.Max(f.Bottom, f.Top)
	reach := math.Hypot(y, z)
	if f.Circular {
		reach = y
	}
	return strength.Section{Area: f.A, Iy: f.Ix, Iz: f.Iy, Y: y, Z: z, Torsion: f.J / reach, Round: f.Circular}
}

// tilt returns the angle in rad by which a node's upright leans.
func tilt(d frame.Displacement) float64 { return math.Hypot(d.Turn.X, d.Turn.Y) }

// cases returns the load cases of the document.
func (s *subject) cases() []strength.Case {
	if s.loads != nil {
		return s.loads
	}
	s.loads = strength.Loads{
		Sideways: s.doc.Loads.Sideways.MetresPerSecondSquared(),
		Axial:    s.doc.Loads.Axial.MetresPerSecondSquared(),
		Hand:     s.doc.Loads.Hand.Newtons(),
		Drag:     s.doc.Loads.Drag.Fraction(),
		TopSpeed: s.doc.Airframe.TopSpeed.MetresPerSecond(),
		Density:  s.rotors.Drive.Density,
	}.Cases()
	return s.loads
}
