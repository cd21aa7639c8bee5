package prove

import (
	"fmt"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/vibration"
)

// Figure is what a design predicts of a test, in a builder's unit.
type Figure struct {
	Name  string
	Unit  string
	Value bench.Estimate
}

// Predicted lists what a test should find, before it is done. It is empty for tests of which a design predicts nothing
// (pointing, radio); the support counts for tap and hang. What the design still lacks comes back as a Refusal.
func Predicted(doc *design.Document, test string, support vibration.Support) ([]Figure, error) {
	switch test {
	case "weigh":
		list, err := Weighable(doc)
		var out []Figure
		for _, p := range list {
			out = append(out, Figure{p.Name, "g", bench.Around(p.Designed*1e3, 0)})
		}
		return out, err
	case "caliper":
		list, err := Dimensions(doc)
		var out []Figure
		for _, d := range list {
			out = append(out, Figure{d.Name, "mm", bench.Around(d.Designed*1e3, 0)})
		}
		return out, err
	case "tap", "hang":
		return predictedStanding(doc, test, support)
	case "throttle":
		e, err := expect(doc)
		if err != nil {
			return nil, err
		}
		return []Figure{{"level field for each ampere", "uT/A", e.slope.Times(1e6)}}, nil
	case "hover":
		result, err := judged(doc)
		if err != nil {
			return nil, err
		}
		if band, ok := hoverBand(result); ok {
			return []Figure{{"speed in hover", "rpm", band.Times(60)}}, nil
		}
		return nil, refuse("The design predicts no speed yet: answer what mastwright missing asks of the motors.")
	case "turn":
		field, err := earth(doc)
		if err != nil {
			return nil, err
		}
		return []Figure{{"field of the earth", "uT", bench.Around(field.F*1e6, 0)}}, nil
	case "pointing", "radio":
		return nil, nil
	}
	return nil, noTest(test)
}

func predictedStanding(doc *design.Document, test string, support vibration.Support) ([]Figure, error) {
	stood, err := standing(doc, support)
	if err != nil {
		return nil, err
	}
	result, err := judged(stood)
	if err != nil {
		return nil, err
	}
	if test == "hang" {
		stiffness, err := stiffnessOf(result)
		if err != nil {
			return nil, err
		}
		return []Figure{{"stiffness", "N/mm", stiffness.Times(1e-3)}}, nil
	}
	var out []Figure
	for _, m := range modes(result, support) {
		out = append(out, Figure{m.Name, "Hz", bench.Estimate{Value: m.Hz, Low: m.Low, High: m.High}})
	}
	if len(out) == 0 {
		return nil, refuse("The design predicts no frequency yet: answer what mastwright missing asks of the modes.")
	}
	return out, nil
}

// Words is the figure with its unit and its spread: "104 (96 to 113) Hz".
func (f Figure) Words() string {
	if f.Value.Plus() <= 0 {
		return fmt.Sprintf("%.4g %s", f.Value.Value, f.Unit)
	}
	return fmt.Sprintf("%.4g (%.4g to %.4g) %s", f.Value.Value, f.Value.Low, f.Value.High, f.Unit)
}
