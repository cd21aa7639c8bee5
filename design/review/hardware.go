package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/magnetic"
	"mastwright/design/parts"
)

// hardware judges ferrous fasteners near the compass, whether every head and nut finds room against the solids, and the screws' threads
// and tips. Steel farther than
// the steel-free distance is reckoned as well: what it can do is shown, and the sum of all is judged when any of it is near.
func (s *subject) hardware() Verdict {
	v := s.steel()
	if v.State == NoData {
		return v
	}
	steel := v
	threads, said := s.threads()
	tight, notes := s.tight()
	figures := append(v.Figures, threads...)
	if len(notes) > 0 {
		figures = append(figures, tight)
	}
	v = judged(figures...)
	notes = append(notes, said...)
	v.Because, v.Formula, v.Notes = steel.Because, steel.Formula, append(steel.Notes, notes...)
	if text := s.thread(); text != "" {
		v.Formula += "; " + text
	}
	if v.State > steel.State {
		v.Because = notes[0]
	}
	return v
}

// headRoom is what a screw's head or a nut needs around it to be put in and turned, mm: less is a finding. Judgement.
const headRoom = 0.1

// tight returns the least room around a head or a nut and names those without enough; no notes where all have it.
func (s *subject) tight() (Figure, []string) {
	least := math.Inf(1)
	var notes []string
	var rooms []parts.Room
	for _, g := range s.grips() {
		rooms = append(rooms, g.Rooms...)
	}
	for _, r := range rooms {
		if r.Clear >= headRoom {
			continue
		}
		least = math.Min(least, r.Clear)
		what, said := "head", fmt.Sprintf("has only %.2f mm around it", r.Clear)
		if r.Nut {
			what = "nut"
		}
		if r.Clear < 0 {
			said = fmt.Sprintf("reaches %.2f mm into the plastic", -r.Clear)
		}
		notes = append(notes, fmt.Sprintf("the %s of %s screw %d %s: a smaller fillet, a narrower root or tip, or a smaller screw gives it room", what, r.For, r.Index+1, said))
	}
	return fixed("least room around a screw's head or nut", least, "mm", &Limit{AtLeast, headRoom, 0}), notes
}

// steel judges ferrous fasteners near the compass.
func (s *subject) steel() Verdict {
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
