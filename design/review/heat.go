package review

import (
	"fmt"
	"math"
)

// heat compares the softening temperature of each part's material with the hottest the mount gets.
func (s *subject) heat() Verdict {
	limit := &Limit{AtLeast, s.doc.Limits.Heat.Pass.Kelvins(), s.doc.Limits.Heat.Marginal.Kelvins()}
	service := s.doc.Site.Service
	var figures []Figure
	worst := math.Inf(1)
	var because, formula string
	for _, part := range s.materialsUsed() {
		m := part.material
		if !m.Softening.Known() {
			continue
		}
		room := m.Softening.Typical.Minus(service).Kelvins()
		f := spread(part.name+", "+m.Title, room, m.Softening.Low.Minus(service).Kelvins(), m.Softening.High.Minus(service).Kelvins(), "K", limit)
		figures = append(figures, f)
		if room < worst {
			worst = room
			because = fmt.Sprintf("%s of the %s softens at %.4g °C, %.3g K from the %.4g °C it may meet", m.Title, part.name, m.Softening.Typical.Celsius(), room, service.Celsius())
			formula = fmt.Sprintf("%.4g °C − %.4g °C = %.3g K", m.Softening.Typical.Celsius(), service.Celsius(), room)
		}
	}
	if len(figures) == 0 {
		return lacking("no softening temperature is known for these materials", "materials.mast")
	}
	v := judged(figures...)
	v.Because, v.Formula = because, formula
	return v
}
