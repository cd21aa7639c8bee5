package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Side says on which side of a plane across a stem the material of a fillet
// lies, along the stem's own axis.
type Side int

const (
	Above Side = iota // a mast that stands on a plate
	Below             // a mast that ends under a tray
)

// Fillet is the ring of material that a ball of the given radius leaves
// between a stem and a plane across it. The stem is a prism, cylinder or
// cone, placed anywhere; level is the height of the plane in mm from the
// stem's foot. Unite it with the stem and the plate before boring the stem.
func Fillet(stem Node, level float64, side Side, radius float64) Node {
	t, bad := stemOf(stem, level, side, radius, "fillet radius")
	if t == nil {
		return bad
	}
	b := t.leaf.(*taper)
	s := 1.0
	if side == Below {
		s = -1
	}
	f := &fillet{stem: b, level: level, s: s, ball: radius}
	f.x, f.gx = b.x+b.dx*level, s*b.dx
	f.y, f.gy = b.y+b.dy*level, s*b.dy
	f.r, f.gr = b.r+b.dr*level, s*b.dr
	f.onX, f.onY, f.diagonal = f.spine(0, 1), f.spine(1, 0), f.spine(math.Sqrt2/2, math.Sqrt2/2)
	for _, q := range []float64{0, math.Pi / 8, math.Pi / 4, 3 * math.Pi / 8, math.Pi / 2} {
		f.rise = max(f.rise, f.spine(math.Sincos(q)).contact)
	}
	if end := level + s*f.rise; end < 0 || end > b.h {
		return invalid("fillet radius %g mm touches the stem at %.4g mm, beyond its ends at 0 and %g mm; use a smaller radius or a longer stem", radius, end, b.h)
	}
	return Node{&tree{leaf: f, pose: t.pose, name: t.name}}
}

// Chamfer is the straight flare round a stem, filled to the stem's axis: leg
// mm wide on the plane and leg mm tall. See Fillet for stem, level and side.
func Chamfer(stem Node, level float64, side Side, leg float64) Node {
	t, bad := stemOf(stem, level, side, leg, "chamfer leg")
	if t == nil {
		return bad
	}
	b := t.leaf.(*taper)
	section := func(z, out float64) Section {
		r := max(b.r+b.dr*z, 0)
		s := Section{X: 2 * (max(b.x+b.dx*z, 0) + r + out), Y: 2 * (max(b.y+b.dy*z, 0) + r + out), Radius: r}
		if b.r > 0 || b.dr != 0 {
			s.Radius += out
		}
		return s
	}
	low, flare := level, TaperedPrism(section(level, leg), section(level+leg, 0), leg)
	if side == Below {
		low, flare = level-leg, TaperedPrism(section(level-leg, 0), section(level, leg), leg)
	}
	if low < 0 || low+leg > b.h {
		return invalid("chamfer leg %g mm reaches beyond the stem's ends at 0 and %g mm; use a smaller leg or a longer stem", leg, b.h)
	}
	return Place(flare, mesh.Move(r3.Vec{Z: low}).Then(t.pose))
}

func stemOf(stem Node, level float64, side Side, size float64, what string) (*tree, Node) {
	if err := stem.Err(); err != nil {
		return nil, stem
	}
	if stem.t == nil || stem.t.op != primitive {
		return nil, invalid("%s on a stem of several solids; use a prism, cylinder or cone", what)
	}
	if _, ok := stem.t.leaf.(*taper); !ok {
		return nil, invalid("%s on a stem that is no prism; use a prism, cylinder or cone", what)
	}
	if !finite(size, level) || size <= 0 {
		return nil, invalid("%s %g mm at level %g mm; use a size above 0 and a finite level", what, size, level)
	}
	if side != Above && side != Below {
		return nil, invalid("%s on side %d; use Above or Below", what, side)
	}
	return stem.t, Node{}
}

// fillet works in the folded quadrant |x|, |y| and the height h above the
// plane, where the stem's corner has radius r + gr h about (x + gx h, y + gy h).
type fillet struct {
	stem                *taper
	level, s, ball      float64
	x, gx, y, gy, r, gr float64
	rise                float64 // greatest height of the contact with the stem
	onX, onY, diagonal  spine   // along the sides, and half-way between
}

// Faces of a fillet: four sides and four corners as a taper's, the plane, the
// stem's sides and corners, and those seen from within the stem.
const (
	filletPlane = 8
	filletStem  = 9
	filletInner = 17
)

// spine is where the ball's centre is when it touches the stem where that
// looks in the level direction (c, s): the centre, the stem's outward slope
// there and the height of the contact. The centre's path is square to the
// direction, as the surface offset by the ball's radius has the same normals.
type spine struct{ cx, cy, c, s, slope, k, contact float64 }

func (f *fillet) spine(sin, cos float64) spine {
	m := f.gx*cos + f.gy*sin + f.gr
	k := 1 / math.Sqrt(1+m*m)
	h := f.ball * (1 + m*k)
	r := f.r + f.gr*h + f.ball*k
	return spine{f.x + f.gx*h + r*cos, f.y + f.gy*h + r*sin, cos, sin, m, k, h}
}

// nearest returns the spine next to a folded point of a corner.
func (f *fillet) nearest(x, y float64) spine {
	s := f.diagonal
	for range 40 {
		r := f.r + f.gr*s.contact + f.ball*s.k
		dx, dy := x-(s.cx-r*s.c), y-(s.cy-r*s.s)
		d := math.Sqrt(dx*dx + dy*dy)
		if d == 0 {
			return s
		}
		dx, dy = dx/d, dy/d
		moved := math.Abs(dx-s.c) + math.Abs(dy-s.s)
		s = f.spine(dy, dx)
		if moved < 1e-5 { // out and the value are stationary in the direction
			break
		}
	}
	return s
}

// piece returns the face next to a folded point, with its spine.
func (f *fillet) piece(x, y float64) (int, spine) {
	a, b := &f.onX, &f.onY
	onX, onY := y < a.cy, x < b.cx
	switch {
	case onX && (!onY || x-a.cx >= y-b.cy):
		return 0, *a
	case onY:
		return 2, *b
	}
	return taperCorner, f.nearest(x, y)
}

func (f *fillet) value(p r3.Vec) (float64, int) { return f.within(p, everyTerm) }

// term is one of the bodies that a fillet is the intersection of.
type term uint8

const (
	roundTerm term = 1 << iota // outside the ball and within its reach
	planeTerm                  // above the plane
	innerTerm                  // outside the stem
	upperTerm                  // below the contact with the stem
	everyTerm = roundTerm | planeTerm | innerTerm | upperTerm
)

// within returns the value by some of the terms.
func (f *fillet) within(p r3.Vec, of term) (float64, int) {
	h := f.s * (p.Z - f.level)
	v, i := math.Inf(-1), 0
	var s spine
	var out float64
	if of&(roundTerm|upperTerm) != 0 {
		i, s = f.piece(math.Abs(p.X), math.Abs(p.Y))
		out = (math.Abs(p.X)-s.cx)*s.c + (math.Abs(p.Y)-s.cy)*s.s
	}
	if of&roundTerm != 0 {
		v = max(f.ball-math.Sqrt(out*out+(h-f.ball)*(h-f.ball)), out)
		if i != 2 && p.X < 0 {
			i++
		}
		if i >= 2 && p.Y < 0 {
			if i == 2 {
				i++
			} else {
				i += 2
			}
		}
	}
	if of&planeTerm != 0 && -h > v {
		v, i = -h, filletPlane
	}
	if of&(innerTerm|upperTerm) == 0 {
		return v, i
	}
	wall, j := f.stem.wall(p)
	if of&innerTerm != 0 && -wall > v {
		v, i = -wall, filletInner+j
	}
	if of&upperTerm != 0 {
		if above := (out*s.slope + h - f.ball) * s.k; min(above, wall) > v {
			v, i = min(above, wall), filletStem+j
		}
	}
	return v, i
}

// prune returns the fillet with only the terms that matter in a block.
func (f *fillet) prune(b block, v float64) leaf { return f.pruned(b, v, everyTerm) }

func (f *fillet) pruned(b block, v float64, of term) leaf {
	kept := of
	for t := roundTerm; t <= upperTerm; t <<= 1 {
		if of&t == 0 {
			continue
		}
		change := b.radius
		if t == planeTerm {
			change = b.half.Z
		}
		if w, _ := f.within(b.middle, t); w+change < v-b.radius {
			kept &^= t
		}
	}
	if kept == planeTerm && math.Abs(v) > b.half.Z {
		return nil
	}
	return &filletPart{f, kept}
}

// filletPart is a fillet of which only some terms matter.
type filletPart struct {
	*fillet
	of term
}

func (f *filletPart) value(p r3.Vec) (float64, int) { return f.within(p, f.of) }

func (f *filletPart) prune(b block, v float64) leaf {
	if f.of == planeTerm {
		if math.Abs(v) > b.half.Z {
			return nil
		}
		return f
	}
	if f.of&(f.of-1) == 0 {
		return f
	}
	return f.pruned(b, v, f.of)
}

func (f *fillet) faces() []face {
	all := make([]face, filletStem, filletInner+8)
	names := [8]string{"side +x", "side -x", "side +y", "side -y", "corner +x +y", "corner -x +y", "corner +x -y", "corner -x -y"}
	for i := range 8 {
		all[i] = face{surface: canal{f, i, onBall}, part: "fillet " + names[i]}
	}
	all[filletPlane] = face{surface: plane{r3.Vec{Z: -f.s}, -f.s * f.level}, part: "fillet plane"}
	for _, g := range f.stem.faces()[:8] {
		all = append(all, face{surface: g.surface, part: g.part})
	}
	for _, g := range all[filletStem:filletInner] {
		all = append(all, face{surface: back{g.surface}, part: g.part})
	}
	join := func(a, b int, cut surface) {
		all[a].seams = append(all[a].seams, seam{b, cut})
		all[b].seams = append(all[b].seams, seam{a, cut})
	}
	for i := range 8 {
		join(i, filletPlane, canal{f, i, onPlane})
		join(i, filletStem+i, canal{f, i, onStem})
		join(i, filletInner+i, canal{f, i, onStem})
	}
	a, b := f.onX, f.onY
	for i := range 4 {
		sx, sy := 1-2*float64(i&1), 1-2*float64(i>>1)
		atX, atY := plane{r3.Vec{Y: sy}, a.cy}, plane{r3.Vec{X: sx}, b.cx}
		join(taperCorner+i, i&1, atX)
		join(taperCorner+i, 2+i>>1, atY)
		if i&1 == 0 && b.cx == 0 {
			join(taperCorner+i, taperCorner+i+1, atY)
		}
		if i < 2 && a.cy == 0 {
			join(taperCorner+i, taperCorner+i+2, atX)
		}
	}
	return all
}

func (f *fillet) box() r3.Box {
	x, y := f.onX.cx, f.onY.cy
	return r3.NewBox(-x, -y, f.level, x, y, f.level+f.s*f.rise)
}

// outline returns points all around where the fillet runs out on its plane.
func (f *fillet) outline() []r3.Vec {
	const turns, straights = 16, 6 // of a corner, along half a side
	var quarter []r3.Vec
	for i := range straights {
		quarter = append(quarter, r3.Vec{X: f.onX.cx, Y: f.onX.cy * float64(i) / straights, Z: f.level})
	}
	for i := range turns + 1 {
		s := f.spine(math.Sincos(math.Pi / 2 * float64(i) / turns))
		quarter = append(quarter, r3.Vec{X: s.cx, Y: s.cy, Z: f.level})
	}
	for i := range straights {
		quarter = append(quarter, r3.Vec{X: f.onY.cx * float64(straights-1-i) / straights, Y: f.onY.cy, Z: f.level})
	}
	var all []r3.Vec
	for q := range 4 {
		sx, sy := 1-2*float64(q&1^q>>1), 1-2*float64(q>>1)
		for i := range quarter {
			p := quarter[i]
			if q&1 == 1 { // the turn goes on
				p = quarter[len(quarter)-1-i]
			}
			all = append(all, r3.Vec{X: sx * p.X, Y: sy * p.Y, Z: p.Z})
		}
	}
	return all
}

func (f *fillet) requests() []request {
	s, none := f.ball*cellsPerArc, math.Inf(1)
	b := f.box()
	all := []request{{b, r3.Vec{X: none, Y: none, Z: s}}}
	x, y := min(f.x, f.x+f.gx*f.rise), min(f.y, f.y+f.gy*f.rise) // where the corners begin
	return append(all,
		request{r3.Box{Min: r3.Vec{X: x, Y: b.Min.Y, Z: b.Min.Z}, Max: b.Max}, r3.Vec{X: s, Y: none, Z: none}},
		request{r3.Box{Min: b.Min, Max: r3.Vec{X: -x, Y: b.Max.Y, Z: b.Max.Z}}, r3.Vec{X: s, Y: none, Z: none}},
		request{r3.Box{Min: r3.Vec{X: b.Min.X, Y: y, Z: b.Min.Z}, Max: b.Max}, r3.Vec{X: none, Y: s, Z: none}},
		request{r3.Box{Min: b.Min, Max: r3.Vec{X: b.Max.X, Y: -y, Z: b.Max.Z}}, r3.Vec{X: none, Y: s, Z: none}},
	)
}
