package review

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// ShapePoint is a point of a vibrating mount.
type ShapePoint struct {
	Height float64 // mm above the mounting face
	Move   r3.Vec  // mm
	Turn   r3.Vec  // rad
}

// StressPoint is the worst stress at a height of the mount.
type StressPoint struct {
	Member string
	Height float64 // mm above the mounting face
	Stress float64 // MPa, stress concentration included
	Allow  float64 // MPa, low strength
	Place  float64 // on the verdict scale, by the limits of strength
	Under  string  // load case
}

// Wire is the two conductors of a lead as the magnetic engine has them, mm in the axes of the place.
type Wire struct {
	Lead       string
	Red, Black []r3.Vec
	Diameter   float64 // mm, of one conductor
}

// ResponsePoint is the vibration at a rotor speed.
type ResponsePoint struct {
	RPM             float64
	Peak, Low, High float64 // g at the compass: typical, and the ends over plastic and base
}

// Speeds are the rotor speeds that bound the regimes, rpm.
type Speeds struct{ Hover, WorkingLow, WorkingHigh, FullHigh float64 }

// shape returns a flying mode of the middle model as the mount moves relative to its mounting face, from the root up. The larger of the
// greatest movement and 20 mm times the greatest turn is 1 mm; the top's largest movement is positive.
func (s *subject) shape(index int) []ShapePoint {
	e, err := s.solve(variant{middle, typical}, flying)
	if err != nil || index >= len(e.modes) {
		return nil
	}
	mode, nodes := e.modes[index], e.nodes
	face := mode.Nodes[nodes.face]
	var path []ShapePoint
	add := func(node int) {
		at, d := e.system.At(node), mode.Nodes[node]
		rigid := r3.Add(face.Move, r3.Cross(face.Turn, at))
		path = append(path, ShapePoint{at.Z * 1e3, r3.Sub(d.Move, rigid), r3.Sub(d.Turn, face.Turn)})
	}
	for _, p := range s.spine.mast() {
		add(nodes.points[p])
	}
	for _, n := range []int{nodes.tray, nodes.receiver, nodes.top} {
		add(n)
	}
	slices.SortStableFunc(path, func(a, b ShapePoint) int { return cmp.Compare(a.Height, b.Height) })
	size := 0.0
	for _, p := range path {
		size = math.Max(size, math.Max(r3.Norm(p.Move), 0.020*r3.Norm(p.Turn)))
	}
	if size == 0 {
		return nil
	}
	scale := 1 / size
	if top := path[len(path)-1].Move; largest(top) < 0 {
		scale = -scale
	}
	for i := range path {
		path[i].Move = r3.Scale(scale, path[i].Move)
		path[i].Turn = r3.Scale(scale*1e-3, path[i].Turn) // the movement is in mm now
	}
	return path
}

// largest returns the component of v that is largest in size.
func largest(v r3.Vec) float64 {
	out := v.X
	for _, x := range []float64{v.Y, v.Z} {
		if math.Abs(x) > math.Abs(out) {
			out = x
		}
	}
	return out
}

// stresses returns the worst stress at every cut and notch over all load cases, from the foot up.
func (s *subject) stresses() []StressPoint {
	l, err := s.stand(variant{middle, typical})
	if err != nil {
		return nil
	}
	limits := Limit{AtLeast, s.doc.Limits.Strength.Pass.Fraction(), s.doc.Limits.Strength.Marginal.Fraction()}
	var points []StressPoint
	cases := s.cases()
	for i := range s.spine.spans {
		p := &s.spine.spans[i]
		allow := s.strengthAlong(p).Low
		for _, place := range s.places(i) {
			worst := StressPoint{Member: p.name, Height: s.height(p, place.cut) * 1e3, Allow: allow / 1e6}
			for _, c := range cases {
				if stress := place.section.Stress(l.forces(i, place.cut, weigh(c)), place.kt) / 1e6; stress > worst.Stress*(1+tie) {
					worst.Stress, worst.Under = stress, c.Name
				}
			}
			if worst.Stress > 0 {
				worst.Place = limits.Place(worst.Allow / worst.Stress)
			}
			points = append(points, worst)
		}
	}
	slices.SortStableFunc(points, func(a, b StressPoint) int { return cmp.Compare(a.Height, b.Height) })
	return points
}

// wires returns the conductors of every lead whose route is known.
func (s *subject) wires() []Wire {
	leads, err := s.leads(hover)
	if err != nil {
		return nil
	}
	var wires []Wire
	for i, l := range leads {
		circuit, err := l.Circuit()
		if err != nil || s.doc.Leads[i].Given == "measured" {
			continue
		}
		for _, loop := range circuit.Loops() {
			points := make([]r3.Vec, len(loop)-1) // the last repeats the first: out, then back
			for k := range points {
				points[k] = r3.Scale(1e3, loop[k])
			}
			half := len(points) / 2
			wires = append(wires, Wire{Lead: l.Name, Red: points[:half], Black: points[half:], Diameter: s.doc.Leads[i].Conductor.Millimetres()})
		}
	}
	return wires
}

// response follows the vibration at the compass over the rotor's speed.
func (s *subject) response() []ResponsePoint {
	var ends [3]*solved
	for i, v := range []variant{{middle, typical}, {soft, low}, {stiff, high}} {
		var err error
		if ends[i], err = s.solve(v, flying); err != nil {
			return nil
		}
	}
	from, to := 0.5*s.rotors.Working.Low, s.rotors.Full.High
	const steps = 90
	var speeds []float64
	for i := range steps + 1 {
		speeds = append(speeds, from+(to-from)*float64(i)/steps)
	}
	for _, e := range ends {
		for _, m := range e.modes {
			for _, f := range []float64{m.Frequency, m.Frequency / float64(s.rotors.Drive.Blades)} {
				if f > from && f < to {
					speeds = append(speeds, f)
				}
			}
		}
	}
	slices.Sort(speeds)
	points := make([]ResponsePoint, 0, len(speeds))
	for _, speed := range slices.Compact(speeds) {
		p := ResponsePoint{RPM: speed * 60, Peak: s.vibration(ends[0], speed, retuned{}).peak}
		p.Low, p.High = p.Peak, p.Peak
		for _, e := range ends[1:] {
			x := s.vibration(e, speed, retuned{}).peak
			p.Low, p.High = math.Min(p.Low, x), math.Max(p.High, x)
		}
		points = append(points, p)
	}
	return points
}
