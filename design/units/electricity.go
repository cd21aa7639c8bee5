package units

// Current is a current in amperes.
type Current float64

// Amperes returns x amperes as a Current.
func Amperes(x float64) Current { return Current(x) }

// Amperes is the current in amperes.
func (c Current) Amperes() float64 { return float64(c) }

// Kind is CurrentKind.
func (c Current) Kind() Kind { return CurrentKind }

// String is the current as a design file holds it.
func (c Current) String() string { return c.Kind().Format(float64(c)) }

// MarshalText is String for encoders.
func (c Current) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText is Parse for decoders.
func (c *Current) UnmarshalText(text []byte) error { return unmarshal(c, text) }

// Voltage is a voltage in volts.
type Voltage float64

// Volts returns x volts as a Voltage.
func Volts(x float64) Voltage { return Voltage(x) }

// Volts is the voltage in volts.
func (v Voltage) Volts() float64 { return float64(v) }

// Kind is VoltageKind.
func (v Voltage) Kind() Kind { return VoltageKind }

// String is the voltage as a design file holds it.
func (v Voltage) String() string { return v.Kind().Format(float64(v)) }

// MarshalText is String for encoders.
func (v Voltage) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText is Parse for decoders.
func (v *Voltage) UnmarshalText(text []byte) error { return unmarshal(v, text) }

// Resistance is a resistance in ohms.
type Resistance float64

// Ohms returns x ohms as a Resistance.
func Ohms(x float64) Resistance { return Resistance(x) }

// Ohms is the resistance in ohms.
func (r Resistance) Ohms() float64 { return float64(r) }

// Kind is ResistanceKind.
func (r Resistance) Kind() Kind { return ResistanceKind }

// String is the resistance as a design file holds it.
func (r Resistance) String() string { return r.Kind().Format(float64(r)) }

// MarshalText is String for encoders.
func (r Resistance) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText is Parse for decoders.
func (r *Resistance) UnmarshalText(text []byte) error { return unmarshal(r, text) }

// Capacitance is a capacitance in picofarads.
type Capacitance float64

// Picofarads returns x picofarads as a Capacitance.
func Picofarads(x float64) Capacitance { return Capacitance(x) }

// Farads returns x farads as a Capacitance.
func Farads(x float64) Capacitance { return Capacitance(x * 1e12) }

// Picofarads is the capacitance in picofarads.
func (c Capacitance) Picofarads() float64 { return float64(c) }

// Farads is the capacitance in farads.
func (c Capacitance) Farads() float64 { return float64(c) / 1e12 }

// Kind is CapacitanceKind.
func (c Capacitance) Kind() Kind { return CapacitanceKind }

// String is the capacitance as a design file holds it.
func (c Capacitance) String() string { return c.Kind().Format(float64(c)) }

// MarshalText is String for encoders.
func (c Capacitance) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText is Parse for decoders.
func (c *Capacitance) UnmarshalText(text []byte) error { return unmarshal(c, text) }

// CapacitancePerLength is a capacitance per length in picofarads per metre.
type CapacitancePerLength float64

// PicofaradsPerMetre returns x picofarads per metre as a CapacitancePerLength.
func PicofaradsPerMetre(x float64) CapacitancePerLength { return CapacitancePerLength(x) }

// FaradsPerMetre returns x farads per metre as a CapacitancePerLength.
func FaradsPerMetre(x float64) CapacitancePerLength { return CapacitancePerLength(x * 1e12) }

// PicofaradsPerMetre is the capacitance per length in picofarads per metre.
func (c CapacitancePerLength) PicofaradsPerMetre() float64 { return float64(c) }

// FaradsPerMetre is the capacitance per length in farads per metre.
func (c CapacitancePerLength) FaradsPerMetre() float64 { return float64(c) / 1e12 }

// Kind is CapacitancePerLengthKind.
func (c CapacitancePerLength) Kind() Kind { return CapacitancePerLengthKind }

// String is the capacitance per length as a design file holds it.
func (c CapacitancePerLength) String() string { return c.Kind().Format(float64(c)) }

// MarshalText is String for encoders.
func (c CapacitancePerLength) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText is Parse for decoders.
func (c *CapacitancePerLength) UnmarshalText(text []byte) error { return unmarshal(c, text) }

// MotorConstant is the "kv" of a motor in revolutions per minute and volt.
type MotorConstant float64

// RevolutionsPerMinutePerVolt returns x revolutions per minute and volt as a MotorConstant.
func RevolutionsPerMinutePerVolt(x float64) MotorConstant { return MotorConstant(x) }

// RevolutionsPerMinutePerVolt is the motor constant in revolutions per minute and volt.
func (m MotorConstant) RevolutionsPerMinutePerVolt() float64 { return float64(m) }

// Kind is MotorConstantKind.
func (m MotorConstant) Kind() Kind { return MotorConstantKind }

// String is the motor constant as a design file holds it.
func (m MotorConstant) String() string { return m.Kind().Format(float64(m)) }

// MarshalText is String for encoders.
func (m MotorConstant) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText is Parse for decoders.
func (m *MotorConstant) UnmarshalText(text []byte) error { return unmarshal(m, text) }

// FluxDensity is a magnetic flux density in microteslas.
type FluxDensity float64

// Microteslas returns x microteslas as a FluxDensity.
func Microteslas(x float64) FluxDensity { return FluxDensity(x) }

// Teslas returns x teslas as a FluxDensity.
func Teslas(x float64) FluxDensity { return FluxDensity(x * 1e6) }

// Microteslas is the flux density in microteslas.
func (f FluxDensity) Microteslas() float64 { return float64(f) }

// Teslas is the flux density in teslas.
func (f FluxDensity) Teslas() float64 { return float64(f) / 1e6 }

// Kind is FluxDensityKind.
func (f FluxDensity) Kind() Kind { return FluxDensityKind }

// String is the flux density as a design file holds it.
func (f FluxDensity) String() string { return f.Kind().Format(float64(f)) }

// MarshalText is String for encoders.
func (f FluxDensity) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText is Parse for decoders.
func (f *FluxDensity) UnmarshalText(text []byte) error { return unmarshal(f, text) }

// FluxPerCurrent is the field a lead makes for each ampere it carries, in microteslas per ampere.
type FluxPerCurrent float64

// MicroteslasPerAmpere returns x microteslas per ampere as a FluxPerCurrent.
func MicroteslasPerAmpere(x float64) FluxPerCurrent { return FluxPerCurrent(x) }

// TeslasPerAmpere returns x teslas per ampere as a FluxPerCurrent.
func TeslasPerAmpere(x float64) FluxPerCurrent { return FluxPerCurrent(x * 1e6) }

// MicroteslasPerAmpere is the flux per current in microteslas per ampere.
func (f FluxPerCurrent) MicroteslasPerAmpere() float64 { return float64(f) }

// TeslasPerAmpere is the flux per current in teslas per ampere.
func (f FluxPerCurrent) TeslasPerAmpere() float64 { return float64(f) / 1e6 }

// Kind is FluxPerCurrentKind.
func (f FluxPerCurrent) Kind() Kind { return FluxPerCurrentKind }

// String is the flux per current as a design file holds it.
func (f FluxPerCurrent) String() string { return f.Kind().Format(float64(f)) }

// MarshalText is String for encoders.
func (f FluxPerCurrent) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText is Parse for decoders.
func (f *FluxPerCurrent) UnmarshalText(text []byte) error { return unmarshal(f, text) }
