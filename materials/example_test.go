package materials_test

import (
	"fmt"
	"strings"

	"mastwright/design/units"
	"mastwright/materials"
)

func ExampleList_Find() {
	petg, err := materials.Library().Find("petg")
	fmt.Println(petg.Title, petg.ModulusAcross.Typical, err)
	_, err = materials.Library().Find("PETG-CF")
	fmt.Println(err)
	_, err = materials.Library().Find("pom")
	fmt.Println(err)
	// Output:
	// PETG 1700 MPa <nil>
	// no material "PETG-CF"; did you mean petg?
	// no material "pom"; did you mean acetal-sheet?
}

func ExampleMaterial_Service() {
	petg, _ := materials.Library().Find("petg")
	fmt.Println(petg.Service(units.Celsius(25)).Percent(), "% at 25 °C")
	fmt.Println(petg.Service(units.Celsius(60)).Percent(), "% at 60 °C")
	// Output:
	// 100 % at 25 °C
	// 70 % at 60 °C
}

func ExampleDecode() {
	_, err := materials.Decode(strings.NewReader(`
- id: shed-petg
  title: PETG from the shed
  form: print
  density: {typical: 1250, source: label}
  poisson: {typical: 0.38, source: guess}
`))
	fmt.Println(err)
	// Output:
	// line 2: shed-petg: modulus-in-layer is missing; write modulus-in-layer: {typical: …, source: …}
	// line 2: shed-petg: strength-in-layer is missing; write strength-in-layer: {typical: …, source: …}
	// line 2: shed-petg: elongation-in-layer is missing; write elongation-in-layer: {typical: …, source: …}
	// line 2: shed-petg: loss-factor is missing; write loss-factor: {typical: …, source: …}
	// line 5: shed-petg.density.typical: 1250 g/cm3 is outside 0.05 g/cm3 to 25 g/cm3; check the unit
}
