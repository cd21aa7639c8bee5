package review

import (
	"context"
	"math"
	"strings"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/units"
)

// Styled is the same aircraft, receiver and height in a build style.
type Styled struct {
	Candidate
	Own    bool        // as the design has it; any other begins with a start section
	Start  [][2]string // path and text of what was set to begin with; of what was withdrawn the text is ""
	Make   []string    // what is printed: "foot", "2 spacers"
	Cut    []string    // what is cut from sheet: "2 plates of 3 mm acetal-sheet"
	Buy    []string    // what is bought: "77 mm of 10/8 mm tube, carbon-tube", "8 M3 × 25 mm screws of nylon with their nuts"
	Pieces int         // of all that is made and bought, screws with their nuts as one
}

// CompareStyles reviews the same aircraft, receiver and height in every build style, the design's own as it is and the others with a
// start section for the size of the aircraft, and ranks them: fewest failures, fewest marginals, then mass. A style that cannot be built is
// ranked last, with the reason. The error is the context's.
func CompareStyles(ctx context.Context, doc *design.Document) ([]Styled, error) {
	field, _ := design.FieldOf("mast.build")
	var list []Candidate
	all := map[string]Styled{}
	var shop Workshop
	for _, style := range field.Choices {
		one := Styled{Own: style == doc.Mast.Build}
		c, problems, err := one.review(ctx, &shop, doc, style, 0)
		for room := 1; room < 4 && err == nil && len(problems) > 0 && style == "legs" && !one.Own; room++ {
			c, problems, err = one.review(ctx, &shop, doc, style, room)
		}
		if err != nil {
			return nil, err
		}
		if len(problems) > 0 {
			texts := make([]string, len(problems))
			for i, p := range problems {
				texts[i] = p.Path + ": " + p.Text
			}
			c = Candidate{Name: style, Title: style, Fails: len(checks), Because: "cannot be built so: " + strings.Join(texts, "; ")}
		}
		list = append(list, c)
		all[style] = one
	}
	rank(list)
	ranked := make([]Styled, len(list))
	for i, c := range list {
		ranked[i] = all[c.Name]
		ranked[i].Candidate = c
	}
	return ranked, nil
}

// review reviews a design in the style, from its start section where it is not the design's own.
func (o *Styled) review(ctx context.Context, shop *Workshop, doc *design.Document, style string, room int) (Candidate, []design.Problem, error) {
	other := doc.Clone()
	if !o.Own {
		o.Start = nil
		for _, path := range []string{"foot.size.x", "foot.size.y", "tray.size.x", "tray.size.y", "tray.flare"} {
			if doc.Origin(path) == design.Given {
				o.Start = append(o.Start, [2]string{path, ""})
			}
		}
		o.Start = append(o.Start, start(doc, style, room)...)
		for _, s := range o.Start {
			if s[1] == "" {
				other.Clear(s[0])
			} else if err := other.Set(s[0], s[1]); err != nil {
				return Candidate{}, nil, err
			}
		}
	}
	c, problems, err := shop.candidate(ctx, other, style, style)
	if err == nil && len(problems) == 0 {
		a, _ := parts.Build(other)
		o.needs(a)
	}
	return c, problems, err
}

// class is what mounts on aircraft of a size begin with.
type class struct {
	propeller         float64 // largest, inch
	root, tip, wall   string  // of a column
	fillets           [2]string
	tube, bore, grip  string
	plate, wide, tall string // thickness, width, and the blocks' height
	gap, screw        string // of the plates; the tube's clamps have the same screw
	leg, spread       string // a leg's side, and its pads' spacing where the place's own holes do not do
	clamp, socket     string // walls around the tube and around a leg
}

// classes are the start sections by the propeller's size: own choice, near what columns of these aircraft have.
var classes = []class{
	{3.9, "11 mm", "8 mm", "1.6 mm", [2]string{"3 mm", "2 mm"}, "6 mm", "4 mm", "14 mm", "2 mm", "16 mm", "11 mm", "8 mm", "M2", "4 mm", "44 mm", "2.4 mm", "1.6 mm"},
	{6, "15 mm", "11 mm", "2 mm", [2]string{"4 mm", "3 mm"}, "10 mm", "8 mm", "16 mm", "3 mm", "20 mm", "14 mm", "12 mm", "M3", "5 mm", "54 mm", "3 mm", "2 mm"},
	{8.5, "18 mm", "12 mm", "2.4 mm", [2]string{"4 mm", "3 mm"}, "10 mm", "8 mm", "20 mm", "3 mm", "24 mm", "16 mm", "14 mm", "M3", "6 mm", "64 mm", "4 mm", "2.4 mm"},
	{11.5, "20 mm", "14 mm", "2.4 mm", [2]string{"4 mm", "3 mm"}, "12 mm", "10 mm", "20 mm", "4 mm", "26 mm", "16 mm", "16 mm", "M3", "7 mm", "76 mm", "4 mm", "2.4 mm"},
	{1000, "24 mm", "16 mm", "2.8 mm", [2]string{"5 mm", "3 mm"}, "14 mm", "12 mm", "24 mm", "4 mm", "30 mm", "18 mm", "18 mm", "M3", "8 mm", "96 mm", "4 mm", "2.4 mm"},
}

// classOf is the class of an aircraft: by its propeller, or by its motor diagonal where that is not answered; the seven-inch one by default.
func classOf(doc *design.Document) class {
	inches := doc.Motors.Propeller.Metres() / 0.0254
	if inches == 0 {
		inches = doc.Airframe.MotorDiagonal.Metres() / 0.0254 * 0.58 // propellers of a quad almost touch along its sides
	}
	if inches == 0 {
		inches = 7
	}
	for _, c := range classes {
		if inches <= c.propeller {
			return c
		}
	}
	return classes[len(classes)-1]
}

// start is what a style begins with on an aircraft, as answers; legs get more room
// from one attempt to the next: first they stand on the place's holes, then on a wider pattern of their own, then under a larger tray.
func start(doc *design.Document, style string, room int) [][2]string {
	c := classOf(doc)
	all := [][2]string{{"mast.build", style}, {"mast.root_fillet", c.fillets[0]}, {"mast.tip_fillet", c.fillets[1]}}
	switch style {
	case "column":
		all = append(all, [][2]string{{"mast.section", "rectangular"}, {"mast.root.x", c.root}, {"mast.root.y", c.root}, {"mast.tip.x", c.tip}, {"mast.tip.y", c.tip},
			{"mast.wall", c.wall}, {"mast.corner", "2 mm"}, {"mast.cable_way.side", "rear"}, {"mast.cable_way.width", "4 mm"}, {"mast.cable_way.length", "10 mm"},
			{"mast.cable_way.bottom", "16 mm"}, {"materials.mast", doc.Materials.Foot}}...)
	case "tube":
		all = append(all, [][2]string{{"mast.tube.outside", c.tube}, {"mast.tube.bore", c.bore}, {"mast.tube.clamp.grip", c.grip}, {"mast.tube.clamp.screw", c.screw}, {"mast.tube.clamp.wall", c.clamp}}...)
	case "twin-plate":
		all = append(all, [][2]string{{"mast.plates.thickness", c.plate}, {"mast.plates.root", c.wide}, {"mast.plates.tip", c.wide}, {"mast.plates.grip", c.tall},
			{"mast.plates.gap", c.gap}, {"mast.plates.screw", c.screw}, {"mast.plates.spacers", "1"}, {"mast.plates.spacer", "two screws"}, {"mast.cable_way.side", "rear"},
			{"materials.spacer", doc.Materials.Foot}, {"foot.screws", "aluminium"}, {"tray.screws", "aluminium"}}...)
	case "legs":
		all = append(all, [][2]string{{"mast.legs.section.x", c.leg}, {"mast.legs.section.y", c.leg}, {"materials.legs", doc.Materials.Foot}, {"foot.screws", "aluminium"},
			{"mast.legs.socket", c.socket}}...)
		if room > 0 {
			all = append(all, [][2]string{{"mast.legs.pattern", "rectangle"}, {"mast.legs.spread.x", c.spread}, {"mast.legs.spread.y", c.spread}, {"mast.legs.screw", c.screw}}...)
		}
		if size, ok := doc.TraySize(); ok && room > 1 { // the sockets stand around the receiver's screws
			more := func(x units.Length) string {
				return units.Millimetres(math.Ceil(x.Millimetres() + 24*float64(room-1))).String()
			}
			all = append(all, [][2]string{{"tray.size.x", more(size.X)}, {"tray.size.y", more(size.Y)}}...)
		}
	}
	return all
}
