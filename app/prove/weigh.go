package prove

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/record"
	"mastwright/design/parts"
	"mastwright/design/units"
	"mastwright/materials"
)

// Weight is one part on the scale, or several of a kind together.
type Weight struct {
	Part  string  // as the design names it: "mast"
	Mass  float64 // kg, all pieces together
	Count int     // pieces weighed together; 0 means 1
}

// WeighInput is what the scale showed.
type WeighInput struct {
	About
	Weights  []Weight
	Division float64 // kg, of the scale; 0 means 1 g
	Invented bool    // the weights are from a record that was made up
	Notes    []string
}

// Weighable lists the printed parts with what the design says that they weigh, for a form and for the table to fill in.
func Weighable(doc *design.Document) ([]bench.Part, error) {
	_, list, err := weighable(doc)
	return list, err
}

// weighable returns printed parts with their designed masses by the library's density.
func weighable(doc *design.Document) ([]parts.Part, []bench.Part, error) {
	assembly, wrong := parts.Build(doc)
	if len(wrong) > 0 {
		return nil, nil, unbuilt(wrong)
	}
	library := doc.Library()
	var printed []parts.Part
	var out []bench.Part
	for _, p := range assembly.Parts {
		if p.Making != parts.Printed {
			continue
		}
		m, err := library.Find(p.Material)
		if err != nil {
			return nil, nil, refuse(err.Error())
		}
		printed = append(printed, p)
		out = append(out, bench.Part{Name: p.Name, Designed: p.Mass(m.Density.Typical).Kilograms(), Solid: m.Density.Typical.KilogramsPerCubicMetre() * p.Body.Volume * 1e-9})
	}
	return printed, out, nil
}

// ReadWeights reads a table with the columns part and mass (g, or kg), and count where several were weighed together.
func (in *WeighInput) ReadWeights(r io.Reader, o record.Options) error {
	o.Least = max(o.Least, 1)
	rec, err := record.Read(r, []record.Want{{Role: "part", Words: true}, {Role: record.Mass}, {Role: "count", Optional: true}}, o)
	if err != nil {
		return refused(err)
	}
	names, _ := rec.Column("part")
	masses, _ := rec.Column(record.Mass)
	kilogram := 1e-3
	if strings.EqualFold(strings.TrimSpace(masses.Unit), "kg") {
		kilogram = 1
	}
	counts := rec.Values("count")
	for i, name := range names.Words {
		w := Weight{Part: strings.TrimSpace(name), Mass: masses.Values[i] * kilogram}
		if counts != nil {
			w.Count = int(counts[i])
		}
		in.Weights = append(in.Weights, w)
	}
	in.Invented, in.Notes = rec.Invented, texts(rec.Notes)
	return nil
}

// Weigh holds the masses of the printed parts against the design's and finds the effective density of each material.
func Weigh(doc *design.Document, in WeighInput) (Result, error) {
	base, err := without(doc, func(m design.Measured) bool { return m.What == design.MeasuredDensity })
	if err != nil {
		return Result{}, err
	}
	printed, designed, err := weighable(base)
	if err != nil {
		return Result{}, err
	}
	var names []string
	for _, p := range printed {
		names = append(names, p.Name)
	}
	var wrong Refusal
	var used []string
	lots := map[string][]bench.Part{}
	for _, w := range in.Weights {
		i := slices.Index(names, w.Part)
		switch {
		case i < 0:
			wrong.Sentences = append(wrong.Sentences, fmt.Sprintf("%q is no printed part of this design; its parts are %s.", w.Part, strings.Join(names, ", ")))
			continue
		case !(w.Mass > 0):
			wrong.Sentences = append(wrong.Sentences, fmt.Sprintf("The mass of %s is %g g; write what the scale shows, above 0.", w.Part, w.Mass*1e3))
			continue
		case w.Count < 0:
			wrong.Sentences = append(wrong.Sentences, fmt.Sprintf("%d pieces of %s cannot be weighed; write 1 or more.", w.Count, w.Part))
			continue
		}
		part, material := designed[i], printed[i].Material
		part.Mass, part.Count = w.Mass, w.Count
		if !slices.Contains(used, material) {
			used = append(used, material)
		}
		lots[material] = append(lots[material], part)
	}
	if len(in.Weights) == 0 {
		wrong.Sentences = append(wrong.Sentences, "Nothing was weighed: give the mass of at least one of "+strings.Join(names, ", ")+".")
	}
	if len(wrong.Sentences) > 0 {
		return Result{}, wrong
	}
	out := Result{Test: "weigh", Invented: in.Invented, Notes: in.Notes}
	var said []string
	for _, id := range used {
		weighing, err := bench.Weigh(lots[id], bench.WeighOptions{Division: in.Division, Spread: densitySpread(base, id), Others: others(base, id)})
		if err != nil {
			return Result{}, refused(err)
		}
		out.Weighed = append(out.Weighed, weighing)
		name := "mass"
		if len(used) > 1 {
			name = "mass of the parts of " + id
		}
		c := compared(name, "of the design's", weighing.Agreement, 1)
		c.Measured, c.Predicted = weighing.Density, weighing.Agreement.Predicted.Times(1/weighing.Agreement.Predicted.Value)
		out.Compared = append(out.Compared, c)
		out.Words = append(out.Words, weighing.Words...)
		said = append(said, fmt.Sprintf("what was printed of %s weighs %.3g %% of the design's", id, 100*weighing.Density.Value))
		out.Findings = append(out.Findings, design.Finding{Value: in.of(design.Measured{What: design.MeasuredDensity, Of: id,
			Factor: units.Fraction(significant(weighing.Density.Value, 4)), Spread: spreadOf(weighing.Density)}, "weighing")})
	}
	out.Headline = capital(strings.Join(said, "; ")) + "."
	return out.finish(doc)
}

// densitySpread is how far a material's density may be from its typical one, a share of it.
func densitySpread(doc *design.Document, id string) float64 {
	m, err := doc.Library().Find(id)
	if err != nil || m.Density.Typical == 0 {
		return 0
	}
	return float64(m.Density.High-m.Density.Low) / float64(2*m.Density.Typical)
}

// others are the other print materials by their densities, for a print that is of another plastic than it should be.
func others(doc *design.Document, id string) []bench.Plastic {
	library := doc.Library()
	own, err := library.Find(id)
	if err != nil || own.Density.Typical == 0 {
		return nil
	}
	var out []bench.Plastic
	for _, m := range library.Of(materials.Print) {
		if m.ID != id {
			out = append(out, bench.Plastic{Name: m.ID, Density: float64(m.Density.Typical / own.Density.Typical)})
		}
	}
	return out
}
