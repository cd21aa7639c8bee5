package frame

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// rigidShape is a motion without strain of the whole model, of unit modal mass.
type rigidShape struct{ shape, mass []float64 } // mass is M × shape

// findRigid finds the motions that no support and no spring to ground resists, and picks the
// freedoms to hold so that the stiffness can be factored.
func (s *System) findRigid() error {
	for _, p := range s.places {
		s.size = math.Max(s.size, r3.Norm(r3.Sub(p, s.places[0])))
	}
	if s.size == 0 {
		s.size = 1
	}
	for _, sup := range s.model.Supports {
		if sup.Fixed == ([6]bool{true, true, true, true, true, true}) {
			return nil
		}
	}
	unit := [6]float64{1, 1, 1, 1 / s.size, 1 / s.size, 1 / s.size} // columns of like size
	resist := mat.NewSymDense(6, nil)
	for _, sup := range s.model.Supports {
		for d, fixed := range sup.Fixed {
			if !fixed {
				continue
			}
			var row [6]float64
			for r := range 6 {
				row[r] = s.rigidMotion(sup.Node, unitMotion(r))[d] * unit[r]
				if d >= 3 {
					row[r] *= s.size
				}
			}
			for r := range 6 {
				for c := r; c < 6; c++ {
					resist.SetSym(r, c, resist.At(r, c)+row[r]*row[c])
				}
			}
		}
	}
	for i := range s.model.Springs {
		sp := &s.model.Springs[i]
		if sp.B != Ground {
			continue
		}
		var e [6][6]float64
		var scale float64
		for a := range 6 {
			for b := range 6 {
				va, vb := s.rigidMotion(sp.A, unitMotion(a)), s.rigidMotion(sp.A, unitMotion(b))
				for r := range 6 {
					for c := range 6 {
						e[a][b] += va[r] * sp.K[r][c] * vb[c] * unit[a] * unit[b]
					}
				}
			}
			scale = math.Max(scale, e[a][a])
		}
		if scale == 0 {
			continue
		}
		for a := range 6 {
			for b := a; b < 6; b++ {
				resist.SetSym(a, b, resist.At(a, b)+e[a][b]/scale)
			}
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(resist, true) {
		return errors.New("rigid motions of the model cannot be separated")
	}
	var vectors mat.Dense
	eig.VectorsTo(&vectors)
	values := eig.Values(nil)
	n := len(s.k.first)
	for j := range 6 {
		if values[j] > 1e-11*math.Max(values[5], 1) {
			break
		}
		shape := make([]float64, n)
		for p := range s.places {
			for d := range 6 {
				f := vectors.At(d, j) * unit[d]
				if f == 0 {
					continue
				}
				v := s.rigidMotion(p, unitMotion(d))
				for c, eq := range s.eq[p] {
					if eq >= 0 {
						shape[eq] += f * v[c]
					}
				}
			}
		}
		s.rigid = append(s.rigid, rigidShape{shape: shape})
	}
	if len(s.rigid) == 0 {
		return nil
	}
	s.hold()
	for j := range s.rigid {
		r := &s.rigid[j]
		r.mass = make([]float64, n)
		for range 2 { // twice, for rounding
			for _, o := range s.rigid[:j] {
				axpy(r.shape, -dot(o.mass, r.shape), o.shape)
			}
		}
		s.m.times(r.mass, r.shape)
		norm := math.Sqrt(dot(r.mass, r.shape))
		if !(norm > 0) {
			return errors.New("model is free to move but has no mass there; support it or give it mass")
		}
		scale(r.shape, 1/norm)
		scale(r.mass, 1/norm)
	}
	return nil
}

// hold picks as many freedoms as there are rigid motions so that holding them stops every one:
// Gaussian elimination with full pivoting.
func (s *System) hold() {
	n := len(s.k.first)
	s.held = make([]bool, n)
	work := make([][]float64, len(s.rigid))
	for j, r := range s.rigid {
		work[j] = append([]float64(nil), r.shape...)
	}
	weight := make([]float64, n) // rotations count by the model's size
	for p := range s.eq {
		for d, eq := range s.eq[p] {
			if eq >= 0 {
				weight[eq] = 1
				if d >= 3 {
					weight[eq] = s.size
				}
			}
		}
	}
	for j := range work {
		best, row, col := 0.0, j, 0
		for r := j; r < len(work); r++ {
			for c, v := range work[r] {
				if a := math.Abs(v) * weight[c]; a > best*(1+1e-9) {
					best, row, col = a, r, c
				}
			}
		}
		work[j], work[row] = work[row], work[j]
		s.held[col] = true
		for r := j + 1; r < len(work); r++ {
			axpy(work[r], -work[r][col]/work[j][col], work[j])
		}
	}
}

// unitMotion is a unit movement along, or turn about, an axis through the origin.
func unitMotion(d int) (motion [6]float64) {
	motion[d] = 1
	return motion
}
