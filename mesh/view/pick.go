package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hit is what lies under a pixel.
type Hit struct {
	Thing int    // its place in Scene.Things
	At    r3.Vec // mm, the point of its surface
}

// Pick returns the thing nearest to the viewer at the pixel (x, y). Where
// nothing that may be picked is there, the eight pixels at the distance reach
// around it are tried, so that a thin wire can be taken. Outlines are never
// hit, ghosts only where no solid thing is.
func (s *Scene) Pick(c Camera, x, y, reach float64) (Hit, bool) {
	if !c.sound() || !finite(r3.Vec{X: x, Y: y}) {
		return Hit{}, false
	}
	h, ok := s.pickAt(c, x, y)
	if ok || !(reach > 0) || math.IsInf(reach, 0) {
		return h, ok
	}
	best := math.Inf(1)
	for k := range 8 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 4)
		around, found := s.pickAt(c, x+reach*cos, y+reach*sin)
		if depth := c.Project(around.At).Depth; found && depth < best {
			h, ok, best = around, true, depth
		}
	}
	return h, ok
}

func (s *Scene) pickAt(c Camera, x, y float64) (Hit, bool) {
	for _, style := range [...]Style{Solid, Ghost} {
		hit, best := Hit{Thing: -1}, math.Inf(1)
		for i := range s.Things {
			t := &s.Things[i]
			if t.Surface == nil || t.Style != style {
				continue
			}
			if depth := t.depthAt(c, x, y); depth < best {
				best = depth
				hit = Hit{Thing: i, At: c.Unproject(Pixel{X: x, Y: y, Depth: depth})}
			}
		}
		if hit.Thing >= 0 {
			return hit, !s.Things[hit.Thing].Inert
		}
	}
	return Hit{}, false
}

// depthAt returns the least depth of the thing's surface at a pixel, infinite
// where it is not there.
func (t *Thing) depthAt(c Camera, x, y float64) float64 {
	best := math.Inf(1)
	var it item
	if !it.set(t, c, t.Ink) {
		return best
	}
	shift, amount := t.shift()
	at := func(k int32) point {
		p := t.Surface.points[k]
		if shift != nil {
			p = r3.Add(p, r3.Scale(amount, shift[k]))
		}
		return it.project(p)
	}
	px, py := float32(x), float32(y)
	for i := range t.Surface.triangles {
		f := &t.Surface.triangles[i].point
		p, q, r := at(f[0]), at(f[1]), at(f[2])
		if !it.facing(&p, &q, &r) {
			continue
		}
		area := (q.x-p.x)*(r.y-p.y) - (r.x-p.x)*(q.y-p.y)
		v := ((px-p.x)*(r.y-p.y) - (r.x-p.x)*(py-p.y)) / area
		w := ((q.x-p.x)*(py-p.y) - (px-p.x)*(q.y-p.y)) / area
		if v >= 0 && w >= 0 && v+w <= 1 {
			best = min(best, float64(p.depth+v*(q.depth-p.depth)+w*(r.depth-p.depth)))
		}
	}
	return best
}
