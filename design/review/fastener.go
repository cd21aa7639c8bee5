package review

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/design/units"
	hw "mastwright/materials/hardware"
)

// fastener is a screw of the mount with its nut, insert and washers, where it sits.
type fastener struct {
	name     string
	at       r3.Vec // m
	mass     float64
	material hw.Material
}

// fasteners returns every screw of the mount, with its nut, insert and washers, as a mass at its middle.
func (s *subject) fasteners() []fastener {
	var list []fastener
	for _, use := range s.assembly.Screws {
		material, err := hw.FindMaterial(use.Material)
		if err != nil {
			continue
		}
		mass, err := hw.Screw{Size: use.Size, Head: use.Head, Length: use.Length}.Mass(material)
		if err != nil {
			continue
		}
		if use.Nut {
			mass += hw.NutMass(use.Size, material)
		}
		if use.Insert {
			mass += use.Size.Insert().Mass(use.Size)
		}
		mass += units.Mass(use.Washers) * hw.WasherMass(use.Size, material)
		for i, at := range use.At {
			middle := r3.Add(metres(at), r3.Scale(use.Length.Metres()/2, use.Axis))
			list = append(list, fastener{fmt.Sprintf("%s screw %d", use.For, i+1), middle, mass.Kilograms(), material})
		}
	}
	return list
}

// fastened returns the screws of clamps and plates, and the receiver's with them, as masses on the nearest points of the mount. A column's
// few are left out, and those of the foot move with the aircraft.
func (s *subject) fastened(n nodes) []frame.Body {
	if s.doc.Mast.Build == "column" {
		return nil
	}
	var list []frame.Body
	for _, f := range s.fasteners() {
		if strings.HasPrefix(f.name, "foot screw") {
			continue
		}
		best := 0
		for i, p := range s.spine.points {
			if r3.Norm(r3.Sub(p, f.at)) < r3.Norm(r3.Sub(s.spine.points[best], f.at)) {
				best = i
			}
		}
		list = append(list, frame.Body{Node: n.points[best], Mass: f.mass, CG: r3.Sub(f.at, s.spine.points[best])})
	}
	return list
}

// screws returns the screws of the mount with a purpose.
func (s *subject) screws(purpose string) parts.ScrewUse {
	for _, u := range s.assembly.Screws {
		if u.For == purpose {
			return u
		}
	}
	return parts.ScrewUse{}
}

// footHole returns the diameter of the foot's screw holes, m.
func (s *subject) footHole() float64 { return s.screws("foot").Hole / 1e3 }
