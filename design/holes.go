package design

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mastwright/design/units"
)

// Centres returns the hole centres in the axes of the place, numbered counter-clockwise as seen from above, with the largest
// difference between a reading and the pattern. A rectangle's holes are 1 rear right, 2 front right, 3 front left, 4 rear
// left. Of numbered distances the pattern is the least-squares one, its middle at the origin and the way from hole 1 to hole 2
// pointing forward. The error says which answer is missing or wrong.
func (h Holes) Centres() ([]Spot, units.Length, error) {
	switch h.As {
	case "ring":
		return h.onRing()
	case "listed":
		if len(h.Points) < 2 {
			return nil, 0, errors.New("fewer than two holes are listed; list the centre of each")
		}
		return slices.Clone(h.Points), 0, nil
	case "distances":
		return h.fromDistances()
	}
	if h.Along == 0 {
		return nil, 0, errors.New("the hole spacing is not known; measure it")
	}
	along := h.centreToCentre(h.Along)
	across := along
	if h.Across != 0 {
		across = h.centreToCentre(h.Across)
	}
	if along <= 0 || across <= 0 {
		return nil, 0, errors.New("the hole spacing between far edges is no more than the holes' diameter; check what was read")
	}
	x, y := along/2, across/2
	return []Spot{{-x, -y}, {x, -y}, {x, y}, {-x, y}}, 0, nil
}

// centreToCentre turns a reading between edges into one between centres.
func (h Holes) centreToCentre(reading units.Length) units.Length {
	switch h.Read {
	case "near edges":
		return reading + h.Diameter
	case "far edges":
		return reading - h.Diameter
	}
	return reading
}

func (h Holes) onRing() ([]Spot, units.Length, error) {
	switch {
	case h.Ring == 0:
		return nil, 0, errors.New("the ring's diameter is not known; measure it")
	case h.Count < 2:
		return nil, 0, fmt.Errorf("%d holes make no ring; count them", h.Count)
	case h.Count%2 == 1 && h.Read != "" && h.Read != "centres":
		return nil, 0, fmt.Errorf("%d holes have none opposite, so edges cannot be read across; read the circle's diameter between centres", h.Count)
	}
	diameter := h.centreToCentre(h.Ring)
	if diameter <= 0 {
		return nil, 0, errors.New("the ring between far edges is no more than the holes' diameter; check what was read")
	}
	spots := make([]Spot, h.Count)
	for i := range spots {
		sin, cos := math.Sincos(h.First.Radians() + 2*math.Pi*float64(i)/float64(h.Count))
		spots[i] = Spot{diameter / 2 * units.Length(cos), diameter / 2 * units.Length(sin)}
	}
	return spots, 0, nil
}

// largestMisfit is where distances stop being readings of one pattern.
const largestMisfit = units.Length(2)

// numbered is a distance between two holes, counted from 0.
type numbered struct {
	a, b   int
	length float64
}

func (h Holes) fromDistances() ([]Spot, units.Length, error) {
	var known []numbered
	n := 0
	for _, d := range h.Distances {
		a, b := min(d.From, d.To)-1, max(d.From, d.To)-1
		if a < 0 || a == b {
			return nil, 0, fmt.Errorf("a distance runs from hole %d to hole %d; number the holes from 1 and name two of them", d.From, d.To)
		}
		length := h.centreToCentre(d.Length)
		if length <= 0 {
			return nil, 0, fmt.Errorf("%v between far edges of holes %d and %d is no more than their diameter; check what was read", d.Length, d.From, d.To)
		}
		known = append(known, numbered{a, b, float64(length)})
		n = max(n, b+1)
	}
	if n == 0 {
		return nil, 0, errors.New("no distance between two holes is known; measure some")
	}
	if a, b, loose := missingBar(n, known); loose {
		return nil, 0, fmt.Errorf("the distances leave hole %d free to move; add the distance between holes %d and %d", b+1, a+1, b+1)
	}
	spots := fitPattern(n, known)
	residual := units.Length(0)
	worst := 0
	for i, k := range known {
		misfit := units.Length(math.Abs(float64(distance(spots[k.a], spots[k.b])) - k.length))
		if misfit > residual {
			residual, worst = misfit, i
		}
	}
	if residual > largestMisfit {
		k := known[worst]
		return nil, residual, fmt.Errorf("the distances fit no pattern: that between holes %d and %d is off by %.1f mm; measure it again", k.a+1, k.b+1, float64(residual))
	}
	return spots, residual, nil
}

func distance(a, b Spot) units.Length {
	return units.Length(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)))
}
