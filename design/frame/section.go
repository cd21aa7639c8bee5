package frame

import (
	"fmt"
	"math"
)

// Section is a cross-section in its own axes x and y. Second moments are about the centroid, and
// follow the axis they are about: Ix is the integral of y² and resists moments about x. It is a
// plain value: a caller may scale or replace any figure.
type Section struct {
	A            float64 // area, m²
	X, Y         float64 // centroid in the outline's coordinates, m
	Ix, Iy, Ixy  float64 // second moments of area about the centroid, m⁴
	J            float64 // Saint-Venant torsion constant, m⁴
	ShearX       float64 // shear area for a force along the principal axis nearest x, m²; 0 leaves shear flexibility out
	ShearY       float64 // the same nearest y
	ShearCentreX float64 // shear centre from the centroid, m
	ShearCentreY float64
	Left, Right  float64 // distances of the extreme fibres from the centroid, both positive, m
	Bottom, Top  float64
	Circular     bool // a circle or round tube: bending stresses about x and y add as vectors
}

// Principal returns the second moments about the principal axes 1 and 2 and the angle in radians
// from x to axis 1, in (-π/4, π/4], so that axis 1 is the one nearest x.
func (s Section) Principal() (i1, i2, angle float64) {
	if math.Abs(s.Ixy) <= 1e-12*(s.Ix+s.Iy) {
		return s.Ix, s.Iy, 0
	}
	if d := s.Iy - s.Ix; d != 0 {
		angle = math.Atan(2*s.Ixy/d) / 2
	} else {
		angle = math.Copysign(math.Pi/4, s.Ixy)
	}
	mean, half := (s.Ix+s.Iy)/2, (s.Ix-s.Iy)/2
	turn := half*math.Cos(2*angle) - s.Ixy*math.Sin(2*angle)
	return mean + turn, mean - turn, angle
}

// ModulusX returns the smaller section modulus in m³ for bending about x.
func (s Section) ModulusX() float64 { return s.Ix / math.Max(s.Top, s.Bottom) }

// ModulusY returns the smaller section modulus in m³ for bending about y.
func (s Section) ModulusY() float64 { return s.Iy / math.Max(s.Left, s.Right) }

// Stress returns the greatest normal stress in Pa, as a magnitude, under an axial force N and
// bending moments Mx and My. A circular section adds the moments as vectors; any other adds the
// two extreme-fibre stresses as if its outline reached the corners of its box, which is exact for a
// rectangle and errs on the safe side for everything else.
func (s Section) Stress(N, Mx, My float64) float64 {
	bx, by := math.Abs(Mx)/s.ModulusX(), math.Abs(My)/s.ModulusY()
	if s.Circular {
		return math.Abs(N)/s.A + math.Hypot(bx, by)
	}
	return math.Abs(N)/s.A + bx + by
}

// Round returns a solid circle of diameter D in m. Shear area after Cowper for a Poisson's ratio nu.
func Round(D, nu float64) (Section, error) { return Tube(D, 0, nu) }

// Tube returns a round tube of outer diameter D and bore d in m, exact in torsion. Shear area after
// Cowper, J. Appl. Mech. 33 (1966) 335-340.
func Tube(D, d, nu float64) (Section, error) {
	if err := dimensions("tube", nu, D, D-d); err != nil {
		return Section{}, err
	}
	if d < 0 || math.IsNaN(d) {
		return Section{}, fmt.Errorf("tube: bore %g m; use 0 for a solid rod", d)
	}
	r := D / 2
	// (D²-d²) and (D²+d²) as factors keep the digits of thin walls.
	A := math.Pi / 4 * (D - d) * (D + d)
	I := A * (D*D + d*d) / 16
	shear := A * cowperTube(d/D, nu)
	return Section{
		A: A, Ix: I, Iy: I, J: 2 * I, ShearX: shear, ShearY: shear,
		Left: r, Right: r, Bottom: r, Top: r, Circular: true,
	}, nil
}

// Rectangle returns a solid rectangle, w along x and h along y, in m. Torsion by the exact series,
// shear areas after Cowper.
func Rectangle(w, h, nu float64) (Section, error) {
	if err := dimensions("rectangle", nu, w, h); err != nil {
		return Section{}, err
	}
	shear := w * h * cowperRectangle(nu)
	return Section{
		A: w * h, Ix: w * h * h * h / 12, Iy: h * w * w * w / 12, J: rectangleTorsion(w, h),
		ShearX: shear, ShearY: shear,
		Left: w / 2, Right: w / 2, Bottom: h / 2, Top: h / 2,
	}, nil
}

// Box returns a hollow rectangle, w along x and h along y outside, with outer corner radius r and
// wall t, in m; the inner corners are concentric with the outer ones, sharp where r is below t.
// Area and second moments are exact. Torsion is a closed form within 0.3 % of the stress function while
// the shorter side is at least four walls, 1.5 % beyond; shear areas start from Cowper's thin-walled box
// and are within 5 %.
func Box(w, h, r, t, nu float64) (Section, error) {
	if err := dimensions("box", nu, w, h, t); err != nil {
		return Section{}, err
	}
	if least := math.Min(w, h); 2*t >= least {
		return Section{}, fmt.Errorf("box: wall %g m leaves no bore in %g m; use less than %g m, or a rectangle", t, least, least/2)
	} else if !(r >= 0) || 2*r > least*(1+1e-12) {
		return Section{}, fmt.Errorf("box: corner radius %g m; use 0 to %g m", r, least/2)
	}
	Ao, Ixo, Iyo := roundedRectangle(w, h, r)
	Ai, Ixi, Iyi := roundedRectangle(w-2*t, h-2*t, math.Max(r-t, 0))
	s := Section{
		A: Ao - Ai, Ix: Ixo - Ixi, Iy: Iyo - Iyi, J: boxTorsion(w, h, r, t),
		Left: w / 2, Right: w / 2, Bottom: h / 2, Top: h / 2,
	}
	s.ShearX = s.A * shearOfWall(h, w, t, Ao, nu)
	s.ShearY = s.A * shearOfWall(w, h, t, Ao, nu)
	return s, nil
}

// roundedRectangle returns area and second moments of a rectangle with corner radius r.
func roundedRectangle(w, h, r float64) (A, Ix, Iy float64) {
	// A corner cut off: a square r × r less a quarter disc, about the axis through the corner
	// circle's centre, then moved to the middle.
	cut := r * r * (1 - math.Pi/4)
	first := r * r * r / 6 // ∫ over the cut of the distance from the circle's centre line: r³/2 - r³/3
	second := r * r * r * r * (1.0/3 - math.Pi/16)
	about := func(half float64) float64 {
		c := half - r
		return second + 2*c*first + c*c*cut
	}
	return w*h - 4*cut, w*h*h*h/12 - 4*about(h/2), h*w*w*w/12 - 4*about(w/2)
}

func dimensions(what string, nu float64, lengths ...float64) error {
	for _, l := range lengths {
		if !(l > 0) || math.IsInf(l, 0) {
			return fmt.Errorf("%s: a dimension is %g m; every width and wall must be above zero", what, l)
		}
	}
	if !(nu > -1 && nu <= 0.5) {
		return fmt.Errorf("%s: Poisson's ratio %g; use -1 to 0.5", what, nu)
	}
	return nil
}
