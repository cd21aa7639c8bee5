package design

import (
	"slices"
	"strings"

	"mastwright/design/units"
	"mastwright/materials"
)

// names checks that names are borne once and that the mast stands on one that exists.
func (j *judge) names() {
	d := j.d
	j.once("airframe.places", "place")
	j.once("airframe.neighbours", "neighbour")
	var places []string
	for _, p := range d.Airframe.Places {
		places = append(places, p.Name)
	}
	if place := d.Mast.Place; place != "" && !slices.Contains(places, place) {
		j.say("mast.place", "%q is no place of the airframe; %s", place, oneOf(place, places))
	}
}

// accepted checks that every accepted verdict has its check and its reason.
func (j *judge) accepted() {
	seen := map[string]bool{}
	for i, a := range j.d.Accepted {
		path := entry("accepted", i)
		switch {
		case a.Check == "":
			j.say(path, "the entry names no check; write \"check: heading\"")
		case a.Reason == "":
			j.say(path, "%q is accepted without a reason; write one", a.Check)
		case seen[a.Check]:
			j.say(join(path, "check"), "%q is accepted twice; keep one entry", a.Check)
		}
		seen[a.Check] = true
	}
}

// once checks that no two entries of a list share a name.
func (j *judge) once(list, what string) {
	seen := map[string]bool{}
	for i := range j.d.Len(list) {
		path := join(entry(list, i), "name")
		name := j.d.Get(path)
		if name != "" && seen[name] {
			j.say(path, "%q names two entries; give each %s a name of its own", name, what)
		}
		seen[name] = true
	}
}

func (j *judge) places() {
	for i, p := range j.d.Airframe.Places {
		path := join(entry("airframe.places", i), "holes")
		h := p.Holes
		at := map[string]string{"rectangle": "along", "ring": "ring", "listed": "points", "distances": "distances"}[h.As]
		if !j.d.Has(join(path, at)) {
			continue
		}
		spots, _, err := h.Centres()
		if err != nil {
			j.say(join(path, at), "%v", err)
			continue
		}
		if screw := thread(p.Screw); screw > 0 && h.Diameter > 0 && screw > h.Diameter {
			j.say(join(entry("airframe.places", i), "screw"), "%s does not pass a %v hole; use a smaller screw or open the holes to %v",
				p.Screw, h.Diameter, screw+0.2)
		}
		if a, b, gap := closest(spots); gap < h.Diameter {
			j.say(join(path, at), "holes %d and %d are %v apart, so their %v bores overlap; check the pattern", a+1, b+1, rounded(gap), h.Diameter)
		} else if gap < 1 {
			j.say(join(path, at), "holes %d and %d are in the same spot; check the pattern", a+1, b+1)
		}
	}
}

// closest finds the two spots that are nearest to each other.
func closest(spots []Spot) (a, b int, gap units.Length) {
	gap = units.Length(1e9)
	for i := range spots {
		for k := range i {
			if d := distance(spots[i], spots[k]); d < gap {
				a, b, gap = k, i, d
			}
		}
	}
	return a, b, gap
}

func (j *judge) leads() {
	j.once("leads", "lead")
	var neighbours []string
	for _, n := range j.d.Airframe.Neighbours {
		if n.Name != "" && !slices.Contains(neighbours, n.Name) {
			neighbours = append(neighbours, n.Name)
		}
	}
	for i, l := range j.d.Leads {
		path := entry("leads", i)
		for _, end := range []struct{ key, name string }{{"from", l.From}, {"to", l.To}} {
			if end.name != "" && !slices.Contains(neighbours, end.name) {
				j.say(join(path, end.key), "%q is no neighbour; %s", end.name, oneOf(end.name, neighbours))
			}
		}
		if l.Given == "route" && j.d.Has(path+".points") && len(l.Points) < 2 {
			j.say(path+".points", "a route of %d points leads nowhere; give at least 2", len(l.Points))
		}
		if l.Given == "loop" && j.d.Has(path+".points") && len(l.Points) < 3 {
			j.say(path+".points", "a loop of %d points encloses nothing; give at least 3, all the way round", len(l.Points))
		}
		pair := l.Given == "words" || l.Given == "route"
		for k := 1; k < len(l.Points); k++ {
			if l.Points[k] == l.Points[k-1] {
				j.say(entry(path+".points", k), "the point is the same as the one before; take it out")
			}
		}
		if l.Run == "twisted" && pair && !j.d.Has(path+".pitch") {
			j.say(path+".run", "a twisted pair needs the length of one turn; add \"pitch: 30 mm\" or write \"run: side by side\"")
		}
		if pair && l.Spacing > 0 && l.Spacing < l.Conductor {
			j.say(path+".spacing", "%v is less than one wire's diameter of %v; measure between the middles of the wires", l.Spacing, l.Conductor)
		}
		if l.Given == "words" && l.From != "" && l.From == l.To {
			j.say(path+".to", "%q is both ends of the lead; name the other end", l.To)
		}
		c := l.Currents
		j.rising(path+".currents", []named{{"idle", float64(c.Idle)}, {"hover", float64(c.Hover)}, {"full", float64(c.Full)}})
		if c.Cruise > 0 {
			j.rising(path+".currents", []named{{"idle", float64(c.Idle)}, {"cruise", float64(c.Cruise)}, {"full", float64(c.Full)}})
		}
	}
}

type named struct {
	key   string
	value float64
}

// rising checks that each of some leaves that are answered is no less than the one before.
func (j *judge) rising(path string, list []named) {
	var last named
	for _, n := range list {
		if j.d.Origin(join(path, n.key)) == Unanswered {
			continue
		}
		if last.key != "" && n.value < last.value {
			j.say(join(path, n.key), "%s is less than %s, which is %s; check which is which", j.d.Get(join(path, n.key)),
				strings.ReplaceAll(last.key, "_", " "), j.d.Get(join(path, last.key)))
		}
		last = n
	}
}

func (j *judge) aircraft() {
	a, m := j.d.Airframe, j.d.Motors
	x, y, z := float64(a.Inertia.X), float64(a.Inertia.Y), float64(a.Inertia.Z)
	if given := j.d.Has("airframe.inertia.x") || j.d.Has("airframe.inertia.y") || j.d.Has("airframe.inertia.z"); given {
		least, most := min(x, y, z), max(x, y, z)
		switch {
		case least == 0:
			j.say("airframe.inertia", "only some of the three moments of inertia are given; give all three or none")
		case most > x+y+z-most:
			j.say("airframe.inertia", "%s is more than the other two together, which no body has; measure again", units.Inertia(most))
		}
	}
	if n := len(m.At); n > 0 && n != m.Count {
		j.say("motors.at", "%d shafts are listed for %d motors; list each motor's or correct the count", n, m.Count)
	}
	if _, _, gap := closest(m.At); gap < 10 {
		j.say("motors.at", "two shafts are %v apart; check the list", rounded(gap))
	}
	j.rising("motors", []named{{"hover_speed", float64(m.HoverSpeed)}, {"full_speed", float64(m.FullSpeed)}})
	if r := j.d.Receiver.Mass; a.Mass > 0 && r >= a.Mass {
		j.say("receiver.mass", "%v is no less than the aircraft's %v; check both", r, a.Mass)
	}
}

func (j *judge) receiver() {
	r := j.d.Receiver
	body := r.Outline()
	beyond := func(path string, at, half units.Length) {
		if half > 0 && max(at, -at) > half {
			j.say(path, "%v lies outside the receiver's body, which ends at %v; measure from the middle of its underside", at, half)
		}
	}
	beyond("receiver.compass.x", r.Compass.X, body.X/2)
	beyond("receiver.compass.y", r.Compass.Y, body.Y/2)
	if r.Size.Z > 0 && (r.Compass.Z < 0 || r.Compass.Z > r.Size.Z) {
		j.say("receiver.compass.z", "%v lies outside the receiver's body, which is %v high; measure up from its underside", r.Compass.Z, r.Size.Z)
	}
	larger := func(path, what string, width, least units.Length) {
		if least > 0 && width > least {
			j.say(path, "%v is wider than the %v receiver; check %s", width, least, what)
		}
	}
	switch r.Fixing {
	case "screws":
		larger("receiver.holes.x", "its holes", r.Holes.X, body.X)
		larger("receiver.holes.y", "its holes", r.Holes.Y, body.Y)
	case "tape":
		larger("receiver.tape.size.x", "the pad", r.Tape.Size.X, body.X)
		larger("receiver.tape.size.y", "the pad", r.Tape.Size.Y, body.Y)
		j.rising("receiver.tape", []named{{"shear_low", float64(r.Tape.ShearLow)}, {"shear_typical", float64(r.Tape.ShearTypical)},
			{"shear_high", float64(r.Tape.ShearHigh)}})
	}
	j.rising("receiver.supply", []named{{"low", float64(r.Supply.Low)}, {"high", float64(r.Supply.High)}})
}

// materials checks that every material exists and comes in a form the part can be made of.
func (j *judge) materials() {
	library := j.d.Library()
	printed := library.Of(materials.Print)
	for _, part := range []struct {
		key  string
		form materials.Form
	}{{"foot", materials.Print}, {"mast", materials.Print}, {"tray", materials.Print}, {"tube", materials.Tube}, {"sheet", materials.Sheet},
		{"spacer", materials.Print}, {"legs", j.d.LegForm()}} {
		path := join("materials", part.key)
		id := j.d.Get(path)
		m, err := library.Find(id)
		of := library.Of(part.form)
		switch {
		case err != nil:
			j.say(path, "%q is no material; %s", id, oneOf(id, of.IDs()))
		case m.Form != part.form && part.form == materials.Print:
			j.say(path, "%q is %s and cannot be printed; %s", id, m.Form, oneOf("", of.IDs()))
		case m.Form != part.form && (part.key != "legs" || j.d.Mast.Build == "legs"):
			j.say(path, "%q is %s and no %s; %s", id, m.Form, part.form, oneOf("", of.IDs()))
		}
	}
	for i, p := range j.d.Airframe.Places {
		path := join(entry("airframe.places", i), "plate.material")
		m, err := library.Find(p.Plate.Material)
		switch {
		case p.Plate.Backing != "plate":
		case err != nil:
			j.say(path, "%q is no material; %s", p.Plate.Material, oneOf(p.Plate.Material, append(library.Of(materials.Sheet).IDs(), printed.IDs()...)))
		case m.Form == materials.Tube:
			j.say(path, "%q is a tube and makes no plate; %s", p.Plate.Material, oneOf("", library.Of(materials.Sheet).IDs()))
		}
	}
}
