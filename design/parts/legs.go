package parts

import "mastwright/design"

// buildLegs is slender legs from pads on the frame to the tray.
func buildLegs(doc *design.Document) (Assembly, []design.Problem) {
	return Assembly{}, []design.Problem{{Path: "mast.build", Value: doc.Get("mast.build"), Text: "legs cannot be built yet; use column"}}
}

func legFits(doc *design.Document) fits {
	_, problems := Build(doc)
	return fits{mount: &mount{problems: problems}}
}
