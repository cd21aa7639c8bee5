package cli

import (
	"fmt"

	"mastwright/app/build"
	"mastwright/design/units"
	"mastwright/materials"
)

type materialsCommand struct {
	JSON bool `help:"Print every figure with its spread and source as JSON."`
}

func (c materialsCommand) Run(s *session) error {
	library := materials.Library()
	if c.JSON {
		out := []materialRecord{}
		for _, m := range library {
			out = append(out, newMaterialRecord(m))
		}
		return build.EncodeJSON(s.out, out)
	}
	fmt.Fprintln(s.out, "id                form   density  modulus MPa      strength MPa   softens  breaks")
	fmt.Fprintln(s.out, "                         g/cm3    in layer across  in layer across  degC    at")
	for _, m := range library {
		softens := "-"
		if m.Softening.Known() {
			softens = build.Digits(m.Softening.Typical.Celsius(), 3)
		}
		fmt.Fprintf(s.out, "%-18s%-7s%-9s%8s %-8s%8s %-8s%5s%8s\n", m.ID, m.Form,
			build.Digits(m.Density.Typical.GramsPerCubicCentimetre(), 3),
			build.Digits(m.ModulusInLayer.Typical.Megapascals(), 3), build.Digits(m.ModulusAcross.Typical.Megapascals(), 3),
			build.Digits(m.StrengthInLayer.Typical.Megapascals(), 3), build.Digits(m.StrengthAcross.Typical.Megapascals(), 3),
			softens, build.Digits(m.ElongationInLayer.Typical.Percent(), 3)+" %")
	}
	fmt.Fprintln(s.out)
	fmt.Fprint(s.out, build.Wrap("", 0, "Typical figures at room temperature. In layer: along the layers, fibres or sheet; across: from layer to layer. "+
		"--json has the spread and the source of each."))
	return nil
}

// materialRecord is a material as materials --json prints it, units in the names of the keys; null for a figure that is not known.
type materialRecord struct {
	ID                string       `json:"id"`
	Title             string       `json:"title"`
	Form              string       `json:"form"`
	Density           *rangeRecord `json:"density_g_cm3"`
	ModulusInLayer    *rangeRecord `json:"modulus_in_layer_mpa"`
	ModulusAcross     *rangeRecord `json:"modulus_across_mpa"`
	ShearModulus      *rangeRecord `json:"shear_modulus_mpa"`
	Poisson           *rangeRecord `json:"poisson"`
	StrengthInLayer   *rangeRecord `json:"strength_in_layer_mpa"`
	StrengthAcross    *rangeRecord `json:"strength_across_mpa"`
	ElongationInLayer *rangeRecord `json:"elongation_in_layer"`
	ElongationAcross  *rangeRecord `json:"elongation_across"`
	Softening         *rangeRecord `json:"softening_degc"`
	LossFactor        *rangeRecord `json:"loss_factor"`
	Conditioning      *rangeRecord `json:"conditioning"`
	ClampStrength     *rangeRecord `json:"clamp_strength_mpa"`
	FibreFilled       bool         `json:"fibre_filled"`
	Conducts          bool         `json:"conducts"`
	Dust              string       `json:"dust"`
	Notes             string       `json:"notes"`
}

type rangeRecord struct {
	Low     *float64 `json:"low"`
	Typical *float64 `json:"typical"`
	High    *float64 `json:"high"`
	Source  string   `json:"source"`
}

func newMaterialRecord(m materials.Material) materialRecord {
	return materialRecord{
		ID: m.ID, Title: m.Title, Form: string(m.Form),
		Density:        newRange(m.Density, units.Density.GramsPerCubicCentimetre),
		ModulusInLayer: newRange(m.ModulusInLayer, units.Stress.Megapascals), ModulusAcross: newRange(m.ModulusAcross, units.Stress.Megapascals),
		ShearModulus: newRange(m.ShearModulus, units.Stress.Megapascals), Poisson: newRange(m.Poisson, units.Ratio.Fraction),
		StrengthInLayer: newRange(m.StrengthInLayer, units.Stress.Megapascals), StrengthAcross: newRange(m.StrengthAcross, units.Stress.Megapascals),
		ElongationInLayer: newRange(m.ElongationInLayer, units.Ratio.Fraction), ElongationAcross: newRange(m.ElongationAcross, units.Ratio.Fraction),
		Softening: newRange(m.Softening, units.Temperature.Celsius), LossFactor: newRange(m.LossFactor, units.Ratio.Fraction),
		Conditioning: newRange(m.Conditioning, units.Ratio.Fraction), ClampStrength: newRange(m.ClampStrength, units.Stress.Megapascals),
		FibreFilled: m.FibreFilled, Conducts: m.Conducts, Dust: m.Dust, Notes: m.Notes,
	}
}

func newRange[Q units.Quantity](r materials.Range[Q], in func(Q) float64) *rangeRecord {
	if !r.Known() {
		return nil
	}
	return &rangeRecord{build.Number(in(r.Low)), build.Number(in(r.Typical)), build.Number(in(r.High)), r.Source}
}
