package magnetic

import (
	"errors"
	"fmt"
	"math"
	"time"

	"gonum.org/v1/gonum/spatial/r3"
)

// Place is a point on or above the earth: geodetic latitude (north positive)
// and longitude (east positive) in radians, and height in metres above the
// WGS 84 ellipsoid, which lies within about 100 m of mean sea level.
type Place struct{ Latitude, Longitude, Height float64 }

// Elements are the seven elements of the geomagnetic field: X north, Y east and
// Z down, the horizontal and total intensities H and F, all in tesla; the
// inclination I (dip, down positive) and the declination D (east positive) in
// radians.
type Elements struct{ X, Y, Z, H, F, I, D float64 }

// EarthField is the main field at a place and date. It leaves out the crust,
// buildings and magnetic storms; Uncertainty says how much that usually is.
type EarthField struct {
	Elements
	Rate         Elements // change a year, per element
	Uncertainty  Elements // one standard deviation, per element
	Zone         Zone
	Extrapolated bool // the date lies outside the model's five years
}

// EarthOptions widen what Earth accepts.
type EarthOptions struct {
	// Extrapolated allows dates up to ten years outside the model's validity,
	// continued along its secular variation. False refuses them.
	Extrapolated bool
}

// Zone says whether the horizontal field is strong enough for a compass.
type Zone int

// The World Magnetic Model draws its warning zones by H: blackout under
// 2000 nT, caution from there to 6000 nT.
const (
	Usable Zone = iota
	Caution
	Blackout
)

// String names the zone in one word.
func (z Zone) String() string {
	return [...]string{"usable", "caution", "blackout"}[z]
}

// Advice says in one sentence what the zone means for a compass.
func (z Zone) Advice() string {
	return [...]string{
		"The horizontal field is strong enough for a compass.",
		"The horizontal field is under 6000 nT, near a magnetic pole: treat any compass heading with caution.",
		"The horizontal field is under 2000 nT, near a magnetic pole: a compass is of no use here; take the heading from another source.",
	}[z]
}

const (
	modelFrom, modelTo = 2025.0, 2030.0
	extrapolationYears = 10
	cautionBelow       = 6000e-9 // T
	blackoutBelow      = 2000e-9 // T
)

// Earth returns the field of the World Magnetic Model 2025 at place p in the
// decimal year given. It refuses latitudes beyond the poles, heights outside
// the model's −1 to 850 km, and years outside 2025.0 to 2030.0 unless o says
// otherwise, with every problem in one error.
//
// Source: WMM2025, NOAA/NCEI and BGS, doi:10.25921/aqfd-sd83; uncertainties:
// its error model, table "Uncertainty estimates provided by the WMM2025 error
// model" (NCEI, World Magnetic Model accuracy): X 137, Y 89, Z 141, H 133,
// F 138 nT, I 0.20°, D √(0.26² + (5417 nT/H)²)°.
func Earth(p Place, year float64, o EarthOptions) (EarthField, error) {
	if err := checkPlace(p, year, o); err != nil {
		return EarthField{}, err
	}
	field, rate, err := synthesise(p, year)
	if err != nil {
		return EarthField{}, err
	}
	e := elements(field)
	return EarthField{
		Elements:     e,
		Rate:         rates(e, rate),
		Uncertainty:  uncertainty(e.H),
		Zone:         zone(e.H),
		Extrapolated: year < modelFrom || year > modelTo,
	}, nil
}

// DecimalYear turns a moment into the decimal year that Earth takes, counting
// in UTC: noon on 2 July 2025 is 2025.5.
func DecimalYear(t time.Time) float64 {
	t = t.UTC()
	start := time.Date(t.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	end := start.AddDate(1, 0, 0)
	return float64(t.Year()) + t.Sub(start).Seconds()/end.Sub(start).Seconds()
}

func checkPlace(p Place, year float64, o EarthOptions) error {
	var problems []error
	add := func(format string, args ...any) { problems = append(problems, fmt.Errorf(format, args...)) }
	if !(math.Abs(p.Latitude) <= math.Pi/2) {
		add("latitude %.6g degrees lies beyond the pole; use -90 to 90", degrees(p.Latitude))
	}
	if !(math.Abs(p.Longitude) <= 2*math.Pi) {
		add("longitude %.6g degrees is out of range; use -180 to 180", degrees(p.Longitude))
	}
	if !(p.Height >= -1000 && p.Height <= 850e3) {
		add("height %.6g m is outside the world magnetic model; use -1000 to 850000 m above sea level", p.Height)
	}
	from, to := modelFrom, modelTo
	if o.Extrapolated {
		from, to = from-extrapolationYears, to+extrapolationYears
	}
	switch {
	case year >= from && year <= to:
	case o.Extrapolated:
		add("year %.6g is more than %d years outside the world magnetic model 2025; use %.0f to %.0f", year, extrapolationYears, from, to)
	default:
		add("year %.6g is outside the world magnetic model 2025, valid 2025.0 to 2030.0; correct the date or ask for extrapolation", year)
	}
	return errors.Join(problems...)
}

// elements fills in the elements that follow from north, east and down.
func elements(b r3.Vec) Elements {
	h := math.Hypot(b.X, b.Y)
	return Elements{
		X: b.X, Y: b.Y, Z: b.Z, H: h, F: math.Hypot(h, b.Z),
		I: math.Atan2(b.Z, h), D: math.Atan2(b.Y, b.X),
	}
}

// rates differentiates the elements. At a magnetic pole, where H is zero, the
// declination has no rate and 0 is returned.
func rates(e Elements, d r3.Vec) Elements {
	r := Elements{X: d.X, Y: d.Y, Z: d.Z}
	if e.H > 0 {
		r.H = (e.X*d.X + e.Y*d.Y) / e.H
		r.D = (e.X*d.Y - e.Y*d.X) / (e.H * e.H)
	}
	if e.F > 0 {
		r.F = (e.H*r.H + e.Z*d.Z) / e.F
		r.I = (e.H*d.Z - e.Z*r.H) / (e.F * e.F)
	}
	return r
}

func uncertainty(h float64) Elements {
	declination := math.Pi
	if h > 0 {
		declination = min(math.Pi, math.Hypot(0.26, 5417e-9/h)*math.Pi/180)
	}
	return Elements{
		X: 137e-9, Y: 89e-9, Z: 141e-9, H: 133e-9, F: 138e-9,
		I: 0.20 * math.Pi / 180, D: declination,
	}
}

func zone(h float64) Zone {
	switch {
	case h < blackoutBelow:
		return Blackout
	case h < cautionBelow:
		return Caution
	}
	return Usable
}
