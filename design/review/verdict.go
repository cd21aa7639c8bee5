// Package review is the translator between the document and the engines: it turns a design into frame models, motor speeds and
// load cases, runs every check and returns verdicts. Nothing here meshes.
//
// The models stand in the axes of the chosen place: origin at the centre of its hole pattern on the mounting face, x forward and
// y left after the place's turn, z up; metres, newtons, kilograms, radians. Verdicts are in the units a builder reads.
package review

import "math"

// State is what a check says.
type State int

const (
	Pass State = iota
	Marginal
	Fail
	NoData
)

// String returns the word shown for the state.
func (s State) String() string {
	return [...]string{"pass", "marginal", "fail", "no data"}[s]
}

// Figure is one number of a check, with its limits where it is judged.
type Figure struct {
	Name      string
	Value     float64
	Unit      string
	Low, High float64 // over the spread of the properties; both equal Value where there is none
	Limit     *Limit  // nil: shown, not judged
}

// Place returns the figure's place on the verdict scale, 0 when it is not judged.
func (f Figure) Place() float64 {
	if f.Limit == nil {
		return 0
	}
	return f.Limit.Place(f.Value)
}

// PlaceRange returns the places at the two ends of the spread, the better first.
func (f Figure) PlaceRange() (low, high float64) {
	if f.Limit == nil {
		return 0, 0
	}
	a, b := f.Limit.Place(f.Low), f.Limit.Place(f.High)
	return math.Min(a, b), math.Max(a, b)
}

// Verdict is a check's answer.
type Verdict struct {
	ID       string
	Title    string
	State    State
	Figure   Figure   // the one that decides; zero without data
	Figures  []Figure // all of them, the deciding one included, in the check's order
	Because  string   // why, in one sentence
	Formula  string   // with its numbers put in
	Source   string
	Missing  []string // paths of the answers it lacks
	Notes    []string
	Accepted string // the builder's reason, when the design accepts this verdict
}

// judged is a verdict decided by the worst of its judged figures; the earliest wins a tie. Where none is judged it passes, and shows
// the first.
func judged(figures ...Figure) Verdict {
	v := Verdict{Figures: figures}
	if len(figures) > 0 {
		v.Figure = figures[0]
	}
	worst := -1.0
	for _, f := range figures {
		if f.Limit == nil {
			continue
		}
		if p := f.Place(); p > worst {
			worst, v.Figure, v.State = p, f, f.Limit.State(f.Value)
		}
	}
	return v
}

// lacking is a verdict without data.
func lacking(because string, paths ...string) Verdict {
	return Verdict{State: NoData, Because: because, Missing: paths}
}

// fixed is a figure without spread.
func fixed(name string, value float64, unit string, limit *Limit) Figure {
	return Figure{Name: name, Value: value, Unit: unit, Low: value, High: value, Limit: limit}
}

// spread is a figure with a range that is put in order.
func spread(name string, value, a, b float64, unit string, limit *Limit) Figure {
	return Figure{Name: name, Value: value, Unit: unit, Low: math.Min(math.Min(a, b), value), High: math.Max(math.Max(a, b), value), Limit: limit}
}
