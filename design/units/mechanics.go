package units

// Mass is a mass in grams.
type Mass float64

// Grams returns x grams as a Mass.
func Grams(x float64) Mass { return Mass(x) }

// Kilograms returns x kilograms as a Mass.
func Kilograms(x float64) Mass { return Mass(x * 1000) }

// Grams is the mass in grams.
func (m Mass) Grams() float64 { return float64(m) }

// Kilograms is the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) / 1000 }

// Kind is MassKind.
func (m Mass) Kind() Kind { return MassKind }

// String is the mass as a design file holds it.
func (m Mass) String() string { return m.Kind().Format(float64(m)) }

// MarshalText is String for encoders.
func (m Mass) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText is Parse for decoders.
func (m *Mass) UnmarshalText(text []byte) error { return unmarshal(m, text) }

// Density is a density in grams per cubic centimetre.
type Density float64

// GramsPerCubicCentimetre returns x grams per cubic centimetre as a Density.
func GramsPerCubicCentimetre(x float64) Density { return Density(x) }

// KilogramsPerCubicMetre returns x kilograms per cubic metre as a Density.
func KilogramsPerCubicMetre(x float64) Density { return Density(x / 1000) }

// GramsPerCubicCentimetre is the density in grams per cubic centimetre.
func (d Density) GramsPerCubicCentimetre() float64 { return float64(d) }

// KilogramsPerCubicMetre is the density in kilograms per cubic metre.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) * 1000 }

// Kind is DensityKind.
func (d Density) Kind() Kind { return DensityKind }

// String is the density as a design file holds it.
func (d Density) String() string { return d.Kind().Format(float64(d)) }

// MarshalText is String for encoders.
func (d Density) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText is Parse for decoders.
func (d *Density) UnmarshalText(text []byte) error { return unmarshal(d, text) }

// Inertia is a moment of inertia in kilogram square metres.
type Inertia float64

// KilogramSquareMetres returns x kilogram square metres as an Inertia.
func KilogramSquareMetres(x float64) Inertia { return Inertia(x) }

// KilogramSquareMetres is the inertia in kilogram square metres.
func (i Inertia) KilogramSquareMetres() float64 { return float64(i) }

// Kind is InertiaKind.
func (i Inertia) Kind() Kind { return InertiaKind }

// String is the inertia as a design file holds it.
func (i Inertia) String() string { return i.Kind().Format(float64(i)) }

// MarshalText is String for encoders.
func (i Inertia) MarshalText() ([]byte, error) { return []byte(i.String()), nil }

// UnmarshalText is Parse for decoders.
func (i *Inertia) UnmarshalText(text []byte) error { return unmarshal(i, text) }

// Force is a force in newtons.
type Force float64

// Newtons returns x newtons as a Force.
func Newtons(x float64) Force { return Force(x) }

// Newtons is the force in newtons.
func (f Force) Newtons() float64 { return float64(f) }

// Kind is ForceKind.
func (f Force) Kind() Kind { return ForceKind }

// String is the force as a design file holds it.
func (f Force) String() string { return f.Kind().Format(float64(f)) }

// MarshalText is String for encoders.
func (f Force) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText is Parse for decoders.
func (f *Force) UnmarshalText(text []byte) error { return unmarshal(f, text) }

// Stress is a stress, a strength or a modulus of elasticity in megapascals.
type Stress float64

// Megapascals returns x megapascals as a Stress.
func Megapascals(x float64) Stress { return Stress(x) }

// Gigapascals returns x gigapascals as a Stress.
func Gigapascals(x float64) Stress { return Stress(x * 1000) }

// Pascals returns x pascals as a Stress.
func Pascals(x float64) Stress { return Stress(x / 1e6) }

// Megapascals is the stress in megapascals.
func (s Stress) Megapascals() float64 { return float64(s) }

// Gigapascals is the stress in gigapascals.
func (s Stress) Gigapascals() float64 { return float64(s) / 1000 }

// Pascals is the stress in pascals.
func (s Stress) Pascals() float64 { return float64(s) * 1e6 }

// Kind is StressKind.
func (s Stress) Kind() Kind { return StressKind }

// String is the stress as a design file holds it.
func (s Stress) String() string { return s.Kind().Format(float64(s)) }

// MarshalText is String for encoders.
func (s Stress) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText is Parse for decoders.
func (s *Stress) UnmarshalText(text []byte) error { return unmarshal(s, text) }

// Compliance is the movement a unit force gives, in millimetres per newton.
type Compliance float64

// MillimetresPerNewton returns x millimetres per newton as a Compliance.
func MillimetresPerNewton(x float64) Compliance { return Compliance(x) }

// MetresPerNewton returns x metres per newton as a Compliance.
func MetresPerNewton(x float64) Compliance { return Compliance(x * 1000) }

// MillimetresPerNewton is the compliance in millimetres per newton.
func (c Compliance) MillimetresPerNewton() float64 { return float64(c) }

// MetresPerNewton is the compliance in metres per newton.
func (c Compliance) MetresPerNewton() float64 { return float64(c) / 1000 }

// Kind is ComplianceKind.
func (c Compliance) Kind() Kind { return ComplianceKind }

// String is the compliance as a design file holds it.
func (c Compliance) String() string { return c.Kind().Format(float64(c)) }

// MarshalText is String for encoders.
func (c Compliance) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText is Parse for decoders.
func (c *Compliance) UnmarshalText(text []byte) error { return unmarshal(c, text) }
