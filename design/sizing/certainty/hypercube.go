package certainty

import "math/rand/v2"

// Hypercube returns n points of the unit cube of so many dimensions, one row a point, such that each n-th of each dimension holds
// exactly one: a Latin hypercube, each point anywhere in its cell. The same seed gives the same points.
func Hypercube(n, dimensions int, seed uint64) [][]float64 {
	random := rand.New(rand.NewPCG(seed, 0))
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, dimensions)
	}
	for d := range dimensions {
		for i, stratum := range random.Perm(n) {
			points[i][d] = (float64(stratum) + random.Float64()) / float64(n)
		}
	}
	return points
}
