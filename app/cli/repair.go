package cli

import (
	"errors"
	"fmt"
	"io"

	"mastwright/app/build"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

type repairCommand struct {
	File  string   `arg:"" help:"Design file."`
	Check []string `placeholder:"ID,..." help:"Checks to repair. Default: all that fail or are marginal."`
	Apply int      `placeholder:"N" help:"Apply the repair of this number and write the design to --out."`
	Out   string   `placeholder:"FILE" help:"Design file to write. An existing one is left alone."`
	JSON  bool     `help:"Print one JSON object instead of the list."`
}

func (c repairCommand) Run(s *session) error {
	if (c.Apply != 0) != (c.Out != "") {
		return errors.New("--apply and --out go together: the number of a repair, and the file that gets the repaired design")
	}
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	advice, err := sizing.Repairs(s, from.doc, sizing.RepairOptions{Checks: c.Check,
		Options: sizing.Options{Progress: func(done, total int) { s.progress.report("repairs", done, total) }}})
	s.progress.clear()
	if err != nil {
		return from.sizingError(err)
	}
	if c.Apply != 0 {
		return s.applyRepair(from, advice, c.Apply, c.Out)
	}
	if c.JSON {
		err = build.EncodeJSON(s.out, newAdviceRecords(advice))
	} else {
		printAdvice(s.out, advice)
	}
	for _, a := range advice {
		if err == nil && a.State == review.Fail && len(a.Repairs) == 0 {
			err = exit(Failing)
		}
	}
	return err
}

// printAdvice prints the repairs of each check, numbered through.
func printAdvice(out io.Writer, advice []sizing.Advice) {
	if len(advice) == 0 {
		fmt.Fprintln(out, "Nothing fails and nothing is marginal: there is nothing to repair.")
	}
	n := 0
	for i, a := range advice {
		if i > 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprintf(out, "%s: %s\n", a.Title, a.State)
		switch {
		case a.Pair && len(a.Repairs) > 0:
			n++
			fmt.Fprint(out, build.Wrap(build.PadLeft(fmt.Sprint(n), 3), 5, a.Words))
			continue
		case a.Words != "":
			fmt.Fprint(out, build.Wrap("", 5, a.Words))
		}
		for _, r := range a.Repairs {
			n++
			fmt.Fprint(out, build.Wrap(build.PadLeft(fmt.Sprint(n), 3), 5, r.Words))
		}
	}
}

// applyRepair writes the design with the repair of a number.
func (s *session) applyRepair(from source, advice []sizing.Advice, number int, name string) error {
	var all []sizing.Repair
	for _, a := range advice {
		all = append(all, a.Repairs...)
	}
	if number < 1 || number > len(all) {
		return fmt.Errorf("--apply %d: there are %d repairs; mastwright repair %s lists them", number, len(all), from.name)
	}
	doc, err := all[number-1].Apply(from.doc)
	if err != nil {
		return err
	}
	if err := from.write(name, doc); err != nil {
		return err
	}
	fmt.Fprint(s.out, build.Wrap("", 2, all[number-1].Words)[2:])
	fmt.Fprintf(s.out, "%s is written.\n", name)
	return nil
}

// sizingError gives the problems of a design that cannot be built their lines.
func (d source) sizingError(err error) error {
	var wrong sizing.Unbuildable
	if errors.As(err, &wrong) {
		return d.located(wrong)
	}
	return err
}

type adviceRecord struct {
	Check   string         `json:"check"`
	State   string         `json:"state"`
	Pair    bool           `json:"pair"`
	Words   string         `json:"words"`
	Repairs []repairRecord `json:"repairs"`
}

type repairRecord struct {
	Number  int            `json:"number,omitempty"` // for --apply
	Changes []changeRecord `json:"changes"`
	State   string         `json:"state"` // of the check, repaired
	Before  *float64       `json:"before"`
	After   *float64       `json:"after"`
	Unit    string         `json:"unit"`
	Mass    float64        `json:"added_g"`
	Better  []string       `json:"better"`
	Words   string         `json:"words"`
}

type changeRecord struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

func newAdviceRecords(advice []sizing.Advice) []adviceRecord {
	list := []adviceRecord{}
	n := 0
	for _, a := range advice {
		r := adviceRecord{Check: a.Check, State: a.State.String(), Pair: a.Pair, Words: a.Words, Repairs: []repairRecord{}}
		for _, repair := range a.Repairs {
			n++
			record := newRepairRecord(repair)
			record.Number = n
			r.Repairs = append(r.Repairs, record)
		}
		list = append(list, r)
	}
	return list
}

func newRepairRecord(r sizing.Repair) repairRecord {
	return repairRecord{Changes: changeRecords(r.Changes), State: r.To.String(), Before: build.Number(r.Before.Value), After: build.Number(r.After.Value),
		Unit: r.After.Unit, Mass: build.Rounded(r.Mass, 6), Better: orNone(r.Better), Words: r.Words}
}

func changeRecords(list []sizing.Change) []changeRecord {
	out := []changeRecord{}
	for _, c := range list {
		out = append(out, changeRecord(c))
	}
	return out
}
