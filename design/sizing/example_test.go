package sizing_test

import (
	"context"
	"fmt"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/sizing"
)

// aircraft is an example design.
func aircraft(name string) *design.Document {
	for _, e := range assets.Examples() {
		if e.Name == name {
			doc, _ := design.Decode(e.Data, design.Options{Name: name})
			return doc
		}
	}
	return nil
}

func ExampleHeights() {
	w, err := sizing.Heights(context.Background(), aircraft("river-survey"), sizing.HeightOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(w.Words()[0])
	// Output:
	// Height 91 to 146 mm passes everything; Shake binds below, Modes above.
}

func ExampleRepairs() {
	advice, err := sizing.Repairs(context.Background(), aircraft("orchard-mapper"), sizing.RepairOptions{Checks: []string{"heat"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(advice[0].Title, "fails;", len(advice[0].Repairs), "repairs. The first:", advice[0].Repairs[0].Changes[0])
	// Output:
	// Heat fails; 3 repairs. The first: {materials.mast pa12}
}
