package solid

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Sphere is a ball about the origin.
func Sphere(radius float64) Node {
	if !finite(radius) || radius <= 0 {
		return invalid("sphere of radius %g mm; use a radius above 0", radius)
	}
	return newLeaf(ball{radius})
}

// ball has eight faces, one an octant; bits 0, 1, 2 of the face are set for
// negative x, y, z.
type ball struct{ r float64 }

func (b ball) value(p r3.Vec) (float64, int) { return length(p) - b.r, octant(p) }

func octant(p r3.Vec) int {
	f := 0
	for i, c := range []float64{p.X, p.Y, p.Z} {
		if c < 0 {
			f |= 1 << i
		}
	}
	return f
}

func (b ball) faces() []face {
	cuts := []plane{{n: r3.Vec{X: 1}}, {n: r3.Vec{Y: 1}}, {n: r3.Vec{Z: 1}}}
	all := make([]face, 8)
	for i := range all {
		sign := func(bit int) float64 { return 1 - 2*float64(i>>bit&1) }
		m := r3.Unit(r3.Vec{X: sign(0), Y: sign(1), Z: sign(2)})
		all[i] = face{surface: octantOf{b.r, m}, part: fmt.Sprintf("octant %d", i)}
		for bit, c := range cuts {
			all[i].seams = append(all[i].seams, seam{i ^ 1<<bit, c})
		}
	}
	return all
}

func (b ball) box() r3.Box {
	return r3.Box{Min: r3.Vec{X: -b.r, Y: -b.r, Z: -b.r}, Max: r3.Vec{X: b.r, Y: b.r, Z: b.r}}
}

func (b ball) requests() []request {
	s := b.r * cellsPerArc
	return []request{{b.box(), r3.Vec{X: s, Y: s, Z: s}}}
}

// octantOf is the part of a sphere about the origin round a middle direction.
type octantOf struct {
	r float64
	m r3.Vec
}

func (s octantOf) at(p r3.Vec) (float64, r3.Vec) {
	d := length(p)
	if d == 0 {
		return -s.r, s.m
	}
	return d - s.r, r3.Scale(1/d, p)
}

func (s octantOf) flat() bool { return false }

func (s octantOf) chart(p r3.Vec) (u, v float64) {
	a, b := across(s.m)
	k := 1 / (s.r + r3.Dot(s.m, p)) // seen from the far pole: keeps angles
	return 2 * s.r * k * r3.Dot(a, p), 2 * s.r * k * r3.Dot(b, p)
}

func (s octantOf) key(pose mesh.Pose) string {
	m := direction(pose, s.m)
	return keyOf("ball", pose.At.X, pose.At.Y, pose.At.Z, s.r, m.X, m.Y, m.Z)
}

// Torus is a ring about the z axis: a circle of the minor radius carried
// round at the major radius, which must be the larger.
func Torus(major, minor float64) Node {
	if !finite(major, minor) || minor <= 0 || major <= minor {
		return invalid("torus of radii %g and %g mm; use a minor radius above 0 and a larger major one", major, minor)
	}
	return newLeaf(ring{major, minor})
}

// ring has sixteen faces: bits 0 and 1 for negative x and y, bit 2 inside
// the circle of centres, bit 3 for negative z.
type ring struct{ major, minor float64 }

func (t ring) value(p r3.Vec) (float64, int) {
	d := math.Hypot(p.X, p.Y)
	f := octant(p)
	f = f&3 | f&4<<1
	if d < t.major {
		f |= 4
	}
	return math.Hypot(d-t.major, p.Z) - t.minor, f
}

func (t ring) faces() []face {
	cuts := []surface{plane{n: r3.Vec{X: 1}}, plane{n: r3.Vec{Y: 1}}, sector{r: t.major, mx: 1}, plane{n: r3.Vec{Z: 1}}}
	all := make([]face, 16)
	for i := range all {
		all[i] = face{surface: ringPart{t, i}, part: fmt.Sprintf("part %d", i)}
		for bit, c := range cuts {
			all[i].seams = append(all[i].seams, seam{i ^ 1<<bit, c})
		}
	}
	return all
}

func (t ring) box() r3.Box {
	d := t.major + t.minor
	return r3.Box{Min: r3.Vec{X: -d, Y: -d, Z: -t.minor}, Max: r3.Vec{X: d, Y: d, Z: t.minor}}
}

func (t ring) requests() []request {
	s := t.minor * cellsPerArc
	return []request{{t.box(), r3.Vec{X: s, Y: s, Z: s}}}
}

type ringPart struct {
	ring
	i int
}

func (s ringPart) at(p r3.Vec) (float64, r3.Vec) {
	d := math.Hypot(p.X, p.Y)
	e := r3.Vec{X: 1}
	if d > 0 {
		e = r3.Vec{X: p.X / d, Y: p.Y / d}
	}
	n := r3.Add(r3.Scale(d-s.major, e), r3.Vec{Z: p.Z})
	l := length(n)
	if l == 0 {
		return -s.minor, e
	}
	return l - s.minor, r3.Scale(1/l, n)
}

func (s ringPart) flat() bool { return false }

func (s ringPart) chart(p r3.Vec) (u, v float64) {
	sign := func(bit int) float64 { return 1 - 2*float64(s.i>>bit&1) }
	turn := math.Atan2(p.Y*sign(1), p.X*sign(0))
	roll := math.Atan2(p.Z*sign(3), (math.Hypot(p.X, p.Y)-s.major)*sign(2))
	mean := s.major + 0.6*s.minor*sign(2)
	return turn * mean * math.Sqrt(s.minor/(s.major+s.minor)), roll * s.minor
}

func (s ringPart) key(pose mesh.Pose) string {
	return keyOf("ring", pose.At.X, pose.At.Y, pose.At.Z, pose.X.X, pose.X.Y, pose.X.Z, pose.Z.X, pose.Z.Y, pose.Z.Z, s.major, s.minor, float64(s.i))
}
