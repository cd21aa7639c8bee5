package units

import "math"

// standardGravity in m/s², exact: 3rd CGPM, 1901.
const standardGravity = 9.80665

// Speed is a speed in metres per second.
type Speed float64

// MetresPerSecond returns x metres per second as a Speed.
func MetresPerSecond(x float64) Speed { return Speed(x) }

// MetresPerSecond is the speed in metres per second.
func (s Speed) MetresPerSecond() float64 { return float64(s) }

// Kind is SpeedKind.
func (s Speed) Kind() Kind { return SpeedKind }

// String is the speed as a design file holds it.
func (s Speed) String() string { return s.Kind().Format(float64(s)) }

// MarshalText is String for encoders.
func (s Speed) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText is Parse for decoders.
func (s *Speed) UnmarshalText(text []byte) error { return unmarshal(s, text) }

// Acceleration is an acceleration in metres per second squared.
type Acceleration float64

// MetresPerSecondSquared returns x metres per second squared as an Acceleration.
func MetresPerSecondSquared(x float64) Acceleration { return Acceleration(x) }

// StandardGravities returns x standard gravities, 9.80665 m/s² each (3rd CGPM, 1901) as an Acceleration.
func StandardGravities(x float64) Acceleration { return Acceleration(x * standardGravity) }

// MetresPerSecondSquared is the acceleration in metres per second squared.
func (a Acceleration) MetresPerSecondSquared() float64 { return float64(a) }

// StandardGravities is the acceleration in standard gravities, 9.80665 m/s² each (3rd CGPM, 1901).
func (a Acceleration) StandardGravities() float64 { return float64(a) / standardGravity }

// Kind is AccelerationKind.
func (a Acceleration) Kind() Kind { return AccelerationKind }

// String is the acceleration as a design file holds it.
func (a Acceleration) String() string { return a.Kind().Format(float64(a)) }

// MarshalText is String for encoders.
func (a Acceleration) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText is Parse for decoders.
func (a *Acceleration) UnmarshalText(text []byte) error { return unmarshal(a, text) }

// Frequency is a frequency in hertz.
type Frequency float64

// Hertz returns x hertz as a Frequency.
func Hertz(x float64) Frequency { return Frequency(x) }

// Hertz is the frequency in hertz.
func (f Frequency) Hertz() float64 { return float64(f) }

// Kind is FrequencyKind.
func (f Frequency) Kind() Kind { return FrequencyKind }

// String is the frequency as a design file holds it.
func (f Frequency) String() string { return f.Kind().Format(float64(f)) }

// MarshalText is String for encoders.
func (f Frequency) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText is Parse for decoders.
func (f *Frequency) UnmarshalText(text []byte) error { return unmarshal(f, text) }

// RotorSpeed is a rotor speed in revolutions per minute.
type RotorSpeed float64

// RevolutionsPerMinute returns x revolutions per minute as a RotorSpeed.
func RevolutionsPerMinute(x float64) RotorSpeed { return RotorSpeed(x) }

// RevolutionsPerSecond returns x revolutions per second as a RotorSpeed.
func RevolutionsPerSecond(x float64) RotorSpeed { return RotorSpeed(x * 60) }

// RevolutionsPerMinute is the rotor speed in revolutions per minute.
func (r RotorSpeed) RevolutionsPerMinute() float64 { return float64(r) }

// RevolutionsPerSecond is the rotor speed in revolutions per second.
func (r RotorSpeed) RevolutionsPerSecond() float64 { return float64(r) / 60 }

// Kind is RotorSpeedKind.
func (r RotorSpeed) Kind() Kind { return RotorSpeedKind }

// String is the rotor speed as a design file holds it.
func (r RotorSpeed) String() string { return r.Kind().Format(float64(r)) }

// MarshalText is String for encoders.
func (r RotorSpeed) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText is Parse for decoders.
func (r *RotorSpeed) UnmarshalText(text []byte) error { return unmarshal(r, text) }

// RotationRate is how fast a body turns, in degrees per second.
type RotationRate float64

// DegreesPerSecond returns x degrees per second as a RotationRate.
func DegreesPerSecond(x float64) RotationRate { return RotationRate(x) }

// RadiansPerSecond returns x radians per second as a RotationRate.
func RadiansPerSecond(x float64) RotationRate { return RotationRate(x * 180 / math.Pi) }

// DegreesPerSecond is the rotation rate in degrees per second.
func (r RotationRate) DegreesPerSecond() float64 { return float64(r) }

// RadiansPerSecond is the rotation rate in radians per second.
func (r RotationRate) RadiansPerSecond() float64 { return float64(r) * math.Pi / 180 }

// Kind is RotationRateKind.
func (r RotationRate) Kind() Kind { return RotationRateKind }

// String is the rotation rate as a design file holds it.
func (r RotationRate) String() string { return r.Kind().Format(float64(r)) }

// MarshalText is String for encoders.
func (r RotationRate) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText is Parse for decoders.
func (r *RotationRate) UnmarshalText(text []byte) error { return unmarshal(r, text) }

// RadiansPerSecond is the rotor speed in radians per second.
func (r RotorSpeed) RadiansPerSecond() float64 { return float64(r) * math.Pi / 30 }
