package cli

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"mastwright/app/build"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing/sweep"
)

type sweepCommand struct {
	File    string   `arg:"" help:"Design file."`
	Field   []string `required:"" sep:"none" placeholder:"PATH" help:"Field to change, such as mast.height or leads[0].spacing; give it twice for two fields. One with choices takes each of them."`
	From    []string `sep:"none" placeholder:"VALUE" help:"First value, such as 40 or 4 cm; once for each field with numbers. Default: the least the field takes."`
	To      []string `sep:"none" placeholder:"VALUE" help:"Last value. Default: the most the field takes."`
	Step    []string `sep:"none" placeholder:"VALUE" help:"Step. Default: a twentieth of the range."`
	Steps   []int    `sep:"none" placeholder:"N" help:"Number of steps, instead of their size."`
	Figures []string `placeholder:"CHECK,..." help:"Checks whose figures are wanted. Default: all."`
	CSV     string   `name:"csv" placeholder:"FILE" help:"Write every figure with its limits as comma-separated values, - to the standard output. An existing file is left alone."`
	JSON    bool     `help:"Print one JSON object instead of the table."`
}

func (c sweepCommand) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	axes, err := c.axes(from.doc)
	if err != nil {
		return err
	}
	r, err := sweep.Run(s, from.doc, axes, sweep.Options{Checks: c.Figures, Progress: func(done, total int) { s.progress.report("sweep", done, total) }})
	s.progress.clear()
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(r.Points, func(p sweep.Point) bool { return len(p.Problems) == 0 }) {
		return from.located(r.Points[0].Problems)
	}
	for _, p := range r.Points {
		for _, w := range p.Problems {
			fmt.Fprintf(s.err, "%s: %s\n", strings.Join(named(r, p), ", "), w)
		}
	}
	if c.CSV == "-" {
		return r.EncodeCSV(s.out)
	}
	if c.CSV != "" {
		var b bytes.Buffer
		if err := r.EncodeCSV(&b); err != nil {
			return err
		}
		if err := writeNew(c.CSV, b.Bytes()); err != nil {
			return err
		}
	}
	if c.JSON {
		return build.EncodeJSON(s.out, newSweepRecord(r))
	}
	printSweep(s.out, r)
	if c.CSV != "" {
		fmt.Fprintf(s.out, "%s is written.\n", c.CSV)
	}
	return nil
}

// axes gives the ranges in their order to the fields that take numbers.
func (c sweepCommand) axes(doc *design.Document) ([]sweep.Axis, error) {
	if len(c.Field) > 2 {
		return nil, fmt.Errorf("%d times --field; name one field or two", len(c.Field))
	}
	var axes []sweep.Axis
	numbers := 0
	for _, path := range c.Field {
		var r sweep.Range
		if f, ok := design.FieldOf(path); ok && (f.Form == design.Quantity || f.Form == design.Count) || len(c.Field) == 1 {
			for _, given := range []struct {
				flag string
				list []string
				into *string
			}{{"--from", c.From, &r.From}, {"--to", c.To, &r.To}, {"--step", c.Step, &r.Step}} {
				if numbers < len(given.list) {
					if *given.into = given.list[numbers]; *given.into == "" {
						return nil, fmt.Errorf("%s is empty; write a value such as 60, or leave it out", given.flag)
					}
				}
			}
			if numbers < len(c.Steps) {
				if r.Steps = c.Steps[numbers]; r.Steps == 0 {
					return nil, fmt.Errorf("--steps 0 goes nowhere; write 1 or more")
				}
			}
			numbers++
		}
		a, err := sweep.NewAxis(doc, path, r)
		if err != nil {
			return nil, err
		}
		axes = append(axes, a)
	}
	for _, given := range []struct {
		flag string
		n    int
	}{{"--from", len(c.From)}, {"--to", len(c.To)}, {"--step", len(c.Step)}, {"--steps", len(c.Steps)}} {
		if given.n > numbers {
			return nil, fmt.Errorf("%d times %s for %d fields with numbers; give it once for each", given.n, given.flag, numbers)
		}
	}
	return axes, nil
}

// named is each swept field with its value at a point.
func named(r sweep.Result, p sweep.Point) []string {
	var list []string
	for k, a := range r.Axes {
		list = append(list, a.Path+" "+a.Texts[p.At[k]])
	}
	return list
}

// printSweep prints a table: a row for each point, a column for each check with its deciding figure and the first letter of a
// state that is not pass; and the points between which mass and margin are traded.
func printSweep(w io.Writer, r sweep.Result) {
	const width = 14
	var firsts []int
	total := 0
	for _, a := range r.Axes {
		first := max(len(a.Path), 12)
		for _, text := range a.Texts {
			first = max(first, len(text))
		}
		firsts = append(firsts, first+2)
		total += first + 2
	}
	head := func(text func(k int, a sweep.Axis) string) string {
		var line string
		for k, a := range r.Axes {
			line += build.Pad(text(k, a), firsts[k])
		}
		return line
	}
	for block := range slices.Chunk(r.Checks, max(1, (build.Columns-total)/width)) {
		line := head(func(_ int, a sweep.Axis) string { return a.Path })
		for _, id := range block {
			line += build.PadLeft(id, width)
		}
		fmt.Fprintln(w, line)
		for _, p := range r.Points {
			line := head(func(k int, a sweep.Axis) string { return a.Texts[p.At[k]] })
			for _, id := range block {
				line += build.PadLeft(cell(p, id), width)
			}
			fmt.Fprintln(w, strings.TrimRight(line, " "))
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w, "Each cell is the deciding figure: plain it passes, m it is marginal, F it fails.")
	if len(r.Front) == 0 {
		return
	}
	fmt.Fprint(w, "\nNo other point is both lighter and further from its limits:\n\n")
	for _, i := range r.Front {
		p := r.Points[i]
		binds := p.Binds
		if check, ok := review.Find(binds); ok {
			binds = check.Title
		}
		line := head(func(k int, a sweep.Axis) string { return a.Texts[p.At[k]] }) + build.PadLeft(build.Figure(p.Mass, "g"), 9)
		fmt.Fprintf(w, "%s  %s at %s\n", line, binds, build.Digits(p.Worst, 3))
	}
	fmt.Fprint(w, "\n", build.Wrap("", 2, "The nearest limit and the place on the scale of verdicts: to 1 it passes, to 2 it is marginal, beyond it fails.")[2:])
}

func cell(p sweep.Point, id string) string {
	for _, v := range p.Verdicts {
		switch {
		case v.ID != id:
		case v.State == review.NoData:
			return "no data"
		case v.Figure.Name == "":
			return v.State.String() + mark(v.State)
		default:
			return build.Figure(v.Figure.Value, v.Figure.Unit) + mark(v.State)
		}
	}
	return "-"
}

// mark is the letter of a state in a table.
func mark(s review.State) string { return [...]string{"  ", " m", " F", ""}[s] }

type sweepRecord struct {
	Design string        `json:"design"`
	Axes   []axisRecord  `json:"axes"`
	Points []pointRecord `json:"points"`
	Curves []curveRecord `json:"curves"`
	Front  []int         `json:"front"` // indices of points
}

type axisRecord struct {
	Path    string    `json:"path"`
	Title   string    `json:"title"`
	Unit    string    `json:"unit"`
	Values  []string  `json:"values"`
	Numbers []float64 `json:"numbers"`
}

type pointRecord struct {
	At       []int               `json:"at"` // indices into the axes' values
	Problems []string            `json:"problems"`
	Mass     *float64            `json:"mass_g"`
	Worst    *float64            `json:"worst_place"`
	Binds    string              `json:"binds"`
	Checks   []pointCheckRecord  `json:"checks"`
	Bands    []frequenciesRecord `json:"rotor_bands"`
}

type pointCheckRecord struct {
	Check string  `json:"check"`
	State string  `json:"state"`
	Place float64 `json:"place"`
}

type frequenciesRecord struct {
	Name string  `json:"name"`
	From float64 `json:"from_hz"`
	To   float64 `json:"to_hz"`
}

type curveRecord struct {
	Check  string        `json:"check"`
	Name   string        `json:"name"`
	Unit   string        `json:"unit"`
	Values []valueRecord `json:"values"` // one a point
}

type valueRecord struct {
	Value    *float64 `json:"value"`
	Low      *float64 `json:"low"`
	High     *float64 `json:"high"`
	Pass     *float64 `json:"pass_limit,omitempty"`
	Marginal *float64 `json:"marginal_limit,omitempty"`
}

func newSweepRecord(r sweep.Result) sweepRecord {
	out := sweepRecord{Design: r.Design, Front: append([]int{}, r.Front...)}
	for _, a := range r.Axes {
		out.Axes = append(out.Axes, axisRecord{a.Path, a.Title, a.Unit, a.Texts, a.Numbers})
	}
	for _, p := range r.Points {
		record := pointRecord{At: p.At, Problems: []string{}, Binds: p.Binds, Checks: []pointCheckRecord{}, Bands: []frequenciesRecord{}}
		for _, w := range p.Problems {
			record.Problems = append(record.Problems, w.String())
		}
		if len(p.Problems) == 0 {
			record.Mass = build.Number(p.Mass)
		}
		if p.Binds != "" {
			record.Worst = build.Number(p.Worst)
		}
		for _, v := range p.Verdicts {
			record.Checks = append(record.Checks, pointCheckRecord{v.ID, v.State.String(), build.Rounded(sweep.Place(v), 6)})
		}
		for _, b := range p.Bands {
			record.Bands = append(record.Bands, frequenciesRecord{b.Name, build.Rounded(b.From, 6), build.Rounded(b.To, 6)})
		}
		out.Points = append(out.Points, record)
	}
	for _, c := range r.Curves {
		record := curveRecord{Check: c.Check, Name: c.Name, Unit: c.Unit}
		for _, v := range c.Values {
			var value valueRecord
			if v.Known {
				value = valueRecord{Value: build.Number(v.Value), Low: build.Number(v.Low), High: build.Number(v.High)}
			}
			if v.Limit != nil {
				value.Pass, value.Marginal = build.Number(v.Limit.Pass), build.Number(v.Limit.Marginal)
			}
			record.Values = append(record.Values, value)
		}
		out.Curves = append(out.Curves, record)
	}
	return out
}
