package compass

import (
	"fmt"
	"math"
	"slices"

	"mastwright/design/evidence/bench"
)

// Unit is what the numbers of a record's axes are.
type Unit struct {
	Name  string  `json:"name"`
	Tesla float64 `json:"tesla"` // one unit
	Said  string  `json:"said"`  // where the unit is from, in words
}

var known = []Unit{{Name: "uT", Tesla: 1e-6}, {Name: "mG", Tesla: 1e-7}, {Name: "G", Tesla: 1e-4}, {Name: "nT", Tesla: 1e-9}, {Name: "mT", Tesla: 1e-3}, {Name: "T", Tesla: 1}}

// Units lists the names of the units that records come in.
func Units() []string {
	names := make([]string, len(known))
	for i, u := range known {
		names[i] = u.Name
	}
	return names
}

// unitOf returns the unit by its name, or without one the unit in which a field of the given size comes nearest to the earth's
// total field in tesla. A size that fits no unit within a factor of two is taken as raw counts of that field.
func unitOf(name string, size, total float64) (Unit, error) {
	if name != "" {
		i := slices.IndexFunc(known, func(u Unit) bool { return u.Name == name || name == "µT" && u.Name == "uT" })
		if i < 0 {
			return Unit{}, refuse("choose one of uT, mG, G, nT, mT, T", "%q is no unit of a compass", name)
		}
		u := known[i]
		u.Said = "the axes are in " + u.Name + ", as told"
		return u, nil
	}
	if size <= 0 {
		return Unit{}, refuse("look whether the compass is connected and logged", "all three axes are zero")
	}
	field, where := total, fmt.Sprintf("the earth's field at the site, %.1f uT", 1e6*total)
	if total <= 0 {
		field, where = 45e-6, "the earth's field, 25 to 65 uT"
	}
	for _, u := range known {
		if part := size * u.Tesla / field; part > .5 && part < 2 {
			u.Said = fmt.Sprintf("the axes are taken as %s: their field of %.4g then fits %s", u.Name, size, where)
			if total > 0 && math.Abs(part-1) > .25 {
				u.Said += fmt.Sprintf(", though only to %.0f %%: tell the unit if it is another", 100*part)
			}
			return u, nil
		}
	}
	if total <= 0 {
		return Unit{}, refuse("tell the unit of the axes, or the place of the site", "a field of %.4g fits the earth's in no unit", size)
	}
	return Unit{Name: "counts", Tesla: total / size, Said: fmt.Sprintf(
		"the axes are taken as raw counts: their field of %.4g is set to %s; an offset in the counts makes this wrong, so better tell the unit", size, where)}, nil
}

func refuse(remedy, format string, a ...any) error {
	return bench.Refusal{Text: fmt.Sprintf(format, a...), Remedy: remedy}
}

const degree = math.Pi / 180

var axisNames = [3]string{"x", "y", "z"}

// Swing returns the worst heading error over yaw in radians of a disturbance across the earth's horizontal field, both in
// tesla: asin(min(1, B/H)), and π where B is H or more, since the needle then may point anywhere.
func Swing(across, horizontal float64) float64 {
	if across >= horizontal {
		return math.Pi
	}
	return math.Asin(across / horizontal)
}
