package strength

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// Compliance of the contact between mast top and ground in m/N, for Vehicle.Contact:
// a judgement within a factor of three.
const (
	Hard = 1e-5 // hard ground: what receiver case, tray and tape give
	Turf = 4e-5
)

// Vehicle is the whole aircraft with its mast, as a rigid body on an elastic mast.
type Vehicle struct {
	Mass            float64       // kg
	CentreOfGravity [3]float64    // m
	Inertia         [3][3]float64 // about the centre of gravity, products negative as in a tensor, kg·m²
	ArmEnds         [][3]float64  // points the aircraft turns about when it tips over, m, in any order
	Top             [3]float64    // point of the mast that strikes, m
	MastAxis        [3]float64    // along the mast, upwards; zero means z
	Compliance      [3][3]float64 // of the mast top: mast, foot and frame plate together, m/N
	Contact         float64       // compliance of the ground, m/N; 0 means Turf, the ground the limits are for
}

// Check returns every problem of v.
func (v Vehicle) Check() error {
	var problems []error
	numbers := append([]float64{v.Mass, v.Contact}, v.CentreOfGravity[:]...)
	numbers = append(append(numbers, v.Top[:]...), v.MastAxis[:]...)
	for i := range 3 {
		numbers = append(append(numbers, v.Inertia[i][:]...), v.Compliance[i][:]...)
	}
	for _, end := range v.ArmEnds {
		numbers = append(numbers, end[:]...)
	}
	for _, x := range numbers {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return errors.New("vehicle: a figure is not finite; check mass, positions, inertia and compliance")
		}
	}
	if v.Mass <= 0 {
		problems = append(problems, fmt.Errorf("vehicle: mass %g kg; give one above zero", v.Mass))
	}
	if v.Contact < 0 {
		problems = append(problems, fmt.Errorf("vehicle: contact compliance %g m/N; give one above zero", v.Contact))
	}
	if _, err := solve(v.Inertia, [3]float64{}); err != nil {
		problems = append(problems, fmt.Errorf("vehicle: %w", err))
	}
	return errors.Join(problems...)
}

// Along returns the compliance in m/N of mast and ground together against a blow
// along a unit direction, nᵀ C n + contact.
func (v Vehicle) Along(direction [3]float64) float64 {
	contact := v.Contact
	if contact == 0 {
		contact = Turf
	}
	return dot(direction, apply(v.Compliance, direction)) + contact
}

// EffectiveMass returns the mass in kg that a free aircraft puts behind a blow on
// the mast top along a unit direction n,
//
//	1/m_e = 1/M + (r×n)ᵀ I⁻¹ (r×n), r from the centre of gravity to the mast top.
//
// Source: rigid-body impact, e.g. Goldsmith, Impact. The inertia must be positive
// definite, as Check sees to.
func (v Vehicle) EffectiveMass(direction [3]float64) (float64, error) {
	turn := cross(along(v.Top, -1, v.CentreOfGravity), direction)
	rate, err := solve(v.Inertia, turn)
	if err != nil {
		return 0, fmt.Errorf("vehicle: %w", err)
	}
	return 1 / (1/v.Mass + dot(turn, rate)), nil
}

func (v Vehicle) axis() [3]float64 {
	if v.MastAxis == ([3]float64{}) {
		return [3]float64{0, 0, 1}
	}
	return unit(v.MastAxis)
}

// rim returns the indices of the arm ends on the outline seen from above,
// counter-clockwise, by the monotone chain.
func (v Vehicle) rim() []int {
	order := make([]int, len(v.ArmEnds))
	for i := range order {
		order[i] = i
	}
	at := func(i int) (x, y float64) { return v.ArmEnds[i][0], v.ArmEnds[i][1] }
	sort.SliceStable(order, func(a, b int) bool {
		xa, ya := at(order[a])
		xb, yb := at(order[b])
		return xa < xb || xa == xb && ya < yb
	})
	left := func(a, b, c int) bool {
		xa, ya := at(a)
		xb, yb := at(b)
		xc, yc := at(c)
		return (xb-xa)*(yc-ya)-(yb-ya)*(xc-xa) > 0
	}
	chain := func(order []int) []int {
		var hull []int
		for _, i := range order {
			for len(hull) > 1 && !left(hull[len(hull)-2], hull[len(hull)-1], i) {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, i)
		}
		return hull[:max(0, len(hull)-1)]
	}
	lower := chain(order)
	for i, j := 0, len(order)-1; i < j; i, j = i+1, j-1 {
		order[i], order[j] = order[j], order[i]
	}
	return append(lower, chain(order)...)
}
