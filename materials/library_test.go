package materials_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"mastwright/design/units"
	"mastwright/materials"
)

func TestLibraryIDs(t *testing.T) {
	want := []string{
		"pla", "petg", "copolyester", "abs", "asa", "pc", "pa12", "pa6-cf", "tpu-95a",
		"acetal-sheet", "glass-epoxy-sheet", "carbon-sheet", "aluminium-sheet",
		"carbon-tube", "glass-tube", "aluminium-tube",
	}
	if got := materials.Library().IDs(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// The library's middle figures lie within what general handbooks give for the
// class of material: Ashby, Materials Selection in Mechanical Design, appendix
// of material properties (bands from memory, widened to a factor of 1.5 for
// prints, which are not solid to the last pore). Density g/cm³, modulus GPa,
// strength MPa.
func TestLibraryAgainstHandbook(t *testing.T) {
	cases := []struct {
		id                         string
		densityLow, densityHigh    float64
		modulusLow, modulusHigh    float64
		strengthLow, strengthHigh  float64
		lossFactorLow, lossFacHigh float64
	}{
		{"pla", 1.2, 1.3, 2, 4, 30, 75, 0.005, 0.1},
		{"petg", 1.2, 1.4, 1.4, 3, 30, 60, 0.005, 0.1},
		{"abs", 1.0, 1.2, 1.1, 2.9, 18, 55, 0.005, 0.1},
		{"pc", 1.1, 1.3, 2.0, 2.5, 55, 75, 0.005, 0.1},
		{"pa12", 1.0, 1.1, 1.0, 2.0, 35, 60, 0.005, 0.1},
		{"acetal-sheet", 1.35, 1.45, 2.5, 3.6, 48, 75, 0.005, 0.1},
		{"glass-epoxy-sheet", 1.7, 2.0, 15, 28, 140, 400, 0.001, 0.02},
		{"carbon-tube", 1.5, 1.6, 69, 150, 550, 1700, 0.001, 0.01},
		{"aluminium-tube", 2.6, 2.8, 68, 72, 240, 320, 0.0001, 0.01},
	}
	for _, c := range cases {
		t.Run(c.id, func(t *testing.T) {
			m := find(t, c.id)
			within(t, "density", m.Density.Typical.GramsPerCubicCentimetre(), c.densityLow, c.densityHigh)
			within(t, "modulus", m.ModulusInLayer.Typical.Gigapascals(), c.modulusLow, c.modulusHigh)
			within(t, "strength", m.StrengthInLayer.Typical.Megapascals(), c.strengthLow, c.strengthHigh)
			within(t, "loss factor", m.LossFactor.Typical.Fraction(), c.lossFactorLow, c.lossFacHigh)
		})
	}
}

func TestLibraryIsWhole(t *testing.T) {
	for _, m := range materials.Library() {
		t.Run(m.ID, func(t *testing.T) {
			for name, known := range map[string]bool{
				"density": m.Density.Known(), "modulus": m.ModulusInLayer.Known(), "modulus across": m.ModulusAcross.Known(),
				"shear modulus": m.ShearModulus.Known(), "Poisson": m.Poisson.Known(), "strength": m.StrengthInLayer.Known(),
				"strength across": m.StrengthAcross.Known(), "elongation": m.ElongationInLayer.Known(),
				"elongation across": m.ElongationAcross.Known(), "loss factor": m.LossFactor.Known(), "conditioning": m.Conditioning.Known(),
			} {
				if !known {
					t.Errorf("%s has no source", name)
				}
			}
			if m.FibreFilled != (m.Dust != "") {
				t.Errorf("fibre-filled %v with dust caution %q", m.FibreFilled, m.Dust)
			}
			if across, along := m.StrengthAcross.Typical, m.StrengthInLayer.Typical; across > along {
				t.Errorf("strength across %v exceeds %v in layer", across, along)
			}
		})
	}
}

// Rules of common practice, worked by hand; no source.
func TestRules(t *testing.T) {
	cases := []struct {
		name      string
		got, want float64
	}{
		{"PC across, 0.92 × 2310 MPa", find(t, "pc").Modulus(materials.Across).Typical.Megapascals(), 2125.2},
		{"PA12 shear, 1400 MPa / 2.76", find(t, "pa12").ShearModulus.Typical.Megapascals(), 507.24637681159},
		{"aluminium shear, 68.9 GPa / 2.66", find(t, "aluminium-tube").ShearModulus.Typical.Gigapascals(), 25.902255639098},
		{"carbon shear is its own figure", find(t, "carbon-tube").ShearModulus.Typical.Gigapascals(), 4.5},
		{"glass-epoxy shear is its own figure", find(t, "glass-epoxy-sheet").ShearModulus.Typical.Gigapascals(), 4.5},
		{"acetal across is as in layer", find(t, "acetal-sheet").Strength(materials.Across).Low.Megapascals(), 64},
		{"carbon tube in a clamp", find(t, "carbon-tube").StrengthInClamp().Typical.Megapascals(), 400},
		{"aluminium tube in a clamp", find(t, "aluminium-tube").StrengthInClamp().Typical.Megapascals(), 276},
		{"PA6-CF conditioned, 0.6 × 5460 MPa", find(t, "pa6-cf").ModulusInService(materials.InLayer, units.Celsius(25)).Typical.Megapascals(), 3276},
		{"PA6-CF across, conditioned, 0.6 × 1657 MPa", find(t, "pa6-cf").ModulusInService(materials.Across, units.Celsius(25)).Typical.Megapascals(), 994.2},
		{"ABS at 60 °C is 32.5 K below softening", find(t, "abs").Service(units.Celsius(60)).Fraction(), 1},
		{"PETG at 52.5 °C is exactly 20 K below", find(t, "petg").Service(units.Celsius(52.5)).Fraction(), 1},
		{"PETG at 52.6 °C", find(t, "petg").Service(units.Celsius(52.6)).Fraction(), 0.7},
		{"PLA shear at 60 °C, 0.7 × 2600/2.76", find(t, "pla").ShearModulusInService(units.Celsius(60)).Typical.Megapascals(), 659.42028985507},
		{"aluminium does not soften", find(t, "aluminium-tube").Service(units.Celsius(200)).Fraction(), 1},
		{"CPE strength is midway of 40-44", find(t, "copolyester").StrengthInLayer.Typical.Megapascals(), 42},
		{"PLA elongation across has no high end of its own", find(t, "pla").Elongation(materials.Across).High.Percent(), 2.4},
		{"infill a quarter full, 0.25^1.5", materials.CoreStiffness(0.25).Fraction(), 0.125},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if math.Abs(c.got-c.want) > 1e-12*c.want { // a few roundings
				t.Errorf("got %v, want %v", c.got, c.want)
			}
		})
	}
}

func TestFind(t *testing.T) {
	cases := []struct{ id, want string }{
		{"PETG", `no material "PETG"; did you mean petg?`},
		{"ptg", `no material "ptg"; did you mean petg?`},
		{"pctg", `no material "pctg"; did you mean petg or copolyester?`},
		{"fr4", `no material "fr4"; did you mean glass-epoxy-sheet?`},
		{"carbon", `no material "carbon"; did you mean pa6-cf or carbon-sheet or carbon-tube?`},
		{"unobtainium", `no material "unobtainium"; choose one of pla, petg,`},
		{"", `no material ""; choose one of pla, petg,`},
	}
	for _, c := range cases {
		t.Run(c.id, func(t *testing.T) {
			_, err := materials.Library().Find(c.id)
			if err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

func TestWith(t *testing.T) {
	tested := find(t, "petg")
	tested.Title = "PETG, tap-tested"
	own := find(t, "petg")
	own.ID = "shed-petg"
	library := materials.Library()
	merged := library.With(materials.List{own, tested})
	if got, want := len(merged), len(library)+1; got != want {
		t.Fatalf("got %d materials, want %d", got, want)
	}
	if got := merged[1].Title; got != tested.Title {
		t.Errorf("got %q in the place of petg, want %q", got, tested.Title)
	}
	if got := merged[len(merged)-1].ID; got != "shed-petg" {
		t.Errorf("got %q last, want shed-petg", got)
	}
	if got := find(t, "petg").Title; got != "PETG" {
		t.Errorf("got %q in the library afterwards, want PETG", got)
	}
}

func TestOf(t *testing.T) {
	want := []string{"carbon-tube", "glass-tube", "aluminium-tube"}
	if got := materials.Library().Of(materials.Tube).IDs(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestEncodeReadsBackExactly(t *testing.T) {
	var file bytes.Buffer
	if err := materials.Encode(&file, materials.Library()); err != nil {
		t.Fatal(err)
	}
	got, err := materials.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(got, materials.Library()) {
		t.Error("the library read back differs from the library written")
	}
}

func find(t *testing.T, id string) materials.Material {
	t.Helper()
	m, err := materials.Library().Find(id)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func within(t *testing.T, name string, got, low, high float64) {
	t.Helper()
	if got < low || got > high {
		t.Errorf("%s: got %v, want %v to %v", name, got, low, high)
	}
}
