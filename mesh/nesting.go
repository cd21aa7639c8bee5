package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// insideOut returns the first triangles of the pieces of a closed surface
// whose volume has the wrong sign: a piece within solid material is a void
// and must be negative, any other positive.
func (m *Mesh) insideOut(piece, first []int) []int {
	volume := make([]float64, len(first))
	box := make([]bounds, len(first))
	for i, t := range m.Triangles {
		p := piece[i]
		if p < 0 {
			continue
		}
		o := m.Vertices[m.Triangles[first[p]][0]]
		a, b, c := r3.Sub(m.Vertices[t[0]], o), r3.Sub(m.Vertices[t[1]], o), r3.Sub(m.Vertices[t[2]], o)
		volume[p] += r3.Dot(a, r3.Cross(b, c))
		if i == first[p] {
			box[p] = m.bounds(t)
		} else {
			box[p].include(m.bounds(t))
		}
	}
	var out []int
	for p, i := range first {
		v := m.Vertices[m.Triangles[i][0]]
		at := bounds{[3]float64{v.X, v.Y, v.Z}, [3]float64{v.X, v.Y, v.Z}}
		around := make([]bool, len(first))
		some := false
		for q := range first {
			around[q] = q != p && box[q].touches(&at)
			some = some || around[q]
		}
		solid := some && m.winding(v, piece, around) > 0.5
		if solid && volume[p] >= 0 || !solid && volume[p] <= 0 {
			out = append(out, i)
		}
	}
	return out
}

// winding returns how often the chosen pieces wind around p: the sum of the
// solid angles of their triangles over 4π.
// Source: A. van Oosterom, J. Strackee, "The solid angle of a plane triangle",
// IEEE Transactions on Biomedical Engineering 30 (1983) 125-126.
func (m *Mesh) winding(p r3.Vec, piece []int, chosen []bool) float64 {
	sum := 0.0
	for i, t := range m.Triangles {
		if piece[i] < 0 || !chosen[piece[i]] {
			continue
		}
		a, b, c := r3.Sub(m.Vertices[t[0]], p), r3.Sub(m.Vertices[t[1]], p), r3.Sub(m.Vertices[t[2]], p)
		la, lb, lc := r3.Norm(a), r3.Norm(b), r3.Norm(c)
		sum += math.Atan2(r3.Dot(a, r3.Cross(b, c)),
			la*lb*lc+r3.Dot(a, b)*lc+r3.Dot(b, c)*la+r3.Dot(c, a)*lb)
	}
	return sum / (2 * math.Pi)
}
