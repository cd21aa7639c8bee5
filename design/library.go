package design

import "mastwright/materials"

// Library is the built-in materials with the user's own from the file materials.from, and with what was measured of them.
func (d *Document) Library() materials.List {
	list := materials.Library().With(d.own)
	for i, m := range list {
		list[i] = d.corrected(m)
	}
	return list
}
