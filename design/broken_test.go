package design_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"mastwright/design"
)

// sound is a small design without a problem; the broken ones are made from it by replacing a line.
const sound = `mastwright: 1
name: Sound
airframe:
  mass: 1150 g
  motor_diagonal: 302 mm
  places:
    - name: stack
      at: {x: 0 mm, y: 0 mm, z: 28 mm}
      holes:
        diameter: 3.2 mm
        along: 30.5 mm
      screw: M3
  neighbours:
    - name: pack
      kind: pack
      at: {x: 0, y: 0, z: -24}
      size: {x: 140, y: 46, z: 40}
    - name: board
      kind: controller
      at: {x: 0, y: 0, z: 10}
      size: {x: 38, y: 38, z: 8}
leads:
  - name: battery lead
    from: pack
    to: board
    height: 14 mm
    spacing: 5 mm
    currents: {idle: 0.4 A, hover: 7.2 A, cruise: 5.8 A, full: 125 A}
receiver:
  size: {x: 28 mm, y: 28 mm, z: 10 mm}
  mass: 14 g
  compass: {x: 0, y: 0, z: 5}
mast:
  height: 100 mm
`

func TestASoundDesignHasNoProblem(t *testing.T) {
	if _, problems := design.Decode([]byte(sound), design.Options{}); len(problems) > 0 {
		t.Error(problems)
	}
}

// broken is a design with one thing wrong. It is sound with the line old replaced, or the whole text when old is empty.
type broken struct {
	name, old, new string
	path           string
	line           int
	words          string
}

// companions are the broken designs in which one slip is two problems.
var companions = map[string]int{"an alias": 1, "two neighbours of one name": 1}

var brokenDesigns = []broken{
	// Files that are no design.
	{"empty", "", "", "", 0, `the file is empty; begin it with "mastwright: 1"`},
	{"only a comment", "", "# nothing\n", "", 0, "the file is empty"},
	{"a text", "", "hello\n", "", 1, "does not hold keys and values"},
	{"a list", "", "- 1\n- 2\n", "", 1, "does not hold keys and values"},
	{"too large", "", "mastwright: 1\n#" + strings.Repeat("x", 1<<20), "", 0, "a design is far below 1048576"},
	{"not UTF-8", "", "mastwright: 1\nname: caf\xe9\n", "", 2, "byte 0xe9 is not UTF-8; save the file as UTF-8"},
	{"a control character", "", "mastwright: 1\nname: a\x00b\n", "", 2, "an invisible character (U+0000)"},
	{"a line separator", "", "mastwright: 1\nname: a\u2028b\n", "", 2, "an invisible character (U+2028)"},
	{"a tab", "", "mastwright: 1\nmast:\n\theight: 100 mm\n", "", 3, "indent with spaces"},
	{"an open bracket", "", "mastwright: 1\nmast: {height: 100 mm\n", "", 2, "check brackets, quotes and indents"},
	{"an open quote", "", "mastwright: 1\nname: \"abc\n", "", 2, "check brackets, quotes and indents"},
	{"two colons", "", "mastwright: 1\nname: a: b\n", "", 2, "a second colon or a wrong indent"},
	{"over-deep", "", "mastwright: 1\nmast: " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", "mast[0][0][0][0][0][0][0][0][0][0][0][0][0][0][0]", 2, "nested deeper than 16 levels"},
	{"deep beyond the parser", "", "mastwright: 1\nmast: " + strings.Repeat("[", 20000), "", 2, "nested deeper than 16 levels"},
	{"a second document", "", sound + "---\nmastwright: 1\n", "", 35, "a second document begins"},
	{"a second document that is broken", "", "mastwright: 1\n---\n{\n", "", 4, "check brackets"},

	// Schema.
	{"no schema", "mastwright: 1\n", "", "mastwright", 0, `its first line must be "mastwright: 1"`},
	{"schema below", "mastwright: 1\nname: Sound", "name: Sound\nmastwright: 1", "mastwright", 2, `make "mastwright: 1" the first line`},
	{"newer schema", "mastwright: 1", "mastwright: 4", "mastwright", 1, "This design is from a newer Mastwright (schema 4; this one reads up to 1). Nothing was changed."},
	{"schema 0", "mastwright: 1", "mastwright: 0", "mastwright", 1, `"0" is not a schema; write "mastwright: 1"`},
	{"schema in words", "mastwright: 1", "mastwright: one", "mastwright", 1, `"one" is not a schema`},
	{"schema of a list", "mastwright: 1", "mastwright: [1]", "mastwright", 1, "is not a schema"},

	// Things of YAML that a design does not use.
	{"an anchor", "mass: 1150 g", "mass: &m 1150 g", "airframe.mass", 4, `"&m" is an anchor; take it out`},
	{"an alias", "height: 14 mm", "height: &h 14 mm\n    offset: *h", "leads[0].offset", 27, `"*h" is an alias; write the value out`},
	{"an alias of nothing", "height: 14 mm", "height: *h", "", 26, `"*h" is an alias; write the value out`},
	{"a merge", "  height: 100 mm", "  <<: {height: 100 mm}", "mast.<<", 34, "merges another mapping"},
	{"a tag", "mass: 1150 g", "mass: !!float 1150", "airframe.mass", 4, `"!!float" is a tag; take it out`},
	{"a tag of one's own", "name: Sound", "name: !mine Sound", "name", 2, `"!mine" is a tag`},
	{"a null", "mass: 1150 g", "mass: null", "airframe.mass", 4, "nothing stands after the colon"},
	{"a tilde", "mass: 1150 g", "mass: ~", "airframe.mass", 4, "nothing stands after the colon"},
	{"nothing after the colon", "mass: 1150 g", "mass:", "airframe.mass", 4, "write a value or take the line out"},
	{"an empty section", "  height: 100 mm", "", "mast", 33, "nothing stands after the colon"},

	// Keys.
	{"an unknown key", "mass: 1150 g", "mas: 1150 g", "airframe.mas", 4, `"mas" is not a key here; did you mean "mass"?`},
	{"an unknown section", "mast:", "mastt:", "mastt", 33, `did you mean "mast"?`},
	{"an unknown key far from any", "  height: 100 mm", "  zzzzzz: 1", "mast.zzzzzz", 34, "write build, place, height"},
	{"an unknown key in a list", "height: 14 mm", "hight: 14 mm", "leads[0].hight", 26, `did you mean "height"?`},
	{"a duplicate key", "mass: 1150 g", "mass: 1150 g\n  mass: 1200 g", "airframe.mass", 5, "stands twice, first on line 4"},
	{"a duplicate section", "mast:", "mast:\n  wall: 2 mm\nmast:", "mast", 35, "stands twice"},
	{"a duplicate key in braces", "{idle: 0.4 A,", "{idle: 0.4 A, idle: 0.5 A,", "leads[0].currents.idle", 28, "stands twice"},
	{"a list as key", "name: Sound", "[a, b]: Sound", "", 2, "a key is a list or a mapping"},

	// Kinds.
	{"a mapping for a quantity", "mass: 1150 g", "mass: {g: 1150}", "airframe.mass", 4, `a mapping stands where a quantity belongs; write "mass:`},
	{"a list for a quantity", "mass: 1150 g", "mass: [1150]", "airframe.mass", 4, "a list stands where a quantity belongs"},
	{"a quantity for a section", "at: {x: 0 mm, y: 0 mm, z: 28 mm}", "at: 28 mm", "airframe.places[0].at", 8, `"28 mm" stands where the keys x, y, z belongs`},
	{"a list for a point", "at: {x: 0 mm, y: 0 mm, z: 28 mm}", "at: [0, 0, 28]", "airframe.places[0].at", 8, "a list stands where the keys x, y, z"},
	{"a mapping for a list", "leads:\n  - name", "leads:\n    name", "leads", 23, "a mapping stands where a list"},
	{"a text for an entry", "  places:\n", "  places:\n    - stack2\n", "airframe.places[0]", 7, `"stack2" stands where the keys`},
	{"a text for a quantity", "mass: 1150 g", "mass: heavy", "airframe.mass", 4, `"heavy" is not a number`},
	{"a flag for a quantity", "mass: 1150 g", "mass: true", "airframe.mass", 4, `"true" is not a number`},
	{"a wrong unit", "mass: 1150 g", "mass: 1150 mm", "airframe.mass", 4, "unknown unit \"mm\"; write it in g, kg or oz"},
	{"a fraction for a count", "name: Sound", "motors: {count: 4.5}", "motors.count", 2, "not a whole number"},
	{"a flag in words", "name: Sound", "site: {extrapolated: yes}", "site.extrapolated", 2, "neither true nor false"},
	{"a choice that is none", "screw: M3", "screw: M5", "airframe.places[0].screw", 12, `"M5" is not a choice; did you mean "M2"?`},
	{"a choice in capitals", "name: Sound", "foot: {wedge: Level}", "foot.wedge", 2, `did you mean "level"?`},
	{"an empty text", "name: Sound", `name: ""`, "name", 2, "the text is empty"},
	{"a long text", "name: Sound", "name: " + strings.Repeat("ab", 60), "name", 2, "has 120 letters; write at most 80"},
	{"a text of two lines", "name: Sound", `name: "a\nb"`, "name", 2, "holds a line break"},

	// Numbers.
	{"not a number", "mass: 1150 g", "mass: .nan", "airframe.mass", 4, `".nan" is not a finite number`},
	{"infinite", "mass: 1150 g", "mass: -.inf", "airframe.mass", 4, `"-.inf" is not a finite number`},
	{"octal-looking", "mass: 1150 g", "mass: 01150", "airframe.mass", 4, `"01150" begins with a spare zero; write 1150`},
	{"octal", "mass: 1150 g", "mass: 0o777", "airframe.mass", 4, `"0o777"`},
	{"hexadecimal", "mass: 1150 g", "mass: 0x47e", "airframe.mass", 4, "looks hexadecimal"},
	{"an underscore", "mass: 1150 g", "mass: 1_150", "airframe.mass", 4, "has an underscore"},
	{"two ways to read", "mass: 1150 g", `mass: "1,150"`, "airframe.mass", 4, "can be read two ways; write 1150 or 1.15"},
	{"an absurd exponent", "mass: 1150 g", "mass: 1e400", "airframe.mass", 4, "beyond any sensible size"},
	{"a slipped mark", "along: 30.5 mm", "along: 305 mm", "airframe.places[0].holes.along", 11, "305 mm is outside 10 to 120 mm. Did you mean 30.5 mm?"},
	{"kilograms as grams", "mass: 1150 g", "mass: 1.15", "airframe.mass", 4, "Did you mean 1150 g?"},
	{"a negative mass", "mass: 14 g", "mass: -14 g", "receiver.mass", 31, "Did you mean 14 g?"},
	{"no height", "height: 100 mm", "height: 0 mm", "mast.height", 34, "0 mm is outside 10 to 400 mm"},
	{"beyond the pole", "name: Sound", "site: {latitude: 91 deg}", "site.latitude", 2, "91 deg is outside -90 to 90 deg"},
	{"too many entries", "name: Sound", "accepted: [" + strings.Repeat("{}, ", 21) + "]", "accepted", 2, "at most 20"},

	// Names.
	{"a place that is not there", "  height: 100 mm", "  place: stak", "mast.place", 34, `"stak" is no place of the airframe; did you mean "stack"?`},
	{"two places of one name", "  places:\n", "  places:\n    - {name: stack}\n", "airframe.places[1].name", 8, `"stack" names two entries; give each place a name of its own`},
	{"two neighbours of one name", "- name: board", "- name: pack", "airframe.neighbours[1].name", 18, `"pack" names two entries`},
	{"a lead from nowhere", "from: pack", "from: pakc", "leads[0].from", 24, `"pakc" is no neighbour; did you mean "pack"?`},
	{"a lead in a circle", "to: board", "to: pack", "leads[0].to", 25, "is both ends of the lead"},
	{"accepted without reason", "name: Sound", "accepted: [{check: sky}]", "accepted[0]", 2, `"sky" is accepted without a reason`},
	{"accepted twice", "name: Sound", "accepted: [{check: sky, reason: low trees}, {check: sky, reason: low trees}]", "accepted[1].check", 2, "accepted twice"},
	{"an unknown material", "name: Sound", "materials: {mast: petgg}", "materials.mast", 2, `"petgg" is no material; did you mean "petg"?`},
	{"a mast of tube", "name: Sound", "materials: {mast: carbon-tube}", "materials.mast", 2, `"carbon-tube" is tube and cannot be printed`},
	{"a plate of tube", "screw: M3", "screw: M3\n      plate: {material: carbon-tube}", "airframe.places[0].plate.material", 13, "makes no plate"},
	{"a plate of nothing known", "screw: M3", "screw: M3\n      plate: {material: carbon-shet}", "airframe.places[0].plate.material", 13, `did you mean "carbon-sheet"?`},

	// Geometry that cannot exist.
	{"a wall without a bore", "  height: 100 mm", "  height: 100 mm\n  tip: {x: 6 mm}\n  corner: 2 mm\n  cable_way: {side: none}\n  wall: 4 mm", "mast.wall", 38, "4 mm leaves no bore in a 6 mm section; use less than 3 mm"},
	{"walls that just meet", "  height: 100 mm", "  height: 100 mm\n  tip: {x: 6 mm}\n  corner: 2 mm\n  cable_way: {side: none}\n  wall: 3 mm", "mast.wall", 38, "3 mm leaves no bore in a 6 mm section"},
	{"corners larger than the mast", "  height: 100 mm", "  cable_way: {side: none}\n  corner: 7 mm", "mast.corner", 35, "7 mm is more than half of a 12 mm section; use at most 6 mm"},
	{"no room between the fillets", "  height: 100 mm", "  cable_way: {side: none}\n  height: 14 mm", "mast.height", 35, "leaves no mast between foot and tray"},
	{"a tip wider than the tray", "  height: 100 mm", "  root: {x: 40 mm}\n  tip: {x: 40 mm}\ntray: {size: {x: 33 mm, y: 42 mm}}", "mast.tip.x", 35, "40 mm is wider than the 33 mm tray; use at most 33 mm or a larger tray"},
	{"a root wider than the foot", "  height: 100 mm", "  root: {x: 50 mm}\nfoot: {size: {x: 42 mm, y: 42 mm}}", "mast.root.x", 34, "50 mm is wider than the 42 mm foot"},
	{"a fillet too large for the foot", "  height: 100 mm", "  root_fillet: 15 mm\nfoot: {size: {x: 42 mm, y: 42 mm}}", "mast.root_fillet", 34, "15 mm does not fit on the 42 mm foot beside a 18 mm root; use at most 12 mm"},
	{"a fillet too large for the tray", "  height: 100 mm", "  tip_fillet: 12 mm\ntray: {size: {x: 33 mm, y: 33 mm}}", "mast.tip_fillet", 34, "12 mm does not fit under the 33 mm tray"},
	{"holes beyond the foot", "  height: 100 mm", "  height: 100 mm\nfoot: {size: {x: 30 mm, y: 42 mm}}", "foot.size.x", 35, "30 mm leaves hole 1 beyond the foot's edge; use at least 37.7 mm"},
	{"foot corners too large", "  height: 100 mm", "  height: 100 mm\nfoot: {size: {x: 42 mm, y: 42 mm}, corner: 25 mm}", "foot.corner", 35, "25 mm is more than half of the 42 mm foot"},
	{"a relief that eats the foot", "  height: 100 mm", "  height: 100 mm\nfoot: {thickness: 3 mm, relief: 1.5 mm}", "foot.relief", 35, "takes the edge of a 3 mm foot away"},
	{"a tray smaller than its receiver", "  height: 100 mm", "  height: 100 mm\ntray: {size: {x: 30 mm, y: 40 mm}}", "tray.size.x", 35, "30 mm is smaller than the receiver with its play and rim; use at least 31.7 mm"},
	{"a tray smaller than its screws", "  compass: {x: 0, y: 0, z: 5}", "  fixing: screws\n  holes: {x: 24 mm, y: 24 mm}\n  screw: M2\ntray: {size: {x: 30 mm, y: 33 mm}}", "tray.size.x", 35, "30 mm is smaller than the receiver and its screws; use at least 31.8 mm"},
	{"tray corners too large", "  height: 100 mm", "  height: 100 mm\ntray: {corner: 20 mm}", "tray.corner", 35, "is more than half of the"},
	{"a rim over the receiver", "  height: 100 mm", "  height: 100 mm\ntray: {rim_height: 12 mm}", "tray.rim_height", 35, "12 mm is higher than the 10 mm receiver"},
	{"a tray that is all opening", "  height: 100 mm", "  height: 100 mm\ntray: {opening: {x: 40 mm, y: 6 mm}}", "tray.opening.x", 35, "is no smaller than the tray's floor"},
	{"a cable way wider than the mast", "  height: 100 mm", "  cable_way: {width: 9 mm}", "mast.cable_way.width", 34, "9 mm is wider than the mast's flat side of 6 mm"},
	{"a cable way above the mast", "  height: 100 mm", "  cable_way: {bottom: 90 mm}", "mast.cable_way.length", 34, "ends above the mast, which ends at 97.6 mm; use at most 7.6 mm"},
	{"a cable way in the foot", "  height: 100 mm", "  cable_way: {bottom: 3 mm}", "mast.cable_way.bottom", 34, "3 mm lies in the 5 mm foot"},
	{"screws larger than holes", "diameter: 3.2 mm", "diameter: 2.6 mm", "airframe.places[0].screw", 12, "M3 does not pass a 2.6 mm hole"},
	{"overlapping holes", "diameter: 3.2 mm", "as: listed\n        points: [{x: 0, y: 0}, {x: 2, y: 0}]\n        diameter: 3.2 mm", "airframe.places[0].holes.points", 11, "holes 1 and 2 are 2 mm apart, so their 3.2 mm bores overlap"},
	{"one hole", "diameter: 3.2 mm", "as: listed\n        points: [{x: 0, y: 0}]\n        diameter: 3.2 mm", "airframe.places[0].holes.points", 11, "fewer than two holes"},
	{"far edges nearer than a hole is wide", "diameter: 3.2 mm\n        along: 30.5 mm", "diameter: 12 mm\n        read: far edges\n        along: 11 mm", "airframe.places[0].holes.along", 12, "is no more than the holes' diameter"},
	{"an odd ring read across", "along: 30.5 mm", "as: ring\n        ring: 24 mm\n        count: 3\n        read: near edges", "airframe.places[0].holes.ring", 12, "3 holes have none opposite"},
	{"distances that leave a hole free", "along: 30.5 mm", "as: distances\n        distances: [{from: 1, to: 2, length: 20}, {from: 2, to: 3, length: 20}]", "airframe.places[0].holes.distances", 12, "add the distance between holes 1 and 3"},
	{"distances that fit no pattern", "along: 30.5 mm", "as: distances\n        distances: [{from: 1, to: 2, length: 20}, {from: 2, to: 3, length: 20}, {from: 1, to: 3, length: 60}]", "airframe.places[0].holes.distances", 12, "the distances fit no pattern"},
	{"a distance from a hole to itself", "along: 30.5 mm", "as: distances\n        distances: [{from: 1, to: 1, length: 20}]", "airframe.places[0].holes.distances", 12, "number the holes from 1 and name two"},
	{"a twist without a pitch", "spacing: 5 mm", "spacing: 5 mm\n    run: twisted", "leads[0].run", 28, "a twisted pair needs the length of one turn"},
	{"a route of one point", "spacing: 5 mm", "spacing: 5 mm\n    given: route\n    points: [{x: 1, y: 2, z: 3}]", "leads[0].points", 29, "a route of 1 points leads nowhere"},
	{"a route that stands still", "spacing: 5 mm", "spacing: 5 mm\n    given: route\n    points: [{x: 1, y: 2, z: 3}, {x: 1, y: 2, z: 3}]", "leads[0].points[1]", 29, "the same as the one before"},
	{"wires inside each other", "spacing: 5 mm", "spacing: 3 mm", "leads[0].spacing", 27, "3 mm is less than one wire's diameter of 4.5 mm"},
	{"idle above hover", "idle: 0.4 A", "idle: 6 A", "leads[0].currents.cruise", 28, "5.8 A is less than idle, which is 6 A"},
	{"hover above full", "full: 125 A", "full: 6 A", "leads[0].currents.full", 28, "6 A is less than hover, which is 7.2 A"},
	{"inertia no body has", "motor_diagonal: 302 mm", "motor_diagonal: 302 mm\n  inertia: {x: 0.001, y: 0.001, z: 0.01}", "airframe.inertia", 6, "0.01 kg m2 is more than the other two together"},
	{"half an inertia", "motor_diagonal: 302 mm", "motor_diagonal: 302 mm\n  inertia: {x: 0.001}", "airframe.inertia", 6, "give all three or none"},
	{"three shafts for four motors", "name: Sound", "motors: {at: [{x: 1, y: 20}, {x: 20, y: 1}, {x: 1, y: 1}]}", "motors.at", 2, "3 shafts are listed for 4 motors"},
	{"hover faster than full", "name: Sound", "motors: {hover_speed: 9000, full_speed: 8000}", "motors.full_speed", 2, "8000 rpm is less than hover speed, which is 9000 rpm"},
	{"a receiver heavier than the aircraft", "", strings.NewReplacer("mass: 1150 g", "mass: 250 g", "mass: 14 g", "mass: 260 g").Replace(sound), "receiver.mass", 31, "260 g is no less than the aircraft's 250 g"},
	{"a compass outside the body", "compass: {x: 0, y: 0, z: 5}", "compass: {x: 15, y: 0, z: 5}", "receiver.compass.x", 32, "15 mm lies outside the receiver's body, which ends at 14 mm"},
	{"a compass above the body", "compass: {x: 0, y: 0, z: 5}", "compass: {x: 0, y: 0, z: 11}", "receiver.compass.z", 32, "is 10 mm high"},
	{"a pad wider than the receiver", "  mass: 14 g", "  mass: 14 g\n  fixing: tape\n  tape: {size: {x: 30, y: 15}}", "receiver.tape.size.x", 33, "30 mm is wider than the 28 mm receiver"},
	{"foam stiffness upside down", "  mass: 14 g", "  mass: 14 g\n  fixing: tape\n  tape: {shear_low: 0.2 MPa}", "receiver.tape.shear_typical", 33, "is less than shear low"},
	{"receiver holes beyond it", "  mass: 14 g", "  mass: 14 g\n  fixing: screws\n  holes: {x: 30, y: 20}", "receiver.holes.x", 33, "30 mm is wider than the 28 mm receiver"},
	{"a supply upside down", "  mass: 14 g", "  mass: 14 g\n  supply: {low: 5 V, high: 3 V}", "receiver.supply.high", 32, "3 V is less than low, which is 5 V"},
	{"layers thicker than lines", "name: Sound", "print: {layer: 0.5 mm}", "print.layer", 2, "0.5 mm is no thinner than the 0.45 mm line"},
	{"limits upside down", "name: Sound", "limits: {sway: {pass: 2 deg}}", "limits.sway.marginal", 2, "1.5 deg is below the pass limit 2 deg"},
	{"limits of at least upside down", "name: Sound", "limits: {strength: {pass: 1}}", "limits.strength.marginal", 2, "1.25 is above the pass limit 1"},

	// Shelf files.
	{"a shelf file that is not there", "  mass: 1150 g", "  from: nowhere.yaml\n  mass: 1150 g", "airframe.from", 4, `"nowhere.yaml" cannot be read`},
	{"a shelf file above", "  mass: 1150 g", "  from: ../frames/a.yaml\n  mass: 1150 g", "airframe.from", 4, `write a relative name without ".."`},
	{"an absolute shelf file", "  mass: 1150 g", "  from: /frames/a.yaml\n  mass: 1150 g", "airframe.from", 4, "is no file beside the design"},
	{"a shelf file on a drive", "  mass: 1150 g", "  from: 'C:\\a.yaml'\n  mass: 1150 g", "airframe.from", 4, "is no file beside the design"},
	{"a shelf file that is the design", "  mass: 1150 g", "  from: .\n  mass: 1150 g", "airframe.from", 4, "is no file beside the design"},
}

func TestBrokenDesigns(t *testing.T) {
	for _, c := range brokenDesigns {
		t.Run(c.name, func(t *testing.T) {
			text := c.new
			if c.old != "" {
				if strings.Count(sound, c.old) == 0 {
					t.Fatalf("%q does not stand in the sound design", c.old)
				}
				text = strings.Replace(sound, c.old, c.new, 1)
			}
			_, problems := design.Decode([]byte(text), design.Options{Name: "d.yaml", Open: func(string) ([]byte, error) { return nil, errors.New("no such file") }})
			if len(problems) != 1+companions[c.name] {
				t.Fatalf("%d problems: %v", len(problems), problems)
			}
			if !slices.ContainsFunc(problems, func(p design.Problem) bool {
				return p.Path == c.path && p.Line == c.line && p.File == "d.yaml" && strings.Contains(p.Text, c.words)
			}) {
				t.Errorf("got  %v\nwant d.yaml:%d: %s: ...%s", problems, c.line, c.path, c.words)
			}
		})
	}
}
