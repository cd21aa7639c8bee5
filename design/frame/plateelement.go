package frame

import "errors"

// solve assembles the mesh; the hub is the last loop where there is one.
func (p Plate) solve(mesh *triangles, hubLoop int, hx, hy float64) (c [3][3]float64, err error) {
	n := len(mesh.x)
	tied := make([]bool, n)
	var held [3][]bool
	for d := range held {
		held[d] = make([]bool, n)
	}
	for _, e := range mesh.edges {
		switch {
		case len(p.Hub) > 0 && e.loop == hubLoop:
			tied[e.a], tied[e.b] = true, true
		case e.loop == 0 && p.Edge != EdgeFree:
			for d := range held {
				held[d][e.a] = d == 0 || p.Edge == EdgeClamped
				held[d][e.b] = held[d][e.a]
			}
		}
	}
	for i, k := range mesh.fixed {
		if i < len(p.Ties) {
			tied[k] = true
			continue
		}
		held[0][k] = true
		if p.Pins[i-len(p.Ties)].Clamped {
			held[1][k], held[2][k] = true, true
		}
	}

	joined := make([][]int, n)
	for _, t := range mesh.tri {
		for i := range 3 {
			joined[t[i]] = append(joined[t[i]], t[(i+1)%3], t[(i+2)%3])
		}
	}
	eq := make([][3]int, n)
	count := 0
	for _, k := range cuthillMcKee(joined) {
		for d := range 3 {
			eq[k][d] = -1
			if !tied[k] && !held[d][k] && len(joined[k]) > 0 {
				eq[k][d] = count
				count++
			}
		}
	}
	hub := count // the hub's three freedoms come last
	count += 3

	// unknowns of an element: a tied node stands on the hub's
	place := func(k int) (at [3]int, arm [2]float64, onHub bool) {
		if tied[k] {
			return [3]int{hub, hub + 1, hub + 2}, [2]float64{mesh.x[k] - hx, mesh.y[k] - hy}, true
		}
		return eq[k], arm, false
	}
	first := make([]int, count)
	for i := range first {
		first[i] = i
	}
	for _, t := range mesh.tri {
		least := hub
		for _, k := range t {
			at, _, _ := place(k)
			for _, e := range at {
				if e >= 0 {
					least = min(least, e)
				}
			}
		}
		for _, k := range t {
			at, _, _ := place(k)
			for _, e := range at {
				if e >= 0 {
					first[e] = min(first[e], least)
				}
			}
		}
	}
	first[hub+1], first[hub+2] = min(first[hub+1], hub), min(first[hub+2], hub)
	K := newEnvelope(first)
	for _, t := range mesh.tri {
		k := plateElement(mesh, t, p.Rigidity(), p.Poisson)
		var at [9]int
		for i, node := range t {
			unknowns, arm, onHub := place(node)
			copy(at[3*i:], unknowns[:])
			if onHub {
				k.carry(3*i, arm)
			}
		}
		for r, er := range at {
			for s, es := range at {
				if er < 0 || es < 0 || es > er {
					continue
				}
				K.v[K.start[er]+es] += k[r][s]
			}
		}
	}
	f, bad, _ := K.reduce(nil, false)
	if bad >= 0 {
		return c, errors.New("is free to move; hold it by its edge or by three pins that are not in line")
	}
	x := make([]float64, count)
	for j := range 3 {
		clear(x)
		x[hub+j] = 1
		f.solveWithin(x, hub, count) // what the plate does between is not asked
		for i := range 3 {
			c[i][j] = x[hub+i]
		}
	}
	return c, nil
}

// matrix9 is an element matrix over w, rotation about x and rotation about y at three corners.
type matrix9 [9][9]float64

// carry moves a corner onto a hub that is arm away: w = w0 + arm.y rx - arm.x ry.
func (k *matrix9) carry(s int, arm [2]float64) {
	for r := range 9 {
		k[r][s+1] += arm[1] * k[r][s]
		k[r][s+2] -= arm[0] * k[r][s]
	}
	for c := range 9 {
		k[s+1][c] += arm[1] * k[s][c]
		k[s+2][c] -= arm[0] * k[s][c]
	}
}

// plateElement is the discrete Kirchhoff triangle. The normal's rotations vary quadratically; at the
// corners they are the slopes, on an edge the one along it follows the cubic of a beam and the one
// across it is linear. With rx = ∂w/∂y and ry = -∂w/∂x.
func plateElement(m *triangles, t [3]int, D, nu float64) (k matrix9) {
	var x, y [3]float64
	for i, n := range t {
		x[i], y[i] = m.x[n], m.y[n]
	}
	// bx, by: the slopes ∂w/∂x, ∂w/∂y at the six nodes as rows over the nine unknowns
	var bx, by [6][9]float64
	for i := range 3 {
		bx[i][3*i+2] = -1
		by[i][3*i+1] = 1
	}
	for e := range 3 {
		i, j := e, (e+1)%3
		dx, dy := x[j]-x[i], y[j]-y[i]
		l2 := dx*dx + dy*dy
		for c := range 9 {
			// along the edge: 3/2 (wj - wi)/l - (si + sj)/4; across it: the mean
			along := -(dx*(bx[i][c]+bx[j][c]) + dy*(by[i][c]+by[j][c])) / 4
			switch c {
			case 3 * i:
				along -= 1.5
			case 3 * j:
				along += 1.5
			}
			across := (-dy*(bx[i][c]+bx[j][c]) + dx*(by[i][c]+by[j][c])) / 2
			bx[3+e][c] = (dx*along - dy*across) / l2
			by[3+e][c] = (dy*along + dx*across) / l2
		}
	}
	det := (x[1]-x[0])*(y[2]-y[0]) - (x[2]-x[0])*(y[1]-y[0])
	rx, ry := (y[2]-y[0])/det, -(x[2]-x[0])/det // gradient of the first area coordinate after the corner 0
	sx, sy := -(y[1]-y[0])/det, (x[1]-x[0])/det
	for g := range 3 { // middles of the edges: exact for the square of a linear curvature
		var r, s float64
		switch g {
		case 0:
			r = 0.5
		case 1:
			r, s = 0.5, 0.5
		default:
			s = 0.5
		}
		q := 1 - r - s
		dr := [6]float64{1 - 4*q, 4*r - 1, 0, 4 * (q - r), 4 * s, -4 * s}
		ds := [6]float64{1 - 4*q, 0, 4*s - 1, -4 * r, 4 * r, 4 * (q - s)}
		var kxx, kyy, kxy [9]float64
		for i := range 6 {
			nx, ny := dr[i]*rx+ds[i]*sx, dr[i]*ry+ds[i]*sy
			for c := range 9 {
				kxx[c] += nx * bx[i][c]
				kyy[c] += ny * by[i][c]
				kxy[c] += ny*bx[i][c] + nx*by[i][c]
			}
		}
		w := D * det / 6
		for a := range 9 {
			mx, my, mxy := w*(kxx[a]+nu*kyy[a]), w*(kyy[a]+nu*kxx[a]), w*(1-nu)/2*kxy[a]
			for c := range a + 1 {
				k[a][c] += mx*kxx[c] + my*kyy[c] + mxy*kxy[c]
			}
		}
	}
	for a := range 9 {
		for c := range a {
			k[c][a] = k[a][c]
		}
	}
	return k
}

// invert3 inverts a symmetric matrix by cofactors.
func invert3(m [3][3]float64) (inv [3][3]float64, ok bool) {
	cof := func(r, c int) float64 {
		r1, r2, c1, c2 := (r+1)%3, (r+2)%3, (c+1)%3, (c+2)%3
		return m[r1][c1]*m[r2][c2] - m[r1][c2]*m[r2][c1]
	}
	det := m[0][0]*cof(0, 0) + m[0][1]*cof(0, 1) + m[0][2]*cof(0, 2)
	if det == 0 || !finite(det) {
		return inv, false
	}
	for r := range 3 {
		for c := range 3 {
			inv[c][r] = cof(r, c) / det
		}
	}
	return inv, true
}
