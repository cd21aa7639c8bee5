package view_test

import (
	"context"
	"testing"

	"mastwright/app/desktop/view"
	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/mesh/solid"
)

// example returns an example design.
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
	t.Fatalf("no example %q", name)
	return nil
}

// built returns the model of a design, reviewed and meshed.
func built(t testing.TB, doc *design.Document) *view.Model {
	t.Helper()
	result, problems := review.Run(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return view.Build(doc, result, printed(t, doc), nil)
}

func printed(t testing.TB, doc *design.Document) []view.Part {
	t.Helper()
	assembly, problems := parts.Build(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var list []view.Part
	for _, p := range assembly.Parts {
		m, _, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: 0.1})
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, view.Part{Name: p.Name, Mesh: m, Places: p.Places})
	}
	return list
}
