// Package sheet makes the papers of a design: the build sheet that goes to the bench and to the field, and the measuring card for an
// aircraft that has no design yet. It computes nothing: every figure is the review's, the parts' or the document's.
//
// The papers are data (package paper); pdf, html and markdown render them.
package sheet

import (
	"context"
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/paper"
	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/design/sizing"
	"mastwright/materials"
	"mastwright/mesh"
	"mastwright/mesh/solid"
)

// Job is what a build sheet is made of.
type Job struct {
	Doc      *design.Document
	Result   review.Result // of the document
	Wiring   Wiring
	Window   sizing.Window   // heights at which the checks pass; the zero value where nobody looked
	Advice   []sizing.Advice // repairs of checks that do not pass; nil where nobody looked
	Cautions []string        // said on the first page
	Date     string          // as printed; year-month-day also dates the PDF; "" for none
	Version  string          // of the program; "" for none
}

// Wiring is the cable between receiver and flight controller.
type Wiring struct {
	Length                float64 // mm
	AtLeast               bool    // the length is only the least it can be
	Gauge                 int     // American wire gauge, or thicker
	Area                  float64 // mm²
	Drop                  float64 // mV, lost there and back at Current
	Current               float64 // mA
	SupplyLow, SupplyHigh float64 // V, at the controller's end
	Wires                 []Wire
	Advice                []string
}

// Wire is one conductor, by what it is at its two ends.
type Wire struct{ Receiver, Controller string }

// builder gathers what the sections are made of.
type builder struct {
	Job
	assembly parts.Assembly
	meshes   []*mesh.Mesh // of the parts, each where its solid stands, axes of the place
	items    []item
	compass  r3.Vec // mm, axes of the place
	located  bool   // the compass was answered
}

// tolerance is the one of the meshes in the pictures in mm: a dot of a picture at true size.
const tolerance = 0.1

// Build makes the build sheet. The error is one of the parts: a design that cannot be built has no sheet.
func Build(ctx context.Context, j Job) (paper.Sheet, error) {
	assembly, wrong := parts.Build(j.Doc)
	if len(wrong) > 0 {
		return paper.Sheet{}, fmt.Errorf("parts of the sheet: %w", wrong[0])
	}
	b := &builder{Job: j, assembly: assembly}
	var err error
	if b.meshes, _, err = assembly.Meshes(ctx, solid.Options{Tolerance: tolerance}); err != nil {
		return paper.Sheet{}, fmt.Errorf("picture of %w", err)
	}
	b.compass, b.located = compassAt(j.Doc, assembly.Seat)
	b.items = b.list()
	return paper.Sheet{
		Kind: "Build sheet", Title: title(j.Doc), Revision: j.Doc.Revision, Date: j.Date, Version: j.Version,
		Alarm: alarm(j.Result),
		Foot:  "Propellers off for every bench step that powers the aircraft. " + title(j.Doc),
		Sections: slices.Concat(
			[]paper.Section{b.cover(), b.views(), b.explosion(), b.printing()}, b.cutting(),
			[]paper.Section{b.template(), b.wiring(), b.steps(), b.commissioning(), b.afterCrash(), b.verdicts()}, b.measured(),
			[]paper.Section{b.assumptions()},
		),
	}, nil
}

func title(doc *design.Document) string {
	if doc.Name == "" {
		return "Design without a name"
	}
	return doc.Name
}

// alarm is what every page says of a design with failing checks.
func alarm(r review.Result) string {
	switch n := r.Count(review.Fail); n {
	case 0:
		return ""
	case 1:
		return "1 CHECK FAILS: read page 1"
	default:
		return fmt.Sprintf("%d CHECKS FAIL: read page 1", n)
	}
}

// compassAt is where the compass stands in the axes of the place. The mount's axes are the aircraft's, so the receiver's are parallel.
func compassAt(doc *design.Document, seat r3.Vec) (r3.Vec, bool) {
	c := doc.Receiver.Compass
	at := r3.Add(seat, r3.Vec{X: c.X.Millimetres(), Y: c.Y.Millimetres(), Z: c.Z.Millimetres()})
	if doc.Receiver.Fixing == "tape" {
		at.Z += doc.Receiver.Tape.Thickness.Millimetres()
	}
	return at, doc.Has("receiver.compass.x") && doc.Has("receiver.compass.y") && doc.Has("receiver.compass.z")
}

// materialOf is a material by its name; one that is not known has its name only.
func (b *builder) materialOf(id string) materials.Material {
	m, err := b.Doc.Library().Find(id)
	if err != nil {
		return materials.Material{ID: id, Title: id}
	}
	return m
}

// place is where the mount stands; the zero place without an answer.
func (b *builder) place() design.Place {
	p, _ := b.Doc.PlaceChosen()
	return p
}
