package units_test

import (
	"fmt"

	"mastwright/design/units"
)

func Example() {
	height := units.Millimetres(92)
	fmt.Println(height, "=", height.Metres(), "m")
	// Output: 92 mm = 0.092 m
}

func ExampleParse() {
	height, err := units.Parse[units.Length]("3,6 in")
	fmt.Println(height, err)
	_, err = units.Parse[units.Length]("1,000")
	fmt.Println(err)
	// Output:
	// 91.44 mm <nil>
	// length "1,000" can be read two ways; write 1000 or 1.0
}

func ExampleKind_Parse() {
	_, err := units.MassKind.Parse("2 stone")
	fmt.Println(err)
	// Output: mass "2 stone" has an unknown unit "stone"; write it in g, kg or oz
}

func ExampleKind_Format() {
	fmt.Println(units.FluxPerCurrentKind.Format(0.05))
	fmt.Println(units.FluxPerCurrentKind.Name(), "in", units.FluxPerCurrentKind.Symbol())
	// Output:
	// 0.05 uT/A
	// flux density per current in µT/A
}
