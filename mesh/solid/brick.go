package solid

import (
	"context"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"
)

// brick is a cube of cells near the surface.
type brick struct {
	first  [3]int // its first cell
	code   *code
	config [brickVolume]uint8 // inside corners of each cell
	base   [brickVolume]int16 // first vertex of each cell
	value  []crossing
	vertex int32 // number of vertices of all bricks before
	quad   int32
	links  int32
	counts struct{ vertices, links int32 }
}

// cellAt returns where a cell stands in its brick, by its number there.
func cellAt(n int) [3]int {
	return [3]int{n & (brickCells - 1), n >> brickBits & (brickCells - 1), n >> (2 * brickBits)}
}

// cellNumber is the reverse; it takes places in a neighbouring brick as well.
func cellNumber(i [3]int) int {
	const m = brickCells - 1
	return i[0]&m | i[1]&m<<brickBits | i[2]&m<<(2*brickBits)
}

const rootCells = 32

// samples evaluates the program on the grid near the surface. Its bricks are
// in the same order whatever the number of workers. The requests are for walls
// and gaps that the grid may miss.
func (p *program) samples(ctx context.Context, g *grid, workers, most int, evaluations *atomic.Int64, tick func(done float64)) ([]*brick, []request, error) {
	var roots [][3]int
	for x := 0; x < g.cells(0); x += rootCells {
		for y := 0; y < g.cells(1); y += rootCells {
			for z := 0; z < g.cells(2); z += rootCells {
				roots = append(roots, [3]int{x, y, z})
			}
		}
	}
	found := make([][]*brick, len(roots))
	narrow := make([][]request, len(roots))
	var total, done atomic.Int64
	parallel(workers, len(roots), func(i int) {
		if ctx.Err() != nil || total.Load() > int64(most) {
			return
		}
		s := sampler{p: p, g: g, ctx: ctx, total: &total, most: most}
		s.descend(p.root, roots[i], rootCells)
		found[i], narrow[i] = s.bricks, s.narrow
		evaluations.Add(s.evaluations)
		tick(float64(done.Add(1)) / float64(len(roots)))
	})
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	var all []*brick
	var asked []request
	for i, b := range found {
		all = append(all, b...)
		asked = append(asked, narrow[i]...)
	}
	if len(all) > most {
		return nil, nil, errTooManyCells
	}
	return all, asked, nil
}

// parallel calls work for 0 to n-1 on so many goroutines.
func parallel(workers, n int, work func(i int)) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	workers = min(workers, n)
	if workers <= 1 {
		for i := range n {
			work(i)
		}
		return
	}
	var next atomic.Int64
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				work(i)
			}
		})
	}
	wait.Wait()
}

type sampler struct {
	p           *program
	g           *grid
	ctx         context.Context
	total       *atomic.Int64
	most        int
	bricks      []*brick
	evaluations int64
	narrow      []request
	arena       arena
	spare       []brick                                             // room for the next
	values      []crossing                                          // of the bricks
	read        [brickCorners * brickCorners * brickCorners]reading // of the brick at hand
}

func (s *sampler) descend(c *code, first [3]int, size int) {
	for a := range 3 {
		if first[a] >= s.g.cells(a) {
			return
		}
	}
	b := s.g.block(first, size)
	s.evaluations++
	wide := c
	c, _ = c.near(&s.arena, &b)
	if c == nil || s.ctx.Err() != nil || s.total.Load() > int64(s.most) {
		return
	}
	if size == brickCells {
		s.probe(wide, first)
		s.brick(c, first)
		return
	}
	h := size / 2
	for i := range 8 {
		s.descend(c, [3]int{first[0] + h*(i&1), first[1] + h*(i>>1&1), first[2] + h*(i>>2)}, h)
	}
}

// reading is what is known of a grid corner: the distance that the surface is
// away at least, negative inside, and the face where it was evaluated.
type reading struct {
	value float64
	label int32 // unread where the value is a bound from a neighbour's
}

const unread = -1

// brick reads the signs at the corners of a brick, skipping those that lie
// nearer to one before than the surface does, and finds the crossings.
func (s *sampler) brick(c *code, first [3]int) {
	g := s.g
	var inside [brickCorners][brickCorners]uint16 // by z, y; bit x
	any, all := uint16(0), uint16(1<<brickCorners-1)
	for k := range brickCorners {
		z := g.at[2][first[2]+k]
		for j := range brickCorners {
			y := g.at[1][first[1]+j]
			row := s.read[(k*brickCorners+j)*brickCorners:][:brickCorners]
			bits := uint16(0)
			for i := range brickCorners {
				x := g.at[0][first[0]+i]
				free, v := 0.0, 0.0 // of the surface, and by which neighbour's value
				if i > 0 {
					v = row[i-1].value
					free = math.Abs(v) - (x - g.at[0][first[0]+i-1])
				}
				if j > 0 {
					n := s.read[(k*brickCorners+j-1)*brickCorners+i].value
					if f := math.Abs(n) - (y - g.at[1][first[1]+j-1]); f > free {
						free, v = f, n
					}
				}
				if k > 0 {
					n := s.read[((k-1)*brickCorners+j)*brickCorners+i].value
					if f := math.Abs(n) - (z - g.at[2][first[2]+k-1]); f > free {
						free, v = f, n
					}
				}
				if free > 1e-9 {
					row[i] = reading{math.Copysign(free, v), unread}
				} else {
					v, l := c.eval(r3.Vec{X: x, Y: y, Z: z})
					s.evaluations++
					row[i] = reading{v, l}
				}
				if row[i].value < 0 {
					bits |= 1 << i
				}
			}
			inside[k][j] = bits
			any |= bits
			all &= bits
		}
	}
	if any == 0 || all == 1<<brickCorners-1 {
		return
	}
	if len(s.spare) == 0 {
		s.spare = make([]brick, 32)
	}
	b := &s.spare[0]
	*b = brick{first: first, code: c}
	count := 0
	for k := range brickCells {
		for j := range brickCells {
			r0, r1, r2, r3_ := inside[k][j], inside[k][j+1], inside[k+1][j], inside[k+1][j+1]
			for i := range brickCells {
				f := r0>>i&3 | r1>>i&3<<2 | r2>>i&3<<4 | r3_>>i&3<<6
				cell := (k*brickCells+j)*brickCells + i
				b.config[cell] = uint8(f)
				b.base[cell] = int16(b.counts.vertices)
				for _, l := range cubeLoops[f] {
					b.counts.vertices++
					b.counts.links += int32(len(l))
				}
				for axis := range 3 {
					count += int(f>>(1<<axis)&1 ^ f&1)
				}
			}
		}
	}
	if b.counts.vertices == 0 {
		return
	}
	s.spare = s.spare[1:]
	s.total.Add(1)
	if cap(s.values)-len(s.values) < count {
		s.values = make([]crossing, 0, max(1024, count))
	}
	b.value = s.values[len(s.values) : len(s.values) : len(s.values)+count]
	s.values = s.values[:len(s.values)+count]
	for cell, f := range b.config {
		here := f & 1
		i := cellAt(cell)
		for axis := range 3 {
			if f>>(1<<axis)&1 == here {
				continue
			}
			b.value = append(b.value, s.cross(c, first, i, axis, cell, here == 1))
		}
	}
	s.bricks = append(s.bricks, b)
}
