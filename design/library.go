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

// WithMaterials returns a copy of the document that knows some materials of its own besides; they go before others of the same ID.
func (d *Document) WithMaterials(list materials.List) *Document {
	c := d.Clone()
	c.own = d.own.With(list)
	return c
}
