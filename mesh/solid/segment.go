package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
)

// edge is a line, or an arc of at most a quarter turn, from a to b.
type edge struct {
	ax, ay, bx, by float64
	tx, ty, length float64 // of a line: unit direction and length
	r              float64 // of an arc; 0 for a line
	cx, cy, mx, my float64 // of an arc: centre and unit direction to its middle
	reach          float64 // cosine of half its angle
	left           bool    // the centre is on the left
	a, b           joint   // how the corners at a and b turn
	index          int
	next, previous int
}

// joint is how one edge goes over into the next.
type joint uint8

const (
	smooth joint = iota
	convex       // the corner points outwards
	concave
)

func jointOf(ux, uy, vx, vy float64) joint {
	const straight = 1e-6
	switch cross := ux*vy - uy*vx; {
	case math.Abs(cross) < straight && ux*vx+uy*vy > 0:
		return smooth
	case cross > 0:
		return convex
	}
	return concave
}

func edgesOf(v, w outline.Vertex) []edge {
	dx, dy := w.X-v.X, w.Y-v.Y
	l := math.Hypot(dx, dy)
	if math.Abs(v.Bulge) < 1e-9 {
		return []edge{{ax: v.X, ay: v.Y, bx: w.X, by: w.Y, tx: dx / l, ty: dy / l, length: l}}
	}
	turn := 4 * math.Atan(v.Bulge)
	k := (1 - v.Bulge*v.Bulge) / (4 * v.Bulge)
	cx, cy := (v.X+w.X)/2-k*dy, (v.Y+w.Y)/2+k*dx
	r := l * (1 + v.Bulge*v.Bulge) / (4 * math.Abs(v.Bulge))
	n := int(math.Ceil(math.Abs(turn)/(math.Pi/2) - 1e-9))
	all := make([]edge, n)
	from := math.Atan2(v.Y-cy, v.X-cx)
	at := func(i int) (x, y float64) {
		switch i {
		case 0:
			return v.X, v.Y
		case n:
			return w.X, w.Y
		}
		s, c := math.Sincos(from + turn*float64(i)/float64(n))
		return cx + r*c, cy + r*s
	}
	for i := range all {
		a := &all[i]
		a.ax, a.ay = at(i)
		a.bx, a.by = at(i + 1)
		a.cx, a.cy, a.r, a.left = cx, cy, r, turn > 0
		a.my, a.mx = math.Sincos(from + turn*(float64(i)+0.5)/float64(n))
		a.reach = math.Cos(turn / float64(n) / 2)
		a.length = r * math.Abs(turn) / float64(n)
	}
	return all
}

// tangent returns the unit direction of travel at a point of the edge.
func (e *edge) tangent(x, y float64) (tx, ty float64) {
	switch {
	case e.r == 0:
		return e.tx, e.ty
	case e.left:
		return -(y - e.cy) / e.r, (x - e.cx) / e.r
	}
	return (y - e.cy) / e.r, -(x - e.cx) / e.r
}

// distance returns the squared distance to the edge and whether the point is
// on the material side of it.
func (e *edge) distance(x, y float64) (d2 float64, inside bool) {
	if e.r == 0 {
		px, py := x-e.ax, y-e.ay
		t := px*e.tx + py*e.ty
		if t > 0 && t < e.length {
			d := e.tx*py - e.ty*px
			return d * d, d > 0
		}
	} else {
		px, py := x-e.cx, y-e.cy
		d := math.Sqrt(px*px + py*py)
		if px*e.mx+py*e.my >= e.reach*d {
			return (d - e.r) * (d - e.r), d < e.r == e.left
		}
	}
	da := (x-e.ax)*(x-e.ax) + (y-e.ay)*(y-e.ay)
	db := (x-e.bx)*(x-e.bx) + (y-e.by)*(y-e.by)
	if da <= db {
		return da, e.within(e.a, e.ax, e.ay, x, y)
	}
	return db, e.within(e.b, e.bx, e.by, x, y)
}

// within reports whether a point next to one end of the edge is on the
// material side. Where edges run into one another smoothly such a point lies
// on the line between their regions, and the tangent tells.
func (e *edge) within(j joint, ex, ey, x, y float64) bool {
	if j != smooth {
		return j == concave
	}
	tx, ty := e.tangent(ex, ey)
	return tx*(y-ey)-ty*(x-ex) > 0
}

func (e *edge) box() r3.Box {
	b := r3.NewBox(e.ax, e.ay, 0, e.bx, e.by, 0)
	if e.r > 0 { // the quarter turn may bulge past its ends
		for _, q := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			if q[0]*e.mx+q[1]*e.my >= e.reach {
				x, y := e.cx+e.r*q[0], e.cy+e.r*q[1]
				b.Min.X, b.Min.Y = min(b.Min.X, x), min(b.Min.Y, y)
				b.Max.X, b.Max.Y = max(b.Max.X, x), max(b.Max.Y, y)
			}
		}
	}
	return b
}

// way returns the way from a point to the nearest point of the edge.
func (e *edge) way(x, y float64) [2]float64 {
	if e.r == 0 {
		t := max(0, min(e.length, (x-e.ax)*e.tx+(y-e.ay)*e.ty))
		return [2]float64{e.ax + t*e.tx - x, e.ay + t*e.ty - y}
	}
	px, py := x-e.cx, y-e.cy
	if d := math.Sqrt(px*px + py*py); d > 0 && px*e.mx+py*e.my >= e.reach*d {
		return [2]float64{px * (e.r/d - 1), py * (e.r/d - 1)}
	}
	if math.Hypot(x-e.ax, y-e.ay) < math.Hypot(x-e.bx, y-e.by) {
		return [2]float64{e.ax - x, e.ay - y}
	}
	return [2]float64{e.bx - x, e.by - y}
}
