package design

import "mastwright/materials"

// Library is the built-in materials with the user's own from the file materials.from.
func (d *Document) Library() materials.List { return materials.Library().With(d.own) }
