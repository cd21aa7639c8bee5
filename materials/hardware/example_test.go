package hardware_test

import (
	"fmt"

	"mastwright/materials/hardware"
)

func ExampleStockLength() {
	engagement, _ := hardware.M3.Engagement(hardware.InNut)
	length, err := hardware.StockLength(6.5, engagement)
	fmt.Println(hardware.Screw{Size: hardware.M3, Head: hardware.Socket, Length: length}, err)
	// Output: M3 x 10 socket <nil>
}

func ExampleParseSize() {
	size, _ := hardware.ParseSize("m2,5")
	hole, _ := size.ClearanceHole(hardware.Medium)
	fmt.Println(size, "needs a hole of", hole)
	_, err := hardware.ParseSize("6-32")
	fmt.Println(err)
	// Output:
	// M2.5 needs a hole of 2.9 mm
	// no screw size "6-32"; write one of M2, M2.5, M3, M4, M5
}

func ExampleFindMaterial() {
	stainless, _ := hardware.FindMaterial("stainless")
	fmt.Println(stainless.Title, "treated as steel near the compass:", stainless.Ferrous())
	// Output: stainless A2-70 treated as steel near the compass: true
}
