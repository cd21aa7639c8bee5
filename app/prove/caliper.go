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
)

// CaliperInput is what the caliper showed. A dimension without a designed value takes that of Dimensions under its name.
type CaliperInput struct {
	About
	Dimensions []bench.Dimension
	Division   float64 // m, of the caliper; 0 means 0.05 mm
	Invented   bool    // the dimensions are from a record that was made up
	Notes      []string
}

// Dimensions lists what can be measured on the printed parts: their outside as they lie on the bed, and the screw holes,
// without what the print settings add to them.
func Dimensions(doc *design.Document) ([]bench.Dimension, error) {
	assembly, wrong := parts.Build(doc)
	if len(wrong) > 0 {
		return nil, unbuilt(wrong)
	}
	var out []bench.Dimension
	for _, p := range assembly.Parts {
		if p.Making != parts.Printed {
			continue
		}
		for i, size := range []float64{p.Box.X, p.Box.Y, p.Box.Z} {
			axis := string("xyz"[i])
			out = append(out, bench.Dimension{Name: p.Name + " " + axis, Designed: size / 1e3, Along: axis})
		}
	}
	add := doc.Print.HoleAdd.Millimetres()
	for _, s := range assembly.Screws {
		d := bench.Dimension{Name: s.For + " hole", Designed: (s.Hole - add) / 1e3, Hole: true}
		if s.Hole > 0 && !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	return out, nil
}

// ReadDimensions reads a table with the columns dimension and measured (mm), and designed and kind ("hole") where a dimension
// is not one of Dimensions.
func (in *CaliperInput) ReadDimensions(r io.Reader, o record.Options) error {
	o.Least = max(o.Least, 1)
	rec, err := record.Read(r, []record.Want{{Role: "dimension", Words: true}, {Role: "measured"}, {Role: "designed", Optional: true}, {Role: "kind", Words: true, Optional: true}}, o)
	if err != nil {
		return refused(err)
	}
	names, _ := rec.Column("dimension")
	measured, designed := rec.Values("measured"), rec.Values("designed")
	kinds, typed := rec.Column("kind")
	for i, name := range names.Words {
		d := bench.Dimension{Name: strings.TrimSpace(name), Measured: measured[i] / 1e3}
		if designed != nil {
			d.Designed = designed[i] / 1e3
		}
		d.Hole = typed && strings.EqualFold(strings.TrimSpace(kinds.Words[i]), "hole")
		in.Dimensions = append(in.Dimensions, d)
	}
	in.Invented, in.Notes = rec.Invented, texts(rec.Notes)
	return nil
}

// Caliper finds the scale of a print and what its holes need from dimensions of its parts.
func Caliper(doc *design.Document, in CaliperInput) (Result, error) {
	known, err := Dimensions(doc)
	if err != nil {
		return Result{}, err
	}
	var wrong Refusal
	var list []bench.Dimension
	var names []string
	for _, k := range known {
		names = append(names, k.Name)
	}
	for _, d := range in.Dimensions {
		if i := slices.Index(names, d.Name); i >= 0 && d.Designed == 0 {
			measured := d.Measured
			d = known[i]
			d.Measured = measured
		} else if d.Designed == 0 {
			wrong.Sentences = append(wrong.Sentences, fmt.Sprintf("%q is no dimension of this design; write its designed value, or use %s.", d.Name, strings.Join(names, ", ")))
		}
		list = append(list, d)
	}
	if len(wrong.Sentences) > 0 {
		return Result{}, wrong
	}
	calipered, err := bench.Caliper(list, bench.CaliperOptions{Division: in.Division, HoleAdd: doc.Print.HoleAdd.Metres()})
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "caliper", Invented: in.Invented, Measured: &calipered, Words: calipered.Words, Notes: in.Notes}
	var said []string
	if calipered.Scale.Value > 0 {
		said = append(said, fmt.Sprintf("outside dimensions come out at %.4g of the design's", calipered.Scale.Value))
	}
	if calipered.Holes > 0 {
		said = append(said, fmt.Sprintf("holes want %.2f mm added from now on, %.2f mm is set", calipered.HoleAdd.Value*1e3, doc.Print.HoleAdd.Millimetres()))
		field, _ := design.FieldOf("print.hole_add")
		to := units.Millimetres(significant(calipered.HoleAdd.Value*1e3, 2))
		text := to.Kind().Format(float64(to))
		if err := field.Check(text); err != nil {
			out.Notes = append(out.Notes, "what the holes want cannot be set: "+err.Error())
		} else {
			m := design.Measured{What: design.MeasuredAnswer, Of: "print.hole_add", Spread: spreadOf(calipered.HoleAdd)}
			out.Findings = append(out.Findings, design.Finding{Value: in.of(m, "caliper"), Answer: text})
		}
	}
	out.Headline = capital(strings.Join(said, "; ")) + "."
	return out.finish(doc)
}

func capital(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
