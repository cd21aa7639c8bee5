package build

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
)

// results is what results.json holds: the object of check --json, and what was written.
type results struct {
	Record
	Parts     []partRecord `json:"parts"`
	FitPieces []partRecord `json:"fit_pieces"`
	Wiring    wiring       `json:"wiring"`
	Files     []written    `json:"files"` // all but results.json itself
}

// Options says what Make writes. The zero value is all parts and no fit pieces.
type Options struct {
	Only     []string                           // names of the parts that are wanted; nil for all of them
	Fit      bool                               // the fit pieces too: thin first prints that settle dimensions
	Sheet    Sheet                              // the build sheet; the zero value is none
	Progress func(part string, done, total int) // called now and then, from any goroutine but one at a time; nil for nobody
}

// Made is what Make wrote.
type Made struct {
	Parts, Fits []Piece
	Files       []string // names in the folder, results.json the last
	Removed     []string // names of files that an earlier Make wrote and this design does not make any more
}

// Problems are why a design's parts cannot be made.
type Problems []design.Problem

// Error lists them.
func (p Problems) Error() string {
	var all []error
	for _, problem := range p {
		all = append(all, problem)
	}
	return errors.Join(all...).Error()
}

// Make writes a design's parts, its build sheet, results.json and summary.txt into a folder. The parts are written also when a check fails: the
// builder is told, not stopped. Of parts that are not wanted those already there stay when they are the same as this design's.
// The error is Problems, or names the part or the file; then the folder is as it was.
func Make(ctx context.Context, into Folder, doc *design.Document, result review.Result, o Options) (Made, error) {
	assembly, wrong := parts.Build(doc)
	if len(wrong) > 0 {
		return Made{}, Problems(wrong)
	}
	for _, name := range o.Only {
		if !slices.ContainsFunc(assembly.Parts, func(p parts.Part) bool { return p.Name == name }) {
			return Made{}, fmt.Errorf("there is no part %q; choose among %s", name, strings.Join(partNames(assembly.Parts), ", "))
		}
	}
	var fitting []parts.Part
	if o.Fit {
		if fitting, wrong = parts.FitPieces(doc); len(wrong) > 0 {
			return Made{}, Problems(wrong)
		}
	}
	names := []string{SummaryName, LedgerName}
	for _, part := range assembly.Parts {
		if o.wants(part) {
			names = append(names, fileName(part))
		}
	}
	for _, part := range fitting {
		names = append(names, fileName(part))
	}
	names = append(names, o.Sheet.Names()...)
	if err := into.refuse(names); err != nil {
		return Made{}, err
	}
	all, err := pieces(ctx, doc, assembly.Parts, o.Progress)
	if err != nil {
		return Made{}, err
	}
	fits, err := pieces(ctx, doc, fitting, o.Progress)
	if err != nil {
		return Made{}, err
	}
	wanted := slices.DeleteFunc(slices.Clone(all), func(p Piece) bool { return !o.wants(p.Part) && !into.unchanged(p.output.written()) })

	r := results{Record: NewRecord(result), Parts: partRecords(wanted), FitPieces: partRecords(fits), Wiring: wires(doc)}
	var files []output
	for _, p := range slices.Concat(wanted, fits) {
		files = append(files, p.output)
	}
	files = append(files, output{SummaryName, summary(result, doc, all, fits)})
	papers, err := o.Sheet.outputs(ctx, doc, result)
	if err != nil {
		return Made{}, err
	}
	files = append(files, papers...)
	for _, f := range files {
		r.Files = append(r.Files, f.written())
	}
	var ledger bytes.Buffer
	if err := EncodeJSON(&ledger, r); err != nil {
		return Made{}, err
	}
	files = append(files, output{LedgerName, ledger.Bytes()})
	if err := ctx.Err(); err != nil {
		return Made{}, err
	}
	removed, err := into.replace(files)
	if err != nil {
		return Made{}, err
	}
	made := Made{Parts: wanted, Fits: fits, Removed: removed}
	for _, f := range files {
		made.Files = append(made.Files, f.Name)
	}
	return made, nil
}

func (o Options) wants(p parts.Part) bool { return o.Only == nil || slices.Contains(o.Only, p.Name) }

func partNames(list []parts.Part) []string {
	var names []string
	for _, p := range list {
		names = append(names, p.Name)
	}
	return names
}

func partRecords(pieces []Piece) []partRecord {
	out := []partRecord{}
	for _, p := range pieces {
		out = append(out, p.record)
	}
	return out
}
