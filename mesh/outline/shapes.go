package outline

import "math"

// quarter is the bulge of a quarter circle, tan(π/8).
const quarter = math.Sqrt2 - 1

// Plate returns the region inside outer and outside the holes, each turned to
// run the way it should.
func Plate(outer Loop, holes ...Loop) Outline {
	o := Outline{Outer: outer}
	if outer.Area() < 0 {
		o.Outer = outer.Reverse()
	}
	for _, h := range holes {
		if h.Area() > 0 {
			h = h.Reverse()
		}
		o.Holes = append(o.Holes, h)
	}
	return o
}

// Rectangle returns a rectangle of width w along x and height h along y,
// centred on the origin.
func Rectangle(w, h float64) Loop {
	x, y := w/2, h/2
	return Loop{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
}

// RoundedRectangle returns a centred rectangle with corners of radius r in mm,
// at most half the shorter side. A radius of 0 gives a Rectangle.
func RoundedRectangle(w, h, r float64) Loop {
	r = min(r, w/2, h/2)
	if r == 0 {
		return Rectangle(w, h)
	}
	x, y := w/2, h/2
	return Loop{
		{X: -x + r, Y: -y}, {X: x - r, Y: -y, Bulge: quarter},
		{X: x, Y: -y + r}, {X: x, Y: y - r, Bulge: quarter},
		{X: x - r, Y: y}, {X: -x + r, Y: y, Bulge: quarter},
		{X: -x, Y: y - r}, {X: -x, Y: -y + r, Bulge: quarter},
	}.tidy()
}

// tidy leaves out edges of no length.
func (l Loop) tidy() Loop {
	out := make(Loop, 0, len(l))
	for i, v := range l {
		if next := l[(i+1)%len(l)]; next.X != v.X || next.Y != v.Y {
			out = append(out, v)
		}
	}
	return out
}

// Circle returns a circle of radius r about the origin, in two half circles.
func Circle(r float64) Loop {
	return Loop{{X: r, Bulge: math.Copysign(1, r)}, {X: -r, Bulge: math.Copysign(1, r)}}
}

// Slot returns a slot along x with round ends, centred on the origin: length
// over all and width in mm. It is a circle where the length is no more than
// the width.
func Slot(length, width float64) Loop {
	x, r := (length-width)/2, width/2
	if x <= 0 {
		return Circle(r)
	}
	return Loop{{X: -x, Y: -r}, {X: x, Y: -r, Bulge: 1}, {X: x, Y: r}, {X: -x, Y: r, Bulge: 1}}
}

// Polygon returns a regular polygon of the given number of sides, at least
// three, and size across flats in mm (twice the inscribed radius), centred on
// the origin with a flat at the bottom. Polygon(6, s) is a hexagon for a nut
// with s across flats.
func Polygon(sides int, acrossFlats float64) Loop {
	sides = max(sides, 3)
	step := 2 * math.Pi / float64(sides)
	r := acrossFlats / 2 / math.Cos(step/2)
	out := make(Loop, sides)
	for i := range out {
		s, c := math.Sincos(-math.Pi/2 + (float64(i)-0.5)*step)
		out[i] = Vertex{X: r * c, Y: r * s}
	}
	return out
}

// Arrow returns an arrow along +x of the given length and head width in mm,
// the tip at length/2. The head is half the length, the shaft a third of the
// width.
func Arrow(length, width float64) Loop {
	x, y := length/2, width/2
	return Loop{
		{X: -x, Y: -y / 3}, {Y: -y / 3}, {Y: -y}, {X: x},
		{Y: y}, {Y: y / 3}, {X: -x, Y: y / 3},
	}
}
