package solid

import (
	"mastwright/mesh"
)

// attempt is the mesh from one grid.
type attempt struct {
	mesh       *mesh.Mesh
	defects    mesh.Defects
	err        error
	raw        bool
	reached    float64
	spacing    float64
	bricks     int
	unresolved int
	moved      int  // faces made one
	thin       bool // a wall or gap was seen that the grid may have missed: no mesh was made
	finer      []request
	blocked    []int32    // labels of patches that could not be filled
	placed     *placed    // where the mesh failed
	candidate  *mesh.Mesh // not taken by the gate, or not shown to it
}

// good reports whether nothing is left to wish for.
func (a *attempt) good(tolerance float64) bool {
	return a.mesh != nil && !a.raw && !a.thin && a.reached <= tolerance
}

func (a *attempt) better(b *attempt) bool {
	switch {
	case a.thin != b.thin:
		return !a.thin
	case (a.err == nil) != (b.err == nil):
		return a.err == nil
	case a.err != nil && (a.bricks > rawBricks) != (b.bricks > rawBricks):
		return b.bricks > rawBricks
	case a.err != nil:
		return a.unresolved < b.unresolved
	case a.raw != b.raw:
		return !a.raw
	}
	return a.reached < b.reached
}
