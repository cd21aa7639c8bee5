package certainty

import (
	"bytes"
	"fmt"
	"slices"

	"mastwright/design"
	"mastwright/materials"
)

// press makes the designs of a study: the same answers, other materials.
type press struct {
	text    []byte // the design with every answer its own, and its materials from a shelf file
	library materials.List
}

// drawnMaterials is the name of the shelf file that holds a lot's materials. There is no such file.
const drawnMaterials = "drawn.yaml"

// newPress takes what shelf files say into the design, and what was measured of materials into the library.
func newPress(doc *design.Document) (press, error) {
	own := doc.Clone()
	for _, path := range doc.Paths() {
		if f, ok := design.FieldOf(path); !ok || f.Form == design.List || doc.Origin(path) != design.Shelved {
			continue
		}
		if err := own.Set(path, doc.Get(path)); err != nil {
			return press{}, err
		}
	}
	for _, section := range []string{"airframe", "receiver", "print"} {
		own.Clear(section + ".from")
	}
	for i, m := range slices.Backward(doc.Measured) {
		if ofMaterial(m) {
			if err := own.Withdraw(i); err != nil {
				return press{}, err
			}
		}
	}
	if err := own.Set("materials.from", drawnMaterials); err != nil {
		return press{}, err
	}
	var b bytes.Buffer
	if err := design.Encode(&b, own); err != nil {
		return press{}, err
	}
	p := press{text: b.Bytes()}
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
	var shelf bytes.Buffer
	if err := materials.Encode(&shelf, l.library); err != nil {
		return nil, err
	}
	doc, problems := design.Decode(p.text, design.Options{Open: func(name string) ([]byte, error) {
		if name != drawnMaterials {
			return nil, fmt.Errorf("there is no %s", name)
		}
		return shelf.Bytes(), nil
	}})
	if len(problems) > 0 {
		return nil, problems[0]
	}
	for _, a := range l.answers {
		if err := doc.Set(a.path, a.text); err != nil {
			return nil, err
		}
	}
	return doc, nil
}
