package sheet

import (
	"fmt"
	"slices"
	"strings"

	"mastwright/app/sheet/paper"
	"mastwright/design"
)

// measured is what tests gave and the checks use; nothing when there is nothing.
func (b *builder) measured() []paper.Section {
	if len(b.Doc.Measured) == 0 {
		return nil
	}
	t := paper.Table{Columns: []paper.Column{
		{Title: "No.", Share: 5}, {Title: "Measured", Share: 42}, {Title: "Value", Share: 26, Right: true}, {Title: "Spread", Share: 12, Right: true},
		{Title: "Date", Share: 16}, {Title: "Method", Share: 28}, {Title: "Spool, printer", Share: 30},
	}}
	for i, m := range b.Doc.Measured {
		spread := "not known"
		if m.Spread > 0 {
			spread = "± " + number(m.Spread.Percent()) + " %"
		}
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(fmt.Sprint(i+1), b.whatMeasured(m), b.valueMeasured(m), spread, kept(m.Date), kept(m.Method), kept(printedBy(m)))})
	}
	return []paper.Section{{Title: "Measured", Blocks: []paper.Block{
		paper.Prose{Text: "What tests on this design gave. Each goes before the library's or the model's figure in every check of this sheet; mastwright prove withdraw takes one out again."}, t,
	}}}
}

func (b *builder) whatMeasured(m design.Measured) string {
	switch m.What {
	case design.MeasuredModulus:
		return fmt.Sprintf("Modulus of %s, layers %s the mast", b.materialOf(m.Of).Title, m.Layers)
	case design.MeasuredDensity:
		return "Density of " + b.materialOf(m.Of).Title
	case design.MeasuredStiffness:
		return "Stiffness of the whole mount on this aircraft"
	case design.MeasuredLead:
		if m.Of == "" {
			return "Field of every lead"
		}
		return "Field of the lead " + m.Of
	case design.MeasuredAnswer:
		if f, ok := design.FieldOf(m.Of); ok {
			return f.Title + " (" + m.Of + ")"
		}
	}
	return capital(m.What) + " " + m.Of
}

func (b *builder) valueMeasured(m design.Measured) string {
	switch m.What {
	case design.MeasuredModulus:
		return quantity(m.Modulus.Megapascals(), "MPa")
	case design.MeasuredAnswer:
		return b.Doc.Get(m.Of)
	}
	text := number(float64(m.Factor)) + " × predicted"
	if m.Frequency > 0 {
		text += ", heard " + quantity(m.Frequency.Hertz(), "Hz")
	}
	return text
}

// printedBy is the spool, the printer and the wall lines of what was tested.
func printedBy(m design.Measured) string {
	said := slices.DeleteFunc([]string{m.Spool, m.Printer}, func(s string) bool { return s == "" })
	if m.Walls > 0 {
		said = append(said, counted(m.Walls, "wall line", "wall lines"))
	}
	return strings.Join(said, ", ")
}

func kept(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

// measuredOf reports whether something was measured: of a material, a lead, or the whole mount.
func (b *builder) measuredOf(of string, what ...string) bool {
	return slices.ContainsFunc(b.Doc.Measured, func(m design.Measured) bool { return m.Of == of && slices.Contains(what, m.What) })
}

// onMeasured says which measured values a prediction of the mount's stiffness rests on: "", or " (with the measured stiffness)".
func (b *builder) onMeasured() string {
	var said []string
	if b.measuredOf("", design.MeasuredStiffness) {
		said = append(said, "stiffness")
	}
	for _, p := range b.assembly.Parts {
		if b.measuredOf(p.Material, design.MeasuredModulus) && !slices.Contains(said, "modulus") {
			said = append(said, "modulus")
		}
	}
	if len(said) == 0 {
		return ""
	}
	return " (with the measured " + strings.Join(said, " and ") + ")"
}

// onMeasuredLeads says that a prediction of the heading rests on a measured field.
func (b *builder) onMeasuredLeads() string {
	for _, m := range b.Doc.Measured {
		if m.What == design.MeasuredLead {
			return " (with the measured field of the leads)"
		}
	}
	return ""
}
