package prove_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
	"mastwright/design/units"
	"mastwright/materials"
)

func TestPredicted(t *testing.T) {
	doc := quarry(t)
	result, wrong := review.Judge(doc)
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	for _, c := range []struct {
		test    string
		support vibration.Support
		count   int
		first   float64 // 0 is not looked at
	}{
		{"weigh", 0, 3, 0},
		{"caliper", 0, 12, 0},
		{"tap", vibration.OnFoam, len(result.Flying), result.Flying[0].Hz},
		{"tap", vibration.HeldDown, len(result.Held), result.Held[0].Hz},
		{"hang", vibration.HeldDown, 1, 1 / result.Tip.Compliance},
		{"throttle", 0, 1, 0},
		{"pointing", 0, 0, 0},
		{"hover", 0, 1, 0},
		{"turn", 0, 1, 0},
		{"radio", 0, 0, 0},
	} {
		t.Run(fmt.Sprint(c.test, " ", c.support), func(t *testing.T) {
			got, err := prove.Predicted(doc, c.test, c.support)
			if err != nil || len(got) != c.count {
				t.Fatalf("got %v, %v; want %d figures", got, err, c.count)
			}
			if c.first > 0 {
				near(t, got[0].Name, got[0].Value.Value, c.first, 1e-12)
			}
		})
	}

	// a solid block gives way less than the aircraft's plate
	block, err := prove.Predicted(doc, "tap", vibration.OnBlock)
	if err != nil || block[0].Value.Value <= result.Held[0].Hz {
		t.Errorf("on a block: got %v, %v; want above %g Hz", block, err, result.Held[0].Hz)
	}
	if _, err := prove.Predicted(doc, "sing", 0); err == nil {
		t.Error("no such test")
	}
	if _, err := prove.Predicted(design.New(), "hover", 0); err == nil {
		t.Error("an empty design predicts nothing")
	}
}

// A kept material is the library's but for what was measured. The modulus is kept dry, as the library's are.
func TestKept(t *testing.T) {
	doc := quarry(t)
	of := doc.Materials.Mast
	found := []design.Finding{
		{Value: design.Measured{What: design.MeasuredModulus, Of: of, Layers: "along", Modulus: units.Megapascals(1500), Spread: units.Percent(4), Spool: "Spool 3", Method: "tap test"}},
		{Value: design.Measured{What: design.MeasuredStiffness, Factor: units.Fraction(.9)}},
	}
	m, err := prove.Kept(doc, found, "")
	if err != nil {
		t.Fatal(err)
	}
	old, err := doc.Library().Find(of)
	if err != nil {
		t.Fatal(err)
	}
	if m.ID != of+"-spool-3" || m.Density != old.Density || m.ModulusAcross != old.ModulusAcross {
		t.Errorf("got %+v", m)
	}
	near(t, "modulus", m.ModulusInLayer.Typical.Megapascals()*old.Conditioning.Typical.Fraction(), 1500, 1e-9)
	near(t, "its high end", float64(m.ModulusInLayer.High/m.ModulusInLayer.Typical), 1.04, 1e-9)

	// it goes through a materials file
	var file bytes.Buffer
	if err := materials.Encode(&file, materials.List{m}); err != nil {
		t.Fatal(err)
	}
	back, err := materials.Decode(&file)
	if err != nil || len(back) != 1 {
		t.Fatalf("got %v, %v", back, err)
	}
	near(t, "modulus read back", back[0].ModulusInLayer.Typical.Megapascals(), m.ModulusInLayer.Typical.Megapascals(), 1e-9)
	if got, want := back[0].ModulusInLayer.Source, "measured, tap test, Spool 3"; got != want {
		t.Errorf("source: got %q, want %q", got, want)
	}

	for _, id := range []string{of, "Spool 3", "-"} {
		if _, err := prove.Kept(doc, found, id); err == nil {
			t.Errorf("the ID %q was taken", id)
		}
	}
	if _, err := prove.Kept(doc, found[1:], ""); err == nil {
		t.Error("a stiffness is no material's")
	}
}

func ExamplePredicted() {
	doc := open("river-survey.yaml")
	figures, err := prove.Predicted(doc, "turn", vibration.OnBlock)
	if err != nil {
		fmt.Println(err)
	}
	for _, f := range figures {
		fmt.Println(f.Name, f.Words())
	}
	// Output:
	// field of the earth 49.49 uT
}

func open(name string) *design.Document {
	folder := filepath.Join("..", "..", "assets", "examples")
	data, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		panic(err)
	}
	doc, wrong := design.Decode(data, design.Options{Open: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }})
	if len(wrong) > 0 {
		panic(wrong)
	}
	return doc
}
