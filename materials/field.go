package materials

import (
	"gopkg.in/yaml.v3"

	"mastwright/design/units"
)

// figure is a row of the table of figures: what a materials file calls one,
// its kind, and the bounds that a slip of the unit would leave, in the kind's
// file unit. A needed figure has no rule to fill it in.
type figure struct {
	key      string
	kind     units.Kind
	min, max float64
	needed   bool
	in       func(*Material) access
}

// access reads and writes one Range whatever its kind, in the file unit.
type access interface {
	set(low, typical, high float64, source string)
	get() (low, typical, high float64, source string)
}

func (r *Range[Q]) set(low, typical, high float64, source string) {
	*r = Range[Q]{Q(low), Q(typical), Q(high), source}
}

func (r *Range[Q]) get() (low, typical, high float64, source string) {
	return float64(r.Low), float64(r.Typical), float64(r.High), r.Source
}

var figures = []figure{
	{"density", units.DensityKind, 0.05, 25, true, func(m *Material) access { return &m.Density }},
	{"modulus-in-layer", units.StressKind, 1, 1e6, true, func(m *Material) access { return &m.ModulusInLayer }},
	{"modulus-across", units.StressKind, 1, 1e6, false, func(m *Material) access { return &m.ModulusAcross }},
	{"shear-modulus", units.StressKind, 0.3, 5e5, false, func(m *Material) access { return &m.ShearModulus }},
	{"poisson", units.RatioKind, 0, 0.499, true, func(m *Material) access { return &m.Poisson }},
	{"strength-in-layer", units.StressKind, 0.5, 1e4, true, func(m *Material) access { return &m.StrengthInLayer }},
	{"strength-across", units.StressKind, 0.5, 1e4, false, func(m *Material) access { return &m.StrengthAcross }},
	{"elongation-in-layer", units.RatioKind, 1e-4, 15, true, func(m *Material) access { return &m.ElongationInLayer }},
	{"elongation-across", units.RatioKind, 1e-4, 15, false, func(m *Material) access { return &m.ElongationAcross }},
	{"softening", units.TemperatureKind, 0, 1000, false, func(m *Material) access { return &m.Softening }},
	{"loss-factor", units.RatioKind, 1e-5, 2, true, func(m *Material) access { return &m.LossFactor }},
	{"conditioning", units.RatioKind, 0.05, 1, false, func(m *Material) access { return &m.Conditioning }},
	{"clamp-strength", units.StressKind, 0.5, 1e4, false, func(m *Material) access { return &m.ClampStrength }},
}

// words are the remaining keys of a material, in the order they are written.
var words = []struct {
	key string
	get func(*Material) string
	set func(*Material, *yaml.Node) string // the problem, or ""
}{
	{"id", func(m *Material) string { return m.ID }, func(m *Material, n *yaml.Node) string { return setID(&m.ID, n) }},
	{"title", func(m *Material) string { return m.Title }, func(m *Material, n *yaml.Node) string { return setText(&m.Title, n) }},
	{"form", func(m *Material) string { return string(m.Form) }, func(m *Material, n *yaml.Node) string { return setForm(&m.Form, n) }},
	{"fibre-filled", func(m *Material) string { return yes(m.FibreFilled) }, func(m *Material, n *yaml.Node) string { return setBool(&m.FibreFilled, n) }},
	{"conducts", func(m *Material) string { return yes(m.Conducts) }, func(m *Material, n *yaml.Node) string { return setBool(&m.Conducts, n) }},
	{"stock", func(m *Material) string { return m.Stock }, func(m *Material, n *yaml.Node) string { return setText(&m.Stock, n) }},
	{"dust", func(m *Material) string { return m.Dust }, func(m *Material, n *yaml.Node) string { return setText(&m.Dust, n) }},
	{"notes", func(m *Material) string { return m.Notes }, func(m *Material, n *yaml.Node) string { return setText(&m.Notes, n) }},
}

func yes(b bool) string {
	if b {
		return "true"
	}
	return ""
}
