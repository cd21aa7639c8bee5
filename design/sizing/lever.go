package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/materials"
)

// Change is an answer that a field gets.
type Change struct {
	Path  string
	Value string // as a file holds it, "2.4 mm"; "" where the answer is withdrawn
}

// lever is a field that may be moved, over the values one would type. What belongs with it moves along.
type lever struct {
	path  string
	field design.Field
	doc   *design.Document

	count     int // of values
	low, high int // least and greatest value that is looked at
	at        int // value nearest to the present one; -1 for a choice that is none of them

	ordered bool // a number: its values are on a lattice
	now     float64
	first   int // lattice number of value 0
	step    float64

	choices []choice // otherwise
}

// choice is a value of a lever without order.
type choice struct {
	text    string
	changes []Change
}

// plates are thicknesses that are printed lying, layer by layer.
var plates = []string{"foot.thickness", "tray.thickness"}

// unmoved are fields of the shape that are facts of the printer or matters of fit, not of strength: no repair and no sizing moves them.
var unmoved = []string{"print.line_width", "print.layer", "print.hole_add", "print.speed", "foot.fit", "foot.head", "foot.relief", "foot.corner",
	"tray.clearance", "tray.corner", "tray.rim_height", "tray.rim_wall", "tray.opening.x", "tray.opening.y", "mast.cable_way.side", "mast.cable_way.width",
	"mast.cable_way.length"}

// workable are measured fields that a builder can change on the aircraft.
var workable = []string{"leads[].spacing", "leads[].run", "leads[].pitch", "leads[].side", "leads[].offset", "leads[].height", "cable.length",
	"cable.pull_up", "cable.clock", "motors.balance", "receiver.fixing"}

// printed are the materials that are set together: a mount is printed from one spool.
var printed = []string{"materials.mast", "materials.foot", "materials.tray", "materials.spacer", "materials.legs"}

// Movable lists the fields of a design that a repair may change and that may be freed for sizing. The first of the printed parts'
// materials stands for all of them, a tube's outside for the stock tube with its bore and material, and the plates' thickness for the
// sheet with its material.
func Movable(doc *design.Document) []string {
	var paths []string
	for _, l := range levers(doc) {
		paths = append(paths, l.path)
	}
	return paths
}

// levers are all of a design's, in the order of the field table.
func levers(doc *design.Document) []lever {
	var list []lever
	for _, path := range doc.Paths() {
		if l, ok := newLever(doc, path); ok {
			list = append(list, l)
		}
	}
	return list
}

func newLever(doc *design.Document, path string) (lever, bool) {
	f, ok := design.FieldOf(path)
	if !ok || !doc.Asked(path) || slices.Contains(unmoved, f.Path) || f.Stage != "shape" && !slices.Contains(workable, f.Path) {
		return lever{}, false
	}
	l := lever{path: path, field: f, doc: doc}
	switch {
	case path == "mast.tube.outside":
		l.choices = stockTubes(doc)
	case path == "mast.tube.bore" && len(stockTubes(doc)) > 0:
		return l, false
	case path == "mast.plates.thickness":
		l.choices = stockSheets(doc)
	case f.Form == design.Choice:
		for _, text := range f.Choices {
			l.choices = append(l.choices, choice{text, []Change{{path, text}}})
		}
	case path == spool(doc):
		l.choices = plastics(doc)
	case path == "mast.place":
		for _, p := range doc.Airframe.Places {
			l.choices = append(l.choices, choice{p.Name, []Change{{path, p.Name}}})
		}
	}
	if len(l.choices) == 0 && (f.Form == design.Quantity || f.Form == design.Count) {
		return l.numbered()
	}
	if l.place() < 0 && slices.Contains(stocked, path) {
		l.choices = append(l.choices, l.present())
	}
	l.count, l.high = len(l.choices), len(l.choices)-1
	l.at = l.place()
	return l, l.count > 1
}

// place is the choice that the design has made, -1 for none of them.
func (l lever) place() int {
	return slices.IndexFunc(l.choices, func(c choice) bool {
		return !slices.ContainsFunc(c.changes, func(c Change) bool { return l.doc.Get(c.Path) != c.Value })
	})
}

// stocked are the fields whose choices are what shops keep.
var stocked = []string{"mast.tube.outside", "mast.plates.thickness"}

// present is the choice of what the design has where shops do not keep that.
func (l lever) present() choice {
	c := choice{text: l.doc.Get(l.path) + " as it is"}
	for _, change := range l.choices[0].changes {
		c.changes = append(c.changes, Change{change.Path, l.doc.Get(change.Path)})
	}
	return c
}

// spool is the path of the printed parts' material.
func spool(doc *design.Document) string {
	if doc.Asked("materials.mast") {
		return "materials.mast"
	}
	return "materials.foot"
}

// plastics are the materials a mount can be printed of.
func plastics(doc *design.Document) []choice {
	library := doc.Library()
	var list []choice
	for _, m := range library.Of(materials.Print) {
		c := choice{text: m.ID}
		for _, path := range printed {
			if now, err := library.Find(doc.Get(path)); doc.Asked(path) && (err != nil || now.Form == materials.Print) {
				c.changes = append(c.changes, Change{path, m.ID})
			}
		}
		list = append(list, c)
	}
	return list
}

// stockTubes are the tubes that shops keep.
func stockTubes(doc *design.Document) []choice {
	var list []choice
	for _, m := range doc.Library().Of(materials.Tube) {
		for _, size := range m.Tubes() {
			list = append(list, choice{size.String() + " " + m.Title, []Change{
				{"mast.tube.outside", size.Outside.String()}, {"mast.tube.bore", size.Bore.String()}, {"materials.tube", m.ID},
			}})
		}
	}
	return list
}

// stockSheets are the sheets that shops keep.
func stockSheets(doc *design.Document) []choice {
	var list []choice
	for _, m := range doc.Library().Of(materials.Sheet) {
		for _, thickness := range m.Sheets() {
			list = append(list, choice{thickness.String() + " " + m.Title, []Change{
				{"mast.plates.thickness", thickness.String()}, {"materials.sheet", m.ID},
			}})
		}
	}
	return list
}

// numbered lays the lattice of a quantity or a count. A field that is neither answered nor defaulted follows another and is no lever.
func (l lever) numbered() (lever, bool) {
	text := l.doc.Get(l.path)
	if text == "" {
		return l, false
	}
	now, err := l.field.Kind.Parse(text)
	if err != nil {
		return l, false
	}
	l.now, l.step, l.ordered = now, step(l.doc, l.field), true
	l.first = int(math.Ceil(l.field.Low/l.step - 1e-9))
	last := int(math.Floor(l.field.High/l.step + 1e-9))
	l.count = last - l.first + 1
	l.at = min(max(int(math.Round(now/l.step))-l.first, 0), l.count-1)
	l.low, l.high = 0, l.count-1
	if slices.Contains(plates, l.path) { // a printed plate is no thinner than a printed wall may be
		l.low = min(l.at, max(0, int(math.Ceil(l.doc.Limits.MastWall.Pass.Millimetres()/l.step-1e-9))-l.first))
	}
	if now > 0 { // no more than four times and no less than a quarter of what it is, and a lead does not change to the plate's other side
		l.low = max(l.low, int(math.Ceil(now/reach/l.step))-l.first)
		l.high = max(l.at, min(l.high, int(math.Floor(now*reach/l.step))-l.first))
	} else if now < 0 {
		l.high = max(l.at, min(l.high, int(math.Floor(now/reach/l.step))-l.first))
	}
	return l, l.count > 1
}

// reach is how many times larger or smaller a number may become.
const reach = 4

// step is the distance of two values one would type, in the kind's file unit.
func step(doc *design.Document, f design.Field) float64 {
	switch {
	case f.Path == "mast.wall":
		return doc.Print.LineWidth.Millimetres()
	case slices.Contains(plates, f.Path):
		return doc.Print.Layer.Millimetres()
	case f.Form == design.Count:
		return 1
	}
	switch f.Kind {
	case units.LengthKind:
		switch {
		case f.High <= 80:
			return 0.1
		case f.High <= 400:
			return 0.5
		}
		return 5
	case units.RatioKind:
		return 0.05
	case units.AngleKind:
		return 0.5
	case units.ResistanceKind:
		return 100
	case units.FrequencyKind:
		return 100e3 // the bus's clocks are 100 and 400 kHz
	}
	return round125((f.High - f.Low) / 200)
}

// round125 is the nearest of 1, 2 and 5 times a power of ten from above.
func round125(x float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*ten {
			return m * ten
		}
	}
	return 10 * ten
}

// value is a lattice value of an ordered lever, in the kind's file unit.
func (l lever) value(i int) float64 {
	return math.Round(float64(l.first+i)*l.step*1e6) / 1e6
}

// text is a value as one would type it.
func (l lever) text(i int) string {
	switch {
	case !l.ordered:
		return l.choices[i].text
	case l.field.Form == design.Count:
		return fmt.Sprint(l.first + i)
	}
	return l.field.Kind.Format(l.value(i))
}

// change is what setting the lever to a value answers.
func (l lever) change(i int) []Change {
	if l.ordered {
		return []Change{{l.path, l.text(i)}}
	}
	changes := l.choices[i].changes
	if strings.HasSuffix(l.path, "].run") && l.text(i) == "twisted" {
		pitch := strings.TrimSuffix(l.path, "run") + "pitch"
		if !l.doc.Has(pitch) {
			changes = append(slices.Clone(changes), Change{pitch, units.Millimetres(max(25, 5*math.Ceil(1.6*l.conductor()))).String()})
		}
	}
	return changes
}

// conductor is the wire's diameter in mm of the lead that a lever belongs to: a turn is no shorter than eight of them.
func (l lever) conductor() float64 {
	head, _, _ := strings.Cut(l.path, "]")
	d, err := units.Parse[units.Length](l.doc.Get(head + "].conductor"))
	if err != nil {
		return 0
	}
	return d.Millimetres()
}

// size is how large a change is: the share of an ordered value, 1 for a choice.
func (l lever) size(i int) float64 {
	if !l.ordered {
		return 1
	}
	to := l.value(i)
	if l.now > 0 && to > 0 {
		return math.Abs(math.Log(to / l.now))
	}
	return math.Abs(to-l.now) / (math.Abs(to) + math.Abs(l.now))
}

// outwards are the values at which a lever is tried, in each direction from the present one, nearest first: closely near it and never
// further apart than an eighth of the way.
func (l lever) outwards() (down, up []int) { return away(l.at, l.low), away(l.at, l.high) }

// away steps from a value to an end.
func away(from, to int) []int {
	sign, far := 1, to-from
	if far < 0 {
		sign, far = -1, -far
	}
	var list []int
	for at, gap := 1, 1; at <= far; at += gap {
		list = append(list, from+sign*at)
		if gap = min(at, max(1, far/8), far-at); gap == 0 {
			break
		}
	}
	return list
}

// probes are a few values over a lever's whole way, the present one left out.
func (l lever) probes() []int {
	var list []int
	if !l.ordered {
		for i := range l.count {
			if i != l.at {
				list = append(list, i)
			}
		}
		return list
	}
	for _, part := range []float64{-1, -0.5, -0.15, 0.15, 0.5, 1} {
		end := l.high
		if part < 0 {
			end = l.low
		}
		if i := l.at + int(math.Abs(part)*float64(end-l.at)); i != l.at && !slices.Contains(list, i) {
			list = append(list, i)
		}
	}
	return list
}
