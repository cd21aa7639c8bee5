package design

import "mastwright/design/units"

// Limits are the pass and the marginal limit of every figure that is judged. Beyond the marginal limit a check fails.
type Limits struct {
	Clearance   RatioLimit        `yaml:"clearance"`    // distance over needed distance, at least
	Propeller   LengthLimit       `yaml:"propeller"`    // mount to propeller disc, at least
	HeadingHold AngleLimit        `yaml:"heading_hold"` // swing in hover and cruise, at most
	HeadingFull AngleLimit        `yaml:"heading_full"` // swing at full throttle, at most
	Level       AngleLimit        `yaml:"level"`        // heading error from tilt, at most
	Tilt        AngleLimit        `yaml:"tilt"`         // tilt itself, at most
	Sway        AngleLimit        `yaml:"sway"`         // tray tilt under manoeuvre and drag, at most
	Modes       RatioLimit        `yaml:"modes"`        // lowest mode over control bandwidth, at least
	Shake       AccelerationLimit `yaml:"shake"`        // peak at the compass, at most
	Rate        RateLimit         `yaml:"rate"`         // airframe rate at the controller from the mast
	Strength    RatioLimit        `yaml:"strength"`     // low strength over stress, at least
	Tipover     RatioLimit        `yaml:"tipover"`      // break speed over topple speed, at least
	Heat        DegreesLimit      `yaml:"heat"`         // softening less service temperature, at least
	Remanent    AngleLimit        `yaml:"remanent"`     // heading offset of a magnetised fastener, at most
	SteelFree   units.Length      `yaml:"steel_free"`   // around the compass
	Sky         RatioLimit        `yaml:"sky"`          // share of the sky above the mask lost, at most
	Bus         RatioLimit        `yaml:"bus"`          // rise time over the specification's limit, at most
	Balance     RatioLimit        `yaml:"balance"`      // added mass over take-off mass, at most
	MastWall    LengthLimit       `yaml:"mast_wall"`    // printed wall, at least
}

// RatioLimit is the pair of limits of a ratio.
type RatioLimit struct {
	Pass     units.Ratio `yaml:"pass"`
	Marginal units.Ratio `yaml:"marginal"`
}

// AngleLimit is the pair of limits of an angle.
type AngleLimit struct {
	Pass     units.Angle `yaml:"pass"`
	Marginal units.Angle `yaml:"marginal"`
}

// AccelerationLimit is the pair of limits of an acceleration.
type AccelerationLimit struct {
	Pass     units.Acceleration `yaml:"pass"`
	Marginal units.Acceleration `yaml:"marginal"`
}

// DegreesLimit is the pair of limits of a difference of temperatures.
type DegreesLimit struct {
	Pass     units.TemperatureDifference `yaml:"pass"`
	Marginal units.TemperatureDifference `yaml:"marginal"`
}

// LengthLimit is the pair of limits of a length.
type LengthLimit struct {
	Pass     units.Length `yaml:"pass"`
	Marginal units.Length `yaml:"marginal"`
}

// RateLimit is the limit above which a rate of turn is marginal; it never fails.
type RateLimit struct {
	Pass units.RotationRate `yaml:"pass"` // deg/s
}
