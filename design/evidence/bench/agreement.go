package bench

import "fmt"

// Quantity is what a test measured and the design predicts.
type Quantity string

// The quantities that an Agreement can speak of.
const (
	Stiffness Quantity = "stiffness"
	Frequency Quantity = "frequency"
	Mass      Quantity = "mass"
	LeadField Quantity = "lead field"
)

// Agreement holds a measured value against a predicted one.
type Agreement struct {
	Of        Quantity `json:"of"`
	Measured  Estimate `json:"measured"`
	Predicted Estimate `json:"predicted"`
	Agrees    bool     `json:"agrees"`           // the two spreads have a value in common
	Factor    Estimate `json:"factor"`           // measured over predicted as designed, with the confidence of the measurement
	Words     string   `json:"words"`            // one sentence
	Causes    []Cause  `json:"causes,omitempty"` // where they differ, the likeliest first
}

// Cause is a reason why measured and predicted differ, and the cheap test that tells it from the others.
type Cause struct {
	Why  string `json:"why"`
	Test string `json:"test"`
}

// Compare holds a measurement against a prediction, both positive and in one unit. On a block says that the mount stood on a
// solid block, so that foot screws and frame are out of question. A prediction of 0 or less is refused.
func Compare(of Quantity, measured, predicted Estimate, onBlock bool) (Agreement, error) {
	if err := numbers(string(of), measured.Value, measured.Low, measured.High, predicted.Value, predicted.Low, predicted.High); err != nil {
		return Agreement{}, err
	}
	if predicted.Value <= 0 {
		return Agreement{}, refuse("answer what the design still asks", "the design predicts no %s to compare with", of)
	}
	if predicted.Low == 0 && predicted.High == 0 {
		predicted = Around(predicted.Value, 0)
	}
	a := Agreement{Of: of, Measured: measured, Predicted: predicted, Factor: measured.Times(1 / predicted.Value), Agrees: measured.Overlaps(predicted)}
	switch {
	case a.Agrees:
		a.Words = fmt.Sprintf("the measured %s agrees with the design: %s of the predicted, within the spread of both", of, percent(a.Factor.Value))
	case measured.Value < predicted.Value:
		a.Words = fmt.Sprintf("the measured %s is below the design: %s of the predicted, which is more than the spread of both", of, percent(a.Factor.Value))
		a.Causes = below(of, onBlock)
	default:
		a.Words = fmt.Sprintf("the measured %s is above the design: %s of the predicted, which is more than the spread of both", of, percent(a.Factor.Value))
		a.Causes = above(of, onBlock)
	}
	return a, nil
}

var (
	looseScrew  = Cause{"a screw of the mount is loose", "tighten all and repeat: the value rises"}
	softFoot    = Cause{"the frame or the foot gives way more than assumed", "repeat with the mount on a solid block: there it agrees"}
	underfilled = Cause{"the print is underfilled or hollow", "weigh the parts: they come out light"}
	softPlastic = Cause{"the plastic is softer than its figure: damp, warm, or another spool", "repeat after a day with a drying agent, at room temperature: the value rises"}
	badLayers   = Cause{"the layers hold badly to each other", "bend an offcut by hand: it parts between layers with a smooth face"}
)

// below lists why a value can be less than predicted. Order by common practice, no source.
func below(of Quantity, onBlock bool) []Cause {
	switch of {
	case Stiffness, Frequency:
		causes := []Cause{looseScrew}
		if !onBlock {
			causes = append(causes, softFoot)
		}
		causes = append(causes, underfilled, softPlastic, badLayers)
		if of == Frequency {
			causes = append(causes, Cause{"more mass at the top than in the design", "weigh receiver, cable and fasteners: they come out heavy"})
		}
		return causes
	case Mass:
		return []Cause{
			{"too little plastic was laid down", "print a wall of one line and measure its thickness: it comes out thin"},
			{"infill or walls were set lower than the design's", "look through a cut or held against a light: the inside shows gaps"},
			{"the plastic is a lighter one", "weigh a metre of filament: it comes out light"},
		}
	}
	return []Cause{
		{"the leads run farther or closer together than in the design", "measure the routes again: the distances differ"},
		{"the current reading is too high", "compare with the charger's account of what the pack took back"},
		{"go and return are twisted better than described", "untwist 50 mm by hand and repeat: the value rises"},
	}
}

// above lists why a value can be more than predicted. Order by common practice, no source.
func above(of Quantity, onBlock bool) []Cause {
	switch of {
	case Stiffness, Frequency:
		causes := []Cause{
			{"walls or infill are thicker than in the design", "weigh the parts: they come out heavy"},
			{"the plastic is stiffer than its figure: dry, filled with fibres, or cold", "repeat after a day in ordinary air: the value falls"},
		}
		if !onBlock {
			causes = append(causes, Cause{"the foot is held better than assumed", "repeat with the mount on a solid block: there it agrees"})
		}
		if of == Frequency {
			causes = append(causes, Cause{"less mass at the top than in the design", "weigh receiver, cable and fasteners: they come out light"},
				Cause{"another mode was heard", "tap along the other direction: the design's value shows"})
		}
		return causes
	case Mass:
		return []Cause{
			{"supports, a brim or screws were weighed with the part", "clean the part and weigh again: it comes out lighter"},
			{"infill or walls were set higher than the design's", "compare the print settings: they differ"},
			{"too much plastic was laid down", "print a wall of one line and measure its thickness: it comes out thick"},
			{"the plastic is a heavier one", "weigh a metre of filament: it comes out heavy"},
		}
	}
	return []Cause{
		{"a lead or the pack's plug runs nearer to the compass than in the design", "measure the routes again: the distances differ"},
		{"go and return run apart somewhere", "press or tape them together and repeat: the value falls"},
		{"a steel part near the compass gathers the field", "try the screws and standoffs with a magnet: one is drawn"},
		{"the current reading is too low", "compare with the charger's account of what the pack took back"},
	}
}

func percent(part float64) string { return fmt.Sprintf("%.0f %%", 100*part) }
