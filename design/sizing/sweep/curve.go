package sweep

import (
	"math"

	"mastwright/design/review"
)

// Curve is a figure over the points of a sweep.
type Curve struct {
	Check  string // id; "" for the mass
	Name   string
	Unit   string
	Values []Value // one a point
}

// Value is a figure at a point.
type Value struct {
	Known     bool
	Value     float64
	Low, High float64       // over the spread of the properties
	Limit     *review.Limit // nil: shown, not judged
}

// Spreads reports whether the curve has a band anywhere.
func (c Curve) Spreads() bool {
	for _, v := range c.Values {
		if v.Known && v.Low != v.High {
			return true
		}
	}
	return false
}

// Judged reports whether the curve has a limit anywhere.
func (c Curve) Judged() bool {
	for _, v := range c.Values {
		if v.Known && v.Limit != nil {
			return true
		}
	}
	return false
}

// Curve returns the curve of a check's figure.
func (r Result) Curve(check, name string) (Curve, bool) {
	for _, c := range r.Curves {
		if c.Check == check && c.Name == name {
			return c, true
		}
	}
	return Curve{}, false
}

// curves are the mass and every figure that any of the points has, in the order of the checks and then of their first appearance.
func curves(checks []string, points []Point) []Curve {
	mass := Curve{Name: "mass", Unit: "g", Values: make([]Value, len(points))}
	for i, p := range points {
		if len(p.Problems) == 0 {
			mass.Values[i] = Value{Known: true, Value: p.Mass, Low: p.Mass, High: p.Mass}
		}
	}
	list := []Curve{mass}
	for _, id := range checks {
		first := len(list)
		for i, p := range points {
			for _, v := range p.Verdicts {
				if v.ID != id {
					continue
				}
				for _, f := range v.Figures {
					k := first
					for k < len(list) && list[k].Name != f.Name {
						k++
					}
					if k == len(list) {
						list = append(list, Curve{Check: id, Name: f.Name, Unit: f.Unit, Values: make([]Value, len(points))})
					}
					if math.Abs(f.Value) < math.MaxFloat32 { // what has no bound is no point of a curve
						list[k].Values[i] = Value{Known: true, Value: f.Value, Low: f.Low, High: f.High, Limit: f.Limit}
					}
				}
			}
		}
	}
	return list
}
