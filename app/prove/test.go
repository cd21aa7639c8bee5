package prove

import (
	"fmt"
	"strings"
)

// Test is one test as a list shows it.
type Test struct {
	Name    string // "tap"
	Title   string
	How     string // what to do
	Record  string // what is read or typed
	Powered bool   // current flows: the cautions go first
}

// Tests lists the tests in the order in which they are done.
func Tests() []Test {
	return []Test{
		{"weigh", "Weigh", "Put each printed part on a kitchen scale, without screws and supports.", "part and mass", false},
		{"caliper", "Caliper", "Measure up to six dimensions of the printed parts, holes among them.", "dimension and measured", false},
		{"tap", "Tap", "Screw the mount to a solid block with the receiver on it, tap its top with a finger five times, two seconds apart, and record the sound or a gyro beside it.", "sound, acceleration or gyro", true},
		{"hang", "Hang", "Fix the foot with the mast level, hang masses from the tray one after the other and off again, and read each time how far it moves.", "mass and deflection", false},
		{"throttle", "Throttle", "Log compass and current over an ordinary flight by hand in calm air: hover ten seconds, then climb straight up three times, each time harder, the nose held at one heading. " +
			"No bench test: without propellers the current hardly rises, and nothing with propellers on is held or tied down.", "three compass axes and current or throttle", true},
		{"pointing", "Pointing", "Away from steel and cars, point the nose at north, east, south and west and read the heading shown; then once with the nose down.", "nose and heading", true},
		{"hover", "Hover", "Log half a minute of steady hover, or record its sound from outside the propellers' reach.", "acceleration, gyro or sound", true},
		{"turn", "Turn", "Away from steel, log the compass while the aircraft is turned by hand through all attitudes.", "three compass axes", true},
		{"radio", "Radio", "Under open sky, read satellites and signal with everything off, and with each device off and on.", "state, satellites and signal", true},
	}
}

// Cautions are said before the test; a test without current has none.
func (t Test) Cautions() []string {
	all := cautions()
	switch t.Name {
	case "tap", "radio", "pointing", "turn": // a gyro and the receiver are powered from the aircraft
		return all[:1]
	case "hover", "throttle": // flown, propellers on
		return all[1:]
	}
	return nil
}

// cautions are those of all the tests.
func cautions() []string {
	return []string{
		"Take the propellers off for every bench step that powers the aircraft.",
		"This is a flight: fly only as your local rules allow, and let nobody within the propellers' reach.",
	}
}

func noTest(name string) error {
	var names []string
	for _, t := range Tests() {
		names = append(names, t.Name)
	}
	return refuse(fmt.Sprintf("%q is no test; the tests are %s.", name, strings.Join(names, ", ")))
}
