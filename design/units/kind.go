package units

import (
	"math/big"
	"strconv"
	"strings"
)

// Kind is a sort of quantity. The zero Kind is none; it has no name and no unit.
type Kind uint8

// The kinds, one for each quantity type.
const (
	LengthKind Kind = iota + 1
	AreaKind
	AngleKind
	MassKind
	DensityKind
	InertiaKind
	ForceKind
	StressKind
	ComplianceKind
	SpeedKind
	AccelerationKind
	FrequencyKind
	RotorSpeedKind
	RotationRateKind
	CurrentKind
	VoltageKind
	ResistanceKind
	CapacitanceKind
	CapacitancePerLengthKind
	MotorConstantKind
	FluxDensityKind
	FluxPerCurrentKind
	TemperatureKind
	TemperatureDifferenceKind
	RatioKind
	CountKind
)

// Kinds lists every kind in a fixed order.
func Kinds() []Kind {
	kinds := make([]Kind, 0, CountKind)
	for k := LengthKind; k <= CountKind; k++ {
		kinds = append(kinds, k)
	}
	return kinds
}

// Name is what the quantity is called in a message: "length", "motor constant".
func (k Kind) Name() string { return k.entry().name }

// String is Name.
func (k Kind) String() string { return k.Name() }

// Unit is the file unit in plain ASCII: "mm", "uT/A". It is "" for plain numbers.
func (k Kind) Unit() string { return k.entry().units[0].symbol }

// Symbol is the file unit as print sets it: "mm", "µT/A", "°". It is "" for plain numbers.
func (k Kind) Symbol() string { return strings.Join(strings.Fields(typeset.Replace(k.Unit())), "·") }

// Units lists the units one may type, the file unit first, in plain ASCII.
func (k Kind) Units() []string {
	var symbols []string
	for _, u := range k.entry().units {
		if u.symbol != "" {
			symbols = append(symbols, u.symbol)
		}
	}
	return symbols
}

// Format writes a value in the file unit as the shortest decimal that reads
// back as exactly the same number, a space, and the unit: "92 mm", "0.05 uT/A".
// Parse reads back sizes from 1e-18 to 1e18 and zero.
func (k Kind) Format(value float64) string {
	return strings.TrimRight(decimal(value)+" "+k.Unit(), " ")
}

// decimal avoids an exponent wherever a person would.
func decimal(value float64) string {
	value += 0 // -0 prints as 0
	if size := max(value, -value); size != 0 && (size < 1e-6 || size >= 1e15) {
		return strconv.FormatFloat(value, 'e', -1, 64)
	}
	return strconv.FormatFloat(value, 'f', -1, 64)
}

func (k Kind) entry() kindEntry {
	if int(k) >= len(kinds) {
		k = 0
	}
	return kinds[k]
}

// kindEntry is one row of the table of kinds; its first unit is the file unit.
type kindEntry struct {
	name  string
	whole bool
	units []unit
}

// unit turns a typed number into file units: typed*factor + offset, exactly.
// Factor and offset are decimals or fractions, "" being 1 and 0.
type unit struct {
	symbol string
	factor string
	offset string
	also   []string
}

func (u unit) inFileUnit(typed *big.Rat) *big.Rat {
	value := new(big.Rat).Set(typed)
	if u.factor != "" {
		value.Mul(value, exactly(u.factor))
	}
	if u.offset != "" {
		value.Add(value, exactly(u.offset))
	}
	return value
}

func exactly(text string) *big.Rat {
	value, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("units: table entry " + text + " is no number")
	}
	return value
}

var typeset = strings.NewReplacer("degC", "°C", "deg", "°", "uT", "µT", "ohm", "Ω", "2", "²", "3", "³")

// kinds is indexed by Kind. Sources of the factors: SI prefixes; NIST SP 811
// (2008), appendix B.8, bold (exact) entries, for the inch 25.4 mm, the
// avoirdupois ounce 28.349523125 g, the mile per hour 0.44704 m/s, the gauss
// 1e-4 T, the kilogram-force 9.80665 N, g0 9.80665 m/s² and the Fahrenheit scale.
var kinds = [...]kindEntry{
	0:                        {units: []unit{{}}},
	LengthKind:               {name: "length", units: []unit{{symbol: "mm"}, {symbol: "cm", factor: "10"}, {symbol: "m", factor: "1000"}, {symbol: "in", factor: "25.4"}}},
	AreaKind:                 {name: "area", units: []unit{{symbol: "mm2"}, {symbol: "cm2", factor: "100"}, {symbol: "m2", factor: "1e6"}}},
	AngleKind:                {name: "angle", units: []unit{{symbol: "deg", also: []string{"degree", "degrees"}}}},
	MassKind:                 {name: "mass", units: []unit{{symbol: "g"}, {symbol: "kg", factor: "1000"}, {symbol: "oz", factor: "28.349523125"}}},
	DensityKind:              {name: "density", units: []unit{{symbol: "g/cm3"}, {symbol: "kg/m3", factor: "1/1000"}}},
	InertiaKind:              {name: "moment of inertia", units: []unit{{symbol: "kg m2", also: []string{"kgm2"}}, {symbol: "g mm2", factor: "1e-9", also: []string{"gmm2"}}}},
	ForceKind:                {name: "force", units: []unit{{symbol: "N"}, {symbol: "kN", factor: "1000"}, {symbol: "gf", factor: "0.00980665"}, {symbol: "kgf", factor: "9.80665"}}},
	StressKind:               {name: "stress", units: []unit{{symbol: "MPa", also: []string{"N/mm2"}}, {symbol: "GPa", factor: "1000"}, {symbol: "kPa", factor: "1e-3"}, {symbol: "Pa", factor: "1e-6"}}},
	ComplianceKind:           {name: "compliance", units: []unit{{symbol: "mm/N"}, {symbol: "m/N", factor: "1000"}, {symbol: "um/N", factor: "1e-3"}}},
	SpeedKind:                {name: "speed", units: []unit{{symbol: "m/s"}, {symbol: "km/h", factor: "5/18"}, {symbol: "mph", factor: "0.44704"}, {symbol: "mm/s", factor: "1e-3"}}},
	AccelerationKind:         {name: "acceleration", units: []unit{{symbol: "m/s2"}, {symbol: "g", factor: "9.80665"}}},
	FrequencyKind:            {name: "frequency", units: []unit{{symbol: "Hz"}, {symbol: "kHz", factor: "1000"}}},
	RotorSpeedKind:           {name: "rotor speed", units: []unit{{symbol: "rpm", also: []string{"r/min"}}, {symbol: "Hz", factor: "60"}}},
	RotationRateKind:         {name: "rotation rate", units: []unit{{symbol: "deg/s"}}},
	CurrentKind:              {name: "current", units: []unit{{symbol: "A"}, {symbol: "mA", factor: "1e-3"}}},
	VoltageKind:              {name: "voltage", units: []unit{{symbol: "V"}, {symbol: "mV", factor: "1e-3"}}},
	ResistanceKind:           {name: "resistance", units: []unit{{symbol: "ohm"}, {symbol: "kohm", factor: "1000"}}},
	CapacitanceKind:          {name: "capacitance", units: []unit{{symbol: "pF"}, {symbol: "nF", factor: "1000"}}},
	CapacitancePerLengthKind: {name: "capacitance per length", units: []unit{{symbol: "pF/m"}, {symbol: "nF/m", factor: "1000"}}},
	MotorConstantKind:        {name: "motor constant", units: []unit{{symbol: "rpm/V", also: []string{"kv", "KV", "Kv"}}}},
	FluxDensityKind:          {name: "flux density", units: []unit{{symbol: "uT"}, {symbol: "nT", factor: "1e-3"}, {symbol: "mT", factor: "1000"}, {symbol: "T", factor: "1e6"}, {symbol: "G", factor: "100"}}},
	FluxPerCurrentKind:       {name: "flux density per current", units: []unit{{symbol: "uT/A"}, {symbol: "nT/A", factor: "1e-3"}}},
	TemperatureKind: {name: "temperature", units: []unit{{symbol: "degC", also: []string{"C"}}, {symbol: "K", offset: "-273.15"},
		{symbol: "degF", factor: "5/9", offset: "-160/9", also: []string{"F"}}}},
	TemperatureDifferenceKind: {name: "temperature difference", units: []unit{{symbol: "K"}, {symbol: "degC", also: []string{"C"}}}},
	RatioKind:                 {name: "ratio", units: []unit{{}, {symbol: "%", factor: "1/100"}}},
	CountKind:                 {name: "count", whole: true, units: []unit{{}}},
}
