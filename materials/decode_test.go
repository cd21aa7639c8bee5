package materials_test

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	"mastwright/design/units"
	"mastwright/materials"
)

const sound = `- id: shed-petg
  title: PETG from the shed
  form: print
  density: {typical: 1250 kg/m3, source: weighed}
  modulus-in-layer: {low: 1.8 GPa, high: "2,0 GPa", source: hang test}
  poisson: {typical: 0.38, source: guess}
  strength-in-layer: {low: 33, typical: 48, source: label}
  elongation-in-layer: {typical: 8 %, source: label}
  elongation-across: {typical: 3 %, source: guess}
  loss-factor: {typical: 0.02, source: tap test}
`

func TestDecode(t *testing.T) {
	list, err := materials.Decode(strings.NewReader(sound))
	if err != nil {
		t.Fatal(err)
	}
	m := list[0]
	if got, want := m.ModulusInLayer, (materials.Range[units.Stress]{Low: 1800, Typical: 1900, High: 2000, Source: "hang test"}); got != want {
		t.Errorf("modulus: got %v, want %v", got, want)
	}
	if got, want := m.StrengthInLayer, (materials.Range[units.Stress]{Low: 33, Typical: 48, High: 48, Source: "label"}); got != want {
		t.Errorf("strength: got %v, want %v", got, want)
	}
	if got, want := m.StrengthAcross.Typical, units.Megapascals(24); got != want {
		t.Errorf("strength across: got %v, want %v", got, want)
	}
	if !strings.HasPrefix(m.StrengthAcross.Source, "rule: 0.5") {
		t.Errorf("source of the strength across: got %q, want the rule", m.StrengthAcross.Source)
	}
	if m.Softening.Known() {
		t.Errorf("softening: got %v, want none", m.Softening)
	}
}

func TestDecodeRefuses(t *testing.T) {
	change := func(old, new string) string {
		if !strings.Contains(sound, old) {
			t.Fatalf("%q is not in the sound file", old)
		}
		return strings.Replace(sound, old, new, 1)
	}
	cases := []struct{ name, file, want string }{
		{"nothing", "", "the file holds no materials"},
		{"null", "~\n", "line 1: the file is not a list"},
		{"empty list", "[]\n", "line 1: the file is not a list"},
		{"mapping", "id: petg\n", "line 1: the file is not a list"},
		{"text entry", "- petg\n", "line 1: material 1: this is not a list of key: value"},
		{"not YAML", "- id: [\n", "this is not YAML"},
		{"second document", sound + "---\n- id: more\n", "a second document begins here"},
		{"not a number", change("1250 kg/m3", ".nan"), `line 4: shed-petg.density.typical: density ".nan" is not a number`},
		{"infinity", change("1250 kg/m3", "-.inf"), `density "-.inf" is not a number`},
		{"octal", change("1250 kg/m3", "010"), `begins with a spare zero; write 10`},
		{"underscore", change("1250 kg/m3", "1_0"), `has an underscore`},
		{"hexadecimal", change("1250 kg/m3", "0x2"), `looks hexadecimal`},
		{"null value", change("1250 kg/m3", "~"), "line 4: shed-petg.density.typical: the value is missing"},
		{"slip of the unit", change("1250 kg/m3", "1250"), "1250 g/cm3 is outside 0.05 g/cm3 to 25 g/cm3; check the unit"},
		{"unknown unit", change("1250 kg/m3", "1250 psi"), "write it in g/cm3 or kg/m3"},
		{"bare figure", change("{typical: 1250 kg/m3, source: weighed}", "1.25"), "line 4: shed-petg.density: write {typical: …, source: …}"},
		{"no source", change(", source: weighed", ""), "source is missing; say where the figure is from"},
		{"empty source", change("source: weighed", `source: " "`), "the text is empty"},
		{"low alone", change("typical: 1250 kg/m3", "low: 1.2"), "typical is missing; write it, or both low and high"},
		{"order", change("low: 33, typical: 48", "low: 50, typical: 48"), "low 50 MPa, typical 48 MPa, high 48 MPa are not in rising order"},
		{"unknown key of a figure", change("typical: 1250", "mean: 1, typical: 1250"), `unknown key "mean"; the keys are low, typical, high, source`},
		{"unknown key", change("  poisson", "  colour: red\n  poisson"), `line 6: shed-petg: unknown key "colour"; the keys are id, title,`},
		{"key twice", change("  poisson", "  title: again\n  poisson"), "line 6: shed-petg: title is given twice, first in line 2; keep one"},
		{"figure key twice", change("typical: 1250", "typical: 1, typical: 1250"), "shed-petg.density: typical is given twice"},
		{"id twice", sound + sound, "line 11: shed-petg: the same id as the material in line 1"},
		{"alias", change("source: weighed", "source: &w weighed") + "  notes: *w\n", "anchors, aliases and tags are not read here"},
		{"merge", change("  poisson", "  <<: {form: sheet}\n  poisson"), "anchors, aliases and tags are not read here"},
		{"tag", change("1250 kg/m3", "!!str 1"), "anchors, aliases and tags are not read here"},
		{"list for a text", change("PETG from the shed", "[a, b]"), "line 2: shed-petg.title: write a single value here"},
		{"form", change("form: print", "form: cast"), `line 3: shed-petg.form: unknown form "cast"; write print, sheet or tube`},
		{"no form", change("  form: print\n", ""), "line 1: shed-petg: form is missing"},
		{"id with blanks", change("shed-petg", "shed petg"), `"shed petg" is not an id`},
		{"bool", sound + "  fibre-filled: yes\n", `line 11: shed-petg.fibre-filled: "yes" is neither true nor false`},
		{"missing figure", change("  loss-factor: {typical: 0.02, source: tap test}\n", ""), "line 1: shed-petg: loss-factor is missing; write loss-factor: {typical: …, source: …}"},
		{"no rule", sound + "  fibre-filled: true\n", "modulus-across is missing and no rule gives it for a fibre-filled print"},
		{"no rule for a laminate", change("form: print", "form: tube") + "  fibre-filled: true\n", "shear-modulus is missing and no rule gives it for a fibre-filled tube"},
		{"huge", strings.Repeat("#", 2<<20), "over 1 MiB"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			list, err := materials.Decode(strings.NewReader(c.file))
			var problems materials.Problems
			if !errors.As(err, &problems) {
				t.Fatalf("got %v, %v, want problems", list, err)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %q, want it to contain %q", err, c.want)
			}
		})
	}
}

func TestDecodeTellsEveryProblem(t *testing.T) {
	file := strings.NewReplacer("1250 kg/m3", ".nan", "form: print", "form: cast", "0.38", "0.6").Replace(sound)
	_, err := materials.Decode(strings.NewReader(file))
	var problems materials.Problems
	if !errors.As(err, &problems) || len(problems) != 3 {
		t.Fatalf("got %v, want three problems", err)
	}
	for i, want := range []int{3, 4, 6} {
		if problems[i].Line != want {
			t.Errorf("problem %d: got line %d, want %d", i, problems[i].Line, want)
		}
	}
}

// What is read is written as a file that reads back as the same materials.
func FuzzDecode(f *testing.F) {
	f.Add(sound)
	f.Add(strings.Replace(sound, "PETG from the shed", `"null"`, 1))
	f.Add("- &a [*a]\n")
	f.Fuzz(func(t *testing.T, text string) {
		list, err := materials.Decode(strings.NewReader(text))
		if err != nil {
			return
		}
		var file bytes.Buffer
		if err := materials.Encode(&file, list); err != nil {
			t.Fatal(err)
		}
		written := file.String()
		back, err := materials.Decode(&file)
		if err != nil {
			t.Fatalf("%v in\n%s", err, written)
		}
		if !slices.Equal(back, list) {
			t.Fatalf("got %v, want %v from\n%s", back, list, written)
		}
	})
}

func BenchmarkLibrary(b *testing.B) {
	for b.Loop() {
		if _, err := materials.Library().Find("aluminium-tube"); err != nil {
			b.Fatal(err)
		}
	}
}
