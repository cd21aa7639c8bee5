package motor

// Regime is how the rotors are running.
type Regime int

// The regimes, in rising order of their middle.
const (
	Idle Regime = iota
	Hover
	Working // hover with trim, wind and cruise
	Full
)

// String returns the regime's name.
func (r Regime) String() string {
	return [...]string{"idle", "hover", "working", "full"}[r]
}

// Line is one excitation of the rotors: an order of the rotor speed in a regime.
type Line struct {
	Regime Regime
	Order  int    // cycles per revolution
	Name   string // once-per-rev, twice-per-rev, blade-pass
	Band   Band
	Mid    float64 // Hz; the middle of the band for Working
	Judged bool    // false for twice-per-rev, which is drawn only
}

// Lines returns once-per-rev, twice-per-rev and blade-pass of every regime, in that
// order. With two blades the second is the third and is left out.
func (r Rotors) Lines() []Line {
	var lines []Line
	for _, regime := range []Regime{Idle, Hover, Working, Full} {
		lines = append(lines, r.line(regime, 1, "once-per-rev"))
		if r.Drive.Blades != 2 {
			lines = append(lines, r.line(regime, 2, "twice-per-rev"))
		}
		lines = append(lines, r.line(regime, r.Drive.Blades, "blade-pass"))
	}
	return lines
}

// Band returns an order (cycles per revolution) of the rotor speed in a regime, in Hz.
func (r Rotors) Band(regime Regime, order int) Band {
	s := r.speed(regime)
	return Band{Low: s.Low * float64(order), High: s.High * float64(order)}
}

// BladePass returns the frequency in Hz at which blades pass a point, n × blades, at a rotor speed in Hz.
func BladePass(blades int, speed float64) float64 { return float64(blades) * speed }

func (r Rotors) line(regime Regime, order int, name string) Line {
	return Line{
		Regime: regime, Order: order, Name: name,
		Band: r.Band(regime, order), Mid: r.speed(regime).Mid * float64(order),
		Judged: name != "twice-per-rev",
	}
}

func (r Rotors) speed(regime Regime) Spread {
	switch regime {
	case Idle:
		return r.Idle
	case Hover:
		return r.Hover
	case Full:
		return r.Full
	}
	return Spread{Low: r.Working.Low, Mid: (r.Working.Low + r.Working.High) / 2, High: r.Working.High}
}
