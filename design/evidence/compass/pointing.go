package compass

import (
	"fmt"
	"math"

	"mastwright/design/evidence/bench"
)

// North is the direction that headings are counted from.
type North int

// The norths.
const (
	Magnetic North = iota // a compass in the hand; a flight controller without the site's declination
	True                  // a map; a flight controller that adds the declination
)

// String is the north in words.
func (n North) String() string { return [...]string{"magnetic north", "true north"}[n] }

// Reading is a heading that was shown with the nose in a known direction, both in radians clockwise.
type Reading struct {
	Nose  float64
	Shown float64
	Down  float64 // by which the nose was pitched down; 0 level
}

// PointingOptions say what the headings count from and how the flight controller was set.
type PointingOptions struct {
	NoseNorth     North   // what the nose was turned by
	ShownNorth    North   // what the shown headings count from
	Declination   float64 // rad at the site, east positive; needed where the two norths differ
	Dip           float64 // rad at the site, positive where the field points down; 0 when not known
	SetTurn       float64 // rad, the turn of the compass that the flight controller was set to
	SetUpsideDown bool    // it was set to a compass upside down
	Tolerance     float64 // rad, by which a reading may be off; 0 means 20 degrees
}

// Pointing is how a compass is mounted.
type Pointing struct {
	TurnDeg    int            `json:"turn_deg"` // of its arrow from the nose, clockwise seen from above, -135 to 180 in steps of 45
	RightWayUp bool           `json:"right_way_up"`
	Angle      bench.Estimate `json:"angle_rad"` // the turn as measured
	Proved     bool           `json:"proved"`    // a nose-down reading told upside down from mirrored axes, or right way up from a mirrored upright axis
	Rose       []Entry        `json:"rose"`
	Mounting   string         `json:"mounting"`   // "turned by 90 degrees clockwise seen from above; right way up"
	Correction string         `json:"correction"` // what to do
	Words      []string       `json:"words"`
}

// Entry is one reading on the compass rose, from magnetic north.
type Entry struct {
	Nose     float64 `json:"nose_rad"`
	Shown    float64 `json:"shown_rad"`
	Expected float64 `json:"expected_rad"` // what this mounting shows there
	Rest     float64 `json:"rest_rad"`     // Shown without Expected
	Down     float64 `json:"down_rad"`
}

// Point finds how a compass is mounted from headings shown with the nose at north and east, better also at south and west.
// Right way up the heading runs with the nose, upside down against it; the constant between them is the turn. A reading with
// the nose down, facing east or west, tells upside down from mirrored axes. Readings that fit neither within the tolerance,
// and those of a compass on its side, are refused with the likely cause.
func Point(readings []Reading, o PointingOptions) (Pointing, error) {
	if o.Tolerance == 0 {
		o.Tolerance = 20 * degree
	}
	level, down, err := o.magnetic(readings)
	if err != nil {
		return Pointing{}, err
	}
	up, over := fitTurn(level, true), fitTurn(level, false)
	if up.worst <= o.Tolerance && over.worst <= o.Tolerance {
		return Pointing{}, refuse("turn the nose to north and to east, better also to south and west",
			"the nose stood in one direction or two opposite ones: right way up and upside down look the same there")
	}
	found := up
	if over.worst < up.worst {
		found = over
	}
	sides := onSide(level, o)
	switch {
	case found.worst > o.Tolerance && len(sides) > 0:
		return Pointing{}, refuse("lay it flat, with its label up", "the compass stands on its side: %s", sides[0])
	case found.worst > o.Tolerance:
		return Pointing{}, noFit(level, found)
	case len(sides) > 0 && len(level) < 4:
		return Pointing{}, refuse("turn the nose to south and to west as well",
			"these readings fit a compass that lies flat and one that stands on its side (%s)", sides[0])
	}
	p := Pointing{}
	if p.Proved, err = found.nod(down, o, &p); err != nil {
		return Pointing{}, err
	}
	for _, r := range append(level, down...) {
		e := Entry{Nose: r.Nose, Shown: r.Shown, Down: r.Down, Expected: found.mount().shown(r.Nose, r.Down, o.Dip)}
		e.Rest = wrap(e.Shown - e.Expected)
		p.Rose = append(p.Rose, e)
	}
	p.compose(found, len(level), o)
	return p, nil
}

// magnetic returns the readings from magnetic north, level ones and nose-down ones.
func (o PointingOptions) magnetic(readings []Reading) (level, down []Reading, err error) {
	from := func(n North) float64 {
		if n == True {
			return o.Declination
		}
		return 0
	}
	for i, r := range readings {
		if v := r.Nose + r.Shown + r.Down; math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, nil, refuse("write it again", "reading %d is no number", i+1)
		}
		if r.Nose < -10 || r.Nose > 10 || r.Shown < -10 || r.Shown > 10 {
			return nil, nil, refuse("write headings from 0 to 360 degrees", "reading %d is no heading", i+1)
		}
		r.Nose, r.Shown = turned(r.Nose-from(o.NoseNorth)), turned(r.Shown-from(o.ShownNorth))
		if r.Down == 0 {
			level = append(level, r)
		} else {
			down = append(down, r)
		}
	}
	if len(level) < 2 {
		return nil, nil, refuse("read the heading with the nose at north and at east", "%d level readings cannot tell how the compass lies", len(level))
	}
	return level, down, nil
}

// turn is a mounting about the vertical that comes nearest to level readings.
type turn struct {
	up          bool
	angle       float64 // of the arrow from the nose, clockwise
	worst, root float64 // greatest and root mean square rest
}

func fitTurn(level []Reading, up bool) turn {
	t := turn{up: up}
	apart := func(r Reading) float64 {
		if up {
			return r.Shown - r.Nose
		}
		return -r.Shown - r.Nose
	}
	var east, north float64
	for _, r := range level {
		s, c := math.Sincos(apart(r))
		east, north = east+s, north+c
	}
	t.angle = math.Atan2(east, north)
	for _, r := range level {
		rest := math.Abs(wrap(apart(r) - t.angle))
		t.worst = max(t.worst, rest)
		t.root += rest * rest / float64(len(level))
	}
	t.root = math.Sqrt(t.root)
	return t
}

// nod holds nose-down readings against the mounting and its mirror image about the upright axis.
func (t turn) nod(down []Reading, o PointingOptions, p *Pointing) (proved bool, err error) {
	if len(down) > 0 && o.Dip == 0 {
		p.Words = append(p.Words, "the nose-down reading was not used: the dip at the site is not known")
		return false, nil
	}
	for _, r := range down {
		right, wrong := t.mount().shown(r.Nose, r.Down, o.Dip), t.mount().mirrored().shown(r.Nose, r.Down, o.Dip)
		if math.Abs(wrap(right-wrong)) < 2*o.Tolerance {
			p.Words = append(p.Words, fmt.Sprintf("the nose-down reading at %.0f° decides nothing: face east and pitch 45° down", r.Nose/degree))
			continue
		}
		switch offRight, offWrong := math.Abs(wrap(r.Shown-right)), math.Abs(wrap(r.Shown-wrong)); {
		case offWrong < offRight && offWrong < 1.5*o.Tolerance:
			return false, refuse("look for an axis with the wrong sign in the compass's driver settings, or replace it",
				"the axes are mirrored: with the nose down at %.0f° a compass would show %.0f°, this one shows %.0f°", r.Nose/degree, turned(right)/degree, r.Shown/degree)
		case offRight < 1.5*o.Tolerance:
			proved = true
		default:
			p.Words = append(p.Words, fmt.Sprintf("the nose-down reading of %.0f° fits nothing; this mounting would show %.0f°", r.Shown/degree, turned(right)/degree))
		}
	}
	return proved, nil
}

// noFit says why level readings fit no mounting.
func noFit(level []Reading, best turn) error {
	const text = "these readings fit no mounting: "
	least, most := 0.0, 0.0
	for _, r := range level {
		by := wrap(r.Shown - level[0].Shown)
		least, most = min(least, by), max(most, by)
	}
	if most-least < 45*degree {
		return refuse("take magnets and steel away from the compass, calibrate it anew and repeat",
			text+"the heading moves by %.0f° only, so a strong field that turns with the aircraft drowns the earth's (a magnetised screw, a loudspeaker, a bad calibration)", (most-least)/degree)
	}
	if len(level) > 2 {
		return refuse("calibrate anew away from steel and repeat; if it stays, try the screws near the compass with a magnet",
			text+"the heading goes round unevenly, off by up to %.0f° (a bad calibration, steel near the compass, or a car or reinforced floor near by)", best.worst/degree)
	}
	change, nose := wrap(level[1].Shown-level[0].Shown), wrap(level[1].Nose-level[0].Nose)
	return refuse("read south and west as well, away from steel; then calibrate anew and repeat",
		text+"the nose turned by %.0f°, the heading by %.0f° (interference, a bad calibration, or axes mixed up in the compass's driver)", nose/degree, change/degree)
}

// wrap brings an angle to -π..π, turned to 0..2π.
func wrap(a float64) float64   { return math.Remainder(a, 2*math.Pi) }
func turned(a float64) float64 { return math.Mod(math.Mod(a, 2*math.Pi)+2*math.Pi, 2*math.Pi) }
