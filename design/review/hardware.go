package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/magnetic"
)

// hardware judges ferrous fasteners near the compass. Steel farther than the steel-free distance is reckoned as well: what it can do
// is shown, and the sum of all is judged when any of it is near.
func (s *subject) hardware() Verdict {
	near := s.doc.Limits.SteelFree.Metres()
	var ferrous []magnetic.Fastener
	nearest, nearestName := math.Inf(1), ""
	count := 0
	for _, f := range s.fasteners() {
		if !f.material.Ferrous() {
			continue
		}
		distance := r3.Norm(r3.Sub(f.at, s.compass))
		if distance < near {
			count++
		}
		if distance < nearest {
			nearest, nearestName = distance, f.name
		}
		ferrous = append(ferrous, magnetic.Fastener{Name: f.name, At: f.at, Volume: f.mass / f.material.Density.KilogramsPerCubicMetre()})
	}
	steel := &Limit{AtMost, 0, math.Inf(1)}
	v := judged(fixed(fmt.Sprintf("steel fasteners within %.0f mm", near*1e3), float64(count), "", steel))
	v.Formula = fmt.Sprintf("%d ferrous fasteners within %.0f mm of the compass", count, near*1e3)
	if len(ferrous) == 0 {
		v.Because = "no fastener of the mount is steel"
		return v
	}
	v.Because = fmt.Sprintf("the nearest steel fastener, %s, is %.0f mm from the compass", nearestName, nearest*1e3)
	if s.lacks("site.latitude", "site.longitude", "site.year") != nil || s.earthError != nil {
		if count > 0 {
			return lacking("what steel near the compass does depends on the earth's field at the site", "site.latitude", "site.longitude", "site.year")
		}
		return v
	}
	worst, err := magnetic.Fasteners(ferrous, s.compass, s.earth.Elements, magnetic.FastenerOptions{})
	if err != nil {
		return lacking(err.Error(), "tray.screws")
	}
	fresh, err := magnetic.Fasteners(ferrous, s.compass, s.earth.Elements, magnetic.FastenerOptions{Remanence: 0.02})
	if err != nil {
		return lacking(err.Error(), "tray.screws")
	}
	remanent := Figure{Name: "heading offset, magnetised", Value: degrees(worst.Worse), Unit: "°", Low: degrees(fresh.Worse), High: degrees(worst.Worse)}
	if count > 0 {
		remanent.Limit = &Limit{AtMost, s.doc.Limits.Remanent.Pass.Degrees(), s.doc.Limits.Remanent.Marginal.Degrees()}
	}
	note := v.Because
	v = judged(v.Figures[0], remanent, fixed("heading offset, not magnetised", degrees(worst.InducedError), "°", nil))
	v.Because = note
	v.Formula = fmt.Sprintf("%d ferrous fasteners at %.3g T: field %.3g µT across H %.3g µT = %.3g°",
		len(ferrous), 0.05, worst.Remanent*1e6, s.earth.H*1e6, degrees(worst.RemanentError))
	v.Notes = append(v.Notes, "a fixed offset calibrates out; a screw that is magnetised anew does not: use brass, nylon, titanium or aluminium")
	return v
}
