package strength

import (
	"fmt"
	"math"
)

// Notch is a stress concentration on the nominal stress of the smaller section.
type Notch struct {
	Kt   float64 // at least 1
	Note string  // what lay outside the source's range and where it was held; empty inside
}

// cubic holds C1 to C4 of Kt = Σ Ci (2h/D)^(i-1), each a + b √(h/r) + c h/r.
type cubic [4][3]float64

func (k cubic) at(ratio, share float64) float64 {
	kt := 0.0
	for i := len(k) - 1; i >= 0; i-- {
		kt = kt*share + k[i][0] + k[i][1]*math.Sqrt(ratio) + k[i][2]*ratio
	}
	return kt
}

var flatBending = [2]cubic{
	{{1.007, 1.000, -.031}, {-.270, -2.404, .749}, {.677, 1.133, -.904}, {-.414, .271, .186}},
	{{1.042, .982, -.036}, {-3.599, 1.619, -.431}, {6.084, -5.607, 1.158}, {-2.527, 3.006, -.691}},
}

var roundBending = [2]cubic{
	{{.947, 1.206, -.131}, {.022, -3.405, .915}, {.869, 1.777, -.555}, {-.810, .422, -.260}},
	{{1.232, .832, -.008}, {-3.813, .968, -.260}, {7.423, -4.868, .869}, {-3.839, 3.070, -.600}},
}

// ShoulderFillet returns the stress concentration of a shoulder fillet in a flat bar
// in bending, on the nominal stress of the smaller width d, where D is the larger
// width and r the fillet's radius, all in m. With h = (D-d)/2 it holds for
// .1 <= h/r <= 20 and a shoulder longer than .8 D/(r/d)^¼; a shorter one concentrates
// less. Beyond that range of h/r it is taken at the range's end, which is too low
// for a sharper corner, and the note says so.
//
// Source: Roark's Formulas for Stress and Strain, 7th edition, table 17.1, square
// shoulder with fillet in a member of rectangular section, in-plane bending.
func ShoulderFillet(D, d, r float64) Notch { return shoulder(flatBending, D, d, r) }

// ShaftShoulder returns the stress concentration of a shoulder fillet in a round
// shaft in bending, on the nominal stress of the smaller diameter d; D is the
// larger diameter and r the fillet's radius, all in m. Range as ShoulderFillet.
//
// Source: Peterson's Stress Concentration Factors, 3rd edition, chart 3.10.
func ShaftShoulder(D, d, r float64) Notch { return shoulder(roundBending, D, d, r) }

func shoulder(k [2]cubic, D, d, r float64) Notch {
	if !(D > d) {
		return Notch{Kt: 1}
	}
	h, n := (D-d)/2, Notch{}
	ratio := math.Min(20, math.Max(.1, h/math.Max(r, h*1e-9)))
	switch {
	case r <= h*1e-9:
		n.Note = "sharp corner: Kt is that of h/r 20 and still too low; give the root a fillet"
	case h/r > 20:
		n.Note = fmt.Sprintf("h/r %.3g is sharper than the table's 20: Kt is that of 20 and too low; use a larger fillet", h/r)
	case h/r < .1:
		n.Note = fmt.Sprintf("h/r %.3g is below the table's .1: Kt is that of .1, on the safe side", h/r)
	}
	side := 0
	if ratio > 2 {
		side = 1
	}
	n.Kt = math.Max(1, k[side].at(ratio, 2*h/D))
	return n
}

// StripHole returns the stress concentration of a round hole in the middle of a
// strip in tension, on the nominal stress of the net section,
//
//	Kt = 2 + (1 - x)³, x = diameter / width, both in m.
//
// A hole as wide as the strip is held at x = 1 and the note says so.
// Source: Heywood, as in Peterson's Stress Concentration Factors.
func StripHole(diameter, width float64) Notch {
	if !(diameter > 0) {
		return Notch{Kt: 1}
	}
	if !(diameter < width) {
		return Notch{Kt: 2, Note: fmt.Sprintf("a hole of %.3g m leaves nothing of a strip of %.3g m; make it smaller", diameter, width)}
	}
	return Notch{Kt: 2 + math.Pow(1-diameter/width, 3)}
}
