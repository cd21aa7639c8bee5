package solid

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// face is one smooth face of a leaf, in the leaf's axes.
type face struct {
	surface
	part  string
	seams []seam
}

// seam is the curve where a face runs into another of the same leaf without
// an edge to find it by: a surface that cuts both there.
type seam struct {
	other int
	cut   surface
}

// surface is an implicit surface in the axes of its leaf.
type surface interface {
	// at returns the distance from the surface to first order, positive on
	// the side the face looks to, and its gradient.
	at(p r3.Vec) (float64, r3.Vec)
	// chart lays the face out flat, one to one, such that a triangle's size
	// in the chart measures how far it strays from the surface.
	chart(p r3.Vec) (u, v float64)
	flat() bool
	// key is equal for surfaces that are the same place in the part.
	key(pose mesh.Pose) string
}

// stretch shortens the straight direction of a singly curved face in its
// chart: only the bent direction costs accuracy.
const stretch = 0.01

// plane is the surface n·p = d with a unit normal.
type plane struct {
	n r3.Vec
	d float64
}

func (s plane) at(p r3.Vec) (float64, r3.Vec) { return r3.Dot(s.n, p) - s.d, s.n }
func (s plane) flat() bool                    { return true }

func (s plane) chart(p r3.Vec) (u, v float64) {
	a, b := across(s.n)
	u, v = r3.Dot(a, p), r3.Dot(b, p)
	const c, w = 0.8, 0.6 // turned, so that borders seldom run along u or v
	return c*u - w*v, w*u + c*v
}

func (s plane) key(pose mesh.Pose) string {
	n := direction(pose, s.n)
	d := s.d + r3.Dot(n, pose.At)
	if first(n) < 0 {
		n, d = r3.Scale(-1, n), -d
	}
	return keyOf("plane", n.X, n.Y, n.Z, d)
}

// first returns the first component of a direction that is not rounding.
func first(n r3.Vec) float64 {
	for _, c := range []float64{n.X, n.Y, n.Z} {
		if math.Abs(c) > 1e-9 {
			return c
		}
	}
	return 0
}

// across returns two unit vectors square to n and to each other, a × b = n.
func across(n r3.Vec) (a, b r3.Vec) {
	switch {
	case math.Abs(n.Z) >= math.Abs(n.X) && math.Abs(n.Z) >= math.Abs(n.Y):
		a = r3.Vec{X: n.Z, Z: -n.X}
	case math.Abs(n.X) >= math.Abs(n.Y):
		a = r3.Vec{X: -n.Y, Y: n.X}
	default:
		a = r3.Vec{X: n.Y, Y: -n.X}
	}
	a = r3.Unit(a)
	return a, r3.Cross(n, a)
}

// sector is a part of a cylinder or cone whose level sections are circles of
// radius r + dr z about (cx + dx z, cy + dy z): upright, tapered or leaning.
type sector struct {
	cx, dx, cy, dy, r, dr float64
	mx, my                float64 // unit direction to the middle of the sector
	widest                float64 // greatest radius
	hollow                bool    // the face looks to the axis
}

func (s sector) at(p r3.Vec) (float64, r3.Vec) {
	x, y := p.X-s.cx-s.dx*p.Z, p.Y-s.cy-s.dy*p.Z
	d := math.Sqrt(x*x + y*y)
	if d == 0 {
		x, y = s.mx, s.my
	} else {
		x, y = x/d, y/d
	}
	g := r3.Vec{X: x, Y: y, Z: -(s.dx*x + s.dy*y + s.dr)}
	k := 1 / length(g)
	if s.hollow {
		k = -k
	}
	return k * (d - s.r - s.dr*p.Z), r3.Scale(k, g)
}

func (s sector) flat() bool { return false }

func (s sector) chart(p r3.Vec) (u, v float64) {
	x, y := p.X-s.cx-s.dx*p.Z, p.Y-s.cy-s.dy*p.Z
	if x*x+y*y < 1e-16 { // the tip of a cone
		return 0, p.Z * stretch
	}
	return s.widest * math.Atan2(s.mx*y-s.my*x, s.mx*x+s.my*y), p.Z * stretch
}

func (s sector) key(pose mesh.Pose) string {
	z := pose.Z
	foot := pose.Apply(r3.Vec{X: s.cx, Y: s.cy})
	r, dr := s.r, s.dr
	m := direction(pose, r3.Vec{X: s.mx, Y: s.my})
	lean := direction(pose, r3.Vec{X: s.dx, Y: s.dy})
	if first(z) < 0 {
		z, dr, lean = r3.Scale(-1, z), -dr, r3.Scale(-1, lean)
	}
	h := r3.Dot(foot, z) // carry the section to the level of the origin
	foot = r3.Sub(foot, r3.Scale(h, r3.Add(z, lean)))
	r -= h * dr
	return keyOf("sector", foot.X, foot.Y, foot.Z, z.X, z.Y, z.Z, r, dr, m.X, m.Y, m.Z, lean.X, lean.Y, lean.Z)
}

// back is a surface that looks the other way. Its key stays: it is the same
// place, and where both looks tie it must not matter which wins.
type back struct{ surface }

func (s back) at(p r3.Vec) (float64, r3.Vec) {
	v, g := s.surface.at(p)
	return -v, r3.Scale(-1, g)
}

// keyOf writes numbers rounded to a millionth of a millimetre.
func keyOf(kind string, all ...float64) string {
	key := append(make([]byte, 0, 256), kind...)
	for _, v := range all {
		key = strconv.AppendInt(append(key, ' '), int64(math.Round(v*1e6)), 10)
	}
	return string(key)
}
