package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// grid is a lattice of planes across the axes, closer where faces ask for
// it. Cells are numbered along each axis from 0; n is the count of planes,
// one more than a multiple of a brick's cells.
type grid struct {
	at [3][]float64
}

const (
	brickBits    = 2
	brickCells   = 1 << brickBits // along a side
	brickCorners = brickCells + 1
	brickVolume  = brickCells * brickCells * brickCells

	bins       = 4096 // resolution of the spacing along an axis
	finest     = 0.01 // mm
	mostPlanes = 6000 // along an axis
	// offset keeps the planes off round numbers, where faces like to lie.
	offset = 0.3819660112501051
)

// newGrid lays planes through a box with a margin, nowhere wider than coarse
// and within each request no wider than it asks. It returns false where that
// takes too many planes or too fine a spacing, with the request that does.
func newGrid(box r3.Box, coarse float64, asked []request) (*grid, *request) {
	g := &grid{}
	lo, hi := components(box.Min), components(box.Max)
	for a := range 3 {
		margin := 1.5 * min(coarse, hi[a]-lo[a])
		from, to := lo[a]-margin, hi[a]+margin
		step := (to - from) / bins
		want := make([]float64, bins)
		for i := range want {
			want[i] = coarse
		}
		for i, r := range asked {
			s := components(r.size)[a]
			if s >= coarse {
				continue
			}
			if s < finest/4 || s < (to-from)/mostPlanes/2 {
				return nil, &asked[i]
			}
			b0, b1 := components(r.box.Min)[a], components(r.box.Max)[a]
			if !(b1 >= from && b0 <= to) {
				continue
			}
			first := max(0, int(math.Floor((b0-from)/step)))
			last := min(bins-1, int(math.Floor((b1-from)/step)))
			for k := first; k <= last; k++ {
				want[k] = min(want[k], s)
			}
		}
		// Planes stand where the running count of spacings passes k + offset.
		count, next := 0.0, offset
		planes := []float64{from}
		for k, w := range want {
			d := step / w
			for next <= count+d {
				planes = append(planes, from+step*(float64(k)+(next-count)/d))
				next++
			}
			count += d
		}
		planes = append(planes, to)
		for (len(planes)-1)%brickCells != 0 {
			planes = append(planes, planes[len(planes)-1]+min(coarse, hi[a]-lo[a]))
		}
		if len(planes) > mostPlanes {
			worst := 0
			for i, r := range asked {
				if components(r.size)[a] < components(asked[worst].size)[a] {
					worst = i
				}
			}
			return nil, &asked[worst]
		}
		g.at[a] = planes
	}
	return g, nil
}

func components(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

// length is that of a vector far from the ends of the range of numbers.
func length(v r3.Vec) float64 { return math.Sqrt(r3.Dot(v, v)) }

func vector(c [3]float64) r3.Vec { return r3.Vec{X: c[0], Y: c[1], Z: c[2]} }

// cells returns the number of cells along an axis.
func (g *grid) cells(axis int) int { return len(g.at[axis]) - 1 }

func (g *grid) corner(i [3]int) r3.Vec {
	return r3.Vec{X: g.at[0][i[0]], Y: g.at[1][i[1]], Z: g.at[2][i[2]]}
}

// block returns the space of a block of cells.
func (g *grid) block(i [3]int, size int) block {
	var far [3]int
	for a := range far {
		far[a] = min(i[a]+size, g.cells(a))
	}
	return newBlock(g.corner(i), g.corner(far))
}
