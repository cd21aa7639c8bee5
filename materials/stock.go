package materials

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"mastwright/design/units"
)

// TubeSize is a tube as it is bought by the length: "10/8 mm".
type TubeSize struct{ Outside, Bore units.Length }

// Wall is half the difference of outside and bore.
func (t TubeSize) Wall() units.Length { return (t.Outside - t.Bore) / 2 }

// String is the size as shops write it.
func (t TubeSize) String() string {
	return fmt.Sprintf("%s/%s mm", units.CountKind.Format(t.Outside.Millimetres()), units.CountKind.Format(t.Bore.Millimetres()))
}

// Tubes are the sizes that shops keep of a tube material, the thinnest first; nil for none listed.
func (m Material) Tubes() []TubeSize {
	sizes, _ := tubes(m.Stock)
	return sizes
}

// Sheets are the thicknesses that shops keep of a sheet material, the thinnest first; nil for none listed.
func (m Material) Sheets() []units.Length {
	sizes, _ := sheets(m.Stock)
	return sizes
}

// NearestTube is the listed size nearest to an outside and a bore, and whether it is that very size.
func (m Material) NearestTube(outside, bore units.Length) (near TubeSize, exact bool) {
	least := math.Inf(1)
	for _, t := range m.Tubes() {
		if d := math.Abs(float64(t.Outside-outside)) + math.Abs(float64(t.Bore-bore)); d < least {
			least, near = d, t
		}
	}
	return near, least < sameSize
}

// NearestSheet is the listed thickness nearest to one, and whether it is that very one.
func (m Material) NearestSheet(thickness units.Length) (near units.Length, exact bool) {
	least := math.Inf(1)
	for _, t := range m.Sheets() {
		if d := math.Abs(float64(t - thickness)); d < least {
			least, near = d, t
		}
	}
	return near, least < sameSize
}

// sameSize is what rounding leaves between two sizes that are meant to be one, mm.
const sameSize = 1e-6

// tubes reads "6/4, 8/6, 10/8 mm".
func tubes(text string) ([]TubeSize, error) {
	var list []TubeSize
	for _, entry := range entries(text) {
		outside, bore, found := strings.Cut(entry, "/")
		if !found {
			return nil, fmt.Errorf("%q is no size of a tube; write outside/bore in mm, like 10/8", entry)
		}
		o, err := size(outside)
		if err != nil {
			return nil, err
		}
		b, err := size(bore)
		if err != nil {
			return nil, err
		}
		if b >= o {
			return nil, fmt.Errorf("%q has no wall; write the outside first, like 10/8", entry)
		}
		list = append(list, TubeSize{o, b})
	}
	slices.SortFunc(list, func(a, b TubeSize) int { return cmp.Or(cmp.Compare(a.Outside, b.Outside), cmp.Compare(b.Bore, a.Bore)) })
	return list, nil
}

// sheets reads "1, 1.5, 2 mm".
func sheets(text string) ([]units.Length, error) {
	var list []units.Length
	for _, entry := range entries(text) {
		thickness, err := size(entry)
		if err != nil {
			return nil, err
		}
		list = append(list, thickness)
	}
	slices.Sort(list)
	return list, nil
}

func entries(text string) []string {
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "mm"))
	if text == "" {
		return nil
	}
	return strings.Split(text, ",")
}

// largestStock bounds a size in mm against a slip of the unit.
const largestStock = 200

func size(text string) (units.Length, error) {
	x, err := units.LengthKind.Parse(strings.TrimSpace(text))
	if err != nil {
		return 0, err
	}
	if !(x > 0 && x <= largestStock) {
		return 0, fmt.Errorf("%s mm is no stock size; use more than 0 and at most %d mm", strings.TrimSpace(text), largestStock)
	}
	return units.Millimetres(x), nil
}

// checkStock is what is wrong with the sizes of a form, "" for nothing.
func (m Material) checkStock() string {
	if m.Stock == "" {
		return ""
	}
	var err error
	switch m.Form {
	case Tube:
		_, err = tubes(m.Stock)
	case Sheet:
		_, err = sheets(m.Stock)
	default:
		return "a print has no stock sizes; leave the key out"
	}
	if err != nil {
		return err.Error()
	}
	return ""
}
