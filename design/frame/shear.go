package frame

import "math"

// Shear coefficients, shear area over area. Source of all: G. R. Cowper, The shear coefficient in
// Timoshenko's beam theory, J. Appl. Mech. 33 (1966) 335-340.

func cowperRectangle(nu float64) float64 { return 10 * (1 + nu) / (12 + 11*nu) }

// cowperTube takes m, bore over outer diameter; 0 is the solid circle.
func cowperTube(m, nu float64) float64 {
	q := (1 + m*m) * (1 + m*m)
	return 6 * (1 + nu) * q / ((7+6*nu)*q + (20+12*nu)*m*m)
}

// cowperBox is a thin-walled box of one wall thickness on its mid-lines: b across the force, h along it.
func cowperBox(b, h, nu float64) float64 {
	n := b / h
	m := n
	return 10 * (1 + nu) * (1 + 3*m) * (1 + 3*m) /
		(12 + 72*m + 150*m*m + 90*m*m*m + nu*(11+66*m+135*m*m+90*m*m*m) + 10*n*n*((3+nu)*m+3*m*m))
}

// shearOfWall is the coefficient of a closed wall of thickness t inside a box b across the force
// and h along it, enclosing the outer area Ao. A thick wall moves the value from the thin box's
// towards the solid rectangle's (a fit to the stress function, 1 % of the coefficient), rounding the
// corners towards the round tube's in proportion to the corner area lost.
func shearOfWall(b, h, t, Ao, nu float64) float64 {
	thick := 2 * t / b
	thin, solid := cowperBox(b-t, h-t, nu), cowperRectangle(nu)
	square := thin + (solid-thin)*thick*(0.22+0.78*thick)
	round := (1 - Ao/(b*h)) / (1 - math.Pi/4)
	round = math.Min(math.Max(round, 0), 1)
	mean := (b + h) / 2
	return (1-round)*square + round*cowperTube((mean-2*t)/mean, nu)
}
