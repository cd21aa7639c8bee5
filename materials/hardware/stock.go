package hardware

import (
	"fmt"
	"math"

	"mastwright/design/units"
)

// StockLengths lists the screw lengths that shops keep. Common practice.
func StockLengths() []units.Length {
	return []units.Length{4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50}
}

// StockLength is the shortest stock screw that passes through a grip and is
// held over at least an engagement.
func StockLength(grip, engagement units.Length) (units.Length, error) {
	// Written so that a length that is no number is refused too.
	if !(grip >= 0 && engagement > 0) {
		return 0, fmt.Errorf("a grip of %s and an engagement of %s hold nothing; give a grip of 0 or more and some engagement", rounded(grip), rounded(engagement))
	}
	return shortest("screw", StockLengths(), grip+engagement)
}

// SpacerLengths lists the spacer lengths that shops keep. Common practice.
func SpacerLengths() []units.Length {
	return []units.Length{5, 6, 8, 10, 12, 15, 18, 20, 25, 30, 35, 40, 45, 50}
}

// SpacerLength is the shortest stock spacer of at least a length.
func SpacerLength(least units.Length) (units.Length, error) {
	return shortest("spacer", SpacerLengths(), least)
}

// Spacer is a hexagon spacer threaded all through. Common practice.
type Spacer struct {
	Size        Size
	AcrossFlats units.Length
	Length      units.Length
}

// Spacer is the spacer of a size and length.
func (s Size) Spacer(length units.Length) Spacer {
	return Spacer{s, s.row().spacerFlats, length}
}

// Mass is the spacer's mass, its corners sharp.
func (s Spacer) Mass(m Material) units.Mass {
	return mass(hexagonArea(s.AcrossFlats)-circleArea(s.Size.PitchDiameter()), s.Length, m)
}

// whisker keeps a rounding error in a sum of lengths from asking for the next longer stock.
const whisker units.Length = 1e-9

func shortest(thing string, stock []units.Length, least units.Length) (units.Length, error) {
	for _, length := range stock {
		if length >= least-whisker {
			return length, nil
		}
	}
	return 0, fmt.Errorf("no stock %s reaches %s, the longest is %s; make the stack thinner", thing, rounded(least), stock[len(stock)-1])
}

// rounded is a length as a message gives it, to 0.01 mm.
func rounded(l units.Length) units.Length {
	return units.Millimetres(math.Round(l.Millimetres()*100) / 100)
}
