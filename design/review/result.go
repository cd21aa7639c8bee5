package review

import "gonum.org/v1/gonum/spatial/r3"

// Result is everything a review found.
type Result struct {
	Design   string
	Mass     float64 // of the printed parts and their screws, g
	Verdicts []Verdict
	Held     []Mode // the mast on a bench: what a tap test sees
	Flying   []Mode // on the free aircraft: what the motors see
	Bands    []Band
	Tip      Tip
	TipOver  *TipOver // nil without data
	Compass  *Compass // nil without data
	Shares   []Share  // of the tip's compliance, in the worse direction
	Screws   []Grip   // of the mount
	Notes    []string // what was assumed

	// For pictures; Judge leaves them out.
	Stress   []StressPoint
	Wires    []Wire
	Response []ResponsePoint
	Speeds   Speeds
}

// Count returns how many verdicts are in a state.
func (r Result) Count(state State) int {
	n := 0
	for _, v := range r.Verdicts {
		if v.State == state {
			n++
		}
	}
	return n
}

// Verdict returns the verdict of a check.
func (r Result) Verdict(id string) (Verdict, bool) {
	for _, v := range r.Verdicts {
		if v.ID == id {
			return v, true
		}
	}
	return Verdict{}, false
}

// Mode is one natural vibration, over the spread of the material and the base.
type Mode struct {
	Shape     string
	Hz        float64
	Low, High float64
	Path      []ShapePoint // relative to the mounting face, from the root up; for pictures, flying modes only
	Move      float64      // mm, of the compass at the worst rotor speed with this mode in its band; flying modes only
}

// Band is a range of frequencies that the rotors excite.
type Band struct {
	Name     string // "once-per-rev, hover"
	From, To float64
}

// Tip is what the mast's tip does under load.
type Tip struct {
	Compliance float64 // mm/N, sideways, the softer way
	Deflection float64 // mm, under manoeuvre and drag
	Tilt       float64 // deg, the same
}

// TipOver is what an inverted landing does.
type TipOver struct {
	Required   float64 // m/s, of the mast top when the aircraft topples over it
	Damage     float64 // m/s, first link at its strength
	Break      float64 // m/s
	BreakLow   float64 // m/s, at low strength
	BreakHigh  float64 // m/s, at high strength
	DropHeight float64 // m, of a free fall onto the mast top that breaks it
	Weakest    string
	Direction  r3.Vec    // unit, of the ground's force on the mast top as it strikes, axes of the place
	At         r3.Vec    // mm, the point that strikes
	Arms       [2]r3.Vec // mm, the arm ends it turns over
}

// Share is the part of a link in the tip's compliance.
type Share struct {
	Name  string
	Share float64
}
