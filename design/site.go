package design

import "mastwright/design/units"

// Site is where and when the aircraft flies.
type Site struct {
	Latitude     units.Angle       `yaml:"latitude"`  // north positive
	Longitude    units.Angle       `yaml:"longitude"` // east positive
	Altitude     units.Length      `yaml:"altitude"`  // above the sea; typed in m
	Year         units.Ratio       `yaml:"year"`      // decimal year of the flight
	Extrapolated bool              `yaml:"extrapolated"`
	Mask         units.Angle       `yaml:"mask"`    // elevation below which satellites are not used
	Service      units.Temperature `yaml:"service"` // hottest the mount gets
}

// Loads are what the mount must bear.
type Loads struct {
	Sideways units.Acceleration `yaml:"sideways"` // of a manoeuvre
	Axial    units.Acceleration `yaml:"axial"`    // along the mast, from thrust over weight
	Hand     units.Force        `yaml:"hand"`     // on the tray, any direction
	Drag     units.Ratio        `yaml:"drag"`     // coefficient of mast and receiver
	Ground   string             `yaml:"ground"`   // turf, hard: what an inverted landing strikes
}

// Assume holds the judgements that no measurement on the bench replaces, each editable.
type Assume struct {
	ThrustCoefficient units.Ratio      `yaml:"thrust_coefficient"` // of the propeller; by blades when not given
	ThrustRipple      units.Ratio      `yaml:"thrust_ripple"`      // share of hover thrust at blade-pass
	JointLoss         units.Ratio      `yaml:"joint_loss"`         // damping ratio of screws and joints
	ContactHard       units.Compliance `yaml:"contact_hard"`
	ContactTurf       units.Compliance `yaml:"contact_turf"`
	HingeFactor       units.Ratio      `yaml:"hinge_factor"`   // plastic moment over yield moment
	HingeStrain       units.Ratio      `yaml:"hinge_strain"`   // share of the elongation that a blow at a notch leaves
	ClampBed          units.Ratio      `yaml:"clamp_bed"`      // stiffness of a clamp's bed over its plastic's modulus, a metre of grip
	ClampFriction     units.Ratio      `yaml:"clamp_friction"` // between a clamp and its tube
	Preload           units.Ratio      `yaml:"preload"`        // of a tightened screw over its breaking load
	PlacementSide     units.Length     `yaml:"placement_side"` // compass off the lead's middle
	PlacementRoll     units.Angle      `yaml:"placement_roll"` // of the pair about its run
	PlacementGap      units.Ratio      `yaml:"placement_gap"`  // of the pair's spacing
}
