package cli

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"mastwright/app/build"
	"mastwright/design"
	"mastwright/design/review"
)

// mostSteps is the largest number of designs a sweep looks at.
const mostSteps = 2000

type sweepCommand struct {
	File    string   `arg:"" help:"Design file."`
	Field   string   `required:"" placeholder:"PATH" help:"Field to change, such as mast.height or leads[0].spacing."`
	From    string   `placeholder:"VALUE" help:"First value, such as 40 or 4 cm. Default: the least the field takes."`
	To      string   `placeholder:"VALUE" help:"Last value. Default: the most the field takes."`
	Step    string   `placeholder:"VALUE" help:"Step. Default: a twentieth of the range."`
	Figures []string `placeholder:"CHECK,..." help:"Checks whose figures are wanted. Default: all."`
	CSV     bool     `name:"csv" help:"Print every figure as comma-separated values instead of a table of the deciding ones."`
}

// point is one design of a sweep.
type point struct {
	value  float64 // of the field, in its file unit
	result review.Result
	wrong  []design.Problem // why there is no result
}

func (c sweepCommand) Run(s *session) error {
	for _, id := range c.Figures {
		if !slices.Contains(design.Checks(), id) {
			return fmt.Errorf("--figures %q is no check; the checks are %s", id, strings.Join(design.Checks(), ", "))
		}
	}
	ids := c.Figures
	if len(ids) == 0 {
		ids = design.Checks()
	}
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	field, ok := design.FieldOf(c.Field)
	if !ok || field.Form != design.Quantity && field.Form != design.Count {
		return fmt.Errorf("--field %q is no field with a number; write one such as mast.height", c.Field)
	}
	values, err := c.values(field)
	if err != nil {
		return err
	}
	points, err := s.sweep(from.doc, field, c.Field, values)
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(points, func(p point) bool { return len(p.wrong) == 0 }) {
		return from.located(points[0].wrong)
	}
	for _, p := range points {
		for _, w := range p.wrong {
			fmt.Fprintf(s.err, "%s %s: %s\n", c.Field, field.Kind.Format(p.value), w)
		}
	}
	if c.CSV {
		return printCSV(s.out, field, c.Field, ids, points)
	}
	printSweep(s.out, field, c.Field, ids, points)
	return nil
}

// values are those the field takes, in its file unit.
func (c sweepCommand) values(field design.Field) ([]float64, error) {
	from, to := field.Low, field.High
	step := (to - from) / 20
	for _, given := range []struct {
		flag, text string
		value      *float64
	}{{"--from", c.From, &from}, {"--to", c.To, &to}, {"--step", c.Step, &step}} {
		if given.text == "" {
			continue
		}
		value, err := amount(field, given.text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", given.flag, err)
		}
		*given.value = value
	}
	if c.Step == "" {
		step = (to - from) / 20
	}
	if field.Form == design.Count && c.Step == "" {
		step = 1
	}
	switch {
	case from > to:
		return nil, fmt.Errorf("--from %s is above --to %s; turn them round", field.Kind.Format(from), field.Kind.Format(to))
	case from == to:
		return []float64{from}, nil
	case step <= 0:
		return nil, fmt.Errorf("--step %s does not go up; write one above 0", field.Kind.Format(step))
	case (to-from)/step > mostSteps:
		return nil, fmt.Errorf("--step %s makes more than %d steps; write a larger one", field.Kind.Format(step), mostSteps)
	}
	var values []float64
	for i := 0; ; i++ {
		value := build.Rounded(from+float64(i)*step, 12)
		if value > to+step*1e-9 {
			return values, nil
		}
		values = append(values, value)
	}
}

// amount reads a number of the field's kind; a bare one is in the unit the field is written in.
func amount(field design.Field, text string) (float64, error) {
	last := text[len(text)-1]
	if field.Unit != "" && (last >= '0' && last <= '9' || last == '.') {
		text += " " + field.Unit
	}
	return field.Kind.Parse(text)
}

// sweep reviews the design with each value of a field.
func (s *session) sweep(doc *design.Document, field design.Field, path string, values []float64) ([]point, error) {
	defer s.progress.clear()
	points := make([]point, len(values))
	for i, value := range values {
		if err := s.Err(); err != nil {
			return nil, err
		}
		p := point{value: value}
		changed := doc.Clone()
		var problem design.Problem
		switch err := changed.Set(path, field.Kind.Format(value)); {
		case errors.As(err, &problem):
			p.wrong = []design.Problem{problem}
		case err != nil:
			return nil, err
		default:
			p.result, p.wrong = review.Judge(changed)
		}
		points[i] = p
		s.progress.report("sweep", i+1, len(values))
	}
	return points, nil
}

// printSweep prints a table: a row for each value, a column for each check with its deciding figure and the first letter of a
// state that is not pass.
func printSweep(w io.Writer, field design.Field, path string, ids []string, points []point) {
	const width = 14
	first := max(len(path), 12) + 2
	perBlock := max(1, (build.Columns-first)/width)
	for block := range slices.Chunk(ids, perBlock) {
		fmt.Fprint(w, build.Pad(path, first))
		for _, id := range block {
			fmt.Fprint(w, build.PadLeft(id, width))
		}
		fmt.Fprintln(w)
		for _, p := range points {
			line := build.Pad(field.Kind.Format(p.value), first)
			for _, id := range block {
				line += build.PadLeft(cell(p, id), width)
			}
			fmt.Fprintln(w, strings.TrimRight(line, " "))
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w, "Each cell is the deciding figure: plain it passes, m it is marginal, F it fails.")
}

func cell(p point, id string) string {
	v, ok := p.result.Verdict(id)
	if !ok {
		return "-"
	}
	mark := [...]string{"  ", " m", " F", ""}[v.State]
	if v.State == review.NoData {
		return "no data"
	}
	if v.Figure.Name == "" {
		return v.State.String() + mark
	}
	return build.Figure(v.Figure.Value, v.Figure.Unit) + mark
}

// printCSV prints a line for each value: the value, and for each check its state and every figure that any of the designs has.
func printCSV(w io.Writer, field design.Field, path string, ids []string, points []point) error {
	names := map[string][]string{}
	units := map[string]string{}
	for _, p := range points {
		for _, id := range ids {
			v, _ := p.result.Verdict(id)
			for _, f := range v.Figures {
				if !slices.Contains(names[id], f.Name) {
					names[id] = append(names[id], f.Name)
					units[id+f.Name] = f.Unit
				}
			}
		}
	}
	header := []string{bracketed(path, field.Kind.Unit())}
	for _, id := range ids {
		header = append(header, id+" state")
		for _, name := range names[id] {
			header = append(header, bracketed(id+": "+name, units[id+name]))
		}
	}
	out := csv.NewWriter(w)
	out.Write(header)
	for _, p := range points {
		line := []string{build.Digits(p.value, 12)}
		for _, id := range ids {
			v, ok := p.result.Verdict(id)
			state := ""
			if ok {
				state = v.State.String()
			}
			line = append(line, state)
			for _, name := range names[id] {
				text := ""
				if i := slices.IndexFunc(v.Figures, func(f review.Figure) bool { return f.Name == name }); i >= 0 && build.Number(v.Figures[i].Value) != nil {
					text = build.Digits(v.Figures[i].Value, 6)
				}
				line = append(line, text)
			}
		}
		out.Write(line)
	}
	out.Flush()
	return out.Error()
}

// bracketed puts a unit after a name.
func bracketed(name, unit string) string {
	if unit == "" {
		return name
	}
	return name + " [" + unit + "]"
}
