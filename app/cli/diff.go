package cli

import (
	"errors"
	"fmt"
	"io"

	"mastwright/app/build"
	"mastwright/design/review"
	"mastwright/design/revision"
)

type diffCommand struct {
	A    string `arg:"" help:"Design file."`
	B    string `arg:"" help:"Design file it is compared with."`
	JSON bool   `help:"Print one JSON object instead of the list."`
}

func (c diffCommand) Run(s *session) error {
	a, err := readDesign(c.A)
	if err != nil {
		return err
	}
	b, err := readDesign(c.B)
	if err != nil {
		return err
	}
	found, err := revision.Compare(s, a.doc, b.doc)
	var wrong revision.Unbuildable
	switch {
	case errors.As(err, &wrong) && wrong.Second:
		return b.located(wrong.Problems)
	case errors.As(err, &wrong):
		return a.located(wrong.Problems)
	case err != nil:
		return err
	}
	if c.JSON {
		return build.EncodeJSON(s.out, newDiffRecord(found))
	}
	printDiff(s.out, found)
	return nil
}

// printDiff prints the fields that differ, the verdicts that moved, those of another state first, and the mass.
func printDiff(out io.Writer, c revision.Comparison) {
	if len(c.Changes) == 0 {
		fmt.Fprintln(out, "The two designs say the same.")
	}
	for _, change := range c.Changes {
		fmt.Fprint(out, build.Wrap("", 2, fmt.Sprintf("%s (%s): %s -> %s", change.Title, change.Path, orDash(change.From), orDash(change.To)))[2:])
	}
	if len(c.Moved) > 0 {
		fmt.Fprintln(out)
	}
	for _, otherState := range []bool{true, false} {
		for _, m := range c.Moved {
			if (m.From != m.To) == otherState && (otherState || seen(m)) {
				fmt.Fprint(out, build.Wrap("", 2, move(m))[2:])
			}
		}
	}
	sign := ""
	if c.Added > 0 {
		sign = "+"
	}
	fmt.Fprintf(out, "\nMass: %s -> %s (%s%s)\n", build.Figure(c.Mass, "g"), build.Figure(c.Mass+c.Added, "g"), sign, build.Figure(c.Added, "g"))
}

// seen reports whether the digits shown of a figure differ.
func seen(m revision.Move) bool {
	return m.Before.Name != m.After.Name || build.Figure(m.Before.Value, m.Before.Unit) != build.Figure(m.After.Value, m.After.Unit)
}

// move tells what became of a verdict.
func move(m revision.Move) string {
	state := m.To.String()
	if m.From != m.To {
		state = m.From.String() + " -> " + state
	}
	text := m.Title + ": " + state
	switch {
	case m.From == review.NoData || m.To == review.NoData || m.Before.Name == "" || m.After.Name == "":
		return text
	case m.Before.Name == m.After.Name:
		return fmt.Sprintf("%s, %s %s -> %s", text, m.After.Name, build.Figure(m.Before.Value, m.Before.Unit), build.Figure(m.After.Value, m.After.Unit))
	}
	return fmt.Sprintf("%s, %s %s -> %s %s", text, m.Before.Name, build.Figure(m.Before.Value, m.Before.Unit), m.After.Name, build.Figure(m.After.Value, m.After.Unit))
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

type diffRecord struct {
	Fields []fieldChangeRecord `json:"fields"`
	Moved  []moveRecord        `json:"verdicts"`
	Before float64             `json:"mass_before_g"`
	After  float64             `json:"mass_after_g"`
}

type fieldChangeRecord struct {
	Path  string `json:"path"`
	Title string `json:"title"`
	From  string `json:"from"`
	To    string `json:"to"`
}

type moveRecord struct {
	Check  string            `json:"check"`
	From   string            `json:"from"`
	To     string            `json:"to"`
	Before movedFigureRecord `json:"before"`
	After  movedFigureRecord `json:"after"`
}

type movedFigureRecord struct {
	Name  string   `json:"name"`
	Value *float64 `json:"value"`
	Unit  string   `json:"unit"`
}

func newDiffRecord(c revision.Comparison) diffRecord {
	r := diffRecord{Fields: []fieldChangeRecord{}, Moved: []moveRecord{}, Before: build.Rounded(c.Mass, 6), After: build.Rounded(c.Mass+c.Added, 6)}
	for _, change := range c.Changes {
		r.Fields = append(r.Fields, fieldChangeRecord(change))
	}
	figure := func(f review.Figure) movedFigureRecord {
		if f.Name == "" {
			return movedFigureRecord{}
		}
		return movedFigureRecord{f.Name, build.Number(f.Value), f.Unit}
	}
	for _, m := range c.Moved {
		r.Moved = append(r.Moved, moveRecord{m.Check, m.From.String(), m.To.String(), figure(m.Before), figure(m.After)})
	}
	return r
}
