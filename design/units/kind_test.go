package units_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"mastwright/design/units"
)

func TestFormat(t *testing.T) {
	cases := []struct {
		kind  units.Kind
		value float64
		want  string
	}{
		{units.LengthKind, 92, "92 mm"},
		{units.LengthKind, math.Copysign(0, -1), "0 mm"},
		{units.AngleKind, -0.5, "-0.5 deg"},
		{units.FluxPerCurrentKind, 0.05, "0.05 uT/A"},
		{units.InertiaKind, 2.5e-9, "2.5e-09 kg m2"},
		{units.InertiaKind, 0.000015, "0.000015 kg m2"},
		{units.TemperatureKind, 60, "60 degC"},
		{units.RatioKind, 0.1, "0.1"},
		{units.CountKind, 4, "4"},
	}
	for _, c := range cases {
		t.Run(c.want, func(t *testing.T) {
			if got := c.kind.Format(c.value); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestFormatReadsBackExactly(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, kind := range units.Kinds() {
		if kind == units.CountKind {
			continue
		}
		for range 500 {
			value := random.NormFloat64() * math.Pow(10, float64(random.IntN(30)-15))
			got, err := kind.Parse(kind.Format(value))
			if err != nil || got != value {
				t.Fatalf("%v: %v written as %q reads %v, %v", kind, value, kind.Format(value), got, err)
			}
		}
	}
}

// Every unit a kind lists can be typed, and so can its typeset symbol.
func TestUnitsCanBeTyped(t *testing.T) {
	for _, kind := range units.Kinds() {
		if kind.Name() == "" {
			t.Errorf("kind %d has no name", kind)
		}
		for _, unit := range append(kind.Units(), kind.Symbol()) {
			if _, err := kind.Parse("3 " + unit); err != nil {
				t.Error(err)
			}
		}
	}
}

func TestSymbol(t *testing.T) {
	cases := map[units.Kind]string{
		units.LengthKind: "mm", units.InertiaKind: "kg·m²", units.FluxPerCurrentKind: "µT/A",
		units.TemperatureKind: "°C", units.AngleKind: "°", units.ResistanceKind: "Ω", units.RatioKind: "", units.Kind(0): "",
	}
	for kind, want := range cases {
		if got := kind.Symbol(); got != want {
			t.Errorf("%v: got %q, want %q", kind, got, want)
		}
	}
}
