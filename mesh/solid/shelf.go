package solid

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// shelf finds bricks by their place in the grid.
type shelf struct {
	n     [3]int // roots along the axes
	roots [][]*brick
}

const rootBricks = rootCells / brickCells // along a side

func newShelf(g *grid, bricks []*brick) *shelf {
	s := &shelf{}
	for a := range s.n {
		s.n[a] = (g.cells(a) + rootCells - 1) / rootCells
	}
	s.roots = make([][]*brick, s.n[0]*s.n[1]*s.n[2])
	for _, b := range bricks {
		root, place := s.place(b.first)
		if s.roots[root] == nil {
			s.roots[root] = make([]*brick, rootBricks*rootBricks*rootBricks)
		}
		s.roots[root][place] = b
	}
	return s
}

func (s *shelf) place(cell [3]int) (root, place int) {
	for a := 2; a >= 0; a-- {
		root = root*s.n[a] + cell[a]/rootCells
		place = place*rootBricks + cell[a]%rootCells/brickCells
	}
	return root, place
}

// at returns the brick that holds a cell, nil where the surface is not near.
func (s *shelf) at(cell [3]int) *brick {
	for a, c := range cell {
		if c < 0 || c >= s.n[a]*rootCells {
			return nil
		}
	}
	root, place := s.place(cell)
	if s.roots[root] == nil {
		return nil
	}
	return s.roots[root][place]
}

// cellOf returns the cell that holds a point, looking first at one it may be
// in.
func (g *grid) cellOf(x r3.Vec, hint [3]int) [3]int {
	var cell [3]int
	for a, c := range components(x) {
		at := g.at[a]
		if i := hint[a]; at[i] <= c && c <= at[i+1] {
			cell[a] = i
			continue
		}
		i, _ := slices.BinarySearch(at, c)
		cell[a] = min(max(0, i-1), len(at)-2)
	}
	return cell
}
