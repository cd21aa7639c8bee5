package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Section is a rounded rectangle across the z axis: full sizes along x and y
// and the radius of its corners, in mm.
type Section struct{ X, Y, Radius float64 }

// TaperedPrism runs from the bottom section at z = 0 to the top section at
// z = height. Every level section is the exact rounded rectangle between the
// two: its sides, and its corner radius, go linearly.
func TaperedPrism(bottom, top Section, height float64) Node {
	for _, s := range []Section{bottom, top} {
		if !finite(s.X, s.Y, s.Radius) || s.X < 0 || s.Y < 0 || s.Radius < 0 {
			return invalid("section %g x %g mm with corners of %g mm; use sizes above 0", s.X, s.Y, s.Radius)
		}
		if s.Radius > min(s.X, s.Y)/2*(1+1e-12) {
			return invalid("corner radius %g mm in a section of %g x %g mm; use at most %g mm", s.Radius, s.X, s.Y, min(s.X, s.Y)/2)
		}
	}
	if max(bottom.X, top.X) == 0 || max(bottom.Y, top.Y) == 0 {
		return invalid("sections of %g x %g and %g x %g mm enclose nothing; use sizes above 0", bottom.X, bottom.Y, top.X, top.Y)
	}
	if !finite(height) || height <= 0 {
		return invalid("height %g mm; use a height above 0", height)
	}
	t := &taper{h: height, r: bottom.Radius, dr: (top.Radius - bottom.Radius) / height}
	t.x = max(bottom.X/2-bottom.Radius, 0)
	t.y = max(bottom.Y/2-bottom.Radius, 0)
	t.dx = (max(top.X/2-top.Radius, 0) - t.x) / height
	t.dy = (max(top.Y/2-top.Radius, 0) - t.y) / height
	t.scale = 1 / math.Hypot(1, math.Hypot(t.dx, t.dy)+math.Abs(t.dr))
	return newLeaf(t)
}

// Box is x by y by z mm.
func Box(x, y, z float64) Node { return RoundedPrism(x, y, z, 0) }

// RoundedPrism is x by y by z mm with its four upright edges rounded.
func RoundedPrism(x, y, z, radius float64) Node {
	s := Section{x, y, radius}
	return TaperedPrism(s, s, z)
}

// Cylinder is a round bar.
func Cylinder(radius, height float64) Node { return Cone(radius, radius, height) }

// Cone is a round bar with a straight taper; one radius may be 0.
func Cone(bottomRadius, topRadius, height float64) Node {
	return TaperedPrism(
		Section{2 * bottomRadius, 2 * bottomRadius, bottomRadius},
		Section{2 * topRadius, 2 * topRadius, topRadius}, height)
}

// taper is a tapered rounded prism: at level z the corners have the radius
// r + dr z about (±(x + dx z), ±(y + dy z)).
type taper struct {
	x, dx, y, dy, r, dr, h float64
	scale                  float64 // turns the level distance into a 1-Lipschitz value
}

// Faces of a taper: four sides +x, -x, +y, -y, four corners in the order
// ++, -+, +-, --, bottom and top.
const (
	taperCorner = 4
	taperBottom = 8
	taperTop    = 9
)

func (t *taper) value(p r3.Vec) (float64, int) {
	v, f := t.wall(p)
	if -p.Z > v {
		v, f = -p.Z, taperBottom
	}
	if p.Z-t.h > v {
		v, f = p.Z-t.h, taperTop
	}
	return v, f
}

// wall is the value of the taper without its ends.
func (t *taper) wall(p r3.Vec) (float64, int) {
	qx := math.Abs(p.X) - t.x - t.dx*p.Z
	qy := math.Abs(p.Y) - t.y - t.dy*p.Z
	r := t.r + t.dr*p.Z
	if qx < 0 || qy < 0 {
		return (max(qx, qy) - r) * t.scale, t.side(p, qx, qy)
	}
	v := (math.Sqrt(qx*qx+qy*qy) - r) * t.scale
	if t.r == 0 && t.dr == 0 {
		return v, t.side(p, qx, qy)
	}
	f := taperCorner
	if p.X < 0 {
		f++
	}
	if p.Y < 0 {
		f += 2
	}
	return v, f
}

// prune returns the taper with only the faces that matter in a block.
func (t *taper) prune(b block, _ float64) leaf {
	p := b.middle
	wall, _ := t.wall(p)
	if l := endOnly(t, wall, b.radius, t.h, b, taperBottom); l != nil {
		return l.inReach(b)
	}
	if wall-b.radius < max(-p.Z, p.Z-t.h)+b.half.Z {
		return t
	}
	w := taperWall{taper: t}
	qx := math.Abs(p.X) - t.x - t.dx*p.Z
	qy := math.Abs(p.Y) - t.y - t.dy*p.Z
	x, y := b.half.X+math.Abs(t.dx)*b.half.Z, b.half.Y+math.Abs(t.dy)*b.half.Z // how much those change
	inX, inY := math.Abs(p.X) > b.half.X, math.Abs(p.Y) > b.half.Y             // one half alone
	switch {
	case inX && qy < -y && qx-qy > x+y:
		w.only, w.face = alongX, t.side(p, qx, qy)
		if math.Abs(wall) > b.half.X+math.Abs(t.dx+t.dr)*b.half.Z {
			return nil
		}
	case inY && qx < -x && qy-qx > x+y:
		w.only, w.face = alongY, t.side(p, qx, qy)
		if math.Abs(wall) > b.half.Y+math.Abs(t.dy+t.dr)*b.half.Z {
			return nil
		}
	case inX && inY && qx > x && qy > y:
		_, w.face = t.wall(p)
		w.only = atCorner
	}
	return &w
}

// taperWall is a taper of which the ends do not matter, and perhaps only one
// side or corner does.
type taperWall struct {
	*taper
	only wallPart
	face int
}

type wallPart uint8

const (
	anywhere wallPart = iota
	alongX
	alongY
	atCorner
)

func (t *taperWall) value(p r3.Vec) (float64, int) {
	r := t.r + t.dr*p.Z
	switch t.only {
	case alongX:
		return (math.Abs(p.X) - t.x - t.dx*p.Z - r) * t.scale, t.face
	case alongY:
		return (math.Abs(p.Y) - t.y - t.dy*p.Z - r) * t.scale, t.face
	case atCorner:
		qx := math.Abs(p.X) - t.x - t.dx*p.Z
		qy := math.Abs(p.Y) - t.y - t.dy*p.Z
		return (math.Sqrt(qx*qx+qy*qy) - r) * t.scale, t.face
	}
	return t.wall(p)
}

// prune narrows it further.
func (t *taperWall) prune(b block, v float64) leaf {
	switch t.only {
	case anywhere:
		return t.taper.prune(b, v)
	case alongX:
		if math.Abs(v) > b.half.X+math.Abs(t.dx+t.dr)*b.half.Z {
			return nil
		}
	case alongY:
		if math.Abs(v) > b.half.Y+math.Abs(t.dy+t.dr)*b.half.Z {
			return nil
		}
	}
	return t
}

func (t *taper) side(p r3.Vec, qx, qy float64) int {
	f, c := 0, p.X
	if qy > qx {
		f, c = 2, p.Y
	}
	if c < 0 {
		f++
	}
	return f
}

func (t *taper) faces() []face {
	sides := func(sx, sy float64) plane { // outward unit normal and offset
		d := sx*sx*(t.dx+t.dr) + sy*sy*(t.dy+t.dr)
		k := 1 / math.Hypot(1, d)
		return plane{r3.Vec{X: k * sx, Y: k * sy, Z: -k * d}, k * (sx*sx*(t.x+t.r) + sy*sy*(t.y+t.r))}
	}
	f := []face{
		{surface: sides(1, 0), part: "side +x"}, {surface: sides(-1, 0), part: "side -x"},
		{surface: sides(0, 1), part: "side +y"}, {surface: sides(0, -1), part: "side -y"},
	}
	for i, name := range []string{"corner +x +y", "corner -x +y", "corner +x -y", "corner -x -y"} {
		sx, sy := 1-2*float64(i&1), 1-2*float64(i>>1)
		f = append(f, face{part: name, surface: sector{
			cx: sx * t.x, dx: sx * t.dx, cy: sy * t.y, dy: sy * t.dy, r: t.r, dr: t.dr,
			mx: sx * math.Sqrt2 / 2, my: sy * math.Sqrt2 / 2, widest: max(t.r, t.r+t.dr*t.h),
		}})
	}
	f = append(f, face{surface: plane{r3.Vec{Z: -1}, 0}, part: "bottom"}, face{surface: plane{r3.Vec{Z: 1}, t.h}, part: "top"})
	// The seams of a corner: planes through its axis, along y and along x.
	for i := range 4 {
		sx, sy := 1-2*float64(i&1), 1-2*float64(i>>1)
		ky, kx := 1/math.Hypot(1, t.dy), 1/math.Hypot(1, t.dx)
		atX := plane{r3.Vec{Y: ky * sy, Z: -ky * t.dy}, ky * t.y}
		atY := plane{r3.Vec{X: kx * sx, Z: -kx * t.dx}, kx * t.x}
		join := func(a, b int, cut surface) {
			f[a].seams = append(f[a].seams, seam{b, cut})
			f[b].seams = append(f[b].seams, seam{a, cut})
		}
		join(taperCorner+i, i&1, atX)
		join(taperCorner+i, 2+i>>1, atY)
		if i&1 == 0 && t.x == 0 && t.dx == 0 { // no side between two corners
			join(taperCorner+i, taperCorner+i+1, atY)
		}
		if i < 2 && t.y == 0 && t.dy == 0 {
			join(taperCorner+i, taperCorner+i+2, atX)
		}
	}
	return f
}

// round reports whether all level sections are circles.
func (t *taper) round() bool {
	return t.x == 0 && t.dx == 0 && t.y == 0 && t.dy == 0 && max(t.r, t.dr) > 0
}

func (t *taper) box() r3.Box {
	x := max(t.x+t.r, t.x+t.r+(t.dx+t.dr)*t.h)
	y := max(t.y+t.r, t.y+t.r+(t.dy+t.dr)*t.h)
	return r3.Box{Min: r3.Vec{X: -x, Y: -y}, Max: r3.Vec{X: x, Y: y, Z: t.h}}
}

func (t *taper) requests() []request {
	b := t.box()
	x := 2 * min(t.x+t.r, t.x+t.r+(t.dx+t.dr)*t.h)
	y := 2 * min(t.y+t.r, t.y+t.r+(t.dy+t.dr)*t.h)
	if x < 0.05*(b.Max.X-b.Min.X) { // a tip
		x = 0.2 * (b.Max.X - b.Min.X)
	}
	if y < 0.05*(b.Max.Y-b.Min.Y) {
		y = 0.2 * (b.Max.Y - b.Min.Y)
	}
	all := []request{{b, r3.Vec{X: x * cellsPerWidth, Y: y * cellsPerWidth, Z: t.h * cellsPerWidth}}}
	if t.r == 0 && t.dr == 0 {
		return all
	}
	none := math.Inf(1)
	r := min(t.r, t.r+t.dr*t.h)
	if tall := max(t.r, t.r+t.dr*t.h); r < 0.1*tall {
		r = 0.3 * tall
	}
	rim := r3.Vec{X: r * cellsPerArc, Y: r * cellsPerArc, Z: none}
	cx0, cx1 := min(t.x, t.x+t.dx*t.h), b.Max.X
	cy0, cy1 := min(t.y, t.y+t.dy*t.h), b.Max.Y
	for i := range 4 {
		c := r3.Box{Min: r3.Vec{X: cx0, Y: cy0}, Max: r3.Vec{X: cx1, Y: cy1, Z: t.h}}
		if i&1 == 1 {
			c.Min.X, c.Max.X = -cx1, -cx0
		}
		if i>>1 == 1 {
			c.Min.Y, c.Max.Y = -cy1, -cy0
		}
		all = append(all, request{c, rim})
	}
	return all
}

// slopes asks for spacings across sides that slope, as a chamfer's. On a bar
// that is not tilted the spacing along it shows them. They are asked for all
// along the sides, or at their ends only: where a bar stands askew a side
// would ask for planes all over the part.
func (t *taper) slopes(all bool) []request {
	const sloping = 0.25
	var asked []request
	b, none := t.box(), math.Inf(1)
	in := 0.15 * max(t.r, t.r+t.dr*t.h) // towards the corners
	ends := func(far, corner float64) [][2]float64 {
		if all || corner <= 0 {
			return [][2]float64{{-far, far}}
		}
		return [][2]float64{{-far, -corner}, {corner, far}}
	}
	for _, sign := range []float64{-1, 1} {
		if d := t.dx + t.dr; math.Abs(d) > sloping {
			for _, y := range ends(b.Max.Y, min(t.y, t.y+t.dy*t.h)-in) {
				asked = append(asked, request{
					r3.NewBox(sign*(min(t.x+t.r, t.x+t.r+d*t.h)-in), y[0], 0, sign*b.Max.X, y[1], t.h),
					r3.Vec{X: cellsPerWidth * math.Abs(d) * t.h, Y: none, Z: none}})
			}
		}
		if d := t.dy + t.dr; math.Abs(d) > sloping {
			for _, x := range ends(b.Max.X, min(t.x, t.x+t.dx*t.h)-in) {
				asked = append(asked, request{
					r3.NewBox(x[0], sign*(min(t.y+t.r, t.y+t.r+d*t.h)-in), 0, x[1], sign*b.Max.Y, t.h),
					r3.Vec{X: none, Y: cellsPerWidth * math.Abs(d) * t.h, Z: none}})
			}
		}
	}
	return asked
}

// Grid spacings that show a face: a share of the width of a bar or step, a
// share of the radius of a quarter turn, a share of a wall between two bars.
const (
	cellsPerWidth = 0.45
	cellsPerArc   = 0.7
	cellsPerWall  = 0.6
)
