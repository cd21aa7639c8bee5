package view

import "gonum.org/v1/gonum/spatial/r3"

// chunk is a run of one item's points, normals or facets.
type chunk struct {
	item, from, to int32
	what           uint8
}

const (
	chunkPoints = iota
	chunkNormals
	chunkFacets
	chunkSize = 4096
)

// place moves every point into the picture, lights every normal and turns
// every facet to the viewer or away.
func (r *Renderer) place() {
	var points, normals, facets int
	for i := range r.scene.Things {
		t := &r.scene.Things[i]
		if t.Surface == nil || len(t.Surface.triangles) == 0 {
			continue
		}
		r.items = grow(r.items, len(r.items)+1)
		it := &r.items[len(r.items)-1]
		if !it.set(t, r.camera, r.scene.Palette.Ink) {
			r.items = r.items[:len(r.items)-1]
			continue
		}
		it.firstPoint, it.firstNormal, it.firstFacet = points, normals, facets
		points += len(t.Surface.points)
		normals += len(t.Surface.normals)
		facets += len(t.Surface.triangles)
		if t.Style != Solid {
			r.veiled = true
		}
	}
	if r.veiled {
		r.veil.pix = grow(r.veil.pix, 4*r.samples.w*r.samples.h)
		r.veil.stride = 4 * r.samples.w
		r.veil.size(r.samples.w, r.samples.h)
	}
	r.points, r.light, r.front = grow(r.points, points), grow(r.light, normals), grow(r.front, facets)
	r.split(chunkPoints)
	r.split(chunkNormals)
	r.pool.run(r, phasePlace, len(r.chunks))
	r.chunks = r.chunks[:0]
	r.split(chunkFacets)
	r.pool.run(r, phasePlace, len(r.chunks))
}

func (r *Renderer) split(what uint8) {
	for i := range r.items {
		s := r.items[i].thing.Surface
		n := int32([...]int{len(s.points), len(s.normals), len(s.triangles)}[what])
		for from := int32(0); from < n; from += chunkSize {
			r.chunks = append(r.chunks, chunk{int32(i), from, min(from+chunkSize, n), what})
		}
	}
}

// placeChunk works on one run of points, normals or facets.
func (r *Renderer) placeChunk(c chunk) {
	it := &r.items[c.item]
	s := it.thing.Surface
	switch c.what {
	case chunkPoints:
		out := r.points[it.firstPoint:]
		shift, amount := it.thing.shift()
		for k := c.from; k < c.to; k++ {
			p := s.points[k]
			along := value(&it.along, p)
			if shift != nil {
				p = r3.Add(p, r3.Scale(amount, shift[k]))
			}
			out[k] = it.project(p)
			out[k].along = along
		}
	case chunkNormals:
		out := r.light[it.firstNormal:]
		for k := c.from; k < c.to; k++ {
			out[k] = it.brightness(s.normals[k])
		}
	case chunkFacets:
		out, pts := r.front[it.firstFacet:], r.points[it.firstPoint:]
		for k := c.from; k < c.to; k++ {
			t := &s.triangles[k].point
			out[k] = it.facing(&pts[t[0]], &pts[t[1]], &pts[t[2]])
		}
	}
}
