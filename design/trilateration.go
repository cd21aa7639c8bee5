package design

import (
	"math"

	"mastwright/design/units"
)

// missingBar finds two holes whose distance would take a freedom from a pattern that its known distances leave loose. Holes in
// general position decide: the distances are bars between pins, and the frame is rigid when its rigidity matrix has the rank
// 2n-3 (Laman, Journal of Engineering Mathematics 4, 1970; from memory).
func missingBar(n int, known []numbered) (a, b int, loose bool) {
	pins := make([][2]float64, n)
	for i := range pins {
		t := float64(i + 1)
		pins[i] = [2]float64{math.Sin(12.9898*t*t + t), math.Cos(78.233*t + t*t*t)} // no two in line
	}
	rank := rankOf(pins, known)
	if rank >= 2*n-3 {
		return 0, 0, false
	}
	for b := 1; b < n; b++ {
		for a := range b {
			if rankOf(pins, append(known[:len(known):len(known)], numbered{a, b, 0})) > rank {
				return a, b, true
			}
		}
	}
	return 0, 1, true
}

// rankOf is the rank of the rigidity matrix of bars between pins.
func rankOf(pins [][2]float64, bars []numbered) int {
	var matrix [][]float64
	for _, k := range bars {
		row := make([]float64, 2*len(pins))
		for axis := range 2 {
			slope := pins[k.a][axis] - pins[k.b][axis]
			row[2*k.a+axis], row[2*k.b+axis] = slope, -slope
		}
		matrix = append(matrix, row)
	}
	rank := 0
	for column := 0; column < 2*len(pins) && rank < len(matrix); column++ {
		pivot := rank
		for i := rank; i < len(matrix); i++ {
			if math.Abs(matrix[i][column]) > math.Abs(matrix[pivot][column]) {
				pivot = i
			}
		}
		if math.Abs(matrix[pivot][column]) < 1e-9 {
			continue
		}
		matrix[rank], matrix[pivot] = matrix[pivot], matrix[rank]
		for i := rank + 1; i < len(matrix); i++ {
			factor := matrix[i][column] / matrix[rank][column]
			for j := column; j < 2*len(pins); j++ {
				matrix[i][j] -= factor * matrix[rank][j]
			}
		}
		rank++
	}
	return rank
}

// fitPattern places n holes so that the squares of the misfits of the known distances sum to the least, numbered
// counter-clockwise, hole 2 forward of hole 1, the mean of the holes at the origin.
func fitPattern(n int, known []numbered) []Spot {
	mean := 0.0
	for _, k := range known {
		mean += k.length / float64(len(known))
	}
	var best []float64
	least := math.Inf(1)
	for _, stretch := range []float64{1, 0.5, 2, 0.25, 4} {
		p := make([]float64, 2*n)
		for i := range n { // a ring numbered counter-clockwise
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
			p[2*i], p[2*i+1] = 0.6*mean*cos*stretch, 0.6*mean*sin
		}
		if misfit := descend(p, known); misfit < least*(1-1e-9) {
			best, least = p, misfit
		}
	}
	return upright(best)
}

// descend moves the holes to a least sum of squared misfits, by Gauss-Newton steps damped after Levenberg and Marquardt, and
// returns that sum.
func descend(p []float64, known []numbered) float64 {
	damping := 1e-3
	misfit := sumOfSquares(p, known)
	for range 300 {
		normal := make([][]float64, len(p))
		for i := range normal {
			normal[i] = make([]float64, len(p)+1)
			normal[i][i] = damping
		}
		for _, k := range known {
			dx, dy := p[2*k.a]-p[2*k.b], p[2*k.a+1]-p[2*k.b+1]
			d := max(math.Hypot(dx, dy), 1e-9)
			at := [4]int{2 * k.a, 2*k.a + 1, 2 * k.b, 2*k.b + 1}
			slope := [4]float64{dx / d, dy / d, -dx / d, -dy / d}
			for i := range 4 {
				for j := range 4 {
					normal[at[i]][at[j]] += slope[i] * slope[j]
				}
				normal[at[i]][len(p)] -= slope[i] * (d - k.length)
			}
		}
		step := solve(normal)
		next := make([]float64, len(p))
		for i := range p {
			next[i] = p[i] + step[i]
		}
		after := sumOfSquares(next, known)
		if after > misfit {
			if damping *= 8; damping > 1e9 {
				break
			}
			continue
		}
		copy(p, next)
		damping = max(damping/8, 1e-9)
		if misfit-after < 1e-18 {
			return after
		}
		misfit = after
	}
	return misfit
}

func sumOfSquares(p []float64, known []numbered) float64 {
	sum := 0.0
	for _, k := range known {
		misfit := math.Hypot(p[2*k.a]-p[2*k.b], p[2*k.a+1]-p[2*k.b+1]) - k.length
		sum += misfit * misfit
	}
	return sum
}

// solve finds the solution of a positive definite system given with its right-hand side as last column, which it overwrites.
func solve(m [][]float64) []float64 {
	n := len(m)
	for c := range n {
		for i := c + 1; i < n; i++ {
			factor := m[i][c] / m[c][c]
			for j := c; j <= n; j++ {
				m[i][j] -= factor * m[c][j]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = m[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= m[i][j] * x[j]
		}
		x[i] /= m[i][i]
	}
	return x
}

// upright centres a pattern, turns the way from its first to its second hole forward and mirrors it when it is numbered
// clockwise.
func upright(p []float64) []Spot {
	n := len(p) / 2
	var mx, my, area float64
	for i := range n {
		j := (i + 1) % n
		mx, my = mx+p[2*i]/float64(n), my+p[2*i+1]/float64(n)
		area += p[2*i]*p[2*j+1] - p[2*j]*p[2*i+1]
	}
	dx, dy := p[2]-p[0], p[3]-p[1]
	d := math.Hypot(dx, dy)
	mirror := 1.0
	if area < 0 {
		mirror = -1
	}
	spots := make([]Spot, n)
	for i := range spots {
		x, y := p[2*i]-mx, p[2*i+1]-my
		spots[i] = Spot{units.Length((x*dx + y*dy) / d), units.Length(mirror * (y*dx - x*dy) / d)}
	}
	return spots
}
