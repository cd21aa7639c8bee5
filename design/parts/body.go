package parts

import (
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/outline"
)

// Body is what a part or a piece of it weighs in at.
type Body struct {
	Volume  float64     // mm³ of the solid shape, what its mesh encloses
	Plastic float64     // mm³ once printed, with hollow cores only partly filled
	Centre  r3.Vec      // of the plastic, mm
	Inertia mesh.Tensor // of the plastic about Centre, mm⁵: times the density
}

// at is the body moved by a pose.
func (b Body) at(p mesh.Pose) Body {
	b.Centre = p.Apply(b.Centre)
	b.Inertia = turnedTensor(b.Inertia, p)
	return b
}

// turnedTensor is an inertia in the axes that a pose turns its own axes into.
func turnedTensor(t mesh.Tensor, p mesh.Pose) mesh.Tensor {
	m := [3][3]float64{{t.XX, t.XY, t.ZX}, {t.XY, t.YY, t.YZ}, {t.ZX, t.YZ, t.ZZ}}
	axes := [3]r3.Vec{p.X, p.Y, p.Z}
	part := func(v r3.Vec, i int) float64 { return [3]float64{v.X, v.Y, v.Z}[i] }
	entry := func(i, k int) (sum float64) {
		for a := range 3 {
			for b := range 3 {
				sum += part(axes[a], i) * m[a][b] * part(axes[b], k)
			}
		}
		return sum
	}
	return mesh.Tensor{XX: entry(0, 0), YY: entry(1, 1), ZZ: entry(2, 2), XY: entry(0, 1), YZ: entry(1, 2), ZX: entry(2, 0)}
}

// lump gathers bodies: integrals about the origin.
type lump struct {
	volume, plastic float64
	first           r3.Vec
	second          mesh.Tensor // ∫ x², ∫ xy, ... of the plastic
}

// slab adds (or, with sign -1, takes away) a prism over a plane region between two levels, of which the share fill is plastic.
func (l *lump) slab(m outline.Section, low, high, fill, sign float64) {
	l.prism(m, low, high, sign, sign*fill)
}

func (l *lump) prism(m outline.Section, low, high, volume, plastic float64) {
	h := high - low
	l.sheet(m, (low+high)/2, volume*h, plastic*h)
	l.second.ZZ += m.Area * plastic * h * h * h / 12
}

// sheet adds a plane region at a level with so many mm of volume and of plastic over it.
func (l *lump) sheet(m outline.Section, z, volume, plastic float64) {
	l.volume += volume * m.Area
	c, v := m.Centroid, plastic*m.Area
	l.plastic += v
	l.first = r3.Add(l.first, r3.Vec{X: c.X * v, Y: c.Y * v, Z: z * v})
	l.second.XX += m.Iyy*plastic + c.X*c.X*v
	l.second.YY += m.Ixx*plastic + c.Y*c.Y*v
	l.second.ZZ += z * z * v
	l.second.XY += m.Ixy*plastic + c.X*c.Y*v
	l.second.YZ += c.Y * z * v
	l.second.ZX += c.X * z * v
}

// add puts a body among the others.
func (l *lump) add(b Body) {
	l.volume += b.Volume
	l.plastic += b.Plastic
	l.first = r3.Add(l.first, r3.Scale(b.Plastic, b.Centre))
	half := (b.Inertia.XX + b.Inertia.YY + b.Inertia.ZZ) / 2
	c := b.Centre
	l.second.XX += half - b.Inertia.XX + b.Plastic*c.X*c.X
	l.second.YY += half - b.Inertia.YY + b.Plastic*c.Y*c.Y
	l.second.ZZ += half - b.Inertia.ZZ + b.Plastic*c.Z*c.Z
	l.second.XY += b.Plastic*c.X*c.Y - b.Inertia.XY
	l.second.YZ += b.Plastic*c.Y*c.Z - b.Inertia.YZ
	l.second.ZX += b.Plastic*c.Z*c.X - b.Inertia.ZX
}

func (l *lump) body() Body {
	b := Body{Volume: l.volume, Plastic: l.plastic}
	if !(l.plastic > 0) {
		return b
	}
	c := r3.Scale(1/l.plastic, l.first)
	s := l.second
	s.XX -= l.plastic * c.X * c.X
	s.YY -= l.plastic * c.Y * c.Y
	s.ZZ -= l.plastic * c.Z * c.Z
	b.Centre = c
	b.Inertia = mesh.Tensor{
		XX: s.YY + s.ZZ, YY: s.ZZ + s.XX, ZZ: s.XX + s.YY,
		XY: l.plastic*c.X*c.Y - s.XY, YZ: l.plastic*c.Y*c.Z - s.YZ, ZX: l.plastic*c.Z*c.X - s.ZX,
	}
	return b
}

func together(bodies ...Body) Body {
	var l lump
	for _, b := range bodies {
		l.add(b)
	}
	return l.body()
}

// Shell is how a plate is filled: solid plastic under each face and along each edge in mm, and the share of the core between them
// that is infill. A plate no thicker than two faces is solid.
type Shell struct{ Face, Edge, Infill float64 }

// plate adds a plate between two levels, its core hollowed out as the shell says.
func (l *lump) plate(o outline.Outline, low, high float64, s Shell) {
	m := measure(o)
	l.slab(m.Section, low, high, 1, 1)
	core := m.without(s.Edge)
	if high-low <= 2*s.Face || core == 0 {
		return
	}
	k := core / m.Area // the core has the plate's middle and its proportions
	c := m.Section
	c.Area *= k
	c.Ixx *= k * k
	c.Iyy *= k * k
	c.Ixy *= k * k
	l.prism(c, low+s.Face, high-s.Face, 0, s.Infill-1)
}
