package view

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// stroke is a straight line in the picture, in samples.
type stroke struct {
	from, to     point
	half         float32 // of its width
	dense, faint float32 // opacity at its two ends, 0 to 1
	colour       color.NRGBA
	layer        layer
}

// layer is what a stroke belongs to, in the order of painting, and decides
// what hides it.
type layer uint8

const (
	layerGround layer = iota // hidden by any pixel in front
	layerSolid               // lies on a solid surface
	layerVeil                // lies on a ghost
	layerLine                // a line in space
	layerOver                // never hidden
)

// mark strokes the feature edges and silhouettes of all things, solids first.
func (r *Renderer) mark() {
	for _, l := range [...]layer{layerSolid, layerVeil} {
		for i := range r.items {
			it := &r.items[i]
			if (it.thing.Style == Solid) != (l == layerSolid) {
				continue
			}
			pts, front := r.points[it.firstPoint:], r.front[it.firstFacet:]
			edges := it.thing.Surface.edges
			for k := range edges {
				e := &edges[k]
				seen := front[e.left]
				if e.right >= 0 {
					if e.crease {
						seen = seen || front[e.right]
					} else {
						seen = seen != front[e.right]
					}
				}
				if seen {
					r.add(stroke{from: pts[e.a], to: pts[e.b], half: float32(r.stroke / 2), dense: 1, faint: 1, colour: it.ink, layer: l})
				}
			}
		}
	}
}

// trace strokes the scene's lines.
func (r *Renderer) trace() {
	view := r.camera.projection(mesh.Move(r3.Vec{}))
	for i := range r.scene.Lines {
		l := &r.scene.Lines[i]
		s := stroke{half: float32(r.stroke / 2), dense: 1, faint: 1, colour: l.Colour, layer: layerLine}
		if l.Width > 0 {
			s.half *= float32(l.Width)
		}
		if l.Over {
			s.layer = layerOver
		}
		dash, done := l.Dash*r.stroke, 0.0
		for k := 1; k < len(l.Points); k++ {
			s.from, s.to = view.project(l.Points[k-1]), view.project(l.Points[k])
			if dash >= 1 {
				done = r.addDashes(s, dash, done)
			} else {
				r.add(s)
			}
		}
	}
}

// addDashes adds a stroke in dashes, the pattern already run for done samples,
// and returns how far it has run at the end.
func (r *Renderer) addDashes(s stroke, dash, done float64) float64 {
	long := math.Hypot(float64(s.to.x-s.from.x), float64(s.to.y-s.from.y))
	if !(long <= 1e5) {
		return done
	}
	at := func(d float64) point {
		t := float32(d / long)
		a, b := &s.from, &s.to
		return point{x: a.x + t*(b.x-a.x), y: a.y + t*(b.y-a.y), depth: a.depth + t*(b.depth-a.depth)}
	}
	for k := math.Floor(done / (2 * dash)); ; k++ {
		from, to := max(2*k*dash-done, 0), min((2*k+1)*dash-done, long)
		if from >= long {
			return done + long
		}
		if from < to {
			piece := s
			piece.from, piece.to = at(from), at(to)
			r.add(piece)
		}
	}
}

// add keeps a stroke if it is in the picture.
func (r *Renderer) add(s stroke) {
	m := s.half + 1
	if min(s.from.x, s.to.x)-m < float32(r.samples.w) && max(s.from.x, s.to.x)+m > 0 &&
		min(s.from.y, s.to.y)-m < float32(r.samples.h) && max(s.from.y, s.to.y)+m > 0 && s.colour.A > 0 {
		r.strokes = append(r.strokes, s)
	}
}

// binStrokes lists the strokes by the bands of rows they touch.
func (r *Renderer) binStrokes() {
	last := float32(r.samples.h - 1)
	for k := range r.strokes {
		s := &r.strokes[k]
		m := s.half + 1
		top, bottom := max(min(s.from.y, s.to.y)-m, 0), min(max(s.from.y, s.to.y)+m, last)
		for b := int(top) / bandRows; b <= int(bottom)/bandRows; b++ {
			r.inked[b] = append(r.inked[b], int32(k))
		}
	}
}

// drawStroke draws the part of a stroke within rows top to bottom. It steps
// along the longer direction, one pixel at a time; a step belongs to the piece
// whose end lies within the pixel's half, so a chain of short pieces covers
// every pixel once.
func (r *Renderer) drawStroke(s *stroke, top, bottom int) {
	a, b := s.from, s.to
	steep := abs(b.y-a.y) > abs(b.x-a.x)
	m0, m1, n0, n1 := 0, r.samples.w, top, bottom // limits along and across
	across := r.samples.h
	if steep {
		a.x, a.y, b.x, b.y = a.y, a.x, b.y, b.x
		m0, m1, n0, n1 = top, bottom, 0, r.samples.w
		across = r.samples.w
	}
	dense, faint := s.dense, s.faint
	if b.x < a.x {
		a, b, dense, faint = b, a, faint, dense
	}
	dx := b.x - a.x
	if !(dx > 0) {
		return
	}
	tilt := (b.y - a.y) / dx
	cos := 1 / float32(math.Sqrt(float64(1+tilt*tilt)))
	reach := (s.half + 0.5) / cos
	from, to := max(nearest(a.x, m1), m0), nearest(b.x, m1)
	if tilt != 0 { // only where the line lies within the limits across
		u, v := a.x+(float32(n0)-reach-a.y)/tilt, a.x+(float32(n1)+reach-a.y)/tilt
		from, to = max(from, nearest(min(u, v)-1, m1)), min(to, nearest(max(u, v)+1, m1))
	}
	alpha, depthStep := dense*float32(s.colour.A), (b.depth-a.depth)/dx
	alphaStep := (faint*float32(s.colour.A) - alpha) / dx
	for m := from; m < to; m++ {
		d := float32(m) + 0.5 - a.x
		centre, z := a.y+d*tilt, a.depth+d*depthStep
		first, last := max(nearest(centre-reach, n1), n0), nearest(centre+reach, n1)
		if first >= last || s.layer != layerGround && !r.visible(s.layer, steep, m, int(centre), across, z) {
			continue
		}
		strength := alpha + d*alphaStep
		for n := first; n < last; n++ {
			cover := min(s.half+0.5-abs(float32(n)+0.5-centre)*cos, 1)
			if cover <= 0 {
				continue
			}
			x, y := m, n
			if steep {
				x, y = n, m
			}
			if s.layer == layerGround && r.samples.depth[y*r.samples.w+x] < z {
				continue
			}
			p := r.samples.pix[y*r.samples.stride+4*x:][:4:4]
			w := uint32(min(cover*2*min(s.half, 0.5), 1)*strength + 0.5)
			if s.layer == layerSolid || s.layer == layerVeil {
				w = addInk(&r.inkOn[y*r.samples.w+x], w)
			}
			p[0] = blend(p[0], s.colour.R, w)
			p[1] = blend(p[1], s.colour.G, w)
			p[2] = blend(p[2], s.colour.B, w)
		}
	}
}

// addInk raises the cover of a sample to w of 255 and returns the opacity that
// takes it there, so that edges that meet or coincide do not darken each other.
func addInk(on *uint8, w uint32) uint32 {
	old := uint32(*on)
	if w <= old {
		return 0
	}
	*on = uint8(w)
	return (w - old) * 255 / (255 - old)
}

// visible reports whether a stroke is seen at a step along it, at n of so many
// samples across. A line on a surface lies between two faces: it is seen if
// either side, or the middle, is no nearer than it. A ghost's line gives way to
// a solid in the same place.
func (r *Renderer) visible(l layer, steep bool, along, n, across int, z float32) bool {
	if l == layerOver {
		return true
	}
	from, to := max(n-1, 0), min(n+1, across-1)
	solid := 0
	ghost := l != layerVeil
	for k := from; k <= to; k++ {
		x, y := along, k
		if steep {
			x, y = k, along
		}
		at := y*r.samples.w + x
		if l != layerVeil {
			if r.samples.depth[at] >= z-r.nearby {
				return true
			}
			continue
		}
		if r.samples.depth[at] >= z+r.nearby {
			solid++
		}
		ghost = ghost || r.veil.depth[at] >= z-r.nearby
	}
	return ghost && solid > to-from
}

func abs(v float32) float32 { return max(v, -v) }
