package motor

import (
	"fmt"
	"math"
)

// Density returns the density in kg/m³ of the standard atmosphere at a geometric
// altitude in metres above the sea, 1.225 at 0. It knows the lowest layer only,
// -5000 m to 11000 m, and refuses the rest.
//
// Source: ISO 2533:1975 and its addendum 2: 288.15 K and 101325 Pa at the sea,
// -6.5 K/km of geopotential altitude, earth radius 6356766 m, R 287.05287 J/(kg·K).
func Density(altitude float64) (float64, error) {
	if !(altitude >= -5000 && altitude <= 11000) {
		return 0, fmt.Errorf("altitude %g m lies outside -5000 to 11000 m; give the site's altitude above the sea in metres, or the air density", altitude)
	}
	const radius, lapse, gas = 6356766, -.0065, 287.05287
	geopotential := radius * altitude / (radius + altitude)
	theta := 1 + lapse*geopotential/288.15
	return 101325 / (gas * 288.15) * math.Pow(theta, -gravity/(lapse*gas)-1), nil
}
