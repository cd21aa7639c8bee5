package mesh

import "slices"

// Defects lists what keeps a surface from bounding a solid. A triangle with a
// bad corner takes no part in the other counts, a flat one none in the search
// for crossings; a pair of triangles that share an edge can fold but not
// cross. Lists are sorted, so equal meshes give equal reports.
type Defects struct {
	Broken      []int    // triangles with a corner missing, not finite or out of Reach
	Flat        []int    // triangles without area: a corner named twice or all on a line
	Duplicate   []int    // triangles with the same three corners as an earlier one
	Boundary    []Edge   // edges of one triangle
	NonManifold []Edge   // edges of three triangles or more
	Misoriented []Edge   // edges that both their triangles run along in the same direction
	Pinched     []int    // vertices whose triangles form more than one fan
	Folded      [][2]int // pairs of triangles with a common edge that lie on one another
	Crossing    [][2]int // pairs of other triangles that cross, overlap or touch
	InsideOut   []int    // first triangles of closed components with their outside in; sought only where nothing crosses

	CrossingsCut bool // Folded and Crossing stopped at Options.MostCrossings

	Components int // pieces joined through edges
	Genus      int // handles of all components; 0 where the surface is not closed and two-manifold
}

// Edge joins two vertices by index, the lower first.
type Edge [2]int32

// Options steers Inspect.
type Options struct {
	// MostCrossings ends the search for folds and crossings after this many
	// pairs. 0 means 1000.
	MostCrossings int
}

// None reports whether the list of defects is empty.
func (d Defects) None() bool {
	return len(d.Broken)+len(d.Flat)+len(d.InsideOut) == 0 && d.Closed() &&
		len(d.Folded)+len(d.Crossing) == 0
}

// Closed reports whether the surface is a closed, oriented two-manifold. It
// may still cross itself or be inside out.
func (d Defects) Closed() bool {
	return len(d.Broken)+len(d.Duplicate)+len(d.Boundary)+len(d.NonManifold)+
		len(d.Misoriented)+len(d.Pinched) == 0
}

// Inspect counts the defects of the mesh by index (Weld it first where
// vertices repeat) and with exact signs: touching counts as crossing, a
// common corner or edge alone does not. The cost is about that of sorting
// the triangles.
func (m *Mesh) Inspect(o Options) Defects {
	if o.MostCrossings <= 0 {
		o.MostCrossings = 1000
	}
	var d Defects
	sound := make([]bool, len(m.Triangles))
	for i, t := range m.Triangles {
		a, b, c, ok := m.corners(t)
		switch {
		case !ok:
			d.Broken = append(d.Broken, i)
		case t[0] == t[1] || t[1] == t[2] || t[2] == t[0]:
			d.Flat = append(d.Flat, i)
		case Collinear(a, b, c):
			d.Flat = append(d.Flat, i)
			sound[i] = true // it still joins its neighbours
		default:
			sound[i] = true
		}
	}
	s := m.seams(sound)
	for e := range s.edges {
		d.examine(e)
	}
	slices.Sort(d.Duplicate)
	pieces, first := s.components(sound)
	d.Components = len(first)
	d.Pinched = s.pinched()
	if d.Closed() && len(d.Flat) == 0 {
		d.Genus = s.genus(sound, len(first))
	}
	for _, i := range d.Flat {
		sound[i] = false
	}
	d.cross(m, sound, o.MostCrossings)
	if d.Closed() && len(d.Folded)+len(d.Crossing) == 0 {
		d.InsideOut = m.insideOut(pieces, first)
	}
	return d
}

// examine enters the faults of one edge.
func (d *Defects) examine(sides []seam) {
	e := Edge{sides[0].low, sides[0].high}
	switch {
	case len(sides) == 1:
		d.Boundary = append(d.Boundary, e)
	case len(sides) > 2:
		d.NonManifold = append(d.NonManifold, e)
	case sides[0].forward == sides[1].forward:
		d.Misoriented = append(d.Misoriented, e)
	}
	for i := 1; i < len(sides); i++ {
		if sides[i].opposite == sides[i-1].opposite && sides[i].opposite > sides[i].high {
			d.Duplicate = append(d.Duplicate, int(sides[i].triangle))
		}
	}
}
