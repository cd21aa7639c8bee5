package parts_test

import (
	"fmt"
	"testing"

	"mastwright/design/parts"
)

func ExampleBuild() {
	a, problems := parts.Build(mount(&testing.T{}))
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	for _, p := range a.Parts {
		fmt.Printf("%s: %s, %.0f x %.0f x %.0f mm, %.1f cm³ of plastic\n", p.Name, p.Material, p.Box.X, p.Box.Y, p.Box.Z, p.Body.Plastic/1000)
	}
	mast := a.Members[0]
	fmt.Printf("the mast is %.1f mm long, its section half way up %.0f mm²\n", mast.Length(), mast.Outline(0.5).Area())
	// Output:
	// mast: petg, 42 x 40 x 103 mm, 20.5 cm³ of plastic
	// the mast is 92.6 mm long, its section half way up 114 mm²
}
