package units_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design/units"
)

func TestParse(t *testing.T) {
	// Factors: NIST Special Publication 811 (2008), appendix B.8, entries in
	// bold type (exact), and the SI prefixes. The products are worked by hand
	// and are exact decimals, so the comparison has no tolerance.
	cases := []struct {
		kind units.Kind
		text string
		want float64
	}{
		{units.LengthKind, "92", 92},
		{units.LengthKind, " 92 mm ", 92},
		{units.LengthKind, "92mm", 92},
		{units.LengthKind, "1.1 cm", 11},
		{units.LengthKind, "0.1 m", 100},
		{units.LengthKind, "1 in", 25.4},
		{units.LengthKind, "3.6 in", 91.44},
		{units.LengthKind, "0,3 mm", 0.3},
		{units.LengthKind, "0,300 mm", 0.3},
		{units.LengthKind, "1.000", 1},
		{units.LengthKind, "1,5", 1.5},
		{units.LengthKind, "1,0005", 1.0005},
		{units.LengthKind, "1234,567", 1234.567},
		{units.LengthKind, ",5", 0.5},
		{units.LengthKind, "+.5", 0.5},
		{units.LengthKind, "5.", 5},
		{units.LengthKind, "-0.5 mm", -0.5},
		{units.LengthKind, "−0.5 mm", -0.5},
		{units.LengthKind, "-0", 0},
		{units.LengthKind, "3e-2 m", 30},
		{units.LengthKind, "3 × 10^-2 m", 30},
		{units.LengthKind, "3×10⁻² m", 30},
		{units.LengthKind, "12\u00a0mm", 12},
		{units.AreaKind, "5.03 mm²", 5.03},
		{units.AngleKind, "-0.5°", -0.5},
		{units.AngleKind, "45 degrees", 45},
		{units.MassKind, "12 g", 12},
		{units.MassKind, "0.8 kg", 800},
		{units.MassKind, "1 oz", 28.349523125},
		{units.DensityKind, "1240 kg/m³", 1.24},
		{units.InertiaKind, "2.5e-5 kg·m²", 2.5e-5},
		{units.InertiaKind, "2 kg × m^2", 2},
		{units.InertiaKind, "1500 g mm2", 1.5e-6},
		{units.ForceKind, "100 gf", 0.980665},
		{units.StressKind, "2.6 GPa", 2600},
		{units.StressKind, "45 N/mm²", 45},
		{units.ComplianceKind, "1e-5 m/N", 0.01},
		{units.ComplianceKind, "40 µm/N", 0.04},
		{units.SpeedKind, "90 km/h", 25},
		{units.SpeedKind, "10 mph", 4.4704},
		{units.AccelerationKind, "3 g", 29.41995},
		{units.AccelerationKind, "3 m / s^2", 3},
		{units.RotorSpeedKind, "200 Hz", 12000},
		{units.CurrentKind, "600 mA", 0.6},
		{units.ResistanceKind, "3.3 kΩ", 3300},
		{units.ResistanceKind, "10 \u2126", 10},
		{units.CapacitanceKind, "0.4 nF", 400},
		{units.CapacitancePerLengthKind, "80 pF/m", 80},
		{units.MotorConstantKind, "1750 kv", 1750},
		{units.FluxDensityKind, "0.5 G", 50},
		{units.FluxDensityKind, "48 \u03bcT", 48},
		{units.FluxDensityKind, "0.02 T", 20000},
		{units.FluxPerCurrentKind, "50 nT/A", 0.05},
		{units.TemperatureKind, "60 °C", 60},
		{units.TemperatureKind, "333.15 K", 60},
		{units.TemperatureKind, "140 degF", 60},
		{units.TemperatureKind, "-40 °F", -40},
		{units.TemperatureDifferenceKind, "20 °C", 20},
		{units.RatioKind, "15 %", 0.15},
		{units.RatioKind, "0,15", 0.15},
		{units.CountKind, "6", 6},
		{units.CountKind, "6.0", 6},
	}
	for _, c := range cases {
		t.Run(c.kind.Name()+" "+c.text, func(t *testing.T) {
			got, err := c.kind.Parse(c.text)
			if err != nil {
				t.Fatal(err)
			}
			if got != c.want || math.Signbit(got) != math.Signbit(c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	cases := []struct {
		kind units.Kind
		text string
		want string
	}{
		{units.LengthKind, "", `length is empty; write a number like "12.5 mm"`},
		{units.LengthKind, " \t", `length is empty; write a number like "12.5 mm"`},
		{units.LengthKind, "1,000", `length "1,000" can be read two ways; write 1000 or 1.0`},
		{units.LengthKind, "-1,250", `write -1250 or -1.25`},
		{units.LengthKind, "12,345 mm", `length "12,345 mm" can be read two ways; write 12345 or 12.345`},
		{units.LengthKind, "1.000,5", `more than one mark`},
		{units.LengthKind, "1,000,000", `more than one mark`},
		{units.LengthKind, "1 000", `holds two numbers`},
		{units.LengthKind, "30.5 x 30.5", `unknown unit "x 30.5"; write it in mm, cm, m or in`},
		{units.LengthKind, "3 4 mm", `holds two numbers`},
		{units.LengthKind, "3-4", `holds two numbers`},
		{units.LengthKind, "3×102", `unknown unit`},
		{units.LengthKind, "NaN", `"NaN" is not a number`},
		{units.LengthKind, "-Inf", `"-Inf" is not a number`},
		{units.LengthKind, ".", `is not a number`},
		{units.LengthKind, "mm", `is not a number`},
		{units.LengthKind, "--3", `is not a number`},
		{units.LengthKind, "010", `"010" begins with a spare zero; write 10`},
		{units.LengthKind, "-010 mm", `begins with a spare zero; write -10`},
		{units.LengthKind, "00.5", `begins with a spare zero; write 0.5`},
		{units.LengthKind, "0x10", `looks hexadecimal`},
		{units.LengthKind, "1_000", `has an underscore`},
		{units.LengthKind, "12 furlong", `length "12 furlong" has an unknown unit "furlong"; write it in mm, cm, m or in`},
		{units.LengthKind, "12 MM", `unknown unit "MM"`},
		{units.LengthKind, "5 *mm", `unknown unit`},
		{units.LengthKind, "1e99", `beyond any sensible size`},
		{units.LengthKind, "1e999999999", `beyond any sensible size`},
		{units.LengthKind, "1e-30", `beyond any sensible size`},
		{units.LengthKind, strings.Repeat("9", 200), `is not a number`},
		{units.LengthKind, "\xff12", `is not a number`},
		{units.MotorConstantKind, "1750 kV", `unknown unit "kV"; write it in rpm/V`},
		{units.CountKind, "2.9", `count "2.9" is not a whole number; write one like "3"`},
		{units.CountKind, "6 pcs", `write a bare number`},
		{units.CountKind, "", `count is empty; write a number like "4"`},
		{units.RatioKind, "3 mm", `write it in %`},
		{units.Kind(0), "3", `no kind of quantity`},
		{units.Kind(200), "3", `no kind of quantity`},
	}
	for _, c := range cases {
		t.Run(c.kind.Name()+" "+c.text, func(t *testing.T) {
			got, err := c.kind.Parse(c.text)
			if err == nil {
				t.Fatalf("got %v, want an error", got)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %q, want it to contain %q", err, c.want)
			}
		})
	}
}

// Every text that is read is written as a text that reads back as the same number.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"92 mm", "3,6 in", "-0.5 deg", "1,000", "0x1p-2", "010", "1e-6 kg·m²", "2×10⁻³", "1__0", "−40 °F", "15 %", "\xff"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, kind := range units.Kinds() {
			value, err := kind.Parse(text)
			if err != nil {
				continue
			}
			if math.IsNaN(value) || math.IsInf(value, 0) {
				t.Fatalf("%v %q: got %v", kind, text, value)
			}
			back, err := kind.Parse(kind.Format(value))
			if err != nil || back != value {
				t.Fatalf("%v %q: %v written as %q reads %v, %v", kind, text, value, kind.Format(value), back, err)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := units.LengthKind.Parse("3.6 in"); err != nil {
			b.Fatal(err)
		}
	}
}
