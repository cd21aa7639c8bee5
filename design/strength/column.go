package strength

import (
	"fmt"
	"math"
)

// Euler returns the buckling force in N of a column, π² E I/(K L)², for a modulus
// in Pa, a second moment of area in m⁴, a length in m and an effective-length
// factor: 2 fixed at the foot and free at the top, 1 pinned at both ends.
// Source: Euler; Timoshenko & Gere, Theory of Elastic Stability.
func Euler(E, I, L, K float64) float64 { return math.Pi * math.Pi * E * I / (K * K * L * L) }

// Amplification returns by how much a compression P in N enlarges bending,
// 1/(1 - P/P_cr); a pull enlarges nothing and gives 1. It is an error at or above
// the buckling force. Source: Timoshenko & Gere, Theory of Elastic Stability.
func Amplification(P, critical float64) (float64, error) {
	if P <= 0 {
		return 1, nil
	}
	if P >= critical {
		return 0, fmt.Errorf("compression %.3g N reaches the buckling force %.3g N; shorten or thicken the member", P, critical)
	}
	return 1 / (1 - P/critical), nil
}
