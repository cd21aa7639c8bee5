package units

import "math"

// Length is a length in millimetres.
type Length float64

// Millimetres returns x millimetres as a Length.
func Millimetres(x float64) Length { return Length(x) }

// Metres returns x metres as a Length.
func Metres(x float64) Length { return Length(x * 1000) }

// Millimetres is the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) }

// Metres is the length in metres.
func (l Length) Metres() float64 { return float64(l) / 1000 }

// Kind is LengthKind.
func (l Length) Kind() Kind { return LengthKind }

// String is the length as a design file holds it.
func (l Length) String() string { return l.Kind().Format(float64(l)) }

// MarshalText is String for encoders.
func (l Length) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText is Parse for decoders.
func (l *Length) UnmarshalText(text []byte) error { return unmarshal(l, text) }

// Area is an area in square millimetres.
type Area float64

// SquareMillimetres returns x square millimetres as an Area.
func SquareMillimetres(x float64) Area { return Area(x) }

// SquareMetres returns x square metres as an Area.
func SquareMetres(x float64) Area { return Area(x * 1e6) }

// SquareMillimetres is the area in square millimetres.
func (a Area) SquareMillimetres() float64 { return float64(a) }

// SquareMetres is the area in square metres.
func (a Area) SquareMetres() float64 { return float64(a) / 1e6 }

// Kind is AreaKind.
func (a Area) Kind() Kind { return AreaKind }

// String is the area as a design file holds it.
func (a Area) String() string { return a.Kind().Format(float64(a)) }

// MarshalText is String for encoders.
func (a Area) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText is Parse for decoders.
func (a *Area) UnmarshalText(text []byte) error { return unmarshal(a, text) }

// Angle is an angle in degrees.
type Angle float64

// Degrees returns x degrees as an Angle.
func Degrees(x float64) Angle { return Angle(x) }

// Radians returns x radians as an Angle.
func Radians(x float64) Angle { return Angle(x * 180 / math.Pi) }

// Degrees is the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) }

// Radians is the angle in radians.
func (a Angle) Radians() float64 { return float64(a) * math.Pi / 180 }

// Kind is AngleKind.
func (a Angle) Kind() Kind { return AngleKind }

// String is the angle as a design file holds it.
func (a Angle) String() string { return a.Kind().Format(float64(a)) }

// MarshalText is String for encoders.
func (a Angle) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText is Parse for decoders.
func (a *Angle) UnmarshalText(text []byte) error { return unmarshal(a, text) }
