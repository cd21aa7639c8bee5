package frame

import (
	"errors"
	"math"
	"slices"
	"sort"
)

// triangles is a conforming Delaunay mesh of an outline.
type triangles struct {
	x, y  []float64
	tri   [][3]int // counter-clockwise
	edges []boundaryEdge
	fixed []int // the given points, in order
}

// boundaryEdge is a piece of an outline from node a to node b, the material on its left.
type boundaryEdge struct {
	a, b int
	loop int
	arc  *arc    // nil where straight
	from float64 // share of the arc
	to   float64
}

// middle returns the point of the outline half way along the edge.
func (e boundaryEdge) middle(x, y []float64) (mx, my float64) {
	if e.arc != nil {
		return e.arc.at((e.from + e.to) / 2)
	}
	return (x[e.a] + x[e.b]) / 2, (y[e.a] + y[e.b]) / 2
}

var errMesh = errors.New("outline cannot be meshed; look for loops that cross, touch or run the wrong way round, or points outside it")

// triangulate meshes the area of the loops with edges of about size m, with a node on every given
// point. Source of the incremental construction: Bowyer, Comput. J. 24 (1981) 162-166; Watson, ibid. 167-172.
func triangulate(loops []Loop, size float64, points [][2]float64) (*triangles, error) {
	t := &triangles{}
	bounds := emptyBox()
	for i, l := range loops {
		t.trace(l, i, size)
		l.grow(&bounds)
	}
	for _, p := range points {
		t.fixed = append(t.fixed, t.node(p[0], p[1]))
	}
	if count := (bounds.x1 - bounds.x0) * (bounds.y1 - bounds.y0) / (size * size); len(t.x) > 20000 || count > 1e5 {
		return nil, errors.New("mesh would be too fine; use larger elements")
	}
	t.fill(bounds, size)

	d := newDelaunay(t, bounds)
	order := make([]int, len(t.x))
	for i := range order {
		order[i] = i
	}
	band := func(i int) float64 { return math.Floor((t.y[i] - bounds.y0) / (2 * size)) }
	sort.SliceStable(order, func(i, j int) bool {
		a, b := order[i], order[j]
		if ba, bb := band(a), band(b); ba != bb {
			return ba < bb
		} else if int(ba)%2 == 0 {
			return t.x[a] < t.x[b]
		}
		return t.x[a] > t.x[b]
	})
	for _, i := range order {
		if !d.insert(i) {
			return nil, errMesh
		}
	}
	// An edge of the outline that the mesh does not have is halved until it does.
	for round := 0; ; round++ {
		missing := d.missing(t.edges)
		if len(missing) == 0 {
			break
		}
		if round == 12 {
			return nil, errMesh
		}
		for _, k := range missing {
			e := t.edges[k]
			mx, my := e.middle(t.x, t.y)
			m := t.node(mx, my)
			if !d.insert(m) {
				return nil, errMesh
			}
			second := e
			mid := (e.from + e.to) / 2
			t.edges[k].b, t.edges[k].to = m, mid
			second.a, second.from = m, mid
			t.edges = append(t.edges, second)
		}
	}
	if !d.carve() {
		return nil, errMesh
	}
	return t, nil
}

func (t *triangles) node(x, y float64) int {
	t.x, t.y = append(t.x, x), append(t.y, y)
	return len(t.x) - 1
}

// trace puts nodes and edges along a loop.
func (t *triangles) trace(l Loop, loop int, size float64) {
	l = l.without(0.05 * size)
	first := len(t.x)
	start := len(t.edges)
	for k, p := range l {
		q := l[(k+1)%len(l)]
		length := math.Hypot(q.X-p.X, q.Y-p.Y)
		var a *arc
		n := math.Ceil(length/size - 1e-9)
		if p.Bulge != 0 {
			c := arcOf(p, q)
			a = &c
			n = math.Max(math.Ceil(c.r*math.Abs(c.angle)/size-1e-9), math.Ceil(math.Abs(c.angle)/(math.Pi/6)-1e-9))
		}
		n = math.Max(n, 1)
		for i := range int(n) {
			f := float64(i) / n
			x, y := p.X+f*(q.X-p.X), p.Y+f*(q.Y-p.Y)
			if a != nil && i > 0 {
				x, y = a.at(f)
			}
			id := t.node(x, y)
			t.edges = append(t.edges, boundaryEdge{a: id, b: id + 1, loop: loop, arc: a, from: f, to: float64(i+1) / n})
		}
	}
	if len(t.edges) > start {
		t.edges[len(t.edges)-1].b = first
	}
}

// without returns the loop less its details below a size, which would make slivers: a vertex that
// close to the one before gives way, and what leads on from it starts there.
func (l Loop) without(size float64) Loop {
	near := func(a, b Vertex) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) < size }
	kept := make(Loop, 0, len(l))
	for _, v := range l {
		if n := len(kept); n > 0 && near(kept[n-1], v) {
			kept[n-1].Bulge = v.Bulge
			continue
		}
		kept = append(kept, v)
	}
	if n := len(kept); n > 2 && near(kept[n-1], kept[0]) {
		kept = kept[:n-1]
	}
	if kept.moments(kept[0].X, kept[0].Y).a == 0 {
		return nil // all of it is a detail
	}
	return kept
}

// fill sets nodes inside on a hexagonal grid, clear of those that are there.
func (t *triangles) fill(b box, size float64) {
	const clear = 0.62 // of the size: closer nodes make slivers
	// Nodes by the cell of size × size they lie in, each with the next in its cell; a rim of empty cells around.
	wide, high := int((b.x1-b.x0)/size)+3, int((b.y1-b.y0)/size)+3
	head, next := make([]int, wide*high), make([]int, len(t.x))
	for i := range head {
		head[i] = -1
	}
	cell := func(x, y float64) int {
		i, j := int(math.Floor((x-b.x0)/size))+1, int(math.Floor((y-b.y0)/size))+1
		return min(max(j, 1), high-2)*wide + min(max(i, 1), wide-2)
	}
	for i := range t.x {
		c := cell(t.x[i], t.y[i])
		head[c], next[i] = i, head[c]
	}
	step := size * math.Sqrt(3) / 2
	rows := int((b.y1 - b.y0) / step)
	// an odd offset keeps grid lines off the outline's own
	y := b.y0 + ((b.y1-b.y0)-float64(rows)*step)/2 + 1e-4*size
	var crossings []float64
	for row := 0; y < b.y1; row++ {
		crossings = crossings[:0]
		for _, e := range t.edges {
			x0, y0, x1, y1 := t.x[e.a], t.y[e.a], t.x[e.b], t.y[e.b]
			if (y0 > y) != (y1 > y) {
				crossings = append(crossings, x0+(y-y0)/(y1-y0)*(x1-x0))
			}
		}
		sort.Float64s(crossings)
		shift := float64(row%2) / 2 * size
		for k := 0; k+1 < len(crossings); k += 2 {
			from, to := crossings[k], crossings[k+1]
			for i := math.Ceil((from - b.x0 - shift) / size); b.x0+shift+i*size < to; i++ {
				x := b.x0 + shift + i*size
				free := true
				c := cell(x, y)
				for _, around := range [9]int{-wide - 1, -wide, -wide + 1, -1, 0, 1, wide - 1, wide, wide + 1} {
					for o := head[c+around]; o >= 0 && free; o = next[o] {
						dx, dy := x-t.x[o], y-t.y[o]
						free = dx*dx+dy*dy >= clear*size*clear*size
					}
				}
				if free {
					t.node(x, y)
				}
			}
		}
		y += step
	}
}

// delaunay grows a triangulation point by point. Its first three nodes, -1 to -3 in tri, are far outside.
type delaunay struct {
	t      *triangles
	fx, fy [3]float64
	tri    [][3]int
	across [][3]int // the triangle across the edge that starts at the same corner; -1 is none
	last   int
	bad    []int
	mark   []int
	round  int
	rim    []rimEdge
	fresh  []int
}

type rimEdge struct{ a, b, outside int }

func newDelaunay(t *triangles, b box) *delaunay {
	cx, cy := (b.x0+b.x1)/2, (b.y0+b.y1)/2
	r := 50 * math.Max(b.x1-b.x0, b.y1-b.y0)
	d := &delaunay{t: t}
	d.fx = [3]float64{cx - 1.7*r, cx + 1.8*r, cx + 0.01*r}
	d.fy = [3]float64{cy - r, cy - 1.03*r, cy + 2*r}
	d.tri = [][3]int{{-1, -2, -3}}
	d.across = [][3]int{{-1, -1, -1}}
	d.mark = []int{0}
	return d
}

func (d *delaunay) at(i int) (x, y float64) {
	if i < 0 {
		return d.fx[-i-1], d.fy[-i-1]
	}
	return d.t.x[i], d.t.y[i]
}

// side is twice the area of a, b and the point, positive on the left of a → b.
func (d *delaunay) side(a, b int, x, y float64) float64 {
	ax, ay := d.at(a)
	bx, by := d.at(b)
	return (bx-ax)*(y-ay) - (by-ay)*(x-ax)
}

// circled reports whether the point lies within the circumcircle of a triangle.
func (d *delaunay) circled(k int, x, y float64) bool {
	var v [3][2]float64
	for i, c := range d.tri[k] {
		px, py := d.at(c)
		v[i] = [2]float64{px - x, py - y}
	}
	n := func(i int) float64 { return v[i][0]*v[i][0] + v[i][1]*v[i][1] }
	c := func(i, j int) float64 { return v[i][0]*v[j][1] - v[j][0]*v[i][1] }
	return n(0)*c(1, 2)+n(1)*c(2, 0)+n(2)*c(0, 1) > 0
}

// find walks to the triangle that holds a point.
func (d *delaunay) find(x, y float64) int {
	k, back := d.last, -1
walk:
	for range len(d.tri) {
		for i, c := range d.tri[k] {
			// On an edge, rounding may put the point outside from both sides: never turn back.
			if o := d.across[k][i]; o >= 0 && o != back && d.side(c, d.tri[k][(i+1)%3], x, y) < 0 {
				k, back = o, k
				continue walk
			}
		}
		return k
	}
	// A ring of such edges: look at every triangle.
	best := math.Inf(-1)
	for o, c := range d.tri {
		if v := min(d.side(c[0], c[1], x, y), d.side(c[1], c[2], x, y), d.side(c[2], c[0], x, y)); v > best {
			k, best = o, v
		}
	}
	return k
}

// insert adds node p and reports whether it could.
func (d *delaunay) insert(p int) bool {
	x, y := d.t.x[p], d.t.y[p]
	k := d.find(x, y)
	for _, c := range d.tri[k] {
		if c >= 0 && d.t.x[c] == x && d.t.y[c] == y {
			return false
		}
	}
	d.round++
	d.bad, d.rim = append(d.bad[:0], k), d.rim[:0]
	d.mark[k] = d.round
	for head := 0; head < len(d.bad); head++ {
		b := d.bad[head]
		for i, o := range d.across[b] {
			if o >= 0 && d.mark[o] == d.round {
				continue
			}
			from, to := d.tri[b][i], d.tri[b][(i+1)%3]
			// Rounding may ask for a triangle the point does not see: the edge must lie to its left.
			if o >= 0 && (d.circled(o, x, y) || d.side(from, to, x, y) <= 0) {
				d.mark[o] = d.round
				d.bad = append(d.bad, o)
				continue
			}
			d.rim = append(d.rim, rimEdge{from, to, o})
		}
	}
	fresh := d.fresh[:0]
	for _, e := range d.rim {
		if d.swallowed(e.outside) {
			continue
		}
		n := 0
		if len(d.bad) > 0 {
			n, d.bad = d.bad[len(d.bad)-1], d.bad[:len(d.bad)-1]
		} else {
			n = len(d.tri)
			d.tri, d.across, d.mark = append(d.tri, [3]int{}), append(d.across, [3]int{}), append(d.mark, 0)
		}
		d.tri[n], d.across[n] = [3]int{e.a, e.b, p}, [3]int{e.outside, -1, -1}
		if o := e.outside; o >= 0 {
			for i, c := range d.tri[o] {
				if c == e.b && d.tri[o][(i+1)%3] == e.a {
					d.across[o][i] = n
				}
			}
		}
		fresh = append(fresh, n)
	}
	d.fresh = fresh
	for _, n := range fresh {
		k := slices.IndexFunc(fresh, func(o int) bool { return d.tri[o][0] == d.tri[n][1] })
		if k < 0 {
			return false
		}
		next := fresh[k]
		d.across[n][1] = next
		d.across[next][2] = n
	}
	d.last = fresh[0]
	return true
}

// swallowed reports whether a triangle across the rim was swallowed after the rim edge was noted.
func (d *delaunay) swallowed(o int) bool { return o >= 0 && d.mark[o] == d.round }

// missing returns the outline's edges that are no edges of the mesh.
func (d *delaunay) missing(edges []boundaryEdge) []int {
	has := make(map[[2]int]bool, len(edges))
	for _, e := range edges {
		has[[2]int{e.a, e.b}] = false
	}
	for _, c := range d.tri {
		for i := range 3 {
			key := [2]int{c[i], c[(i+1)%3]}
			if _, ok := has[key]; ok {
				has[key] = true
			}
		}
	}
	var out []int
	for k, e := range edges {
		if !has[[2]int{e.a, e.b}] {
			out = append(out, k)
		}
	}
	return out
}

// carve keeps what lies to the left of the outline's edges and reports whether that is sound.
func (d *delaunay) carve() bool {
	wall := make(map[[2]int]bool, len(d.t.edges))
	for _, e := range d.t.edges {
		wall[[2]int{e.a, e.b}] = true
	}
	inside := make([]bool, len(d.tri))
	var queue []int
	enter := func(k int) {
		if !inside[k] {
			inside[k] = true
			queue = append(queue, k)
		}
	}
	for k, c := range d.tri {
		for i := range 3 {
			if wall[[2]int{c[i], c[(i+1)%3]}] {
				enter(k)
			}
		}
	}
	for head := 0; head < len(queue); head++ {
		k := queue[head]
		c := d.tri[k]
		for i, o := range d.across[k] {
			a, b := c[i], c[(i+1)%3]
			if a < 0 || b < 0 {
				return false
			}
			if wall[[2]int{a, b}] {
				continue
			}
			if wall[[2]int{b, a}] || o < 0 {
				return false // came at an edge from its right
			}
			enter(o)
		}
	}
	for k, in := range inside {
		if in {
			d.t.tri = append(d.t.tri, d.tri[k])
		}
	}
	return len(d.t.tri) > 0
}
