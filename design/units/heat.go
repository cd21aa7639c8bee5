package units

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// Celsius returns x degrees Celsius as a Temperature.
func Celsius(x float64) Temperature { return Temperature(x) }

// Celsius is the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Kind is TemperatureKind.
func (t Temperature) Kind() Kind { return TemperatureKind }

// String is the temperature as a design file holds it.
func (t Temperature) String() string { return t.Kind().Format(float64(t)) }

// MarshalText is String for encoders.
func (t Temperature) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText is Parse for decoders.
func (t *Temperature) UnmarshalText(text []byte) error { return unmarshal(t, text) }

// TemperatureDifference is a temperature difference in kelvins.
type TemperatureDifference float64

// Kelvins returns x kelvins as a TemperatureDifference.
func Kelvins(x float64) TemperatureDifference { return TemperatureDifference(x) }

// Kelvins is the temperature difference in kelvins.
func (t TemperatureDifference) Kelvins() float64 { return float64(t) }

// Kind is TemperatureDifferenceKind.
func (t TemperatureDifference) Kind() Kind { return TemperatureDifferenceKind }

// String is the temperature difference as a design file holds it.
func (t TemperatureDifference) String() string { return t.Kind().Format(float64(t)) }

// MarshalText is String for encoders.
func (t TemperatureDifference) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText is Parse for decoders.
func (t *TemperatureDifference) UnmarshalText(text []byte) error { return unmarshal(t, text) }

// iceZero is 0 °C in kelvins, exact: SI brochure, 9th edition, section 2.3.1.
const iceZero = 273.15

// Kelvin is the thermodynamic temperature in kelvins.
func (t Temperature) Kelvin() float64 { return float64(t) + iceZero }

// Plus is the temperature d above t.
func (t Temperature) Plus(d TemperatureDifference) Temperature { return t + Temperature(d) }

// Minus is how far t is above other; it is negative when t is the colder.
func (t Temperature) Minus(other Temperature) TemperatureDifference {
	return TemperatureDifference(t - other)
}
