package design

import "mastwright/design/units"

// Airframe is the aircraft without the mount.
type Airframe struct {
	From            string             `yaml:"from"` // shelf file, relative to the design
	Name            string             `yaml:"name"`
	Mass            units.Mass         `yaml:"mass"`           // take-off mass without the mount
	MotorDiagonal   units.Length       `yaml:"motor_diagonal"` // between the shafts of two opposite motors
	CentreOfGravity Point              `yaml:"centre_of_gravity"`
	Inertia         Inertia            `yaml:"inertia"`   // about the centre of gravity; estimated from mass and diagonal when not given
	Bandwidth       units.Frequency    `yaml:"bandwidth"` // of the attitude control; by propeller size when not given
	Vibration       units.Acceleration `yaml:"vibration"` // measured at the flight controller in hover, rms; optional
	TopSpeed        units.Speed        `yaml:"top_speed"`
	ArmHeight       units.Length       `yaml:"arm_height"` // z of the arm ends' upper side: what an inverted or toppling aircraft turns about
	Places          []Place            `yaml:"places"`
	Neighbours      []Neighbour        `yaml:"neighbours"`
}

// Inertia is the three moments of inertia about the aircraft axes through the centre of gravity.
type Inertia struct {
	X units.Inertia `yaml:"x"`
	Y units.Inertia `yaml:"y"`
	Z units.Inertia `yaml:"z"`
}

// Place is a spot on the frame where a mount could stand.
type Place struct {
	Name         string      `yaml:"name"`
	At           Point       `yaml:"at"`            // centre of the hole pattern on the mounting face
	Turn         units.Angle `yaml:"turn"`          // of the pattern about the vertical, positive to the left (counter-clockwise from above)
	SlopeForward units.Angle `yaml:"slope_forward"` // of the face in hover, positive when its front edge is lower
	SlopeLeft    units.Angle `yaml:"slope_left"`    // of the face in hover, positive when its left edge is lower
	Holes        Holes       `yaml:"holes"`
	Screw        string      `yaml:"screw"` // M2, M2.5, M3, M4
	Plate        Plate       `yaml:"plate"`
	KeepOuts     []KeepOut   `yaml:"keep_outs"`
}

// Holes is a hole pattern as a caliper reads it.
type Holes struct {
	As        string       `yaml:"as"`       // rectangle, ring, listed, distances
	Read      string       `yaml:"read"`     // centres, near edges, far edges: how along, across and ring were read
	Diameter  units.Length `yaml:"diameter"` // of each hole
	Along     units.Length `yaml:"along"`    // rectangle: spacing fore and aft
	Across    units.Length `yaml:"across"`   // rectangle: spacing across; as along when not given
	Ring      units.Length `yaml:"ring"`     // ring: diameter of the circle, read across opposite holes
	Count     int          `yaml:"count"`    // ring: number of holes
	First     units.Angle  `yaml:"first"`    // ring: direction of the first hole from forward, positive to the left
	Points    []Spot       `yaml:"points"`   // listed
	Distances []Distance   `yaml:"distances"`
}

// Distance is a length measured between two numbered holes, counted from 1.
type Distance struct {
	From   int          `yaml:"from"`
	To     int          `yaml:"to"`
	Length units.Length `yaml:"length"`
}

// Plate is what the mount is screwed to.
type Plate struct {
	Backing   string       `yaml:"backing"` // plate, block: a block does not bend
	Material  string       `yaml:"material"`
	Thickness units.Length `yaml:"thickness"`
	Size      Rectangle    `yaml:"size"`     // of the plate's free part; from its supports when not given
	Supports  []Spot       `yaml:"supports"` // standoffs that hold it, in the axes of the place
}

// KeepOut is room on the mounting face that the foot must leave: a strap's slot, the heads of the stack's screws, an antenna.
type KeepOut struct {
	Name   string       `yaml:"name"`
	Shape  string       `yaml:"shape"`  // rectangular, round
	At     Spot         `yaml:"at"`     // its middle, in the axes of the place
	Size   Rectangle    `yaml:"size"`   // round: x is the diameter, y is not asked
	Height units.Length `yaml:"height"` // above the face; all the way up when not given
}

// Neighbour is something on the aircraft that the mount or the compass must stay clear of.
type Neighbour struct {
	Name string `yaml:"name"`
	Kind string `yaml:"kind"` // controller, motor, transmitter, usb3, camera, pack, antenna, access, other
	At   Point  `yaml:"at"`   // centre of its box
	Size Size   `yaml:"size"`
}
