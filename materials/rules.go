package materials

import "mastwright/design/units"

// complete fills in what a file leaves to a rule and returns the keys of the
// figures that no rule gives.
//
// Prints: E across = 0.92 E in layer unfilled; strength across = 0.5 of that
// in layer unfilled, 0.35 fibre-filled (common practice). Unfilled sheet and
// tube are the same in every direction. G = E/(2(1+ν)) holds for those that
// are not fibre-filled sheet or tube.
func (m *Material) complete() (missing []string) {
	laminate := m.FibreFilled && m.Form != Print
	isotropic := !m.FibreFilled && m.Form != Print

	if !m.ModulusAcross.Known() {
		switch {
		case isotropic:
			m.ModulusAcross = same(m.ModulusInLayer)
		case !m.FibreFilled:
			m.ModulusAcross = share(m.ModulusInLayer, 0.92, "rule: 0.92 of the modulus in layer, common practice")
		default:
			missing = append(missing, "modulus-across")
		}
	}
	if !m.StrengthAcross.Known() {
		switch {
		case isotropic:
			m.StrengthAcross = same(m.StrengthInLayer)
		case laminate:
			missing = append(missing, "strength-across")
		case m.FibreFilled:
			m.StrengthAcross = share(m.StrengthInLayer, 0.35, "rule: 0.35 of the strength in layer, common practice")
		default:
			m.StrengthAcross = share(m.StrengthInLayer, 0.5, "rule: 0.5 of the strength in layer, common practice")
		}
	}
	if !m.ElongationAcross.Known() {
		if isotropic {
			m.ElongationAcross = same(m.ElongationInLayer)
		} else {
			missing = append(missing, "elongation-across")
		}
	}
	if !m.ShearModulus.Known() {
		if laminate {
			missing = append(missing, "shear-modulus")
		} else {
			nu := m.Poisson.Typical.Fraction()
			m.ShearModulus = share(m.ModulusInLayer, units.Fraction(1/(2*(1+nu))), "rule: E/(2(1+nu)), isotropic")
		}
	}
	if !m.Conditioning.Known() {
		m.Conditioning = Range[units.Ratio]{1, 1, 1, "rule: takes up little water"}
	}
	return missing
}

func same[Q units.Quantity](r Range[Q]) Range[Q] {
	return share(r, 1, "rule: the same in every direction")
}

func share[Q units.Quantity](r Range[Q], factor units.Ratio, source string) Range[Q] {
	r = r.Times(factor)
	r.Source = source
	return r
}
