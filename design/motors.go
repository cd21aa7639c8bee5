package design

import "mastwright/design/units"

// Motors are the motors, the pack that feeds them and their propellers.
type Motors struct {
	Count           int                 `yaml:"count"`
	KV              units.MotorConstant `yaml:"kv"`
	Cells           int                 `yaml:"cells"`
	Blades          int                 `yaml:"blades"`
	Propeller       units.Length        `yaml:"propeller"`        // diameter
	PropellerHeight units.Length        `yaml:"propeller_height"` // of the disc above the main plate's top face
	RotatingMass    units.Mass          `yaml:"rotating_mass"`    // propeller and bell of one motor; by propeller size when not given
	Balance         string              `yaml:"balance"`          // balanced, unselected, worn: ISO 21940-11 grades G 6.3, G 16, G 40
	HoverSpeed      units.RotorSpeed    `yaml:"hover_speed"`      // measured; optional
	FullSpeed       units.RotorSpeed    `yaml:"full_speed"`       // measured; optional
	At              []Spot              `yaml:"at"`               // shaft positions; on the motor diagonal when not given
}
