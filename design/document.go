// Package design holds the document: one description of an aircraft, a receiver and the mount between them, from which the
// checks, the parts and the papers are all made.
//
// Positions are in aircraft axes unless a field says otherwise: origin in the middle of the motors on the main plate's top
// face, x forward, y left, z up, in millimetres. A place has axes of its own: origin at the centre of its hole pattern on its
// mounting face, turned about the vertical, before its slope is applied.
//
// Every leaf of the document is a row in the field table (Fields): its path, title, unit, range, default and help. Reading,
// writing, defaults, validation, the form and the list of missing answers all follow from that table.
//
// The sections airframe, receiver, print and materials may name a shelf file, relative to the design: a file of the same form
// that holds one section's keys at its top, below the schema line, and names no other file; materials.from names a list of
// materials. What the design says itself goes before its shelf, and a list before the shelf's list as a whole.
package design

import (
	"mastwright/design/units"
	"mastwright/materials"
)

// Document is a design file that has been read: every leaf has a value, either given by the builder, taken from a shelf file,
// or the table's default. Has tells which leaves were answered; a leaf with no default and no answer holds its type's zero.
type Document struct {
	Schema   int    `yaml:"mastwright"`
	Name     string `yaml:"name"`
	Revision string `yaml:"revision"`

	Airframe  Airframe   `yaml:"airframe"`
	Motors    Motors     `yaml:"motors"`
	Leads     []Lead     `yaml:"leads"`
	Cable     Cable      `yaml:"cable"`
	Receiver  Receiver   `yaml:"receiver"`
	Mast      Mast       `yaml:"mast"`
	Foot      Foot       `yaml:"foot"`
	Tray      Tray       `yaml:"tray"`
	Print     Print      `yaml:"print"`
	Materials Materials  `yaml:"materials"`
	Site      Site       `yaml:"site"`
	Loads     Loads      `yaml:"loads"`
	Assume    Assume     `yaml:"assume"`
	Limits    Limits     `yaml:"limits"`
	Accepted  []Accepted `yaml:"accepted"`
	Measured  []Measured `yaml:"measured"`

	origin map[string]Origin // of leaves and lists that are given or come from a shelf; every other one is its default
	shelf  *Document         // the defaults with the shelf files' answers over them; nil without a shelf file
	own    materials.List    // materials of the file materials.from; empty without one
}

// Point is a position in aircraft axes (or the axes a field names).
type Point struct {
	X units.Length `yaml:"x"` // forward
	Y units.Length `yaml:"y"` // left
	Z units.Length `yaml:"z"` // up
}

// Spot is a position on a face, in the axes of its place.
type Spot struct {
	X units.Length `yaml:"x"` // forward
	Y units.Length `yaml:"y"` // left
}

// Size is the extent of a box along the aircraft axes.
type Size struct {
	X units.Length `yaml:"x"`
	Y units.Length `yaml:"y"`
	Z units.Length `yaml:"z"`
}

// Rectangle is a width fore and aft and a width across.
type Rectangle struct {
	X units.Length `yaml:"x"` // fore and aft
	Y units.Length `yaml:"y"` // across
}

// Accepted says that the builder knows a check does not pass and has a reason to go on. The check's state stays.
type Accepted struct {
	Check  string `yaml:"check"`
	Reason string `yaml:"reason"`
}
