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
	Parts     []partRecord   `json:"parts"`
	FitPieces []partRecord   `json:"fit_pieces"`
	Beds      []bedRecord    `json:"beds"`
	Cut       []cutRecord    `json:"cut"`
	Hardware  []boughtRecord `json:"hardware"`
	Wiring    wiring         `json:"wiring"`
	Files     []written      `json:"files"` // all but results.json itself
}

// Options says what Make writes. The zero value is all parts and no fit pieces.
type Options struct {
	Only     []string                           // names of the parts that are wanted; nil for all of them
	Fit      bool                               // the fit pieces too: thin first prints that settle dimensions
	Flatten  bool                               // arcs of the drawings in DXF become lines, for a cutter that knows no arcs
	Sheet    Sheet                              // the build sheet; the zero value is none
	Progress func(part string, done, total int) // called now and then, from any goroutine but one at a time; nil for nobody
}

// Made is what Make wrote.
type Made struct {
	Parts, Fits []Piece  // printed
	Files       []string // names in the folder, results.json the last
	Removed     []string // names of files that an earlier Make wrote and this design does not make any more

	beds []bedRecord
	cut  []cutRecord
	buy  []boughtRecord
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

// Make writes what a design is made from into a folder: each printed part as STL and all of them laid out on print beds as 3MF, a
// drawing of each sheet that parts are cut from as DXF and SVG, the cut list, its build sheet, results.json and summary.txt. All is
// written also when a check fails: the builder is told, not stopped. Of parts that are not wanted those already there stay when
// they are the same as this design's; beds hold the parts that the folder then holds. The error is Problems, or names the part or
// the file; then the folder is as it was.
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
	// what is in the way is said before the parts are meshed
	names, err := o.names(doc, assembly.Parts, fitting)
	if err != nil {
		return Made{}, err
	}
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
	made := Made{Fits: fits, buy: bought(assembly)}
	made.Parts = slices.DeleteFunc(slices.Clone(all), func(p Piece) bool { return !o.wants(p.Part) && !into.unchanged(p.output.written()) })
	var files []output
	for _, p := range slices.Concat(made.Parts, fits) {
		files = append(files, p.output)
	}
	laid, err := made.layOut(doc, o)
	if err != nil {
		return Made{}, err
	}
	files = append(files, laid...)
	drawn, err := made.draw(into, doc, assembly.Parts, o)
	if err != nil {
		return Made{}, err
	}
	files = append(files, drawn...)
	files = append(files, output{SummaryName, summary(result, doc, made)})
	papers, err := o.Sheet.outputs(ctx, doc, result)
	if err != nil {
		return Made{}, err
	}
	files = append(files, papers...)
	r := results{Record: NewRecord(result), Parts: partRecords(made.Parts), FitPieces: partRecords(fits), Beds: made.beds, Cut: made.cut, Hardware: made.buy, Wiring: wires(doc)}
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
	if made.Removed, err = into.replace(files); err != nil {
		return Made{}, err
	}
	for _, f := range files {
		made.Files = append(made.Files, f.Name)
	}
	return made, nil
}

// names are the files that are going to be written, as far as they are known before the parts are meshed.
func (o Options) names(doc *design.Document, list, fitting []parts.Part) ([]string, error) {
	names := []string{SummaryName, LedgerName}
	wanted := slices.DeleteFunc(slices.Clone(list), func(p parts.Part) bool { return !o.wants(p) })
	for _, p := range slices.Concat(wanted, fitting) {
		if p.Making == parts.Printed {
			names = append(names, fileName(p))
		}
	}
	for _, group := range []struct {
		stem  string
		parts []parts.Part
	}{{partsStem, wanted}, {fitsStem, fitting}} {
		beds, err := plan(group.stem, doc, group.parts)
		if err != nil {
			return nil, err
		}
		for _, b := range beds {
			names = append(names, b.name)
		}
	}
	for _, b := range blanks(wanted) {
		names = append(names, b.names()...)
	}
	if slices.ContainsFunc(list, func(p parts.Part) bool { return p.Making != parts.Printed }) {
		names = append(names, CutListName)
	}
	return append(names, o.Sheet.Names()...), nil
}

// layOut lays the pieces out on beds and returns those files.
func (m *Made) layOut(doc *design.Document, o Options) ([]output, error) {
	m.beds = []bedRecord{}
	var out []output
	for _, group := range []struct {
		stem   string
		pieces []Piece
	}{{partsStem, m.Parts}, {fitsStem, m.Fits}} {
		var list []parts.Part
		for _, p := range group.pieces {
			list = append(list, p.Part)
		}
		beds, err := plan(group.stem, doc, list)
		if err != nil {
			return nil, err
		}
		files, records, err := bedOutputs(beds, doc, group.pieces, o)
		if err != nil {
			return nil, err
		}
		out, m.beds = append(out, files...), append(m.beds, records...)
	}
	return out, nil
}

// draw draws the sheets from which a wanted part is cut, or which lie in the folder as they would be drawn, and the cut list.
func (m *Made) draw(into Folder, doc *design.Document, list []parts.Part, o Options) (out []output, err error) {
	if m.cut, err = cutRecords(doc, list); err != nil || len(m.cut) == 0 {
		return nil, err
	}
	for _, b := range blanks(list) {
		files, err := b.outputs(doc, o)
		if err != nil {
			return nil, err
		}
		wanted := slices.ContainsFunc(b.parts, o.wants)
		for _, f := range files {
			if wanted || into.unchanged(f.written()) {
				out = append(out, f)
			}
		}
	}
	for i := range m.cut {
		m.cut[i].Files = slices.DeleteFunc(m.cut[i].Files, func(name string) bool {
			return !slices.ContainsFunc(out, func(o output) bool { return o.Name == name })
		})
	}
	table, err := cutList(m.cut)
	return append(out, output{CutListName, table}), err
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
