package design

import "mastwright/design/units"

// Lead is a circuit that carries the motors' current: there and back.
type Lead struct {
	Name  string `yaml:"name"`
	Given string `yaml:"given"` // words, route, loop, measured

	From   string       `yaml:"from"`   // words: a neighbour's name, such as the pack
	To     string       `yaml:"to"`     // words: a neighbour's name, such as a controller
	Side   string       `yaml:"side"`   // words: left, right or under the mast
	Offset units.Length `yaml:"offset"` // words: sideways distance from the mast's axis on that side
	Height units.Length `yaml:"height"` // words: of the pair's middle above the main plate

	Points []Point `yaml:"points"` // route: middle line of the pair; loop: the wire itself, its last point joined to its first

	Run        string       `yaml:"run"` // side by side, stacked, twisted
	Spacing    units.Length `yaml:"spacing"`
	Pitch      units.Length `yaml:"pitch"` // twisted: length of one full turn
	Conductor  units.Length `yaml:"conductor"`
	LoopFactor units.Ratio  `yaml:"loop_factor"`

	Flux           units.FluxPerCurrent `yaml:"flux"`            // measured: horizontal change of field per ampere
	MeasuredHeight units.Length         `yaml:"measured_height"` // measured: of the compass above the lead
	Decay          units.Ratio          `yaml:"decay"`           // measured: power of distance with which the field falls

	Currents Currents `yaml:"currents"`
}

// Currents are what a lead carries in four states.
type Currents struct {
	Idle   units.Current `yaml:"idle"` // armed, not flying
	Hover  units.Current `yaml:"hover"`
	Cruise units.Current `yaml:"cruise"`
	Full   units.Current `yaml:"full"` // bursts
}

// Cable is the wire between receiver and flight controller.
type Cable struct {
	Length      units.Length               `yaml:"length"`
	Capacitance units.CapacitancePerLength `yaml:"capacitance"`
	PullUp      units.Resistance           `yaml:"pull_up"` // all pull-ups of the bus together
	Clock       units.Frequency            `yaml:"clock"`   // 100 or 400 kHz, in Hz
	Devices     int                        `yaml:"devices"` // on the bus, the controller included
	Slack       units.Length               `yaml:"slack"`
}
