package bench

import (
	"fmt"
	"math"
)

// Estimate is a value with the bounds between which it lies with 95 % confidence.
type Estimate struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// Around returns the estimate of a value with equal bounds to either side.
func Around(value, plus float64) Estimate { return Estimate{value, value - plus, value + plus} }

// Plus is half the distance between the bounds.
func (e Estimate) Plus() float64 { return (e.High - e.Low) / 2 }

// Spread is Plus as a part of the value's size, 0 for a value of 0.
func (e Estimate) Spread() float64 {
	if e.Value == 0 {
		return 0
	}
	return e.Plus() / math.Abs(e.Value)
}

// Times returns the estimate in a unit that is a factor smaller; a negative factor swaps the bounds.
func (e Estimate) Times(factor float64) Estimate {
	low, high := e.Low*factor, e.High*factor
	return Estimate{e.Value * factor, min(low, high), max(low, high)}
}

// Overlaps says whether the bounds of two estimates have a value in common.
func (e Estimate) Overlaps(o Estimate) bool { return e.Low <= o.High && o.Low <= e.High }

// Words writes an estimate with two digits of its uncertainty and the value to the same decimal, "142.04 ± 0.15"; one without bounds in
// three digits. Source: Guide to the expression of uncertainty in measurement, JCGM 100:2008, 7.2.6.
func (e Estimate) Words() string {
	plus := e.Plus()
	if !(plus > 0) {
		return fmt.Sprintf("%.3g", e.Value)
	}
	decimals := int(max(0, 1-math.Floor(math.Log10(plus))))
	return fmt.Sprintf("%.*f ± %.*f", decimals, e.Value, decimals, plus)
}
