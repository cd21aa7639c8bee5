package build

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"

	"mastwright/app/sheet"
	"mastwright/app/sheet/html"
	"mastwright/app/sheet/markdown"
	"mastwright/app/sheet/paper"
	"mastwright/app/sheet/pdf"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// Sheet says how the build sheet is written. The zero value writes none.
type Sheet struct {
	PDF, HTML, Markdown bool
	Letter              bool    // the PDF on Letter; otherwise A4
	Date                string  // as printed; year-month-day also dates the PDF; "" for none
	Version             string  // of the program; "" for none
	Sizing              *Sizing // the height window and the repairs; nil leaves them out
}

// Sizing is at which heights a design passes, and the smallest changes that repair what does not pass.
type Sizing struct {
	Window sizing.Window
	Advice []sizing.Advice
}

// Size looks for the heights and the repairs of a design for its build sheet. It asks the review thousands of times: seconds where
// everything passes, up to a minute where a check wants a pair of changes.
func Size(ctx context.Context, doc *design.Document, o sizing.Options) (Sizing, error) {
	var out Sizing
	var err error
	if o.Workshop == nil {
		o.Workshop = &review.Workshop{} // shared by the two
	}
	if out.Window, err = sizing.Heights(ctx, doc, sizing.HeightOptions{Options: o}); err != nil {
		return Sizing{}, fmt.Errorf("height window: %w", err)
	}
	if out.Advice, err = sizing.Repairs(ctx, doc, sizing.RepairOptions{Options: o, Single: true}); err != nil {
		return Sizing{}, fmt.Errorf("repairs: %w", err)
	}
	return out, nil
}

// The names of the build sheet's files.
const (
	SheetPDF      = "sheet.pdf"
	SheetHTML     = "sheet.html"
	SheetMarkdown = "sheet.md"
)

// Names are the files that are written.
func (s Sheet) Names() []string {
	var out []string
	for _, f := range []struct {
		name   string
		wanted bool
	}{{SheetPDF, s.PDF}, {SheetHTML, s.HTML}, {SheetMarkdown, s.Markdown}} {
		if f.wanted {
			out = append(out, f.name)
		}
	}
	return out
}

// Encode writes the build sheet of a design as a PDF.
func (s Sheet) Encode(ctx context.Context, w io.Writer, doc *design.Document, r review.Result) error {
	s.PDF, s.HTML, s.Markdown = true, false, false
	files, err := s.outputs(ctx, doc, r)
	if err != nil {
		return err
	}
	_, err = w.Write(files[0].Data)
	return err
}

// outputs renders the build sheet of a design.
func (s Sheet) outputs(ctx context.Context, doc *design.Document, r review.Result) ([]output, error) {
	names := s.Names()
	if len(names) == 0 {
		return nil, nil
	}
	job := sheet.Job{Doc: doc, Result: r, Wiring: sheetWiring(wires(doc)), Cautions: slices.Clone(cautions), Date: s.Date, Version: s.Version}
	if s.Sizing != nil {
		job.Window, job.Advice = s.Sizing.Window, s.Sizing.Advice
	}
	made, err := sheet.Build(ctx, job)
	if err != nil {
		return nil, fmt.Errorf("build sheet: %w", err)
	}
	var out []output
	for _, name := range names {
		var data bytes.Buffer
		if err := s.encode(&data, name, made); err != nil {
			return nil, fmt.Errorf("build sheet: %w", err)
		}
		out = append(out, output{name, data.Bytes()})
	}
	return out, nil
}

func (s Sheet) encode(w io.Writer, name string, made paper.Sheet) error {
	switch name {
	case SheetHTML:
		return html.Encode(w, made)
	case SheetMarkdown:
		return markdown.Encode(w, made)
	}
	o := pdf.Options{}
	if s.Letter {
		o.Size = pdf.Letter
	}
	return pdf.Encode(w, made, o)
}

// sheetWiring is the wiring table as the sheet prints it.
func sheetWiring(w wiring) sheet.Wiring {
	out := sheet.Wiring{
		Length: w.Length, AtLeast: w.LengthFrom == "height", Gauge: w.Gauge, Area: w.Area, Drop: w.Drop, Current: supplyCurrent * 1e3,
		SupplyLow: w.SupplyLow, SupplyHigh: w.SupplyHigh, Advice: w.Advice,
	}
	for _, one := range w.Wires {
		out.Wires = append(out.Wires, sheet.Wire{Receiver: one.Receiver, Controller: one.Controller})
	}
	return out
}
