package solid

// A cube's corners are numbered by the bits x + 2 y + 4 z of their place. An
// edge along axis a (0 x, 1 y, 2 z) has the number 4 a + b + 2 c, where b and
// c are its places along the next axis and the one after it.

// cubeLoops holds, for every set of inside corners, the closed loops of
// crossed edges, one a sheet of surface, counter-clockwise from outside. On a
// cube face crossed four times each inside corner is cut off for itself, so
// the two cubes at a face agree. Source: G. M. Nielson, "Dual marching
// cubes", IEEE Visualization 2004, 489-496; the table is derived here.
var cubeLoops, cubePlace = buildCubes()

// loopPlace tells where an edge stands in its cube: its loop, its position in
// the loop and the loop's start among all crossings of the cube.
type loopPlace struct{ loop, position int8 }

func buildCubes() ([256][][]int8, [256][12]loopPlace) {
	var loops [256][][]int8
	var places [256][12]loopPlace
	for config := range 256 {
		var next [12]int8
		for i := range next {
			next[i] = -1
		}
		for axis := range 3 {
			for side := range 2 {
				corners := cubeFace(axis, side)
				for i, c := range corners {
					into := corners[(i+3)%4]
					if config>>c&1 == 0 || config>>into&1 == 1 {
						continue // not the first corner of an inside run
					}
					j := i
					for config>>corners[(j+1)%4]&1 == 1 {
						j++
					}
					next[cubeEdge(into, c)] = int8(cubeEdge(corners[j%4], corners[(j+1)%4]))
				}
			}
		}
		var seen [12]bool
		for start := range next {
			if next[start] < 0 || seen[start] {
				continue
			}
			var loop []int8
			for e := int8(start); !seen[e]; e = next[e] {
				seen[e] = true
				places[config][e] = loopPlace{int8(len(loops[config])), int8(len(loop))}
				loop = append(loop, e)
			}
			loops[config] = append(loops[config], loop)
		}
	}
	return loops, places
}

// cubeFace returns the corners of a face, counter-clockwise from outside.
func cubeFace(axis, side int) [4]int {
	b, c := 1<<((axis+1)%3), 1<<((axis+2)%3)
	o := side << axis
	if side == 1 {
		return [4]int{o, o + b, o + b + c, o + c}
	}
	return [4]int{o, o + c, o + b + c, o + b}
}

func cubeEdge(p, q int) int {
	axis := map[int]int{1: 0, 2: 1, 4: 2}[p^q]
	low := p & q
	return 4*axis + low>>((axis+1)%3)&1 + 2*(low>>((axis+2)%3)&1)
}
