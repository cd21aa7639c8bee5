package sheet_test

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"testing"

	"mastwright/app/sheet"
	"mastwright/app/sheet/paper"
	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

// example is a design of the assets.
func example(t testing.TB, name string) *design.Document {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name == name {
			doc, problems := design.Decode(e.Data, design.Options{Name: name})
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			return doc
		}
	}
	t.Fatalf("there is no example %q", name)
	return nil
}

// job is what a build sheet of a design is made of.
func job(t testing.TB, doc *design.Document) sheet.Job {
	t.Helper()
	r, problems := review.Run(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return sheet.Job{
		Doc: doc, Result: r, Date: "2026-07-14", Version: "v1.2.3",
		Cautions: []string{"Take the propellers off for every bench step that powers the aircraft."},
		Wiring: sheet.Wiring{Length: 210, Gauge: 28, Area: 0.081, Drop: 13.4, Current: 150, SupplyLow: 3.31, SupplyHigh: 5.5, Advice: []string{"twist them"},
			Wires: []sheet.Wire{{"power", "power"}, {"serial transmit", "serial receive"}, {"serial receive", "serial transmit"}}},
	}
}

// sheetOf is the build sheet of a design.
func sheetOf(t testing.TB, doc *design.Document) (paper.Sheet, review.Result) {
	t.Helper()
	j := job(t, doc)
	s, err := sheet.Build(context.Background(), j)
	if err != nil {
		t.Fatal(err)
	}
	return s, j.Result
}

// made is a sheet that several tests read; none of them changes it.
type made struct {
	once   sync.Once
	sheet  paper.Sheet
	result review.Result
}

// of builds the sheet when it is first asked for.
func (m *made) of(t testing.TB, doc func() *design.Document) (paper.Sheet, review.Result) {
	t.Helper()
	m.once.Do(func() { m.sheet, m.result = sheetOf(t, doc()) })
	if m.sheet.Title == "" {
		t.Fatal("the sheet could not be built; see the first test that asked for it")
	}
	return m.sheet, m.result
}

var passes, failures, marginals, extremes, bares made

func passing(t testing.TB) (paper.Sheet, review.Result) {
	return passes.of(t, func() *design.Document { return example(t, "river-survey") })
}

func failing(t testing.TB) (paper.Sheet, review.Result) {
	return failures.of(t, func() *design.Document { return example(t, "orchard-mapper") })
}

func marginal(t testing.TB) (paper.Sheet, review.Result) {
	return marginals.of(t, func() *design.Document { return example(t, "coastline-watch") })
}

func overlong(t testing.TB) (paper.Sheet, review.Result) {
	return extremes.of(t, func() *design.Document { return extreme(t) })
}

func unanswered(t testing.TB) (paper.Sheet, review.Result) {
	return bares.of(t, func() *design.Document { return bare(t) })
}

// change sets leaves of a document.
func change(t testing.TB, doc *design.Document, leaves ...string) {
	t.Helper()
	for i := 0; i < len(leaves); i += 2 {
		if err := doc.Set(leaves[i], leaves[i+1]); err != nil {
			t.Fatal(err)
		}
	}
}

// extreme is a design with very long names, twenty leads and twelve holes.
func extreme(t testing.TB) *design.Document {
	t.Helper()
	doc := example(t, "orchard-mapper")
	long := strings.Repeat("Wasserläuferbeobachtungsflugzeug", 6) + " " + strings.Repeat("mit sehr vielen Wörtern ", 12) + "漢字 Ω µ °"
	doc.Name, doc.Revision, doc.Airframe.Name, doc.Receiver.Name = long, strings.Repeat("R", 60), long, long // longer than a file may have
	change(t, doc, "airframe.places[0].holes.as", "ring", "airframe.places[0].holes.ring", "60 mm", "airframe.places[0].holes.count", "12",
		"airframe.places[0].turn", "17 deg", "foot.size.x", "84 mm", "foot.size.y", "84 mm", "airframe.places[0].slope_forward", "6 deg", "foot.wedge", "level")
	for i := 1; i < 12; i++ { // a file has twelve at most
		if err := doc.Insert("leads", i); err != nil {
			t.Fatal(err)
		}
		at := fmt.Sprintf("leads[%d].", i)
		change(t, doc, at+"name", fmt.Sprintf("lead %d %s", i, strings.Repeat("to an arm ", 3)), at+"given", "words", at+"from", "pack", at+"to", "speed controller", at+"side", "left",
			at+"offset", fmt.Sprintf("%d mm", 10+i), at+"height", "30 mm", at+"run", "side by side", at+"spacing", "8 mm", at+"conductor", "3 mm",
			at+"currents.idle", "0.2 A", at+"currents.hover", "3 A", at+"currents.cruise", "3 A", at+"currents.full", "30 A")
	}
	for i := 12; i < 20; i++ {
		lead := doc.Leads[i-11]
		lead.Name = fmt.Sprintf("lead %d", i)
		doc.Leads = append(doc.Leads, lead)
	}
	return doc
}

// bare is a design of which only the shape is answered.
func bare(t testing.TB) *design.Document {
	t.Helper()
	doc := example(t, "river-survey")
	for _, path := range doc.Paths() {
		for _, group := range []string{"airframe.mass", "airframe.motor", "airframe.centre", "airframe.top", "airframe.arm", "airframe.name", "motors.", "cable.", "receiver.compass", "receiver.mass",
			"receiver.name", "receiver.arrow", "site."} {
			if strings.HasPrefix(path, group) {
				doc.Clear(path)
			}
		}
	}
	for doc.Len("leads") > 0 {
		if err := doc.Remove("leads", 0); err != nil {
			t.Fatal(err)
		}
	}
	return doc
}
