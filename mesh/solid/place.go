package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// toLocal returns where a point of the part lies in the axes of a leaf.
func toLocal(p mesh.Pose, v r3.Vec) r3.Vec {
	d := r3.Sub(v, p.At)
	return r3.Vec{X: r3.Dot(p.X, d), Y: r3.Dot(p.Y, d), Z: r3.Dot(p.Z, d)}
}

// direction turns a direction in the axes of a leaf into one of the part.
func direction(p mesh.Pose, v r3.Vec) r3.Vec {
	return r3.Vec{
		X: p.X.X*v.X + p.Y.X*v.Y + p.Z.X*v.Z,
		Y: p.X.Y*v.X + p.Y.Y*v.Y + p.Z.Y*v.Z,
		Z: p.X.Z*v.X + p.Y.Z*v.Y + p.Z.Z*v.Z,
	}
}

// placedBox returns the box around a box in a pose. An endless box stays so.
func placedBox(b r3.Box, p mesh.Pose) r3.Box {
	if math.IsInf(b.Min.X, 0) {
		return b
	}
	c := p.Apply(r3.Scale(0.5, r3.Add(b.Min, b.Max)))
	h := r3.Scale(0.5, r3.Sub(b.Max, b.Min))
	e := r3.Vec{
		X: math.Abs(p.X.X)*h.X + math.Abs(p.Y.X)*h.Y + math.Abs(p.Z.X)*h.Z,
		Y: math.Abs(p.X.Y)*h.X + math.Abs(p.Y.Y)*h.Y + math.Abs(p.Z.Y)*h.Z,
		Z: math.Abs(p.X.Z)*h.X + math.Abs(p.Y.Z)*h.Y + math.Abs(p.Z.Z)*h.Z,
	}
	return r3.Box{Min: r3.Sub(c, e), Max: r3.Add(c, e)}
}

// aligned reports whether a pose keeps its axes along those of the part.
func aligned(p mesh.Pose) bool {
	for _, v := range []r3.Vec{p.X, p.Y, p.Z} {
		if _, c := steepest(v); c < 1-1e-9 {
			return false
		}
	}
	return true
}

func rigid(p mesh.Pose) bool {
	const slack = 1e-9 // rounding of a chain of rotations
	unit := func(v r3.Vec) bool { return math.Abs(r3.Norm(v)-1) < slack }
	return finite(p.At.X, p.At.Y, p.At.Z) && unit(p.X) && unit(p.Y) && unit(p.Z) &&
		r3.Norm(r3.Sub(r3.Cross(p.X, p.Y), p.Z)) < slack
}

func finite(all ...float64) bool {
	for _, v := range all {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
