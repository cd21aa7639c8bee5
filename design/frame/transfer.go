package frame

import "math"

// Transfer is the way from a force on one node to the vibration of another by superposition of modes, rigid motions included: what
// Response.Forced sums, laid out once for many frequencies. It is never changed after System.Transfer.
type Transfer struct {
	from  [][3]float64 // movement of each mode where the force acts
	to    [][6]float64 // movement and rotation of each mode where it is felt
	rigid [6][3]float64
}

// Transfer lays out the way between two nodes for modes of the system.
func (s *System) Transfer(modes []Mode, from, to int) Transfer {
	t := Transfer{from: make([][3]float64, len(modes)), to: make([][6]float64, len(modes))}
	for i := range modes {
		move := modes[i].Nodes[from].Move
		t.from[i], t.to[i] = [3]float64{move.X, move.Y, move.Z}, modes[i].Nodes[to].vector()
	}
	for i := range s.rigid {
		move, felt := s.at(s.rigid[i].shape, from).Move, s.at(s.rigid[i].shape, to).vector()
		for r := range 6 {
			for c, x := range [3]float64{move.X, move.Y, move.Z} {
				t.rigid[r][c] += felt[r] * x
			}
		}
	}
	return t
}

// Receptances are the movements of the modal coordinates per modal force at one frequency.
type Receptances struct {
	modes []complex128
	rigid float64
}

// Set computes the receptances of modes with a damping ratio each, in (0, 1), at a frequency in Hz above 0. The modes may be retuned.
func (r *Receptances) Set(modes []Mode, damping []float64, frequency float64) {
	omega := 2 * math.Pi * frequency
	r.modes = r.modes[:0]
	for i := range modes {
		r.modes = append(r.modes, receptance(modes[i].omega2, damping[i], omega))
	}
	r.rigid = -1 / (omega * omega)
}

// Retune sets one mode alone to a frequency of its own in Hz, at the frequency of the excitation in Hz.
func (r *Receptances) Retune(mode int, own, damping, frequency float64) {
	omega := 2 * math.Pi * own
	r.modes[mode] = receptance(omega*omega, damping, 2*math.Pi*frequency)
}

// Forced returns the vibration under a force of complex amplitude in N.
func (t *Transfer) Forced(r *Receptances, force [3]complex128) (out Vibration) {
	for i, receptance := range r.modes {
		f, d := &t.from[i], &t.to[i]
		q := complex(
			f[0]*real(force[0])+f[1]*real(force[1])+f[2]*real(force[2]),
			f[0]*imag(force[0])+f[1]*imag(force[1])+f[2]*imag(force[2]),
		) * receptance
		re, im := real(q), imag(q)
		for c := range 3 {
			out.Move[c] += complex(re*d[c], im*d[c])
			out.Turn[c] += complex(re*d[3+c], im*d[3+c])
		}
	}
	for c := range 3 {
		move, turn := &t.rigid[c], &t.rigid[3+c]
		for k, f := range force {
			re, im := r.rigid*real(f), r.rigid*imag(f)
			out.Move[c] += complex(re*move[k], im*move[k])
			out.Turn[c] += complex(re*turn[k], im*turn[k])
		}
	}
	return out
}
