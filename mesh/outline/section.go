package outline

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Section holds the area integrals of a plane region. The second moments are
// about the centroid, axes parallel to x and y.
type Section struct {
	Area     float64 // mm², negative for a clockwise loop
	Centroid r2.Vec  // mm; the origin where the area is zero, and all else with it
	Ixx      float64 // ∫ y² dA in mm⁴
	Iyy      float64 // ∫ x² dA in mm⁴
	Ixy      float64 // ∫ x y dA in mm⁴
}

// Section returns the area integrals of the loop, exact to rounding for lines
// and arcs: Green's theorem turns them into integrals along the edges,
//
//	A = ∮ x dy, ∫x dA = ∮ x²/2 dy, ∫y dA = ∮ x y dy,
//	∫x² dA = ∮ x³/3 dy, ∫xy dA = ∮ x² y/2 dy, ∫y² dA = ∮ x y² dy.
func (l Loop) Section() Section { return l.moments().section() }

// Section returns the area integrals of the region, holes taken off.
func (o Outline) Section() Section {
	if len(o.Outer) == 0 {
		return Section{}
	}
	origin := r2.Vec{X: o.Outer[0].X, Y: o.Outer[0].Y}
	sum := o.Outer.momentsAbout(origin)
	for _, h := range o.Holes {
		m := h.momentsAbout(origin)
		for i := range sum.of {
			sum.of[i] += m.of[i]
		}
		sum.size += m.size
	}
	return sum.section()
}

// Area returns the enclosed area in mm², negative for a clockwise loop.
func (l Loop) Area() float64 { return l.Section().Area }

// Area returns the area of the region in mm², holes taken off.
func (o Outline) Area() float64 { return o.Section().Area }

// moments are ∫ of 1, x, y, x², xy and y² about an origin.
type moments struct {
	origin r2.Vec
	of     [6]float64
	size   float64 // sum of the sizes of what adds up to the area
}

func (l Loop) moments() moments {
	if len(l) == 0 {
		return moments{}
	}
	return l.momentsAbout(r2.Vec{X: l[0].X, Y: l[0].Y})
}

// gauss holds the abscissae in (0, 1) and weights of Gauss-Legendre integration
// with 12 points over (-1, 1). Over a quarter circle its error in the moments
// is below rounding; over a line three points would do.
// Source: M. Abramowitz, I. Stegun, "Handbook of Mathematical Functions",
// table 25.4, n = 12.
var gauss = [6][2]float64{
	{0.125233408511468915, 0.249147045813402785},
	{0.367831498998180194, 0.233492536538354809},
	{0.587317954286617447, 0.203167426723065922},
	{0.769902674194304687, 0.160078328543346226},
	{0.904117256370474857, 0.106939325995318431},
	{0.981560634246719251, 0.047175336386511827},
}

// gauss3 holds abscissae in (0, 1) and weights of the rule with three points.
var gauss3 = [3][2]float64{{0.1127016653792583, 5.0 / 18}, {0.5, 4.0 / 9}, {0.8872983346207417, 5.0 / 18}}

func (l Loop) momentsAbout(origin r2.Vec) moments {
	m := moments{origin: origin}
	add := func(x r2.Vec, dy float64) {
		m.of[0] += x.X * dy
		m.size += math.Abs(x.X * dy)
		m.of[1] += x.X * x.X / 2 * dy
		m.of[2] += x.X * x.Y * dy
		m.of[3] += x.X * x.X * x.X / 3 * dy
		m.of[4] += x.X * x.X * x.Y / 2 * dy
		m.of[5] += x.X * x.Y * x.Y * dy
	}
	for i := range l {
		e := l.edge(i)
		if e.sweep == 0 { // of a polynomial along a line three points make no error
			rise := e.q.Y - e.p.Y
			for _, g := range gauss3 {
				add(r2.Sub(e.at(g[0]), origin), rise*g[1])
			}
			continue
		}
		pieces := math.Max(1, math.Ceil(math.Abs(e.sweep)/(math.Pi/2)))
		length := e.length() / pieces
		for k := range int(pieces) {
			for _, g := range gauss {
				for _, s := range [2]float64{(1 - g[0]) / 2, (1 + g[0]) / 2} {
					at := (float64(k) + s) / pieces
					add(r2.Sub(e.at(at), origin), e.heading(at).Y*length*g[1]/2)
				}
			}
		}
	}
	return m
}

func (m moments) section() Section {
	area := m.of[0]
	if !(math.Abs(area) > 1e-13*m.size) { // nothing but rounding
		return Section{}
	}
	g := r2.Vec{X: m.of[1] / area, Y: m.of[2] / area}
	return Section{
		Area:     area,
		Centroid: r2.Add(m.origin, g),
		Ixx:      m.of[5] - area*g.Y*g.Y,
		Iyy:      m.of[3] - area*g.X*g.X,
		Ixy:      m.of[4] - area*g.X*g.Y,
	}
}
