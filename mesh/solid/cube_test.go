package solid

import (
	"math/rand/v2"
	"testing"
)

// TestRandomSigns joins the loops of all cells over fields of random signs,
// 40 corners a side: every side of a quad must belong to exactly two quads
// that run along it in opposite directions.
func TestRandomSigns(t *testing.T) {
	const n = 40
	r := rand.New(rand.NewPCG(5, 6))
	for range 3 {
		var inside [n][n][n]bool
		for x := 1; x < n-1; x++ {
			for y := 1; y < n-1; y++ {
				for z := 1; z < n-1; z++ {
					inside[x][y][z] = r.IntN(2) == 0
				}
			}
		}
		// On the face between two cells a loop steps from one crossing to the
		// next; the neighbour's loop must take the same step backwards.
		type step struct{ from, to [4]int } // grid edges: corner and axis
		steps := map[step]int{}
		for x := range n - 1 {
			for y := range n - 1 {
				for z := range n - 1 {
					config := 0
					for c := range 8 {
						if inside[x+c&1][y+c>>1&1][z+c>>2] {
							config |= 1 << c
						}
					}
					edge := func(e int8) [4]int {
						axis := int(e) / 4
						at := [3]int{x, y, z}
						at[(axis+1)%3] += int(e) & 1
						at[(axis+2)%3] += int(e) >> 1 & 1
						return [4]int{at[0], at[1], at[2], axis}
					}
					for _, l := range cubeLoops[config] {
						for i := range l {
							steps[step{edge(l[i]), edge(l[(i+1)%len(l)])}]++
						}
					}
				}
			}
		}
		bad := 0
		for s, count := range steps {
			if count != 1 || steps[step{s.to, s.from}] != 1 {
				bad++
			}
		}
		if bad > 0 || len(steps) < 100000 {
			t.Errorf("%d of %d steps without their counterpart", bad, len(steps))
		}
	}
}
