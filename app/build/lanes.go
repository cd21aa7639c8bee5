package build

import (
	"math"
	"strings"
)

// The three lanes of the verdict scale, in cells of text. A ":" follows the first and a "|" the second, in every row.
const (
	passCells     = 22
	marginalCells = 12
	failCells     = 8
	laneCells     = passCells + 1 + marginalCells + 1 + failCells
)

// bar draws a place from 0 to 3 on the lanes. It is full ("#") up to the better end of its spread, "=" from there to the place
// itself and "-" on to the worse end. What crosses "|" fails; an arrow means beyond the end.
func bar(low, place, high float64) string {
	certain, here, possible := cells(low), cells(place), cells(high)
	return lanes(func(i int) byte {
		switch {
		case place >= 3 && i == passCells+marginalCells+failCells-1:
			return '>'
		case i < certain:
			return '#'
		case i < here:
			return '='
		case i < possible:
			return '-'
		}
		return ' '
	})
}

// noBar draws the empty lanes of a check without data.
func noBar() string {
	return lanes(func(i int) byte {
		if i == 0 {
			return '?'
		}
		return ' '
	})
}

// laneNames is the line above the lanes.
func laneNames() string {
	name := func(word string, width int) string { return word + strings.Repeat(" ", width-len(word)) }
	return name("pass", passCells+1) + name("marginal", marginalCells+1) + name("fail", failCells)
}

func lanes(cell func(i int) byte) string {
	var b strings.Builder
	for i := range passCells + marginalCells + failCells {
		switch i {
		case passCells:
			b.WriteByte(':')
		case passCells + marginalCells:
			b.WriteByte('|')
		}
		b.WriteByte(cell(i))
	}
	return b.String()
}

// cells is how many cells a bar to the place fills: at least one of the lane it ends in, so that crossing a limit shows.
func cells(place float64) int {
	in := func(share float64, width int) int {
		return max(1, min(width, int(math.Ceil(share*float64(width)-1e-9))))
	}
	switch {
	case place <= 0:
		return 0
	case place <= 1:
		return in(place, passCells)
	case place <= 2:
		return passCells + in(place-1, marginalCells)
	}
	return passCells + marginalCells + in(place-2, failCells)
}
