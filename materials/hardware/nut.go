package hardware

import (
	"math"

	"mastwright/design/units"
)

// Nut is a hexagon nut, ISO 4032: s and the largest m (M5 from memory).
type Nut struct {
	AcrossFlats units.Length
	Height      units.Length
}

// Nut is the hexagon nut of a size.
func (s Size) Nut() Nut { return s.row().nut }

// AcrossCorners is the sharp hexagon's s/cos 30°, which a nut pocket must hold.
func (n Nut) AcrossCorners() units.Length {
	return n.AcrossFlats / units.Length(math.Cos(math.Pi/6))
}

// NutMass is the mass of a size's nut: the hexagon less the thread's bore, with
// the corners sharp.
func NutMass(s Size, m Material) units.Mass {
	hexagon := hexagonArea(s.Nut().AcrossFlats)
	return mass(hexagon-circleArea(s.PitchDiameter()), s.Nut().Height, m)
}

// Washer is a plain washer, ISO 7089 (M2, M2.5 and M4 from memory).
type Washer struct {
	Hole      units.Length
	Outside   units.Length
	Thickness units.Length
}

// Washer is the plain washer of a size.
func (s Size) Washer() Washer { return s.row().washer }

// WasherMass is the mass of a size's washer.
func WasherMass(s Size, m Material) units.Mass {
	w := s.Washer()
	return mass(circleArea(w.Outside)-circleArea(w.Hole), w.Thickness, m)
}

func circleArea(diameter units.Length) units.Area {
	d := diameter.Millimetres()
	return units.SquareMillimetres(math.Pi / 4 * d * d)
}

// hexagonArea is √3/2 s² for s across flats.
func hexagonArea(flats units.Length) units.Area {
	s := flats.Millimetres()
	return units.SquareMillimetres(math.Sqrt(3) / 2 * s * s)
}

func mass(section units.Area, length units.Length, m Material) units.Mass {
	volume := section.SquareMillimetres() * length.Millimetres() / 1000 // cm³
	return units.Grams(volume * m.Density.GramsPerCubicCentimetre())
}
