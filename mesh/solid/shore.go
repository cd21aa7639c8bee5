package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// shores asks for grid planes where a fillet runs out flat on its plane beside
// another face: between the two only a narrow strip of the plane shows.
func (p *program) shores(coarse, near float64) []request {
	var all []request
	for _, c := range p.leaves {
		f, ok := c.leaf.(*fillet)
		if !ok {
			continue
		}
		counts := math.Sqrt(2 * f.ball * near) // so far the fillet counts as the plane
		line := f.outline()
		deep := r3.Vec{Z: -f.s}
		for i, at := range line {
			before, after := line[(i+len(line)-1)%len(line)], line[(i+1)%len(line)]
			least := coarse / 3
			for _, o := range p.beside(c, at, coarse) {
				v := math.Abs(p.lateral(c, o, at, deep))
				s := max(0.1, counts/2, cellsPerWall*v)
				turn := math.Abs(p.lateral(c, o, before, deep) - p.lateral(c, o, after, deep))
				if s < least && turn < crossed*(length(r3.Sub(at, before))+length(r3.Sub(after, at))) {
					least = s
				}
			}
			if least == coarse/3 || !p.exposed(c, at) {
				continue
			}
			b, pad := r3.Box{Min: at, Max: at}, r3.Vec{X: least, Y: least}
			for _, y := range []r3.Vec{before, after} {
				y = r3.Scale(0.5, r3.Add(at, y))
				b.Min = r3.Vec{X: min(b.Min.X, y.X), Y: min(b.Min.Y, y.Y), Z: at.Z}
				b.Max = r3.Vec{X: max(b.Max.X, y.X), Y: max(b.Max.Y, y.Y), Z: at.Z}
			}
			b = r3.Box{Min: r3.Sub(b.Min, pad), Max: r3.Add(b.Max, pad)}
			all = append(all, c.frame.request(request{b, r3.Vec{X: least, Y: least, Z: math.Inf(1)}}))
		}
	}
	return all
}

// spurs asks for grid planes where a corner of an extrusion comes close to
// another face.
func (p *program) spurs(coarse float64) []request {
	widest := min(coarse/3, 0.25)
	var all []request
	for _, c := range p.leaves {
		e, ok := c.leaf.(*extrusion)
		if !ok {
			continue
		}
		for _, g := range e.edges {
			if g.b == smooth {
				continue
			}
			for _, share := range []float64{0.1, 0.5, 0.9} {
				at := r3.Vec{X: g.bx, Y: g.by, Z: share * e.h}
				least := widest
				for _, o := range p.beside(c, at, widest/cellsPerWidth) {
					v, _ := o.leaf.value(o.local(c.frame.pose.Apply(at)))
					w, _ := o.leaf.value(o.local(c.frame.pose.Apply(r3.Vec{X: at.X, Y: at.Y, Z: at.Z + 0.05*e.h})))
					if math.Abs(v) > finest && math.Abs(v-w) < 0.1*math.Abs(v) { // across, not along
						least = min(least, max(0.1, cellsPerWidth*math.Abs(v)))
					}
				}
				if least == widest || !p.exposed(c, at) {
					continue
				}
				pad := r3.Vec{X: 2 * least, Y: 2 * least}
				all = append(all, c.frame.request(request{r3.Box{Min: r3.Sub(at, pad), Max: r3.Add(at, pad)}, r3.Vec{X: least, Y: least, Z: math.Inf(1)}}))
			}
		}
	}
	return all
}

// beside returns the leaves but c whose boxes come within reach of a point in
// c's axes.
func (p *program) beside(c *code, at r3.Vec, reach float64) []*code {
	var all []*code
	x := c.frame.pose.Apply(at)
	around := block{x, r3.Vec{X: reach, Y: reach, Z: reach}, reach}
	for _, o := range p.leaves {
		if o != c && !around.misses(&o.frame.box) {
			all = append(all, o)
		}
	}
	return all
}

// exposed reports whether a point in a leaf's axes lies on the part's surface.
func (p *program) exposed(c *code, at r3.Vec) bool {
	v, _ := p.root.eval(c.frame.pose.Apply(at))
	return math.Abs(v) < 1e-6
}

// lateral returns the value of leaf o at a point in c's axes; where o ends in
// the plane there, that of its wall a little deeper, or infinity where a depth
// or an end rules there too.
func (p *program) lateral(c, o *code, at, deep r3.Vec) float64 {
	value := func(depth float64) float64 {
		v, _ := o.leaf.value(o.local(c.frame.pose.Apply(r3.Add(at, r3.Scale(depth, deep)))))
		return v
	}
	if v := value(0); math.Abs(v) > finest {
		return v
	}
	v := value(0.6)
	if w := value(0.9); math.Abs(v-w) > 0.05*math.Abs(v) || math.Abs(v) < finest {
		return math.Inf(1)
	}
	return v
}

// crossed is the sine of the angle from which on two lines show their crossing.
const crossed = 0.7
