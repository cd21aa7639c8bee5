package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// canal is the path of the ball along one piece of a fillet, or the cut
// across that piece where the ball touches the plane or the stem.
type canal struct {
	*fillet
	piece int
	on    cut
}

type cut uint8

const (
	onBall cut = iota
	onPlane
	onStem
)

// local returns the piece's spine at a point, how far the point lies outside
// the centre and above it, and the signs that unfold a direction.
func (c canal) local(p r3.Vec) (s spine, out, up, sx, sy float64) {
	sx, sy = 1, 1
	switch c.piece {
	case 0, 1:
		sx = 1 - 2*float64(c.piece)
		s = c.onX
	case 2, 3:
		sy = 1 - 2*float64(c.piece-2)
		s = c.onY
	default:
		sx, sy = 1-2*float64(c.piece&1), 1-2*float64((c.piece-taperCorner)>>1)
		s = c.nearest(sx*p.X, sy*p.Y)
	}
	out = (sx*p.X-s.cx)*s.c + (sy*p.Y-s.cy)*s.s
	return s, out, c.s*(p.Z-c.level) - c.ball, sx, sy
}

func (c canal) at(p r3.Vec) (float64, r3.Vec) {
	s, out, up, sx, sy := c.local(p)
	var v, go_, gu float64
	switch c.on {
	case onBall:
		d := max(math.Sqrt(out*out+up*up), 1e-12)
		v, go_, gu = c.ball-d, -out/d, -up/d
	case onPlane:
		v, go_ = out, 1
	case onStem:
		v, go_, gu = (out*s.slope+up)*s.k, s.slope*s.k, s.k
	}
	return v, r3.Vec{X: sx * s.c * go_, Y: sy * s.s * go_, Z: c.s * gu}
}

func (c canal) flat() bool { return false }

func (c canal) chart(p r3.Vec) (u, v float64) {
	s, out, up, _, _ := c.local(p)
	roll := c.ball * math.Atan2(-out, -up)
	switch c.piece {
	case 0, 1:
		return p.Y * stretch, roll
	case 2, 3:
		return p.X * stretch, roll
	}
	r := c.r + c.ball
	const mean = 0.87 // sine of the roll where the bend is typical
	return math.Atan2(s.s, s.c) * math.Sqrt(c.ball*mean*(r-mean*c.ball)), roll
}

func (c canal) key(pose mesh.Pose) string {
	return keyOf("canal", pose.At.X, pose.At.Y, pose.At.Z, pose.X.X, pose.X.Y, pose.X.Z, pose.Z.X, pose.Z.Y, pose.Z.Z,
		c.level, c.s, c.ball, c.x, c.gx, c.y, c.gy, c.r, c.gr, float64(c.piece), float64(c.on))
}
