package view

import (
	"image"
	"image/color"
	"runtime"
)

// Options steers Draw. The zero value draws at once on all processors.
type Options struct {
	// Scale is how many pixels a line of width 1 takes. 0 means 1.
	Scale float64
	// Fine draws with four samples a pixel, for a picture that stands still.
	Fine bool
	// Workers is how many goroutines draw. 0 means one a processor. It does
	// not change the picture.
	Workers int
}

// Renderer draws scenes. It keeps its buffers from picture to picture, so that
// drawing the same scene again allocates nothing. The zero value is ready.
// One picture at a time.
type Renderer struct {
	pool    pool
	scene   *Scene
	camera  Camera // in samples, not pixels
	dst     *image.RGBA
	fine    bool
	stroke  float64 // samples that a line of width 1 takes
	nearby  float32 // mm in depth within which a line lies on a surface
	samples canvas  // what is drawn into: dst itself, or its samples when fine
	veil    canvas  // ghosts and outlines, laid over the solids
	veiled  bool    // whether there are any
	pix     []uint8 // of samples when fine
	inkOn   []uint8 // how much of each sample the edges of one layer cover

	items   []item
	chunks  []chunk
	points  []point
	light   []float32 // brightness of every normal
	front   []bool    // facets that face the viewer
	bins    [][]entry // facets of each band
	strokes []stroke
	inked   [][]int32 // strokes of each band
}

// bandRows is how many rows one goroutine paints at a time.
const bandRows = 32

// entry names a facet of an item.
type entry struct{ item, facet int32 }

// Draw paints the scene as the camera sees it over the whole image; the
// image's size stands for the camera's. Where the camera is not sound only the
// background is painted. The same scene gives the same bytes with any number
// of workers.
func (r *Renderer) Draw(dst *image.RGBA, s *Scene, c Camera, o Options) {
	if dst == nil || s == nil || dst.Rect.Empty() {
		return
	}
	r.begin(dst, s, c, o)
	if r.camera.sound() {
		r.place()
		r.bin()
	}
	bands := len(r.bins)
	r.pool.run(r, phasePaint, bands)
	if r.camera.sound() {
		r.rule()
		r.mark()
		r.trace()
		r.binStrokes()
	}
	r.pool.run(r, phaseInk, bands)
	r.scene, r.dst, r.samples.pix = nil, nil, nil
}

// Hidden reports whether something in the last picture lies in front of a
// point of it, by more than a line's width. Points outside are not hidden.
func (r *Renderer) Hidden(p Pixel) bool {
	k := 1.0
	if r.fine {
		k = 2
	}
	x, y := p.X*k, p.Y*k
	if !(x >= 0 && y >= 0 && x < float64(r.samples.w) && y < float64(r.samples.h)) {
		return false
	}
	return r.samples.depth[int(y)*r.samples.w+int(x)] < float32(p.Depth)-r.nearby
}

// begin sizes the buffers.
func (r *Renderer) begin(dst *image.RGBA, s *Scene, c Camera, o Options) {
	if !(o.Scale > 0) || o.Scale > 16 {
		o.Scale = 1
	}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	r.pool.workers = o.Workers
	r.scene, r.dst, r.fine, r.stroke = s, dst, o.Fine, o.Scale
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	c.Size = image.Pt(w, h)
	if o.Fine {
		w, h = 2*w, 2*h
		c.Size, c.Scale = image.Pt(w, h), 2*c.Scale
		r.stroke *= 2
		r.pix = grow(r.pix, 4*w*h)
		r.samples.pix, r.samples.stride = r.pix, 4*w
	} else {
		r.samples.pix, r.samples.stride = dst.Pix[dst.PixOffset(dst.Rect.Min.X, dst.Rect.Min.Y):], dst.Stride
	}
	r.camera = c
	r.inkOn = grow(r.inkOn, w*h)
	r.nearby = float32(2 / c.Scale)
	r.samples.size(w, h)
	bands := (h + bandRows - 1) / bandRows
	r.bins = grow(r.bins, bands)
	r.inked = grow(r.inked, bands)
	for i := range bands {
		r.bins[i] = r.bins[i][:0]
		r.inked[i] = r.inked[i][:0]
	}
	r.items, r.chunks, r.strokes = r.items[:0], r.chunks[:0], r.strokes[:0]
	r.veiled = false
}

// bin lists the facets that face the viewer by the bands of rows they touch.
func (r *Renderer) bin() {
	bottom := float32(r.samples.h)
	right := float32(r.samples.w)
	for i := range r.items {
		it := &r.items[i]
		pts := r.points[it.firstPoint:]
		for f := range it.thing.Surface.triangles {
			if !r.front[it.firstFacet+f] {
				continue
			}
			t := &it.thing.Surface.triangles[f].point
			a, b, c := &pts[t[0]], &pts[t[1]], &pts[t[2]]
			top, low := min(a.y, b.y, c.y), max(a.y, b.y, c.y)
			if !(low > 0 && top < bottom && max(a.x, b.x, c.x) > 0 && min(a.x, b.x, c.x) < right) {
				continue
			}
			first, last := int(max(top, 0))/bandRows, int(min(low, bottom-1))/bandRows
			for k := first; k <= last; k++ {
				r.bins[k] = append(r.bins[k], entry{int32(i), int32(f)})
			}
		}
	}
}

// paint fills one band: background, then facets.
func (r *Renderer) paint(band int) {
	top, bottom := band*bandRows, min((band+1)*bandRows, r.samples.h)
	p := &r.scene.Palette
	for y := top; y < bottom; y++ {
		at := (float64(y) + 0.5) / float64(r.samples.h)
		r.samples.clear(y, mix(p.Top, p.Bottom, at))
		if r.veiled {
			r.veil.clear(y, color.NRGBA{})
		}
	}
	for _, e := range r.bins[band] {
		it := &r.items[e.item]
		into := &r.samples
		if it.thing.Style != Solid {
			into = &r.veil
		}
		r.fill(into, it, e.facet, top, bottom)
	}
}

// ink finishes one band: ground, edges, veil, lines; then gathers samples.
func (r *Renderer) ink(band int) {
	top, bottom := band*bandRows, min((band+1)*bandRows, r.samples.h)
	veil := r.veiled
	clear(r.inkOn[top*r.samples.w : bottom*r.samples.w])
	for _, k := range r.inked[band] {
		s := &r.strokes[k]
		if veil && s.layer > layerSolid {
			r.samples.lay(&r.veil, r.nearby, top, bottom)
			clear(r.inkOn[top*r.samples.w : bottom*r.samples.w])
			veil = false
		}
		r.drawStroke(s, top, bottom)
	}
	if veil {
		r.samples.lay(&r.veil, r.nearby, top, bottom)
	}
	if r.fine {
		r.gather(top/2, bottom/2)
	}
}

// gather averages the samples of rows of the picture.
func (r *Renderer) gather(top, bottom int) {
	w := r.dst.Rect.Dx()
	for y := top; y < bottom; y++ {
		upper := r.pix[2*y*r.samples.stride:][: 8*w : 8*w]
		lower := r.pix[(2*y+1)*r.samples.stride:][: 8*w : 8*w]
		out := r.dst.Pix[r.dst.PixOffset(r.dst.Rect.Min.X, r.dst.Rect.Min.Y+y):][: 4*w : 4*w]
		for x := range w {
			u, l, o := upper[8*x:8*x+8], lower[8*x:8*x+8], out[4*x:4*x+4]
			o[0] = uint8((uint32(u[0]) + uint32(u[4]) + uint32(l[0]) + uint32(l[4]) + 2) / 4)
			o[1] = uint8((uint32(u[1]) + uint32(u[5]) + uint32(l[1]) + uint32(l[5]) + 2) / 4)
			o[2] = uint8((uint32(u[2]) + uint32(u[6]) + uint32(l[2]) + uint32(l[6]) + 2) / 4)
			o[3] = 0xFF
		}
	}
}

// grow returns s with length n, keeping its elements and, where it can, its
// memory.
func grow[T any](s []T, n int) []T {
	if cap(s) >= n {
		return s[:n]
	}
	out := make([]T, n, n+n/4)
	copy(out, s[:cap(s)])
	return out
}
