package design

import (
	"fmt"

	"mastwright/design/units"
	"mastwright/materials"
)

// Tube is a stock round tube and the printed split clamps at its ends.
type Tube struct {
	Outside units.Length `yaml:"outside"`
	Bore    units.Length `yaml:"bore"`
	Clamp   Clamp        `yaml:"clamp"`
}

// Clamp is a split sleeve that a screw closes on a tube.
type Clamp struct {
	Grip  units.Length `yaml:"grip"`  // along the tube, at each end
	Wall  units.Length `yaml:"wall"`  // around the tube
	Slit  units.Length `yaml:"slit"`  // width of the split before it is closed
	Screw string       `yaml:"screw"` // M2, M2.5, M3, M4
	Key   string       `yaml:"key"`   // cross screw, none: what keeps the tube from turning

	Washers string `yaml:"washers"` // none, under heads and nuts
}

// Plates are two cut sheets side by side: they stand left and right of the mast's axis, their width fore and aft.
type Plates struct {
	Thickness  units.Length `yaml:"thickness"`
	Root       units.Length `yaml:"root"` // width at the foot
	Tip        units.Length `yaml:"tip"`  // width at the tray
	Gap        units.Length `yaml:"gap"`  // between the two
	Corner     units.Length `yaml:"corner"`
	Grip       units.Length `yaml:"grip"`    // height of the blocks of foot and tray that they are screwed to
	Spacers    int          `yaml:"spacers"` // between foot and tray
	Spacer     string       `yaml:"spacer"`  // two screws, tabs, single screw
	Screw      string       `yaml:"screw"`   // M2, M2.5, M3, M4
	Washers    string       `yaml:"washers"` // none, under heads and nuts
	Lightening Lightening   `yaml:"lightening"`
	Kerf       units.Length `yaml:"kerf"` // width that the cut takes away
}

// Lightening is a row of round holes up the middle of each plate.
type Lightening struct {
	Count    int          `yaml:"count"`
	Diameter units.Length `yaml:"diameter"`
	Web      units.Length `yaml:"web"` // least material around each
}

// Legs are slender bars from pads on the frame up to the tray.
type Legs struct {
	Pattern string       `yaml:"pattern"` // stack holes, rectangle, ring: what their pads are screwed to
	Count   int          `yaml:"count"`   // ring: 3 or 4
	Spread  Rectangle    `yaml:"spread"`  // rectangle: spacing of the pads' screws; y as x when not given
	Ring    units.Length `yaml:"ring"`    // ring: diameter through the pads' screws
	Screw   string       `yaml:"screw"`   // rectangle and ring: M2, M2.5, M3, M4; the place's screw on the stack holes
	Top     Rectangle    `yaml:"top"`     // spacing of the legs' axes at the tray; to the tray's edge when not given
	Section Rectangle    `yaml:"section"` // x in the direction it leans, y across; y as x when not given
	Made    string       `yaml:"made"`    // printed lying, cut
	Grip    units.Length `yaml:"grip"`    // depth of the sockets in pads and tray
	Socket  units.Length `yaml:"socket"`  // wall of the sockets
	Pad     units.Length `yaml:"pad"`     // thickness of the pads
	Kerf    units.Length `yaml:"kerf"`    // width that the cut takes away, of cut legs
	Stand   string       `yaml:"stand"`   // beside the screws, over the screws
}

// Fuse is a weakened ring that breaks before the receiver's tray and the frame's plate do.
type Fuse struct {
	Fitted bool         `yaml:"fitted"`
	Height units.Length `yaml:"height"` // of its middle above the mounting face; just above the root fillet or the clamp when not given
	Width  units.Length `yaml:"width"`  // along the mast
	Wall   units.Length `yaml:"wall"`   // what is left of the wall
}

// Copies is how many of a part are made.
type Copies struct {
	Part  string `yaml:"part"`
	Count int    `yaml:"count"`
}

// Root is the outside of what stands on the foot: the column's root, the clamp or the block; nothing where legs stand on pads.
func (d *Document) Root() Rectangle { return d.end(d.Mast.Root, d.Mast.Plates.Root) }

// Tip is the outside of what carries the tray: the column's tip, the clamp or the block; nothing where legs do.
func (d *Document) Tip() Rectangle { return d.end(d.Mast.Tip, d.Mast.Plates.Tip) }

func (d *Document) end(column Rectangle, plate units.Length) Rectangle {
	switch m := d.Mast; m.Build {
	case "tube":
		across := m.Tube.Outside + 2*m.Tube.Clamp.Wall
		return Rectangle{across, across}
	case "twin-plate":
		return Rectangle{plate, m.Plates.Gap}
	case "legs":
		return Rectangle{}
	default:
		return m.Outline(column)
	}
}

// Bearing is the material of what stands between foot and tray: the mast, the tube, the plates or the legs.
func (d *Document) Bearing() string {
	switch d.Mast.Build {
	case "tube":
		return d.Materials.Tube
	case "twin-plate":
		return d.Materials.Sheet
	case "legs":
		return d.Materials.Legs
	}
	return d.Materials.Mast
}

// Bearer is what carries the tray, in a word: mast, tube, plates or legs.
func (d *Document) Bearer() string {
	switch d.Mast.Build {
	case "tube", "legs":
		return d.Mast.Build
	case "twin-plate":
		return "plates"
	}
	return "mast"
}

// LegForm is the form of material that legs are made of.
func (d *Document) LegForm() materials.Form {
	if d.Mast.Legs.Made == "cut" {
		return materials.Sheet
	}
	return materials.Print
}

// styleNotes says what is unusual about a style's answers.
func (d *Document) styleNotes() []Problem {
	var notes []Problem
	say := func(path, format string, args ...any) {
		notes = append(notes, Problem{Path: path, Value: d.Get(path), Text: fmt.Sprintf(format, args...)})
	}
	sheet := func(path, id string, thickness units.Length) {
		m, err := d.Library().Find(id)
		if err != nil || thickness <= 0 {
			return
		}
		if near, exact := m.NearestSheet(thickness); !exact && near > 0 {
			say(path, "%v is not among the thicknesses that shops keep of %s; the nearest is %v", thickness, id, near)
		}
	}
	switch m := d.Mast; m.Build {
	case "twin-plate":
		sheet("mast.plates.thickness", d.Materials.Sheet, m.Plates.Thickness)
		if m.Plates.Tip > m.Plates.Root {
			say("mast.plates.tip", "the plates are wider at the tray than at the foot, which costs mass where it swings most")
		}
		if m.Plates.Spacer == "single screw" && m.Plates.Spacers > 0 {
			say("mast.plates.spacer", "spacers on a single screw are pivots and stiffen nothing sideways; two screws in line with the plate, or tabs, do")
		}
	case "legs":
		if m.Legs.Made == "cut" {
			sheet("mast.legs.section.y", d.Materials.Legs, m.Legs.Section.Square().Y)
		}
	}
	return notes
}
