package outline

import "fmt"

// Block letters of 5 by 7 square cells, top row first. No two cells touch by
// a corner alone, so every letter is one region with simple loops and no
// stroke is thinner than a cell.
var letters = map[rune][7]string{
	'A': {".###.", "##.##", "#...#", "#####", "#...#", "#...#", "#...#"},
	'B': {"####.", "#..##", "#..##", "####.", "#..##", "#..##", "####."},
	'C': {".####", "##...", "#....", "#....", "#....", "##...", ".####"},
	'D': {"####.", "#..##", "#...#", "#...#", "#...#", "#..##", "####."},
	'E': {"#####", "#....", "#....", "####.", "#....", "#....", "#####"},
	'F': {"#####", "#....", "#....", "####.", "#....", "#....", "#...."},
	'G': {".####", "##...", "#....", "#.###", "#...#", "##..#", ".####"},
	'H': {"#...#", "#...#", "#...#", "#####", "#...#", "#...#", "#...#"},
	'I': {"#####", "..#..", "..#..", "..#..", "..#..", "..#..", "#####"},
	'J': {"....#", "....#", "....#", "....#", "#...#", "##.##", ".###."},
	'K': {"#...#", "#..##", "#.##.", "###..", "#.##.", "#..##", "#...#"},
	'L': {"#....", "#....", "#....", "#....", "#....", "#....", "#####"},
	'M': {"#...#", "##.##", "#####", "#.#.#", "#...#", "#...#", "#...#"},
	'N': {"#...#", "##..#", "###.#", "#.###", "#..##", "#...#", "#...#"},
	'O': {".###.", "##.##", "#...#", "#...#", "#...#", "##.##", ".###."},
	'P': {"####.", "#..##", "#...#", "#..##", "####.", "#....", "#...."},
	'Q': {".###.", "##.##", "#...#", "#...#", "#...#", "##.##", ".####"},
	'R': {"####.", "#..##", "#...#", "#..##", "####.", "#.##.", "#..##"},
	'S': {".####", "##...", "##...", ".###.", "...##", "...##", "####."},
	'T': {"#####", "..#..", "..#..", "..#..", "..#..", "..#..", "..#.."},
	'U': {"#...#", "#...#", "#...#", "#...#", "#...#", "##.##", ".###."},
	'V': {"#...#", "#...#", "#...#", "##.##", ".#.#.", ".###.", "..#.."},
	'W': {"#...#", "#...#", "#...#", "#.#.#", "#####", "##.##", "#...#"},
	'X': {"#...#", "##.##", ".###.", "..#..", ".###.", "##.##", "#...#"},
	'Y': {"#...#", "##.##", ".###.", "..#..", "..#..", "..#..", "..#.."},
	'Z': {"#####", "...##", "..##.", ".##..", "##...", "#....", "#####"},
	'0': {"#####", "#...#", "#...#", "#...#", "#...#", "#...#", "#####"},
	'1': {"..#..", ".##..", "..#..", "..#..", "..#..", "..#..", ".###."},
	'2': {".###.", "##.##", "...##", "..##.", ".##..", "##...", "#####"},
	'3': {"####.", "...##", "...##", ".###.", "...##", "...##", "####."},
	'4': {"#..#.", "#..#.", "#..#.", "#####", "...#.", "...#.", "...#."},
	'5': {"#####", "#....", "####.", "...##", "....#", "...##", "####."},
	'6': {".####", "##...", "#....", "####.", "#..##", "##.##", ".###."},
	'7': {"#####", "...##", "..##.", "..#..", ".##..", ".#...", ".#..."},
	'8': {".###.", "##.##", "##.##", ".###.", "##.##", "##.##", ".###."},
	'9': {".###.", "##.##", "##..#", ".####", "....#", "...##", "####."},
	'-': {".....", ".....", ".....", ".###.", ".....", ".....", "....."},
	'.': {".....", ".....", ".....", ".....", ".....", ".....", "..#.."},
}

// Cells of a letter, and from one letter to the next.
const (
	lettersWide = 5
	lettersHigh = 7
	advance     = 6
)

// Text returns block letters of the given height in mm, strokes height/7
// wide, in one line along +x centred on the origin. It knows A-Z, 0-9, '-',
// '.' and the space.
func Text(text string, height float64) ([]Outline, error) {
	if !(height > 0 && height <= Reach) {
		return nil, fmt.Errorf("text %q: a letter height of %g mm is out of range; use more than 0", text, height)
	}
	var out []Outline
	cell := height / lettersHigh
	runes := []rune(text)
	middle := float64(len(runes)*advance-1) / 2
	for i, r := range runes {
		if r == ' ' {
			continue
		}
		rows, ok := letters[r]
		if !ok {
			return nil, fmt.Errorf("text %q: no letter %q; use A-Z, 0-9, '-', '.' and spaces", text, r)
		}
		var o Outline
		for _, l := range trace(rows) {
			for k := range l {
				l[k].X = (l[k].X + float64(i*advance) - middle) * cell
				l[k].Y = (l[k].Y - lettersHigh/2.0) * cell
			}
			if l.Area() > 0 {
				o.Outer = l
			} else {
				o.Holes = append(o.Holes, l)
			}
		}
		out = append(out, o)
	}
	return out, nil
}

// trace returns the rims of the filled cells in cells, y up from the lowest
// row, filled cells on the left.
func trace(rows [7]string) []Loop {
	type point struct{ x, y int }
	filled := func(x, y int) bool {
		return x >= 0 && x < lettersWide && y >= 0 && y < lettersHigh && rows[lettersHigh-1-y][x] == '#'
	}
	next := map[point]point{}
	for y := range lettersHigh {
		for x := range lettersWide {
			if !filled(x, y) {
				continue
			}
			if !filled(x, y-1) {
				next[point{x, y}] = point{x + 1, y}
			}
			if !filled(x+1, y) {
				next[point{x + 1, y}] = point{x + 1, y + 1}
			}
			if !filled(x, y+1) {
				next[point{x + 1, y + 1}] = point{x, y + 1}
			}
			if !filled(x-1, y) {
				next[point{x, y + 1}] = point{x, y}
			}
		}
	}
	var out []Loop
	for y := range lettersHigh + 1 {
		for x := range lettersWide + 1 {
			var l Loop
			for at := (point{x, y}); ; {
				to, ok := next[at]
				if !ok {
					break
				}
				delete(next, at)
				l = append(l, Vertex{X: float64(at.x), Y: float64(at.y)})
				at = to
			}
			if l != nil {
				out = append(out, l.corners())
			}
		}
	}
	return out
}

// corners leaves out vertices in the middle of a straight run.
func (l Loop) corners() Loop {
	var out Loop
	for i, v := range l {
		before, after := l[(i+len(l)-1)%len(l)], l[(i+1)%len(l)]
		if (v.X-before.X)*(after.Y-v.Y) != (v.Y-before.Y)*(after.X-v.X) {
			out = append(out, v)
		}
	}
	return out
}
