package parts

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/solid"
)

// bored is a body less a round hole of a diameter about its middle, so long along an axis; the plastic around it is solid.
func bored(b Body, middle, axis r3.Vec, diameter, long float64) Body {
	v := math.Pi / 4 * diameter * diameter * long
	about := v * (long*long/12 + diameter*diameter/16)
	bar := mesh.Tensor{XX: about, YY: about, ZZ: v * diameter * diameter / 8}
	return together(b, Body{Volume: -v, Plastic: -v, Centre: middle, Inertia: scaledTensor(turnedTensor(bar, pointing(axis)), -1)})
}

// block is the body of a box about its middle.
func block(middle, size r3.Vec) Body {
	v := size.X * size.Y * size.Z
	x, y, z := size.X*size.X, size.Y*size.Y, size.Z*size.Z
	return Body{Volume: v, Plastic: v, Centre: middle, Inertia: mesh.Tensor{XX: v * (y + z) / 12, YY: v * (z + x) / 12, ZZ: v * (x + y) / 12}}
}

func scaledTensor(t mesh.Tensor, by float64) mesh.Tensor {
	return mesh.Tensor{XX: t.XX * by, YY: t.YY * by, ZZ: t.ZZ * by, XY: t.XY * by, YZ: t.YZ * by, ZX: t.ZX * by}
}

// pointing turns z into a direction.
func pointing(axis r3.Vec) mesh.Pose {
	z := r3.Unit(axis)
	x := r3.Vec{X: 1}
	if math.Abs(z.X) > 0.9 {
		x = r3.Vec{Y: 1}
	}
	x = r3.Unit(r3.Sub(x, r3.Scale(r3.Dot(x, z), z)))
	return mesh.Pose{X: x, Y: r3.Cross(z, x), Z: z}
}

// hole is the cutter of a round hole about its middle, so long along an axis.
func hole(name string, middle, axis r3.Vec, diameter, long float64) solid.Node {
	p := pointing(axis)
	p.At = r3.Sub(middle, r3.Scale(long/2, p.Z))
	return solid.Named(name, solid.Place(solid.Cylinder(diameter/2, long), p))
}
