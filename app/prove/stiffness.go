package prove

import (
	"context"
	"math"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
	"mastwright/design/units"
)

const degree = 180 / math.Pi // of a radian

func radians(degrees float64) float64 { return degrees / degree }

// stiffnessOf is the predicted stiffness at the tip, N/m. Its spread is that of the square of the lowest held mode.
func stiffnessOf(r review.Result) (bench.Estimate, error) {
	if r.Tip.Compliance <= 0 {
		return bench.Estimate{}, refuse("The design predicts no stiffness yet: answer what mastwright missing asks of the sway.")
	}
	e := bench.Around(1e3/r.Tip.Compliance, 0)
	if len(r.Held) > 0 && r.Held[0].Hz > 0 {
		m := r.Held[0]
		e.Low, e.High = e.Value*math.Pow(m.Low/m.Hz, 2), e.Value*math.Pow(m.High/m.Hz, 2)
	}
	return e, nil
}

// modelSpread is how far the model's stiffness may be off for other reasons than the plastic, a share of it to either side:
// the receiver's mass and the lengths as they were entered. Common practice, no source. A frequency has half of it.
const modelSpread = .03

// worthless is the spread of a modulus, a share of it, beyond which the test says nothing of the plastic.
const worthless = .5

// widened is an estimate with a further spread of its value, independent of its own.
func widened(e bench.Estimate, spread float64) bench.Estimate {
	more := spread * e.Value
	return bench.Estimate{Value: e.Value, Low: e.Value - math.Hypot(e.Value-e.Low, more), High: e.Value + math.Hypot(e.High-e.Value, more)}
}

// scaled reviews a design with the plastic's modulus so many times as high.
func (p plastic) scaled(shop *review.Workshop, doc *design.Document, scale float64) (review.Result, error) {
	next := doc.Clone()
	m := design.Measured{What: design.MeasuredModulus, Of: p.material.ID, Layers: p.layers(), Modulus: units.Pascals(scale * p.modulus())}
	if err := next.Use(m, ""); err != nil {
		return review.Result{}, err
	}
	result, wrong, err := shop.Judge(context.Background(), next)
	if len(wrong) > 0 {
		return review.Result{}, unbuilt(wrong)
	}
	return result, err
}

// implied returns the factor on the plastic's modulus with which a review of the design says what was measured.
func (p plastic) implied(doc *design.Document, measured bench.Estimate, said func(review.Result) float64) (vibration.Scale, error) {
	var shop review.Workshop
	known := map[float64]float64{}
	return vibration.Implied(measured.Value, max(measured.Low, measured.Value/20), measured.High, func(scale float64) (float64, error) {
		if value, ok := known[scale]; ok {
			return value, nil
		}
		result, err := p.scaled(&shop, doc, scale)
		if err != nil {
			return 0, err
		}
		known[scale] = said(result)
		return known[scale], nil
	})
}
