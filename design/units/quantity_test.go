package units_test

import (
	"encoding/json"
	"math"
	"testing"

	"mastwright/design/units"
)

func TestConversions(t *testing.T) {
	// Source of the factors: NIST SP 811 (2008), appendix B.8, and the SI
	// prefixes; one rounding of a float64 is allowed.
	cases := []struct {
		name      string
		got, want float64
	}{
		{"92 mm in m", units.Millimetres(92).Metres(), 0.092},
		{"0.092 m in mm", units.Metres(0.092).Millimetres(), 92},
		{"5.03 mm² in m²", units.SquareMillimetres(5.03).SquareMetres(), 5.03e-6},
		{"5.03e-6 m² in mm²", units.SquareMetres(5.03e-6).SquareMillimetres(), 5.03},
		{"180° in rad", units.Degrees(180).Radians(), math.Pi},
		{"π/2 rad in °", units.Radians(math.Pi / 2).Degrees(), 90},
		{"12 g in kg", units.Grams(12).Kilograms(), 0.012},
		{"0.8 kg in g", units.Kilograms(0.8).Grams(), 800},
		{"1.24 g/cm³ in kg/m³", units.GramsPerCubicCentimetre(1.24).KilogramsPerCubicMetre(), 1240},
		{"1240 kg/m³ in g/cm³", units.KilogramsPerCubicMetre(1240).GramsPerCubicCentimetre(), 1.24},
		{"2600 MPa in Pa", units.Megapascals(2600).Pascals(), 2.6e9},
		{"2.6 GPa in MPa", units.Gigapascals(2.6).Megapascals(), 2600},
		{"2600 MPa in GPa", units.Megapascals(2600).Gigapascals(), 2.6},
		{"1e6 Pa in MPa", units.Pascals(1e6).Megapascals(), 1},
		{"0.01 mm/N in m/N", units.MillimetresPerNewton(0.01).MetresPerNewton(), 1e-5},
		{"1e-5 m/N in mm/N", units.MetresPerNewton(1e-5).MillimetresPerNewton(), 0.01},
		{"3 g in m/s²", units.StandardGravities(3).MetresPerSecondSquared(), 29.41995},
		{"9.80665 m/s² in g", units.MetresPerSecondSquared(9.80665).StandardGravities(), 1},
		{"6000 rpm in rev/s", units.RevolutionsPerMinute(6000).RevolutionsPerSecond(), 100},
		{"100 rev/s in rpm", units.RevolutionsPerSecond(100).RevolutionsPerMinute(), 6000},
		{"60 rpm in rad/s", units.RevolutionsPerMinute(60).RadiansPerSecond(), 2 * math.Pi},
		{"180 °/s in rad/s", units.DegreesPerSecond(180).RadiansPerSecond(), math.Pi},
		{"π rad/s in °/s", units.RadiansPerSecond(math.Pi).DegreesPerSecond(), 180},
		{"400 pF in F", units.Picofarads(400).Farads(), 4e-10},
		{"4e-10 F in pF", units.Farads(4e-10).Picofarads(), 400},
		{"80 pF/m in F/m", units.PicofaradsPerMetre(80).FaradsPerMetre(), 8e-11},
		{"8e-11 F/m in pF/m", units.FaradsPerMetre(8e-11).PicofaradsPerMetre(), 80},
		{"48 µT in T", units.Microteslas(48).Teslas(), 48e-6},
		{"0.02 T in µT", units.Teslas(0.02).Microteslas(), 20000},
		{"0.05 µT/A in T/A", units.MicroteslasPerAmpere(0.05).TeslasPerAmpere(), 5e-8},
		{"5e-8 T/A in µT/A", units.TeslasPerAmpere(5e-8).MicroteslasPerAmpere(), 0.05},
		{"60 °C in K", units.Celsius(60).Kelvin(), 333.15},
		{"50 °C above 60 °C", units.Celsius(50).Minus(units.Celsius(60)).Kelvins(), -10},
		{"60 °C and 20 K", units.Celsius(60).Plus(units.Kelvins(20)).Celsius(), 80},
		{"15 % as a fraction", units.Percent(15).Fraction(), 0.15},
		{"0.15 in %", units.Fraction(0.15).Percent(), 15},
		{"6 pieces", float64(units.Pieces(6).Pieces()), 6},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if math.Abs(c.got-c.want) > 4e-16*math.Abs(c.want) {
				t.Errorf("got %v, want %v", c.got, c.want)
			}
		})
	}
}

func TestQuantitiesInJSON(t *testing.T) {
	type part struct {
		Height units.Length
		Field  units.FluxDensity
	}
	encoded, err := json.Marshal(part{units.Millimetres(92), units.Microteslas(48.5)})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := string(encoded), `{"Height":"92 mm","Field":"48.5 uT"}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	var decoded part
	if err := json.Unmarshal([]byte(`{"Height":"3.6 in","Field":"0.5 G"}`), &decoded); err != nil {
		t.Fatal(err)
	}
	if want := (part{units.Millimetres(91.44), units.Microteslas(50)}); decoded != want {
		t.Errorf("got %v, want %v", decoded, want)
	}
	before := decoded
	if err := json.Unmarshal([]byte(`{"Height":"1,000"}`), &decoded); err == nil {
		t.Error("got no error for an ambiguous length")
	}
	if decoded != before {
		t.Errorf("got %v after a refused text, want %v", decoded, before)
	}
}

// Every type names its own kind, and marshals to what it unmarshals from.
func TestEveryQuantity(t *testing.T) {
	checks := []func(*testing.T) units.Kind{
		roundTrip[units.Length], roundTrip[units.Area], roundTrip[units.Angle], roundTrip[units.Mass], roundTrip[units.Density],
		roundTrip[units.Inertia], roundTrip[units.Force], roundTrip[units.Stress], roundTrip[units.Compliance], roundTrip[units.Speed],
		roundTrip[units.Acceleration], roundTrip[units.Frequency], roundTrip[units.RotorSpeed], roundTrip[units.RotationRate],
		roundTrip[units.Current], roundTrip[units.Voltage], roundTrip[units.Resistance], roundTrip[units.Capacitance],
		roundTrip[units.CapacitancePerLength], roundTrip[units.MotorConstant], roundTrip[units.FluxDensity],
		roundTrip[units.FluxPerCurrent], roundTrip[units.Temperature], roundTrip[units.TemperatureDifference],
		roundTrip[units.Ratio], roundTrip[units.Count],
	}
	for i, kind := range units.Kinds() {
		if got := checks[i](t); got != kind {
			t.Errorf("got kind %v, want %v", got, kind)
		}
	}
}

func roundTrip[Q units.Quantity, P interface {
	*Q
	UnmarshalText([]byte) error
	MarshalText() ([]byte, error)
}](t *testing.T) units.Kind {
	written := Q(7)
	text, err := P(&written).MarshalText()
	if err != nil || string(text) != written.String() {
		t.Errorf("%v: got %q, %v, want %q", written.Kind(), text, err, written.String())
	}
	var read Q
	if err := P(&read).UnmarshalText(text); err != nil || read != written {
		t.Errorf("%v: %q reads %v, %v, want %v", written.Kind(), text, read, err, written)
	}
	return written.Kind()
}
