package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/solid"
)

// fuse is a ring around the mast where less of the wall is left, bevelled at 45 degrees so that it prints standing.
type fuse struct {
	fitted   bool
	from, to float64 // levels between which it is thinnest
	wall     float64 // left there
	depth    float64 // taken off outside, and the height of each bevel
}

// middle is the level at which it breaks.
func (f fuse) middle() float64 { return (f.from + f.to) / 2 }

// note tells the builder of it.
func (f fuse) note() string {
	return fmt.Sprintf("The thin ring %s up is the fuse, which breaks before the rest: make a spare.", mm(f.middle()))
}

// Figures of a fuse in mm. Judgement.
const (
	fuseLeast = 0.3 // taken off a wall, or it is none
	fuseClear = 0.5 // from its bevels to fillets, collars and the cable way
	bevelOver = 0.4 // by which bodies of its cutter overlap
)

// setFuse places the ring: where it was asked for, or as low as it can be.
func (c *column) setFuse() {
	m := c.doc.Mast.Fuse
	if !m.Fitted || c.tip == 0 || len(c.problems) > 0 {
		return
	}
	f := fuse{fitted: true, wall: m.Wall.Millimetres()}
	width := m.Width.Millimetres()
	f.depth = c.wall - f.wall
	if !(f.wall >= 0.2 && f.depth >= fuseLeast) {
		c.refuse("mast.fuse.wall", "%s weakens no wall of %s; use at most %s", mm(f.wall), mm(c.wall), mm(c.wall-fuseLeast))
		return
	}
	if !(width >= 0.5 && width <= longest) {
		c.refuse("mast.fuse.width", "%g mm cannot be made; use 0.5 to %d mm", width, longest)
		return
	}
	low, high := c.base+c.rootFillet, c.tip-max(c.tipFillet, c.flare)
	if c.apart {
		low, high = c.footCollar.to, c.trayCollar.from
	}
	reach := width/2 + f.depth + fuseClear
	least, most := low+reach, high-reach
	z := least
	if c.doc.Has("mast.fuse.height") {
		z = m.Height.Millimetres()
	}
	w := c.way
	meets := func(z float64) bool { return w.open && z+reach > w.bottom && z-reach < w.bottom+w.length }
	if meets(z) && !c.doc.Has("mast.fuse.height") {
		z = w.bottom + w.length + reach
	}
	switch {
	case !(z >= least-1e-9 && z <= most+1e-9) || meets(z):
		where := mm(math.Ceil(least*10)/10) + " to " + mm(math.Floor(most*10)/10)
		if w.open {
			where += ", " + mm(reach) + " clear of the cable way"
		}
		c.refuse("mast.fuse.height", "%s puts the fuse beyond the free mast; use %s", mm(z), where)
		return
	}
	f.from, f.to = z-width/2, z+width/2
	c.fuse = f
}

// fuseStations adds the ring's stations where it lies below or above the cable way.
func (c *column) fuseStations(m *Member, add func(z, grow, slot float64), above bool) {
	f := c.fuse
	if !f.fitted || above != (c.way.open && f.middle() > c.way.bottom) {
		return
	}
	add(f.from-f.depth, 0, 0)
	add(f.from, -f.depth, 0)
	add(f.to, -f.depth, 0)
	add(f.to+f.depth, 0, 0)
	small, wide := grown(c.outer(f.middle()), -f.depth), c.outer(f.middle())
	at := (f.middle() - m.From.Z) / (m.To.Z - m.From.Z)
	m.Notches = append(m.Notches, Notch{Name: "fuse", At: at, Radius: (f.to - f.from) / 2, Small: r2.Vec{X: small.X, Y: small.Y}, Wide: r2.Vec{X: wide.X, Y: wide.Y}})
}

// fuseCutters take the ring out of the mast's outside.
func (c *column) fuseCutters() []solid.Node {
	f := c.fuse
	if !f.fitted {
		return nil
	}
	low, high := f.from-f.depth-bevelOver, f.to+f.depth+bevelOver
	left := func(z, more float64) section { return loose(c.bore(z), f.wall+more) }
	piece := func(low, lowMore, high, highMore float64) solid.Node {
		return solid.Move(solid.TaperedPrism(left(low, lowMore), left(high, highMore), high-low), r3.Vec{Z: low})
	}
	core := solid.Union(
		piece(low-1, 0, high+1, 0),
		piece(low-1, f.depth+bevelOver+1, f.from+bevelOver, -bevelOver),
		piece(f.to-bevelOver, -bevelOver, high+1, f.depth+bevelOver+1),
	)
	s := c.outer(low)
	slab := solid.Move(solid.Box(s.X+20, s.Y+20, high-low), r3.Vec{Z: low})
	return []solid.Node{solid.Named("fuse", solid.Difference(slab, core))}
}
