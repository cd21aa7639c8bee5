package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// sky measures how much of the sky above the mask angle the aircraft's own parts hide from the antenna, which is taken at the
// middle of the receiver's top.
func (s *subject) sky() Verdict {
	if missing := s.lacks("airframe.neighbours"); missing != nil {
		return lacking("what stands around the receiver is not described", missing...)
	}
	const azimuths, elevations = 180, 80
	antenna := r3.Vec{X: s.receiver.X, Y: s.receiver.Y, Z: s.top()}
	mask := s.doc.Site.Mask.Radians()
	var boxes []box
	var names []string
	for _, n := range s.doc.Airframe.Neighbours {
		if b := s.box(n); n.Kind != "access" && b.centre.Z+b.half.Z > antenna.Z {
			boxes, names = append(boxes, b), append(names, n.Name)
		}
	}
	lost, all := 0.0, 0.0
	by := make([]float64, len(boxes))
	step := (math.Pi/2 - mask) / elevations
	for i := range elevations {
		elevation := mask + (float64(i)+0.5)*step
		weight := math.Cos(elevation)
		all += azimuths * weight
		for j := range azimuths {
			azimuth := 2 * math.Pi * float64(j) / azimuths
			ray := r3.Vec{X: math.Cos(azimuth) * weight, Y: math.Sin(azimuth) * weight, Z: math.Sin(elevation)}
			hidden := false
			for k, b := range boxes {
				if b.hides(antenna, ray) {
					by[k] += weight
					hidden = true
				}
			}
			if hidden {
				lost += weight
			}
		}
	}
	share := lost / all
	limit := &Limit{AtMost, s.doc.Limits.Sky.Pass.Percent(), s.doc.Limits.Sky.Marginal.Percent()}
	figures := []Figure{fixed("sky lost", share*100, "%", limit)}
	worst := -1
	for k := range boxes {
		if by[k] > 0 && (worst < 0 || by[k] > by[worst]) {
			worst = k
		}
	}
	for k, name := range names {
		if by[k] > 0 {
			figures = append(figures, fixed("lost to "+name, by[k]/all*100, "%", nil))
		}
	}
	shaded := s.shading()
	if len(shaded) > 0 {
		figures = append(figures, fixed("conducting parts beside or above the antenna", float64(len(shaded)), "", &Limit{AtMost, 0, math.Inf(1)}))
	}
	v := judged(figures...)
	v.Notes = append(v.Notes, shaded...)
	v.Because = fmt.Sprintf("nothing stands above the antenna's horizon of %.0f°", s.doc.Site.Mask.Degrees())
	if worst >= 0 {
		v.Because = fmt.Sprintf("%s stands highest above the antenna's horizon and hides most of what is lost", names[worst])
	}
	if len(shaded) > 0 && v.Figure.Unit == "" {
		v.Because = shaded[0]
	}
	v.Formula = fmt.Sprintf("share of solid angle above %.0f° hidden = %.2f %%, by %d rays", s.doc.Site.Mask.Degrees(), share*100, azimuths*elevations)
	return v
}

// patch is how far below the receiver's top its antenna begins, m: the thickness of a ceramic patch. Judgement.
const patch = 0.005

// shading names the mount's own parts that conduct and reach beside or above the antenna, which they detune and shade whatever the angle.
func (s *subject) shading() []string {
	plane := s.top() - patch
	var notes []string
	for _, p := range s.assembly.Parts {
		m, err := s.library.Find(p.Material)
		if err != nil || !m.Conducts {
			continue
		}
		top := math.Inf(-1)
		for _, b := range s.assembly.Members {
			if b.Part == p.Name {
				top = math.Max(top, math.Max(b.From.Z, b.To.Z)/1e3)
			}
		}
		if p.Name == "tray" || len(s.assembly.Parts) == 1 {
			top = math.Max(top, (s.assembly.Tray.Level+s.assembly.Tray.RimHeight)/1e3)
		}
		if over := top - plane; over > 1e-9 {
			notes = append(notes, fmt.Sprintf("the %s of %s conducts and reaches %.0f mm beyond the antenna's lower edge: end it below, or take another material", p.Name, m.Title, over*1e3))
		}
	}
	return notes
}

// hides says whether a ray from p along d meets the box.
func (b box) hides(p, d r3.Vec) bool {
	near, far := 0.0, math.Inf(1)
	for _, a := range [3][3]float64{
		{p.X - b.centre.X, d.X, b.half.X}, {p.Y - b.centre.Y, d.Y, b.half.Y}, {p.Z - b.centre.Z, d.Z, b.half.Z},
	} {
		from, along, half := a[0], a[1], a[2]
		if along == 0 {
			if math.Abs(from) > half {
				return false
			}
			continue
		}
		t0, t1 := (-half-from)/along, (half-from)/along
		if t0 > t1 {
			t0, t1 = t1, t0
		}
		near, far = math.Max(near, t0), math.Min(far, t1)
	}
	return near <= far && far > 0
}
