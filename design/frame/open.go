package frame

import (
	"errors"
	"fmt"
	"math"
)

// Segment is a straight piece of a thin wall on its mid-line, m. Segments join where their ends coincide.
type Segment struct{ X1, Y1, X2, Y2, Thickness float64 }

// ThinOpen returns the section of a thin open wall from its mid-line: area and second moments without
// the thickness's own, J = Σ b t³/3, and the shear centre by sectorial coordinates (Vlasov, Thin-walled
// Elastic Beams, 1961). Shear areas are 5/6 of the part of each wall that lies along the force (common
// practice, no source).
func ThinOpen(walls []Segment) (Section, error) {
	var s Section
	bounds := emptyBox()
	for i, w := range walls {
		l := math.Hypot(w.X2-w.X1, w.Y2-w.Y1)
		if !(l > 0) || !(w.Thickness > 0) || !finite(l, w.Thickness) {
			return Section{}, fmt.Errorf("thin section: segment %d has length %g and thickness %g m; both must be above zero", i, l, w.Thickness)
		}
		A := l * w.Thickness
		s.A += A
		s.X += A * (w.X1 + w.X2) / 2
		s.Y += A * (w.Y1 + w.Y2) / 2
		s.J += A * w.Thickness * w.Thickness / 3
		s.ShearX += 5. / 6 * A * (w.X2 - w.X1) * (w.X2 - w.X1) / (l * l)
		s.ShearY += 5. / 6 * A * (w.Y2 - w.Y1) * (w.Y2 - w.Y1) / (l * l)
		bounds.include(w.X1, w.Y1)
		bounds.include(w.X2, w.Y2)
	}
	if len(walls) == 0 {
		return Section{}, errors.New("thin section: no segments")
	}
	s.X, s.Y = s.X/s.A, s.Y/s.A
	sectorial, err := sectorialCoordinates(walls, s.X, s.Y)
	if err != nil {
		return Section{}, fmt.Errorf("thin section: %w", err)
	}
	var wx, wy float64 // ∫ωx, ∫ωy of the warping, minus the sectorial coordinate
	for i, w := range walls {
		A := math.Hypot(w.X2-w.X1, w.Y2-w.Y1) * w.Thickness
		linear := func(a1, a2, b1, b2 float64) float64 { return A / 6 * (2*a1*b1 + a1*b2 + a2*b1 + 2*a2*b2) }
		x1, x2, y1, y2 := w.X1-s.X, w.X2-s.X, w.Y1-s.Y, w.Y2-s.Y
		s.Ix += linear(y1, y2, y1, y2)
		s.Iy += linear(x1, x2, x1, x2)
		s.Ixy += linear(x1, x2, y1, y2)
		wx -= linear(sectorial[i][0], sectorial[i][1], x1, x2)
		wy -= linear(sectorial[i][0], sectorial[i][1], y1, y2)
	}
	s.Left, s.Right = s.X-bounds.x0, bounds.x1-s.X
	s.Bottom, s.Top = s.Y-bounds.y0, bounds.y1-s.Y
	d := s.Ix*s.Iy - s.Ixy*s.Ixy
	if !(d > 1e-12*s.Ix*s.Iy) {
		return Section{}, errors.New("thin section: all segments lie in one line; use a rectangle")
	}
	s.ShearCentreX = (wx*s.Ixy - s.Iy*wy) / d
	s.ShearCentreY = (s.Ix*wx - s.Ixy*wy) / d
	return s, nil
}

// sectorialCoordinates walks the wall from its first end, about the pole (px, py), and returns twice the
// swept area at the ends of every segment.
func sectorialCoordinates(walls []Segment, px, py float64) ([][2]float64, error) {
	type end struct{ x, y float64 }
	at := map[end]float64{{walls[0].X1, walls[0].Y1}: 0}
	out := make([][2]float64, len(walls))
	done := make([]bool, len(walls))
	for range walls {
		for i, w := range walls {
			if done[i] {
				continue
			}
			a, b := end{w.X1, w.Y1}, end{w.X2, w.Y2}
			va, knowA := at[a]
			vb, knowB := at[b]
			if !knowA && !knowB {
				continue
			}
			if knowA && knowB {
				return nil, fmt.Errorf("segment %d closes a cell; a closed wall has another torsion, use Integrate or Bredt", i)
			}
			swept := (a.x-px)*(b.y-py) - (b.x-px)*(a.y-py)
			if knowA {
				vb = va + swept
				at[b] = vb
			} else {
				va = vb - swept
				at[a] = va
			}
			out[i], done[i] = [2]float64{va, vb}, true
		}
	}
	for i, d := range done {
		if !d {
			return nil, fmt.Errorf("segment %d touches no other; its ends must be the same numbers as its neighbour's", i)
		}
	}
	return out, nil
}
