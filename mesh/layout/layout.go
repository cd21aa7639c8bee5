// Package layout lays rectangles out on print beds and sheets, without overlap.
//
// Lengths are in millimetres, x to the right and y away from the user, the
// origin at the corner of the bed or sheet. The same list gives the same
// layout. Each rectangle goes where its far side comes nearest to the edge of
// the bed, against the skyline of those that lie there (E. Burke, G. Kendall
// and G. Whitwell, "A new placement heuristic for the orthogonal stock-cutting
// problem", Operations Research 52 (2004) 655, from memory).
package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Footprint is the rectangle that a part takes.
type Footprint struct {
	Name   string
	X, Y   float64 // mm
	Copies int     // none for 0 or less
}

// Place is where a copy lies.
type Place struct {
	Footprint int    // its place in the list
	At        r2.Vec // corner nearest to the origin, mm
	Turned    bool   // by a quarter: its X runs along y
}

// Options steers a layout.
type Options struct {
	Gap   float64 // mm between neighbours; 0 means 5
	Fixed bool    // nothing is turned
}

// Beds lays all copies out on as few beds of a size as it finds, in the middle
// of each, those of a bed in the order of the list. The error names the first
// rectangle that is larger than a bed, and the bed that would do.
func Beds(list []Footprint, size r2.Vec, o Options) ([][]Place, error) {
	if err := check(list, &o); err != nil {
		return nil, err
	}
	for _, f := range list {
		if f.Copies > 0 && !(fits(f.X, f.Y, size) || !o.Fixed && fits(f.Y, f.X, size)) {
			return nil, fmt.Errorf("%s is %.6g by %.6g mm and the bed %.6g by %.6g mm; use a bed of at least %.6g by %.6g mm, or a smaller part",
				f.Name, f.X, f.Y, size.X, size.Y, f.X, f.Y)
		}
	}
	var best [][]Place
	for share := 0.2; len(best) != 1 && share < 1.05; share += 0.1 { // close together, where one bed is enough
		best = fewest(list, r2.Scale(min(share, 1), size), o)
	}
	for _, bed := range best {
		sorted(bed)
		spare := r2.Scale(0.5, r2.Sub(size, extent(list, bed)))
		for k := range bed {
			bed[k].At = r2.Add(bed[k].At, spare)
		}
	}
	return best, nil
}

// fewest lays all copies out on as few beds as the orders need, from the
// corner; nil where one does not fit.
func fewest(list []Footprint, size r2.Vec, o Options) (best [][]Place) {
	for _, order := range orders(list) {
		beds, ok := inOrder(list, order, size, o)
		if ok && (best == nil || len(beds) < len(best)) {
			best = beds
		}
	}
	return best
}

func inOrder(list []Footprint, order []int, size r2.Vec, o Options) ([][]Place, bool) {
	var lines []*skyline
	beds := [][]Place{}
next:
	for _, i := range order {
		for k := range len(lines) + 1 {
			if k == len(lines) {
				lines, beds = append(lines, newSkyline(r2.Add(size, r2.Vec{X: o.Gap, Y: o.Gap}))), append(beds, nil)
			}
			if p, ok := lines[k].put(list[i], o); ok {
				p.Footprint = i
				beds[k] = append(beds[k], p)
				continue next
			}
		}
		return nil, false
	}
	return beds, true
}

// Sheet lays all copies out on a sheet of a width and any height, from the
// corner, in the order of the list, and returns the size that they take.
// Whatever is wider widens the sheet.
func Sheet(list []Footprint, width float64, o Options) ([]Place, r2.Vec, error) {
	if err := check(list, &o); err != nil {
		return nil, r2.Vec{}, err
	}
	for _, f := range list {
		if f.Copies > 0 {
			width = max(width, f.X)
		}
	}
	line := newSkyline(r2.Vec{X: width + o.Gap, Y: math.Inf(1)})
	var out []Place
	for _, i := range orders(list)[0] {
		p, _ := line.put(list[i], o) // there is no end to the height
		p.Footprint = i
		out = append(out, p)
	}
	sorted(out)
	return out, extent(list, out), nil
}

const mostCopies = 1000

func check(list []Footprint, o *Options) error {
	if o.Gap == 0 {
		o.Gap = 5
	}
	if !(o.Gap > 0 && o.Gap < 1e6) {
		return fmt.Errorf("a gap of %g mm between parts; use a length above 0", o.Gap)
	}
	copies := 0
	for _, f := range list {
		if f.Copies <= 0 {
			continue
		}
		if !(f.X > 0 && f.Y > 0 && f.X < 1e6 && f.Y < 1e6) {
			return fmt.Errorf("%s is %g by %g mm; a part on the bed has a width and a depth", f.Name, f.X, f.Y)
		}
		copies += min(f.Copies, mostCopies+1)
	}
	if copies > mostCopies {
		return fmt.Errorf("more than %d parts are to be laid out; use fewer copies", mostCopies)
	}
	return nil
}

// slack is what rounding may take, mm.
const slack = 1e-9

func fits(x, y float64, size r2.Vec) bool { return x <= size.X+slack && y <= size.Y+slack }

// orders are orders in which the copies may be laid, as places in the list:
// the longest first, the largest first, the one with the longest short side
// first.
func orders(list []Footprint) [][]int {
	var plain []int
	for i, f := range list {
		for range max(0, f.Copies) {
			plain = append(plain, i)
		}
	}
	var out [][]int
	for _, key := range []func(f Footprint) float64{
		func(f Footprint) float64 { return max(f.X, f.Y) },
		func(f Footprint) float64 { return f.X * f.Y },
		func(f Footprint) float64 { return min(f.X, f.Y) },
	} {
		order := slices.Clone(plain)
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(key(list[b]), key(list[a])) })
		out = append(out, order)
	}
	return out
}

func sorted(bed []Place) {
	slices.SortStableFunc(bed, func(a, b Place) int { return cmp.Compare(a.Footprint, b.Footprint) })
}

// extent is the far corner of a layout.
func extent(list []Footprint, bed []Place) r2.Vec {
	var far r2.Vec
	for _, p := range bed {
		x, y := list[p.Footprint].X, list[p.Footprint].Y
		if p.Turned {
			x, y = y, x
		}
		far = r2.Vec{X: max(far.X, p.At.X+x), Y: max(far.Y, p.At.Y+y)}
	}
	return far
}
