package strength

import "math"

// Section is a member's cross-section in its principal axes y and z.
type Section struct {
	Area    float64 // m²
	Iy, Iz  float64 // second moments of area about y and about z, m⁴
	Y, Z    float64 // distance of the outermost fibre from the centroid along y and along z, m
	Torsion float64 // torsion modulus W_t in τ = T/W_t, m³; 0 leaves torsion out
	Round   bool    // the outside is a circle: the fibre at (Y, Z) does not exist
}

// Resultants are what one end of a member does to a section: axial force N in N,
// pull positive; bending moments My and Mz about the section's axes and torque T in N·m.
// Shear forces are left out: they are small in slender members and zero at the outer fibre.
type Resultants struct{ N, My, Mz, T float64 }

func (r Resultants) plus(k float64, o Resultants) Resultants {
	return Resultants{r.N + k*o.N, r.My + k*o.My, r.Mz + k*o.Mz, r.T + k*o.T}
}

// Bending returns the largest bending stress in Pa: the outer corner's,
// |My| Z/Iy + |Mz| Y/Iz, or the outer circle's when the section is round.
func (s Section) Bending(r Resultants) float64 {
	y, z := quotient(r.My*s.Z, s.Iy), quotient(r.Mz*s.Y, s.Iz)
	if s.Round {
		return math.Hypot(y, z)
	}
	return math.Abs(y) + math.Abs(z)
}

// Stress returns the largest equivalent stress in Pa: axial and biaxial bending
// added at the worst fibre, with torsion by von Mises, times the stress
// concentration kt (0 means 1).
//
//	σ_v = Kt √((|N|/A + σ_b)² + 3 τ²)
//
// Source: von Mises' criterion for one normal and one shear stress, any strength
// of materials textbook. Kt of the notch in bending is applied to all of it, which
// is on the safe side for torsion.
func (s Section) Stress(r Resultants, kt float64) float64 {
	if kt == 0 {
		kt = 1
	}
	normal := math.Abs(quotient(r.N, s.Area)) + s.Bending(r)
	shear := 0.0
	if s.Torsion > 0 {
		shear = r.T / s.Torsion
	}
	return kt * math.Sqrt(normal*normal+3*shear*shear)
}

// quotient is a/b, and 0 for 0/0.
func quotient(a, b float64) float64 {
	if a == 0 {
		return 0
	}
	return a / b
}
