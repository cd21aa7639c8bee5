package review

import (
	"math"

	"mastwright/design"
	"mastwright/design/frame"
	"mastwright/mesh/outline"
)

// opened returns the section of a hollow mast where the cable way opens one wall. Area, second moments and extents are those of the open
// outline. In torsion and shear a short opening does not make an open section: the closed mast above and below keeps it from warping,
// and the strips left beside the opening bend between their ends like the posts of a ladder, so that the wall bears shear like a
// thinner one,
//
//	t_eff/t = 1/(b (a² G/(2 E s³) + 1/(2 s))),
//
// for a wall of mean width b with an opening of length a between two strips of width s. Source: equivalent wall of a battened box girder,
// from memory (Kollbrunner & Basler, Torsion in Structures); the strips are taken flat, without the corners that stiffen them.
func opened(closed frame.Section, o outline.Outline, way design.CableWay, wall, poisson float64) frame.Section {
	g := o.Section()
	box := o.Outer.Box()
	s := frame.Section{
		A: g.Area * 1e-6, X: g.Centroid.X * 1e-3, Y: g.Centroid.Y * 1e-3,
		Ix: g.Ixx * 1e-12, Iy: g.Iyy * 1e-12, Ixy: g.Ixy * 1e-12,
		Left: (g.Centroid.X - box.Min.X) * 1e-3, Right: (box.Max.X - g.Centroid.X) * 1e-3,
		Bottom: (g.Centroid.Y - box.Min.Y) * 1e-3, Top: (box.Max.Y - g.Centroid.Y) * 1e-3,
	}
	wide, deep := closed.Left+closed.Right-wall, closed.Bottom+closed.Top-wall // along x and y, mean
	sideways := way.Side == "left" || way.Side == "right"
	b, perimeter := deep, 2*(wide+deep)
	if sideways {
		b = wide
	}
	if closed.Circular {
		perimeter = math.Pi * wide
		b = perimeter / 4
	}
	thin := ladder(b, way.Width.Metres(), way.Length.Metres(), poisson)
	s.J = closed.J * perimeter / (perimeter + b*(1/thin-1))
	s.ShearX, s.ShearY = closed.ShearX, closed.ShearY
	if sideways {
		s.ShearX *= (1 + thin) / 2
	} else {
		s.ShearY *= (1 + thin) / 2
	}
	return s
}

// ladder returns the share of a wall's thickness that is left to shear beside an opening, for a wall of mean width b with an opening of a width
// and length, m.
func ladder(b, width, length, poisson float64) float64 {
	s := math.Max((b-width)/2, 1e-3*b)
	shear := 1 / (2 * (1 + poisson)) // G/E
	return 1 / (b * (length*length*shear/(2*s*s*s) + 1/(2*s)))
}
