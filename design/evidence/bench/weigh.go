package bench

import (
	"fmt"
	"math"
)

// Part is one printed part, or several of a kind, on the scale.
type Part struct {
	Name     string
	Count    int     // pieces weighed together; 0 means 1
	Mass     float64 // kg, all pieces together
	Designed float64 // kg, one piece
	Solid    float64 // kg, one piece filled through; 0 when not known
}

// Plastic is another material that the parts may have been printed of.
type Plastic struct {
	Name    string
	Density float64 // as a part of the designed material's
}

// WeighOptions say how the scale and the material are. The zero value is a kitchen scale.
type WeighOptions struct {
	Division float64   // kg, by which the scale may be off; 0 means 1 g
	Spread   float64   // of the material's density to either side, a part of it; 0 means .03 (common practice, no source)
	Others   []Plastic // to look for where the mass does not fit
}

// Weighing is what the masses of parts of one material say.
type Weighing struct {
	Parts     []WeighedPart `json:"parts"`
	Density   Estimate      `json:"density"` // effective density over the design's, from the parts that agree with each other
	Agreement Agreement     `json:"agreement"`
	Words     []string      `json:"words"`
}

// WeighedPart is one part's share in a weighing.
type WeighedPart struct {
	Name     string   `json:"name"`
	Mass     float64  `json:"mass_kg"`     // one piece
	Designed float64  `json:"designed_kg"` // one piece
	Factor   Estimate `json:"factor"`      // measured over designed, with the scale's tolerance
	Used     bool     `json:"used"`        // in the density
	Words    string   `json:"words"`
}

// Weigh holds the masses of parts of one material against the design's. A part that a division of the scale shifts by more than
// a tenth is told so and left out; when that leaves none, or a mass is off by five times, the weighing is refused.
func Weigh(parts []Part, o WeighOptions) (Weighing, error) {
	if o.Division == 0 {
		o.Division = .001
	}
	if o.Spread == 0 {
		o.Spread = .03
	}
	var w Weighing
	for _, p := range parts {
		count := float64(max(p.Count, 1))
		mass, designed := p.Mass/count, p.Designed
		if err := numbers(p.Name, mass, designed); err != nil {
			return Weighing{}, err
		}
		switch {
		case designed <= 0:
			return Weighing{}, refuse("weigh parts of this design", "%s: the design has no mass for it", p.Name)
		case mass < designed/5 || mass > designed*5:
			return Weighing{}, refuse("check unit and number of pieces", "%s: %.4g g against %.4g g designed cannot be the same part", p.Name, 1000*mass, 1000*designed)
		}
		part := WeighedPart{Name: p.Name, Mass: mass, Designed: designed, Factor: Around(mass/designed, o.Division/count/designed)}
		part.Used = part.Factor.Plus() <= .1
		w.Parts = append(w.Parts, part)
	}
	if len(w.used()) == 0 {
		return Weighing{}, w.tooLight(o.Division)
	}
	odd := w.odd(o.Spread)
	if odd >= 0 {
		w.Parts[odd].Used = false
	}
	w.Density = w.density()
	var err error
	if w.Agreement, err = Compare(Mass, w.Density, Around(1, o.Spread), false); err != nil {
		return Weighing{}, err
	}
	for i := range w.Parts {
		p := &w.Parts[i]
		switch {
		case i == odd:
			p.Words = fmt.Sprintf("%s does not go with the others: %s", p.Name, inWords(p.Factor.Value, part(parts, p.Name), o))
		case !p.Used:
			p.Words = fmt.Sprintf("%s is too light for this scale: one division is %s of it", p.Name, percent(p.Factor.Plus()))
		default:
			p.Words = fmt.Sprintf("%s: %s", p.Name, inWords(p.Factor.Value, part(parts, p.Name), o))
		}
	}
	w.Words = append(w.Words, fmt.Sprintf("effective density %.1f %% ± %.1f %% of the design's", 100*w.Density.Value, 100*w.Density.Plus()), w.Agreement.Words)
	if !w.Agreement.Agrees {
		for _, other := range o.Others {
			if math.Abs(w.Density.Value/other.Density-1) <= max(.02, w.Density.Plus()) {
				w.Words = append(w.Words, fmt.Sprintf("%s would weigh that much: was the right spool on the printer?", other.Name))
			}
		}
	}
	return w, nil
}

// inWords says what a mass over the designed one means. Bounds by common practice, no source.
func inWords(factor float64, p Part, o WeighOptions) string {
	of := percent(factor) + " of the designed mass: "
	switch {
	case p.Solid > 1.1*p.Designed && math.Abs(factor*p.Designed/p.Solid-1) < .03:
		return of + "it is filled through, the infill setting was not followed"
	case factor < .7:
		return of + "it is hollow, or the infill is far below the design's"
	case factor < 1-o.Spread-.02:
		return of + "too little plastic was laid down, or there is a wall or some infill less than designed"
	case factor <= 1+o.Spread+.02:
		return of + "as designed"
	case factor <= 1.3:
		return of + "supports or a brim may still be on it, or walls and infill are more than designed"
	}
	return of + "supports are still on it, screws were weighed with it, or it is filled through"
}

func part(parts []Part, name string) Part {
	for _, p := range parts {
		if p.Name == name {
			return p
		}
	}
	return Part{}
}

func (w Weighing) used() []WeighedPart {
	var used []WeighedPart
	for _, p := range w.Parts {
		if p.Used {
			used = append(used, p)
		}
	}
	return used
}

// density is the factor with which the designed masses come nearest to the measured ones.
func (w Weighing) density() Estimate {
	var mp, pp, rest, tolerance float64
	used := w.used()
	for _, p := range used {
		mp += p.Mass * p.Designed
		pp += p.Designed * p.Designed
		tolerance = max(tolerance, p.Factor.Plus()*p.Designed)
	}
	f, within := mp/pp, true
	for _, p := range used {
		r := p.Mass - f*p.Designed
		rest += r * r
		within = within && math.Abs(r) <= p.Factor.Plus()*p.Designed
	}
	plus := tolerance / math.Sqrt(pp)
	if !within {
		n := len(used) - 1
		plus = max(plus, Student(n)*math.Sqrt(rest/float64(n)/pp))
	}
	return Around(f, min(plus, f))
}

// odd is the one part without which three and more agree, or -1.
func (w Weighing) odd(spread float64) int {
	if len(w.used()) < 3 || w.scatter(-1) <= spread {
		return -1
	}
	best, least := -1, spread
	for i, p := range w.Parts {
		if s := w.scatter(i); p.Used && s <= least {
			best, least = i, s
		}
	}
	return best
}

// scatter is how far the factors of the used parts but one stand apart beyond the scale's tolerance.
func (w Weighing) scatter(without int) float64 {
	highestLow, lowestHigh := 0.0, math.Inf(1)
	for i, p := range w.Parts {
		if p.Used && i != without {
			highestLow, lowestHigh = max(highestLow, p.Factor.Low), min(lowestHigh, p.Factor.High)
		}
	}
	return max(0, highestLow-lowestHigh)
}

func (w Weighing) tooLight(division float64) error {
	if len(w.Parts) == 0 {
		return refuse("weigh one or more", "no part was weighed")
	}
	heaviest := w.Parts[0]
	for _, p := range w.Parts {
		if p.Designed > heaviest.Designed {
			heaviest = p
		}
	}
	return refuse("take a finer scale, or weigh several of a kind together",
		"the heaviest part, %s, is designed for %.3g g; a scale with divisions of %.3g g tells too little of it", heaviest.Name, 1000*heaviest.Designed, 1000*division)
}
