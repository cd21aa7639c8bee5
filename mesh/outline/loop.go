package outline

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Length returns the length of the loop in mm.
func (l Loop) Length() float64 {
	sum := 0.0
	for _, e := range l.edges {
		sum += e.length()
	}
	return sum
}

// Box returns the smallest box around the loop, bulges included.
func (l Loop) Box() r2.Box {
	if len(l) == 0 {
		return r2.Box{}
	}
	b := r2.Box{Min: r2.Vec{X: l[0].X, Y: l[0].Y}, Max: r2.Vec{X: l[0].X, Y: l[0].Y}}
	grow := func(v r2.Vec) {
		b.Min = r2.Vec{X: min(b.Min.X, v.X), Y: min(b.Min.Y, v.Y)}
		b.Max = r2.Vec{X: max(b.Max.X, v.X), Y: max(b.Max.Y, v.Y)}
	}
	for _, e := range l.edges {
		grow(e.p)
		if e.sweep == 0 {
			continue
		}
		c, r := r2.Sub(e.p, e.arm), math.Abs(e.radius)
		for _, v := range []r2.Vec{{X: r}, {Y: r}, {X: -r}, {Y: -r}} {
			if e.covers(r2.Sub(v, e.arm)) {
				grow(r2.Add(c, v))
			}
		}
	}
	return b
}

// Contains reports whether the loop winds around p, whichever way it runs.
// Within rounding of the loop itself the answer is either.
func (l Loop) Contains(p r2.Vec) bool {
	n := 0
	for _, e := range l.edges {
		n += e.winding(p)
	}
	return n != 0
}

// Contains reports whether p lies in the region: inside Outer, in no hole.
func (o Outline) Contains(p r2.Vec) bool {
	if !o.Outer.Contains(p) {
		return false
	}
	for _, h := range o.Holes {
		if h.Contains(p) {
			return false
		}
	}
	return true
}

// Distance returns the distance in mm from p to the loop, negative inside.
// It is +Inf for an empty loop.
func (l Loop) Distance(p r2.Vec) float64 {
	if l.Contains(p) {
		return -l.nearest(p)
	}
	return l.nearest(p)
}

// Distance returns the distance in mm from p to the rim of the region,
// negative inside the region. It is +Inf for an empty outline.
func (o Outline) Distance(p r2.Vec) float64 {
	d := o.Outer.nearest(p)
	for _, h := range o.Holes {
		d = min(d, h.nearest(p))
	}
	if o.Contains(p) {
		return -d
	}
	return d
}

func (l Loop) nearest(p r2.Vec) float64 {
	d := math.Inf(1)
	for _, e := range l.edges {
		d = min(d, e.distance(p))
	}
	return d
}

// mostSides bounds the lines that Flatten makes of one arc.
const mostSides = 4096

// Flatten replaces arcs by chords that stray from them by no more than the
// tolerance in mm; 0 or less means 0.01 mm. An arc becomes at least one chord
// for every quarter turn and at most 4096. Corners stay where they are.
func (l Loop) Flatten(tolerance float64) Loop {
	if !(tolerance > 0) {
		tolerance = 0.01
	}
	var out Loop
	for i, e := range l.edges {
		out = append(out, Vertex{X: l[i].X, Y: l[i].Y})
		if e.sweep == 0 {
			continue
		}
		// A chord over the angle a strays by R (1 - cos(a/2)) = 2R sin²(a/4).
		step := min(math.Pi/2, 4*math.Asin(math.Sqrt(min(1, tolerance/(2*math.Abs(e.radius))))))
		n := int(min(mostSides, math.Ceil(math.Abs(e.sweep)/step-1e-9)))
		for k := 1; k < n; k++ {
			v := e.at(float64(k) / float64(n))
			out = append(out, Vertex{X: v.X, Y: v.Y})
		}
	}
	return out
}

// Flatten flattens every loop of the region (see Loop.Flatten).
func (o Outline) Flatten(tolerance float64) Outline {
	return o.each(func(l Loop) Loop { return l.Flatten(tolerance) })
}

// Translate returns the loop shifted by dx and dy in mm.
func (l Loop) Translate(dx, dy float64) Loop {
	out := make(Loop, len(l))
	for i, v := range l {
		out[i] = Vertex{v.X + dx, v.Y + dy, v.Bulge}
	}
	return out
}

// Translate returns the region shifted by dx and dy in mm.
func (o Outline) Translate(dx, dy float64) Outline {
	return o.each(func(l Loop) Loop { return l.Translate(dx, dy) })
}

// Rotate returns the loop turned counter-clockwise about the origin by an
// angle in radians. Quarter turns are exact.
func (l Loop) Rotate(angle float64) Loop {
	s, c := math.Sincos(angle)
	s, c = snap(s), snap(c)
	out := make(Loop, len(l))
	for i, v := range l {
		out[i] = Vertex{c*v.X - s*v.Y, s*v.X + c*v.Y, v.Bulge}
	}
	return out
}

// Rotate returns the region turned about the origin (see Loop.Rotate).
func (o Outline) Rotate(angle float64) Outline {
	return o.each(func(l Loop) Loop { return l.Rotate(angle) })
}

// snap rounds a sine or cosine that is a few roundings off -1, 0 or 1.
func snap(x float64) float64 {
	if r := math.Round(x); math.Abs(x-r) < 1e-15 {
		return r + 0
	}
	return x
}

// Mirror returns the mirror image in the y axis, x to -x, running the same
// way round as the loop itself.
func (l Loop) Mirror() Loop {
	out := make(Loop, len(l))
	for i, v := range l {
		out[i] = Vertex{0 - v.X, v.Y, -v.Bulge}
	}
	return out.Reverse()
}

// Mirror returns the mirror image of the region in the y axis, x to -x.
func (o Outline) Mirror() Outline { return o.each(Loop.Mirror) }

// Reverse returns the loop run the other way round.
func (l Loop) Reverse() Loop {
	n := len(l)
	out := make(Loop, n)
	for i := range l {
		out[i] = l[n-1-i]
		out[i].Bulge = 0 - l[(2*n-2-i)%n].Bulge
	}
	return out
}

func (o Outline) each(f func(Loop) Loop) Outline {
	out := Outline{Outer: f(o.Outer)}
	for _, h := range o.Holes {
		out.Holes = append(out.Holes, f(h))
	}
	return out
}
