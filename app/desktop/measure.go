package desktop

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/units"
)

// missingColumn is the right column of Measure: what is still to be answered, and what is known and from where.
type missingColumn struct {
	widget.BaseWidget

	column  *look.Column
	missing *verdicts.Missing
	known   *facts
}

func newMissingColumn(lead func(path string)) *missingColumn {
	m := &missingColumn{missing: verdicts.NewMissing(), known: newFacts("Known, and from where")}
	m.missing.OnPick = lead
	m.column = look.NewColumn(m.missing, look.Space(16), m.known)
	m.missing.OnReflow = m.column.Reflow
	m.missing.OnReveal = m.column.Reveal
	m.ExtendBaseWidget(m)
	return m
}

func (m *missingColumn) show(n *session.Snapshot) {
	m.missing.Set(n.Missing)
	m.known.set(knowledge(n))
	m.column.Reflow()
}

// CreateRenderer is the toolkit's.
func (m *missingColumn) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(m.column)
}

// knowledge lists what the checks stand on most, with the origin of each.
func knowledge(n *session.Snapshot) []fact {
	doc := n.Document
	var list []fact
	for _, path := range []string{"airframe.mass", "airframe.motor_diagonal", "motors.propeller", "motors.hover_speed", "airframe.vibration", "receiver.mass",
		"cable.length", "site.year"} {
		field, _ := design.FieldOf(path)
		f := factOf(doc, path, field.Title)
		if path == "motors.hover_speed" && !doc.Has(path) && n.Current() && n.Review.Result.Speeds.Hover > 0 {
			f.value = fmt.Sprintf("%.0f rpm", n.Review.Result.Speeds.Hover)
		}
		if path == "airframe.vibration" && !doc.Has(path) {
			continue // what stands in for it is said by its field
		}
		list = append(list, f)
	}
	for i, lead := range doc.Leads {
		word := "as routed"
		if _, is := doc.LeadField(lead.Name); is || lead.Given == "measured" {
			word = "measured"
		}
		list = append(list, fact{lead.Name, fmt.Sprintf("%.4g A in cruise", lead.Currents.Cruise.Amperes()), word})
		if doc.Get(fmt.Sprintf("leads[%d].currents.cruise", i)) == "" {
			list[len(list)-1].value, list[len(list)-1].origin = "current", "not answered"
		}
	}
	if n.Current() {
		for _, band := range n.Review.Result.Bands {
			list = append(list, fact{capital(band.Name), fmt.Sprintf("%.0f to %.0f Hz", band.From, band.To), "computed"})
		}
	}
	if m, err := doc.Library().Find(doc.Bearing()); err == nil {
		e := m.ModulusInLayer
		origin := "published"
		if slices.ContainsFunc(doc.Measured, func(v design.Measured) bool { return v.What == design.MeasuredModulus && v.Of == m.ID }) {
			origin = "measured"
		}
		list = append(list, fact{"Stiffness of " + unbracketed(m.Title), stiffness(e.Low, e.High), origin})
	}
	return list
}

// stiffness words the bounds of a modulus, from 10 GPa in GPa.
func stiffness(low, high units.Stress) string {
	if low.Megapascals() >= 10e3 {
		return fmt.Sprintf("%.4g to %.4g GPa", low.Megapascals()/1e3, high.Megapascals()/1e3)
	}
	return fmt.Sprintf("%.0f to %.0f MPa", low.Megapascals(), high.Megapascals())
}

// factOf is an answer of the document, or what stands in for it.
func factOf(doc *design.Document, path, title string) fact {
	value := doc.Get(path)
	field, _ := design.FieldOf(path)
	_, measured := doc.AnswerMeasured(path)
	switch origin := doc.Origin(path); {
	case measured:
		return fact{title, value, "measured"}
	case origin == design.Given:
		return fact{title, value, "entered"}
	case origin == design.Shelved:
		return fact{title, value, "from its file"}
	case origin == design.Defaulted:
		return fact{title, value, "assumed"}
	case field.Otherwise != "":
		return fact{title, field.Otherwise, "computed"}
	}
	return fact{title, "", "not answered"}
}
