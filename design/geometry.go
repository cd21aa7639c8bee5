package design

import (
	"fmt"
	"slices"

	"mastwright/design/units"
)

// Problems returns everything about the document as a whole that cannot be built or understood: walls without a bore, holes
// beyond the foot, names that nothing bears. What is not answered yet is no problem. Files and lines are empty.
func (d *Document) Problems() []Problem { return d.judged(nil) }

// judged returns the problems of the whole document except those that could come from a section with unread answers.
func (d *Document) judged(unread map[string]bool) []Problem {
	j := judge{d: d}
	for _, judgement := range judgements {
		if !slices.ContainsFunc(judgement.sections, func(s string) bool { return unread[s] }) {
			judgement.judge(&j)
		}
	}
	return j.problems
}

// judgements are the functions that look at a whole document, with the sections each looks at.
var judgements = []struct {
	sections []string
	judge    func(*judge)
}{
	{[]string{"airframe", "mast"}, (*judge).names},
	{[]string{"accepted"}, (*judge).accepted},
	{[]string{"measured", "leads", "materials"}, (*judge).measured},
	{[]string{"airframe"}, (*judge).places},
	{[]string{"airframe", "leads"}, (*judge).leads},
	{[]string{"airframe", "motors", "receiver"}, (*judge).aircraft},
	{[]string{"receiver"}, (*judge).receiver},
	{[]string{"mast"}, (*judge).wall},
	{[]string{"airframe", "receiver", "mast", "foot", "tray"}, (*judge).mast},
	{[]string{"mast", "foot", "tray"}, (*judge).cableWay},
	{[]string{"airframe", "mast", "foot"}, (*judge).foot},
	{[]string{"receiver", "mast", "tray"}, (*judge).tray},
	{[]string{"print"}, (*judge).print},
	{[]string{"airframe", "materials"}, (*judge).materials},
	{[]string{"limits"}, (*judge).limits},
}

// judge gathers problems of a whole document.
type judge struct {
	d        *Document
	problems []Problem
}

func (j *judge) say(path, format string, args ...any) {
	j.problems = append(j.problems, Problem{Path: path, Value: j.d.Get(path), Text: fmt.Sprintf(format, args...)})
}

// side names an end of the mast with the path of the leaf that sets a direction of it.
type side struct {
	name, path string
	width      units.Length
}

// sides of the mast's two ends; a direction that was not given is left to the one that was.
func (j *judge) sides(which string) []side {
	end := map[string]Rectangle{"root": j.d.Mast.Root, "tip": j.d.Mast.Tip}[which]
	full := j.d.Mast.Outline(end)
	list := []side{{which, "mast." + which + ".x", full.X}}
	if j.d.Mast.Section != "round" && end.Y != 0 {
		list = append(list, side{which, "mast." + which + ".y", full.Y})
	}
	return list
}

func (j *judge) wall() {
	m := j.d.Mast
	if m.Build != "column" {
		return
	}
	thinnest := j.sides("root")[0]
	for _, s := range append(j.sides("root"), j.sides("tip")...) {
		if s.width < thinnest.width {
			thinnest = s
		}
	}
	if 2*m.Wall >= thinnest.width {
		j.say("mast.wall", "%v leaves no bore in a %v section; use less than %v", m.Wall, thinnest.width, thinnest.width/2)
	}
	if m.Section == "rectangular" && 2*m.Corner > thinnest.width {
		j.say("mast.corner", "%v is more than half of a %v section; use at most %v", m.Corner, thinnest.width, thinnest.width/2)
	}
}

func (j *judge) mast() {
	m := j.d.Mast
	if m.Build != "column" {
		return
	}
	spread, spreads := j.d.tipSpread(), "mast.tip_fillet"
	if j.d.Tray.Flare > 0 {
		spreads = "tray.flare"
	}
	least := j.d.Foot.Thickness + m.RootFillet + spread + j.d.Tray.Thickness
	if m.Height <= least {
		j.say("mast.height", "%v leaves no mast between foot and tray: foot %v, fillets %v and %v, tray %v; use more than %v",
			m.Height, j.d.Foot.Thickness, m.RootFillet, spread, j.d.Tray.Thickness, least)
	}
	foot, known := j.d.FootSize()
	for i, s := range j.sides("root") {
		across := [2]units.Length{foot.X, foot.Y}[i]
		switch {
		case !known:
		case s.width > across:
			j.say(s.path, "%v is wider than the %v foot; use at most %v or a larger foot", s.width, across, across)
		case s.width+2*m.RootFillet > across:
			j.say("mast.root_fillet", "%v does not fit on the %v foot beside a %v root; use at most %v", m.RootFillet, across, s.width, (across-s.width)/2)
		}
	}
	tray, known := j.d.TraySize()
	for i, s := range j.sides("tip") {
		across := [2]units.Length{tray.X, tray.Y}[i]
		switch {
		case !known:
		case s.width > across:
			j.say(s.path, "%v is wider than the %v tray; use at most %v or a larger tray", s.width, across, across)
		case s.width+2*spread > across:
			j.say(spreads, "%v does not fit under the %v tray beside a %v tip; use at most %v", spread, across, s.width, (across-s.width)/2)
		}
	}
}

func (j *judge) cableWay() {
	m, way := j.d.Mast, j.d.Mast.CableWay
	if way.Side == "none" || m.Build != "column" {
		return
	}
	root, tip := m.Outline(m.Root), m.Outline(m.Tip)
	flat := min(root.Y, tip.Y)
	if way.Side == "left" || way.Side == "right" {
		flat = min(root.X, tip.X)
	}
	if m.Section == "rectangular" {
		flat -= 2 * m.Corner
	} else {
		flat -= 2 * m.Wall
	}
	if way.Width > flat {
		j.say("mast.cable_way.width", "%v is wider than the mast's flat side of %v; use at most that, a smaller corner or a wider mast", way.Width, max(flat, 0))
	}
	from, to := j.d.Foot.Thickness, m.Height-j.d.Tray.Thickness
	switch {
	case way.Bottom < from:
		j.say("mast.cable_way.bottom", "%v lies in the %v foot; use at least %v", way.Bottom, from, from)
	case way.Bottom >= to:
		j.say("mast.cable_way.bottom", "%v is above the mast, which ends at %v; use less", way.Bottom, to)
	case way.Bottom+way.Length > to:
		j.say("mast.cable_way.length", "%v from %v up ends above the mast, which ends at %v; use at most %v", way.Length, way.Bottom, to, rounded(to-way.Bottom))
	}
}

func (j *judge) foot() {
	f := j.d.Foot
	if 2*f.Relief >= f.Thickness {
		j.say("foot.relief", "%v takes the edge of a %v foot away; use less than %v", f.Relief, f.Thickness, f.Thickness/2)
	}
	size, known := j.d.FootSize()
	if !known || j.d.Mast.Build == "legs" {
		return
	}
	if least := min(size.X, size.Y); 2*f.Corner > least {
		j.say("foot.corner", "%v is more than half of the %v foot; use at most %v", f.Corner, least, least/2)
	}
	place, _ := j.d.PlaceChosen()
	spots, _, err := place.Holes.Centres()
	if err != nil || place.Holes.Diameter == 0 {
		return
	}
	for axis, path := range []string{"foot.size.x", "foot.size.y"} {
		across := [2]units.Length{size.X, size.Y}[axis]
		for i, s := range spots {
			reach := max([2]units.Length{s.X, s.Y}[axis], -[2]units.Length{s.X, s.Y}[axis]) + place.Holes.Diameter/2
			if 2*reach > across {
				j.say(path, "%v leaves hole %d beyond the foot's edge; use at least %v", across, i+1, rounded(2*reach+4))
				break
			}
		}
	}
}

func (j *judge) tray() {
	t, r := j.d.Tray, j.d.Receiver
	if least, ok := j.d.trayLeast(); ok {
		j.tooSmall("tray.size.x", t.Size.X, least.X)
		j.tooSmall("tray.size.y", t.Size.Y, least.Y)
	}
	size, ok := j.d.TraySize()
	if !ok {
		return
	}
	if least := min(size.X, size.Y); 2*t.Corner > least {
		j.say("tray.corner", "%v is more than half of the %v tray; use at most %v", t.Corner, least, least/2)
	}
	floor := size
	if r.Fixing == "rim" {
		floor = Rectangle{size.X - 2*t.RimWall, size.Y - 2*t.RimWall}
		if r.Size.Z > 0 && t.RimHeight > r.Size.Z {
			j.say("tray.rim_height", "%v is higher than the %v receiver and would stand over it; use at most %v", t.RimHeight, r.Size.Z, r.Size.Z)
		}
	}
	if t.Opening.X >= floor.X {
		j.say("tray.opening.x", "%v is no smaller than the tray's floor of %v; use less", t.Opening.X, floor.X)
	}
	if t.Opening.Y >= floor.Y {
		j.say("tray.opening.y", "%v is no smaller than the tray's floor of %v; use less", t.Opening.Y, floor.Y)
	}
}

func (j *judge) tooSmall(path string, given, least units.Length) {
	if given == 0 || given >= least-1e-9 {
		return
	}
	what := "the receiver with its play and rim"
	if j.d.Receiver.Fixing == "screws" {
		what = "the receiver and its screws"
	}
	j.say(path, "%v is smaller than %s; use at least %v", given, what, rounded(least))
}

// rounded drops what arithmetic left behind the hundredths.
func rounded(l units.Length) units.Length {
	return units.Length(float64(int64(float64(l)*100+0.5)) / 100)
}

func (j *judge) print() {
	p := j.d.Print
	if p.Layer >= p.LineWidth {
		j.say("print.layer", "%v is no thinner than the %v line and cannot bond; use at most %v", p.Layer, p.LineWidth, rounded(p.LineWidth*0.75))
	}
}

// limits checks that passing is stricter than being marginal.
func (j *judge) limits() {
	for _, name := range []string{"clearance", "propeller", "modes", "strength", "tipover", "heat", "mast_wall"} {
		j.ordered("limits."+name, false)
	}
	for _, name := range []string{"heading_hold", "heading_full", "level", "tilt", "sway", "shake", "remanent", "sky", "bus", "balance"} {
		j.ordered("limits."+name, true)
	}
}

func (j *judge) ordered(path string, atMost bool) {
	_, pass, _ := j.d.leaf(path + ".pass")
	_, marginal, _ := j.d.leaf(path + ".marginal")
	switch p, m := pass.Float(), marginal.Float(); {
	case atMost && m < p:
		j.say(path+".marginal", "%s is below the pass limit %s, so nothing could be marginal; use at least that", j.d.Get(path+".marginal"), j.d.Get(path+".pass"))
	case !atMost && m > p:
		j.say(path+".marginal", "%s is above the pass limit %s, so nothing could be marginal; use at most that", j.d.Get(path+".marginal"), j.d.Get(path+".pass"))
	}
}
