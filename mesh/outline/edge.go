package outline

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// edge is one side of a loop, from p to q, turning left through sweep radians.
type edge struct {
	p, q  r2.Vec
	sweep float64 // 0 for a line, negative for clockwise

	// Of an arc only: the signed radius, positive counter-clockwise, and the
	// vector from the centre to p.
	radius float64
	arm    r2.Vec
}

// straight is the largest bulge of an edge that counts as a line: its arc
// would stray from the chord by less than 5e-13 of the chord's length.
const straight = 1e-12

func (l Loop) edge(i int) edge {
	a, b := l[i], l[(i+1)%len(l)]
	e := edge{p: r2.Vec{X: a.X, Y: a.Y}, q: r2.Vec{X: b.X, Y: b.Y}}
	if math.Abs(a.Bulge) <= straight {
		return e
	}
	e.sweep = 4 * math.Atan(a.Bulge)
	chord := r2.Sub(e.q, e.p)
	e.radius = r2.Norm(chord) / (2 * math.Sin(e.sweep/2))
	e.arm = r2.Scale(e.radius, right(e.heading(0)))
	return e
}

func (l Loop) edges(yield func(int, edge) bool) {
	for i := range l {
		if !yield(i, l.edge(i)) {
			return
		}
	}
}

// at returns the point at a fraction s of the edge's length.
func (e edge) at(s float64) r2.Vec {
	chord := r2.Sub(e.q, e.p)
	if e.sweep == 0 {
		return r2.Add(e.p, r2.Scale(s, chord))
	}
	long := math.Sin(s*e.sweep/2) / math.Sin(e.sweep/2)
	return r2.Add(e.p, r2.Scale(long, rotate(chord, (s-1)*e.sweep/2)))
}

// heading returns the unit direction of travel at a fraction s.
func (e edge) heading(s float64) r2.Vec {
	chord := r2.Sub(e.q, e.p)
	n := r2.Norm(chord)
	if n == 0 {
		return r2.Vec{}
	}
	return rotate(r2.Scale(1/n, chord), (s-0.5)*e.sweep)
}

func (e edge) length() float64 {
	if e.sweep == 0 {
		return r2.Norm(r2.Sub(e.q, e.p))
	}
	return e.radius * e.sweep
}

// covers reports whether the direction of w from p, seen from an arc's
// centre, lies within the sweep.
func (e edge) covers(w r2.Vec) bool {
	to := r2.Add(e.arm, w)
	turned := math.Atan2(r2.Cross(e.arm, w), r2.Dot(e.arm, to))
	if e.sweep < 0 {
		turned = -turned
	}
	if turned < 0 {
		turned += 2 * math.Pi
	}
	return turned <= math.Abs(e.sweep)
}

// distance returns how far x is from the nearest point of the edge.
func (e edge) distance(x r2.Vec) float64 {
	w := r2.Sub(x, e.p)
	ends := min(r2.Norm(w), r2.Norm(r2.Sub(x, e.q)))
	if e.sweep == 0 {
		chord := r2.Sub(e.q, e.p)
		n := r2.Norm(chord)
		if s := r2.Dot(w, chord); n == 0 || s <= 0 || s >= n*n {
			return ends
		}
		return math.Abs(r2.Cross(chord, w)) / n
	}
	if !e.covers(w) {
		return ends
	}
	// |x - c| - R as (|x - c|² - R²) / (|x - c| + R): no loss for flat arcs.
	far := r2.Norm(r2.Add(e.arm, w))
	return min(ends, math.Abs(r2.Norm2(w)+2*r2.Dot(w, e.arm))/(far+math.Abs(e.radius)))
}

// winding returns the edge's part in the winding number of its loop around x.
// A point on a chord is taken to lie on the chord's right where the chord goes
// up or straight left, so that chord and arc agree.
func (e edge) winding(x r2.Vec) int {
	u, v := r2.Sub(e.p, x), r2.Sub(e.q, x)
	turn := r2.Cross(u, v)
	n := 0
	if u.Y <= 0 && v.Y > 0 && turn > 0 {
		n++
	} else if v.Y <= 0 && u.Y > 0 && turn < 0 {
		n--
	}
	if e.sweep == 0 {
		return n
	}
	onRight := turn < 0 || turn == 0 && (v.Y > u.Y || v.Y == u.Y && v.X < u.X)
	if onRight != (e.sweep > 0) {
		return n
	}
	// Inside the segment the chord is seen at more than the inscribed angle.
	if math.Atan2(math.Abs(turn), r2.Dot(u, v))+math.Abs(e.sweep)/2 >= math.Pi {
		if e.sweep > 0 {
			return n + 1
		}
		return n - 1
	}
	return n
}

// meets returns the common points of two edges, lines and circles taken
// beyond their ends by less than touch.
func (e edge) meets(f edge) []r2.Vec {
	var found []r2.Vec
	for _, x := range crossings(e.carrier(), f.carrier()) {
		if e.distance(x) < touch && f.distance(x) < touch {
			found = append(found, x)
		}
	}
	return found
}

// touch is the distance in mm below which two edges are taken to meet.
const touch = 1e-9

// carrier is the line or circle an edge lies on.
type carrier struct {
	at     r2.Vec  // a point of the line, or the centre
	along  r2.Vec  // unit direction of the line
	radius float64 // 0 for a line
}

func (e edge) carrier() carrier {
	if e.sweep == 0 {
		return carrier{at: e.p, along: e.heading(0)}
	}
	return carrier{at: r2.Sub(e.p, e.arm), radius: math.Abs(e.radius)}
}

// crossings returns the common points of two carriers, at most two.
func crossings(a, b carrier) []r2.Vec {
	if a.radius == 0 && b.radius == 0 {
		det := r2.Cross(a.along, b.along)
		if math.Abs(det) < 1e-12 { // parallel to 1e-12 rad
			return nil
		}
		return []r2.Vec{r2.Add(a.at, r2.Scale(r2.Cross(r2.Sub(b.at, a.at), b.along)/det, a.along))}
	}
	if b.radius == 0 {
		a, b = b, a
	}
	if a.radius != 0 { // the line through both common points of two circles
		between := r2.Sub(b.at, a.at)
		d := r2.Norm(between)
		if d < touch {
			return nil
		}
		along := r2.Scale(1/d, between)
		foot := (d*d + (a.radius-b.radius)*(a.radius+b.radius)) / (2 * d)
		return onLine(r2.Add(a.at, r2.Scale(foot, along)), left(along), a.radius*a.radius-foot*foot, a.radius)
	}
	foot := r2.Dot(r2.Sub(b.at, a.at), a.along)
	near := r2.Add(a.at, r2.Scale(foot, a.along))
	off := r2.Norm(r2.Sub(near, b.at))
	return onLine(near, a.along, (b.radius-off)*(b.radius+off), b.radius)
}

// onLine returns the points at ±√square from foot; a square that is negative
// by less than the touch of a circle of the radius gives the foot itself.
func onLine(foot, along r2.Vec, square, radius float64) []r2.Vec {
	switch {
	case square < -2*radius*touch:
		return nil
	case square <= 0:
		return []r2.Vec{foot}
	}
	half := math.Sqrt(square)
	return []r2.Vec{r2.Add(foot, r2.Scale(-half, along)), r2.Add(foot, r2.Scale(half, along))}
}

func left(v r2.Vec) r2.Vec  { return r2.Vec{X: -v.Y, Y: v.X} }
func right(v r2.Vec) r2.Vec { return r2.Vec{X: v.Y, Y: -v.X} }

func rotate(v r2.Vec, angle float64) r2.Vec {
	if angle == 0 {
		return v
	}
	s, c := math.Sincos(angle)
	return r2.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y}
}
