package review

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/materials"
)

// Candidate is the same design with one thing changed throughout: its material, or its place.
type Candidate struct {
	Name      string // material or place
	Title     string
	Mass      float64 // g, printed parts and screws
	First     float64 // Hz, lowest flying mode; 0 without data
	Low, High float64 // Hz, its band
	Band      string  // where the first mode lies among the rotor's working bands
	Tilt      float64 // deg
	Break     float64 // m/s; 0 when no fall lands on the mast
	BreakLow  float64 // m/s, at low strength
	BreakHigh float64 // m/s, at high strength
	Required  float64 // m/s, topple speed
	Ratio     float64 // break over topple speed
	Room      float64 // K, from softening to service
	Softens   bool    // a softening temperature is known
	Fails     int
	Marginals int
	Because   string
	Verdicts  []Verdict
}

// Compare reviews the same design in every print material and ranks them: fewest failures, fewest marginals, then mass. The error is the
// context's.
func Compare(ctx context.Context, doc *design.Document) ([]Candidate, []design.Problem, error) {
	var list []Candidate
	var shop Workshop
	for _, m := range doc.Library().Of(materials.Print) {
		other := doc.Clone()
		for _, path := range printedOf(doc) {
			if err := other.Set(path, m.ID); err != nil {
				return nil, []design.Problem{{Path: path, Value: m.ID, Text: err.Error()}}, nil
			}
		}
		c, problems, err := shop.candidate(ctx, other, m.ID, m.Title)
		if err != nil || len(problems) > 0 {
			return nil, problems, err
		}
		list = append(list, c)
	}
	rank(list)
	return list, nil, nil
}

// printedOf are the fields of what is printed.
func printedOf(doc *design.Document) []string {
	paths := []string{"materials.mast", "materials.foot", "materials.tray"}
	switch {
	case doc.Mast.Build == "twin-plate":
		paths = append(paths, "materials.spacer")
	case doc.Mast.Build == "legs" && doc.LegForm() == materials.Print:
		paths = append(paths, "materials.legs")
	}
	return paths
}

// ComparePlaces reviews the same mount at every place of the airframe. A place where it cannot be built is ranked last, with the reason. The
// error is the context's.
func ComparePlaces(ctx context.Context, doc *design.Document) ([]Candidate, []design.Problem, error) {
	var list []Candidate
	var shop Workshop
	for _, p := range doc.Airframe.Places {
		other := doc.Clone()
		if err := other.Set("mast.place", p.Name); err != nil {
			return nil, []design.Problem{{Path: "mast.place", Value: p.Name, Text: err.Error()}}, nil
		}
		c, problems, err := shop.candidate(ctx, other, p.Name, p.Name)
		if err != nil {
			return nil, nil, err
		}
		if len(problems) > 0 {
			texts := make([]string, len(problems))
			for i, problem := range problems {
				texts[i] = problem.Text
			}
			c = Candidate{Name: p.Name, Title: p.Name, Fails: len(checks), Because: "cannot be built here: " + strings.Join(texts, "; ")}
		}
		list = append(list, c)
	}
	rank(list)
	return list, nil, nil
}

func (w *Workshop) candidate(ctx context.Context, doc *design.Document, name, title string) (Candidate, []design.Problem, error) {
	r, problems, err := w.Judge(ctx, doc)
	if err != nil || len(problems) > 0 {
		return Candidate{}, problems, err
	}
	c := Candidate{Name: name, Title: title, Mass: r.Mass, Tilt: r.Tip.Tilt, Fails: r.Count(Fail), Marginals: r.Count(Marginal), Verdicts: r.Verdicts}
	if len(r.Flying) > 0 {
		first := r.Flying[0]
		c.First, c.Low, c.High = first.Hz, first.Low, first.High
		c.Band = between(first, r.Bands)
	}
	if r.TipOver != nil {
		c.Break, c.BreakLow, c.BreakHigh, c.Required = r.TipOver.Break, r.TipOver.BreakLow, r.TipOver.BreakHigh, r.TipOver.Required
		c.Ratio = r.TipOver.Break / r.TipOver.Required
	}
	if heat, ok := r.Verdict("heat"); ok && heat.State != NoData {
		c.Room, c.Softens = heat.Figure.Value, true
	}
	var fails, marginals []string
	for _, v := range r.Verdicts {
		switch v.State {
		case Fail:
			fails = append(fails, v.Title)
		case Marginal:
			marginals = append(marginals, v.Title)
		}
	}
	switch {
	case len(fails) > 0:
		c.Because = strings.Join(fails, ", ") + plural(len(fails), " fails", " fail")
	case len(marginals) > 0:
		c.Because = strings.Join(marginals, ", ") + plural(len(marginals), " is marginal", " are marginal")
	default:
		c.Because = "Nothing fails and nothing is marginal"
	}
	return c, nil, nil
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// between says where a mode lies among the once-per-rev bands.
func between(m Mode, bands []Band) string {
	for _, b := range bands {
		if strings.HasPrefix(b.Name, "once-per-rev") && strings.HasSuffix(b.Name, "working") {
			switch {
			case m.High < b.From:
				return fmt.Sprintf("below once-per-rev (%.0f to %.0f Hz)", b.From, b.To)
			case m.Low > b.To:
				return fmt.Sprintf("above once-per-rev (%.0f to %.0f Hz)", b.From, b.To)
			}
			return fmt.Sprintf("within once-per-rev (%.0f to %.0f Hz)", b.From, b.To)
		}
	}
	return ""
}

func rank(list []Candidate) {
	slices.SortStableFunc(list, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(a.Fails, b.Fails), cmp.Compare(a.Marginals, b.Marginals), cmp.Compare(a.Mass, b.Mass))
	})
}
