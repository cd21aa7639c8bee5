package magnetic

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// wmm2025 holds one row a coefficient pair: n m g h dg dh.
//
//go:embed wmm2025.cof
var wmm2025 string

const (
	degree          = 12
	referenceRadius = 6371.2e3          // m, of the spherical harmonics
	equatorRadius   = 6378137.0         // m, WGS 84
	flattening      = 1 / 298.257223563 // WGS 84
)

// gauss are the coefficients of one degree n and order m in nT: g with cos mλ,
// h with sin mλ, and their changes a year.
type gauss struct{ g, h, dg, dh float64 }

type model [degree + 1][degree + 1]gauss

func readModel(text string) (*model, error) {
	var m model
	rows := 0
	for i, line := range strings.Split(text, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		var v [6]float64
		fields := strings.Fields(line)
		if len(fields) != len(v) {
			return nil, fmt.Errorf("world magnetic model, line %d: %d columns; want n m g h dg dh", i+1, len(fields))
		}
		for k, f := range fields {
			x, err := strconv.ParseFloat(f, 64)
			if err != nil {
				return nil, fmt.Errorf("world magnetic model, line %d: %w", i+1, err)
			}
			v[k] = x
		}
		n, order := int(v[0]), int(v[1])
		if n < 1 || n > degree || order < 0 || order > n {
			return nil, fmt.Errorf("world magnetic model, line %d: degree %d, order %d; want orders 0 to n of degrees 1 to %d", i+1, n, order, degree)
		}
		m[n][order] = gauss{v[2], v[3], v[4], v[5]}
		rows++
	}
	if want := degree * (degree + 3) / 2; rows != want {
		return nil, fmt.Errorf("world magnetic model: %d rows; want %d", rows, want)
	}
	return &m, nil
}

// synthesise sums the spherical harmonics and returns the field in tesla and
// its change in tesla a year, north, east and down on the ellipsoid.
//
// Source: Technical Report of the World Magnetic Model, equations 7 to 17. The
// division by cos φ' that they carry is done inside the recursion, so that the
// geographic poles are ordinary places; the axes there are those of the
// meridian asked for.
func synthesise(p Place, year float64) (field, rate r3.Vec, err error) {
	m, err := readModel(wmm2025)
	if err != nil {
		return r3.Vec{}, r3.Vec{}, err
	}
	radius, latitude := geocentric(p)
	sin, cos := math.Sincos(latitude)
	zonal, sectoral := legendre(sin, cos)
	years := year - modelFrom
	ratio := referenceRadius / radius
	scale := ratio * ratio
	for n := 1; n <= degree; n++ {
		scale *= ratio
		for o := 0; o <= n; o++ {
			var value, slope, east float64 // Pnm, dPnm/dθ, m Pnm/sin θ
			if o == 0 {
				value = zonal[n]
				slope = -math.Sqrt(float64(n*(n+1))/2) * cos * sectoral[n][1]
			} else {
				value = cos * sectoral[n][o]
				slope = float64(n)*sin*sectoral[n][o] - math.Sqrt(float64(n*n-o*o))*sectoral[n-1][o]
				east = float64(o) * sectoral[n][o]
			}
			sine, cosine := math.Sincos(float64(o) * p.Longitude)
			add := func(sum *r3.Vec, g, h float64) {
				along, across := g*cosine+h*sine, g*sine-h*cosine
				sum.X += scale * along * slope
				sum.Y += scale * across * east
				sum.Z -= scale * along * value * float64(n+1)
			}
			c := m[n][o]
			add(&field, c.g+years*c.dg, c.h+years*c.dh)
			add(&rate, c.dg, c.dh)
		}
	}
	tilt := latitude - p.Latitude
	return ellipsoidal(field, tilt), ellipsoidal(rate, tilt), nil
}

// geocentric returns the distance from the earth's centre and the geocentric
// latitude of a place.
func geocentric(p Place) (radius, latitude float64) {
	const e2 = flattening * (2 - flattening)
	sin, cos := math.Sincos(p.Latitude)
	curvature := equatorRadius / math.Sqrt(1-e2*sin*sin)
	x := (curvature + p.Height) * cos
	z := (curvature*(1-e2) + p.Height) * sin
	return math.Hypot(x, z), math.Atan2(z, x)
}

// legendre returns the Schmidt semi-normalised functions of cos θ = sin φ':
// zonal[n] is Pn0, and sectoral[n][m], m ≥ 1, is Pnm/sin θ, which stays finite
// at the poles.
func legendre(cosTheta, sinTheta float64) (zonal [degree + 1]float64, sectoral [degree + 1][degree + 1]float64) {
	zonal[0], zonal[1] = 1, cosTheta
	sectoral[1][1] = 1
	for n := 2; n <= degree; n++ {
		f := float64(n)
		zonal[n] = ((2*f-1)*cosTheta*zonal[n-1] - (f-1)*zonal[n-2]) / f
		for m := 1; m < n; m++ {
			o := float64(m)
			// Pn-2,m is zero where m > n-2, and so is its factor's square.
			below := math.Sqrt(max(0, (f-1)*(f-1)-o*o)) * sectoral[n-2][m]
			sectoral[n][m] = ((2*f-1)*cosTheta*sectoral[n-1][m] - below) / math.Sqrt(f*f-o*o)
		}
		sectoral[n][n] = sinTheta * math.Sqrt(1-1/(2*f)) * sectoral[n-1][n-1]
	}
	return zonal, sectoral
}

// ellipsoidal turns a geocentric field in nT by the angle between the two
// verticals into geodetic north, east and down in tesla.
func ellipsoidal(b r3.Vec, tilt float64) r3.Vec {
	sin, cos := math.Sincos(tilt)
	return r3.Scale(1e-9, r3.Vec{X: b.X*cos - b.Z*sin, Y: b.Y, Z: b.X*sin + b.Z*cos})
}
