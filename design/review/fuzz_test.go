package review_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
)

// FuzzJudge changes an example field by field, each within the table's range and near what it was, and reviews what still holds together: no panic, no figure
// that is not a number, no problem that does not name its field.
func FuzzJudge(f *testing.F) {
	f.Add([]byte{0, 10, 128, 40, 3, 250, 90, 60})
	f.Add([]byte{4, 200, 0, 0, 100, 255, 255, 7, 9})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) == 0 {
			return
		}
		examples := assets.Examples()
		doc, problems := design.Decode(examples[int(data[0])%len(examples)].Data, design.Options{})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		paths := doc.Paths()
		for data = data[1:]; len(data) >= 3; data = data[3:] {
			path := paths[(int(data[0])<<8|int(data[1]))%len(paths)]
			change(doc, path, float64(data[2])/255)
		}
		if len(doc.Problems()) > 0 {
			return
		}
		r, problems := review.Judge(doc)
		for _, p := range problems {
			if p.Path == "" || p.Text == "" {
				t.Errorf("a problem without place or words: %+v", p)
			}
		}
		walk(reflect.ValueOf(r), "result", func(path string, x float64) {
			if math.IsNaN(x) || math.IsInf(x, 0) && !strings.HasSuffix(path, "Marginal") {
				t.Errorf("%s is %g", path, x)
			}
		})
		for _, v := range r.Verdicts {
			if v.State == review.NoData && v.Because == "" {
				t.Errorf("%s has no data and does not say why", v.ID)
			}
		}
	})
}

// change sets a field to a share of its range, or to one of its choices, where that may be.
func change(doc *design.Document, path string, share float64) {
	field, ok := design.FieldOf(path)
	if !ok {
		return
	}
	switch field.Form {
	case design.Quantity:
		value := field.Low + share*(field.High-field.Low)
		if now, err := field.Kind.Parse(doc.Get(path)); err == nil && now != 0 {
			value = now * (0.5 + share) // near what is there, so that the design holds together more often
		}
		_ = doc.Set(path, field.Kind.Format(value))
	case design.Count:
		_ = doc.Set(path, field.Kind.Format(math.Round(field.Low+share*(field.High-field.Low))))
	case design.Choice:
		_ = doc.Set(path, field.Choices[int(share*float64(len(field.Choices)-1))])
	}
}
