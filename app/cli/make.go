package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"mastwright/app/build"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// force is how a folder's files are replaced whatever they are.
const force = "with --force"

type makeCommand struct {
	File         string `arg:"" help:"Design file."`
	Out          string `required:"" placeholder:"DIR" help:"Folder to write into; it is made when it is not there."`
	Force        bool   `help:"Replace files in the folder that Mastwright did not write, or that were changed since."`
	Fit          bool   `help:"Write the fit pieces too: thin first prints that settle dimensions."`
	Flatten      bool   `help:"Write arcs of drawings to cut (DXF) as short lines, for a cutter that knows no arcs."`
	Repairs      bool   `help:"Find the heights that pass and what would repair each verdict for the sheet too; takes seconds, with many checks a minute."`
	AllowMissing bool   `help:"Exit 0, not 3, when a check has no data."`
	sheetFlags
}

func (c makeCommand) Run(s *session) error {
	paper, err := c.sheet()
	if err != nil {
		return err
	}
	return s.make(c.File, build.Folder{Path: c.Out, Force: c.Force, How: force}, build.Options{Fit: c.Fit, Flatten: c.Flatten, Sheet: paper}, c.Repairs, c.AllowMissing)
}

// make checks a design and writes its files into a folder (see build.Make), also when a check fails: the builder is told, not
// stopped.
func (s *session) make(file string, into build.Folder, o build.Options, repairs, allowMissing bool) error {
	design, err := readDesign(file)
	if err != nil {
		return err
	}
	result, err := design.review()
	if err != nil {
		return err
	}
	o.Progress = s.progress.report
	if repairs && len(o.Sheet.Names()) > 0 {
		found, err := build.Size(s, design.doc, sizing.Options{Progress: func(done, total int) { s.progress.report("heights and repairs", done, total) }})
		if err != nil {
			return err
		}
		o.Sheet.Sizing = &found
	}
	made, err := build.Make(s, into, design.doc, result, o)
	s.progress.clear()
	var wrong build.Problems
	if errors.As(err, &wrong) {
		return design.located(wrong)
	}
	if err != nil {
		return err
	}

	build.PrintTable(s.out, result)
	build.PrintAccounts(s.out, result, design.doc.Notes())
	beside := append(o.Sheet.Names(), build.SummaryName)
	made.Print(s.out, "Written into "+filepath.ToSlash(into.Path)+", with "+strings.Join(beside, ", ")+" and "+build.LedgerName)
	for _, name := range made.Removed {
		fmt.Fprintf(s.out, "  %s is taken away: this design does not make it any more\n", name)
	}
	fmt.Fprintln(s.out)
	build.PrintCautions(s.out)
	if failing := failures(result); len(failing) > 0 {
		fmt.Fprintln(s.out)
		fmt.Fprint(s.out, build.Wrap("!!", 3, fmt.Sprintf("FAILS: %s. The parts are written all the same. Read why above before you print them.",
			strings.Join(failing, ", "))))
	}
	build.PrintCount(s.out, result)
	return verdictExit(result, allowMissing)
}

// failures are the titles of the checks that fail, the accepted ones included.
func failures(r review.Result) []string {
	var titles []string
	for _, v := range r.Verdicts {
		if v.State != review.Fail {
			continue
		}
		title := v.Title
		if v.Accepted != "" {
			title += " (accepted)"
		}
		titles = append(titles, title)
	}
	return titles
}
