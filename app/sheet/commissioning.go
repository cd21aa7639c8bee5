package sheet

import (
	"fmt"
	"math"
	"strings"

	"mastwright/app/sheet/paper"
	"mastwright/design/units"
)

// commissioning is the list from the first power to the first return home. What is expected of the receiver and of the flights is
// common practice, no source; the figures are the review's.
func (b *builder) commissioning() paper.Section {
	return paper.Section{Title: "Commissioning", Fresh: true, Blocks: []paper.Block{
		paper.Prose{Text: "In this order. Stop at the first box that cannot be ticked and do what stands below it. " +
			"The commands in small type read what was recorded or written down, compare it with this design and offer to enter it; DESIGN.yaml stands for its file."},
		paper.Heading{Text: "On the bench, propellers off"},
		b.bench(),
		paper.Heading{Text: "Outside, propellers off"},
		b.compassTests(),
		paper.Heading{Text: "Flights, where local rules allow them"},
		b.flights(),
	}}
}

func (b *builder) bench() paper.Checks {
	return paper.Checks{
		{Do: "Propellers are off.", Expect: "All of them, and they lie where nobody puts them back by habit."},
		{Do: "Tap test: aircraft held down on a firm bench, tap the tray sideways some ten times, a second apart, and record the ring: a gyro log, or a microphone held close.", Expect: b.tap(),
			Enter: prove("tap", "TAP.csv", "--support held"), Blanks: []paper.Blank{{Name: "first ring", Unit: "Hz"}, {Name: "second ring", Unit: "Hz"}},
			IfNot: "Lower: a loose screw, a cracked fillet, fewer walls than asked, a softer spool. Tighten and tap again; if it stays, enter what was measured and check again."},
		{Do: "Hang test: aircraft clamped on its side, hang a known mass from the tray's middle and read how far the tray moves: a dial, or the light spot of a pointer taped to the tray on a wall some metres away. A ruler is too coarse.", Expect: b.hang(),
			Enter: prove("hang", "HANG.csv", "--support held"), Blanks: []paper.Blank{{Name: "mass", Unit: "g"}, {Name: "moved", Unit: "mm"}, {Name: "came back to", Unit: "mm"}},
			IfNot: "Moves more: as for the tap test. Does not come back: a joint slips or the plastic has yielded; find it before you fly."},
		{Do: "Power from the bench supply or the pack through a small fuse; measure at the receiver's plug.",
			Expect: fmt.Sprintf("%s to %s V, and nothing gets warm in a minute.", number(b.Wiring.SupplyLow), number(b.Wiring.SupplyHigh)),
			Blanks: []paper.Blank{{Name: "supply", Unit: "V"}}, IfNot: "Unplug at once. Check power and ground against the wiring table."},
		{Do: "The controller sees the receiver and the compass.", Expect: b.busExpectation(),
			IfNot: "No receiver: the serial pair is not crossed, or the port is set otherwise. No compass: clock and data exchanged, a cable that is too long, or missing pull-ups."},
	}
}

// tap is what a tap test should hear: the modes of the mast on the bench.
func (b *builder) tap() string {
	if len(b.Result.Held) == 0 {
		return "No data: the review has no modes for this design."
	}
	text := "Predicted:"
	for i, m := range b.Result.Held {
		if i == 2 {
			break
		}
		if i > 0 {
			text += ";"
		}
		text += fmt.Sprintf(" %s %s (%s to %s)", m.Shape, quantity(m.Hz, "Hz"), number(m.Low), quantity(m.High, "Hz"))
	}
	text += b.onMeasured() + "."
	if fastest := b.Result.Held[min(1, len(b.Result.Held)-1)].Hz; fastest > 0 {
		text += fmt.Sprintf(" The record wants at least %s samples a second, three for each swing.", number(math.Ceil(3*fastest/100)*100))
	}
	return text
}

// hang is how far the tray should move under a few masses.
func (b *builder) hang() string {
	c := b.Result.Tip.Compliance
	if !(c > 0) {
		return "No data: the review has no compliance for this design."
	}
	text := fmt.Sprintf("Predicted %s mm for each newton%s:", number(c), b.onMeasured())
	gravity := units.StandardGravities(1).MetresPerSecondSquared()
	for _, grams := range []float64{100, 200, 500, 1000, 2000} {
		if force := gravity * grams / 1000; grams <= 200 || force <= b.Doc.Loads.Hand.Newtons() {
			text += fmt.Sprintf(" %s mm under %s g,", number(c*force), number(grams))
		}
	}
	return text[:len(text)-1] + ". It comes back to where it was."
}

func (b *builder) busExpectation() string {
	if rise, ok := b.figure("bus", "rise time"); ok {
		return "Both answer every time in ten power-ups. Predicted rise time of the bus: " + quantity(rise, "ns") + "."
	}
	return "Both answer every time in ten power-ups. Predicted rise time of the bus: no data."
}

func (b *builder) compassTests() paper.Checks {
	declination := "by how much the needle differs from it is no data: the place on earth is not answered"
	if c := b.Result.Compass; c != nil {
		declination = fmt.Sprintf("the needle points %s %s of it here (uncertain by %s)", quantity(abs(c.Declination), "°"), eastWest(c.Declination), quantity(c.DeclinationUncertainty, "°"))
	}
	return paper.Checks{
		{Do: "The receiver acquires: open sky, aircraft level and still, video sender off.",
			Expect: "After days without power (cold) 30 s to some minutes to a first fix; after a short break (hot) within some 10 s. Common practice, no promise.",
			Enter:  prove("radio", "RADIO.csv"), Blanks: []paper.Blank{{Name: "cold", Unit: "s"}, {Name: "hot", Unit: "s"}, {Name: "satellites", Unit: ""}, {Name: "dilution", Unit: ""}},
			IfNot: "Further from walls and trees; then with the video sender, the camera and the long-range radio off one after another: what helps is too near."},
		{Do: "Enter the mounting rotation before anything is pointed.", Expect: b.rotation(), Blanks: []paper.Blank{{Name: "entered", Unit: "°"}}},
		{Do: "Calibrate the compass away from metal: no car, fence, manhole, reinforced ground, phone, watch or tool within 5 m.",
			Expect: "Turned slowly about all three axes, the controller accepts it the first or second time.", Blanks: []paper.Blank{{Name: "offsets", Unit: ""}},
			Enter: prove("turn", "TURN.csv"),
			IfNot: "Another spot first. Then look for steel near the compass: every screw against a magnet; then a lead that carries current while idle."},
		{Do: "Pointing test: lay a line to the north with a hand compass, the aircraft moved away meanwhile. Set the aircraft on it, nose along the line, and read.",
			Expect: "North reads 0 (or 360), east 90, south 180, west 270, each within 5°. A map shows true north; " + declination + ".",
			Enter:  prove("pointing", "--shown north=__ --shown east=__"), Blanks: []paper.Blank{{Name: "north", Unit: "°"}, {Name: "east", Unit: "°"}, {Name: "south", Unit: "°"}, {Name: "west", Unit: "°"}},
			IfNot: "The same amount off in all four: the rotation, or the mount is turned. East and west exchanged: the sensor is upside down. Off by different amounts: calibrate again; then steel."},
		{Do: "Tilt test: nose to the north, tilt to 45° forward, back, left and right.", Expect: "The reading holds within 5°.",
			Blanks: []paper.Blank{{Name: "forward", Unit: "°"}, {Name: "back", Unit: "°"}, {Name: "left", Unit: "°"}, {Name: "right", Unit: "°"}},
			IfNot:  "Calibrate again, all axes. If it swings the same way every time, the rotation is wrong about a tilting axis or the compass and the level sensor disagree about which way is up."},
	}
}

// throttle is read from a flight by hand: on the bench the current rises only with propellers on, and nothing with propellers on is held
// or tied down.
func (b *builder) throttle() paper.Check {
	text := "Predicted swing: no data; leads, currents or the place on earth are not answered."
	if v, ok := b.Result.Verdict("heading"); ok && b.Result.Compass != nil {
		text = "Predicted swing:"
		for i, f := range v.Figures {
			if i > 2 || f.Unit != "°" {
				break
			}
			text += fmt.Sprintf(" %s %s,", trimmed(f.Name), value(f, f.Value))
		}
		text = text[:len(text)-1] + b.onMeasuredLeads() + ". Under " + quantity(b.Doc.Limits.HeadingHold.Pass.Degrees(), "°") + " in hover is good."
	}
	return paper.Check{
		Do: "Heading swing under throttle, from the log of a flight by hand, without position hold, in calm air: hover ten seconds, climb straight up three times, each time harder, the nose held at one heading. " +
			"Nobody within the propellers' reach, nothing held or tied down.",
		Expect: text,
		Blanks: []paper.Blank{{Name: "idle", Unit: "°"}, {Name: "hover", Unit: "°"}, {Name: "full", Unit: "°"}, {Name: "current at full", Unit: "A"}},
		Enter:  prove("throttle", "THROTTLE.csv"),
		IfNot:  "Swings with the current: twist or bind the thick leads, move them away from the mast, then a higher mast. Jitters with the speed: vibration; balance the propellers.",
	}
}

// hover is what the record of the first hover should find.
func (b *builder) hover() string {
	text := "Nothing on the mount is seen to shake; heading still; motors no warmer than before."
	if speed := b.Result.Speeds.Hover; speed > 0 {
		text += fmt.Sprintf(" Predicted rotor speed in hover: %s rpm, %s.", number(speed), quantity(speed/60, "Hz"))
	}
	if shake, ok := b.Result.Verdict("shake"); ok && shake.Figure.Unit != "" {
		text += fmt.Sprintf(" Predicted at the compass, at worst: %s.", value(shake.Figure, shake.Figure.Value))
	}
	return text
}

func (b *builder) flights() paper.Checks {
	return paper.Checks{
		{Do: "Tighten every screw of the mount once more, propellers on, check their direction.", Expect: "Witness marks in line."},
		{Do: "First hover: a minute, two metres up, without position hold, hand on the switch.", Expect: b.hover(), Enter: prove("hover", "HOVER.csv"),
			Blanks: []paper.Blank{{Name: "vibration in the log", Unit: "g"}}, IfNot: "Land. Mast blurs: tap test again, balance the propellers. Heading wanders: throttle test."},
		b.throttle(),
		{Do: "Position hold: five metres up, wide field, two minutes.", Expect: "It stays within some two metres and corrects without circling.", Blanks: []paper.Blank{{Name: "strayed by", Unit: "m"}},
			IfNot: "Circles that grow: take over by hand and land; the heading is wrong. Pointing and throttle test again. Slow drift: satellites."},
		{Do: "Return home, at a safe place: nobody under the way, height above every obstacle, home point seen on the map, hand on the switch that ends it.",
			Expect: "It climbs, turns towards home and comes.", Blanks: []paper.Blank{{Name: "missed home by", Unit: "m"}}, IfNot: "End it by hand the moment it turns another way. Home point first, then heading."},
	}
}

// rotation is the mounting rotation that the design itself implies, in words.
func (b *builder) rotation() string {
	text := map[string]string{
		"forward": "no rotation. The arrow points forward and the receiver lies upright: 0°. Nose to the north it reads 0 as it is.",
		"left":    "90° to the left. The arrow points to the left: the compass is turned 90° counter-clockwise as seen from above, which is 270° clockwise. Nose to the north it reads 270 until the rotation is entered, then 0.",
		"right":   "90° to the right. The arrow points to the right: the compass is turned 90° clockwise as seen from above. Nose to the north it reads 90 until the rotation is entered, then 0.",
		"rear":    "180°. The arrow points to the rear: the compass is turned by 180°. Nose to the north it reads 180 until the rotation is entered, then 0.",
	}[b.Doc.Receiver.Arrow]
	if text == "" {
		return "no data: where the receiver's arrow points is not answered."
	}
	text = "This design implies: " + text
	if !b.Doc.Has("receiver.arrow") {
		text += " This is assumed: where its arrow points is not answered."
	}
	place := b.place()
	forward, left := place.SlopeForward.Degrees(), place.SlopeLeft.Degrees()
	switch {
	case forward == 0 && left == 0:
	case b.Doc.Foot.Wedge == "level":
		text += " The foot's wedge takes up the face's slope: level in hover."
	default:
		text += fmt.Sprintf(" The face slopes (%s forward, %s left in hover) and the foot does not take it up: calibrate level with the aircraft as it hovers.", quantity(forward, "°"), quantity(left, "°"))
	}
	return text
}

func eastWest(degrees float64) string {
	if degrees < 0 {
		return "west"
	}
	return "east"
}

func abs(x float64) float64 { return max(x, -x) }

// trimmed is the name of a swing without the word itself: "swing in hover" is "in hover".
func trimmed(name string) string {
	const word = "swing "
	if len(name) > len(word) && name[:len(word)] == word {
		return name[len(word):]
	}
	return name
}

// prove is the command that reads the record of a test.
func prove(test string, record ...string) string {
	return strings.Join(append([]string{"mastwright prove", test, "DESIGN.yaml"}, record...), " ")
}
