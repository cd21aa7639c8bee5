// Package magnetic computes what a compass on a mast sees: the earth's field at
// a place and date, the fields of the lead circuits below it, the fields of
// ferrous fasteners beside it, and the heading error that follows.
//
// Everything is SI: metres, amperes, tesla, radians. Body axes are x forward,
// y left, z up, right-handed; the origin is the caller's choice, as long as
// leads and sensor share it. The earth's field is given in north, east and
// down. Headings run clockwise seen from above.
//
// A lead is always a closed circuit of straight conductors, summed segment by
// segment by the law of Biot and Savart in air; the permeability of everything
// but the listed fasteners is taken as that of vacuum.
package magnetic

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// mu0 is the magnetic constant in T·m/A. The value fixed before 2019 differs
// from the present CODATA value by less than one part in 10⁹.
const mu0 = 4e-7 * math.Pi

// place prints a point in millimetres for error messages.
func place(p r3.Vec) string {
	return fmt.Sprintf("(%.4g, %.4g, %.4g) mm", 1000*p.X, 1000*p.Y, 1000*p.Z)
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
