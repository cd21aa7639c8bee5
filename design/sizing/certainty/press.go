package certainty

import (
	"slices"

	"mastwright/design"
	"mastwright/materials"
)

// press makes the designs of a study: the same answers, other materials.
type press struct {
	design  *design.Document // what was measured of materials is in the library
	library materials.List
}

// newPress takes what was measured of materials into the library.
func newPress(doc *design.Document) (press, error) {
	p := press{design: doc.Clone()}
	for i, m := range slices.Backward(doc.Measured) {
		if ofMaterial(m) {
			if err := p.design.Withdraw(i); err != nil {
				return press{}, err
			}
		}
	}
	named := map[string]bool{}
	for _, path := range doc.Paths() {
		named[doc.Get(path)] = true
	}
	for _, m := range doc.Library() {
		if named[m.ID] {
			p.library = append(p.library, m)
		}
	}
	return p, nil
}

// lot is a drawing in which everything is typical still.
func (p press) lot() lot { return lot{library: slices.Clone(p.library)} }

// document is the design as a lot makes it.
func (p press) document(l lot) (*design.Document, error) {
	doc := p.design.WithMaterials(l.library)
	for _, a := range l.answers {
		if err := doc.Set(a.path, a.text); err != nil {
			return nil, err
		}
	}
	return doc, nil
}
