package solid

import (
	"errors"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

var errTooManyCells = errors.New("too many cells")

// quad is the piece of surface round one crossing: its corners are the
// vertices of the four cells there, counter-clockwise from outside.
type quad struct {
	at     r3.Vec
	label  int32
	patch  int32
	corner [4]int32
}

// quads is the whole surface before simplification. The quads round vertex v
// are links[start[v]:start[v+1]], counter-clockwise; a link is four times the
// quad's number plus which of its corners v is. Two links in a row share the
// side of the first quad before that corner.
type quads struct {
	g     *grid
	shelf *shelf
	quad  []quad
	links []int32
	start []int32
	cell  [][3]int32 // of each vertex
}

// newQuads joins the crossings of all bricks.
func newQuads(g *grid, bricks []*brick, workers int) (*quads, error) {
	q := &quads{g: g, shelf: newShelf(g, bricks)}
	var vertices, links, total int32
	for _, b := range bricks {
		b.vertex, b.quad, b.links = vertices, total, links
		vertices += b.counts.vertices
		links += b.counts.links
		total += int32(len(b.value))
	}
	q.quad = make([]quad, total)
	q.links = make([]int32, links)
	for i := range q.links {
		q.links[i] = -1
	}
	q.start = make([]int32, vertices+1)
	q.start[vertices] = links
	q.cell = make([][3]int32, vertices)
	parallel(workers, len(bricks), func(i int) {
		b := bricks[i]
		at := b.links
		for cell, f := range b.config {
			v := b.vertex + int32(b.base[cell])
			for _, l := range cubeLoops[f] {
				q.start[v] = at
				i := cellAt(cell)
				q.cell[v] = [3]int32{int32(b.first[0] + i[0]), int32(b.first[1] + i[1]), int32(b.first[2] + i[2])}
				at += int32(len(l))
				v++
			}
		}
	})
	lost := make([]bool, len(bricks))
	parallel(workers, len(bricks), func(i int) {
		b := bricks[i]
		var near [27]*brick
		for k := range near {
			o := [3]int{k%3 - 1, k/3%3 - 1, k/9 - 1}
			near[k] = q.shelf.at([3]int{b.first[0] + o[0]*brickCells, b.first[1] + o[1]*brickCells, b.first[2] + o[2]*brickCells})
		}
		for k := range b.value {
			if !q.join(b, &near, k) {
				lost[i] = true
			}
		}
	})
	if slices.Contains(lost, true) || slices.Contains(q.links, -1) {
		return nil, errors.New("the field changes by more than its bound; a solid of this package is faulty")
	}
	return q, nil
}

// around are the four cells at an edge, counter-clockwise seen against its
// axis, as steps back along the two axes that follow, and the edge's place in
// each.
var around = [4]struct{ b, c, place int }{{1, 1, 3}, {0, 1, 2}, {0, 0, 0}, {1, 0, 1}}

func (q *quads) join(b *brick, near *[27]*brick, k int) bool {
	x := &b.value[k]
	n := b.quad + int32(k)
	d := &q.quad[n]
	d.at, d.label = x.at, x.label
	axis := int(x.axis)
	for i, s := range around {
		cell := cellAt(int(x.cell))
		cell[(axis+1)%3] -= s.b
		cell[(axis+2)%3] -= s.c
		home := near[(cell[0]+brickCells)>>brickBits+3*((cell[1]+brickCells)>>brickBits)+9*((cell[2]+brickCells)>>brickBits)]
		if home == nil {
			return false
		}
		in := cellNumber(cell)
		p := cubePlace[home.config[in]][4*axis+s.place]
		v := home.vertex + int32(home.base[in]) + int32(p.loop)
		at := i
		if !x.out {
			at = 3 - i
		}
		if len(cubeLoops[home.config[in]]) == 0 {
			return false
		}
		d.corner[at] = v
		q.links[q.start[v]+int32(p.position)] = 4*n + int32(at)
	}
	return true
}

// round returns the links at a vertex.
func (q *quads) round(v int32) []int32 { return q.links[q.start[v]:q.start[v+1]] }

// across returns the vertex at the far end of the side between the links j
// and j+1 of a vertex.
func (q *quads) across(link int32) int32 {
	return q.quad[link>>2].corner[(link+3)&3]
}

// labels returns the different labels round a vertex, in order of link.
func (q *quads) labels(v int32, into []int32) []int32 {
	into = into[:0]
	for _, l := range q.round(v) {
		if n := q.quad[l>>2].label; !slices.Contains(into, n) {
			into = append(into, n)
		}
	}
	return into
}

// patches numbers the connected pieces of equal label and returns their
// sizes in quads.
func (q *quads) patches() []int32 {
	parent := make([]int32, len(q.quad))
	for i := range parent {
		parent[i] = int32(i)
	}
	find := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for v := range int32(len(q.cell)) {
		links := q.round(v)
		for j, l := range links {
			a, b := l>>2, links[(j+1)%len(links)]>>2
			if q.quad[a].label == q.quad[b].label {
				if a, b = find(a), find(b); a < b {
					parent[b] = a
				} else {
					parent[a] = b
				}
			}
		}
	}
	var sizes []int32
	for i := range q.quad {
		r := find(int32(i))
		if r == int32(i) {
			q.quad[i].patch = int32(len(sizes))
			sizes = append(sizes, 0)
		}
		q.quad[i].patch = q.quad[r].patch
		sizes[q.quad[i].patch]++
	}
	return sizes
}
