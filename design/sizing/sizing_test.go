package sizing_test

import (
	"testing"

	"mastwright/assets"
	"mastwright/design"
)

func example(t testing.TB, name string) *design.Document {
	t.Helper()
	for _, e := range assets.Examples() {
		if e.Name != name {
			continue
		}
		doc, wrong := design.Decode(e.Data, design.Options{Name: name})
		if len(wrong) > 0 {
			t.Fatal(wrong)
		}
		return doc
	}
	t.Fatalf("no example %q", name)
	return nil
}

// changed is a design with answers changed.
func changed(t testing.TB, doc *design.Document, changes ...string) *design.Document {
	t.Helper()
	doc = doc.Clone()
	for i := 0; i < len(changes); i += 2 {
		if err := doc.Set(changes[i], changes[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	return doc
}
