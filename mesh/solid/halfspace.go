package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// HalfSpace is everything behind the plane through a point that looks in the
// outward direction. It is for cutting: alone it has no end.
func HalfSpace(point, outward r3.Vec) Node {
	if !finite(point.X, point.Y, point.Z, outward.X, outward.Y, outward.Z) || r3.Norm(outward) == 0 {
		return invalid("half-space through (%g, %g, %g) looking to (%g, %g, %g); use finite numbers and a direction of some length",
			point.X, point.Y, point.Z, outward.X, outward.Y, outward.Z)
	}
	n := r3.Unit(outward)
	return newLeaf(halfSpace{plane{n, r3.Dot(n, point)}})
}

type halfSpace struct{ p plane }

func (h halfSpace) value(p r3.Vec) (float64, int) { return r3.Dot(h.p.n, p) - h.p.d, 0 }
func (h halfSpace) faces() []face                 { return []face{{surface: h.p, part: "plane"}} }
func (h halfSpace) requests() []request           { return nil }

func (h halfSpace) box() r3.Box {
	i := math.Inf(1)
	return r3.Box{Min: r3.Vec{X: -i, Y: -i, Z: -i}, Max: r3.Vec{X: i, Y: i, Z: i}}
}
