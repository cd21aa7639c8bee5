package design

import "mastwright/design/units"

// Receiver is the satellite receiver with its built-in compass. Its own axes: origin in the middle of its underside, x
// forward, y left, z up as it is mounted.
type Receiver struct {
	From      string       `yaml:"from"`
	Name      string       `yaml:"name"`
	Shape     string       `yaml:"shape"` // rectangular, round
	Size      Size         `yaml:"size"`  // round: x is the diameter, y is not asked
	Mass      units.Mass   `yaml:"mass"`
	Compass   Point        `yaml:"compass"`   // in the receiver's axes
	Arrow     string       `yaml:"arrow"`     // forward, left, rear, right: where its arrow points once mounted
	Connector string       `yaml:"connector"` // front, left, rear, right: side of its plug
	Plug      units.Length `yaml:"plug"`      // width of its plug; the rim's gap is as wide and keeps a round body from turning
	Fixing    string       `yaml:"fixing"`    // rim, screws, strap, tape
	Holes     Rectangle    `yaml:"holes"`     // screws: spacing of its four holes
	Screw     string       `yaml:"screw"`     // screws: M2, M2.5, M3
	Lug       units.Length `yaml:"lug"`       // screws: thickness of its ears; 2 mm when not given, a judgement
	Tape      Tape         `yaml:"tape"`
	CaseForce units.Force  `yaml:"case_force"` // sideways blow its case survives
	Supply    VoltageRange `yaml:"supply"`
}

// Tape is a foam pad under the receiver.
type Tape struct {
	Size         Rectangle    `yaml:"size"`
	Thickness    units.Length `yaml:"thickness"`
	ShearLow     units.Stress `yaml:"shear_low"`
	ShearTypical units.Stress `yaml:"shear_typical"`
	ShearHigh    units.Stress `yaml:"shear_high"`
}

// VoltageRange is the supply a device accepts.
type VoltageRange struct {
	Low  units.Voltage `yaml:"low"`
	High units.Voltage `yaml:"high"`
}
