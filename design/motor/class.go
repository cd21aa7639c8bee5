package motor

import "math"

// class is what goes with a propeller size. Every figure is from memory.
type class struct {
	diameter     float64 // propeller, m
	bandwidth    float64 // attitude control, Hz
	rotatingMass float64 // propeller and bell, kg
	idleCurrent  float64 // armed idle, all motors and electronics, A
	efficiency   float64 // ideal induced power over power from the pack, in hover
}

const inch = .0254

var classes = []class{
	{3 * inch, 60, .007, .2, .37},
	{5 * inch, 45, .021, .3, .42},
	{7 * inch, 30, .033, .4, .47},
	{10 * inch, 20, .065, .6, .55},
	{13 * inch, 12, .110, 1.0, .58},
}

// Bandwidth returns the attitude-control bandwidth in Hz usual for a propeller
// diameter in metres: 60, 45, 30, 20 and 12 Hz at 3, 5, 7, 10 and 13 inches,
// straight lines between, level beyond. Source: from memory.
func Bandwidth(diameter float64) float64 {
	return byClass(diameter, func(c class) float64 { return c.bandwidth })
}

// RotatingMass returns the mass in kg of propeller and bell of one motor usual for
// a propeller diameter in metres: 7, 21, 33, 65 and 110 g at 3, 5, 7, 10 and 13
// inches, straight lines between, level beyond. Source: from memory.
func RotatingMass(diameter float64) float64 {
	return byClass(diameter, func(c class) float64 { return c.rotatingMass })
}

// IdleCurrent returns the pack current in A of an armed, idling aircraft usual for
// a propeller diameter in metres: .2, .3, .4, .6 and 1.0 A at 3, 5, 7, 10 and 13
// inches, straight lines between, level beyond. Source: from memory.
func IdleCurrent(diameter float64) float64 {
	return byClass(diameter, func(c class) float64 { return c.idleCurrent })
}

// HoverCurrent estimates the pack current in A in hover from the ideal power of an
// actuator disc,
//
//	I = N T^1.5 / (√(2 ρ A) η U),
//
// with U the pack voltage and η the share of the pack's power that becomes induced
// power: .37 to .58 by propeller size, from memory, ±25 % at the ends of the spread.
// It is 0 when the drive's cells are not given. Source: momentum theory of the
// hovering rotor, any helicopter textbook.
func (r Rotors) HoverCurrent() Spread {
	d := r.Drive
	if d.Cells == 0 {
		return Spread{}
	}
	disc := math.Pi * d.Diameter * d.Diameter / 4
	current := func(mass, share float64) float64 {
		thrust := mass * gravity / float64(d.Count)
		power := float64(d.Count) * math.Pow(thrust, 1.5) / math.Sqrt(2*d.Density*disc)
		efficiency := share * byClass(d.Diameter, func(c class) float64 { return c.efficiency })
		return power / (efficiency * d.CellVoltage * float64(d.Cells))
	}
	return Spread{Low: current(d.MassLow, 1.25), Mid: current(d.Mass, 1), High: current(d.MassHigh, .75)}
}

// byClass interpolates a figure over the propeller diameter, level beyond the ends.
func byClass(diameter float64, figure func(class) float64) float64 {
	if diameter <= classes[0].diameter {
		return figure(classes[0])
	}
	for i := 1; i < len(classes); i++ {
		a, b := classes[i-1], classes[i]
		if diameter <= b.diameter {
			t := (diameter - a.diameter) / (b.diameter - a.diameter)
			return (1-t)*figure(a) + t*figure(b)
		}
	}
	return figure(classes[len(classes)-1])
}
