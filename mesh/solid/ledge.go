package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ledges asks for grid planes in the rings between round bars about the same
// axis, as the seat of a counterbore.
func (p *program) ledges(coarse float64) []request {
	var all []request
	var rounds []bar
	for _, b := range p.bars {
		if b.round() && aligned(b.pose) {
			rounds = append(rounds, b)
		}
	}
	for i, one := range rounds {
		for _, two := range rounds[:i] {
			a, b := one.frame.box, two.frame.box
			thinnest := finest / 4 // of a step; a thinner wall is an error
			if one.cuts != two.cuts {
				thinnest = cellsPerWidth * finest / 2
			}
			box, ok := common(a, b, finest)
			if !ok {
				continue
			}
			for axis := range 3 {
				lo, hi := components(a.Min)[axis]-components(b.Min)[axis], components(a.Max)[axis]-components(b.Max)[axis]
				size := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
				size[axis] = cellsPerWidth * math.Abs(hi)
				if math.Abs(lo+hi) > 1e-6 || size[axis] < thinnest || size[axis] > coarse {
					continue
				}
				for _, ends := range [2][2]r3.Vec{{a.Min, b.Min}, {a.Max, b.Max}} {
					u, v := components(ends[0])[axis], components(ends[1])[axis]
					from, to := components(box.Min), components(box.Max)
					from[axis], to[axis] = min(u, v), max(u, v)
					all = append(all, request{r3.Box{Min: vector(from), Max: vector(to)}, vector(size)})
				}
			}
		}
	}
	return all
}

// walls asks for grid planes in the walls between two bars about the same
// axis, as a tube's: where a wall is round it shows along neither axis.
func (p *program) walls(coarse float64) []request {
	var all []request
	none := math.Inf(1)
	for _, a := range p.bars {
		for _, b := range p.bars {
			foot := toLocal(a.pose, b.pose.At)
			if math.Hypot(foot.X, foot.Y) > 1e-6 || r3.Dot(a.pose.Z, b.pose.Z) < 1-1e-9 || math.Abs(r3.Dot(a.pose.X, b.pose.X)) < 1-1e-9 {
				continue
			}
			lo, hi := max(0, foot.Z), min(a.h, foot.Z+b.h)
			slope := max(math.Abs(a.dx+a.dr-b.dx-b.dr), math.Abs(a.dy+a.dr-b.dy-b.dr))
			if lo >= hi || slope > 0.1 {
				continue
			}
			// From where b's corner turns away to a's side, and the spacing.
			ask := func(ax, adx, bx, bdx float64) (from, to, size float64) {
				from, size = none, none
				for _, z := range []float64{lo, hi} {
					rim := b.r + b.dr*(z-foot.Z)
					out, in := ax+adx*z+a.r+a.dr*z, bx+bdx*(z-foot.Z)+rim
					from, to, size = min(from, in-0.65*rim), max(to, out), min(size, cellsPerWall*(out-in))
				}
				return from, to, size
			}
			x0, x1, x := ask(a.x, a.dx, b.x, b.dx)
			y0, y1, y := ask(a.y, a.dy, b.y, b.dy)
			if x < finest || y < finest || min(x, y) > coarse {
				continue
			}
			for _, sign := range []float64{-1, 1} {
				all = append(all,
					a.request(request{r3.NewBox(sign*x0, -y1, lo, sign*x1, y1, hi), r3.Vec{X: x, Y: none, Z: none}}),
					a.request(request{r3.NewBox(-x1, sign*y0, lo, x1, sign*y1, hi), r3.Vec{X: none, Y: y, Z: none}}))
			}
		}
	}
	return all
}
