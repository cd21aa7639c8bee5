package frame

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Harmonic is a force in N and a moment in N·m on a node that vary as the real part of amplitude ×
// exp(iωt). A force of size F turning from x to y is Force (F, -iF, 0).
type Harmonic struct {
	Node          int
	Force, Moment [3]complex128
}

// Vibration is a complex amplitude, body axes: of movement in m and rotation in rad, or of their
// time derivatives.
type Vibration struct{ Move, Turn [3]complex128 }

// Derivative returns the amplitude of the n-th time derivative at a frequency in Hz: velocity and
// rate for 1, acceleration for 2.
func (v Vibration) Derivative(n int, frequency float64) Vibration {
	factor := complex(1, 0)
	for range n {
		factor *= complex(0, 2*math.Pi*frequency)
	}
	for d := range 3 {
		v.Move[d] *= factor
		v.Turn[d] *= factor
	}
	return v
}

// Peak returns the greatest length of the movement vector over a cycle: half the major axis of the
// ellipse that the point describes.
func (v Vibration) Peak() float64 { return peak(v.Move) }

// PeakTurn returns the same of the rotation vector.
func (v Vibration) PeakTurn() float64 { return peak(v.Turn) }

// peak: |u|² over time is (|a|² + Re(a·a exp 2iωt))/2 summed over components.
func peak(u [3]complex128) float64 {
	var size float64
	var square complex128
	for _, a := range u {
		size += real(a)*real(a) + imag(a)*imag(a)
		square += a * a
	}
	return math.Sqrt((size + math.Hypot(real(square), imag(square))) / 2)
}

// Response is the forced vibration of a model by superposition of its modes, rigid motions
// included. It is never changed after NewResponse.
type Response struct {
	system  *System
	modes   []Mode
	damping []float64
}

// NewResponse takes modes of the same system and a damping ratio for each.
func NewResponse(s *System, modes []Mode, damping []float64) (*Response, error) {
	if len(modes) != len(damping) {
		panic(fmt.Sprintf("frame: %d modes, %d damping ratios", len(modes), len(damping)))
	}
	for i, z := range damping {
		if !(z > 0 && z < 1) {
			return nil, fmt.Errorf("mode %d (%s): damping ratio %g; use a value between 0 and 1", i, modes[i].Label, z)
		}
	}
	return &Response{system: s, modes: modes, damping: damping}, nil
}

// Forced returns the vibration of a node under harmonic loads at a frequency in Hz, above 0 for a
// model that flies free.
func (r *Response) Forced(frequency float64, loads []Harmonic, node int) Vibration {
	omega := 2 * math.Pi * frequency
	var out Vibration
	for i := range r.modes {
		at := r.modes[i].Nodes
		out.add(modal(loads, func(node int) Displacement { return at[node] })*r.receptance(i, omega), at[node])
	}
	for i := range r.system.rigid {
		at := func(node int) Displacement { return r.system.at(r.system.rigid[i].shape, node) }
		out.add(modal(loads, at)*complex(-1/(omega*omega), 0), at(node))
	}
	return out
}

// Shaken returns the absolute vibration of a node, supports included, while the ground of a standing
// model moves with a complex acceleration: along x, y, z in m/s², about them through the origin in
// rad/s². The frequency in Hz is above 0.
func (r *Response) Shaken(frequency float64, ground [6]complex128, node int) Vibration {
	omega := 2 * math.Pi * frequency
	var out Vibration
	for i := range r.modes {
		var drive complex128
		for d, a := range ground {
			drive -= complex(r.modes[i].excitation[d], 0) * a
		}
		out.add(drive*r.receptance(i, omega), r.modes[i].Nodes[node])
	}
	for d, a := range ground {
		v := r.system.rigidMotion(node, unitMotion(d))
		out.add(a*complex(-1/(omega*omega), 0), Displacement{
			Move: r3.Vec{X: v[0], Y: v[1], Z: v[2]}, Turn: r3.Vec{X: v[3], Y: v[4], Z: v[5]},
		})
	}
	return out
}

// receptance is the movement of a modal coordinate per modal force.
func (r *Response) receptance(mode int, omega float64) complex128 {
	return receptance(r.modes[mode].omega2, r.damping[mode], omega)
}

func receptance(w2, damping, omega float64) complex128 {
	return 1 / complex(w2-omega*omega, 2*damping*math.Sqrt(w2)*omega)
}

// modal is the work of the loads on a shape.
func modal(loads []Harmonic, at func(node int) Displacement) (q complex128) {
	for i := range loads {
		l, d := &loads[i], at(loads[i].Node)
		q += l.Force[0]*complex(d.Move.X, 0) + l.Force[1]*complex(d.Move.Y, 0) + l.Force[2]*complex(d.Move.Z, 0)
		q += l.Moment[0]*complex(d.Turn.X, 0) + l.Moment[1]*complex(d.Turn.Y, 0) + l.Moment[2]*complex(d.Turn.Z, 0)
	}
	return q
}

func (v *Vibration) add(q complex128, d Displacement) {
	v.Move[0] += q * complex(d.Move.X, 0)
	v.Move[1] += q * complex(d.Move.Y, 0)
	v.Move[2] += q * complex(d.Move.Z, 0)
	v.Turn[0] += q * complex(d.Turn.X, 0)
	v.Turn[1] += q * complex(d.Turn.Y, 0)
	v.Turn[2] += q * complex(d.Turn.Z, 0)
}
