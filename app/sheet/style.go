package sheet

import (
	"fmt"
	"strings"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design"
	"mastwright/design/parts"
)

// worded is a part's name as it is read: "left plate" of "left_plate".
func worded(name string) string { return strings.ReplaceAll(name, "_", " ") }

// build says how the mount is made.
func (b *builder) build() string {
	m := b.Doc.Mast
	switch m.Build {
	case "tube":
		return "tube, cut from stock, in a printed foot and tray that clamp it"
	case "twin-plate":
		text := "two plates cut from sheet, with a printed foot and tray"
		if n := m.Plates.Spacers; n > 0 {
			held := map[string]string{"tabs": "tabs", "single screw": "one screw each", "two screws": "two screws each"}[m.Plates.Spacer]
			text += fmt.Sprintf(" and %s held by %s", counted(n, "spacer", "spacers"), held)
		}
		return text
	case "legs":
		return fmt.Sprintf("%d legs, %s, glued into printed pads and tray", len(b.assembly.Pads), m.Legs.Made)
	}
	return m.Build + ", printed as " + m.Split
}

// shape is what carries the tray, with its sizes.
func (b *builder) shape() (name, text string) {
	m := b.Doc.Mast
	switch m.Build {
	case "tube":
		key := "no key against twist"
		if m.Tube.Clamp.Key == "cross screw" {
			key = "keyed by a cross screw at each end"
		}
		return "Tube", fmt.Sprintf("%s, clamped over %s mm at each end, %s", b.tubeSize(), millimetres(m.Tube.Clamp.Grip.Millimetres()), key)
	case "twin-plate":
		return "Plates", fmt.Sprintf("%s mm thick, %s mm apart; %s wide at the foot, %s at the tray", millimetres2(m.Plates.Thickness.Millimetres()), millimetres(m.Plates.Gap.Millimetres()),
			millimetres(m.Plates.Root.Millimetres()), millimetres(m.Plates.Tip.Millimetres()))
	case "legs":
		return "Legs", b.legSize() + " mm, in sockets " + millimetres(m.Legs.Grip.Millimetres()) + " mm deep"
	}
	section := func(r design.Rectangle) string {
		if m.Section == "round" {
			return "Ø " + millimetres(r.X.Millimetres())
		}
		return millimetres(r.X.Millimetres()) + " × " + millimetres(r.Y.Millimetres())
	}
	return "Mast", fmt.Sprintf("%s at the foot, %s at the tray, wall %s mm", section(b.Doc.Root()), section(b.Doc.Tip()), millimetres(m.Wall.Millimetres()))
}

func (b *builder) legSize() string {
	s := b.Doc.Mast.Legs.Section.Square()
	return millimetres(s.X.Millimetres()) + " × " + millimetres(s.Y.Millimetres())
}

func (b *builder) tubeSize() string {
	for _, p := range b.assembly.Parts {
		if p.Making == parts.Stock {
			return p.Size
		}
	}
	return "tube"
}

// callouts name what carries the tray in the front view.
func (b *builder) callouts(p *draft.Pen, point func(u, z float64) paper.Point) {
	m, first := b.Doc.Mast, b.assembly.Members[0]
	middle := (first.From.Z + first.To.Z) / 2
	switch m.Build {
	case "tube":
		across := -b.Doc.Root().Y.Millimetres() / 2 * 0.9
		grip := m.Tube.Clamp.Grip.Millimetres()
		lead(p, point(across, b.assembly.Seat.Z-b.assembly.Tray.Thickness-grip/2), 2, "grip "+millimetres(grip))
		lead(p, point(-m.Tube.Outside.Millimetres()/2*0.95, middle), 2, "tube Ø "+strings.TrimSuffix(b.tubeSize(), " tube"))
		lead(p, point(across, b.clampTop()-grip/2), 2, "grip "+millimetres(grip))
	case "twin-plate":
		outside := -(m.Plates.Gap/2 + m.Plates.Thickness).Millimetres()
		lead(p, point(outside*0.97, first.To.Z-m.Plates.Grip.Millimetres()/2), 2, "block "+millimetres(m.Plates.Grip.Millimetres()))
		lead(p, point(outside*0.97, middle+(first.To.Z-first.From.Z)*0.16), 2, "plate "+millimetres2(m.Plates.Thickness.Millimetres()))
		lead(p, point(outside+m.Plates.Thickness.Millimetres()*1.5, middle-(first.To.Z-first.From.Z)*0.14), 2, "gap "+millimetres(m.Plates.Gap.Millimetres()))
		lead(p, point(outside*0.97, b.topOf("foot block")-m.Plates.Grip.Millimetres()/2), 2, "block "+millimetres(m.Plates.Grip.Millimetres()))
	case "legs":
		at := func(t float64) paper.Point {
			return point(-abs(first.From.Y+t*(first.To.Y-first.From.Y)), first.From.Z+t*(first.To.Z-first.From.Z))
		}
		lead(p, at(0.93), 2, "socket "+millimetres(m.Legs.Grip.Millimetres()))
		lead(p, at(0.5), 2, "leg "+b.legSize())
	default:
		root, tip, seat := b.Doc.Root(), b.Doc.Tip(), b.assembly.Seat.Z
		named := "root " + millimetres(root.X.Millimetres()) + " × " + millimetres(root.Y.Millimetres())
		ended := "tip " + millimetres(tip.X.Millimetres()) + " × " + millimetres(tip.Y.Millimetres())
		if m.Section == "round" {
			named, ended = "root Ø "+millimetres(root.X.Millimetres()), "tip Ø "+millimetres(tip.X.Millimetres())
		}
		lead(p, point(-tip.Y.Millimetres()/2*0.98, first.To.Z-(seat-first.From.Z)*0.16), 2, ended)
		lead(p, point(-(root.Y.Millimetres()+tip.Y.Millimetres())/4*0.98, middle), 2, "wall "+millimetres(m.Wall.Millimetres()))
		lead(p, point(-root.Y.Millimetres()/2*0.9, first.From.Z+max(b.collarTop()-first.From.Z, 0)+(seat-first.From.Z)*0.12), 2, named)
	}
}

// widths names the plates' width in the side view.
func (b *builder) widths(p *draft.Pen, point func(u, z float64) paper.Point, x float64) {
	m := b.Doc.Mast
	if m.Build != "twin-plate" {
		return
	}
	plate := b.assembly.Members[0]
	long := plate.To.Z - plate.From.Z
	lead(p, point(-m.Plates.Tip.Millimetres()/2*0.95, plate.To.Z-long*0.28), x, "width "+millimetres(m.Plates.Tip.Millimetres()))
	lead(p, point(-m.Plates.Root.Millimetres()/2*0.95, plate.From.Z+long*0.32), x, "width "+millimetres(m.Plates.Root.Millimetres()))
}
