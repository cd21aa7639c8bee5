package parts

import (
	"fmt"
	"math"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/materials"
	"mastwright/mesh/outline"
)

// crossing is what is laid over the edge of a plate where the cable crosses it, mm. Judgement.
const crossing = 40

// guards are the strips for the edges of conducting parts, and of the frame's plate, that the cable crosses: a chafed wire must not
// meet them.
func guards(doc *design.Document, a Assembly) []Fitting {
	library := doc.Library()
	var all []Fitting
	add := func(p Part, where string, count int, long, edge float64) {
		if long <= 0 {
			return
		}
		all = append(all, Fitting{
			Name: "edge guard", For: p.Name, Material: "silicone", Count: count, Length: units.Millimetres(math.Ceil(long)),
			Note: fmt.Sprintf("%s conducts: a slit sleeve for an edge of %s over %s.", title(library, p.Material), mm(edge), where),
		})
	}
	for _, p := range a.Parts {
		m, err := library.Find(p.Material)
		if err != nil || !m.Conducts {
			continue
		}
		switch p.Making {
		case Stock:
			if t := doc.Mast.Tube; doc.Mast.Build == "tube" && t.Bore > 0 {
				add(p, "each end, where the cable leaves the tube", 2, math.Pi*t.Bore.Millimetres(), (t.Outside-t.Bore).Millimetres()/2)
			}
		case Cut:
			add(p, "the edges where the cable crosses the plate", max(1, len(p.Places)), crossing, p.Thickness)
		default:
			way := doc.Mast.CableWay
			if w, l := way.Width.Millimetres(), way.Length.Millimetres(); p.Name == "mast" && doc.Mast.Build == "column" && way.Side != "none" {
				add(p, "the rim of the cable way", 1, math.Pi*w+2*(l-w), doc.Mast.Wall.Millimetres())
			}
			if p.Name == "tray" || len(a.Parts) == 1 {
				add(p, "the rim of the opening in the tray", 1, openingRim(doc), a.Tray.Thickness)
			}
		}
	}
	return append(all, frameGuard(doc, library)...)
}

// frameGuard is the strip for the edge of the frame's own plate, which the cable crosses on its way down to the flight controller.
func frameGuard(doc *design.Document, library materials.List) []Fitting {
	place, ok := doc.PlaceChosen()
	m, err := library.Find(place.Plate.Material)
	if !ok || err != nil || !m.Conducts || place.Plate.Backing != "plate" {
		return nil
	}
	return []Fitting{{
		Name: "edge guard", For: "frame's plate", Material: "silicone", Count: 1, Length: units.Millimetres(crossing),
		Note: fmt.Sprintf("%s conducts: a slit sleeve for an edge of %s where the cable passes down to the controller; none where the cable stays above the plate.",
			m.Title, mm(place.Plate.Thickness.Millimetres())),
	}}
}

// openingRim is the length in mm around the opening in the tray's floor.
func openingRim(doc *design.Document) float64 {
	x, y := some(doc.Tray.Opening.X.Millimetres()), some(doc.Tray.Opening.Y.Millimetres())
	if x == 0 || y == 0 {
		return 0
	}
	return outline.RoundedRectangle(x, y, min(doc.Tray.OpeningCorner.Millimetres(), x/2, y/2)).Length()
}

func title(library materials.List, id string) string {
	m, err := library.Find(id)
	if err != nil {
		return id
	}
	return m.Title
}
