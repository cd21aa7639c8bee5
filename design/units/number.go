package units

// Ratio is a plain number in the unit 1.
type Ratio float64

// Fraction returns x the unit 1 as a Ratio.
func Fraction(x float64) Ratio { return Ratio(x) }

// Percent returns x hundredths as a Ratio.
func Percent(x float64) Ratio { return Ratio(x / 100) }

// Fraction is the ratio in the unit 1.
func (r Ratio) Fraction() float64 { return float64(r) }

// Percent is the ratio in hundredths.
func (r Ratio) Percent() float64 { return float64(r) * 100 }

// Kind is RatioKind.
func (r Ratio) Kind() Kind { return RatioKind }

// String is the ratio as a design file holds it.
func (r Ratio) String() string { return r.Kind().Format(float64(r)) }

// MarshalText is String for encoders.
func (r Ratio) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText is Parse for decoders.
func (r *Ratio) UnmarshalText(text []byte) error { return unmarshal(r, text) }

// Count is a whole number of things.
type Count float64

// Pieces returns n things as a Count.
func Pieces(n int) Count { return Count(n) }

// Pieces is the count as an int.
func (c Count) Pieces() int { return int(c) }

// Kind is CountKind.
func (c Count) Kind() Kind { return CountKind }

// String is the count as a design file holds it.
func (c Count) String() string { return c.Kind().Format(float64(c)) }

// MarshalText is String for encoders.
func (c Count) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText is Parse for decoders.
func (c *Count) UnmarshalText(text []byte) error { return unmarshal(c, text) }
