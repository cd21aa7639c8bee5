package pen

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"mastwright/app/desktop/look"
)

// Raster is a pen for pixels. Once warm it allocates nothing. One goroutine at a time.
type Raster struct {
	Image *image.RGBA // opaque
	Scale float64     // pixels of the image per pixel at scale 1; 0 means 1

	faces  faces
	shape  vector.Rasterizer
	colour paint
	source image.Uniform
	path   []Spot
	side   []Spot
	drawer font.Drawer
}

// paint is a colour that can be changed without another one being made.
type paint struct{ r, g, b, a uint32 }

func (c *paint) RGBA() (r, g, b, a uint32) { return c.r, c.g, c.b, c.a }

func (r *Raster) scale() float64 {
	if r.Scale > 0 {
		return r.Scale
	}
	return 1
}

func (r *Raster) dip(c color.NRGBA) image.Image {
	r.colour.r, r.colour.g, r.colour.b, r.colour.a = c.RGBA()
	r.source.C = &r.colour
	return &r.source
}

// Area fills a polygon.
func (r *Raster) Area(path []Spot, c color.NRGBA) {
	if len(path) < 3 || c.A == 0 {
		return
	}
	k := r.scale()
	r.path = r.path[:0]
	for _, p := range path {
		r.path = append(r.path, Spot{p.X * k, p.Y * k})
	}
	x, y, box, ok := r.begin(r.path, 0)
	if !ok {
		return
	}
	r.polygon(r.path, x, y)
	r.shape.Draw(r.Image, box, r.dip(c), image.Point{})
}

// Line draws a chain.
func (r *Raster) Line(path []Spot, s Stroke) {
	if len(path) < 2 || s.Colour.A == 0 || s.Width <= 0 {
		return
	}
	k := r.scale()
	r.path = r.path[:0]
	for _, p := range path {
		r.path = append(r.path, Spot{p.X * k, p.Y * k})
	}
	half := s.Width * k / 2
	x, y, box, ok := r.begin(r.path, half+1)
	if !ok {
		return
	}
	if s.Dash > 0 {
		r.dash(s.Dash*k, half, x, y)
	} else {
		r.ribbon(half, x, y)
	}
	r.shape.Draw(r.Image, box, r.dip(s.Colour), image.Point{})
}

// Words writes a line of text.
func (r *Raster) Words(at Spot, text string, l Letters) {
	if text == "" || r.Image == nil {
		return
	}
	k := r.scale()
	r.drawer.Dst, r.drawer.Src, r.drawer.Face = r.Image, r.dip(l.Colour), r.faces.of(l.Font, k)
	x := at.X * k
	if l.Align != Left {
		w := float64(r.drawer.MeasureString(text)) / 64
		if l.Align == Middle {
			w /= 2
		}
		x -= w
	}
	r.drawer.Dot = fixed.Point26_6{X: fixed.Int26_6(math.Round(x) * 64), Y: fixed.Int26_6(math.Round(at.Y*k) * 64)}
	r.drawer.DrawString(text)
}

// Width returns how wide a text is.
func (r *Raster) Width(text string, f look.Font) float64 { return r.faces.width(text, f) }

// begin readies the rasteriser for a path: for the part of the image it may touch.
func (r *Raster) begin(path []Spot, margin float64) (x, y float64, box image.Rectangle, ok bool) {
	if r.Image == nil {
		return 0, 0, box, false
	}
	low, high := path[0], path[0]
	for _, p := range path {
		low, high = Spot{min(low.X, p.X), min(low.Y, p.Y)}, Spot{max(high.X, p.X), max(high.Y, p.Y)}
	}
	if !(math.Abs(low.X) < 1e6 && math.Abs(low.Y) < 1e6 && math.Abs(high.X) < 1e6 && math.Abs(high.Y) < 1e6) {
		return 0, 0, box, false
	}
	box = image.Rect(int(math.Floor(low.X-margin)), int(math.Floor(low.Y-margin)), int(math.Ceil(high.X+margin))+1, int(math.Ceil(high.Y+margin))+1)
	box = box.Intersect(r.Image.Rect)
	if box.Empty() {
		return 0, 0, box, false
	}
	r.shape.Reset(box.Dx(), box.Dy())
	return float64(box.Min.X), float64(box.Min.Y), box, true
}

func (r *Raster) polygon(path []Spot, x, y float64) {
	r.shape.MoveTo(float32(path[0].X-x), float32(path[0].Y-y))
	for _, p := range path[1:] {
		r.shape.LineTo(float32(p.X-x), float32(p.Y-y))
	}
	r.shape.ClosePath()
}

// bar adds the four corners of a straight piece; every piece turns the same way, so that overlaps do not cancel.
func (r *Raster) bar(a, b Spot, half, x, y float64) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long < 1e-9 {
		return
	}
	u, v := half*(b.X-a.X)/long, half*(b.Y-a.Y)/long
	r.shape.MoveTo(float32(a.X-v-x), float32(a.Y+u-y))
	r.shape.LineTo(float32(a.X+v-x), float32(a.Y-u-y))
	r.shape.LineTo(float32(b.X+v-x), float32(b.Y-u-y))
	r.shape.LineTo(float32(b.X-v-x), float32(b.Y+u-y))
	r.shape.ClosePath()
}

// ribbon adds the outline of the kept path at a width, in one piece: mitred where it bends gently, bevelled where it bends sharply.
func (r *Raster) ribbon(half, x, y float64) {
	path := r.path[:1]
	for _, p := range r.path[1:] { // points that repeat have no direction
		if q := path[len(path)-1]; math.Hypot(p.X-q.X, p.Y-q.Y) > 1e-6 {
			path = append(path, p)
		}
	}
	if len(path) < 2 {
		return
	}
	r.side = r.side[:0]
	r.edge(path, half)
	for i, j := 0, len(path)-1; i < j; i, j = i+1, j-1 {
		path[i], path[j] = path[j], path[i]
	}
	r.edge(path, half)
	r.polygon(r.side, x, y)
}

// edge appends the points to the left of a path.
func (r *Raster) edge(path []Spot, half float64) {
	normal := func(a, b Spot) Spot {
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		return Spot{half * (b.Y - a.Y) / long, -half * (b.X - a.X) / long}
	}
	last := len(path) - 1
	for i, p := range path {
		n, m := Spot{}, Spot{}
		switch {
		case i == 0:
			n = normal(p, path[1])
		case i == last:
			n = normal(path[last-1], p)
		default:
			n, m = normal(path[i-1], p), normal(p, path[i+1])
			if share := 1 + (n.X*m.X+n.Y*m.Y)/(half*half); share > 0.7 {
				n, m = Spot{(n.X + m.X) / share, (n.Y + m.Y) / share}, Spot{}
			}
		}
		r.side = append(r.side, p.Plus(n.X, n.Y))
		if m != (Spot{}) {
			r.side = append(r.side, p.Plus(m.X, m.Y))
		}
	}
}

// dash adds the dashes of the kept path.
func (r *Raster) dash(dash, half, x, y float64) {
	done := 0.0
	for i := 1; i < len(r.path); i++ {
		a, b := r.path[i-1], r.path[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		for at := 0.0; at < long; {
			phase := math.Mod(done+at, 2*dash)
			left := dash - phase
			on := left > 0
			if !on {
				left += dash
			}
			to := min(at+max(left, 1e-3), long)
			if on {
				r.bar(between(a, b, at/long), between(a, b, to/long), half, x, y)
			}
			at = to
		}
		done += long
	}
}

func between(a, b Spot, t float64) Spot { return Spot{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)} }
