package cli

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"mastwright/design/parts"
	"mastwright/design/review"
)

type makeCommand struct {
	File         string `arg:"" help:"Design file."`
	Out          string `required:"" placeholder:"DIR" help:"Folder to write into; it is made when it is not there."`
	Force        bool   `help:"Replace files in the folder that Mastwright did not write, or that were changed since."`
	Fit          bool   `help:"Write the fit pieces too: thin first prints that settle dimensions."`
	AllowMissing bool   `help:"Exit 0, not 3, when a check has no data."`
}

// results is what results.json holds: the object of check --json, and what was written.
type results struct {
	record
	Parts     []partRecord `json:"parts"`
	FitPieces []partRecord `json:"fit_pieces"`
	Wiring    wiring       `json:"wiring"`
	Files     []written    `json:"files"` // all but results.json itself
}

func (c makeCommand) Run(s *session) error {
	return s.make(c.File, folder{path: c.Out, force: c.Force}, c.Fit, c.AllowMissing)
}

// make checks a design and writes its parts, results.json and summary.txt into a folder. The parts are written also when a check
// fails: the builder is told, not stopped.
func (s *session) make(file string, into folder, fit, allowMissing bool) error {
	design, err := readDesign(file)
	if err != nil {
		return err
	}
	result, err := design.review()
	if err != nil {
		return err
	}
	doc := design.doc
	assembly, wrong := parts.Build(doc)
	if err := design.located(wrong); err != nil {
		return err
	}
	var fitting []parts.Part
	if fit {
		fitting, wrong = parts.FitPieces(doc)
		if err := design.located(wrong); err != nil {
			return err
		}
	}
	names := []string{summaryName, ledgerName}
	for _, part := range slices.Concat(assembly.Parts, fitting) {
		names = append(names, fileName(part))
	}
	if err := into.Refuse(names); err != nil {
		return err
	}
	pieces, err := s.pieces(doc, assembly.Parts)
	if err != nil {
		return err
	}
	fits, err := s.pieces(doc, fitting)
	if err != nil {
		return err
	}

	r := results{record: newRecord(result), Parts: partRecords(pieces), FitPieces: partRecords(fits), Wiring: wires(doc)}
	var files []output
	for _, p := range slices.Concat(pieces, fits) {
		files = append(files, p.output)
	}
	files = append(files, output{summaryName, summary(result, doc, pieces, fits)})
	for _, o := range files {
		r.Files = append(r.Files, o.written())
	}
	var ledger bytes.Buffer
	if err := encodeJSON(&ledger, r); err != nil {
		return err
	}
	removed, err := into.Replace(append(files, output{ledgerName, ledger.Bytes()}))
	if err != nil {
		return err
	}

	printTable(s.out, result)
	printAccounts(s.out, result, doc.Notes())
	printPieces(s.out, "Written into "+filepath.ToSlash(into.path)+", with "+summaryName+" and "+ledgerName, slices.Concat(pieces, fits))
	for _, name := range removed {
		fmt.Fprintf(s.out, "  %s is taken away: this design does not make it any more\n", name)
	}
	fmt.Fprintln(s.out)
	printCautions(s.out)
	if failing := failures(result); len(failing) > 0 {
		fmt.Fprintln(s.out)
		fmt.Fprint(s.out, wrap("!!", 3, fmt.Sprintf("FAILS: %s. The parts are written all the same. Read why above before you print them.",
			strings.Join(failing, ", "))))
	}
	printCount(s.out, result)
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

func partRecords(pieces []piece) []partRecord {
	out := []partRecord{}
	for _, p := range pieces {
		out = append(out, p.record)
	}
	return out
}
